package report

import (
	"strings"
	"testing"
)

// A plan of the person's own choosing is not called recommended, and the one
// that is stays marked among the others.
func TestChosenPlan(t *testing.T) {
	r := solved(t, demo(t, "two-earners"))
	if err := r.Choose("form"); err != nil {
		t.Fatal(err)
	}
	var b strings.Builder
	if err := Text(&b, Certificate(r), Width); err != nil {
		t.Fatal(err)
	}
	for _, words := range []string{"as things stand        chosen", "form (chosen)", "tuned (recommended)", "On the chosen plan:"} {
		if !strings.Contains(b.String(), words) {
			t.Errorf("the page does not say %q:\n%s", words, b.String())
		}
	}
	if strings.Contains(b.String(), "form (recommended)") {
		t.Error("the chosen plan is called recommended")
	}
}
