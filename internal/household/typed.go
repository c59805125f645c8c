package household

import (
	"strconv"
	"time"

	"example.com/plumbline/internal/words"
)

// DayTyped is how a day that a person types is meant: what it leaves out comes
// from here.
type DayTyped struct {
	Today Date
	Year  int  // of a day without its year
	Ahead bool // a day of the month alone is the next one; else the last one
	Birth bool // the year alone will do, two digits of it are of the past, and without it nothing is known
}

// Read reads a day as people type it in a language (words.ReadDay); of a birth
// also its year alone. What is wrong is named part by part, and a day that could
// be two is questioned.
func (r DayTyped) Read(text string, in *words.Language) (Date, error) {
	if n, err := strconv.Atoi(text); err == nil && r.Birth && len(text) == 4 {
		// Where the law looks at the age at the end of the year, the day does not
		// matter; one in the middle is taken.
		return r.checked(n, time.July, 1, text)
	}
	typed, ok := in.ReadDay(text)
	switch {
	case ok && typed.Month == "" && !r.Birth:
		return r.ofMonth(typed.Day)
	case r.Birth && (!ok || typed.Month == ""):
		return Date{}, words.Fail("interview.error.day.no_birth_date", "text", text)
	case !ok:
		return Date{}, words.Fail("interview.error.day.none", "text", text, "year", r.Year)
	case r.Birth && typed.Year == "":
		return Date{}, words.Fail("interview.error.day.no_birth_year", "text", text)
	}
	d, err := r.day(typed.Year, typed.Month, typed.Day)
	if err != nil || !typed.Exchanged {
		return d, err
	}
	other, err := r.day(typed.Year, typed.Day, typed.Month)
	if err != nil {
		return d, nil
	}
	return Date{}, words.Fail("interview.error.day.two_ways", "text", text, "one", d, "other", other, "iso", d.String())
}

// day is the day of the parts that were typed.
func (r DayTyped) day(year, month, day string) (Date, error) {
	m, err := strconv.Atoi(month)
	if err != nil || m < 1 || m > 12 {
		return Date{}, words.Fail("interview.error.day.no_month", "text", month)
	}
	n, _ := strconv.Atoi(day)
	return r.checked(r.yearOf(year), time.Month(m), n, day)
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
