package terminal

import (
	"fmt"
	"strings"
	"testing"
)

func TestAnotherPlanOnTheWholeScreen(t *testing.T) {
	m, saved := sat(t, twoEarners(t), 80, 24)
	first := fmt.Sprint(m.results[0].lines)
	press(m, "i", "enter", "enter", "6", "/", "2", "0", "enter") // what may happen, for the plan recommended
	press(m, "p")
	expect(t, m, "Which plan do you want to use?")
	expect(t, m, "(recommended)")
	was := *saved
	for m.field.question.Options[m.field.hovered()].Value != "tuned" {
		press(m, "down")
	}
	press(m, "enter")
	expect(t, m, "now those of the plan fitted.")
	if *saved == was {
		t.Error("the choice was not saved")
	}
	if m.result != 0 || len(m.found) != 0 {
		t.Errorf("page %d with %d pages of what may happen, want the first with none", m.result+1, len(m.found))
	}
	if r, err := m.sitting.Session.Result(); err != nil || r.Recommended.Name != "tuned" {
		t.Errorf("handed over is %s (%v)", r.Recommended.Name, err)
	}
	if fmt.Sprint(m.results[0].lines) == first {
		t.Error("the page for the employer has not changed")
	}
	press(m, "p")
	if got := m.field.text; got != "tuned" {
		t.Errorf("the cursor is on %q, want the plan chosen", got)
	}
	press(m, "esc")
	expect(t, m, "1 Answer")
}

func TestAnotherPlanLineByLine(t *testing.T) {
	s := session(t, twoEarners(t))
	out, _, err := talked(t, s, "plan", "back", "plan", "private", "quit")
	if err != nil {
		t.Fatalf("it ended with %v:\n%s", err, out)
	}
	if n := strings.Count(out, "Hand in a new form at"); n < 2 {
		t.Errorf("the pages were said %d times, want them again after the choice", n)
	}
	if !strings.Contains(strings.Join(strings.Fields(out), " "), "now those of the plan private.") {
		t.Errorf("the choice is not confirmed:\n%s", out)
	}
	if r, err := s.Result(); err != nil || r.Recommended.Name != "private" {
		t.Errorf("handed over is %s (%v)", r.Recommended.Name, err)
	}
}

// A blank certificate is the only one there is.
func TestBlankHasNoOtherPlan(t *testing.T) {
	out, _, err := talked(t, session(t, ""), "1", "1", "", "", "", "0", "none", "no", "plan", "if", "quit")
	if err != nil {
		t.Fatalf("it ended with %v:\n%s", err, out)
	}
	for _, words := range []string{"Which plan", "What may happen?", "another plan", "would change"} {
		if strings.Contains(strings.Join(strings.Fields(out), " "), words) {
			t.Errorf("%q is offered:\n%s", words, out)
		}
	}
}
