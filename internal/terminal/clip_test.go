package terminal

import (
	"fmt"
	"strings"
	"testing"

	"github.com/charmbracelet/x/ansi"

	"example.com/plumbline/internal/interview"

	"example.com/plumbline/internal/layout"
	"example.com/plumbline/internal/words"
)

// walker is a way through the interview.
type walker struct {
	option int
	all    bool
}

// walkers are ways through the interview that meet every kind of question: the
// option chosen in a list, what is typed, and whether all of several are
// marked.
var walkers = []walker{{0, false}, {1, false}, {2, true}, {0, true}}

// TestNothingNeededIsClipped goes through interviews and looks at every
// question on screens of several sizes: the words of the question, the cursor
// of its list, what is said under it, and the notice before it must all be
// there. Other languages are longer than English; an invented one, a third longer,
// shows besides what is not in the file of words.
func TestNothingNeededIsClipped(t *testing.T) {
	for _, size := range []struct{ width, height int }{{76, 20}, {132, 43}} {
		clipped(t, words.English(), size.width, size.height, walkers, nil)
	}
	// One way through in each size is enough to see what a longer language clips.
	for n, size := range []struct{ width, height int }{{80, 24}, {60, 20}} {
		clipped(t, words.English(), size.width, size.height, walkers, nil)
		for _, l := range words.All()[1:] {
			clipped(t, l, size.width, size.height, walkers[2+n:3+n], nil)
		}
		clipped(t, invented, size.width, size.height, walkers[2+n:3+n], noEnglish)
	}
}

// clipped goes through interviews in a language, and looks at every screen in
// another way too.
func clipped(t *testing.T, l *words.Language, width, height int, who []walker, look func(*testing.T, *model)) {
	if look == nil {
		look = func(*testing.T, *model) {}
	}
	for n, who := range who {
		t.Run(fmt.Sprintf("%s %dx%d walker %d", l.Tag(), width, height, n), func(t *testing.T) {
			t.Parallel()
			m, _ := satIn(t, l, "", width, height)
			for range 150 {
				look(t, m)
				if m.view == showing {
					for range m.results {
						look(t, m)
						noLineTooLong(t, m)
						press(m, "right")
					}
					return
				}
				q := m.field.question
				if m.paged() {
					wholeNotice(t, m)
				}
				screen := flat(noLineTooLong(t, m))
				for _, words := range append([]string{q.Text, m.field.help(), m.manner(q), m.origin(q)}, noticeIfAbove(m)...) {
					if !strings.Contains(screen, strings.Join(strings.Fields(words), " ")) {
						t.Fatalf("%s: %q is not on the screen:\n%s", q.Key, words, ansi.Strip(m.View()))
					}
				}
				if !strings.Contains(screen, "> ") {
					t.Fatalf("%s: no cursor on the screen:\n%s", q.Key, ansi.Strip(m.View()))
				}
				if drawn := strings.Count(m.field.huh.View(), "\n") + 1; drawn != m.field.tall {
					t.Fatalf("%s: a field of %d lines counts as %d", q.Key, drawn, m.field.tall)
				}
				helpIsWhole(t, m)
				give(t, m, who.option, who.all)
			}
			t.Fatal("the interview does not end")
		})
	}
}

func noticeIfAbove(m *model) []string {
	if m.field.question.Notice == "" || !m.noticeShown() {
		return nil
	}
	return []string{m.field.question.Notice}
}

// wholeNotice reads the page before a question to its end.
func wholeNotice(t *testing.T, m *model) {
	t.Helper()
	read := ""
	for range 20 {
		if !m.paged() {
			break
		}
		read += " " + shown(m)
		press(m, "enter")
	}
	if m.paged() {
		t.Fatalf("the page does not end:\n%s", ansi.Strip(m.View()))
	}
	for word := range strings.FieldsSeq(m.field.question.Notice) {
		if !strings.Contains(read, word) {
			t.Fatalf("%q of the notice was not on the page:\n%s", word, read)
		}
	}
}

// noLineTooLong draws the screen and sees that it fits.
func noLineTooLong(t *testing.T, m *model) (view string) {
	t.Helper()
	view = m.View()
	lines := strings.Split(view, "\n")
	if len(lines) != m.height {
		t.Fatalf("%d lines on a screen of %d:\n%s", len(lines), m.height, ansi.Strip(view))
	}
	for _, l := range lines {
		if len(l) > m.width && layout.Width(l) > m.width { // no column takes less than a byte
			t.Fatalf("a line of %d columns on a screen of %d: %q", layout.Width(l), m.width, l)
		}
	}
	return view
}

// helpIsWhole opens the help and closes it again.
func helpIsWhole(t *testing.T, m *model) {
	t.Helper()
	press(m, "f1")
	view := noLineTooLong(t, m)
	screen := strings.Join(strings.Fields(ansi.Strip(view)), " ")
	for word := range strings.FieldsSeq(m.field.question.Why + " " + m.field.question.Where) {
		if !strings.Contains(screen, word) {
			t.Fatalf("%q of the help is not on the screen:\n%s", word, ansi.Strip(view))
		}
	}
	press(m, "f1")
	if m.helping {
		t.Fatalf("the help does not close:\n%s", ansi.Strip(m.View()))
	}
}

// give answers the question shown in some way that is taken.
func give(t *testing.T, m *model, option int, all bool) {
	t.Helper()
	q := m.field.question
	switch {
	case q.Kind == interview.Several && all:
		press(m, "home")
		for range len(q.Options) - 1 {
			press(m, "down", "space")
		}
	case len(q.Options) > 0:
		press(m, "home")
		for range min(option, len(q.Options)-1) {
			press(m, "down")
		}
		if q.Kind == interview.Several {
			press(m, "home")
		}
	case q.Prefill() != "":
	default:
		press(m, typed(q))
	}
	press(m, "enter")
	if m.view == asking && m.field.question.Key == q.Key && m.field.wrong != "" {
		for _, another := range []string{"2", "2026", "2026-06-15", "2026-12-04", "1990", "2026-01-09"} {
			for range 20 {
				press(m, "backspace")
			}
			press(m, another, "enter")
			if m.view != asking || m.field.question.Key != q.Key {
				return
			}
		}
		t.Fatalf("%s: no answer is taken:\n%s", q.Key, ansi.Strip(m.View()))
	}
}

func typed(q interview.Question) string {
	switch q.Kind {
	case interview.Amount:
		if strings.Contains(q.Key, "pretax") {
			return "20"
		}
		return "1500"
	case interview.Whole:
		return "2"
	case interview.Day:
		return "2026-06-05"
	}
	return "Wren & Sons"
}

// However small the window, nothing is drawn outside it.
func TestNothingIsDrawnOutsideTheWindow(t *testing.T) {
	for _, file := range []string{"", twoEarners(t)} {
		for _, size := range [][2]int{{3, 2}, {1, 1}, {10, 2}, {12, 3}, {34, 10}, {30, 8}, {60, 15}} {
			m, _ := sat(t, file, size[0], size[1])
			lines := strings.Split(m.View(), "\n")
			if len(lines) > size[1] {
				t.Errorf("%d lines in a window of %d", len(lines), size[1])
			}
			for _, l := range lines {
				if layout.Width(l) > size[0] {
					t.Errorf("%q in a window of %d columns", l, size[0])
				}
			}
		}
	}
}
