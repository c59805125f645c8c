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
	text := asText(t, 80, en.Plans(r))
	if !strings.Contains(text, "worksheets (chosen)") {
		t.Errorf("the page does not say which plan is chosen:\n%s", text)
	}
	if strings.Contains(text, "worksheets (recommended)") {
		t.Error("the chosen plan is called recommended")
	}
}
