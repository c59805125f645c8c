package household

import (
	"regexp"
	"strconv"
	"strings"
	"time"

	"example.com/plumbline/internal/words"
)

// DayTyped is how a day that a person types is meant: what it leaves out comes
// from here.
type DayTyped struct {
	Today Date
	Year  int  // of a day without its year
	Ahead bool // a day of the month alone is the next one; else the last one
	Birth bool // the year alone will do, and two digits of it are of the past
}

var (
	numericDay = regexp.MustCompile(`^([0-9]{1,2})[/.-]([0-9]{1,2})(?:[/.-]([0-9]{4}|[0-9]{2}))?$`)
	isoDay     = regexp.MustCompile(`^([0-9]{4})[/.-]([0-9]{1,2})[/.-]([0-9]{1,2})$`)
	namedDay   = regexp.MustCompile(`^([a-z]+)\.?\s*([0-9]{1,2})(?:st|nd|rd|th)?(?:,?\s+([0-9]{4}|[0-9]{2}))?$`)
	dayNamed   = regexp.MustCompile(`^(?:the\s+)?([0-9]{1,2})(?:st|nd|rd|th)?(?:\s+of)?\s+([a-z]+)\.?(?:,?\s+([0-9]{4}|[0-9]{2}))?$`)
	dayAlone   = regexp.MustCompile(`^(?:the\s+([0-9]{1,2})(?:st|nd|rd|th)?|([0-9]{1,2})(?:st|nd|rd|th))$`)
	yearAlone  = regexp.MustCompile(`^[0-9]{4}$`)
)

// Read reads a day as people type it: 2026-06-15, 6/15/2026, 11/13/26, Aug 14,
// 14 August 2026, the 15th. Numbers are month, day and year, as in the United
// States. What is wrong is named part by part.
func (r DayTyped) Read(text string) (Date, error) {
	s := strings.Join(strings.Fields(strings.ToLower(text)), " ")
	var year, month, day string
	if m := isoDay.FindStringSubmatch(s); m != nil {
		year, month, day = m[1], m[2], m[3]
	} else if m := numericDay.FindStringSubmatch(s); m != nil {
		month, day, year = m[1], m[2], m[3]
	} else if m := dayAlone.FindStringSubmatch(s); m != nil && !r.Birth {
		return r.ofMonth(m[1] + m[2])
	} else if m := namedDay.FindStringSubmatch(s); m != nil {
		month, day, year = m[1], m[2], m[3]
	} else if m := dayNamed.FindStringSubmatch(s); m != nil {
		day, month, year = m[1], m[2], m[3]
	} else if r.Birth && yearAlone.MatchString(s) {
		// Where the law looks at the age at the end of the year, the day does not
		// matter; one in the middle is taken.
		n, _ := strconv.Atoi(s)
		return r.checked(n, time.July, 1, s)
	} else if r.Birth {
		return Date{}, words.Fail("interview.error.day.no_birth_date", "text", text)
	} else {
		return Date{}, words.Fail("interview.error.day.none", "text", text, "year", r.Year)
	}
	mon, err := monthOf(month)
	if err != nil {
		return Date{}, err
	}
	n, _ := strconv.Atoi(day)
	return r.checked(r.yearOf(year), mon, n, day)
}

// monthOf is a month by its number or its name, or the first three letters of
// it.
func monthOf(text string) (time.Month, error) {
	if n, err := strconv.Atoi(text); err == nil {
		if n < 1 || n > 12 {
			return 0, words.Fail("interview.error.day.no_month", "text", text)
		}
		return time.Month(n), nil
	}
	for m := time.January; m <= time.December; m++ {
		if len(text) >= 3 && strings.HasPrefix(strings.ToLower(m.String()), text) || text == "sept" && m == time.September {
			return m, nil
		}
	}
	return 0, words.Fail("interview.error.day.no_month", "text", text)
}

// yearOf is a year as typed: the one that is meant where it is left out, and the
// century that makes sense where two digits are.
func (r DayTyped) yearOf(text string) int {
	n, err := strconv.Atoi(text)
	switch {
	case err != nil:
		return r.Year
	case len(text) > 2:
		return n
	}
	n += r.Today.Year / 100 * 100
	if r.Birth && n > r.Year+1 {
		n -= 100
	}
	return n
}

// ofMonth is a day of the month alone: the last one that there has been, or the
// next.
func (r DayTyped) ofMonth(text string) (Date, error) {
	n, _ := strconv.Atoi(text)
	if n < 1 || n > lastDay {
		return Date{}, words.Fail("interview.error.day.no_day", "text", text)
	}
	step, month := -1, int(r.Today.Month)
	if r.Ahead {
		step = 1
	}
	for range 12 {
		d := inMonth(r.Today.Year, month, n)
		if d.Day == n && (r.Ahead && !d.Before(r.Today) || !r.Ahead && !d.After(r.Today)) {
			return d, nil
		}
		month += step
	}
	return Date{}, words.Fail("interview.error.day.no_day", "text", text)
}

func (r DayTyped) checked(year int, month time.Month, day int, text string) (Date, error) {
	const oldest, newest = 1850, 2200
	switch {
	case year < oldest || year > newest:
		return Date{}, words.Fail("interview.error.day.no_year", "text", strconv.Itoa(year))
	case day < 1 || day > daysIn(year, month):
		return Date{}, words.Fail("interview.error.day.no_day", "text", text)
	}
	return On(year, month, day), nil
}
