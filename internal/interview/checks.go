package interview

import (
	"errors"
	"fmt"
	"strings"

	"example.com/plumbline/internal/household"
	plain "example.com/plumbline/internal/words"
	"example.com/plumbline/internal/yamldoc"
)

// disagreement is what the household finds wrong with the answers that it did
// not find in those before. What a question that follows the one answered can
// put right is asked again there, and is no mistake here; nor is what an open
// question will settle.
func (s *Session) disagreement(before *Session, answered *step) error {
	was := make(map[string]bool)
	for _, m := range before.mistakes() {
		was[m.key] = true
	}
	for range s.walk.steps {
		again := false
		for _, m := range s.mistakes() {
			if was[m.key] {
				continue
			}
			later := s.mending(m.key, answered.id)
			if len(later) == 0 {
				return errors.New(upper(m.message) + ".")
			}
			s.reopen(true, later...)
			again = true
		}
		if !again {
			break
		}
		s.settle()
	}
	return nil
}

// mending are the ids of the questions after the one answered whose answers are
// settled and have set what a mistake is about.
func (s *Session) mending(key, answered string) []string {
	var ids []string
	for i := s.walk.place[answered] + 1; i < len(s.walk.steps); i++ {
		if at := &s.walk.steps[i]; !at.open() && within(at.key, key) {
			ids = append(ids, at.id)
		}
	}
	return ids
}

// within reports a key that is another or leads to a part of it.
func within(key, whole string) bool {
	rest, ok := strings.CutPrefix(key, whole)
	return ok && (rest == "" || rest[0] == '.' || rest[0] == '[')
}

type mistake struct{ key, message string }

// mistakes are what the household finds wrong with the answers that are
// settled; those to be confirmed are not.
func (s *Session) mistakes() []mistake {
	if s.walk.blank {
		return nil // that the pay is missing is as it should be
	}
	open, h := make(map[string]bool), s.walk.household()
	var doc *yamldoc.Document
	for i := range s.walk.steps {
		at := &s.walk.steps[i]
		if !at.open() {
			continue
		}
		open[at.key] = true
		if at.set {
			if doc == nil {
				doc = s.doc.Clone()
			}
			doc.Delete(at.key)
		}
	}
	if doc != nil {
		h = tolerant(doc)
	}
	var found []mistake
	h.Check(func(key string, what plain.Text) {
		if !open[key] {
			found = append(found, mistake{key, plain.English().Say(what)})
		}
	})
	return found
}

// checkDay compares a date with the year and the other dates of its job.
func (s *Session) checkDay(at *step, d household.Date) error {
	year := s.walk.y.Year
	inYear := d.Year == year
	j, known := s.walk.job(at.about)
	switch at.wording.Key {
	case "jobs[].year_to_date.payday":
		switch {
		case !inYear:
			return fmt.Errorf("%s is not in %d. Year-to-date figures start again each January, so take a stub of this year.", d.Long(), year)
		case d.After(s.env.Today):
			return fmt.Errorf("%s is still to come. Take the payday of the last stub that you have.", d.Long())
		}
	case "jobs[].first_payday":
		switch {
		case !inYear:
			return fmt.Errorf("%s is not in %d. Type the first payday of %d at this job.", d.Long(), year, year)
		case known && j.YearToDate != nil && d.After(j.YearToDate.Payday) && j.PaidOn(d).After(j.YearToDate.Payday):
			return fmt.Errorf("%s is after the payday of the stub, %s. One of the two dates is wrong.", d.Long(), j.YearToDate.Payday.Long())
		}
	case "jobs[].last_payday":
		switch {
		case !inYear:
			return fmt.Errorf("%s is not in %d. If the job goes on past the end of the year, go back and uncheck \"it will end\".", d.Long(), year)
		case known && d.Before(j.StubPayday()):
			return fmt.Errorf("%s is before the payday of the stub, %s.", d.Long(), j.StubPayday().Long())
		}
	case "jobs[].one_time_pay[].payday":
		switch {
		case !inYear:
			return fmt.Errorf("%s is not in %d. Leave out what is paid next year.", d.Long(), year)
		case known && !d.After(j.StubPayday()):
			return fmt.Errorf("The stub of %s holds this payment already. Enter only what is still to come.", j.StubPayday().Long())
		}
	case "interview.change_date":
		if d.Year < year-1 || d.Year > year {
			return fmt.Errorf("%s is neither in %d nor in the year before. Type the day of the change.", d.Long(), year)
		}
	case "dependents[].birth_date", "self.birth_date", "spouse.birth_date":
		if d.Year > year {
			return fmt.Errorf("%s is after %d. Someone born later does not count for this year.", d.Long(), year)
		}
	}
	return nil
}
