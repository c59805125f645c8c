package interview

import (
	"errors"
	"slices"
	"strings"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/words"
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
				return errors.New(words.Capital(m.message) + ".")
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

// mistakes are what the household finds wrong with the answers that are settled.
// What an answer to be confirmed is at fault for is settled at its question. One
// that is only doubted agreed when it was given, and without it others may not; so
// a mistake is one that is there both with it and without.
func (s *Session) mistakes() []mistake {
	if s.walk.blank {
		return nil // that the pay is missing is as it should be
	}
	open := make(map[string]bool)
	var toConfirm, doubted []string
	for i := range s.walk.steps {
		at := &s.walk.steps[i]
		if !at.open() {
			continue
		}
		open[at.key] = true
		switch {
		case at.set && s.walk.doubted[at.id]:
			doubted = append(doubted, at.key)
		case at.set:
			toConfirm = append(toConfirm, at.key)
		}
	}
	found := s.mistakesWithout(toConfirm, open)
	if len(found) == 0 || len(doubted) == 0 {
		return found
	}
	without := s.mistakesWithout(append(toConfirm, doubted...), open)
	return slices.DeleteFunc(found, func(m mistake) bool { return !slices.Contains(without, m) })
}

// mistakesWithout are the mistakes where some answers are left out, at keys that
// are not open.
func (s *Session) mistakesWithout(keys []string, open map[string]bool) []mistake {
	h := s.walk.household()
	if len(keys) > 0 {
		doc := s.doc.Clone()
		for _, key := range keys {
			doc.Delete(key)
		}
		h = tolerant(doc)
	}
	var found []mistake
	h.Check(func(key string, what words.Text) {
		if !open[key] {
			found = append(found, mistake{key, s.walk.lang.Say(what)})
		}
	})
	return found
}

// checkDay compares a date with the year and the other dates of its job.
func (s *Session) checkDay(at *step, d household.Date) error {
	year := s.walk.y.Year
	inYear := d.Year == year
	j, known := s.walk.job(at.about)
	last, newer := s.walk.newerThan(at.about)
	switch at.wording.Key {
	case "jobs[].year_to_date.payday":
		switch {
		case !inYear:
			return words.Fail("interview.error.stub_of_another_year", "day", d, "year", year)
		case d.After(s.env.Today):
			return words.Fail("interview.error.stub_to_come", "day", d)
		case newer && !d.After(last.StubPayday()):
			return words.Fail("interview.error.stub_not_newer", "day", d, "before", last.StubPayday())
		}
	case "jobs[].first_payday":
		switch {
		case !inYear:
			return words.Fail("interview.error.first_payday_of_another_year", "day", d, "year", year)
		case known && j.YearToDate != nil && d.After(j.YearToDate.Payday) && j.PaidOn(d).After(j.YearToDate.Payday):
			return words.Fail("interview.error.first_payday_after_stub", "day", d, "stub", j.YearToDate.Payday)
		}
	case "jobs[].last_payday":
		switch {
		case !inYear:
			return words.Fail("interview.error.last_payday_of_another_year", "day", d, "year", year)
		case known && d.Before(j.StubPayday()):
			return words.Fail("interview.error.last_payday_before_stub", "day", d, "stub", j.StubPayday())
		}
	case "jobs[].one_time_pay[].payday":
		switch {
		case !inYear:
			return words.Fail("interview.error.bonus_of_another_year", "day", d, "year", year)
		case known && !d.After(j.StubPayday()):
			return words.Fail("interview.error.bonus_on_stub", "stub", j.StubPayday())
		}
	case changeDate, "interview.change.date":
		if d.Year < year-1 || d.Year > year {
			return words.Fail("interview.error.change_of_another_year", "day", d, "year", year)
		}
	case "dependents[].birth_date", "self.birth_date", "spouse.birth_date":
		if d.Year > year {
			return words.Fail("interview.error.born_later", "day", d, "year", year)
		}
	}
	return nil
}

// checkAmount compares a figure of a newer stub with that of the one before:
// what has been paid and withheld since January does not shrink.
func (s *Session) checkAmount(at *step, a money.Amount) error {
	last, newer := s.walk.newerThan(at.about)
	if !newer {
		return nil
	}
	before := last.YearToDate
	switch {
	case at.wording.Key == "jobs[].year_to_date.taxable_pay" && a.Less(before.TaxablePay):
		return words.Fail("interview.error.stub_with_less_pay", "amount", a, "before", before.TaxablePay, "day", before.Payday)
	case at.wording.Key == "jobs[].year_to_date.federal_tax" && a.Less(before.FederalTax):
		return words.Fail("interview.error.stub_with_less_tax", "amount", a, "before", before.FederalTax, "day", before.Payday)
	}
	return nil
}

// checkDaysOfMonth compares the two days of the month on which a job pays, once
// both are known, with the paydays that were given.
func (s *Session) checkDaysOfMonth(at *step, day string) error {
	j, known := s.walk.job(at.about)
	j.PaydaysOfMonth = nil
	for _, name := range daysOfMonth {
		text := day
		if id := guideID(at.about, name); id != at.id {
			text, _ = s.doc.Get(id)
		}
		var d household.DayOfMonth
		if d.UnmarshalText([]byte(text)) != nil {
			return nil
		}
		j.PaydaysOfMonth = append(j.PaydaysOfMonth, d)
	}
	if j.PaydaysOfMonth[0] == j.PaydaysOfMonth[1] {
		return words.Fail("interview.error.same_day_of_month")
	}
	given := []household.Date{j.FirstPayday, j.StubPayday()}
	j.FirstPayday = household.Date{}
	for _, d := range given {
		if known && !d.IsZero() && !j.MayPayOn(s.walk.y.Year, d) {
			return words.Fail("interview.error.not_a_day_of_month", "day", d)
		}
	}
	return nil
}
