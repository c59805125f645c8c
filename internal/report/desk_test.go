package report

import (
	"fmt"
	"testing"

	"example.com/plumbline/internal/words"
)

// Of many names the first are said, and how many more there are; never "and 1 more",
// which is no shorter than the name.
func TestSome(t *testing.T) {
	for n, want := range map[int]string{
		0: "", 1: "r1", 3: "r1, r2 and r3", 4: "r1, r2, r3 and r4", 5: "r1, r2, r3 and 2 more", 900: "r1, r2, r3 and 897 more",
	} {
		var names []string
		for i := range n {
			names = append(names, fmt.Sprintf("r%d", i+1))
		}
		if got := words.English().Say(words.T("desk.all", "all", Some(names, 3))); got != want {
			t.Errorf("of %d: %q, want %q", n, got, want)
		}
	}
}
