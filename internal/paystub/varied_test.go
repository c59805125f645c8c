package paystub

import (
	"testing"

	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/sample"
)

// The year so far of pay that is not the same on every payday is judged, not
// scolded. 2026, Publication 15-T, Worksheet 1A, percentage method.
//
// Weekly, single, ordinary pay 420: 21,840 - 8,600 = 13,240 less 7,500 at 10% =
// 574, ÷ 52 = 11.04. 37 paychecks of it are 15,540; the stub shows 16,212, an
// average of 438.16: 22,784.32 - 8,600 = 14,184.32 less 7,500 at 10% = 668.43, ÷ 52
// = 12.85, × 37 = 475.45. One paycheck has 11.04.
//
// Every two weeks, joint, Step 3 of 2,000, ordinary pay 2,037: 52,962 - 12,900 =
// 40,062 less 19,300 at 10% = 2,076.20, ÷ 26 = 79.85, less 2,000 ÷ 26 = 76.92: 2.93. 23
// paychecks of it are 46,851; the stub shows 46,172. 16 of 2,037 leave 13,580 for the
// 7 before, 1,940 each: less than Step 3, no tax. 16 × 2.93 = 46.88. The seventh
// payday from January 9 is April 3, so the raise came on April 17.
func TestPayThatVaries(t *testing.T) {
	const (
		weekly   = "pay_frequency: weekly, taxable_pay: 420, first_payday: 2026-03-13, certificate: {filing_status: single}"
		biweekly = "pay_frequency: biweekly, taxable_pay: 2037, first_payday: 2026-01-09, certificate: {filing_status: married_filing_jointly, credits: 2000}"
	)
	for _, tt := range []struct {
		about, job, stub string
		right            bool
		code, unread     string
		varies, ofOne    bool
	}{
		{"busy weeks, in one bracket", weekly, "payday: 2026-11-20, taxable_pay: 16212, federal_tax: 475.68", true, "", "", true, false},
		{"a raise in April", biweekly, "payday: 2026-11-13, taxable_pay: 46172, federal_tax: 46.88", true, "pay_changed", "", true, false},
		{"a raise and busy weeks: no way is told from another", biweekly, "payday: 2026-11-13, taxable_pay: 46172, federal_tax: 61.17", true, "", "", true, false},
		{"less than even pay brings", weekly, "payday: 2026-11-20, taxable_pay: 16212, federal_tax: 400", false, "", "", true, false},
		{"more than pay that goes up and down brings", weekly, "payday: 2026-11-20, taxable_pay: 16212, federal_tax: 900", false, "", "", true, false},
		{"this paycheck's tax as the year's", weekly, "payday: 2026-11-20, taxable_pay: 16212, federal_tax: 11.04", false, "", "stub.unread.does_not_fit", true, true},
		{"the same where pay rose and the year's may be so little", biweekly, "payday: 2026-11-13, taxable_pay: 46172, federal_tax: 2.93", false, "", "stub.unread.does_not_fit", true, true},
		{"one paycheck more than the calendar has", weekly, "payday: 2026-11-20, taxable_pay: 15960, federal_tax: 419.52", false, "", "stub.unread.does_not_fit", false, false},
		{"less than half of what the paydays bring", weekly, "payday: 2026-11-20, taxable_pay: 7700, federal_tax: 100", false, "", "stub.unread.does_not_fit", false, false},
	} {
		t.Run(tt.about, func(t *testing.T) {
			h := oneJob(t, "2026-11-27", `name: A, `+tt.job+`, year_to_date: {`+tt.stub+`}`)
			s, _ := Read(h, 0, sample.Year(t, 2026))
			code := ""
			if len(s.Explanations) > 0 {
				code = s.Explanations[0].Code
			}
			if s.FederalTax.Right != tt.right || code != tt.code || s.Unread.Code != tt.unread || s.Varies.IsZero() == tt.varies || s.TaxOfOne != tt.ofOne {
				t.Errorf("%+v", s)
			}
			if asks := len(s.Ask) > 0; asks != (!tt.right && tt.unread == "") {
				t.Errorf("asks payroll %v", s.Ask)
			}
		})
	}
}

// Ordinary pay that is the average of the year hides how far the paychecks are
// apart. On the average of 2,000 every two weeks, joint, Step 3 of 2,000: 39,100 less
// 19,300 at 10% = 1,980, less 2,000: no tax. A fourth above and below: 2,500 is 52,100
// less 19,300 at 10% = 3,280 less 2,000 = 1,280, ÷ 26 = 49.23; 1,500 has none. Half of
// 8 paychecks at each: 221.52.
func TestAverageHidesThatPayVaries(t *testing.T) {
	for _, tt := range []struct {
		tax       string
		may, asks bool
	}{
		{"120.55", true, true},
		{"221.52", true, true},
		{"260.55", false, true},
	} {
		h := sample.Answers(t, t.Name(), `
format: 1
tax_year: 2026
as_of: 2026-04-20
filing_status: married_filing_jointly
jobs:
  - name: A
    pay_frequency: biweekly
    taxable_pay: 2000
    first_payday: 2026-01-09
    year_to_date: {payday: 2026-04-17, taxable_pay: 16000.03, federal_tax: `+tt.tax+`}
    certificate: {filing_status: married_filing_jointly, credits: 2000}
`)
		s, _ := Read(h, 0, sample.Year(t, 2026))
		if s.FederalTax.MayBeRight() != tt.may || s.FederalTax.Right || (len(s.Ask) > 0) != tt.asks {
			t.Errorf("%s: %+v", tt.tax, s)
		}
		if want := money.Cents(221_52); tt.may && !s.FederalTax.Most.Sub(want).Abs().Less(money.Cents(9)) {
			t.Errorf("the most is %v, want %v up to a cent a paycheck", s.FederalTax.Most, want)
		}
	}
}

// Pay that the person says changes is called wrong only where no way of paying it
// makes the tax. 2026, Publication 15-T, Worksheet 1A, percentage method, single.
//
// Every two weeks, 6,840 on 8 paydays from August 21: 855 each, 22,230 a year less
// 8,600 and 7,500 is 6,130 at 10%, ÷ 26 = 23.58, × 8 = 188.64. A first paycheck of
// 510 for a part of the period has no tax (13,260 - 16,100 < 0); the other seven
// share 6,330, and (6,330 - 7 × 16,100 ÷ 26) at 10% = 199.54. The most that a part
// of one makes: 6,840 ÷ 7 = 977.14, 25,405.64 - 16,100 at 10%, ÷ 26 = 35.79, × 7 =
// 250.53. All in one paycheck: 177,840 - 8,600 = 169,240: 40,000 and more in the 24%
// bracket, so more than 1,000. Head of household, 855: 13,630 - 15,550 < 0: no tax.
//
// Weekly, 32,800 on 47 paydays: 697.87 each, 36,289.24 - 8,600 = 27,689.24: 1,240 and
// 12% of 7,789.24 = 2,174.71, ÷ 52 = 41.82, × 47 = 1,965.54. Weeks under 548 are taxed
// at 10%, so that the same pay goes up and down to 1,974.35. 47 taxes rounded to the
// dollar make 47 × 42 = 1,974, which is not the stub's figure.
func TestPayThatIsSaidToVary(t *testing.T) {
	const (
		biweekly = "pay_frequency: biweekly, taxable_pay: 855, first_payday: 2026-08-21"
		weekly   = "pay_frequency: weekly, taxable_pay: 697.87, first_payday: 2026-01-02"
		of8      = "payday: 2026-11-27, taxable_pay: 6840, federal_tax: "
		of47     = "payday: 2026-11-20, taxable_pay: 32800, federal_tax: "
		said     = ", pay_varies: true"
	)
	for _, tt := range []struct {
		about, job, stub           string
		right, apart, small, wrong bool
	}{
		{"a first paycheck for a part of the period", biweekly + said, of8 + "199.54", true, false, false, false},
		{"the most of that", biweekly + said, of8 + "250.53", true, false, false, false},
		{"the average as ordinary pay, and nothing said", biweekly, of8 + "199.54", false, false, false, true},
		{"912 as ordinary pay", "pay_frequency: biweekly, taxable_pay: 912, first_payday: 2026-08-21", of8 + "199.54", true, false, false, false},
		{"paychecks far apart", biweekly + said, of8 + "600", false, true, false, false},
		{"more than all of it on one paycheck", biweekly + said, of8 + "6000", false, false, false, true},
		{"none at all", biweekly + said, of8 + "0", false, false, false, true},
		{"less than a dollar a paycheck below even pay", biweekly + said, of8 + "181", false, false, true, false},
		{"tips", weekly + said, of47 + "1974.35", true, false, false, false},
		{"tips, and nothing said", weekly, of47 + "1974.35", false, false, true, false},
	} {
		t.Run(tt.about, func(t *testing.T) {
			h := oneJob(t, "2026-11-27", `name: A, `+tt.job+`, year_to_date: {`+tt.stub+`}, certificate: {filing_status: single}`)
			s, _ := Read(h, 0, sample.Year(t, 2026))
			c := s.FederalTax
			if wrong := !c.Right && !c.FarApart && !c.About; c.Right != tt.right || c.FarApart != tt.apart || c.About != tt.small || wrong != tt.wrong {
				t.Errorf("right %v, far apart %v, about %v: %+v", c.Right, c.FarApart, c.About, s)
			}
			for _, e := range s.Explanations {
				if e.Code == "whole_dollars" {
					t.Errorf("%v is explained by %v, which whole dollars do not make", c.Actual, e.Figure)
				}
			}
			if asks := len(s.Ask) > 0; asks != (tt.apart || tt.wrong) {
				t.Errorf("asks payroll %v", s.Ask)
			}
		})
	}
}
