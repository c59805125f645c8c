package paystub

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/sample"
)

// A stub is doubted where the tax cannot come from the pay by the form in the
// answers. Single, biweekly, 2,465.00 without entries: 2,465 × 26 = 64,090; less
// 8,600 (line 1g) is 55,490, taxed by Publication 15-T (2026), annual table for
// single, at 10% from 7,500 to 19,900 and 12% from there: 1,240 + 12% × 35,590 =
// 5,510.80 a year, 211.95 a paycheck, 5,086.80 on 24.
func TestDoubts(t *testing.T) {
	for _, tt := range []struct {
		name, stub, want string
	}{
		{"as payroll figures it", "payday: 2026-11-20, taxable_pay: 59160, federal_tax: 5086.80", ""},
		{"rounded to the dollar", "payday: 2026-11-20, taxable_pay: 59160, federal_tax: 5088", ""},
		{"off by less than a dollar a paycheck", "payday: 2026-11-20, taxable_pay: 59160, federal_tax: 5110.79", ""},
		{"ten times too much", "payday: 2026-11-20, taxable_pay: 59160, federal_tax: 50880", "stub.doubt.tax"},
		{"a tenth", "payday: 2026-11-20, taxable_pay: 59160, federal_tax: 508.80", "stub.doubt.tax"},
		{"pay that varied", "payday: 2026-11-20, taxable_pay: 63000, federal_tax: 6000", ""},
		{"the wrong half of the year", "payday: 2026-06-05, taxable_pay: 59160, federal_tax: 5086.80", "stub.doubt.question"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			h := oneJob(t, "2026-11-27", `name: A, pay_frequency: biweekly, taxable_pay: 2465, first_payday: 2026-01-02, certificate: {filing_status: single}, year_to_date: {`+tt.stub+`}`)
			s, _ := Read(h, 0, sample.Year(t, 2026))
			got := ""
			for _, d := range s.Doubts() {
				got += d.What.Code
			}
			if got != tt.want {
				t.Errorf("doubts %q, want %q; %+v", got, tt.want, s.FederalTax)
			}
		})
	}
}

// Looking no further than the doubt needs comes to the same doubts as reading the
// stub whole: on even pay, on pay that varied and on one paycheck with a bonus, with
// taxes from nothing to far too much, and those that usual causes make.
func TestDoubtsInShort(t *testing.T) {
	y, some, explained := sample.Year(t, 2026), 0, 0
	for _, stub := range []string{
		"year_to_date: {payday: 2026-11-20, taxable_pay: 59160, federal_tax: %v}",
		"year_to_date: {payday: 2026-11-20, taxable_pay: 66000, federal_tax: %v}",
		"last_paycheck: {payday: 2026-11-20, taxable_pay: 3465, one_time_pay: 1000, federal_tax: %v}",
		"last_paycheck: {payday: 2026-11-20, taxable_pay: 3465, federal_tax: %v}",
	} {
		for _, figure := range []string{"0", "100", "126.27", "211.95", "212", "290.73", "431.95", "432", "640", "2400", "5086.80", "5088", "5112", "5160", "5400.40", "5700", "6000", "6500", "6977.52", "9000", "50880"} {
			if amount, _ := money.Parse(figure); strings.HasPrefix(stub, "last") && amount.More(money.Dollars(3465)) {
				continue // more tax than pay is no answer
			}
			for _, form := range []string{"single", "married_filing_jointly"} {
				h := sample.Answers(t, t.Name(), fmt.Sprintf("format: 1\ntax_year: 2026\nas_of: 2026-11-27\nfiling_status: "+form+`
jobs:
  - name: A
    pay_frequency: biweekly
    taxable_pay: 2465
    first_payday: 2026-01-02
    certificate: {filing_status: `+form+"}\n    "+stub+"\n", figure))
				var whole []Doubt
				for _, s := range Stubs(h, y) {
					whole = append(whole, s.Doubts()...)
					if !s.Cause().IsZero() {
						explained++
					}
				}
				short := Doubts(h, y)
				if !slices.EqualFunc(whole, short, func(a, b Doubt) bool { return a.Job == b.Job && a.What.Equal(b.What) }) {
					t.Errorf("%s of %s, %s: %v in short, %v whole", figure, stub, form, short, whole)
				}
				some += len(whole)
			}
		}
	}
	if some == 0 || explained == 0 {
		t.Errorf("%d doubts, %d explained: the test tells nothing", some, explained)
	}
}
