package household

import (
	"slices"
	"time"
)

// Paydays are the days of the year on which the job pays, in order: from its
// first payday at its pay frequency, to its last payday or 31 December. They
// are real dates, so a year may hold 27 biweekly or 53 weekly ones.
//
// Months are stepped from the first payday's day of the month, held back to
// the month's last day where the month is shorter; a first payday on the last
// day of its month means the last day of every month. Twice a month means the
// first payday's day and the day half a month from it, and with the 15th the
// last day of the month. Daily means Monday to Friday. All common practice.
func (j Job) Paydays(year int) []Date {
	first := j.FirstPayday
	if first.IsZero() {
		first = j.assumedFirstPayday(year)
	}
	end := EndOfYear(year)
	if !j.LastPayday.IsZero() && j.LastPayday.Before(end) {
		end = j.LastPayday
	}
	var days []Date
	for d := range j.Frequency.from(first) {
		if d.After(end) {
			break
		}
		if d.Year == year {
			days = append(days, d)
		}
	}
	return days
}

// from walks the paydays of a frequency, beginning with first, without end.
func (f Frequency) from(first Date) func(yield func(Date) bool) {
	return func(yield func(Date) bool) {
		for n := 0; n < 4000; n++ {
			d, ok := f.nth(first, n)
			if ok && !yield(d) {
				return
			}
		}
	}
}

// nth is the n-th step after first; not ok where the step falls on no payday.
func (f Frequency) nth(first Date, n int) (Date, bool) {
	switch f {
	case Daily:
		d := first.AddDays(n)
		return d, d.Weekday() != time.Saturday && d.Weekday() != time.Sunday
	case Weekly:
		return first.AddDays(7 * n), true
	case Biweekly:
		return first.AddDays(14 * n), true
	case Semimonthly:
		return semimonthly(first, n), true
	case Monthly:
		return monthsLater(first, n), true
	case Quarterly:
		return monthsLater(first, 3*n), true
	case Semiannual:
		return monthsLater(first, 6*n), true
	case Annual:
		return monthsLater(first, 12*n), true
	}
	return first, n == 0
}

const lastDay = 31 // stands for the last day of any month

// monthDay is the day of the month that a first payday stands for.
func monthDay(first Date) int {
	if first.Day == daysIn(first.Year, first.Month) {
		return lastDay
	}
	return first.Day
}

func monthsLater(first Date, n int) Date {
	return inMonth(first.Year, int(first.Month)+n, monthDay(first))
}

// inMonth is the day of a month counted from January of the year, held back to
// the month's end.
func inMonth(year, month, day int) Date {
	t := time.Date(year, time.Month(month), 1, 12, 0, 0, 0, time.UTC)
	return Date{t.Year(), t.Month(), min(day, daysIn(t.Year(), t.Month()))}
}

func semimonthly(first Date, n int) Date {
	day := monthDay(first)
	early, late := day, day+15
	if day > 15 {
		early, late = max(day-15, 1), day
	}
	if early == 15 || late >= 30 {
		late = lastDay
	}
	if late == lastDay {
		early = min(early, 15)
	}
	step := n // counted in half months from the early day of the first month
	if day > 15 {
		step++
	}
	if step%2 == 0 {
		return inMonth(first.Year, int(first.Month)+step/2, early)
	}
	return inMonth(first.Year, int(first.Month)+step/2, late)
}

// assumedFirstPayday stands in for a first payday that the answers leave out:
// where the last stub's payday is known, the payday it leads back to in
// January; else the first Friday of the year, or the end of its first month.
func (j Job) assumedFirstPayday(year int) Date {
	if j.YearToDate != nil && j.YearToDate.Payday.Year == year {
		return j.Frequency.earliestInYear(j.YearToDate.Payday)
	}
	switch j.Frequency {
	case Daily, Weekly, Biweekly:
		d := Date{year, time.January, 1}
		for d.Weekday() != time.Friday {
			d = d.AddDays(1)
		}
		if j.Frequency == Daily {
			return Date{year, time.January, 1}
		}
		return d
	case Semimonthly:
		return Date{year, time.January, 15}
	case Quarterly:
		return Date{year, time.March, 31}
	case Semiannual:
		return Date{year, time.June, 30}
	case Annual:
		return Date{year, time.December, 31}
	}
	return Date{year, time.January, 31}
}

// earliestInYear steps back from a payday to the first of its year.
func (f Frequency) earliestInYear(payday Date) Date {
	switch f {
	case Weekly, Biweekly:
		step := 7
		if f == Biweekly {
			step = 14
		}
		d := payday
		for d.AddDays(-step).Year == payday.Year {
			d = d.AddDays(-step)
		}
		return d
	case Monthly:
		return inMonth(payday.Year, 1, monthDay(payday))
	case Semimonthly:
		if payday.Day > 15 && semimonthly(payday, -1).Year == payday.Year {
			first := semimonthly(inMonth(payday.Year, 1, monthDay(payday)), -1)
			if first.Year == payday.Year {
				return first
			}
		}
		return inMonth(payday.Year, 1, monthDay(payday))
	case Quarterly:
		return inMonth(payday.Year, (int(payday.Month)-1)%3+1, monthDay(payday))
	case Semiannual:
		return inMonth(payday.Year, (int(payday.Month)-1)%6+1, monthDay(payday))
	case Daily:
		return Date{payday.Year, time.January, 1}
	}
	return payday
}

// PaydaysAfter are the paydays of the year still to come after a date.
func (j Job) PaydaysAfter(year int, after Date) []Date {
	days := j.Paydays(year)
	i, _ := slices.BinarySearchFunc(days, after.AddDays(1), Date.Compare)
	return days[i:]
}

// StubPayday is the payday through which the year-to-date figures are true;
// zero when nothing has been paid yet.
func (j Job) StubPayday() Date {
	if j.YearToDate == nil {
		return Date{}
	}
	return j.YearToDate.Payday
}

// PaydaysToCome are the paydays of the year that the last stub does not cover
// yet. Without a stub that is every payday of the year.
func (j Job) PaydaysToCome(year int) []Date {
	if j.YearToDate == nil {
		return j.Paydays(year)
	}
	return j.PaydaysAfter(year, j.YearToDate.Payday)
}
