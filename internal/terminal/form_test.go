package terminal

import (
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/x/ansi"

	"example.com/plumbline/internal/interview"
	"example.com/plumbline/internal/words"
)

// atStub is a model at the page with a job's name, pay days and stub.
func atStub(t *testing.T, width, height int) (m *model, saved *int) {
	t.Helper()
	m, saved = sat(t, `interview: {way_in: stub, married: "no", jobs: 1, not_known: job_1.state, people: 0, income: none, reductions: none}`, width, height)
	at(t, m, "interview.job_1_special")
	return m, saved
}

// The whole page is on the screen, and each answer stays there as it is given.
func TestPageIsOneForm(t *testing.T) {
	m, saved := atStub(t, 80, 24)
	for _, label := range []string{"How often it pays: ...", "Payday of the stub: ...", "Taxable pay so far: ...", "Federal tax so far: ..."} {
		expect(t, m, label)
	}
	before := *saved
	press(m, "enter", "down", "enter", "6/12/2026", "enter", "28800", "enter")
	if *saved != before+4 {
		t.Errorf("saved %d times, want once for each of 4 answers", *saved-before)
	}
	for _, label := range []string{"Start, end or bonus: None of these", "How often it pays: Every two weeks", "Payday of the stub: June 12, 2026", "Taxable pay so far: $28,800"} {
		expect(t, m, label)
	}
	at(t, m, "jobs[0].year_to_date.federal_tax")
	press(m, "2400", "enter")
	at(t, m, "interview.job_1_pay_known")
}

// The fields can be filled in in any order; Enter on the last one says what is
// missing, at its field, and loses nothing.
func TestFieldsInAnyOrder(t *testing.T) {
	m, _ := atStub(t, 80, 24)
	press(m, "enter", "down", "enter", "tab", "tab", "2400", "up", "28800", "down", "enter")
	at(t, m, "jobs[0].year_to_date.payday")
	if m.field.wrong == "" {
		t.Error("nothing is said of the payday that is missing")
	}
	expect(t, m, "Taxable pay so far: 28800")
	expect(t, m, "Federal tax so far: 2400")
	press(m, "6/12/2026", "enter", "enter", "enter")
	at(t, m, "interview.job_1_pay_known")
}

// A mistake is told at the field that has it; what is typed next takes its place.
func TestMistakesStandAtTheirFields(t *testing.T) {
	m, _ := atStub(t, 80, 24)
	press(m, "enter", "down", "enter", "tab", "a lot", "tab", "2400", "enter")
	at(t, m, "jobs[0].year_to_date.payday")
	expect(t, m, "! Taxable pay so far: a lot")
	press(m, "6/12/2026", "enter")
	at(t, m, "jobs[0].year_to_date.taxable_pay")
	press(m, "28800", "enter", "enter")
	at(t, m, "interview.job_1_pay_known")
}

// Of a page that is taller than the screen the rest is counted.
func TestRestOfAPageIsMarked(t *testing.T) {
	m, _ := atStub(t, 60, 16)
	press(m, "enter")
	expect(t, m, "v 3 more questions")
	press(m, "enter", "6/12/2026", "enter")
	noLineTooLong(t, m)
	m.Update(tea.WindowSizeMsg{Width: 60, Height: 50})
	text := strings.Join(strings.Fields(ansi.Strip(m.View())), " ")
	for _, f := range m.fields {
		if !strings.Contains(text, f.question.Text) {
			t.Errorf("%q is not on a screen that has room for it", f.question.Text)
		}
	}
}

// Fields that are out of sight are marked on the side on which they are, whatever
// the height and however long the notice.
func TestFieldsOutOfSightAreMarked(t *testing.T) {
	notice := strings.Repeat("A long notice that takes up much of the room. ", 12)
	for height := 12; height <= 30; height++ {
		m, _ := atStub(t, 60, height)
		for _, f := range m.fields {
			f.question.Notice = notice
		}
		for at, f := range m.fields {
			m.field, m.noticed = f, ""
			if m.tooSmall() || m.paged() {
				continue
			}
			text := ansi.Strip(m.View())
			for i, g := range m.fields {
				if i == at || strings.Contains(text, g.question.Label+": ") || strings.Contains(shown(m), g.question.Text) {
					continue
				}
				if mark := map[bool]string{true: "^ ", false: "v "}[i < at]; !strings.Contains(text, "\n"+mark) {
					t.Fatalf("60x%d: %q is out of sight with no mark:\n%s", height, g.question.Label, text)
				}
			}
		}
	}
}

// Shift+Tab and Esc go one question back, on the page and to the page before;
// forward it goes page by page, or to the end with one key.
func TestBackAndAhead(t *testing.T) {
	m, _ := atStub(t, 80, 24)
	press(m, "enter", "down", "enter", "shift+tab")
	at(t, m, "jobs[0].pay_frequency")
	expectNot(t, m, english("screen.key.skip_ahead"))
	press(m, "down", "enter", "6/12/2026", "enter", "28800") // typed, and not entered yet
	at(t, m, "jobs[0].year_to_date.taxable_pay")
	for _, key := range []string{"jobs[0].year_to_date.payday", "jobs[0].pay_frequency", "interview.job_1_special", "interview.married", "jobs[0].state", "interview.jobs"} {
		press(m, "esc")
		at(t, m, key)
	}
	press(m, "esc")
	at(t, m, "interview.way_in")
	expect(t, m, "ctrl+g "+english("screen.key.skip_ahead"))
	press(m, "end", "enter")
	at(t, m, "interview.jobs")
	press(m, "esc", "ctrl+g")
	at(t, m, "jobs[0].year_to_date.taxable_pay")
}

// What is hard to believe is asked for again where it was typed, with the reason;
// the cursor goes on when it is confirmed. June 14, 2026 is a Sunday.
func TestCursorStaysAtADoubtedField(t *testing.T) {
	m, _ := atStub(t, 80, 24)
	press(m, "enter", "down", "enter", "6/14/2026", "enter")
	at(t, m, "jobs[0].year_to_date.payday")
	expect(t, m, "is a Sunday")
	press(m, "enter")
	at(t, m, "jobs[0].year_to_date.taxable_pay")
}

// An answer opened in the review is alone; Enter and Esc lead back to where
// the review was opened.
func TestAnswerOpenedInTheReview(t *testing.T) {
	m, _ := atStub(t, 80, 24)
	press(m, "enter", "down", "enter")
	for _, leave := range []string{"enter", "esc"} {
		press(m, "ctrl+r", "up", "enter")
		at(t, m, "jobs[0].pay_frequency")
		press(m, leave)
		at(t, m, "jobs[0].year_to_date.payday")
	}
}

// Enter on a list with nothing marked in it takes "None of these", and the next
// screen says so, in another part of the interview too. One back is the list.
func TestNothingMarkedIsSeen(t *testing.T) {
	s := session(t, "")
	for _, a := range []string{"changed", "job_begins", "2026-05-04", "no"} {
		if err := s.Answer(a); err != nil {
			t.Fatal(err)
		}
	}
	for q, _ := s.Question(); q.Key != "interview.reductions"; q, _ = s.Question() {
		answer := q.Prefill()
		switch {
		case answer != "":
		case q.Kind == interview.Several:
			answer = interview.None
		case q.Kind == interview.Whole:
			answer = "1"
		case q.Kind == interview.YesNo:
			answer = "false"
		}
		if err := s.Answer(answer); err != nil {
			t.Fatalf("%s: %v", q.Key, err)
		}
	}
	m, _ := seated(s, words.English(), 60, 20)
	list := m.field.question.Text
	press(m, "enter")
	if m.field.question.Text == list {
		t.Fatal("nothing was taken")
	}
	expect(t, m, "What lowers your tax: None of these")
	press(m, "esc")
	expect(t, m, list)
	press(m, "down", "space", "enter")
	expectNot(t, m, "None of these")
}
