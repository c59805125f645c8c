package certificate

import (
	"strings"
	"testing"
)

// The percent of Form W-4V that covers what the benefits make a single person of
// 60 owe, 2,000 a month of them beside a pension of 40,000 a year, from which its
// payer withholds the tax on the pension alone.
//
// Half of the benefits is 12,000, and 52,000 in all: 18,000 more than 34,000. Of
// the benefits are taxable the smaller of 85%, 20,400, and 85% of 18,000 with the
// smaller of 4,500 and half of the benefits, 15,300 + 4,500 = 19,800 (Publication
// 915, Worksheet 1). Taxable income is 59,800 - 16,100 = 43,700 with them and 23,900
// without. Both are in the bracket of 12% (12,400 to 50,400), whose rows of the Tax
// Table are equally wide and begin alike: the difference is 12% of 19,800, 2,376. Of
// 24,000, 7% are 1,680, and 10% are 2,400: 200 a month.
func TestVoluntaryWithholdingCoversTheBenefits(t *testing.T) {
	const text = `
format: 1
tax_year: 2026
as_of: 2026-01-05
filing_status: single
self: {birth_date: 1966-02-01}
jobs:
  - {name: Fund, kind: pension, pay_frequency: monthly, taxable_pay: 3333.34, first_payday: 2026-01-30, certificate: {filing_status: single}}
income: {social_security_monthly: {amount: 2000}}
`
	r := solvedText(t, text)
	v := r.Voluntary
	if v.Percent != 10 || !v.Monthly.Equal(dollars(200)) || !v.Yearly.Equal(dollars(2400)) || v.Owed.Sub(dollars(2376)).Abs().More(dollars(3)) {
		t.Errorf("offered %+v", v)
	}
	// As filed the year is short by about that, since payroll withholds for the
	// pension; the advice is an entry at the pension.
	if r.Recommended.NothingToHandIn() {
		t.Errorf("nothing to hand in: %v", r.AsFiled.Balance)
	}
	// In November it is said of next year, whose figures are taken to be the same.
	november := solvedText(t, strings.Replace(text, "as_of: 2026-01-05", "as_of: 2026-11-16", 1))
	if v := november.January.Voluntary; november.Voluntary.Percent != 0 || v.Percent != 10 || !v.Monthly.Equal(dollars(200)) {
		t.Errorf("in November offered %+v, and %+v for next year", november.Voluntary, v)
	}
	for _, tt := range []struct{ about, was, is string }{
		{"a percent has been chosen already", "income:", "payments: {social_security_withholding: {percent: 7}}\nincome:"},
		{"nothing is missing", "certificate: {filing_status: single}", "certificate: {filing_status: single, extra: 200}"},
		{"the benefits end this year", "amount: 2000", "amount: 2000, last_month: 11"},
		{"more is missing than the benefits are taxed", "income: {", "income: {other: 30000, "},
		{"7% would be more than a thousand too much", "taxable_pay: 3333.34", "taxable_pay: 2000"},
		{"no benefits", "social_security_monthly: {amount: 2000}", "other: 3000"},
	} {
		changed := strings.Replace(text, tt.was, tt.is, 1)
		if changed == text {
			t.Fatalf("%s: nothing changed", tt.about)
		}
		if v := solvedText(t, changed).Voluntary; v.Percent != 0 {
			t.Errorf("%s: offered %+v", tt.about, v)
		}
	}
}
