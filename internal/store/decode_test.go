package store

import (
	"errors"
	"fmt"
	"reflect"
	"strings"
	"testing"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/words"
	"example.com/plumbline/internal/yamldoc"
)

var today = household.On(2026, 6, 15)

// head is the smallest file in good form.
const head = "format: 1\ntax_year: 2026\nfiling_status: single\n"

// noSSN is what is said of a social security number.
const noSSN = "this program never keeps a social security number; take it out"

func TestDecode(t *testing.T) {
	for name, text := range map[string]string{
		"YAML":                    head,
		"JSON":                    `{"format": 1, "tax_year": 2026, "filing_status": "single"}`,
		"byte order mark":         "\ufeff" + head,
		"lines that end in CR LF": strings.ReplaceAll(head, "\n", "\r\n"),
	} {
		h, doc, err := Decode("a.yaml", []byte(text), today)
		want := household.Household{Format: 1, TaxYear: 2026, AsOf: today}
		if err != nil || doc == nil || !reflect.DeepEqual(h, want) {
			t.Errorf("%s: Decode = %+v, %v, %v", name, h, doc, err)
		}
	}
}

// problemLines are an error's lines without the file's name.
func problemLines(err error) string {
	if err == nil {
		return ""
	}
	return strings.ReplaceAll("\n"+err.Error(), "\na.yaml:", "\n")[1:]
}

// What a hostile or careless file holds, and exactly what is said of it.
func TestDecodeRefuses(t *testing.T) {
	job := func(field string) string { return head + "jobs:\n  - pay_frequency: weekly\n    " + field + "\n" }
	tests := []struct{ name, text, want string }{
		// Names.
		{"terminal escape", job("name: \"\x1b[2J\""), "6:12: contains a control character (U+001B); remove it"},
		{"terminal escape, escaped", job(`name: "\e[2J"`), "6:11: jobs[0].name: contains a control character (U+001B); remove it"},
		{"right-to-left mark", job("name: \u202egnp"), "6:5: jobs[0].name: contains an invisible character (U+202E); use plain text"},
		{"right-to-left mark, escaped", job(`name: "\u202e"`), "6:5: jobs[0].name: contains an invisible character (U+202E); use plain text"},
		{"newline", job(`name: "a\nb"`), "6:5: jobs[0].name: contains an invisible character (U+000A); use plain text"},
		{"10,000 characters", job("name: " + strings.Repeat("x", 10_000)), "6:5: jobs[0].name: 10000 characters are too many; write a short plain name of at most 60"},
		{"10,001 characters", job("name: " + strings.Repeat("x", 10_001)), "6:11: jobs[0].name: the text is longer than 10,000 bytes; shorten it"},
		{"mark in an unknown key", head + "a\u202eb: 1\n", `4:1: a\u202eb: unknown key; remove it, or check its spelling`},

		// Amounts.
		{"1e999", head + "income: {interest: 1e999}\n", `4:20: income.interest: "1e999" is not an amount; write it like 1200.50`},
		{"NaN", head + "income: {interest: NaN}\n", `4:20: income.interest: "NaN" is not an amount; write it like 1200.50`},
		{".inf", head + "income: {interest: .inf}\n", `4:20: income.interest: ".inf" is not an amount; write it like 1200.50`},
		{"0x10", head + "income: {interest: 0x10}\n", `4:20: income.interest: "0x10" is not an amount; write it like 1200.50`},
		{"other digits", head + "income: {interest: ١٢٣}\n", `4:20: income.interest: "١٢٣" is not an amount; write it like 1200.50`},
		{"fifty digits", head + "income: {interest: " + strings.Repeat("9", 50) + "}\n", `4:20: income.interest: "` + strings.Repeat("9", 40) + `…" is larger than any amount this program takes`},
		{"fifty places", head + "income: {interest: 0." + strings.Repeat("9", 50) + "}\n", `4:20: income.interest: "0.` + strings.Repeat("9", 38) + `…" has too many decimal places; write dollars and cents`},
		{"10,000 digits", head + "income: {interest: " + strings.Repeat("9", 10_000) + "}\n", `4:20: income.interest: "` + strings.Repeat("9", 40) + `…" is not an amount; write it like 1200.50`},
		{"negative", head + "income: {interest: -1}\n", `4:10: income.interest: -1.00 cannot be negative; leave the minus sign out`},
		{"comma for the point", head + "income: {interest: '1.200,50'}\n", `4:20: income.interest: "1.200,50" is not an amount; write it like 1200.50`},
		{"no amount", head + "income: {interest: }\n", `4:20: income.interest: has no value; write one or leave the key out`},

		// YAML.
		{"aliases that expand", head + "income: &a {other: 1}\ncredits: *a\n", "4:9: income: an anchor (&a); leave it out\n5:10: credits: an alias (*a); write the value out"},
		{"deep nesting", head + "jobs: " + strings.Repeat("[", 60) + strings.Repeat("]", 60), "4:8: jobs[0]: expected keys with values\n4:56: jobs" + strings.Repeat("[0]", 49) + ": lists and keys are nested more than 50 deep"},
		{"very deep nesting", head + "jobs: " + strings.Repeat("[", 20_000), "4:1: lists and keys are nested too deep"},
		{"very deep JSON", `{"jobs": ` + strings.Repeat("[", 200_000), "1:1: lists and keys are nested too deep"},
		{"tab", head + "income:\n\tinterest: 1\n", "5:1: a tab indents this line; use spaces"},
		{"UTF-16", "\xff\xfef\x00o\x00", "1:1: the file is saved as UTF-16; save it as UTF-8"},
		{"empty", "", "1:1: the file is empty; it needs keys with values, like tax_year: 2026"},
		{"a zero byte", head + "\x00", "4:1: contains a control character (U+0000); remove it"},
		{"Latin-1", head + "jobs: [{name: Caf\xe9}]", "4:18: this is not UTF-8; save the file as UTF-8"},
		{"a word", "hello", "1:1: the file needs keys with values at the top, like tax_year: 2026"},

		// Dates and choices.
		{"impossible date", head + "as_of: 2026-02-30\n", `4:8: as_of: "2026-02-30" is not a date; write it like 2026-06-15`},
		{"unknown choice", "format: 1\ntax_year: 2026\nfiling_status: maried\n", `3:16: filing_status: "maried" is not a filing status; write single, married_filing_jointly, married_filing_separately, head_of_household or qualifying_surviving_spouse`},
		{"unknown key", head + "filing_statsu: single\n", `4:1: filing_statsu: unknown key; did you mean "filing_status"?`},
		{"missing keys", "as_of: 2026-06-15\n", "1:1: format: this key is required; add it\n1:1: tax_year: this key is required; add it\n1:1: filing_status: this key is required; add it"},
		{"missing frequency", head + "jobs:\n  - name: Harbor\n", "5:5: jobs[0].pay_frequency: this key is required; add it"},
		{"no such format", "format: 0\ntax_year: 2026\nfiling_status: single\n", "1:1: format: there is no format 0; write format: 1"},
		{"format that is no number", "format: one\ntax_year: 2026\nfiling_status: single\n", `1:9: format: "one" is not a whole number; write it like 3`},

		// Social security numbers.
		{"number for an amount", head + "income: {interest: 123-45-6789}\n", "4:20: " + noSSN},
		{"number in a name", job("name: me 123-45-6789"), "6:5: jobs[0].name: " + noSSN},
		{"number in a name, without dashes", job("name: 123456789"), "6:5: jobs[0].name: " + noSSN},
		{"number in a comment", head + "# é 123-45-6789, 987-65-4321\n", "4:5: " + noSSN + "\n4:18: " + noSSN},
		{"number for a key", head + "123-45-6789: 1\n", "4:1: " + noSSN},

		// All of a file's mistakes at once.
		{"many mistakes", `format: 1
tax_year: 2026
tax_year: 2025
filing_status: single
filing: single
income: {interest: -1, other: x}
deductions: {medical: -1}
jobs:
  - taxable_pay: -2
    name: "\u202e"
    frequency: weekly
  - pay_frequency: weekly
    year_to_date: {payday: 2025-12-26, taxable_pay: -3}
    certificate: {edition: old, credits: -4}
    one_time_pay: [{amount: -5}]
`, `3:1: tax_year: this key is already on line 2; keep one
5:1: filing: unknown key; remove it, or check its spelling
6:31: income.other: "x" is not an amount; write it like 1200.50
7:14: deductions.medical: -1.00 cannot be negative; leave the minus sign out
9:5: jobs[0].pay_frequency: this key is required; add it
9:5: jobs[0].taxable_pay: -2.00 cannot be negative; leave the minus sign out
10:5: jobs[0].name: contains an invisible character (U+202E); use plain text
11:5: jobs[0].frequency: unknown key; did you mean "pay_frequency"?
13:20: jobs[1].year_to_date.payday: 2025-12-26 is not in tax_year, 2026; year-to-date figures start over each January, so use a stub of that year
13:40: jobs[1].year_to_date.taxable_pay: -3.00 cannot be negative; leave the minus sign out
14:28: jobs[1].certificate.edition: "old" is not an edition of the certificate; write current or before_2020
15:20: jobs[1].one_time_pay[0].payday: this key is required; add it
15:21: jobs[1].one_time_pay[0].amount: -5.00 cannot be negative; leave the minus sign out`},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			h, _, err := Decode("a.yaml", []byte(tt.text), today)
			if got := problemLines(err); got != tt.want {
				t.Errorf("Decode:\n%s\nwant:\n%s", got, tt.want)
			}
			var problems yamldoc.Problems
			if !errors.As(err, &problems) {
				t.Errorf("the error is a %T, not Problems", err)
			}
			if !reflect.DeepEqual(h, household.Household{}) {
				t.Errorf("a household comes with the error: %+v", h)
			}
		})
	}
}

// The worst that fits into a file is refused, and in no more lines than can be read.
func TestDecodeLargest(t *testing.T) {
	fill := func(begin, part, end string) string {
		n := (maxBytes - len(begin) - len(end)) / (len(part) + 6)
		var b strings.Builder
		b.WriteString(begin)
		for i := range n {
			fmt.Fprintf(&b, part, i)
		}
		return b.String() + end
	}
	for name, text := range map[string]string{
		"unknown keys":       fill(`{"format": 1`, `, "filing%d": 1`, `}`),
		"empty jobs":         fill(`{"jobs": [{}`, `, {"x": %d}`, `]}`),
		"wrong pay":          fill(`{"jobs": [{}`, `, {"taxable_pay": "x%d"}`, `]}`),
		"negative pay":       fill(`{"jobs": [{}`, `, {"taxable_pay": -%d}`, `]}`),
		"numbers in a list":  fill(`{"jobs": [1`, `, "123-45-6789", %d`, `]}`),
		"numbers in remarks": fill(head, "# 123-45-6789 %d\n", ""),
		"the same key":       fill(`{"format": 1`, `, "format": %d`, `}`),
		"YAML lists":         fill(head+"jobs:\n", "- - %d\n", ""),
	} {
		_, _, err := Decode("a.yaml", []byte(text), today)
		if err == nil {
			t.Errorf("%s: in order", name)
			continue
		}
		if told := strings.Count(err.Error(), "\n") + 1; told > 1001 {
			t.Errorf("%s: %d lines about it", name, told)
		}
	}
}

// Of a newer file nothing else is said: what looks wrong may be right there.
func TestDecodeNewerFormat(t *testing.T) {
	_, _, err := Decode("a.yaml", []byte("tax_year: x\nformat: 2\nnew: [1]\n"), today)
	want := "2:1: format: the file has format 2 and this program reads up to 1; use the newer version of the program. The file is unchanged"
	if got := problemLines(err); got != want || !errors.Is(err, ErrNewerFormat) {
		t.Errorf("Decode: %v\nwant %s", err, want)
	}
}

func TestDecodeEncrypted(t *testing.T) {
	for _, text := range []string{"-----BEGIN AGE ENCRYPTED FILE-----\n", "age-encryption.org/v1\n"} {
		if _, _, err := Decode("a.yaml", []byte(text), today); !errors.Is(err, ErrEncrypted) {
			t.Errorf("Decode(%q): %v", text, err)
		}
	}
}

// withUpgrade gives the program an older format 0, which called the filing
// status a status.
func withUpgrade(t *testing.T) {
	upgrades[0] = func(doc *yamldoc.Document) error {
		text, _ := doc.Get("status")
		if text == "broken" {
			return errors.New("its status is broken")
		}
		doc.Delete("status")
		return doc.Set("filing_status", text)
	}
	t.Cleanup(func() { delete(upgrades, 0) })
}

func TestDecodeOlderFormat(t *testing.T) {
	withUpgrade(t)
	h, doc, err := Decode("a.yaml", []byte("format: 0\ntax_year: 2026\nstatus: head_of_household # so far\n"), today)
	if err != nil || h.Status != household.HeadOfHousehold || h.Format != household.Format {
		t.Fatalf("Decode = %+v, %v", h, err)
	}
	if got, want := string(doc.Bytes()), "format: 1\ntax_year: 2026\nfiling_status: head_of_household\n"; got != want {
		t.Errorf("the document becomes\n%s\nwant\n%s", got, want)
	}
	_, _, err = Decode("a.yaml", []byte("format: 0\nstatus: broken\n"), today)
	if got, want := problemLines(err), "1:1: format: the file has the older format 0 and cannot be brought up to 1: its status is broken"; got != want {
		t.Errorf("Decode: %s\nwant: %s", got, want)
	}
}

// Whatever is read, there is an error that names the file or a household that
// can be used.
func FuzzDecode(f *testing.F) {
	f.Add([]byte(head))
	f.Add([]byte(oneLine))
	f.Add([]byte(`{"format": 1, "tax_year": 2026, "filing_status": "single", "jobs": [{}]}`))
	f.Add([]byte("format: 1\ntax_year: 999999999\nfiling_status: single\njobs: [{pay_frequency: daily, first_payday: 0001-01-01}, {pay_frequency: semimonthly, year_to_date: {payday: 2026-06-12}}]\n"))
	f.Add([]byte("format: 1\ntax_year: -5\nfiling_status: single\njobs: [{pay_frequency: monthly, first_payday: 9999-12-31}]\n"))
	f.Add([]byte("format: 2\n"))
	f.Add([]byte("format: 1\njobs:\n  - name: \"\\u202e\"\n    certificate: {allowances: 3}\n"))
	f.Add([]byte("-----BEGIN AGE ENCRYPTED FILE-----\n"))
	f.Add([]byte("123-45-6789: &a [*a]"))
	f.Fuzz(func(t *testing.T, data []byte) {
		h, doc, err := Decode("a.yaml", data, today)
		if err != nil {
			for line := range strings.SplitSeq(err.Error(), "\n") {
				if !strings.HasPrefix(line, "a.yaml:") || yamldoc.Printable(line) != line {
					t.Fatalf("error %q for %q", line, data)
				}
			}
			return
		}
		asRead := h
		if !doc.Has("as_of") {
			asRead.AsOf = household.Date{} // today, which may not go with the year
		}
		asRead.Check(func(key string, what words.Text) { t.Fatalf("%s: %s for %q", key, words.English().Say(what), data) })
		for i := range h.Jobs {
			if name := h.JobName(i); name == "" || yamldoc.Printable(strings.NewReplacer("\u200c", "", "\u200d", "").Replace(name)) == "" {
				t.Fatalf("job name %q for %q", name, data)
			}
			h.Jobs[i].Paydays(h.TaxYear)
		}
		again, _, err := Decode("a.yaml", doc.Bytes(), today)
		if err != nil || !reflect.DeepEqual(h, again) {
			t.Fatalf("%q is saved as\n%s\nwhich reads as %+v, %v; want %+v", data, doc.Bytes(), again, err, h)
		}
	})
}

// oneLine is a household as a batch reads it.
const oneLine = `{"format": 1, "tax_year": 2026, "as_of": "2026-06-15", "filing_status": "married_filing_jointly", "self": {"birth_date": "1991-03-02"}, "spouse": {"birth_date": "1990-11-20"}, "jobs": [{"name": "Harbor Clinic", "pay_frequency": "biweekly", "taxable_pay": 2400.00, "gross_pay": 2650.00, "pretax": {"retirement": 150.00, "health": 100.00}, "first_payday": "2026-01-09", "year_to_date": {"payday": "2026-06-12", "taxable_pay": 28800.00, "federal_tax": 2471.04}, "one_time_pay": [{"payday": "2026-12-11", "amount": 3000.00, "withholding": "flat"}], "certificate": {"edition": "current", "filing_status": "married_filing_jointly", "credits": 2200, "extra": 40}}, {"name": "O'Hara & Sons", "earner": "spouse", "pay_frequency": "weekly", "taxable_pay": "1,234.50", "first_payday": "2026-01-02", "year_to_date": {"payday": "2026-06-12", "taxable_pay": 29628.00, "federal_tax": 1510.32}}], "dependents": [{"name": "first child", "birth_date": "2020-05-05", "relationship": "child", "months_with_you": 12, "care_expenses": 4000}], "income": {"interest": 120.5, "ordinary_dividends": 300, "qualified_dividends": 250, "long_term_gain": -400}, "adjustments": {"student_loan_interest": 900}, "deductions": {"state_local_taxes": 8000, "mortgage_interest": 9500, "charity_cash": 600}, "credits": {"retirement_saving": {"self": 3900}}, "payments": {"estimated_tax": 0}, "wish": {"refund": 0, "tell_employer": "all", "first_payday": "2026-07-10"}}`

func BenchmarkDecode(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		if _, _, err := Decode("a.json", []byte(oneLine), today); err != nil {
			b.Fatal(err)
		}
	}
}
