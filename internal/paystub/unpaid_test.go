package paystub

import (
	"testing"

	"example.com/plumbline/internal/sample"
)

// Paychecks without pay are left out of both totals of the year, and the totals
// say so. 2026, Publication 15-T, Worksheet 1A, percentage method, a form of before
// 2020, single, no allowances.
//
// Every two weeks, 1,985 gross, 65 for health insurance, 1,920 taxable: 49,920 a
// year; 1,240 on the first 19,900 and 12% of 30,020 are 4,842.40, ÷ 26 = 186.25. From
// January 2 to November 20 there are 24 paydays. 21 paychecks are 40,320 of pay and
// 3,911.25 of tax. Even pay of 40,300 ÷ 24 = 1,679.17: 43,658.42 a year, 1,240 + 12% of
// 23,758.42 = 4,091.01, ÷ 26 = 157.35, × 24 = 3,776.40. 21 paychecks of gross pay are
// 41,685, 24 are 47,640; 24 × 186.25 = 4,470.
func TestPaychecksWithoutPay(t *testing.T) {
	const payday = "payday: 2026-11-20, "
	for _, tt := range []struct {
		about, stub string
		paid        int
		right       bool
		gross       bool
	}{
		{"three of 24 without pay, and cents that differ", payday + "taxable_pay: 40300, federal_tax: 3908.43", 21, true, false},
		{"just 21", payday + "taxable_pay: 40320, federal_tax: 3911.25", 21, true, false},
		{"a dollar a paycheck off", payday + "taxable_pay: 40299, federal_tax: 3911.25", 21, true, false},
		{"a cent more off", payday + "taxable_pay: 40298.99, federal_tax: 3911.25", 0, false, false},
		{"lower pay on each payday", payday + "taxable_pay: 40300, federal_tax: 3776.40", 0, true, false},
		{"the pay of 21, the tax of none", payday + "taxable_pay: 40320, federal_tax: 4800", 0, false, false},
		{"gross pay, three without", payday + "taxable_pay: 41665, federal_tax: 3908.43", 21, false, true},
		{"gross pay on each payday", payday + "taxable_pay: 47640, federal_tax: 4470", 24, false, true},
		{"more paychecks than paydays", payday + "taxable_pay: 48000, federal_tax: 4656.25", 0, false, false},
		{"all as it should be", payday + "taxable_pay: 46080, federal_tax: 4470", 0, true, false},
	} {
		t.Run(tt.about, func(t *testing.T) {
			h := sample.Answers(t, t.Name(), `
format: 1
tax_year: 2026
as_of: 2026-11-27
filing_status: head_of_household
jobs:
  - {name: A, pay_frequency: biweekly, gross_pay: 1985, pretax: {health: 65}, certificate: {edition: before_2020, marital: single}, year_to_date: {`+tt.stub+`}}
`)
			s, _ := Read(h, 0, sample.Year(t, 2026))
			if s.Paid != tt.paid || s.FederalTax.Right != tt.right || s.PayIsGross != tt.gross {
				t.Errorf("paid %d, right %v, gross %v; want %d, %v, %v: %+v", s.Paid, s.FederalTax.Right, s.PayIsGross, tt.paid, tt.right, tt.gross, s)
			}
		})
	}
}
