package interview

import (
	"slices"
	"strconv"

	"example.com/plumbline/internal/certificate"
	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/yamldoc"
)

// beforeKey holds the facts as they stood when the person came back, as text,
// so that what has changed can be told.
const beforeKey = "interview.before"

// rememberBefore notes the facts as they stand; a file too large for it is told
// apart by the changes that were named.
func (s *Session) rememberBefore() {
	facts := s.doc.Clone()
	facts.Delete("interview")
	if s.doc.Set(beforeKey, strconv.Quote(string(facts.Bytes()))) != nil {
		s.doc.Delete(beforeKey)
	}
}

// Due lists the changes after which a new certificate is due, or may be given,
// and by when. It is empty in a first sitting without a change, and while an
// answer is missing.
func (s *Session) Due() []certificate.Change {
	after, err := s.Household()
	if err != nil || s.Blank() || len(after.CountedJobs()) == 0 {
		return nil
	}
	on := s.walk.get("interview.change_date").day()
	if on.IsZero() {
		on = s.env.Today
	}
	before, known := s.before()
	if !known {
		before, known = s.undone(after)
	}
	if !known || len(before.CountedJobs()) == 0 {
		return nil
	}
	return certificate.Due(before, after, on, s.y.now)
}

// before is the household as it stood when the person came back.
func (s *Session) before() (household.Household, bool) {
	text, ok := s.doc.Get(beforeKey)
	if !ok {
		return household.Household{}, false
	}
	// Quoted, since no text in the file may have more than one line.
	text, err := strconv.Unquote(text)
	if err != nil {
		return household.Household{}, false
	}
	doc, err := yamldoc.Parse("answers before", []byte(text))
	if err != nil {
		return household.Household{}, false
	}
	var h household.Household
	return h, len(doc.Decode(&h)) == 0
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
