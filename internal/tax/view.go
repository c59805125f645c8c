package tax

import (
	"example.com/plumbline/internal/tables"
	"example.com/plumbline/internal/words"
	"example.com/plumbline/internal/worksheet"
)

// JSON is the return as other programs read it. Money is dollars for the year.
type JSON struct {
	TaxYear   int                  `json:"tax_year"`
	Language  string               `json:"language"`            // of the notes
	Projected bool                 `json:"projected,omitempty"` // the year's tables are
	Lines     JSONLines            `json:"lines"`
	Notes     []worksheet.NoteView `json:"notes"`
}

// JSONLines are the return's lines by their fixed names.
type JSONLines struct {
	Return
	DeductionKind string `json:"deduction_kind"` // standard or itemized
}

// View is the return, with the notes of its computation, as other programs
// read it, in a language.
func View(l *words.Language, r Return, y *tables.Year, notes []worksheet.Note) JSON {
	kind := "standard"
	if r.Itemized {
		kind = "itemized"
	}
	return JSON{TaxYear: r.Year, Language: l.Tag(), Projected: y.Projected != nil, Lines: JSONLines{Return: r, DeductionKind: kind}, Notes: worksheet.NotesIn(l, notes)}
}
