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
	days := make([]Date, 0, j.Frequency.mostPaydays())
	for n := j.Frequency.stepsBefore(first, year); ; n++ {
		d := j.Frequency.nth(first, n)
		if d.After(end) {
			return days
		}
		if d.Year == year && (j.Frequency != Daily || d.isWeekday()) {
			days = append(days, d)
		}
		if j.Frequency == FrequencyUnknown {
			return days
		}
	}
}

// mostPaydays is room for the paydays of a year.
func (f Frequency) mostPaydays() int {
	const daysInLeapYear = 366
	switch f {
	case Daily, Weekly, Biweekly:
		return daysInLeapYear/f.days() + 1
	case Semimonthly:
		return 24
	}
	return 12
}

// nth is the n-th step after first.
func (f Frequency) nth(first Date, n int) Date {
	switch f {
	case Daily, Weekly, Biweekly:
		return first.AddDays(f.days() * n)
	case Semimonthly:
		return semimonthly(first, n)
	}
	return monthsLater(first, f.months()*n)
}

// stepsBefore is a number of steps after first that does not go beyond the
// first payday of the year, so that a calendar begun long ago needs no walk.
func (f Frequency) stepsBefore(first Date, year int) int {
	if first.Year >= year {
		return 0
	}
	months := (year-first.Year)*12 - int(first.Month)
	switch f {
	case Daily, Weekly, Biweekly:
		return first.DaysUntil(On(year, time.January, 1)) / f.days()
	case Semimonthly:
		return 2 * months
	case FrequencyUnknown:
		return 0
	}
	return months / f.months()
}

// days is the number of days between two paydays of a frequency that counts
// days.
func (f Frequency) days() int {
	switch f {
	case Biweekly:
		return 14
	case Weekly:
		return 7
	}
	return 1
}

// months is the number of months between two paydays of a frequency that
// counts months.
func (f Frequency) months() int {
	switch f {
	case Quarterly:
		return 3
	case Semiannual:
		return 6
	case Annual:
		return 12
	}
	return 1
}

func (d Date) isWeekday() bool {
	return d.Weekday() != time.Saturday && d.Weekday() != time.Sunday
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

// semimonthly is the n-th half month after first.
func semimonthly(first Date, n int) Date {
	early, late := halfMonths(monthDay(first))
	if first.Day > 15 {
		n++ // counted from the early day of the first month
	}
	day := early
	if n%2 != 0 {
		day = late
	}
	return inMonth(first.Year, int(first.Month)+n/2, day)
}

// halfMonths are the two days of the month on which a job pays, of which one is
// known. The 15th goes with the last day; so does the 30th with the 15th, but
// it stays the 30th.
func halfMonths(day int) (early, late int) {
	switch {
	case day == 15:
		return day, lastDay
	case day < 15:
		return day, day + 15
	case day == lastDay:
		return 15, lastDay
	}
	return day - 15, day
}

// assumedFirstPayday stands in for a first payday that the answers leave out:
// where the last stub's payday is known, the payday it leads back to in
// January; else the first Friday of the year, or the end of its first month.
func (j Job) assumedFirstPayday(year int) Date {
	if j.YearToDate != nil && j.YearToDate.Payday.Year == year {
		return j.Frequency.earliestInYear(j.YearToDate.Payday)
	}
	switch j.Frequency {
	case Daily:
		return On(year, time.January, 1)
	case Weekly, Biweekly:
		newYear := On(year, time.January, 1)
		return newYear.AddDays((int(time.Friday) - int(newYear.Weekday()) + 7) % 7)
	case Semimonthly:
		return On(year, time.January, 15)
	case Quarterly:
		return On(year, time.March, 31)
	case Semiannual:
		return On(year, time.June, 30)
	case Annual:
		return EndOfYear(year)
	}
	return On(year, time.January, 31)
}

// earliestInYear steps back from a payday to the first of its year.
func (f Frequency) earliestInYear(payday Date) Date {
	year, month, day := payday.Year, int(payday.Month), monthDay(payday)
	switch f {
	case Daily:
		return On(year, time.January, 1)
	case Weekly, Biweekly:
		steps := On(year, time.January, 1).DaysUntil(payday) / f.days()
		return payday.AddDays(-steps * f.days())
	case Semimonthly:
		early, _ := halfMonths(day)
		return inMonth(year, 1, early)
	case FrequencyUnknown:
		return payday
	}
	return inMonth(year, (month-1)%f.months()+1, day)
}

// paidEarly is how many days before its place in the calendar a payday may be
// paid when banks are closed: a Monday holiday's pay comes on Friday. Common
// practice.
const paidEarly = 3

// PaydaysAfter are the paydays of the year still to come after a date.
func (j Job) PaydaysAfter(year int, after Date) []Date {
	days := j.Paydays(year)
	return days[countThrough(days, after):]
}

// countThrough is how many of the days, in order, are on or before a date.
func countThrough(days []Date, d Date) int {
	i, found := slices.BinarySearchFunc(days, d, Date.Compare)
	if found {
		i++
	}
	return i
}

// StubPayday is the payday through which the year-to-date figures are true;
// zero when nothing has been paid yet.
func (j Job) StubPayday() Date {
	if j.YearToDate == nil {
		return Date{}
	}
	return j.YearToDate.Payday
}

// YearPaydays are the paydays of one job in one year, parted by a pay stub.
type YearPaydays struct {
	All     []Date // in order
	Covered int    // how many of them the stub covers
}

// ToCome are the paydays that the stub does not cover yet.
func (p YearPaydays) ToCome() []Date { return p.All[p.Covered:] }

// YearPaydays are the job's paydays of the year, and how many of them its last
// stub covers: none without a stub.
func (j Job) YearPaydays(year int) YearPaydays { return j.PaydaysThrough(year, j.StubPayday()) }

// PaydaysThrough are the job's paydays of the year, and how many of them a stub
// of a day covers: those on or before it. A stub of a day that is no payday, but
// falls at most three days before one, is taken to be that payday's, paid
// early. The zero date is no stub. It is the one place that counts them.
func (j Job) PaydaysThrough(year int, stub Date) YearPaydays {
	p := YearPaydays{All: j.Paydays(year)}
	if stub.IsZero() {
		return p
	}
	n := countThrough(p.All, stub)
	onPayday := n > 0 && p.All[n-1] == stub
	if !onPayday && j.Frequency != Daily && n < len(p.All) && stub.DaysUntil(p.All[n]) <= paidEarly {
		n++
	}
	p.Covered = n
	return p
}

// PaydaysToCome are the paydays of the year that the last stub does not cover
// yet. Without a stub that is every payday of the year.
func (j Job) PaydaysToCome(year int) []Date { return j.YearPaydays(year).ToCome() }

// IsPaydayStub reports whether a pay stub may bear a date: that of a payday of
// the year, or one that PaydaysThrough takes to be a payday's, paid early.
func (j Job) IsPaydayStub(year int, stub Date) bool {
	p := j.PaydaysThrough(year, stub)
	_, onPayday := slices.BinarySearchFunc(p.All, stub, Date.Compare)
	return onPayday || p.Covered > countThrough(p.All, stub)
}
