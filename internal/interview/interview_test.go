package interview

import (
	"errors"
	"os"
	"strings"
	"testing"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/sample"
	"example.com/plumbline/internal/tables"
	"example.com/plumbline/internal/yamldoc"
)

// The paths through the interview are long: thirty of each kind are enough for
// every day, and more can be asked for with -rapid.checks.
func TestMain(m *testing.M) {
	sample.CollectLess()
	sample.Default("rapid.checks", "30")
	os.Exit(m.Run())
}

func on(text string) household.Date { return answer(text).day() }

func env(today string) Env { return Env{Today: on(today), Tables: yearly} }

func yearly(year int) (*tables.Year, error) {
	if year != 2025 && year != 2026 {
		return nil, errors.New("no table")
	}
	return sample.Tables(year)
}

// begin starts an interview on a file; a new one where it is empty.
func begin(t testing.TB, today, file string) *Session {
	t.Helper()
	var doc *yamldoc.Document
	if file != "" {
		var err error
		if doc, err = yamldoc.Parse("answers.yaml", []byte(file)); err != nil {
			t.Fatal(err)
		}
	}
	return start(t, doc, today)
}

func start(t testing.TB, doc *yamldoc.Document, today string) *Session {
	t.Helper()
	s, err := Start(doc, env(today))
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// Openings that several scripts share: somebody with a child who starts their
// only job, and somebody alone with one job whose stub is of
// June 12, 2026.
const (
	hireWithAChild = `
		interview.way_in = new_job
		interview.married = no
		interview.jobs = 1
		interview.people = 1
		self.can_be_claimed = no
		dependents[0].relationship = child
`
	aloneWithStub = stubOfOneJob + `
		jobs[0].pay_frequency = biweekly
		jobs[0].year_to_date.payday = 2026-06-12
		jobs[0].year_to_date.taxable_pay = 28800
`
)

// play answers the questions that a script lists, "key = answer" a line, and
// fails where another question is asked.
func play(t testing.TB, s *Session, script string) {
	t.Helper()
	for line := range strings.Lines(script) {
		if line = strings.TrimSpace(line); line == "" {
			continue
		}
		key, text, _ := strings.Cut(line, " = ")
		q, more := s.Question()
		if more && q.Kind == Named && q.Key != key { // a state that the script leaves out
			if err := s.Answer(q.Prefill()); err != nil {
				t.Fatal(err)
			}
			q, more = s.Question()
		}
		if !more {
			t.Fatalf("no question is left, want %s", key)
		}
		if q.Key != key {
			t.Fatalf("asked %s (%s), want %s\nfile:\n%s", q.Key, q.Text, key, s.Document().Bytes())
		}
		if err := s.Answer(text); err != nil {
			t.Fatalf("%s = %s: %v", key, text, err)
		}
	}
}

// ended fails unless every question is answered.
func ended(t testing.TB, s *Session) {
	t.Helper()
	if q, more := s.Question(); more {
		t.Fatalf("asked %s (%s), want none left\nfile:\n%s", q.Key, q.Text, s.Document().Bytes())
	}
}
