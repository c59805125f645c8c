package interview

import (
	"slices"

	"example.com/plumbline/internal/certificate"
	"example.com/plumbline/internal/household"
)

// Due lists the changes after which a new certificate is due, or may be given,
// and by when. It is empty in a first sitting without a change, and while an
// answer is missing.
func (s *Session) Due() []certificate.Change {
	after, err := s.Household()
	if err != nil || s.Blank() || len(after.CountedJobs()) == 0 {
		return nil
	}
	before, known := after, true
	if earlier := s.walk.log().Earlier; earlier != nil {
		before = *earlier
	} else {
		before, known = s.undone(after)
	}
	if !known || len(before.CountedJobs()) == 0 {
		return nil
	}
	return certificate.Due(before, after, s.walk.dayOfChange, s.y.now)
}

// changeOf are the changes that can bring one that the rules look at.
var changeOf = map[string][]string{
	"status":        {"divorced", "married"},
	"raise":         {"raise"},
	"deductions":    {"house", "school"},
	"other_credits": {"school"},
}

// dayOfChange is the day of a change that the rules look at: that of the change
// named that brings it, else the latest day named, else today.
func (w *walk) dayOfChange(code string, of household.Earner) household.Date {
	options := changeOf[code]
	if code == "job_begun" {
		options = []string{"job_begins"}
		if of == household.OfSpouse {
			options = []string{"spouse_starts"}
		}
	}
	on := w.changedOn(options...)
	if text, _ := w.doc.Get(changeDate); on.IsZero() {
		on = answer(text).day()
	}
	if on.IsZero() {
		return w.today
	}
	return on
}

// undone is the household as it must have been before the changes named in a
// first sitting: with the other status, without the new job, a year before the
// birthday. It reports false when no change was named that can be taken back.
func (s *Session) undone(h household.Household) (household.Household, bool) {
	happened := s.walk.get("interview.changes")
	h.Jobs, h.Dependents = slices.Clone(h.Jobs), slices.Clone(h.Dependents)
	taken := false
	if happened.has("divorced") {
		h.Status, taken = household.MarriedFilingJointly, true
	}
	if happened.has("child_17") {
		for i := range h.Dependents {
			d := &h.Dependents[i]
			if d.BirthDate.AgeAtEndOf(h.TaxYear) == s.y.now.ChildCredit.ChildUnder {
				d.BirthDate, taken = household.On(d.BirthDate.Year+1, d.BirthDate.Month, 1), true
			}
		}
	}
	begun := func(j household.Job) bool { return false }
	switch {
	case happened.has("spouse_starts"):
		begun = func(j household.Job) bool { return j.Earner == household.OfSpouse }
	case happened.has("job_begins"):
		last := ""
		for _, j := range h.Jobs {
			if j.Earner == household.OfSelf && j.Kind == household.Wages {
				last = j.Name
			}
		}
		begun = func(j household.Job) bool { return j.Name == last && j.Earner == household.OfSelf }
	case s.walk.wayIn().is(newJob) && len(h.Jobs) > 1:
		first := h.Jobs[0].Name
		begun = func(j household.Job) bool { return j.Name == first && j.Earner == household.OfSelf }
	}
	if slices.ContainsFunc(h.Jobs, begun) {
		h.Jobs, taken = slices.DeleteFunc(h.Jobs, begun), true
	}
	return h, taken
}
