package household

import (
	"testing"
	"time"

	"pgregory.net/rapid"
)

// The days after and before a day are those of package time.
func TestAddDays(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		from := time.Date(rapid.IntRange(1, 9999).Draw(t, "year"), time.Month(rapid.IntRange(1, 12).Draw(t, "month")), rapid.IntRange(1, 31).Draw(t, "day"), 0, 0, 0, 0, time.UTC)
		n := rapid.IntRange(-2000, 2000).Draw(t, "n")
		if got, want := DateOf(from).AddDays(n), DateOf(from.AddDate(0, 0, n)); got != want {
			t.Errorf("%v and %d days: %v, want %v", DateOf(from), n, got, want)
		}
	})
}

// A month counted from January of a year is that of package time.
func TestInMonth(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		year, month, day := rapid.IntRange(-2, 9999).Draw(t, "year"), rapid.IntRange(-30, 60).Draw(t, "month"), rapid.IntRange(1, 31).Draw(t, "day")
		first := time.Date(year, time.Month(month), 1, 0, 0, 0, 0, time.UTC)
		last := first.AddDate(0, 1, -1).Day()
		if got, want := inMonth(year, month, day), On(first.Year(), first.Month(), min(day, last)); got != want {
			t.Errorf("inMonth(%d, %d, %d) = %v, want %v", year, month, day, got, want)
		}
	})
}
