// Package report lays results out as pages that people read: the certificates
// to copy from, the year before and after, the plans, the paydays, the reasons.
// A page is built once, as blocks that know nothing of paper, and drawn as plain
// text, Markdown or PDF. It figures nothing itself.
//
// Start at the functions that make a Page (Certificate, EmployerPages, Tax, …),
// then Text, Markdown or PDF. Whatever a person typed is made harmless where a
// page is drawn, see clean.go; nothing that builds a page needs to.
package report

import (
	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
)

// Page is one page, or as many sheets as its blocks need.
type Page struct {
	AsOf     household.Date // the day of the answers, which dates a PDF
	Title    string
	Subtitle string
	Blocks   []Block
}

// Block is a part of a page.
type Block interface {
	// mapped is the block with every string of it put through f.
	mapped(f func(string) string) Block
}

// Heading begins a part of the page.
type Heading string

// Subheading begins a part of that part: one job, one plan.
type Subheading string

// Paragraph is running text, wrapped to the width of the page.
type Paragraph string

// Entries are what to write on a form, in the order of its steps.
type Entries []FormEntry

// FormEntry is one place on a form: the step, what the step is for, what to
// write there, and why in a sentence or two (which may be empty).
type FormEntry struct {
	Step, Label, Write, Reason string
}

// Rows are labeled amounts, one below the other.
type Rows []Row

// Row is a label with its amount, and where it belongs on a form. Under it
// stand lines of detail: arithmetic, sources, reasons.
type Row struct {
	Label  string
	Amount string
	Form   string
	Detail []string
	Total  bool // the sum of what stands above
}

// Table is figures side by side. The first column holds words, the others
// figures, set to the right.
type Table struct {
	Head []string
	Rows [][]string
}

// List is a list of short points.
type List struct {
	Numbered bool
	Items    []string
}

// Blanks are places to write by hand.
type Blanks []string

// Chain is a figure followed by what it came from, and by what that came from:
// each link under the one before it that is a level less deep.
type Chain []Link

// Link is one figure of a chain, or one answer, whose Amount is what was
// answered. Detail is its arithmetic and its source.
type Link struct {
	Depth         int // 0 is the figure asked about
	Label, Amount string
	Detail        []string
}

// Bars is a chart of one bar for each row, in parts drawn with different
// marks: the year's paydays.
type Bars struct {
	Legend []string // what each part is
	Rows   []Bar
}

// Bar is one row of a chart: a label, the sizes of its parts, and the figure
// to print at its end.
type Bar struct {
	Label  string
	Parts  []money.Amount
	Figure string
}

func (p *Page) add(b ...Block) { p.Blocks = append(p.Blocks, b...) }
