package interview

import (
	"strings"
	"testing"
)

// served is a server with a stub of June 12, the 24th of 53 Fridays (December 31 in
// the place of January 1, 2027).
const served = `
	interview.way_in = stub
	interview.jobs = 1
	interview.married = no
	interview.job_1_special = none
	jobs[0].pay_frequency = weekly
	jobs[0].year_to_date.payday = 2026-06-12
	jobs[0].year_to_date.taxable_pay = 15200
	jobs[0].year_to_date.federal_tax = 400
	interview.job_1_pay_known = year_to_date
	interview.job_1_on_file = not_sure
	interview.people = 0
	interview.income = none
	interview.reductions = tips
`

// 9,600 of tips on 24 paydays are 400 a payday, and 21,200 on the year's 53.
func TestTipsSoFarLeadToTheYears(t *testing.T) {
	s := begin(t, "2026-06-15", "")
	play(t, s, served+"interview.job_1_tips_so_far = 9600")
	q, _ := s.Question()
	if q.Key != "jobs[0].qualified_tips" || q.Default != "21200" {
		t.Errorf("%s is asked with %q, want the year's tips with 21200", q.Key, q.Default)
	}
	if err := s.Answer("20000"); err != nil { // the person knows better
		t.Fatal(err)
	}
	if got, _ := s.Document().Get("jobs[0].qualified_tips"); got != "20000" {
		t.Errorf("tips of %s count, want 20000", got)
	}
}

// Taxable pay for the year that is below the tips in it was typed without them.
func TestTipsAbovePayAreDoubted(t *testing.T) {
	s := begin(t, "2026-06-15", "")
	play(t, s, served+"interview.job_1_tips_so_far = 15300")
	q, _ := s.Question()
	if q.Key != "jobs[0].year_to_date.taxable_pay" || !q.Again || !strings.Contains(q.Notice, "$15,300 of tips") {
		t.Errorf("%s is asked, again %v, after %q", q.Key, q.Again, q.Notice)
	}
}

// Who does not know hears what it costs: on 15,200 so far and 29 weeks of 633.33
// more, less 16,100, the last dollars are in the bracket of 12%.
func TestTipsNotKnownSayTheirPrice(t *testing.T) {
	s := begin(t, "2026-06-15", "")
	play(t, s, served+"interview.job_1_tips_so_far = unknown")
	q, _ := s.Question()
	if q.Key != "jobs[0].qualified_tips" || !strings.Contains(q.IfUnknown, "about 12% of them is tax") {
		t.Errorf("%s is asked, and %q", q.Key, q.IfUnknown)
	}
}

// The question about taxable pay says that tips are part of it, to those who have
// some.
func TestTaxablePayHasTheTips(t *testing.T) {
	for reductions, want := range map[string]bool{"tips": true, "none": false} {
		s := begin(t, "2026-06-15", `
format: 1
tax_year: 2026
interview: {way_in: changed, changes: none, married: "no", jobs: 1, not_known: job_1.state, people: 0, income: none, reductions: `+reductions+`, job_1_special: none, job_1_stub: "true"}
jobs: [{pay_frequency: weekly, year_to_date: {payday: 2026-06-12}}]
`)
		q, _ := s.Question()
		if q.Key != "jobs[0].year_to_date.taxable_pay" || strings.Contains(q.Why, "Reported tips are part of it") != want {
			t.Errorf("%s: %s says %q", reductions, q.Key, q.Why)
		}
	}
}
