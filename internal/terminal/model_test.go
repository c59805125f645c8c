package terminal

import (
	"errors"
	"fmt"
	"os"
	"regexp"
	"strings"
	"testing"
	"unicode"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/x/ansi"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/interview"
	"example.com/plumbline/internal/sample"
	"example.com/plumbline/internal/words"
	"example.com/plumbline/internal/yamldoc"
)

// TestMain has the tests draw as on a terminal of UTF-8.
func TestMain(m *testing.M) {
	os.Setenv("LC_ALL", "C.UTF-8")
	sample.CollectLess()
	os.Exit(m.Run())
}

// In a terminal of another encoding, lines are of plain signs.
func TestPlainSigns(t *testing.T) {
	t.Setenv("LC_ALL", "C")
	m, _ := sat(t, "", 80, 24)
	view := m.View()
	for _, r := range ansi.Strip(view) {
		if r > unicode.MaxASCII {
			t.Fatalf("%q is on the screen of a terminal that may not have it:\n%s", r, view)
		}
	}
	if !strings.Contains(view, "| Draft of the form") {
		t.Errorf("no line beside the question:\n%s", view)
	}
}

// session begins an interview on a day in June 2026, with a file's answers.
func session(t testing.TB, file string) *interview.Session {
	t.Helper()
	return sessionIn(t, words.English(), file)
}

func sessionIn(t testing.TB, l *words.Language, file string) *interview.Session {
	t.Helper()
	return sessionOn(t, household.On(2026, 6, 15), l, file)
}

func sessionOn(t testing.TB, today household.Date, l *words.Language, file string) *interview.Session {
	t.Helper()
	var doc *yamldoc.Document
	if file != "" {
		var err error
		if doc, err = yamldoc.Parse("answers.yaml", []byte(file)); err != nil {
			t.Fatal(err)
		}
	}
	s, err := interview.Start(doc, interview.Env{Today: today, Tables: sample.Tables, Language: l})
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// sat is a model at a sitting, on a screen of a size. Saving counts.
func sat(t testing.TB, file string, width, height int) (m *model, saved *int) {
	t.Helper()
	return satIn(t, words.English(), file, width, height)
}

func satIn(t testing.TB, l *words.Language, file string, width, height int) (m *model, saved *int) {
	t.Helper()
	return seated(sessionIn(t, l, file), l, width, height)
}

func seated(s *interview.Session, l *words.Language, width, height int) (m *model, saved *int) {
	saved = new(int)
	m = newModel(s, styled(plainStyle(), plainStyle(), plainStyle()), newVoice(l))
	m.sitting = &Sitting{Session: s, File: "answers.yaml", Save: func() error { *saved++; return nil }}
	m.refresh()
	m.Update(tea.WindowSizeMsg{Width: width, Height: height})
	return m, saved
}

// press sends keys: names of keys, or text to type.
func press(m *model, keys ...string) (quit bool) {
	for _, k := range keys {
		msg := tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune(k)}
		if kind, named := keyTypes[k]; named {
			msg = tea.KeyMsg{Type: kind}
		}
		_, cmd := m.Update(msg)
		if cmd != nil {
			if _, ended := cmd().(tea.QuitMsg); ended {
				return true
			}
		}
	}
	return false
}

var keyTypes = map[string]tea.KeyType{
	"enter": tea.KeyEnter, "esc": tea.KeyEsc, "up": tea.KeyUp, "down": tea.KeyDown, "home": tea.KeyHome, "end": tea.KeyEnd,
	"left": tea.KeyLeft, "right": tea.KeyRight, "space": tea.KeySpace, "backspace": tea.KeyBackspace, "shift+tab": tea.KeyShiftTab,
	"ctrl+c": tea.KeyCtrlC, "ctrl+r": tea.KeyCtrlR, "ctrl+g": tea.KeyCtrlG, "tab": tea.KeyTab, "f1": tea.KeyF1, "pgdown": tea.KeyPgDown,
}

// shown are the words on the screen, in one line; of what is beside the
// bar in the middle, only the question.
func shown(m *model) string { return flat(m.View()) }

func flat(view string) string {
	var words []string
	for line := range strings.SplitSeq(ansi.Strip(view), "\n") {
		left, _, _ := strings.Cut(line, "│")
		words = append(words, strings.Fields(strings.TrimPrefix(left, "| "))...)
	}
	return strings.Join(words, " ")
}

func expect(t *testing.T, m *model, words string) {
	t.Helper()
	if !strings.Contains(shown(m), words) {
		t.Fatalf("%q is not on the screen:\n%s", words, ansi.Strip(m.View()))
	}
}

func expectNot(t *testing.T, m *model, words string) {
	t.Helper()
	if strings.Contains(shown(m), words) {
		t.Fatalf("%q is on the screen:\n%s", words, ansi.Strip(m.View()))
	}
}

// at fails unless the question of a key is shown.
func at(t *testing.T, m *model, key string) {
	t.Helper()
	if m.view != asking || m.field == nil || m.field.question.Key != key {
		t.Fatalf("%s is not asked:\n%s", key, ansi.Strip(m.View()))
	}
}

func TestTypingReplacesWhatIsSuggested(t *testing.T) {
	m, _ := sat(t, "", 80, 24)
	press(m, "enter", "enter")
	at(t, m, "interview.jobs")
	expect(t, m, "> 1")
	press(m, "2")
	expect(t, m, "> 2")
	press(m, "0")
	expect(t, m, "> 20")
	press(m, "backspace", "enter")
	if got, _ := m.sitting.Session.Document().Get("interview.jobs"); got != "2" {
		t.Errorf("jobs are %q, want 2", got)
	}
}

func TestCorrectingWhatIsSuggestedKeepsIt(t *testing.T) {
	m, _ := sat(t, "", 80, 24)
	press(m, "enter", "enter", "left", "1")
	expect(t, m, "> 11")
}

func TestMistakeIsToldUnderTheFieldAndCanBeLeft(t *testing.T) {
	m, _ := sat(t, "", 80, 24)
	press(m, "enter", "enter", "some", "enter")
	expect(t, m, `! "some" is not a whole number.`)
	press(m, "esc") // a mistake never holds one back
	at(t, m, "interview.married")
	press(m, "enter")
	expectNot(t, m, "is not a whole number")
}

func TestBackAtTheFirstQuestion(t *testing.T) {
	m, _ := sat(t, "", 80, 24)
	press(m, "shift+tab")
	expect(t, m, "! "+english("screen.first_question"))
}

func TestNothingIsAnsweredBeforeEnter(t *testing.T) {
	m, saved := sat(t, "", 80, 24)
	press(m, "down", "down", "up")
	if m.sitting.Session.Document().Has("interview.way_in") || *saved != 0 {
		t.Error("moving in a list has given an answer")
	}
}

func TestSeveral(t *testing.T) {
	tests := []struct {
		name string
		keys []string
		want string // the answer, or what is said
	}{
		{"none by Enter alone", []string{"enter"}, interview.None},
		{"one", []string{"down", "space", "enter"}, "interest"},
		{"two", []string{"down", "space", "down", "space", "enter"}, "interest, dividends"},
		{"the cursor alone marks nothing", []string{"down", "enter"}, english("screen.none.mark_first")},
		{"none, then one", []string{"space", "down", "space", "enter"}, "interest"},
		{"one, then none", []string{"down", "space", "up", "space", "enter"}, interview.None},
		{"taken back", []string{"down", "space", "space", "up", "enter"}, interview.None},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			m, _ := sat(t, "", 80, 24)
			press(m, "enter", "enter", "enter", "enter", "enter")
			at(t, m, "interview.income")
			press(m, tt.keys...)
			if got, given := m.sitting.Session.Document().Get("interview.income"); given && got != tt.want {
				t.Errorf("the answer is %q, want %q", got, tt.want)
			} else if !given {
				expect(t, m, strings.Join(strings.Fields(tt.want), " "))
			}
		})
	}
}

func TestHelpKey(t *testing.T) {
	m, _ := sat(t, "", 100, 24)
	press(m, "?")
	if !strings.Contains(ansi.Strip(m.View()), english("screen.help.why")) {
		t.Fatalf("no help beside the question:\n%s", ansi.Strip(m.View()))
	}
	press(m, "?")
	if strings.Contains(ansi.Strip(m.View()), english("screen.help.why")) {
		t.Fatal("the help stays")
	}
	// Where words are typed, the question mark is one of them.
	m, _ = sat(t, "interview: {way_in: new_job, married: \"no\", jobs: 2, not_known: job_1.state, people: 0, income: none, reductions: none}", 60, 20)
	at(t, m, "jobs[0].name")
	press(m, "?")
	expect(t, m, "> ?")
	press(m, "f1")
	expect(t, m, english("screen.help.why"))
	press(m, "esc")
	expectNot(t, m, english("screen.help.why"))
	expect(t, m, "> ?")
}

func TestReview(t *testing.T) {
	m, saved := sat(t, "", 80, 24)
	press(m, "enter", "enter", "enter", "enter") // up to the people supported
	press(m, "ctrl+r")
	expect(t, m, "Your answers")
	expect(t, m, "Your jobs: 1")
	expect(t, m, "> People you support: "+english("screen.review.open"))
	press(m, "up", "up", "enter")
	at(t, m, "interview.jobs")
	before := *saved
	press(m, "2", "enter")
	at(t, m, "interview.people")
	if *saved != before+1 {
		t.Errorf("saved %d times, want once after the answer", *saved-before)
	}
	press(m, "ctrl+r", "esc")
	at(t, m, "interview.people")
}

func TestLeavingTellsHowItEnded(t *testing.T) {
	m, _ := sat(t, "", 80, 24)
	press(m, "enter")
	if !press(m, "ctrl+c") || !errors.Is(m.ended, ErrLeft) {
		t.Errorf("ended with %v, want %v", m.ended, ErrLeft)
	}
	m, _ = sat(t, "", 80, 24)
	press(m, "enter", "enter", "enter", "enter", "enter", "enter", "enter", "n")
	expect(t, m, "1 Answer")
	if !press(m, "q") || m.ended != nil {
		t.Errorf("ended with %v, want no error after the results", m.ended)
	}
	m, _ = sat(t, "", 80, 24)
	if _, cmd := m.Update(interrupted{}); cmd == nil || !errors.Is(m.ended, ErrInterrupted) {
		t.Errorf("ended with %v, want %v", m.ended, ErrInterrupted)
	}
}

func TestFailedSaveIsTold(t *testing.T) {
	m, _ := sat(t, "", 80, 24)
	full := errors.New("no room on the disk")
	m.sitting.Save = func() error { return full }
	press(m, "enter")
	expect(t, m, "! "+"The last answers are not saved: "+"no room on the disk")
	m.sitting.Save = func() error { return nil }
	press(m, "enter")
	expectNot(t, m, "no room on the disk")
}

func TestHostileNamesDoNotReachTheTerminal(t *testing.T) {
	const name = "A\x1b]0;owned\a\x1b[2J\u202eB\x9b31mC"
	q := interview.Question{
		Chapter: name, About: name, Text: name, Why: name, Where: name, Kind: interview.Choice, Notice: name,
		Options: []interview.Option{{Value: "a", Label: name, Help: name}},
	}
	m, _ := sat(t, "", 80, 24)
	m.setPage([]interview.Question{q}, q.Key)
	m.message, m.told = name, name
	m.draft.Certificates = []interview.DraftCertificate{{Job: name}, {Job: name}}
	m.review.rows = []interview.Answered{{Chapter: name, About: name, Label: name, Answer: name}}
	for _, helping := range []bool{false, true} {
		for _, v := range []view{asking, reviewing} {
			m.view, m.helping = v, helping
			if screen := m.View(); strings.ContainsAny(screen, "\x1b\a\u202e\u009b") {
				t.Errorf("the screen has an escape out of a name:\n%q", screen)
			}
		}
	}
}

func TestResultPagesScrollAndTurn(t *testing.T) {
	m, _ := sat(t, "", 60, 20)
	press(m, "enter", "enter", "enter", "enter", "enter", "enter", "enter", "n")
	expect(t, m, "1 Answer")
	expect(t, m, "2 Form") // the other pages by name, as far as there is room
	expect(t, m, english("screen.more_below"))
	press(m, "end")
	expect(t, m, english("screen.more_above"))
	expectNot(t, m, english("screen.more_below"))
	press(m, "right")
	expect(t, m, "to copy from")
	press(m, "3")
	expect(t, m, "Before you sign")
	press(m, "right")
	expect(t, m, "Write your filing status on the form and sign it.")
	noLineTooLong(t, m)
	press(m, "c", "enter")
	at(t, m, "interview.way_in")
}

func TestResizeKeepsWhatIsMarked(t *testing.T) {
	m, _ := sat(t, "", 80, 24)
	press(m, "enter", "enter", "enter", "enter", "enter", "down", "down", "space", "down")
	at := m.field.hovered()
	for _, size := range [][2]int{{60, 20}, {31, 9}, {20, 5}, {120, 40}, {80, 24}} {
		m.Update(tea.WindowSizeMsg{Width: size[0], Height: size[1]})
		if !m.tooSmall() {
			noLineTooLong(t, m)
		}
	}
	if m.field.hovered() != at {
		t.Errorf("the cursor is at %d, want %d", m.field.hovered(), at)
	}
	press(m, "enter")
	if got, _ := m.sitting.Session.Document().Get("interview.income"); got != "dividends" {
		t.Errorf("the answer is %q, want dividends", got)
	}
}

func TestPlaceOfTheAnswers(t *testing.T) {
	tests := []struct {
		name string
		keys []string
		want string
		quit bool
	}{
		{"the suggested one", []string{"enter"}, "/home/robin/answers.yaml", true},
		{"another", []string{"down", "enter", "taxes.yaml", "enter"}, "taxes.yaml", true},
		{"no name", []string{"down", "enter", "enter"}, "", false},
		{"another, and back", []string{"down", "enter", "esc", "enter"}, "/home/robin/answers.yaml", true},
		{"nowhere", []string{"down", "down", "enter"}, "", true},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			p := &place{voice: newVoice(words.English()), Place: Place{Default: "/home/robin/answers.yaml"}}
			m := newModel(single{p}, styled(plainStyle(), plainStyle(), plainStyle()), newVoice(words.English()))
			m.Update(tea.WindowSizeMsg{Width: 60, Height: 20})
			expect(t, m, "You are never asked for a social security number")
			if quit := press(m, tt.keys...); quit != tt.quit || p.path != tt.want {
				t.Errorf("quit %v with %q, want %v with %q", quit, p.path, tt.quit, tt.want)
			}
		})
	}
}

func TestRequestsOfTheResults(t *testing.T) {
	m, _ := sat(t, "", 80, 24)
	var asked []string
	m.sitting.WriteTo = "pages.pdf"
	m.sitting.Write = func(path string) error {
		asked = append(asked, path)
		if path == "there.pdf" {
			return errors.New("there.pdf is there already.")
		}
		return nil
	}
	press(m, "enter", "enter", "enter", "enter", "enter", "enter", "enter", "n", "right", "w")
	expect(t, m, "> pages.pdf")
	press(m, "there.pdf", "enter")
	expect(t, m, "! there.pdf is there already.")
	press(m, "esc")
	expect(t, m, "to copy from")
	press(m, "w", "enter")
	expect(t, m, "The pages are written to pages.pdf.")
	expect(t, m, "to copy from")
	if fmt.Sprint(asked) != "[there.pdf pages.pdf]" {
		t.Errorf("written to %v", asked)
	}
}

// colorCodes finds the escapes that set a color.
var colorCodes = regexp.MustCompile(`\x1b\[(?:[0-9;]*;)?(?:3[0-8]|4[0-8]|9[0-7]|10[0-7])(?:;[0-9;]*)?m`)

func TestNoColor(t *testing.T) {
	t.Setenv("NO_COLOR", "1")
	m, _ := sat(t, "", 80, 24)
	m.style = newStyle(Dark)
	m.refresh()
	press(m, "enter", "enter")
	view := m.View()
	if found := colorCodes.FindString(view); found != "" {
		t.Errorf("NO_COLOR is set, and the screen has %q", found)
	}
	if !strings.Contains(view, "\x1b[7m") {
		t.Error("without color the cursor of the input has to be reversed")
	}
}

// Where the question cannot be seen, keys do not answer it; where it can, they
// do, however small the window.
func TestKeysDoNotAnswerWhatCannotBeSeen(t *testing.T) {
	for width := 20; width <= 80; width += 5 {
		for height := 5; height <= 24; height++ {
			m, _ := sat(t, "", width, height)
			m.noticed = m.field.question.Notice
			seen := !m.tooSmall()
			if whole := strings.Join(strings.Fields(m.View()), " "); seen && !strings.Contains(whole, strings.Fields(m.field.question.Text)[0]) {
				t.Errorf("%dx%d: the question is not on the screen:\n%s", width, height, m.View())
			}
			press(m, "enter")
			if q, _ := m.main.Question(); (q.Key != "interview.way_in") != seen {
				t.Errorf("%dx%d: seen %v, and now at %s", width, height, seen, q.Key)
			}
		}
	}
}

// A key held down at the last question goes on coming when it is answered, and
// belongs to no screen. What is wrong with an answer sends nobody back to the
// greeting, where Enter would answer nothing.
func TestEnterAtTheGreeting(t *testing.T) {
	p := &place{voice: newVoice(words.English()), Place: Place{Default: "/home/robin/answers.yaml"}}
	m := newModel(single{p}, styled(plainStyle(), plainStyle(), plainStyle()), newVoice(words.English()))
	m.Update(tea.WindowSizeMsg{Width: 60, Height: 18})
	press(m, "esc")
	expect(t, m, "This is the first question.")
	if quit := press(m, "enter"); !quit || p.path != "/home/robin/answers.yaml" {
		t.Errorf("Enter leads to %q, quit %v", p.path, quit)
	}
	press(m, "enter", "esc", "up", "y", "tab")
}

// english is what the front ends say by a code.
func english(code string) string { return newVoice(words.English()).say(code) }
