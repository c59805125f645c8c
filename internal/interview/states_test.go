package interview

import (
	"strings"
	"testing"

	"example.com/plumbline/internal/words"
)

// A new hire is asked in which state the job is, on the page that counts the jobs,
// for the blank form too. Enter passes over it, and it can be answered later.
func TestStateOfANewHire(t *testing.T) {
	s := begin(t, "2026-06-15", "")
	play(t, s, `
		interview.way_in = new_job
		interview.married = no
		interview.jobs = 1`)
	page := s.Page()
	if len(page) != 2 || page[1].Key != "jobs[0].state" {
		t.Fatalf("the page of the jobs is %+v", page)
	}
	if q := page[1]; q.Prefill() != "unknown" || q.IfUnknown == "" || len(q.Options) > 0 {
		t.Errorf("starts from %q, says %q and lists %d options", q.Prefill(), q.IfUnknown, len(q.Options))
	}
	play(t, s, `
		jobs[0].state = unknown
		interview.people = 0
		interview.income = none
		interview.reductions = none
		interview.fit = no`)
	ended(t, s)
	if r, err := s.Result(); err != nil || len(r.States) > 0 {
		t.Fatalf("with no state: %+v, %v", r.States, err)
	}
	s = reopened(t, s, "2026-06-15")
	ended(t, s)
	if !s.GoTo("jobs[0].state") {
		t.Fatal("the state is not among the answers to change")
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
	ended(t, s)
	s.GoTo("jobs[0].state")
	if q, _ := s.Question(); q.Answer != "Georgia" {
		t.Errorf("the answer from before is %q", q.Answer)
	}
	if err := s.Answer(Unknown); err != nil {
		t.Fatal(err)
	}
	if r, err := s.Result(); err != nil || len(r.States) > 0 {
		t.Errorf("skipped again: %+v, %v", r.States, err)
	}
}

// A state is typed by its name, its two letters or the beginning of one name.
func TestStateIsTyped(t *testing.T) {
	spanish, _ := words.In("es")
	for _, tt := range []struct {
		typed, want string
		lang        *words.Language
	}{
		{"Georgia", "GA", words.English()},
		{"ga", "GA", words.English()},
		{"penn", "PA", words.English()},
		{"virginia", "VA", words.English()},
		{"D.C.", "DC", words.English()},
		{"District of Columbia", "DC", words.English()},
		{"carolina", "", words.English()},
		{"unknown", Unknown, words.English()},
		{"", Unknown, words.English()},
		{"new", "", words.English()},
		{"Georgetown", "", words.English()},
		{"nueva york", "NY", spanish},
		{"New York", "NY", spanish},
		{"penn", "PA", spanish},
		{"distrito de Columbia", "DC", spanish},
		{"no sé", Unknown, spanish},
	} {
		at := step{wording: script().question("jobs[].state"), lang: tt.lang}
		got, err := at.read(tt.typed, env("2026-06-15").Today, 2026)
		if got != tt.want || (err == nil) != (tt.want != "") {
			t.Errorf("%q is %q, %v; want %q", tt.typed, got, err, tt.want)
		}
	}
}

// Each job is done somewhere: the state of a person's first job is suggested for
// the second, and the spouse's jobs have states of their own.
func TestStateOfEachJob(t *testing.T) {
	s := begin(t, "2026-06-15", "")
	play(t, s, `
		interview.way_in = changed
		interview.changes = raise
		interview.change_date = 2026-06-01
		interview.married = yes
		interview.file_jointly = jointly
		interview.jobs = 2
		jobs[0].state = NJ
		interview.spouse_jobs = 1
		jobs[2].state = TX
		interview.people = 0
		interview.income = none
		interview.reductions = none
		jobs[0].name = Mill
		interview.job_1_special = none
		jobs[0].pay_frequency = biweekly
		interview.job_1_stub = no
		jobs[0].first_payday = unknown
		interview.job_1_pay_known = taxable
		jobs[0].taxable_pay = 2400
		interview.job_1_on_file = none
		jobs[1].name = Ferry
		interview.job_2_special = none`)
	q, _ := s.Question()
	if q.Key != "jobs[1].state" || q.Prefill() != "New Jersey" {
		t.Fatalf("asked %s from %q, want the state of the second job from New Jersey", q.Key, q.Prefill())
	}
	play(t, s, "jobs[1].state = pennsylvania")
	h := tolerant(s.Document())
	for i, want := range []string{"NJ", "PA", "TX"} {
		if got := h.Jobs[i].State.String(); got != want {
			t.Errorf("job %d is done in %q, want %s", i+1, got, want)
		}
	}
}

// Answers that lack nothing but states are complete: a file that was written by
// hand is not asked for them.
func TestStatesOfAFileArePassedOver(t *testing.T) {
	s := begin(t, "2026-06-15", "")
	play(t, s, simpleHire+"\ninterview.fit = no")
	s.Document().Delete(notKnownKey)
	s = reopened(t, s, "2026-06-15")
	ended(t, s)
}
