package interview

import (
	"slices"
	"testing"

	"example.com/plumbline/internal/household"
)

// Who does not know the first payday or what can be itemized says so: what is then
// assumed is said at the question and with the results, and nothing counts as zero
// that is not known.
func TestUnknownIsAnAnswer(t *testing.T) {
	s := begin(t, "2026-06-15", "")
	play(t, s, `
		interview.way_in = changed
		interview.changes = raise
		interview.change_date = 2026-06-01
		interview.married = no
		interview.jobs = 1
		interview.people = 0
		interview.income = none
		interview.reductions = house
		interview.job_1_special = none
		jobs[0].pay_frequency = biweekly
		interview.job_1_stub = no`)
	if q, _ := s.Question(); q.IfUnknown == "" {
		t.Errorf("%s does not say that one may not know", q.Key)
	}
	play(t, s, `
		jobs[0].first_payday = unknown
		interview.job_1_pay_known = taxable
		jobs[0].taxable_pay = 2400
		interview.job_1_on_file = none
		interview.rough_itemized = unknown`)
	s = reopened(t, s, "2026-06-15")
	h := tolerant(s.Document())
	if !h.Jobs[0].FirstPayday.IsZero() {
		t.Errorf("the first payday is %v", h.Jobs[0].FirstPayday)
	}
	said := func() bool {
		return slices.ContainsFunc(tolerant(s.Document()).Doubts(), func(d household.Doubt) bool { return d.Code() == "itemized_unknown" })
	}
	if !said() {
		t.Error("what was assumed of the deductions is not said again")
	}
	s.GoTo("interview.rough_itemized")
	if q, _ := s.Question(); q.Prefill() != Unknown {
		t.Errorf("the answer from before is %q", q.Prefill())
	}
	play(t, s, "interview.rough_itemized = 4000")
	if said() {
		t.Error("it is still said after a figure was given")
	}
}
