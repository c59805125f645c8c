package certificate

import (
	"fmt"
	"strings"
	"testing"

	"example.com/plumbline/internal/words"
	"example.com/plumbline/internal/worksheet"
)

// oneJob is one single person's job in the year's answers.
func oneJob(asOf, job string) string {
	return "format: 1\ntax_year: 2026\nas_of: " + asOf + "\nfiling_status: single\nself: {birth_date: 1990-06-01}\njobs:\n  - {name: Mill, " + job + "}\n"
}

// A job that pays nothing at all is the first thing to know; one that pays once
// a year is not such a job.
func TestNoPayIsSaidFirst(t *testing.T) {
	r := solvedText(t, oneJob("2026-03-02", "pay_frequency: biweekly, first_payday: 2026-01-09"))
	if len(r.Warnings) == 0 || r.Warnings[0].Code != "job.no_pay" || !strings.HasPrefix(r.Warnings[0].Said(words.English()), "Mill: ") || warned(r, "no_stub") != "" {
		t.Errorf("warned %+v", r.Warnings)
	}
	for _, pays := range []string{"gross_pay: 900", "one_time_pay: [{payday: 2026-12-11, amount: 900}]", "year_to_date: {payday: 2026-02-20, taxable_pay: 900, federal_tax: 5}"} {
		if m := warned(solvedText(t, oneJob("2026-03-02", "pay_frequency: biweekly, first_payday: 2026-01-09, "+pays)), "job.no_pay"); m != "" {
			t.Errorf("%s: warned %q", pays, m)
		}
	}
}

// Paydays behind the day of the answers, without a stub, are an assumption.
func TestPastPaydaysWithoutAStubAreNamed(t *testing.T) {
	const job = "pay_frequency: biweekly, taxable_pay: 2000, first_payday: 2026-01-09, certificate: {filing_status: single}"
	if m := warned(solvedText(t, oneJob("2026-02-06", job)), "no_stub"); !strings.Contains(m, "2 paydays before February 6") {
		t.Errorf("warned %q", m)
	}
	if m := warned(solvedText(t, oneJob("2026-01-09", job)), "no_stub"); m != "" {
		t.Errorf("no payday has passed; warned %q", m)
	}
	stub := ", year_to_date: {payday: 2026-01-23, taxable_pay: 4000, federal_tax: 300}"
	if m := warned(solvedText(t, oneJob("2026-02-06", job+stub)), "no_stub"); m != "" {
		t.Errorf("there is a stub; warned %q", m)
	}
}

const oneParent = `
format: 1
tax_year: 2026
as_of: 2026-03-02
filing_status: head_of_household
self: {birth_date: 1990-06-01}
jobs:
  - {name: Mill, pay_frequency: biweekly, taxable_pay: 900, first_payday: 2026-01-09, year_to_date: {payday: 2026-02-20, taxable_pay: 3600, federal_tax: 0}, certificate: {filing_status: head_of_household}}
dependents: [{name: a, birth_date: 2018-02-02}, {name: b, birth_date: 2020-02-02}]
`

// A refund of refundable credits is not too much withheld (IRC 32, 24(d)). And
// where nothing is withheld either way, January asks for no other certificate.
func TestARefundOfCredits(t *testing.T) {
	r := solvedText(t, oneParent)
	if r.AsFiled.WithholdingToCome.IsPositive() || !r.AsFiled.Balance.IsPositive() {
		t.Fatalf("as filed %+v", r.AsFiled)
	}
	if s := say(r.Verdict.Sentences[1]); r.Verdict.Code != ChangeNothing || !strings.Contains(s, "credits that you get whatever is withheld") || strings.Contains(s, "too much") {
		t.Errorf("%s: %s", r.Verdict.Code, s)
	}
	if j := r.January; j == nil || !j.NothingToHandIn() || j.Certificates[0].Withholding.IsPositive() {
		t.Errorf("January %+v", j)
	}
}

// What goes into Step 3 beyond the credits is told in plain words, with the
// year it holds for (Publication 505, Worksheet 1-5, line 6).
func TestStep3BeyondCreditsIsTold(t *testing.T) {
	r := solvedText(t, strings.Replace(oneJob("2026-08-03", "pay_frequency: biweekly, taxable_pay: 2600, first_payday: 2026-01-09, year_to_date: {payday: 2026-07-24, taxable_pay: 39000, federal_tax: 4700}, certificate: {filing_status: single}"),
		"jobs:", "dependents: [{name: a, birth_date: 2018-02-02}]\njobs:", 1))
	e := planOf(t, r, PlanTuned).Certificates[0].Lines.L3
	more := e.Amount.Sub(dollars(2200)) // IRC 24(h)(2)
	want := "$2,200 of credits, and $" + more.GroupedDollars() + " more."
	if !more.IsPositive() || !strings.HasPrefix(say(e.Reason), want) || !strings.Contains(say(e.Reason), "the rest of 2026") {
		t.Errorf("Step 3 of %v: %s", e.Amount, say(e.Reason))
	}
	if reason := r.Trace.ExplainFrom(worksheetLine(e)); len(reason.From) != 2 {
		t.Errorf("comes from %+v, want the form's Step 3 and the plan's gap", reason.From)
	}
}

// worksheetLine is an entry as the line that explain begins at.
func worksheetLine(e Entry) worksheet.Line { return worksheet.Line{Amount: e.Amount, From: e.From} }

// Who is short, has unemployment benefits and has chosen no withholding is told
// that 10% can be withheld from them (IRC 3402(p)(2)); nobody else is.
func TestWithholdingFromUnemploymentIsNamed(t *testing.T) {
	const job = "pay_frequency: biweekly, taxable_pay: 2000, first_payday: 2026-01-09, certificate: {filing_status: single}"
	for _, tt := range []struct {
		more string
		want bool
	}{
		{"income: {unemployment: 9000}\n", true},
		{"income: {unemployment: 9000}\npayments: {unemployment_withholding: {percent: 10}}\n", false},
		{"income: {unemployment: 100}\n", false}, // 12 of tax
		{"income: {other: 9000}\n", false},
	} {
		said := warned(solvedText(t, oneJob("2026-02-06", job)+tt.more), "unemployment_withholding")
		if (said != "") != tt.want || tt.want && !strings.Contains(said, "10%") {
			t.Errorf("%s: said %q", tt.more, said)
		}
	}
}

// Where nothing is handed in and the year counts a child not born yet, the verdict
// says so, with what follows if the birth comes later (IRC 24(a), (h)(2)): once
// born, nothing is said.
func TestAnUnbornChildWhereNothingChanges(t *testing.T) {
	const text = "format: 1\ntax_year: 2026\nas_of: %s\nfiling_status: married_filing_jointly\nself: {birth_date: 1990-06-01}\nspouse: {birth_date: 1990-06-01}\n" +
		"jobs:\n  - {name: Mill, pay_frequency: biweekly, taxable_pay: 2600, first_payday: 2026-01-09, certificate: {filing_status: married_filing_jointly}}\n" +
		"dependents: [{name: baby, birth_date: 2026-10-10}]\nwish: {refund: 2200}\n"
	for _, tt := range []struct {
		asOf string
		want bool
	}{{"2026-09-01", true}, {"2026-10-12", false}} {
		v := solvedText(t, fmt.Sprintf(text, tt.asOf)).Verdict
		said := ""
		for _, s := range v.Sentences {
			said += say(s) + " "
		}
		if v.Forms != 0 || (strings.Contains(said, "only if the child is born") && strings.Contains(said, "$2,200 less")) != tt.want {
			t.Errorf("on %s: %s %s", tt.asOf, v.Code, said)
		}
	}
}

// Before the birth the entry that counts the child has a doubt, with the entries that
// are advised without it: the child's 2,200 (IRC 24(a), (h)(2)) and, at an income of
// about 95,000, 35% of 3,000 of care for a second child (IRC 21(a)(2), (c)) are not in
// Step 3 then, 6,500 − 3,250, and Step 4(c) is another. After the birth there is none.
func TestUntilTheBirthTheEntriesWithoutTheChildAreSafe(t *testing.T) {
	const text = "format: 1\ntax_year: 2026\nas_of: 2026-02-10\nfiling_status: married_filing_jointly\n" +
		"jobs:\n  - {name: Mill, pay_frequency: biweekly, taxable_pay: 3000, first_payday: 2026-01-09, certificate: {filing_status: single}}\n" +
		"  - {name: Shop, earner: spouse, pay_frequency: biweekly, taxable_pay: 1000, first_payday: 2026-01-09, certificate: {filing_status: single}}\n" +
		"dependents: [{name: Ada, birth_date: 2022-03-01, care_expenses: 9000}%s]\n"
	with, without := solvedText(t, fmt.Sprintf(text, ", {birth_date: 2026-10-10}")), solvedText(t, fmt.Sprintf(text, ""))
	if len(with.Doubts) != 1 || with.Doubts[0].Entry != "3a" || len(without.Doubts) > 0 {
		t.Fatalf("doubts %v, and without the child %v", with.Doubts, without.Doubts)
	}
	then := without.Recommended.Certificates[0].Lines
	want := fmt.Sprintf("You may wait: until the birth, safe entries are $2,200 in Step 3(a), $3,250 in Step 3 and $%s in Step 4(c). Leave the other steps empty then.", then.L4c.Amount.Text())
	if got := say(with.Doubts[0].Safe); got != want || !then.L3.Amount.Equal(dollars(3250)) {
		t.Errorf("%s\nwant %s", got, want)
	}
}

// Who has tax withheld from benefits and owes none of it is told how to stop it
// (IRC 3402(p)(1)): 20,000 of benefits alone are not taxed (IRC 86(c)(1)), and 10%
// of them is 2,000. Without that percent, or with other income to tax, nothing is said.
func TestWithholdingFromBenefitsThatNobodyOwes(t *testing.T) {
	const head = "format: 1\ntax_year: 2026\nas_of: 2026-02-06\nfiling_status: single\nself: {birth_date: 1956-06-01}\n"
	for _, tt := range []struct {
		text string
		want bool
	}{
		{"income: {social_security: 20000}\npayments: {social_security_withholding: {percent: 10}}\n", true},
		{"income: {social_security: 20000}\n", false},
		{"income: {social_security: 20000, retirement: 40000}\npayments: {social_security_withholding: {percent: 10}}\n", false},
	} {
		if said := warned(solvedText(t, head+tt.text), "benefits_over_withheld"); (said != "") != tt.want {
			t.Errorf("%s: said %q", tt.text, said)
		}
	}
}

// Why a form is advised does not say that the year ends near the goal where much
// more comes back whatever is written: 5,000 were withheld by November, and the tax
// of 30,000 − 16,100 is about 1,420.
func TestWhyWhereMoreComesBackAnyway(t *testing.T) {
	for withheld, want := range map[string]bool{"5000": true, "1080": false} {
		r := solvedText(t, oneJob("2026-10-27", "pay_frequency: monthly, taxable_pay: 2500, first_payday: 2026-01-20, year_to_date: {payday: 2026-10-20, taxable_pay: 25000, federal_tax: "+withheld+"}, certificate: {filing_status: single, extra: 150}"))
		if got := r.Recommended.Reason.Code == "certificate.why.anyway"; got != want {
			t.Errorf("%s withheld: %s with %s, ending on %v", withheld, r.Recommended.Name, r.Recommended.Reason.Code, r.Recommended.Balance)
		}
	}
}

// A credit that is lost for want of a number is said with its amount: a child without
// one leaves the credit for other dependents, 500, of the 2,200 (IRC 24(h)(4), (7)).
func TestCreditsLostForWantOfANumber(t *testing.T) {
	const job = "pay_frequency: biweekly, taxable_pay: 2600, first_payday: 2026-01-09, certificate: {filing_status: single}"
	for valid, want := range map[string]bool{"true": false, "false": true} {
		said := warned(solvedText(t, oneJob("2026-02-02", job)+"dependents: [{name: Ada, birth_date: 2018-02-02, ssn_valid_for_work: "+valid+"}]\n"), "number_missing")
		if got := strings.Contains(said, "Without it (Ada) you get back about $1,700 less for 2026"); got != want || !want && said != "" {
			t.Errorf("number valid %s: said %q", valid, said)
		}
	}
}
