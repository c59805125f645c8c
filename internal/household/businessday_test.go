package household

import "testing"

// The ends of last year's claims to be exempt (Form W-4: February 15, or the next
// business day), read off the calendars: Washington's Birthday is the third
// Monday of February.
func TestBusinessDay(t *testing.T) {
	for _, tt := range []struct{ day, want string }{
		{"2025-02-15", "2025-02-18"}, // a Saturday before the holiday
		{"2026-02-15", "2026-02-17"}, // a Sunday before the holiday
		{"2027-02-15", "2027-02-16"}, // the holiday
		{"2028-02-15", "2028-02-15"}, // a Tuesday
	} {
		if got := day(t, tt.day).BusinessDay(); got.String() != tt.want {
			t.Errorf("%s: %v, want %s", tt.day, got, tt.want)
		}
	}
}

// What is to be done by a day on which nobody works is done on the business day
// before. A bank is open on the Friday before a holiday that falls on a Saturday:
// Federal Reserve Banks, holiday schedules, from memory.
func TestBusinessDayBefore(t *testing.T) {
	for day, want := range map[Date]Date{
		On(2028, 1, 1):   On(2027, 12, 31), // New Year's Day, a Saturday
		On(2027, 1, 1):   On(2026, 12, 31),
		On(2026, 12, 9):  On(2026, 12, 9),
		On(2026, 12, 13): On(2026, 12, 11), // a Sunday
	} {
		if got := day.BusinessDayBefore(); got != want {
			t.Errorf("before %v: %v, want %v", day, got, want)
		}
	}
}
