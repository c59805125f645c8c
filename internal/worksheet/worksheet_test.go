package worksheet

import (
	"testing"

	"example.com/plumbline/internal/money"
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
	s.Note("x", "said %d time", 1)
	s.Note("x", "said %d time", 1)
	if len(s.Notes) != 1 {
		t.Errorf("notes %v, want the same note once", s.Notes)
	}
}

func TestNilSheetRecordsNothing(t *testing.T) {
	var s *Sheet
	if got := s.Add(Line{ID: "a", Amount: money.Dollars(7)}); !got.Equal(money.Dollars(7)) {
		t.Errorf("Add returned %v", got)
	}
	s.Note("x", "nothing")
	if _, ok := s.Line("a"); ok {
		t.Error("a nil sheet has a line")
	}
}
