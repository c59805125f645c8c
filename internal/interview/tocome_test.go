package interview

import (
	"strings"
	"testing"
)

// An electrician with a child of the year before, savings in a plan and overtime,
// as of November 2025.
const electrician = stubOfOneJob + `
	jobs[0].pay_frequency = biweekly
	jobs[0].year_to_date.payday = 2025-11-28
	jobs[0].year_to_date.taxable_pay = 62304
	jobs[0].year_to_date.federal_tax = 5850
	interview.job_1_pay_known = paycheck
	jobs[0].gross_pay = 2880
	interview.job_1_pretax = retirement, health
	jobs[0].pretax.retirement = 144
	jobs[0].pretax.health = 140
	interview.job_1_on_file = current
	jobs[0].certificate.filing_status = single
	interview.job_1_lines = none
	interview.people = 0
	interview.income = none
	interview.reductions = overtime
	interview.job_1_overtime_rate = time_and_a_half
	interview.job_1_overtime_pay = 1620
	self.ssn_valid_for_work = yes
	wish.refund = 0
	wish.tell_employer = all`

// playQuietly plays a script and fails where a question comes after something that
// is said of figures that the person has not typed yet.
func playQuietly(t *testing.T, s *Session, script string) {
	t.Helper()
	for line := range strings.Lines(script) {
		play(t, s, line)
		q, _ := s.Question()
		for _, of := range []string{"the stub shows", "do not fit together", "for the year so far", "None of the usual reasons", "on the stub from"} {
			if strings.Contains(q.Notice, of) {
				t.Errorf("%s is asked after %q", q.Key, q.Notice)
			}
		}
	}
}

// Nothing is said of figures that are still to be typed: of the new year's pay with
// last year's, of a newer stub's with the older one's. What goes into a plan, and
// overtime, are asked for again; the help has the same share of the new pay: 144 ÷
// 2,880 = 5%, of 2,995.20 that is 149.76.
func TestNothingIsSaidOfFiguresToCome(t *testing.T) {
	s := begin(t, "2025-11-28", "")
	play(t, s, electrician)
	ended(t, s)
	s = reopened(t, s, "2026-01-12")
	playQuietly(t, s, `
		interview.changes = raise
		interview.change_date = 2026-01-01
		interview.income = none
		interview.reductions = overtime
		interview.job_1_stub = yes
		jobs[0].year_to_date.payday = 2026-01-09
		jobs[0].year_to_date.taxable_pay = 2705.44
		jobs[0].year_to_date.federal_tax = 240.80
		interview.job_1_pay_known = paycheck
		jobs[0].gross_pay = 2995.20`)
	q, _ := s.Question()
	if q.Key != "jobs[0].pretax.retirement" || q.Answer != "144" || !q.Again || !strings.Contains(q.Where, "$149.76") {
		t.Errorf("asked %s with %q (again %v): %s", q.Key, q.Answer, q.Again, q.Where)
	}
	play(t, s, `jobs[0].pretax.retirement = 149.76`)
	q, _ = s.Question()
	if q.Key != "interview.job_1_overtime_pay" || q.Answer != "1620" || !q.Again {
		t.Errorf("asked %s with %q (again %v), want last year's overtime", q.Key, q.Answer, q.Again)
	}
	play(t, s, `interview.job_1_overtime_pay = 0`)
	ended(t, s)

	s = reopened(t, s, "2026-02-12")
	playQuietly(t, s, `
		interview.changes = none
		interview.job_1_newer_stub = yes
		jobs[0].year_to_date.payday = 2026-02-06
		jobs[0].year_to_date.taxable_pay = 8116.32`)
	play(t, s, `jobs[0].year_to_date.federal_tax = 722.40`)
	ended(t, s)
}

// Whoever comes back and goes back a step comes to the last question of this day, not
// to one whose answer was kept; forward again, to what is open.
func TestBackInALaterSitting(t *testing.T) {
	s := begin(t, "2026-06-15", "")
	play(t, s, twoJobs)
	ended(t, s)
	for _, back := range []func(*Session) bool{(*Session).Back, (*Session).BackPage} {
		s = reopened(t, s, "2026-09-21")
		play(t, s, "interview.changes = none")
		if q, _ := s.Question(); q.Key != "interview.job_1_newer_stub" {
			t.Fatalf("asked %s", q.Key)
		}
		if !back(s) {
			t.Fatal("there is nothing to go back to")
		}
		play(t, s, "interview.changes = none")
		play(t, s, "interview.job_1_newer_stub = no")
		back(s)
		play(t, s, "interview.job_1_newer_stub = yes")
		play(t, s, "jobs[0].year_to_date.payday = 2026-09-18")
		s = begin(t, "2026-06-15", "")
		play(t, s, twoJobs)
	}
}

// A pension of 2,400 that is due on the 1st of the month, with the statement of
// Sunday, November 1, 2026: 26,400 are 11 payments. Friday, October 30, is the last
// bank day of its month, so that month ends are read, and ten were paid through it.
// Once a year one was paid. Each time the question that mends it is asked again.
func TestPaymentsThatDoNotFitTheCalendar(t *testing.T) {
	const often, payday = "jobs[0].pay_frequency", "jobs[0].year_to_date.payday"
	for _, tt := range []struct{ often, day, asked, says string }{
		{"monthly", "2026-10-30", payday, "11 times $2,400.00. But through October 30, 2026 there were only 10"},
		{"annual", "2026-11-02", often, `With "Once a year" there was one payment day through November 2, 2026; with "Once a month" there were 11.`},
		{"annual", "2026-10-30", often, `With "Once a year" there was one payment day through October 30, 2026; with "Once a month" there were 10.`},
		{"monthly", "2026-11-02", "", ""},
		{"monthly", "2026-11-01\n" + payday + " = 2026-11-01", "", ""},
	} {
		s := begin(t, "2026-11-27", "")
		play(t, s, `
			interview.way_in = changed
			interview.changes = none
			interview.married = no
			interview.jobs = 0
			interview.people = 0
			interview.income = pension
			interview.reductions = none
			self.can_be_claimed = no
			interview.pensions = 1
			interview.pension_1_special = none
			`+often+" = "+tt.often+`
			interview.pension_1_stub = yes
			`+payday+" = "+tt.day+`
			jobs[0].year_to_date.taxable_pay = 26400
			jobs[0].year_to_date.federal_tax = 660
			jobs[0].taxable_pay = 2400`)
		q, _ := s.Question()
		if tt.asked == "" {
			if q.Key == payday || q.Key == often {
				t.Errorf("%s: asked %s again after %q", tt.day, q.Key, q.Notice)
			}
			continue
		}
		if q.Key != tt.asked || !strings.Contains(q.Notice, tt.says) {
			t.Fatalf("%s, %s: asked %s after %q", tt.often, tt.day, q.Key, q.Notice)
		}
		kept := tt.day
		if tt.asked == often {
			kept = tt.often
		}
		play(t, s, tt.asked+" = "+kept+`
			interview.pension_1_on_file = current
			jobs[0].certificate.filing_status = single
			interview.pension_1_lines = none`)
		if q, _ = s.Question(); !strings.Contains(q.Notice, "do not fit together") || !strings.Contains(q.Notice, "26,400") {
			t.Errorf("kept, and then told %q", q.Notice)
		}
	}
}
