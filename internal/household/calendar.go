package household

import (
	"iter"
	"sort"
	"time"
)

// Paydays are the days of the year on which the job is paid, in order: from its
// first payday at its pay frequency, to its last payday or 31 December. They
// are real dates, so a year may hold 27 biweekly or 53 weekly ones.
//
// A payday on which banks are closed is paid on the business day before, unless
// the answers say otherwise (see Moved). It belongs to the year in which it is
// paid, and so does its pay: wages are income of the year in which they are
// received (26 CFR 1.451-2(a)). A payday of 1 January is the old year's.
//
// Months are stepped from the first payday's day of the month, held back to
// the month's last day where the month is shorter. Twice a month means the
// first payday's day and the day half a month from it, and with the 15th the
// last day of the month, unless PaydaysOfMonth names the days. Daily means
// Monday to Friday; a holiday's pay comes with the day it is moved to. All
// common practice.
func (j Job) Paydays(year int) []Date {
	days := make([]Date, 0, j.Frequency.mostPaydays()+1)
	for _, paid := range j.paydays(year) {
		days = append(days, paid)
	}
	return days
}

// paydays are the paydays of a year in order: the day on which pay is due, and
// the day of the year on which it is paid.
func (j Job) paydays(year int) iter.Seq2[Date, Date] {
	return func(yield func(due, paid Date) bool) {
		s := j.schedule(year)
		for n := s.start; ; n++ {
			due := s.due(n)
			paid := j.Moved.move(due)
			if paid.Year > year || s.ended(due, paid) {
				return
			}
			begun := !due.Before(s.from) || !paid.Before(s.from)
			counts := paid.Year == year && begun && (j.Frequency != Daily || due.isWeekday())
			if counts && !yield(due, paid) || j.Frequency == FrequencyUnknown {
				return
			}
		}
	}
}

// PaidOn is the day on which pay that is due on a day is paid.
func (j Job) PaidOn(due Date) Date { return j.Moved.move(due) }

// PaydayOf is the payday that an answer means: where a payday of the year is due
// on that day, the day on which it is paid; else the day itself.
func (j Job) PaydayOf(day Date) Date {
	if j.Moved.move(day) == day {
		return day
	}
	for due, paid := range j.paydays(day.Year) {
		if due == day {
			return paid
		}
	}
	return day
}

// A schedule is a job's calendar before any payday is moved: the days on which
// pay is due.
type schedule struct {
	due   func(n int) Date
	start int  // the step to begin with
	from  Date // no payday falls before it
	last  Date // none after it
}

// ended reports whether a payday is after the last one, whichever of its two
// days the last one was given by.
func (s schedule) ended(due, paid Date) bool { return due.After(s.last) && paid.After(s.last) }

func (j Job) schedule(year int) schedule {
	s := schedule{from: j.FirstPayday, last: On(year+1, time.January, 1).AddDays(mostMoved)}
	if !j.LastPayday.IsZero() && j.LastPayday.Before(s.last) {
		s.last = j.LastPayday
	}
	if early, late, ok := j.namedDays(); ok {
		s.due, s.start = halfMonth(year, early, late), -2 // since last December, to be moved into January
		if j.Frequency == Monthly {
			s.due, s.start = func(n int) Date { return inMonth(year, 1+n, early) }, -1
		}
		return s
	}
	first := j.dueOf(j.FirstPayday)
	if first.IsZero() {
		first, s.start = j.assumedFirstPayday(year), -1
	}
	s.due = func(n int) Date { return j.Frequency.nth(first, n) }
	s.start += max(0, j.Frequency.stepsBefore(first, year)-1)
	return s
}

// namedDays are the days of the month that the answers name, one twice where
// they name one.
func (j Job) namedDays() (early, late int, ok bool) {
	switch n := len(j.PaydaysOfMonth); {
	case n == 1 && j.Frequency == Monthly:
		return int(j.PaydaysOfMonth[0]), int(j.PaydaysOfMonth[0]), true
	case n == 2 && j.Frequency == Semimonthly:
		early, late := j.PaydaysOfMonth[0], j.PaydaysOfMonth[1]
		return int(min(early, late)), int(max(early, late)), true
	}
	return 0, 0, false
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

const lastDay = int(LastDay)

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
	const months = 12
	passed := year*months + month - 1 // since January of the year 0
	year = passed / months
	if passed < 0 {
		year = (passed+1)/months - 1
	}
	d := On(year, time.Month(passed-year*months+1), day)
	if day > shortestMonth {
		d.Day = min(day, daysIn(d.Year, d.Month))
	}
	return d
}

// semimonthly is the n-th half month after first.
func semimonthly(first Date, n int) Date {
	early, late := halfMonths(monthDay(first))
	if first.Day > 15 {
		n++ // counted from the early day of the first month
	}
	return halfMonth(first.Year, early, late)(n + 2*(int(first.Month)-1))
}

// halfMonth counts half months from the early day of January of a year.
func halfMonth(year, early, late int) func(n int) Date {
	return func(n int) Date {
		if n%2 != 0 {
			return inMonth(year, 1+floorHalf(n), late)
		}
		return inMonth(year, 1+n/2, early)
	}
}

func floorHalf(n int) int {
	if n < 0 {
		return (n - 1) / 2
	}
	return n / 2
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

// HalfMonthDays are the days of the month on which a job that pays twice a month
// is taken to pay by the days in the answers: its first payday and that of its
// stub; zero where they give none, or do not go together. They are known where
// those days are in both halves of the month, or are the 15th or the last day,
// which go together. Of another day alone it is a guess that the other is 15 days
// away.
func (j Job) HalfMonthDays() (early, late int, known bool) {
	for _, d := range []Date{j.FirstPayday, j.StubPayday()} {
		due := j.dueOf(d)
		if due.IsZero() {
			continue
		}
		day := monthDay(due)
		if j.Frequency.likely(due) {
			early, late = halfMonths(day)
			return early, late, true
		}
		half := &late
		if day < 15 {
			half = &early
		}
		if *half != 0 && *half != day {
			return 0, 0, false
		}
		*half = day
	}
	switch {
	case early != 0 && late != 0:
		return early, late, true
	case early+late != 0:
		early, late = halfMonths(early + late)
	}
	return early, late, false
}

// assumedFirstPayday takes the place of a first payday that the answers leave
// out, as the day on which it is due: where the last stub's payday is known, the
// payday it leads back to in January; else a Friday, or the end of the year's
// first month. Of the two Fridays that every second week can begin with, it is
// the one that gives the year 26 paydays.
func (j Job) assumedFirstPayday(year int) Date {
	if j.YearToDate != nil && j.YearToDate.Payday.Year == year {
		return j.Frequency.earliestInYear(j.dueOf(j.YearToDate.Payday))
	}
	newYear := On(year, time.January, 1)
	friday := newYear.AddDays((int(time.Friday) - int(newYear.Weekday()) + 7) % 7)
	switch j.Frequency {
	case Daily:
		return newYear
	case Weekly:
		return friday
	case Biweekly:
		if j.Moved.move(friday.AddDays(26*j.Frequency.days())).Year == year {
			return friday.AddDays(j.Frequency.days() / 2)
		}
		return friday
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

// paidEarly is how many days before a payday of the calendar its stub may be
// dated: a bank holiday that is not federal, or a payroll that pays sooner than
// the answers say. Common practice.
const paidEarly = 3

// PaydaysAfter are the paydays of the year still to come after a date.
func (j Job) PaydaysAfter(year int, after Date) []Date {
	days := j.Paydays(year)
	return days[countThrough(days, after):]
}

// countThrough is how many of the days, in order, are on or before a date.
func countThrough(days []Date, d Date) int {
	return sort.Search(len(days), func(i int) bool { return days[i].After(d) })
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

// IsPaydayStub reports whether a pay stub may bear a date: the day on which a
// payday of the year is due or paid, or one that PaydaysThrough takes to be a
// payday's, paid early.
func (j Job) IsPaydayStub(year int, stub Date) bool {
	if j.PaysOn(year, stub) {
		return true
	}
	p := j.PaydaysThrough(year, stub)
	return p.Covered > countThrough(p.All, stub)
}

// PaysOn reports a day on which a payday of the year is due or paid.
func (j Job) PaysOn(year int, d Date) bool {
	for due, paid := range j.paydays(year) {
		if due == d || paid == d {
			return true
		}
	}
	return false
}

// MayPayOn reports whether a job that names its days of the month may pay on a
// day: it is one of them, or a payday of theirs is due or paid on it.
func (j Job) MayPayOn(year int, d Date) bool { return j.named(d) || j.IsPaydayStub(year, d) }
