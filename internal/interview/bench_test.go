package interview

import "testing"

// A frame is 16 ms; the draft must be there within it for three jobs (issue:
// "The draft recomputes within one frame").
func BenchmarkDraft(b *testing.B) {
	s := begin(b, "2026-06-15", threeJobs)
	if len(s.Draft().Certificates) != 3 {
		b.Fatal("not three certificates")
	}
	for b.Loop() {
		s.result = cached{}
		s.Draft()
	}
}

// Answering a question, with all that follows from it.
func BenchmarkAnswer(b *testing.B) {
	s := begin(b, "2026-06-15", threeJobs)
	for b.Loop() {
		s.GoTo("jobs[0].taxable_pay")
		if err := s.Answer("2400"); err != nil {
			b.Fatal(err)
		}
	}
}

const threeJobs = `
format: 1
tax_year: 2026
as_of: 2026-06-15
filing_status: married_filing_jointly
jobs:
  - name: Harbor Clinic
    pay_frequency: biweekly
    taxable_pay: 2400
    year_to_date: {payday: 2026-06-12, taxable_pay: 28800, federal_tax: 2471.04}
    certificate: {filing_status: married_filing_jointly}
  - name: Mill School
    earner: spouse
    pay_frequency: semimonthly
    taxable_pay: 1900
    year_to_date: {payday: 2026-05-29, taxable_pay: 19000, federal_tax: 1100}
    certificate: {filing_status: single, extra: 10}
  - name: Oak Street Bakery
    pay_frequency: weekly
    taxable_pay: 310
    year_to_date: {payday: 2026-06-05, taxable_pay: 6820, federal_tax: 0}
    certificate: {filing_status: married_filing_jointly}
dependents:
  - {relationship: child, birth_date: 2019-03-03}
  - {relationship: child, birth_date: 2015-09-12}
`
