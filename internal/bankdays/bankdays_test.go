package bankdays

import (
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"
)

// The federal holidays as the Office of Personnel Management publishes them for
// pay and leave ("Federal Holidays", opm.gov, 2025 to 2028; the dates from
// memory, each checked against the rule of 5 U.S.C. 6103 and a calendar). The
// Federal Reserve Banks are open on the ones marked, the Fridays before a
// Saturday.
var published = []struct {
	day      string
	bankOpen bool
}{
	{"2025-01-01", false},
	{"2025-01-20", false},
	{"2025-02-17", false},
	{"2025-05-26", false},
	{"2025-06-19", false},
	{"2025-07-04", false},
	{"2025-09-01", false},
	{"2025-10-13", false},
	{"2025-11-11", false},
	{"2025-11-27", false},
	{"2025-12-25", false},

	{"2026-01-01", false},
	{"2026-01-19", false},
	{"2026-02-16", false},
	{"2026-05-25", false},
	{"2026-06-19", false},
	{"2026-07-03", true},
	{"2026-09-07", false},
	{"2026-10-12", false},
	{"2026-11-11", false},
	{"2026-11-26", false},
	{"2026-12-25", false},

	{"2027-01-01", false},
	{"2027-01-18", false},
	{"2027-02-15", false},
	{"2027-05-31", false},
	{"2027-06-18", true},
	{"2027-07-05", false},
	{"2027-09-06", false},
	{"2027-10-11", false},
	{"2027-11-11", false},
	{"2027-11-25", false},
	{"2027-12-24", true},
	{"2027-12-31", true},

	{"2028-01-17", false},
	{"2028-02-21", false},
	{"2028-05-29", false},
	{"2028-06-19", false},
	{"2028-07-04", false},
	{"2028-09-04", false},
	{"2028-10-09", false},
	{"2028-11-10", true},
	{"2028-11-23", false},
	{"2028-12-25", false},
}

func TestPublishedHolidays(t *testing.T) {
	closed := map[string]bool{}
	for _, p := range published {
		closed[p.day] = !p.bankOpen
	}
	for d := time.Date(2025, 1, 1, 12, 0, 0, 0, time.UTC); d.Year() <= 2028; d = d.AddDate(0, 0, 1) {
		weekend := d.Weekday() == time.Saturday || d.Weekday() == time.Sunday
		day := d.Format(time.DateOnly)
		if got, want := Open(d.Date()), !weekend && !closed[day]; got != want {
			t.Errorf("%s, %v: open = %v, want %v", day, d.Weekday(), got, want)
		}
	}
}

// A day beyond its month is one of the next, as package time has it: February 29,
// 2026 is Sunday, March 1, and December 32 is New Year's Day, a Friday.
func TestDayBeyondItsMonth(t *testing.T) {
	for _, tt := range []struct {
		month time.Month
		day   int
		open  bool
	}{{time.February, 29, false}, {time.February, 30, true}, {time.December, 32, false}, {13, 4, true}} {
		if got := Open(2026, tt.month, tt.day); got != tt.open {
			t.Errorf("2026, month %d, day %d: open = %v", tt.month, tt.day, got)
		}
	}
}

// Eleven holidays a year, of which a few fall on a Saturday; never two closed
// weekdays in a row.
func TestHolidaysOfAnyYear(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		year := rapid.IntRange(2022, 2100).Draw(t, "year")
		closed, before := 0, false
		for d := time.Date(year, 1, 1, 12, 0, 0, 0, time.UTC); d.Year() == year; d = d.AddDate(0, 0, 1) {
			shut := !Open(d.Date()) && d.Weekday() != time.Saturday && d.Weekday() != time.Sunday
			if shut && before {
				t.Fatalf("%v and the day before are both closed", d)
			}
			if before = shut; shut {
				closed++
			}
		}
		if closed < 8 || closed > 11 {
			t.Fatalf("%d weekdays of %d are closed", closed, year)
		}
	})
}

func TestBrokenRules(t *testing.T) {
	const head = "source: an act\nbasis: statute\nholidays:\n"
	for _, tt := range []struct{ rule, want string }{
		{"{name: N, month: 13, day: 1}", "13 is not a month; write 1 to 12"},
		{"{name: N, month: 1}", "write a day of the month, or a weekday and which one it is"},
		{"{name: N, month: 1, day: 3, weekday: monday, nth: 1}", "write a day of the month or a weekday, not both"},
		{"{name: N, month: 1, weekday: monday, nth: 5}", "5: write 1 to 4, or -1 for the last"},
		{"{name: N, month: 1, weekday: Moonday, nth: 1}", `"Moonday" is not a weekday; write monday or the like`},
		{"{month: 1, day: 1}", "this key is required"},
	} {
		_, err := read([]byte(head + "  - " + tt.rule + "\n"))
		if err == nil || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("%s: %v, want %q", tt.rule, err, tt.want)
		}
	}
}

func BenchmarkOpen(b *testing.B) {
	for b.Loop() {
		Open(2026, time.December, 24)
	}
}
