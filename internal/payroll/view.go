package payroll

import (
	"strings"

	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/tables"
	"example.com/plumbline/internal/words"
	"example.com/plumbline/internal/worksheet"
)

// JSON is one paycheck's withholding as other programs read it, in dollars.
type JSON struct {
	TaxYear     int          `json:"tax_year"`
	Language    string       `json:"language"`            // of the notes
	Projected   bool         `json:"projected,omitempty"` // the year's tables are
	Withholding money.Amount `json:"withholding"`

	SocialSecurity money.Amount `json:"social_security"`
	Medicare       money.Amount `json:"medicare"`
	TakeHome       money.Amount `json:"take_home"` // before state tax and what comes off after tax

	Steps []JSONStep           `json:"steps"`
	Notes []worksheet.NoteView `json:"notes"`
}

// JSONStep is one line of the worksheet. Lines 1b and 1j are counts, and line
// 2d is a percentage.
type JSONStep struct {
	Line   string       `json:"line"` // "1c"
	Amount money.Amount `json:"amount"`
}

// View is what Withholding and StubOf returned, with the lines that it left on the sheet,
// as other programs read it, in a language.
func View(l *words.Language, y *tables.Year, withheld money.Amount, stub Stub, s *worksheet.Sheet) JSON {
	v := JSON{TaxYear: y.Year, Language: l.Tag(), Projected: y.Projected != nil, Withholding: withheld, SocialSecurity: stub.SocialSecurity, Medicare: stub.Medicare, TakeHome: stub.TakeHome, Steps: []JSONStep{}, Notes: worksheet.NotesIn(l, s.Notes)}
	for _, l := range s.Lines {
		v.Steps = append(v.Steps, JSONStep{strings.TrimPrefix(l.ID, "payroll."), l.Amount})
	}
	return v
}
