package tables

import (
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"example.com/plumbline/internal/yamldoc"
)

// Each row makes one mistake in the shipped table of 2026: the first old within
// the group becomes new. The problem is told at the line of at, which is in
// new or, where the mistake shows elsewhere, in the rest of the group.
var broken = []struct {
	mistake      string
	group        string
	old, new, at string
	key, message string // the message may go on
}{
	{
		"amount with a comma for the point", "standard_deduction", `"16100"`, `"16.100,5"`, `"16.100,5"`,
		"standard_deduction.basic.single", `"16.100,5" is not an amount; write it like 1200.50`,
	},
	{
		"negative amount", "standard_deduction", `"16100"`, `"-16100"`, `"-16100"`,
		"standard_deduction.basic.single", "cannot be negative",
	},
	{
		"negative number", "standard_deduction", "aged_from: 65", "aged_from: -65", "aged_from",
		"standard_deduction.aged_from", "cannot be negative",
	},
	{
		"rate as a percentage", "rate_schedules", `rate: "0.12"`, `rate: "12"`, `rate: "12"`,
		"rate_schedules.by_status.single[1].rate", `"12" is not a rate; write a fraction from 0 to 1 like 0.22`,
	},
	{
		"age in words", "standard_deduction", "aged_from: 65", "aged_from: old", "aged_from",
		"standard_deduction.aged_from", `"old" is not a whole number; write it like 3`,
	},
	{
		"no such date", "underpayment", "2026-06-15", "2026-06-31", "2026-06-31",
		"underpayment.installments.due[1]", `"2026-06-31" is not a date; write it like 2026-06-15`,
	},
	{
		"no value", "standard_deduction", "aged_from: 65", "aged_from:", "aged_from:",
		"standard_deduction.aged_from", "has no value; write one or leave the key out",
	},
	{
		"unknown key", "social_security_tax", "wage_base:", "wage_bass:", "wage_bass:",
		"social_security_tax.wage_bass", `unknown key; did you mean "wage_base"?`,
	},
	{
		"missing key", "social_security_tax", `    amount: "184500"` + "\n", "", "  wage_base:",
		"social_security_tax.wage_base.amount", "this key is required; add it",
	},
	{
		"missing status", "gifts_without_itemizing", `    qualifying_surviving_spouse: "1000"` + "\n", "", "cap:",
		"gifts_without_itemizing.cap.qualifying_surviving_spouse", "this key is required; add it",
	},
	{
		"repeated key", "child_tax_credit", "child_under: 17", "child_under: 17\n  child_under: 18", "child_under: 18",
		"child_tax_credit.child_under", "this key is already on line ",
	},
	{
		"missing source", "charity", "source:", "# source:", "charity:",
		"charity.source", "this key is required; add it",
	},
	{
		"empty source", "net_investment_income_tax", `source: "IRC 1411; Instructions for Form 8960"`, `source: ""`, "source:",
		"net_investment_income_tax.source", "has no value; name the publication and its section",
	},
	{
		"basis that is none", "charity", "basis: mixed", "basis: rumor", "basis: rumor",
		"charity.basis", `"rumor" is not a basis; write one of: found, derived, mixed, memory`,
	},
	{
		"mixed without saying what", "charity", "basis: mixed\n  memory: [other_limit]\n  note:", "basis: mixed\n  # note:", "basis: mixed",
		"charity.basis", "is mixed, but nothing says what is not found; list the figures under memory or derived",
	},
	{
		"list of what is not found, but all is", "charity", "basis: mixed", "basis: found", "memory:",
		"charity.memory", "belongs in a group whose basis is mixed; this one is all found",
	},
	{
		"first bracket not at zero", "rate_schedules", `over: "0"`, `over: "1"`, `over: "1"`,
		"rate_schedules.by_status.single[0].over", "the first bracket must begin at 0, not 1",
	},
	{
		"bracket that does not rise", "rate_schedules", `over: "50400"`, `over: "12400"`, `over: "12400", rate: "0.22"`,
		"rate_schedules.by_status.single[2].over", "brackets must rise: 12400 is not more than 12400 before it",
	},
	{
		"rate that does not rise", "rate_schedules", `rate: "0.22"`, `rate: "0.12"`, `over: "50400"`,
		"rate_schedules.by_status.single[2].rate", "rates must rise: 0.12 is not more than 0.12 before it",
	},
	{
		"uneven run of rows", "tax_table", `{below: "25", width: "10"}`, `{below: "25", width: "15"}`, `width: "15"`,
		"tax_table.rows[1].width", "the run from 5 to 25 is not a whole number of rows",
	},
	{
		"rows of no width", "tax_table", `{below: "25", width: "10"}`, `{below: "25", width: "0"}`, `width: "0"`,
		"tax_table.rows[1].width", "must be more than 0",
	},
	{
		"zones of gains crossed", "capital_gains", `single: "545500"`, `single: "45500"`, `single: "45500"`,
		"capital_gains.middle_rate_up_to.single", "45500 is less than 49450, the top of the zero rate",
	},
	{
		"range that ends before it begins", "education_credits", `{from: "80000", to: "90000"}`, `{from: "80000", to: "9000"}`, `to: "9000"`,
		"education_credits.phase_out.single.to", "9000 is less than 80000, where the range begins",
	},
	{
		"no step", "tips_deduction", `step: "1000"`, `step: "0"`, `step: "0"`,
		"tips_deduction.phase_out.step", "must be more than 0",
	},
	{
		"no divisor", "itemized_deductions", "denominator: 37", "denominator: 0", "denominator:",
		"itemized_deductions.overall_limit.denominator", "must be more than 0",
	},
	{
		"rates of tiers not falling", "savers_credit", `rate: "0.20"`, `rate: "0.60"`, `rate: "0.60"`,
		"savers_credit.tiers[1].rate", "rates must fall: 0.6 is not less than 0.5 before it",
	},
	{
		"phase-out of a credit reversed", "earned_income_credit", `completed_phase_out: "19540"`, `completed_phase_out: "9540"`, `completed_phase_out: "9540"`,
		"earned_income_credit.by_children[0].completed_phase_out", "9540 is less than 10860, where the phase-out begins",
	},
	{
		"due dates out of order", "underpayment", "2026-06-15", "2026-04-15", "due: ",
		"underpayment.installments.due[1]", "dates must rise: 2026-04-15 is not after 2026-04-15",
	},
	{
		"a due date too few", "underpayment", ", 2027-01-15", "", "due: ",
		"underpayment.installments.due", "has 3 dates; it needs 4",
	},
	{
		"interest that begins late", "underpayment", "{from: 2026-04-01", "{from: 2026-05-01", "{from: 2026-05-01",
		"underpayment.interest.rates[0].from", "2026-05-01 is after 2026-04-15, the first due date",
	},
	{
		"interest from April of the next year", "underpayment", "{from: 2027-01-01", "{from: 2027-04-01", "{from: 2027-04-01",
		"underpayment.interest.rates[3].from", "2027-04-01 is too late: until April 15 the rate of March goes on; delete this row",
	},
	{
		"no pay periods", "payroll", "biweekly: 26", "biweekly: 0", "biweekly: 0",
		"payroll.pay_periods.biweekly", "must be more than 0",
	},
	{
		"pay periods of another frequency", "payroll", "biweekly: 26", "biweekly: 52", "biweekly: 52",
		"payroll.pay_periods.biweekly", "52 is not less than the 52 of a shorter period",
	},
	{
		"short row of cells", "form_w4", `cells: ["0", "0", `, `cells: ["0", `, `cells: ["0", `,
		"form_w4.multiple_jobs.married_filing_jointly.rows[0].cells", "has 11 cells; the table has 12 columns",
	},
	{
		"cells that fall", "form_w4", `"0", "0", "480"`, `"0", "480", "0"`, `"0", "480", "0"`,
		"form_w4.multiple_jobs.married_filing_jointly.rows[0].cells[2]", "cells must not fall: 0 comes after 480",
	},
	{
		"rows out of order", "form_w4", `- {from: "20000"`, `- {from: "10000"`, `- {from: "10000", cells: ["480"`,
		"form_w4.multiple_jobs.married_filing_jointly.rows[2].from", "must rise: 10000 is not more than 10000 before it",
	},
	{
		"shares that do not begin at no income", "premium_tax_credit", "{from_percent: 0,", "{from_percent: 1,", "{from_percent: 1,",
		"premium_tax_credit.applicable_percentage.rows[0].from_percent", "the first row must begin at 0, not 1",
	},
	{
		"shares out of order", "premium_tax_credit", "from_percent: 150", "from_percent: 133", `from_percent: 133, first: "0.0419"`,
		"premium_tax_credit.applicable_percentage.rows[2].from_percent", "rows must rise: 133 is not more than 133 before it",
	},
	{
		"share that falls", "premium_tax_credit", `last: "0.0419"`, `last: "0.0300"`, `last: "0.0300"`,
		"premium_tax_credit.applicable_percentage.rows[1].last", "0.03 is less than 0.0314, where the row begins",
	},
	{
		"last share that rises", "premium_tax_credit", `first: "0.0996", last: "0.0996"`, `first: "0.0996", last: "0.1000"`, `last: "0.1000"`,
		"premium_tax_credit.applicable_percentage.rows[5].last", "the last row has no end",
	},
	{
		"caps out of order", "premium_tax_credit", "self_employed_plans:",
		`  repayment: {source: s, basis: found, caps: [{below_percent: 200, single: "1", others: "2"}, {below_percent: 200, single: "3", others: "4"}]}

self_employed_plans:`, "  repayment: ",
		"premium_tax_credit.repayment.caps[1].below_percent", "caps must rise: 200 is not more than 200 before it",
	},
	{
		"no poverty line", "premium_tax_credit", `{one: "15650"`, `{one: "0"`, `one: "0"`,
		"premium_tax_credit.poverty_line.states.one", "must be more than 0",
	},
}

func TestBrokenTables(t *testing.T) {
	for _, tt := range broken {
		t.Run(tt.mistake, func(t *testing.T) {
			data, line := breakTable(t, tt.group, tt.old, tt.new, tt.at)
			files := fstest.MapFS{"2026.yaml": {Data: []byte(data)}}
			_, err := Load(files, 2026)
			problems, ok := err.(yamldoc.Problems)
			if !ok {
				t.Fatalf("Load gives %v, want a problem", err)
			}
			if checked := Check(files); !tellsAll(checked, problems) || len(checked) > len(problems) {
				t.Errorf("Check gives\n%v\nLoad\n%v", checked, problems)
			}
			for _, p := range problems {
				if p.What.Code == yamldoc.Said("").Code {
					t.Errorf("%v is said in English alone", p)
				}
				if p.File == "2026.yaml" && p.Line == line && p.Column > 0 && p.Key == tt.key && strings.HasPrefix(p.Message(), tt.message) {
					return
				}
			}
			t.Errorf("got\n%v\nwant on line %d: %s: %s", problems, line, tt.key, tt.message)
		})
	}
}

// tellsAll reports whether every one of some problems is among all.
func tellsAll(all, some yamldoc.Problems) bool {
	for _, p := range some {
		if !slices.ContainsFunc(all, func(q yamldoc.Problem) bool { return q.Error() == p.Error() }) {
			return false
		}
	}
	return true
}

// breakTable makes a mistake in the table of 2026, and finds the first line of the
// group that has at.
func breakTable(t *testing.T, group, old, new, at string) (data string, line int) {
	t.Helper()
	whole := text(t, 2026)
	start := strings.Index(whole, "\n"+group+":") + 1
	if start == 0 || !strings.Contains(whole[start:], old) {
		t.Fatalf("the table of 2026 has no %q in %s", old, group)
	}
	data = whole[:start] + strings.Replace(whole[start:], old, new, 1)
	place := strings.Index(data[start:], at)
	if place < 0 {
		t.Fatalf("no %q in %s", at, group)
	}
	return data, 1 + strings.Count(data[:start+place], "\n")
}

func TestYearContradictsFile(t *testing.T) {
	files := fstest.MapFS{"2027.yaml": {Data: []byte(text(t, 2026))}}
	_, err := Load(files, 2027)
	const want = "2027.yaml:8:1: year: 2026 contradicts the name of the file, 2027.yaml; correct one of them"
	if err == nil || err.Error() != want {
		t.Errorf("got  %v\nwant %s", err, want)
	}
}

// Mistakes are told all at once, file by file, in the order of the text.
func TestAllProblemsAtOnce(t *testing.T) {
	data := strings.NewReplacer(`"16100"`, `"-16100"`, `basis: mixed`, `basis: open`, "aged_or_blind:\n    single: \"2050\"", "aged_or_blind:\n    single: open", "child_under: 17", "child_under: x").Replace(text(t, 2026))
	problems := Check(fstest.MapFS{"2026.yaml": {Data: []byte(data)}, "2031.yaml": {Data: []byte("year: 2031\n")}})
	want := []string{"standard_deduction.basic.single", "standard_deduction.aged_or_blind.single", "child_tax_credit.child_under"}
	for i, p := range problems {
		if len(want) > 0 && p.File == "2026.yaml" && p.Key == want[0] {
			want = want[1:]
		}
		if i > 0 && (problems[i-1].File > p.File || problems[i-1].File == p.File && problems[i-1].Line > p.Line) {
			t.Errorf("out of order:\n%v\n%v", problems[i-1], p)
		}
	}
	if len(want) > 0 || problems[len(problems)-1].File != "2031.yaml" {
		t.Errorf("no problem told with %v and 2031.yaml in\n%v", want, problems)
	}
}

// A change of later years that cannot be made is named by its place, and again
// where such a year is asked for.
func TestBrokenChange(t *testing.T) {
	for _, tt := range []struct{ figures, want string }{
		{`{adjustments.health_savings.self: "4500"}`, `"adjustments.health_savings.self" names no figure`},
		{`{child_tax_credit.source: "IRC 24"}`, `"child_tax_credit.source" names no figure`},
		{`{child_tax_credit.per_child: "4,5x"}`, `child_tax_credit.per_child: `},
	} {
		const before = `{adjustments.health_savings.self_only: "4500", adjustments.health_savings.family: "9000"}`
		data := strings.Replace(text(t, 2026), before, tt.figures, 1)
		files := fstest.MapFS{"2026.yaml": {Data: []byte(data)}}
		if p := Check(files); len(p) != 1 || p[0].Key != "later_years.changes[0]" || !strings.HasPrefix(p[0].Message(), tt.want) {
			t.Errorf("%s: problems:\n%v", tt.figures, p)
		}
		if _, err := ForYear(files, 2027, nil); err == nil || !strings.HasPrefix(err.Error(), "2027 cannot be projected from 2026: "+tt.want) {
			t.Errorf("%s: %v", tt.figures, err)
		}
	}
}

func TestCheckLists(t *testing.T) {
	data := strings.Replace(text(t, 2026), "memory: [other_limit]", "memory: [other_limits]", 1)
	problems := Check(fstest.MapFS{"2026.yaml": {Data: []byte(data)}})
	if len(problems) != 1 || problems[0].Key != "charity.memory[0]" || problems[0].Message() != `"other_limits" names no figure of this group` {
		t.Errorf("problems:\n%v", problems)
	}
	if problems := Check(fstest.MapFS{"notes.txt": {}}); len(problems) != 1 {
		t.Errorf("an empty folder gives %v", problems)
	}
}
