package household

import (
	"testing"
	"time"

	"pgregory.net/rapid"
)

func TestDateText(t *testing.T) {
	for _, s := range []string{"2026-06-15", "2028-02-29", "2025-12-31", "1900-01-01"} {
		d := day(t, s)
		if d.String() != s {
			t.Errorf("%s reads as %v", s, d)
		}
		text, err := d.MarshalText()
		if err != nil || string(text) != s {
			t.Errorf("%s is written %q, %v", s, text, err)
		}
	}
	for _, s := range []string{"2026-02-29", "2026-04-31", "2026-13-01", "06/15/2026", "2026-6-15", "2026-06-15T00:00:00Z", "", "tomorrow", "2026-00-10", "٢٠٢٦-٠٦-١٥"} {
		var d Date
		if err := d.UnmarshalText([]byte(s)); err == nil {
			t.Errorf("%q is read as %v, want an error", s, d)
		}
	}
	if text, err := (Date{}).MarshalText(); err != nil || len(text) != 0 {
		t.Errorf("a date not known is written %q, %v", text, err)
	}
}

func TestDateArithmetic(t *testing.T) {
	tests := []struct {
		source   string
		from, to string
		days     int
	}{
		{"2028 is a leap year", "2028-02-28", "2028-03-01", 2},
		{"2026 is not", "2026-02-28", "2026-03-01", 1},
		{"2000 was one", "2000-02-28", "2000-03-01", 2},
		{"a year", "2026-01-01", "2027-01-01", 365},
		{"back over New Year", "2026-01-01", "2025-12-31", -1},
		{"summer time begins 8 March 2026", "2026-03-07", "2026-03-09", 2},
	}
	for _, tt := range tests {
		from, to := day(t, tt.from), day(t, tt.to)
		if got := from.AddDays(tt.days); got != to {
			t.Errorf("%s: %v + %d days = %v, want %v", tt.source, from, tt.days, got, to)
		}
		if got := from.DaysUntil(to); got != tt.days {
			t.Errorf("%s: from %v to %v are %d days, want %d", tt.source, from, to, got, tt.days)
		}
	}
	if got := On(2026, time.November, 26).Weekday(); got != time.Thursday {
		t.Errorf("Thanksgiving 2026 is a %v", got)
	}
	if !EndOfYear(2026).Before(On(2027, time.January, 1)) || !On(2026, time.February, 1).After(On(2026, time.January, 31)) {
		t.Error("Before and After do not follow the calendar")
	}
}

// Born before 2 January 1961 is 65 or older at the end of 2025, though the
// birthday is on 1 January 1961 (Instructions for Form 1040 (2025), p. 110).
// For a child the birthdays count: one born on 1 January 2009 is 16 at the end
// of 2025, and under 17.
func TestAges(t *testing.T) {
	tests := []struct {
		source     string
		born       string
		year       int
		age, inLaw int
	}{
		{source: "Instructions for Form 1040 (2025), p. 110", born: "1961-01-01", year: 2025, age: 64, inLaw: 65},
		{source: "Instructions for Form 1040 (2025), p. 110", born: "1961-01-02", year: 2025, age: 64, inLaw: 64},
		{source: "Instructions for Form 1040 (2025), p. 110", born: "1960-12-31", year: 2025, age: 65, inLaw: 65},
		{source: "IRC 24(c)(1): birthdays", born: "2009-01-01", year: 2025, age: 16, inLaw: 17},
	}
	for _, tt := range tests {
		d := day(t, tt.born)
		if got := d.AgeAtEndOf(tt.year); got != tt.age {
			t.Errorf("%s: AgeAtEndOf(%d) of %s = %d, want %d", tt.source, tt.year, tt.born, got, tt.age)
		}
		if got := d.BirthdayAge(tt.year); got != tt.inLaw {
			t.Errorf("%s: BirthdayAge(%d) of %s = %d, want %d", tt.source, tt.year, tt.born, got, tt.inLaw)
		}
	}
}

func TestDateProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := On(1900, time.January, 1).AddDays(rapid.IntRange(0, 80000).Draw(t, "day"))
		n := rapid.IntRange(-5000, 5000).Draw(t, "days")
		e := d.AddDays(n)
		if d.DaysUntil(e) != n || e.AddDays(-n) != d {
			t.Fatalf("%v + %d days = %v, which is %d days away", d, n, e, d.DaysUntil(e))
		}
		if d.Before(e) != (n > 0) || d.After(e) != (n < 0) || (d.Compare(e) == 0) != (n == 0) {
			t.Fatalf("%v and %v do not compare as %d days apart", d, e, n)
		}
		if int(d.Weekday()+time.Weekday(((n%7)+7)%7))%7 != int(e.Weekday()) {
			t.Fatalf("%v is a %v and %v a %v", d, d.Weekday(), e, e.Weekday())
		}
		var again Date
		if err := again.UnmarshalText([]byte(d.String())); err != nil || again != d {
			t.Fatalf("%v reads as %v, %v", d, again, err)
		}
	})
}
