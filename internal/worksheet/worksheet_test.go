package worksheet

import (
	"testing"

	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/words"
)

func TestSheet(t *testing.T) {
	var s Sheet
	got := s.Add(Line{ID: "tax.a", Amount: money.Dollars(5), How: Using("%v + %d × %v", money.Dollars(3500), 2, money.Cents(50))})
	if !got.Equal(money.Dollars(5)) {
		t.Errorf("Add returned %v", got)
	}
	l, ok := s.Line("tax.a")
	if !ok || l.How.String() != "3,500.00 + 2 × 0.50" {
		t.Errorf("line %v, %v", l, ok)
	}
	s.Say(words.T("note.x", "n", 1))
	s.Say(words.T("note.x", "n", 1))
	s.Say(words.T("note.x", "n", 2))
	if len(s.Notes) != 2 || s.Notes[0].Code != "x" {
		t.Errorf("notes %v, want the same note once", s.Notes)
	}
}

func TestNilSheetRecordsNothing(t *testing.T) {
	var s *Sheet
	if got := s.Add(Line{ID: "a", Amount: money.Dollars(7)}); !got.Equal(money.Dollars(7)) {
		t.Errorf("Add returned %v", got)
	}
	s.Say(words.T("note.x"))
	if _, ok := s.Line("a"); ok {
		t.Error("a nil sheet has a line")
	}
}

func TestExplain(t *testing.T) {
	var s Sheet
	s.Add(Line{ID: "a", Amount: money.Dollars(1), From: []string{"income.interest"}})
	s.Add(Line{ID: "b", Amount: money.Dollars(2), From: []string{"a", "jobs[0].taxable_pay"}})
	s.Add(Line{ID: "c", Amount: money.Dollars(3), From: []string{"b", "a", "c"}})
	r, ok := s.Explain("c")
	if !ok || len(r.From) != 2 {
		t.Fatalf("explained %+v, %v", r, ok)
	}
	b, a := r.From[0], r.From[1]
	if b.Line.ID != "b" || len(b.Answers) != 1 || b.Answers[0] != "jobs[0].taxable_pay" || len(b.From) != 1 || b.From[0].Answers[0] != "income.interest" {
		t.Errorf("b is explained by %+v", b)
	}
	if a.Line.ID != "a" || !a.Told || len(a.Answers) != 0 {
		t.Errorf("a, explained under b, is told again: %+v", a)
	}
	if _, ok := s.Explain("d"); ok {
		t.Error("a line that is not there was explained")
	}
}
