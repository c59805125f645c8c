package interview

import (
	"strings"
	"testing"

	"example.com/plumbline/internal/household"
)

// What was named as a change is suggested where it is asked about.
func TestChangesAreRemembered(t *testing.T) {
	s := begin(t, "2026-06-15", "")
	play(t, s, `
		interview.way_in = changed
		interview.changes = married, birth, job_begins, house
		interview.change_married_date = 2026-05-09
		interview.change_birth_date = 2026-06-01
		interview.change_job_begins_date = 2026-05-20
		interview.change_house_date = 2026-02-01`)
	if got, _ := s.Document().Get("interview.change_date"); got != "2026-06-01" {
		t.Errorf("the latest day is %q, want 2026-06-01", got)
	}
	for code, want := range map[string]household.Date{
		"job_begun": household.On(2026, 5, 20), "status": household.On(2026, 5, 9), "deductions": household.On(2026, 2, 1), "exemption": household.On(2026, 6, 1),
	} {
		if got := s.walk.dayOfChange(code, household.OfSelf); got != want {
			t.Errorf("the days of %s count from %v, want %v", code, got, want)
		}
	}
	for _, want := range []struct{ key, suggested, answer string }{
		{"interview.married", "yes", "yes"},
		{"interview.file_jointly", "jointly", "jointly"},
		{"interview.jobs", "2", "2"},
		{"jobs[0].state", Unknown, Unknown},
		{"interview.spouse_jobs", "", "0"},
		{"interview.people", "1", "0"},
		{"interview.income", "", "none"},
		{"interview.reductions", "house", "house"},
	} {
		q, _ := s.Question()
		if q.Key != want.key || q.Prefill() != want.suggested {
			t.Errorf("asked %s with %q, want %s with %q", q.Key, q.Prefill(), want.key, want.suggested)
		}
		if q.Key == "interview.people" && !strings.Contains(q.DefaultReason, "what has changed") {
			t.Errorf("1 is suggested because %q", q.DefaultReason)
		}
		if err := s.Answer(want.answer); err != nil {
			t.Fatal(err)
		}
	}
}

// The day of a change is suggested where the law uses it: a birth, the months
// that a parent lives with one, the month in which benefits begin.
func TestTheDayOfAChange(t *testing.T) {
	const people = `
		interview.married = no
		interview.jobs = 1
		interview.people = 1
		self.can_be_claimed = no
		dependents[0].relationship = `
	for _, tt := range []struct{ change, script, key, want string }{
		{"birth", people + "child", "dependents[0].birth_date", "2026-05-20"},
		{"birth", people + "child\ndependents[0].birth_date = 2026-05-20", "dependents[0].months_with_you", "12"},
		// May to December
		{"parent", people + "sibling\ndependents[0].birth_date = 2010", "dependents[0].months_with_you", "8"},
		{"birth, parent", people + "child", "dependents[0].birth_date", ""}, // it may be the day of either
		{"benefits", `
			interview.married = no
			interview.jobs = 0
			interview.people = 0
			interview.income = social_security
			interview.reductions = none
			self.can_be_claimed = no
			income.social_security_monthly.amount = 1900`, "income.social_security_monthly.first_month", "5"},
	} {
		s := begin(t, "2026-06-15", "")
		days := "interview.change_date = 2026-05-20\n"
		if options := strings.Split(tt.change, ", "); len(options) > 1 {
			days = ""
			for _, option := range options {
				days += "interview.change_" + option + "_date = 2026-05-20\n"
			}
		}
		play(t, s, "interview.way_in = changed\ninterview.changes = "+tt.change+"\n"+days+tt.script)
		if q, _ := s.Question(); q.Key != tt.key || q.Prefill() != tt.want {
			t.Errorf("%s: asked %s with %q, want %s with %q", tt.change, q.Key, q.Prefill(), tt.key, tt.want)
		}
	}
}

// A job that ended on a day after its last stub paid once more: the first payday
// from that day on is suggested, and what that paycheck is gets asked.
func TestPayAfterTheLastStub(t *testing.T) {
	s := begin(t, "2026-06-15", "")
	play(t, s, twoJobs)
	s = reopened(t, s, "2026-08-10")
	play(t, s, `
		interview.changes = spouse_stops
		interview.change_date = 2026-08-03
		interview.job_1_newer_stub = no
		interview.spouse_job_1_special = ended
		jobs[1].year_to_date.payday = 2026-07-31
		jobs[1].year_to_date.taxable_pay = 19600
		jobs[1].year_to_date.federal_tax = 923`)
	if q, _ := s.Question(); q.Key != "jobs[1].last_payday" || q.Prefill() != "2026-08-31" {
		t.Fatalf("asked %s with %q, want the payday after August 3", q.Key, q.Prefill())
	}
	play(t, s, `
		jobs[1].last_payday = 2026-08-31
		interview.spouse_job_1_pay_known = taxable
		jobs[1].taxable_pay = 2800
		interview.spouse_job_1_on_file = current
		jobs[1].certificate.filing_status = married_filing_jointly
		interview.spouse_job_1_lines = none`)
	ended(t, s)
	h, err := s.Household()
	if err != nil {
		t.Fatal(err)
	}
	if n := len(h.Jobs[1].PaydaysToCome(2026)); n != 1 {
		t.Errorf("%d paychecks are still to come, want 1", n)
	}
}

// A file with one day for several changes has it for each, so that nothing is asked
// again.
func TestOneDayForSeveralChanges(t *testing.T) {
	s := begin(t, "2026-06-15", `
format: 1
tax_year: 2026
interview: {way_in: changed, changes: "married, job_begins", change_date: 2026-05-20}
`)
	if q, _ := s.Question(); q.Key != "interview.married" {
		t.Errorf("asked %s, want interview.married", q.Key)
	}
	if got, _ := s.Document().Get("interview.change_job_begins_date"); got != "2026-05-20" {
		t.Errorf("the job began on %q, want 2026-05-20", got)
	}
}
