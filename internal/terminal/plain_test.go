package terminal

import (
	"context"
	"errors"
	"strings"
	"testing"

	"example.com/plumbline/internal/interview"
	"example.com/plumbline/internal/layout"
	"example.com/plumbline/internal/report"
	"example.com/plumbline/internal/words"
)

// talked is what the line-by-line front end says to some lines of input.
func talked(t *testing.T, s *interview.Session, lines ...string) (out string, saved int, err error) {
	t.Helper()
	var b strings.Builder
	p := newPlain(strings.NewReader(strings.Join(lines, "\n")+"\n"), &b, newVoice(words.English()))
	err = p.Run(context.Background(), Sitting{Session: s, Save: func() error { saved++; return nil }})
	return b.String(), saved, err
}

// Enter alone saves the answers where the program suggests, and what is no answer
// is said to be none.
func TestPlainPlaceOfTheAnswers(t *testing.T) {
	for input, want := range map[string]string{
		"\n":               "/home/robin/answers.yaml",
		"zzz\n1\n":         "/home/robin/answers.yaml",
		"2\ntaxes.yaml\n":  "taxes.yaml",
		"3\n":              "",
		"2\nback\n\n":      "/home/robin/answers.yaml",
		"zzz\n2\nt.yaml\n": "t.yaml",
	} {
		var b strings.Builder
		path, err := newPlain(strings.NewReader(input), &b, newVoice(words.English())).Where(context.Background(), Place{Default: "/home/robin/answers.yaml"})
		if err != nil || path != want {
			t.Errorf("%q leads to %q (%v), want %q:\n%s", input, path, err, want, b.String())
		}
		if strings.Contains(input, "zzz") != strings.Contains(b.String(), "is not one of the answers") {
			t.Errorf("%q: what is no answer is not told:\n%s", input, b.String())
		}
	}
}

func TestPlainWords(t *testing.T) {
	tests := []struct {
		name  string
		lines []string
		want  []string // said in this order
		err   error
	}{
		{"help", []string{"1", "help"}, []string{"Will you be married", "Your status on the last day", "Number 1 to 3"}, ErrEndOfInput},
		{"back", []string{"1", "1", "back"}, []string{"Will you be married", "jobs", "Will you be married", "(Enter for 1)"}, ErrEndOfInput},
		{"back at first", []string{"back"}, []string{english("screen.first_question"), "Number 1 to 3"}, ErrEndOfInput},
		{"quit", []string{"1", "quit"}, []string{"Will you be married"}, ErrLeft},
		{"review", []string{"1", "1", "1", "review", "2", "2"}, []string{"1. Why you are here: I am starting a job", "Will you be married", "file one tax return"}, ErrEndOfInput},
		{"review and on", []string{"1", "1", "1", "", "review", ""}, []string{"Your jobs: 1", "people", "(Enter for 0)"}, ErrEndOfInput},
		{"review, no such number", []string{"1", "review", "99"}, []string{"Type a number from 1 to "}, ErrEndOfInput},
		{"a mistake is asked again", []string{"1", "1", "some"}, []string{`"some" is not a whole number.`, "Your answer"}, ErrEndOfInput},
		{"no answer", []string{""}, []string{"This question needs an answer."}, ErrEndOfInput},
		{"a whole interview", []string{"1", "1", "", "", "", "0", "none", "no"}, []string{"1(c) Filing status: Single", "Leave Steps 2 to 4 empty.", "3. Before you sign", "Enter for: Form W-4"}, nil},
		{"a change at the end", []string{"1", "1", "", "", "", "0", "0", "no", "change", "3", "2"}, []string{"Before you sign", "(Enter for 1)", "(Enter for Your "}, ErrEndOfInput},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			out, _, err := talked(t, session(t, ""), tt.lines...)
			if !errors.Is(err, tt.err) {
				t.Errorf("ended with %v, want %v", err, tt.err)
			}
			rest := strings.ToLower(strings.Join(strings.Fields(out), " "))
			for _, words := range tt.want {
				_, after, found := strings.Cut(rest, strings.ToLower(words))
				if !found {
					t.Fatalf("%q was not said, or not in its place:\n%s", words, out)
				}
				rest = after
			}
		})
	}
}

func TestPlainSavesEveryAnswer(t *testing.T) {
	s := session(t, "")
	_, saved, _ := talked(t, s, "1", "two", "1", "2", "back", "help")
	if saved != 4 { // three answers and the way back
		t.Errorf("saved %d times, want 4", saved)
	}
}

func TestPlainTellsAFailedSave(t *testing.T) {
	full := errors.New("no room on the disk")
	var b strings.Builder
	p := newPlain(strings.NewReader("1\n1\n"), &b, newVoice(words.English()))
	err := p.Run(context.Background(), Sitting{Session: session(t, ""), Save: func() error { return full }})
	if !errors.Is(err, full) || !strings.Contains(b.String(), "no room on the disk") {
		t.Errorf("ended with %v and said:\n%s", err, b.String())
	}
}

func TestPlainStopsWhenInterrupted(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	err := newPlain(neverRead{}, new(strings.Builder), newVoice(words.English())).Run(ctx, Sitting{Session: session(t, ""), Save: func() error { return nil }})
	if !errors.Is(err, ErrInterrupted) {
		t.Errorf("ended with %v, want %v", err, ErrInterrupted)
	}
}

// neverRead is an input on which nothing is ever typed.
type neverRead struct{}

func (neverRead) Read([]byte) (int, error) { select {} }

func TestChoose(t *testing.T) {
	one := interview.Question{Kind: interview.Choice, Options: []interview.Option{
		{Value: "weekly", Label: "Every week"}, {Value: "biweekly", Label: "Every two weeks"}, {Value: "monthly", Label: "Once a month"}, {Value: "no", Label: "No"}, {Value: "not_sure", Label: "Not sure"},
	}}
	many := one
	many.Kind = interview.Several
	tests := []struct {
		q          interview.Question
		text, want string
	}{
		{one, "2", "biweekly"},
		{one, "2.", "biweekly"},
		{one, "once", "monthly"},
		{one, "EVERY W", "weekly"},
		{one, "every", "every"}, // two begin so: the interview says what to do
		{one, "no", "no"},       // the whole label, though another begins so
		{one, "6", "6"},
		{one, "-1", "-1"},
		{one, "monthly", "monthly"},
		{many, "0", "none"},
		{many, "none", "none"},
		{many, "1, 3", "weekly, monthly"},
		{many, "1 3", "weekly, monthly"},
		{many, "once a month", "monthly"},
		{many, "1, once", "weekly, monthly"},
		{interview.Question{Kind: interview.Whole}, "2", "2"},
	}
	for _, tt := range tests {
		if got := choose(tt.q, tt.text); got != tt.want {
			t.Errorf("choose(%q) = %q, want %q", tt.text, got, tt.want)
		}
	}
}

func TestReturnWithANewStub(t *testing.T) {
	// The first sitting was on an earlier day and came to its end; the second
	// asks for the newest stub, and holds it against the forecast.
	first := session(t, "")
	out, _, err := talked(t, first, "3", "1", "", "1", "0", "2", "5/29/2026", "18000", "1500", "2", "1900", "1", "", "0", "0", "0", "0", "", "", "")
	if err != nil {
		t.Fatalf("the first sitting: %v\n%s", err, out)
	}
	doc := first.Document()
	if err := doc.Set("as_of", "2026-06-01"); err != nil {
		t.Fatal(err)
	}
	second := session(t, string(doc.Bytes()))
	out, _, err = talked(t, second, "none", "yes", "6/12/2026", "19900", "1700", "yes", "", "", "", "", "", "", "")
	if err != nil && !errors.Is(err, ErrEndOfInput) {
		t.Fatal(err)
	}
	words := strings.Join(strings.Fields(out), " ")
	for _, want := range []string{"On June 1, 2026 we expected", "federal income tax withheld by forecast stub", "June 12, 2026 1,644.15 1,700.00"} {
		if !strings.Contains(words, want) {
			t.Errorf("%q was not said:\n%s", want, out)
		}
	}
}

func TestTextIsBrokenAtSpacesOnly(t *testing.T) {
	got := strings.Join(layout.Wrap("Give a new Form W-4 to Tern-and-Daughters now", 18), "|")
	if want := "Give a new Form|W-4 to|Tern-and-Daughters|now"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}

func TestFlowed(t *testing.T) {
	got := strings.Join(layout.Flow([]string{"1(c) Head of household", "2(c) ?", "3 $2,200 ?", "4(a) empty"}, "; ", 24), "|")
	if want := "1(c) Head of household;|2(c) ?; 3 $2,200 ?;|4(a) empty"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}

func TestWindow(t *testing.T) {
	lines := strings.Split("a b c d e f g h i j", " ")
	tests := []struct {
		first int
		want  string
	}{
		{0, "a b c d v"}, {2, "a b c d v"}, {5, "^ e f g v"}, {9, "^ g h i j"},
	}
	for _, tt := range tests {
		got := newVoice(words.English()).window(lines, tt.first, 1, 5, styled(plainStyle(), plainStyle(), plainStyle()))
		for i := range got {
			got[i] = strings.Fields(got[i])[0]
		}
		if text := strings.Join(got, " "); text != tt.want {
			t.Errorf("cursor at %d: %s, want %s", tt.first, text, tt.want)
		}
	}
}

func TestThemeNames(t *testing.T) {
	for i, name := range themeNames {
		if got, err := ThemeNamed(name); err != nil || got != Theme(i) {
			t.Errorf("ThemeNamed(%q) = %v, %v", name, got, err)
		}
	}
	if _, err := ThemeNamed("pink"); err == nil {
		t.Error("pink is a theme")
	}
}

// A line of any length is no reason to end: what is too long to be an answer is
// asked for again, and the next line counts.
func TestLongLine(t *testing.T) {
	out, _, err := talked(t, session(t, ""), strings.Repeat("x", 70_000), "back", "quit")
	if !errors.Is(err, ErrLeft) || !strings.Contains(out, "too long for an answer") || strings.Contains(out, "xxx") {
		t.Errorf("error %v\n%.300s", err, out)
	}
}

// After going back, the word ahead leads to where one was; before, it is no
// answer.
func TestAheadLineByLine(t *testing.T) {
	s := session(t, "")
	out, _, err := talked(t, s, "1", "1", "1", "", "0", "ahead", "back", "back", "ahead", "0")
	if !errors.Is(err, ErrEndOfInput) {
		t.Fatal(err)
	}
	if n := strings.Count(out, english("screen.plain.ahead")); n != 2 {
		t.Errorf("the way ahead is told %d times, want after each of 2 steps back:\n%s", n, out)
	}
	if q, _ := s.Question(); q.Key != "interview.reductions" {
		t.Errorf("asked %s after ahead and an answer, want the question after the one left", q.Key)
	}
}

// Two pages of one title are told apart by what they are about.
func TestPagesOfOneTitle(t *testing.T) {
	p := &plain{pages: []report.Page{{Title: "Answer"}, {Title: "Form", Subtitle: "For A"}, {Title: "Form", Subtitle: "For B"}, {Title: "Why", Subtitle: "Reasons"}}}
	for i, want := range []string{"Answer", "Form. For A", "Form. For B", "Why"} {
		if got := p.title(i); got != want {
			t.Errorf("page %d is %q, want %q", i, got, want)
		}
	}
}
