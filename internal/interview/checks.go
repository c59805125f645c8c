package interview

import (
	"errors"
	"fmt"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/yamldoc"
)

// Limits on counts, far above any honest answer; they keep a slip of the finger
// from asking about a hundred jobs.
const (
	mostJobs       = 9
	mostPeople     = 15
	mostStudents   = 6
	mostAllowances = 99
	hoursInAWeek   = 7 * 24
)

// check holds an answer against the other answers. What is wrong in the file's
// own terms the household says itself.
func (s *Session) check(at *step, text string) error {
	doc := s.doc.Clone()
	if err := doc.Set(at.key, text); err != nil {
		return fmt.Errorf("This answer cannot be written down: %w.", err)
	}
	if err := s.checkCount(at, answer(text).whole()); err != nil {
		return err
	}
	if at.wording.Kind == Day {
		if err := s.checkDay(at, answer(text).day()); err != nil {
			return err
		}
	}
	return disagreement(doc, at.key)
}

// disagreement is what the household finds wrong with a key.
func disagreement(doc *yamldoc.Document, key string) error {
	var found error
	h := tolerant(doc)
	h.Check(func(at, message string) {
		if at == key && found == nil {
			found = errors.New(upper(message) + ".")
		}
	})
	return found
}

func (s *Session) checkCount(at *step, n int) error {
	least, most := 0, 0
	switch at.wording.Key {
	case "interview.jobs":
		most = mostJobs
		if s.walk.wayIn().is(newJob) {
			least = 1
		}
	case "interview.spouse_jobs":
		most = mostJobs
	case "interview.pensions", "interview.spouse_pensions":
		least, most = 1, mostJobs
	case "interview.people":
		most = mostPeople
	case "interview.students":
		least, most = 1, mostStudents
	case "interview.job.hours":
		least, most = 1, hoursInAWeek
	case "dependents[].months_with_you":
		most = 12
	case "jobs[].certificate.allowances":
		most = mostAllowances
	case "interview.spouse_died":
		least, most = s.walk.y.Year-120, s.walk.y.Year
	default:
		return nil
	}
	if n < least || n > most {
		return fmt.Errorf("%d is not between %d and %d. Type a number in that range.", n, least, most)
	}
	return nil
}

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
		case known && !j.FirstPayday.IsZero() && d.Before(j.FirstPayday):
			return fmt.Errorf("%s is before the first payday, %s. One of the two dates is wrong.", d.Long(), j.FirstPayday.Long())
		}
	case "jobs[].first_payday":
		switch {
		case !inYear:
			return fmt.Errorf("%s is not in %d. Type the first payday of %d at this job.", d.Long(), year, year)
		case known && j.YearToDate != nil && d.After(j.YearToDate.Payday):
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
