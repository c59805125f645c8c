package terminal

import (
	"context"
	"errors"
	"strings"
	"testing"

	"example.com/plumbline/internal/interview"
	"example.com/plumbline/internal/words"
)

// visited is what a visitor is told, line by line.
func visited(t *testing.T, s *interview.Session, lines ...string) (out string, err error) {
	t.Helper()
	var b strings.Builder
	p := newPlain(strings.NewReader(strings.Join(lines, "\n")+"\n"), &b, newVoice(words.English()))
	err = p.Run(context.Background(), Sitting{Session: s, Visitor: true, Save: func() error { return nil }})
	return b.String(), err
}

// A visitor who quits is asked once; whoever stays goes on where they were. With no
// answer given there is nothing to ask about.
func TestVisitorLeavesLineByLine(t *testing.T) {
	for _, tt := range []struct {
		typed []string
		want  []string
		not   string
	}{
		{[]string{"1", "quit", "", "back", "quit", "quit"}, []string{"End this visit?"}, ""},
		{[]string{"quit"}, []string{"Visitor mode"}, "End this visit?"},
	} {
		s := session(t, "")
		out, err := visited(t, s, tt.typed...)
		if !errors.Is(err, ErrLeft) {
			t.Errorf("%q: it ended with %v", tt.typed, err)
		}
		for _, want := range tt.want {
			if !strings.Contains(out, want) {
				t.Errorf("%q: %q was not said:\n%s", tt.typed, want, out)
			}
		}
		if tt.not != "" && strings.Contains(out, tt.not) {
			t.Errorf("%q: %q was said:\n%s", tt.typed, tt.not, out)
		}
	}
}

// At the results an Enter too many does not throw everything away.
func TestVisitorStaysAtTheResults(t *testing.T) {
	s := session(t, twoEarners(t))
	out, err := visited(t, s, "quit", "", "quit", "quit")
	if err != nil || strings.Count(out, "End this visit?") != 2 {
		t.Errorf("it ended with %v:\n%s", err, out)
	}
}
