package interview

import (
	"strings"
	"testing"

	"example.com/plumbline/internal/household"
)

// Paid on the first of the month, a pension has paid six times by June 1, 2026 if
// January's came on Friday, January 2 (New Year's Day is a holiday), and five
// times if it came on December 31. So the stub's pay for the year tells when
// pay is paid that falls on a day on which banks are closed: 6 x 2,000 = 12,000,
// 5 x 2,000 = 10,000. In the first case six more come (July to December: 24,000 in
// all), in the second seven (with that of January 1, 2027, paid December 31:
// 10,000 + 7 x 2,000 = 24,000). In between nobody can tell, and it is asked.
func TestStubTellsWhenMovedPaydaysArePaid(t *testing.T) {
	const toStub = stubOfOneJob + `
		jobs[0].pay_frequency = monthly`
	for _, tt := range []struct {
		name, payday, pay string
		asked             bool
		toCome            int
	}{
		{"after", "2026-06-01", "12000", false, 6},
		{"before", "2026-06-01", "10000", false, 7},
		{"a little more than before", "2026-06-01", "10400", false, 7},
		{"it cannot be told", "2026-06-01", "11000", true, 6},
		// Monday, November 2 is the payday of the second, or that of Sunday the
		// first. Either way eleven are paid. Of the second, January 2, 2027 is a
		// Saturday after a holiday: a thirteenth on December 31, or none.
		{"a thirteenth", "2026-11-02", "22000", true, 1},
		// The 15th is never in another year than it is paid in.
		{"the 15th", "2026-06-15", "12000", false, 6},
	} {
		s := begin(t, "2026-11-27", "")
		play(t, s, toStub+`
			jobs[0].year_to_date.payday = `+tt.payday+`
			jobs[0].year_to_date.taxable_pay = `+tt.pay+`
			jobs[0].year_to_date.federal_tax = 500
			interview.job_1_pay_known = taxable
			jobs[0].taxable_pay = 2000`)
		q, _ := s.Question()
		if asked := q.Key == "jobs[0].moved_paydays"; asked != tt.asked {
			t.Errorf("%s: asked %s, want it asked: %v", tt.name, q.Key, tt.asked)
		} else if asked {
			play(t, s, "jobs[0].moved_paydays = after")
		}
		h := tolerant(s.Document())
		if got := len(h.Jobs[0].PaydaysToCome(2026)); got != tt.toCome {
			t.Errorf("%s: %d paydays to come, want %d", tt.name, got, tt.toCome)
		}
		if said := strings.Contains(q.Notice, "paid on the next business day"); said != (tt.name == "after") {
			t.Errorf("%s: told %q", tt.name, q.Notice)
		}
	}
}

// The custom that fits a stub goes again when the stub does not show it any more.
func TestMovedPaydaysFollowTheStub(t *testing.T) {
	s := begin(t, "2026-06-15", "")
	play(t, s, stubOfOneJob+`
		jobs[0].pay_frequency = monthly
		jobs[0].year_to_date.payday = 2026-06-01
		jobs[0].year_to_date.taxable_pay = 12000
		jobs[0].year_to_date.federal_tax = 500
		interview.job_1_pay_known = taxable
		jobs[0].taxable_pay = 2000`)
	if got := tolerant(s.Document()).Jobs[0].Moved; got != household.MovedAfter {
		t.Fatalf("moved %v, want after", got)
	}
	s.GoTo("jobs[0].year_to_date.taxable_pay")
	if err := s.Answer("10000"); err != nil {
		t.Fatal(err)
	}
	if got := tolerant(s.Document()).Jobs[0].Moved; got != household.MovedBefore {
		t.Errorf("moved %v, want before", got)
	}
}
