package household

import (
	"testing"
	"time"

	"pgregory.net/rapid"
)

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
