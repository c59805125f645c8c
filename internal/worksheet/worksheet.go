// Package worksheet is a computation written down line by line as it is done:
// each line with its amount, the arithmetic, the lines and answers it came
// from, and the source of its rule. The trace is made by the computation
// itself, so an explanation can never differ from the result.
//
// A rule adds its line with Sheet.Add and goes on with the amount that Add
// returns. A nil Sheet records nothing, for the many computations whose trace
// nobody reads.
package worksheet

import (
	"fmt"
	"slices"

	"example.com/plumbline/internal/money"
)

// Line is one result. IDs are permanent: reports and tests cite them.
type Line struct {
	ID     string       // "tax.deduction"
	Form   string       // the official line, "Form 1040 line 12"; may be empty
	Label  string       // what the amount is, in the form's words or plain ones
	Amount money.Amount // dollars; a year unless the label says a paycheck
	How    How          // the arithmetic
	From   []string     // IDs of lines, and keys of answers ("income.interest"), that the amount came from
	Source string       // the rule's section or worksheet line, then the table's source
}

// How is arithmetic to be shown. It is kept unformatted, since most traces are
// never read.
type How struct {
	format string
	args   []any
}

// Using is the arithmetic of a line: a format with its values. Amounts are
// shown grouped, to the cent.
func Using(format string, args ...any) How { return How{format, args} }

// String is the arithmetic as people read it.
func (h How) String() string {
	if len(h.args) == 0 {
		return h.format
	}
	shown := make([]any, len(h.args))
	for i, a := range h.args {
		if amount, ok := a.(money.Amount); ok {
			a = amount.Grouped()
		}
		shown[i] = a
	}
	return fmt.Sprintf(h.format, shown...)
}

// Note is an assumption made, or a thing not computed, that the person must
// know. Codes are permanent: programs read them.
type Note struct {
	Code    string `json:"code"`
	Message string `json:"message"`
}

// Sheet is the lines and notes of one computation, in order.
type Sheet struct {
	Lines []Line
	Notes []Note
}

// Add records a line and returns its amount.
func (s *Sheet) Add(l Line) money.Amount {
	if s != nil {
		s.Lines = append(s.Lines, l)
	}
	return l.Amount
}

// Grow makes room for n more lines.
func (s *Sheet) Grow(n int) {
	if s != nil {
		s.Lines = slices.Grow(s.Lines, n)
	}
}

// Note records an assumption or a caution once.
func (s *Sheet) Note(code, format string, args ...any) {
	if s == nil {
		return
	}
	n := Note{code, fmt.Sprintf(format, args...)}
	for _, have := range s.Notes {
		if have == n {
			return
		}
	}
	s.Notes = append(s.Notes, n)
}

// Line finds a line by ID, the last one if a computation recorded it twice.
func (s *Sheet) Line(id string) (Line, bool) {
	if s == nil {
		return Line{}, false
	}
	for i := len(s.Lines) - 1; i >= 0; i-- {
		if s.Lines[i].ID == id {
			return s.Lines[i], true
		}
	}
	return Line{}, false
}

// Append adds the lines and notes of another sheet.
func (s *Sheet) Append(other *Sheet) {
	if s == nil || other == nil {
		return
	}
	s.Lines = append(s.Lines, other.Lines...)
	s.Notes = append(s.Notes, other.Notes...)
}
