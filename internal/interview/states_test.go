package interview

import (
	"strings"
	"testing"

	"example.com/plumbline/internal/words"
)

// Nobody is asked in which state they work; it waits among the answers, for the
// new hire's blank form too, and can be skipped again.
func TestStateWaitsAmongTheAnswers(t *testing.T) {
	s := begin(t, "2026-06-15", "")
	play(t, s, simpleHire+"\ninterview.fit = no")
	ended(t, s)
	if r, err := s.Result(); err != nil || len(r.States) > 0 {
		t.Fatalf("with no state: %+v, %v", r.States, err)
	}
	waits := false
	for _, a := range s.Review() {
		waits = waits || a.Key == "jobs[0].state" && !a.Open && a.Answer == ""
	}
	if !waits || !s.GoTo("jobs[0].state") {
		t.Fatal("the state is not among the answers to change")
	}
	if q, _ := s.Question(); q.Prefill() != Skip || len(q.Options) != 52 {
		t.Errorf("starts from %q, with %d options; want to skip, 51 states and skip", q.Prefill(), len(q.Options))
	}
	if err := s.Answer("georgia"); err != nil {
		t.Fatal(err)
	}
	r, err := s.Result()
	if err != nil || len(r.States) != 1 || !s.Blank() {
		t.Fatalf("with Georgia: %+v, %v", r.States, err)
	}
	if said := words.English().Say(r.States[0].Text); !strings.Contains(said, "Form G-4") {
		t.Errorf("Georgia: %s", said)
	}
	if _, more := s.Question(); more {
		t.Error("the answer leads to another question")
	}
	s.GoTo("jobs[0].state")
	if err := s.Answer(Skip); err != nil {
		t.Fatal(err)
	}
	if r, err := s.Result(); err != nil || len(r.States) > 0 {
		t.Errorf("skipped again: %+v, %v", r.States, err)
	}
}
