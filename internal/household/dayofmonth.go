package household

import (
	"strconv"

	"example.com/plumbline/internal/words"
)

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
