package household

import (
	"slices"
	"time"
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

// String is the name in the answers file.
func (m MovedPaydays) String() string { return movedPaydaysNames[m] }

// MarshalText writes the name in the answers file.
func (m MovedPaydays) MarshalText() ([]byte, error) { return []byte(m.String()), nil }

// UnmarshalText reads the name in the answers file.
func (m *MovedPaydays) UnmarshalText(text []byte) error {
	return choice(m, text, movedPaydaysNames, "moved_paydays")
}

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
