package yamldoc

import (
	"testing"

	"pgregory.net/rapid"
)

// A distance that is given up early is above the limit in truth.
func TestDistanceIsGivenUpRightly(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		name := rapid.StringMatching(`[abc_]{0,8}`)
		a, b, most := name.Draw(t, "a"), name.Draw(t, "b"), rapid.IntRange(0, 5).Draw(t, "most")
		whole, limited := distance(a, b, 100), distance(a, b, most)
		if limited != whole && (limited <= most || whole <= most) {
			t.Errorf("%q and %q are %d apart, by a limit of %d they are %d", a, b, whole, most, limited)
		}
	})
}

// Each slip is one step: a letter too many, too few, another one, two exchanged.
func TestDistance(t *testing.T) {
	for _, tt := range []struct {
		a, b string
		want int
	}{
		{"", "", 0},
		{"jobs", "jobs", 0},
		{"jobss", "jobs", 1},
		{"jbs", "jobs", 1},
		{"jabs", "jobs", 1},
		{"ojbs", "jobs", 1},
		{"wages", "jobs", 4},
	} {
		if got := distance(tt.a, tt.b, 100); got != tt.want {
			t.Errorf("distance(%q, %q) = %d, want %d", tt.a, tt.b, got, tt.want)
		}
	}
}
