package terminal

import (
	"os"
	"strings"
	"testing"
)

// twoEarners is the demonstration couple, whose answers are complete.
func twoEarners(t *testing.T) string {
	t.Helper()
	file, err := os.ReadFile("../../testdata/two-earners/household.yaml")
	if err != nil {
		t.Fatal(err)
	}
	return string(file)
}

func TestWhatIfOnTheWholeScreen(t *testing.T) {
	m, _ := sat(t, twoEarners(t), 80, 24)
	if m.view != showing {
		t.Fatal("the answers of the couple have no results")
	}
	pages := len(m.results)
	press(m, "i")
	expect(t, m, "What may happen?")
	press(m, "down", "down", "down", "enter")
	expect(t, m, "At which job?")
	press(m, "enter")
	expect(t, m, "By what percent")
	press(m, "0", "enter")
	expect(t, m, "! ")
	press(m, "esc")
	expect(t, m, "At which job?")
	press(m, "enter", "backspace", "1", "0", "enter")
	expect(t, m, "What changes")
	expect(t, m, "B is a raise of 10% at Larkspur Clinic.")
	if len(m.results) != pages+1 || m.result != pages {
		t.Errorf("page %d of %d is shown, want the new last one of %d", m.result+1, len(m.results), pages+1)
	}
	press(m, "i", "esc")
	expect(t, m, "What changes")
	if strings.Contains(string(m.sitting.Session.Document().Bytes()), "what_if") {
		t.Error("what may happen was kept among the answers")
	}
}

func TestWhatIfLineByLine(t *testing.T) {
	out, _, err := talked(t, session(t, twoEarners(t)), "if", "a raise", "back", "a baby comes", "2026-11-20", "quit")
	if err != nil {
		t.Fatalf("it ended with %v:\n%s", err, out)
	}
	out = strings.Join(strings.Fields(out), " ")
	for _, words := range []string{"What may happen?", "At which job?", "On which day is the baby expected?", "B is a baby born on November 20, 2026.", "$2,200 less"} {
		if !strings.Contains(out, words) {
			t.Errorf("%q was not said:\n%s", words, out)
		}
	}
}
