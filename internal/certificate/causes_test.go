package certificate

import (
	"slices"
	"testing"

	"example.com/plumbline/internal/household"
)

// Why too little is withheld is read off the forms on file and the income.
func TestCauses(t *testing.T) {
	const two = `
  - {name: Clinic, pay_frequency: biweekly, taxable_pay: 2037, first_payday: 2026-01-09, certificate: {filing_status: married_filing_jointly, credits: 2000}}
  - {name: Warehouse, earner: spouse, pay_frequency: semimonthly, taxable_pay: 2506.71, first_payday: 2026-01-15, certificate: `
	for _, tt := range []struct {
		about, jobs, more string
		want              []string
	}{
		{"two jobs, each as if the only one; Step 3 for no child", two + "{filing_status: married_filing_jointly}}\n", "", []string{"jobs", "credits"}},
		{"allowances and Step 3 for the same child", two + "{edition: before_2020, marital: married, allowances: 4}}\n", "dependents: [{name: a, birth_date: 2018-02-20}]\n", []string{"jobs", "allowances"}},
		{"the box at both jobs, and interest", `
  - {name: Mill, pay_frequency: biweekly, taxable_pay: 2600, first_payday: 2026-01-09, certificate: {filing_status: married_filing_jointly, multiple_jobs: true}}
  - {name: Shop, earner: spouse, pay_frequency: biweekly, taxable_pay: 2600, first_payday: 2026-01-09, certificate: {filing_status: married_filing_jointly, multiple_jobs: true}}
`, "income: {interest: 4000}\n", []string{"other_income"}},
		{"a business", `
  - {name: Mill, pay_frequency: biweekly, taxable_pay: 2600, first_payday: 2026-01-09, certificate: {filing_status: married_filing_jointly}}
`, "income: {self_employment: {self: 9000}}\n", []string{"business"}},
		{"nothing is short", `
  - {name: Mill, pay_frequency: biweekly, taxable_pay: 2600, first_payday: 2026-01-09, certificate: {filing_status: single}}
`, "", nil},
	} {
		t.Run(tt.about, func(t *testing.T) {
			r := advised(t, "2026-06-15", household.MarriedFilingJointly.String(), tt.jobs, tt.more)
			var got []string
			for _, c := range r.Causes {
				got = append(got, c.Code[len("certificate.cause."):])
			}
			if !slices.Equal(got, tt.want) {
				t.Errorf("causes %v, want %v", got, tt.want)
			}
		})
	}
}
