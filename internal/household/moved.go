package household

import (
	"slices"
	"strconv"
	"time"

	"example.com/plumbline/internal/bankdays"
	"example.com/plumbline/internal/words"
)

// MovedPaydays is what payroll does with a payday on which banks are closed.
type MovedPaydays int8

// The three customs; the first is the usual one.
const (
	MovedBefore MovedPaydays = iota // paid on the business day before
	MovedAfter                      // paid on the business day after
	PaidAsIs                        // paid on the day itself
)

var movedPaydaysNames = []string{"before", "after", "as_is"}

// mostMoved is the most days by which a payday is moved: a Friday's holiday and
// a weekend, or a weekend and a Monday's.
const mostMoved = 3

// move is the day on which pay that is due on a day is paid.
func (m MovedPaydays) move(due Date) Date {
	step := -1
	switch m {
	case PaidAsIs:
		return due
	case MovedAfter:
		step = 1
	}
	for !due.bankDay() {
		due = due.AddDays(step)
	}
	return due
}

// BusinessDay is the day itself, or the first one after it that is neither on a
// weekend nor a legal public holiday.
func (d Date) BusinessDay() Date { return MovedAfter.move(d) }

// BusinessDayBefore is the day itself, or the last one before it that is neither on
// a weekend nor a legal public holiday.
func (d Date) BusinessDayBefore() Date { return MovedBefore.move(d) }

func (d Date) bankDay() bool { return bankdays.Open(d.Civil()) }

func (d Date) isWeekday() bool {
	return d.Weekday() != time.Saturday && d.Weekday() != time.Sunday
}

// dueOf is the day on which pay was due that was paid on a day: the day itself,
// unless a payday that is moved to it is likelier. That is the 15th or the last
// of the month for pay by months, and a Friday's holiday for pay by weeks. So
// Friday, November 13, 2026 is read as the payday of Sunday the 15th. Common
// practice.
func (j Job) dueOf(paid Date) Date {
	if paid.IsZero() || j.Frequency.likely(paid) || !paid.bankDay() {
		return paid
	}
	for away := -mostMoved; away <= mostMoved; away++ {
		if due := paid.AddDays(away); !due.bankDay() && j.Frequency.likely(due) && j.Moved.move(due) == paid {
			return due
		}
	}
	return paid
}

// likely reports whether pay is often due on a day.
func (f Frequency) likely(d Date) bool {
	switch f {
	case FrequencyUnknown, Daily:
		return true
	case Weekly, Biweekly:
		return d.Weekday() == time.Friday
	}
	return d.Day == 15 || monthDay(d) == lastDay
}

// FirstPaydayIn is a first payday as an answer from which a year's paydays
// follow: the first day of the year on which the job is paid, unless that would
// be read otherwise; then the one in the answers, where there is one. Zero where
// the year has no payday.
func (j Job) FirstPaydayIn(year int) Date {
	days := j.Paydays(year)
	for due, paid := range j.paydays(year) {
		again := j
		again.FirstPayday = paid
		switch {
		case slices.Equal(again.Paydays(year), days):
			return paid
		case j.FirstPayday.IsZero():
			return due
		}
		return j.FirstPayday
	}
	return Date{}
}

// InStep is the job with a first payday from which later years go on in step
// with the paydays of a year.
func (j Job) InStep(year int) Job {
	if j.FirstPayday.IsZero() {
		j.FirstPayday = j.FirstPaydayIn(year)
	}
	return j
}

// MovedOverNewYear are paydays that count in a year because they are paid in
// it, or do not because they are paid outside it: the day on which each is due,
// and the one on which it is paid. Only a first payday of the year can be paid
// in the year before, and only where the answers name it.
func (j Job) MovedOverNewYear(year int) (into, out []Moved) {
	if first := j.FirstPayday; first.Year == year && j.Moved.move(first).Year != year {
		out = append(out, Moved{first, j.Moved.move(first)})
	}
	for due, paid := range j.paydays(year) {
		if due.Year != year {
			into = append(into, Moved{due, paid})
		}
	}
	return into, out
}

// Moved is a payday that is not paid on the day on which it is due.
type Moved struct{ Due, Paid Date }

// DayOfMonth is a payday that the answers name by its day of the month; LastDay
// is the month's last, and a day that a month does not have is its last, too.
type DayOfMonth int8

// LastDay is the last day of any month.
const LastDay DayOfMonth = 31

// String is the day as the answers file writes it: "15" or "last".
func (d DayOfMonth) String() string {
	if d == LastDay {
		return "last"
	}
	return strconv.Itoa(int(d))
}

// MarshalText writes the day as String does.
func (d DayOfMonth) MarshalText() ([]byte, error) { return []byte(d.String()), nil }

// UnmarshalText reads a day of the month, or "last".
func (d *DayOfMonth) UnmarshalText(text []byte) error {
	n, err := strconv.Atoi(string(text))
	switch {
	case string(text) == LastDay.String():
		n = int(LastDay)
	case err != nil || n < 1 || n > int(LastDay):
		return words.Fail("answers.day_of_month", "text", string(text))
	}
	*d = DayOfMonth(n)
	return nil
}

// String is the name in the answers file.
func (x MovedPaydays) String() string { return movedPaydaysNames[x] }

// MarshalText writes the name in the answers file.
func (x MovedPaydays) MarshalText() ([]byte, error) { return []byte(x.String()), nil }

// UnmarshalText reads the name in the answers file.
func (x *MovedPaydays) UnmarshalText(text []byte) error {
	return choice(x, text, movedPaydaysNames, "moved_paydays")
}
