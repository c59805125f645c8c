// Package report lays results out as pages that people read: the answer, what
// to write on each certificate, the reasons, the plans, the paydays. A page is
// built once, by a Writer of one language, as blocks that know nothing of paper,
// and drawn as plain text, Markdown or PDF. It figures nothing itself.
//
// Start at Writer. Whatever a person typed is made harmless where a page is
// drawn, see clean.go; nothing that builds a page needs to.
package report

import (
	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
)

// Page is one page, or as many sheets as its blocks need.
type Page struct {
	Kind     Kind
	AsOf     household.Date // the day of the answers, which dates a PDF
	Title    string
	Subtitle string
	Blocks   []Block
}

// Kind is what a page of a result is for, by which front ends find it.
type Kind int8

// The kinds of pages, in the order in which people want them.
const (
	Other       Kind = iota // not of a result
	AnswerPage              // what to do, what to write, what it changes
	FormPage                // a certificate to copy from: one for each to hand in
	StepsPage               // what to do, and by when
	WhyPage                 // the reason of each entry
	JanuaryPage             // next year
	NextForm                // a certificate of next year's to copy from
	PlansPage               // the other plans
	PaydaysPage             // the paydays of the year
	StubPage                // the last stubs, checked
	RestPage                // everything else to know
)

// Block is a part of a page.
type Block interface {
	// mapped is the block with every string of it put through f.
	mapped(f func(string) string) Block
}

// Heading begins a part of the page.
type Heading string

// Subheading begins a part of that part: one job, one plan.
type Subheading string

// Lead is the sentence that a page is there for.
type Lead string

// Paragraph is running text, wrapped to the width of the page.
type Paragraph string

// Entries are what to write on a form, in the order of its steps.
type Entries []FormEntry

// FormEntry is one place on a form: the step, what the step is for, what to
// write there, and why in a sentence or two (which may be empty). An Empty one is
// left as it is.
type FormEntry struct {
	Step, Label, Write, Reason string
	Empty                      bool

	line string // of the form: "1c"
}

// Rows are labeled amounts, one below the other.
type Rows []Row

// Row is a label with its amount, and where it belongs on a form. Under it
// are lines of detail: arithmetic, sources, reasons.
type Row struct {
	Label  string
	Amount string
	Form   string
	Detail []string
	Total  bool // the sum of what is above
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

// Together are blocks that no sheet parts: a certificate with what belongs to it.
type Together []Block

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

// Chart is amounts that grow over the year, as bars side by side: what is there
// already, what comes in either case, what only one of two cases adds, and the
// mark that the bars are to reach.
type Chart struct {
	Done, Both, OnlyA, OnlyB string // what each part of a bar is; OnlyA or OnlyB may be empty
	Goal                     string // what the mark is
	Head                     [3]string
	Mark                     money.Amount
	Rows                     []Bar
}

// Bar is one row of a chart: the amount that is there already, and what it grows
// to in the two cases.
type Bar struct {
	Label      string
	Done, A, B money.Amount
	FigureA    string
	FigureB    string
}

func (p *Page) add(b ...Block) { p.Blocks = append(p.Blocks, b...) }
