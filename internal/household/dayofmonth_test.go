package household

import "testing"

func TestDayOfMonth(t *testing.T) {
	for _, tt := range []struct{ text, want string }{
		{"15", "15"}, {"1", "1"}, {"31", "last"}, {"last", "last"},
	} {
		var d DayOfMonth
		if err := d.UnmarshalText([]byte(tt.text)); err != nil || d.String() != tt.want {
			t.Errorf("%s is read as %v, %v", tt.text, d, err)
		}
	}
	for _, text := range []string{"", "0", "32", "-1", "15th", "Last", "1.5"} {
		var d DayOfMonth
		if err := d.UnmarshalText([]byte(text)); err == nil {
			t.Errorf("%q is read as %v", text, d)
		}
	}
}
