package interview

import (
	"errors"
	"fmt"

	"example.com/plumbline/internal/household"
)

// disagreement is what the household finds wrong with the answers that it did
// not find in those before; what an open question will settle is no mistake.
func (s *Session) disagreement(before *Session) error {
	was := make(map[string]bool)
	for _, m := range before.mistakes() {
		was[m.key] = true
	}
	for _, m := range s.mistakes() {
		if !was[m.key] {
			return errors.New(upper(m.message) + ".")
		}
	}
	return nil
}

type mistake struct{ key, message string }

// mistakes are what the household finds wrong.
func (s *Session) mistakes() []mistake {
	open := make(map[string]bool)
	for i := range s.walk.steps {
		if at := &s.walk.steps[i]; at.open() {
			open[at.key] = true
		}
	}
	if s.walk.blank {
		return nil // that the pay is missing is as it should be
	}
	var found []mistake
	s.walk.household().Check(func(key, message string) {
		if !open[key] {
			found = append(found, mistake{key, message})
		}
	})
	return found
}

// checkDay holds a date against the year and the other dates of its job.
func (s *Session) checkDay(at *step, d household.Date) error {
	year := s.walk.y.Year
	inYear := d.Year == year
	j, known := s.walk.job(at.about)
	switch at.wording.Key {
	case "jobs[].year_to_date.payday":
		switch {
		case !inYear:
			return fmt.Errorf("%s is not in %d. Year-to-date figures begin anew each January, so take a stub of this year.", d.Long(), year)
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
			return fmt.Errorf("%s is not in %d. If the job goes on past the end of the year, take back that it ends.", d.Long(), year)
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
