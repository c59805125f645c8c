package terminal

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/charmbracelet/x/ansi"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/words"
)

// In a small window the first screen of the results begins with what to do, says
// where the rest is, and key by key leads through every line of every page.
func TestResultsInASmallWindow(t *testing.T) {
	for file, today := range map[string]household.Date{
		"new-baby": household.On(2026, 7, 6), "new-hire": household.On(2026, 1, 2), "retiree": household.On(2026, 4, 20),
		"side-business": household.On(2026, 3, 2), "two-earners": household.On(2026, 6, 15),
	} {
		answers, err := os.ReadFile(filepath.Join("../../testdata", file, "household.yaml"))
		if err != nil {
			t.Fatal(err)
		}
		for _, size := range [][2]int{{60, 20}, {60, 14}} {
			m, _ := seated(sessionOn(t, today, words.English(), string(answers)), words.English(), size[0], size[1])
			if m.view != showing {
				t.Fatalf("%s has no results: %s\n%s", file, m.message, m.View())
			}
			var lead []string
			for _, l := range m.results[0].lines {
				if l.Text == "" {
					break
				}
				lead = append(lead, l.Text)
			}
			if first := ansi.Strip(m.View()); !strings.Contains(first, strings.Join(lead, "\n")) {
				t.Errorf("%s: the first screen of %dx%d has not all of the verdict:\n%s", file, size[0], size[1], first)
			}
			for i := range m.results {
				m.turn(i - m.result)
				readThrough(t, m)
			}
		}
	}
}

// readThrough goes down a page and up again: each line is seen, and a mark says
// whenever there is more above or below.
func readThrough(t *testing.T, m *model) {
	t.Helper()
	seen := map[string]bool{}
	lines := m.results[m.result].lines
	last := ""
	for view := ansi.Strip(m.View()); view != last; view = ansi.Strip(m.View()) {
		noLineTooLong(t, m)
		for l := range strings.SplitSeq(view, "\n") {
			seen[l] = true
		}
		atEnd := strings.Contains(view, lines[len(lines)-1].Text) && m.scroll+m.bodyHeight() >= len(lines)
		if more := strings.Contains(view, "\nv "+english("screen.more_below")); more == atEnd {
			t.Fatalf("at line %d of %d the mark below is there: %v\n%s", m.scroll, len(lines), more, view)
		}
		if more := strings.Contains(view, "\n^ "+english("screen.more_above")); more != (m.scroll > 0) {
			t.Fatalf("at line %d of %d the mark above is there: %v\n%s", m.scroll, len(lines), more, view)
		}
		last = view
		press(m, "pgdown")
	}
	for _, l := range lines {
		if !seen[l.Text] {
			t.Errorf("%q of page %d is never on the screen", l.Text, m.result)
		}
	}
}
