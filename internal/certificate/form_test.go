package certificate

import (
	"strconv"
	"strings"
	"testing"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/published"
	"example.com/plumbline/internal/sample"
	"example.com/plumbline/internal/worksheet"
)

// Every cell of the printed Multiple Jobs tables is found from the first and the
// last dollar of its row and of its column.
func TestMultipleJobsCells(t *testing.T) {
	for _, printed := range sample.Years() {
		t.Run(strconv.Itoa(printed), func(t *testing.T) {
			m := &year(t, printed).Form.MultipleJobs
			for _, r := range published.MultipleJobs(t, printed) {
				table := m.Table(printedStatus(t, r["status"]))
				for _, higher := range edges(r["higher_job_from"], r["higher_job_to"]) {
					for _, lower := range edges(r["lower_job_from"], r["lower_job_to"]) {
						if got, want := cell(table, higher, lower), money.MustParse(r["annual_amount"]); !got.Equal(want) {
							t.Errorf("%s, higher %v, lower %v: %v, want %v", r["status"], higher, lower, got, want)
						}
					}
				}
			}
		})
	}
}

// printedStatus is the box of a table's heading.
func printedStatus(t *testing.T, heading string) household.CertificateStatus {
	switch {
	case strings.HasPrefix(heading, "married_filing_jointly"):
		return household.CertificateJoint
	case strings.HasPrefix(heading, "head"):
		return household.CertificateHeadOfHousehold
	case strings.HasPrefix(heading, "single"):
		return household.CertificateSingle
	}
	t.Fatalf("status %q", heading)
	return 0
}

// edges are the ends of a printed range; an open one ends far above.
func edges(from, to string) []money.Amount {
	if to == "" {
		to = "9000000"
	}
	return []money.Amount{money.MustParse(from), money.MustParse(to)}
}

// Each worksheet filled in by hand.
func TestFormWorksheets(t *testing.T) {
	const couple = `
format: 1
tax_year: 2026
as_of: 2026-01-02
filing_status: married_filing_jointly
self: {birth_date: 1960-05-01}
spouse: {birth_date: 1975-05-01}
`
	const single = `
format: 1
tax_year: 2026
as_of: 2026-01-02
filing_status: single
`
	for _, tt := range []struct {
		source string
		answer string
		want   map[string]string
	}{
		{
			// 3,250 × 26 = 84,500 in the row 80,000-99,999; 1,000 × 52 = 52,000 in
			// the column 50,000-59,999: 6,610; 6,610 ÷ 26 = 254.23.
			"Form W-4 (2026), Multiple Jobs Worksheet, two jobs, and the table on p. 5", couple + `
jobs:
  - {name: A, pay_frequency: biweekly, taxable_pay: 3250, first_payday: 2026-01-09}
  - {name: B, earner: spouse, pay_frequency: weekly, taxable_pay: 1000, first_payday: 2026-01-09}
`,
			map[string]string{"mj.1": "6610.00", "mj.3": "26.00", "mj.4": "254.00"},
		},
		{
			// 65,000 and 42,000: 7,100. 107,000 and 20,800: 5,590 in the row
			// 100,000-124,999, column 20,000-29,999. 12,690 ÷ 26 = 488.08.
			"Form W-4 (2026), Multiple Jobs Worksheet, three jobs, and the table on p. 5", single + `
jobs:
  - {name: C, pay_frequency: weekly, taxable_pay: 400, first_payday: 2026-01-09}
  - {name: A, pay_frequency: biweekly, taxable_pay: 2500, first_payday: 2026-01-09}
  - {name: B, pay_frequency: semimonthly, taxable_pay: 1750, first_payday: 2026-01-15}
`,
			map[string]string{"mj.2a": "7100.00", "mj.2b": "5590.00", "mj.2c": "12690.00", "mj.3": "26.00", "mj.4": "488.00"},
		},
		{
			// Total income 140,400 + 600 = 141,000. 1: 3,000 + 4,000 + 1,200. 3a:
			// 66 years, income below 150,000: 6,000; the spouse is 51. 6a: 12,000 -
			// 7.5% of 141,000 = 1,425. 6d: 3,000 - 0.5% of 141,000 = 2,295. 7:
			// 1,425 + 18,000 + 16,000 + 2,295 = 37,720. 8b: 135,000 is below
			// 768,700. 14: 37,720 is more than 34,200, so 37,720 - 32,200.
			"Form W-4 (2026), Deductions Worksheet, one who itemizes", couple + `
jobs:
  - {name: A, pay_frequency: biweekly, taxable_pay: 5400, first_payday: 2026-01-09, qualified_tips: 3000, qualified_overtime: 4000}
income: {interest: 600}
adjustments: {educator_expenses: {self: 350}}
deductions: {medical: 12000, state_local_taxes: 18000, mortgage_interest: 16000, charity_cash: 3000, car_loan_interest: 1200}
`,
			map[string]string{
				"dw.1a": "3000.00", "dw.1b": "4000.00", "dw.1c": "1200.00", "dw.2": "8200.00", "dw.3a": "6000.00", "dw.3b": "0.00", "dw.4": "6000.00",
				"dw.5": "350.00", "dw.6a": "1425.00", "dw.6b": "18000.00", "dw.6c": "16000.00", "dw.6d": "2295.00", "dw.6e": "0.00", "dw.7": "37720.00",
				"dw.8a": "141000.00", "dw.8b": "135000.00", "dw.9": "768700.00", "dw.10": "37720.00", "dw.11": "32200.00", "dw.12": "2000.00", "dw.13": "34200.00",
				"dw.14": "5520.00", "dw.15": "20070.00", "4b": "20070.00", "4a": "600.00",
			},
		},
		{
			// 6d: 400 - 0.5% of 60,000 = 100, less than line 13: line 12 alone.
			"Form W-4 (2026), Deductions Worksheet, gifts without itemizing", single + `
jobs:
  - {name: A, pay_frequency: monthly, taxable_pay: 5000, first_payday: 2026-01-30}
deductions: {charity_cash: 400}
`,
			map[string]string{"dw.7": "100.00", "dw.10": "100.00", "dw.13": "16500.00", "dw.14": "400.00", "dw.15": "400.00"},
		},
		{
			// Total income of 700,000 is not below 505,000: line 6b is zero; line 9
			// of 640,600 is not greater than line 8b: 94% of 40,000 = 37,600; less
			// 16,100 = 21,500. Not below 150,000: no overtime.
			"Form W-4 (2026), Deductions Worksheet, above its limits", single + `
jobs:
  - {name: A, pay_frequency: annual, taxable_pay: 700000, first_payday: 2026-12-31, qualified_overtime: 500}
deductions: {state_local_taxes: 30000, mortgage_interest: 40000}
`,
			map[string]string{"dw.1b": "0.00", "dw.6b": "0.00", "dw.7": "40000.00", "dw.10": "37600.00", "dw.14": "21500.00", "dw.15": "21500.00"},
		},
		{
			// 1: medical 12,000 - 7,500; taxes at most 10,000; 15,500; 2,500:
			// 32,500. 3: 32,500 - 30,000. 4: student loan interest 2,500. 5: 5,000.
			"Form W-4 (2025), Deductions Worksheet", `
format: 1
tax_year: 2025
as_of: 2025-01-02
filing_status: married_filing_jointly
jobs:
  - {name: A, pay_frequency: quarterly, taxable_pay: 25000, first_payday: 2025-03-31}
adjustments: {student_loan_interest: 2500}
deductions: {medical: 12000, state_local_taxes: 14000, mortgage_interest: 15500, charity_cash: 2000, charity_other: 500}
`,
			map[string]string{"dw.1": "32500.00", "dw.2": "30000.00", "dw.3": "2500.00", "dw.4": "2500.00", "dw.5": "5000.00", "4b": "5000.00"},
		},
		{
			// Two children under 17 and a parent; 300 of other credits.
			"Form W-4 (2026), Step 3: 2 × 2,200 + 500 + 300", couple + `
jobs:
  - {name: A, pay_frequency: biweekly, taxable_pay: 3250, first_payday: 2026-01-09}
dependents:
  - {birth_date: 2010-01-01}
  - {birth_date: 2018-07-01}
  - {birth_date: 1945-07-01, relationship: parent}
credits: {other_nonrefundable: 300}
`,
			map[string]string{"3a": "4400.00", "3b": "500.00", "3": "5200.00"},
		},
		{
			// Printed before the law that raised the credit: 2,000 a child.
			"Form W-4 (2025), Step 3: 1 × 2,000; one who turns 17 in the year counts 500", `
format: 1
tax_year: 2025
as_of: 2025-01-02
filing_status: head_of_household
jobs:
  - {name: A, pay_frequency: biweekly, taxable_pay: 2500, first_payday: 2025-01-10}
dependents:
  - {birth_date: 2009-01-01}
  - {birth_date: 2008-12-31}
`,
			map[string]string{"3a": "2000.00", "3b": "500.00", "3": "2500.00"},
		},
		{
			"Form W-4 (2026), Step 3: total income of 200,000 is within the limit", single + `
jobs:
  - {name: A, pay_frequency: annual, taxable_pay: 200000, first_payday: 2026-12-31}
dependents:
  - {birth_date: 2018-07-01}
`,
			map[string]string{"3": "2200.00"},
		},
		{
			"Form W-4 (2026), Step 3: total income of 200,001 is above it", single + `
jobs:
  - {name: A, pay_frequency: annual, taxable_pay: 200001, first_payday: 2026-12-31}
dependents:
  - {birth_date: 2018-07-01}
`,
			map[string]string{"3": "0.00"},
		},
		{
			// 500 + 300 + 12,000; the business's 10,000 stays out.
			"Form W-4 (2026), Step 4(a): interest, dividends and retirement, no self-employment", single + `
jobs:
  - {name: A, pay_frequency: monthly, taxable_pay: 5000, first_payday: 2026-01-30}
income: {interest: 500, ordinary_dividends: 300, retirement: 12000, self_employment: {self: 10000}}
`,
			map[string]string{"4a": "12800.00"},
		},
	} {
		t.Run(tt.source, func(t *testing.T) {
			h := answers(t, tt.source, tt.answer)
			s := new(worksheet.Sheet)
			newProjection(h, year(t, h.TaxYear), nil).fillForm(s)
			for id, want := range tt.want {
				l, ok := s.Line("form." + id)
				if !ok || l.Amount.String() != want {
					t.Errorf("line %s is %v, want %s", id, l.Amount, want)
				}
			}
		})
	}
}
