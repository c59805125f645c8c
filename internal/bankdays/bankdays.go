// Package bankdays tells the days on which banks are open, so that pay can
// reach an account: no weekend and no legal public holiday. The holidays are
// rules of the law, read once from taxtables/calendar.
//
// Start at Open. It knows no payday and moves none: package household does.
package bankdays

import (
	"fmt"
	"strings"
	"sync"
	"sync/atomic"
	"time"

	"example.com/plumbline/internal/yamldoc"
	"example.com/plumbline/taxtables"
)

const file = "calendar/holidays.yaml"

// Open reports whether banks are open on a day.
//
// 5 U.S.C. 6103(a). A holiday on a Sunday is kept on the Monday after. The
// Friday before a holiday on a Saturday is a day off for federal employees
// (5 U.S.C. 6103(b)), but the Federal Reserve Banks are open.
func Open(year int, month time.Month, day int) bool {
	if year < 0 || year >= len(calendars) || month < time.January || month > time.December || day < 1 || day > 31 {
		return open(time.Date(year, month, day, 12, 0, 0, 0, time.UTC))
	}
	c := calendars[year].Load()
	if c == nil {
		c = calendarOf(year)
		calendars[year].Store(c)
	}
	return c[month]&(1<<day) != 0
}

// calendar are the days of a year on which banks are open: of each month, by its
// number, a bit a day.
type calendar [13]uint32

// calendars are those of the years asked for so far: a household asks hundreds of
// times for the days of two.
var calendars [10_000]atomic.Pointer[calendar]

func calendarOf(year int) *calendar {
	var c calendar
	for month := time.January; month <= time.December; month++ {
		for day := 1; day <= 31; day++ {
			if open(time.Date(year, month, day, 12, 0, 0, 0, time.UTC)) {
				c[month] |= 1 << day
			}
		}
	}
	return &c
}

func open(d time.Time) bool {
	switch d.Weekday() {
	case time.Saturday, time.Sunday:
		return false
	case time.Monday:
		if onHoliday(d.AddDate(0, 0, -1)) {
			return false
		}
	}
	return !onHoliday(d)
}

func onHoliday(d time.Time) bool {
	month := int(d.Month())
	for _, h := range holidays() {
		if h.Month == month && h.falls(d) {
			return true
		}
	}
	return false
}

// holiday is the rule of one: a day of a month, or the nth weekday of it, the
// last where nth is -1.
type holiday struct {
	Name    string  `yaml:"name,required"`
	Month   int     `yaml:"month,required"`
	Day     int     `yaml:"day"`
	Weekday weekday `yaml:"weekday"`
	Nth     int     `yaml:"nth"`
}

// falls reports whether the holiday falls on a day of its month.
func (h holiday) falls(d time.Time) bool {
	const week = 7
	switch {
	case h.Nth == 0:
		return d.Day() == h.Day
	case d.Weekday() != time.Weekday(h.Weekday):
		return false
	case h.Nth < 0:
		return d.AddDate(0, 0, week).Month() != d.Month()
	}
	return (d.Day()-1)/week+1 == h.Nth
}

// Check reports a rule that names no day of the year.
func (h holiday) Check(report yamldoc.Report) {
	switch {
	case h.Month < 1 || h.Month > 12:
		report("month", yamldoc.Said(fmt.Sprintf("%d is not a month; write 1 to 12", h.Month)))
	case h.Nth == 0 && (h.Day < 1 || h.Day > 31):
		report("day", yamldoc.Said("write a day of the month, or a weekday and which one it is"))
	case h.Nth != 0 && h.Day != 0:
		report("day", yamldoc.Said("write a day of the month or a weekday, not both"))
	case h.Nth < -1 || h.Nth > 4:
		report("nth", yamldoc.Said(fmt.Sprintf("%d: write 1 to 4, or -1 for the last", h.Nth)))
	}
}

type weekday time.Weekday

// UnmarshalText reads a weekday's English name in small letters. Its error is for
// who changes the file, which is part of the program: no user meets it.
func (w *weekday) UnmarshalText(text []byte) error {
	for d := time.Sunday; d <= time.Saturday; d++ {
		if strings.ToLower(d.String()) == string(text) {
			*w = weekday(d)
			return nil
		}
	}
	return fmt.Errorf("%.20q is not a weekday; write monday or the like", text)
}

// holidays are the rules of the file, which is part of the program: a mistake
// in it is one of ours.
var holidays = sync.OnceValue(func() []holiday {
	text, err := taxtables.Files.ReadFile(file)
	if err != nil {
		panic(err)
	}
	list, err := read(text)
	if err != nil {
		panic(err)
	}
	return list
})

func read(text []byte) ([]holiday, error) {
	doc, err := yamldoc.Parse(file, text)
	if err != nil {
		return nil, err
	}
	var in struct {
		Source   string    `yaml:"source,required"`
		Basis    string    `yaml:"basis,required"`
		Holidays []holiday `yaml:"holidays,required"`
	}
	if problems := doc.Decode(&in); len(problems) > 0 {
		return nil, problems.Err()
	}
	return in.Holidays, nil
}
