// Package officialform fills the fillable Form W-4 that the person got from
// their employer or from the tax agency. It hides the PDF library, the form's
// field names and the ways in which a file can fail to be the form.
//
// Start at Fill, and at Split for what may be handed over. Which field holds which line is data, one file an edition, in
// taxtables/forms. The package fills the lines that a certificate is about and
// nothing else: signature, date and the employer's part stay as they are in the
// file, and a name, address or social security number that somebody has typed
// there is cleared, and said to be: they are filled in by hand. It never
// guesses: a file whose title, year and fields are not those of an edition that
// it knows is refused with a sentence that says what was found and what to do.
package officialform

import (
	"bytes"
	"unicode/utf8"

	"example.com/plumbline/internal/words"
)

// Entries is what one certificate holds, in the form's own lines.
type Entries struct {
	// FilingStatus is the box of Step 1(c): single (also married filing
	// separately), married_filing_jointly (also qualifying surviving spouse) or
	// head_of_household.
	FilingStatus string
	// MultipleJobs is the box of Step 2(c).
	MultipleJobs bool
	// Exempt claims exemption from withholding. The form then asks for no step
	// but 1(a), 1(b) and 5, so that Lines must be empty and MultipleJobs false.
	Exempt bool
	// Lines holds whole dollars by the form's line: "3a", "3b", "3", "4a", "4b",
	// "4c"; "mj.1" and on for the Multiple Jobs Worksheet of Step 2(b), where
	// "mj.3" is a number of pay periods; "dw.1a" and on (2025: "dw.1") for the
	// Deductions Worksheet of Step 4(b). A text is digits, grouped by commas or
	// not, and is written as given. "" and a line left out leave the field empty.
	Lines map[string]string
}

// Edition says which form a file is.
type Edition struct {
	Year  int    // the year in the form's heading, 2026
	Title string // "Form W-4 (2026), Employee’s Withholding Certificate"
	// Notes are sentences about what the person has still to do by hand on this
	// form because of the entries asked for. Identify leaves them empty.
	Notes []words.Text
}

// MaxSize is the most bytes read as a form. The published files have less than
// a twentieth of that.
const MaxSize = 4 << 20

// Identify says which edition of the form a file is, or why it cannot be
// filled: it is not a PDF, not this form, of an edition not known, encrypted,
// signed or damaged.
func Identify(blank []byte) (ed Edition, err error) {
	defer func() {
		if r := recover(); r != nil {
			ed, err = Edition{}, errDamaged
		}
	}()
	f, err := open(blank)
	if err != nil {
		return Edition{}, err
	}
	return f.layout.edition(), nil
}

// Fill writes the entries into a copy of the form and leaves blank itself as it
// is. Each line of the form that entries do not name is emptied, so that the
// copy holds exactly these entries whatever the file held before. The same file
// and entries give the same bytes. Errors are those of Identify, and every
// entry that the form cannot take, all at once.
func Fill(blank []byte, e Entries) (filled []byte, ed Edition, err error) {
	defer func() {
		if r := recover(); r != nil {
			filled, ed, err = nil, Edition{}, errDamaged
		}
	}()
	f, err := open(blank)
	if err != nil {
		return nil, Edition{}, err
	}
	plan, notes, err := f.layout.plan(e)
	if err != nil {
		return nil, Edition{}, err
	}
	if f.clearPerson() {
		notes = append(notes, words.T("files.person_cleared"))
	}
	if err := f.fill(plan); err != nil {
		return nil, Edition{}, err
	}
	filled, err = f.write()
	if err != nil {
		return nil, Edition{}, err
	}
	ed = f.layout.edition()
	ed.Notes = notes
	return filled, ed, nil
}

// errDamaged is what a file gets that starts as a PDF and cannot be read as one.
var errDamaged = refusal(words.T("form.damaged"))

// refusal is why a file is not filled: what was found, then to get a fresh copy.
func refusal(found words.Text) error {
	return words.Fail("form.refused", "found", found, "do", words.T("form.get_again"))
}

// notPDF names what a file is instead of a PDF, or is nil.
func notPDF(file []byte) error {
	switch {
	case len(file) == 0:
		return refusal(words.T("form.empty"))
	case len(file) > MaxSize:
		return refusal(words.T("form.too_large", "millions", len(file)/1_000_000))
	case bytes.Contains(file[:min(len(file), 1024)], []byte("%PDF-")):
		return nil
	}
	return refusal(words.T("form.not_pdf", "kind", kindOf(file)))
}

// kindOf is the kind of a file that is no PDF, for a person who picked the wrong
// one.
func kindOf(file []byte) string {
	start := file[:min(len(file), 512)]
	switch {
	case bytes.HasPrefix(start, []byte("\x89PNG")), bytes.HasPrefix(start, []byte("\xff\xd8\xff")):
		return "picture"
	case bytes.HasPrefix(start, []byte("PK\x03\x04")):
		return "archive"
	case bytes.IndexByte(start, 0) >= 0, !utf8.Valid(file):
		return "unknown"
	case bytes.Contains(bytes.ToLower(start), []byte("<html")):
		return "web_page"
	}
	return "text"
}
