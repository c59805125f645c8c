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
	"strings"

	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/words"
)

// Line is one result. IDs are permanent: reports and tests cite them.
type Line struct {
	ID     string       // "tax.deduction"
	Form   string       // the official line, "Form 1040 line 12"; may be empty
	Name   words.Text   // what the amount is, where the ID does not say it
	Amount money.Amount // dollars a year unless the label says a paycheck, or as the unit says
	Unit   Unit         // of the amount
	How    How          // the arithmetic
	From   []string     // IDs of lines, and keys of answers ("income.interest"), that the amount came from
	Source string       // the rule's section or worksheet line, then the table's source
}

// Unit is what a line's amount counts.
type Unit int

// The units of a line's amount.
const (
	Dollars Unit = iota
	Count        // of pay periods, of allowances
	Percent
)

// Label is what the line's amount is: its own name, or the entry of its ID.
func (l Line) Label() words.Text {
	if !l.Name.IsZero() {
		return l.Name
	}
	return words.T("line." + l.ID)
}

// Said is the line's label in a language.
func (l Line) Said(in *words.Language) string { return in.Say(l.Label()) }

// How is arithmetic to be shown. It is kept unformatted, since most traces are
// never read.
type How struct {
	format string
	args   []any
	text   words.Text // in place of a format, where the arithmetic needs words
}

// Using is the arithmetic of a line: a format with its values. Amounts are
// shown grouped, to the cent.
func Using(format string, args ...any) How { return How{format: format, args: args} }

// Worded is arithmetic that needs words.
func Worded(t words.Text) How { return How{text: t} }

// String is the arithmetic in English.
func (h How) String() string { return h.In(words.English()) }

// In is the arithmetic as people read it, in a language.
func (h How) In(l *words.Language) string {
	if !h.text.IsZero() {
		return l.Say(h.text)
	}
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
	Code string
	Text words.Text
}

// Said is the note in a language.
func (n Note) Said(l *words.Language) string {
	return l.Say(n.Text)
}

// NoteView is a note as JSON shows it, in a language.
type NoteView struct {
	Code    string `json:"code"`
	Message string `json:"message"`
}

// NotesIn are notes in a language, for JSON.
func NotesIn(l *words.Language, notes []Note) []NoteView {
	views := make([]NoteView, len(notes))
	for i, n := range notes {
		views[i] = NoteView{n.Code, n.Said(l)}
	}
	return views
}

// same reports whether two notes say the same.
func (n Note) same(m Note) bool {
	return n.Code == m.Code && n.Text.Equal(m.Text)
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

// Say records an assumption or a caution once. The note's code is what follows
// "note." or "warning." in that of its text.
func (s *Sheet) Say(t words.Text) {
	if s == nil {
		return
	}
	s.Record(NoteOf(t))
}

// NoteOf is a text as a note.
func NoteOf(t words.Text) Note {
	n := Note{Code: t.Code, Text: t}
	for _, section := range []string{"note.", "warning."} {
		if _, code, ok := strings.Cut(t.Code, section); ok {
			n.Code = code
		}
	}
	return n
}

// Record records a note once.
func (s *Sheet) Record(n Note) {
	if s == nil {
		return
	}
	if !slices.ContainsFunc(s.Notes, n.same) {
		s.Notes = append(s.Notes, n)
	}
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
