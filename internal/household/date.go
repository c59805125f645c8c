package household

import (
	"fmt"
	"time"

	"example.com/plumbline/internal/words"
)

// Date is a day of the calendar. The zero value means "not known".
type Date struct {
	Year  int
	Month time.Month
	Day   int
}

// On is the date of a year, month and day.
func On(year int, month time.Month, day int) Date { return Date{year, month, day} }

// DateOf is the calendar day of t where t was read.
func DateOf(t time.Time) Date {
	y, m, d := t.Date()
	return Date{y, m, d}
}

// Civil is the date as its parts; package words puts them in a language's order.
func (d Date) Civil() (year int, month time.Month, day int) { return d.Year, d.Month, d.Day }

// EndOfYear is 31 December.
func EndOfYear(year int) Date { return Date{year, time.December, 31} }

// IsZero reports whether the date is not known.
func (d Date) IsZero() bool { return d == Date{} }

// noon keeps day arithmetic away from the edges of a day.
func (d Date) noon() time.Time { return time.Date(d.Year, d.Month, d.Day, 12, 0, 0, 0, time.UTC) }

// AddDays is the date n days later. Within a few years it goes month by month: the
// paydays of a household are counted a few hundred times.
func (d Date) AddDays(n int) Date {
	const far = 1000
	d.Day += n
	if d.Day < -far || d.Day > far {
		return DateOf(d.noon())
	}
	for d.Day < 1 {
		d.Year, d.Month = monthBefore(d.Year, d.Month)
		d.Day += daysIn(d.Year, d.Month)
	}
	for d.Day > shortestMonth {
		days := daysIn(d.Year, d.Month)
		if d.Day <= days {
			break
		}
		d.Day -= days
		d.Year, d.Month = monthAfter(d.Year, d.Month)
	}
	return d
}

const shortestMonth = 28

func monthBefore(year int, month time.Month) (int, time.Month) {
	if month == time.January {
		return year - 1, time.December
	}
	return year, month - 1
}

func monthAfter(year int, month time.Month) (int, time.Month) {
	if month == time.December {
		return year + 1, time.January
	}
	return year, month + 1
}

// Before reports whether d comes before e.
func (d Date) Before(e Date) bool { return d.Compare(e) < 0 }

// After reports whether d comes after e.
func (d Date) After(e Date) bool { return d.Compare(e) > 0 }

// Compare is negative, zero or positive as d is before, on or after e.
func (d Date) Compare(e Date) int {
	if d.Year != e.Year {
		return d.Year - e.Year
	}
	if d.Month != e.Month {
		return int(d.Month) - int(e.Month)
	}
	return d.Day - e.Day
}

// Weekday is the day of the week.
func (d Date) Weekday() time.Weekday { return d.noon().Weekday() }

// DaysUntil is the number of days from d to e.
func (d Date) DaysUntil(e Date) int { return int(e.noon().Sub(d.noon()).Hours() / 24) }

// AgeAtEndOf is the age on 31 December of the year, as the law counts it for
// children: by birthdays.
func (d Date) AgeAtEndOf(year int) int { return year - d.Year }

// BirthdayAge is the age reached by the end of the year where the law holds a
// person to be of an age on the day before the birthday: someone born on
// 1 January is a year older at the end of the year before (Instructions for
// Form 1040, "age 65 or older").
func (d Date) BirthdayAge(year int) int {
	if d.Month == time.January && d.Day == 1 {
		return year - d.Year + 1
	}
	return year - d.Year
}

// String is the date as ISO 8601 writes it.
func (d Date) String() string { return fmt.Sprintf("%04d-%02d-%02d", d.Year, int(d.Month), d.Day) }

// MarshalText writes the date as ISO 8601 does; nothing when not known.
func (d Date) MarshalText() ([]byte, error) {
	if d.IsZero() {
		return nil, nil
	}
	return []byte(d.String()), nil
}

// UnmarshalText reads a date as ISO 8601 writes it, and refuses a day that no
// month has.
func (d *Date) UnmarshalText(text []byte) error {
	t, err := time.Parse(time.DateOnly, string(text))
	if err != nil {
		return words.Fail("answers.date", "text", string(text))
	}
	*d = DateOf(t)
	return nil
}

// daysIn is the number of days of a month.
func daysIn(year int, month time.Month) int {
	switch month {
	case time.April, time.June, time.September, time.November:
		return 30
	case time.February:
		if year%4 == 0 && (year%100 != 0 || year%400 == 0) {
			return 29
		}
		return shortestMonth
	}
	return 31
}
