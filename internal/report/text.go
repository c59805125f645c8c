package report

import (
	"fmt"
	"io"
	"strings"

	"example.com/plumbline/internal/layout"
)

// Width is the usual width of a text page, in columns. Wider ones help tables;
// beyond Widest lines are hard to read.
const Width, Widest = 80, 120

// narrowest is the width below which text pages are not drawn.
const narrowest = 40

// Line is a line of a page drawn as text, with what it is, for those who draw
// it in a style.
type Line struct {
	Text string
	Kind LineKind
}

// LineKind is what a line of a page is.
type LineKind int8

// The kinds of lines.
const (
	Plain  LineKind = iota
	Title           // the page's title
	Head            // a heading
	Strong          // the sentence that the page is there for, or what to write
)

// Style is how a page is drawn as text.
type Style struct {
	Width   int  // of a line, in columns
	Unicode bool // block characters in charts; plain signs otherwise
}

// Text draws a page as plain text: no color, no cursor movement, no line wider
// than the width. It fails only as the writer does.
func Text(w io.Writer, p Page, s Style) error {
	var b strings.Builder
	for _, l := range Lines(p, s) {
		b.WriteString(l.Text + "\n")
	}
	_, err := io.WriteString(w, b.String())
	return err
}

// Lines are a page drawn as text, line by line.
func Lines(p Page, s Style) []Line {
	t := &textPage{width: max(s.Width, narrowest), unicode: s.Unicode}
	p = p.cleaned()
	t.as(Title, func() { t.wrapped("", p.Title) })
	if p.Subtitle != "" {
		t.wrapped("", p.Subtitle)
	}
	t.blocks(p.Blocks, len(t.lines) > 0)
	return t.lines
}

type textPage struct {
	lines   []Line
	kind    LineKind
	width   int
	unicode bool
}

// as draws lines of a kind.
func (t *textPage) as(k LineKind, draw func()) {
	was := t.kind
	t.kind = k
	draw()
	t.kind = was
}

func (t *textPage) line(s string) {
	t.lines = append(t.lines, Line{strings.TrimRight(s, " "), t.kind})
}

// wrapped writes running text, its first line after a mark and the others set
// in as far.
func (t *textPage) wrapped(mark, s string) {
	for _, line := range layout.Hang(mark, s, t.width) {
		t.line(line)
	}
}

// blocks draws blocks with an empty line between two, but for what belongs to
// the one above: what is under a subheading, and the words after the entries.
func (t *textPage) blocks(blocks []Block, apart bool) {
	var before Block
	for i, b := range blocks {
		_, underSub := before.(Subheading)
		_, heading := before.(Heading)
		_, entries := before.(Entries)
		_, words := b.(Paragraph)
		_, said := before.(Paragraph)
		_, list := b.(List)
		if (i > 0 || apart) && !underSub && !heading && !(entries && words) && !(said && list) {
			t.line("")
		}
		t.block(b)
		before = b
	}
}

func (t *textPage) block(b Block) {
	switch b := b.(type) {
	case Heading:
		t.as(Head, func() { t.wrapped("", strings.ToUpper(string(b))) })
	case Lead:
		t.as(Strong, func() { t.wrapped("", string(b)) })
	case Together:
		t.blocks(b, false)
	case Subheading:
		t.wrapped("", string(b))
	case Paragraph:
		t.wrapped("", string(b))
	case Entries:
		t.entries(b)
	case Rows:
		t.rows(b)
	case Table:
		t.table(b)
	case List:
		for i, item := range b.Items {
			mark := "- "
			if b.Numbered {
				mark = fmt.Sprintf("%d. ", i+1)
			}
			t.wrapped(mark, item)
		}
	case Chain:
		t.chain(b)
	case Chart:
		t.chart(b)
	}
}

// entries sets what to write after its label, and the reason under it, both set
// in by the step: read from left to right, in one order.
func (t *textPage) entries(entries Entries) {
	steps := 0
	for _, e := range entries {
		steps = max(steps, layout.Width(e.Step))
	}
	for _, e := range entries {
		kind := Strong
		if e.Empty {
			kind = Plain
		}
		t.as(kind, func() { t.wrapped(layout.Pad("  "+e.Step, steps+4), e.Label+": "+e.Write) })
		if e.Reason != "" {
			t.wrapped(layout.Spaces(steps+4), e.Reason)
		}
	}
}

// rows sets labels left, amounts right, and the form's line after them where
// the page is wide enough.
func (t *textPage) rows(rows Rows) {
	amounts, forms := 0, 0
	for _, r := range rows {
		amounts = max(amounts, layout.Width(r.Amount))
		forms = max(forms, layout.Width(r.Form))
	}
	if forms > 0 {
		forms += 2
	}
	if t.width-amounts-forms < 30 {
		forms = 0
	}
	labels := t.width - amounts - forms - 2
	for _, r := range rows {
		if r.Total {
			t.line(strings.Repeat(" ", labels+2) + strings.Repeat("-", amounts))
		}
		lines := layout.Wrap(r.Label, labels)
		for _, l := range lines[:len(lines)-1] {
			t.line(l)
		}
		last := layout.Pad(lines[len(lines)-1], labels) + "  " + layout.PadLeft(r.Amount, amounts)
		if forms > 0 && r.Form != "" {
			last += "  " + r.Form
		}
		t.line(last)
		for _, d := range r.Detail {
			t.wrapped("    ", d)
		}
	}
}

func (t *textPage) table(tb Table) {
	widths, fits := columnWidths(tb, t.width)
	if !fits {
		t.stacked(tb)
		return
	}
	t.row(tb.Head, widths)
	rule := make([]string, len(widths))
	for i, w := range widths {
		rule[i] = strings.Repeat("-", w)
	}
	t.row(rule, widths)
	for _, row := range tb.Rows {
		t.row(row, widths)
	}
}

// leastColumn is how narrow a column of words is made before its table is set in
// another way.
const leastColumn = 10

// columnWidths are the widths of a table's columns, two spaces apart: as its cells
// are, and where that is too much for the page, the widest ones less, with their
// cells in several lines. It reports whether the table fits so.
func columnWidths(tb Table, width int) (widths []int, fits bool) {
	widths, least := make([]int, len(tb.Head)), make([]int, len(tb.Head))
	for _, row := range append([][]string{tb.Head}, tb.Rows...) {
		for i, cell := range row {
			widths[i] = max(widths[i], layout.Width(cell))
			for word := range strings.FieldsSeq(cell) {
				least[i] = max(least[i], layout.Width(word))
			}
		}
	}
	total := 2 * (len(widths) - 1)
	for i, w := range widths {
		total += w
		least[i] = min(w, max(least[i], leastColumn))
	}
	for ; total > width; total-- {
		widest := -1
		for i, w := range widths {
			if w > least[i] && (widest < 0 || w > widths[widest]) {
				widest = i
			}
		}
		if widest < 0 {
			return nil, false
		}
		widths[widest]--
	}
	return widths, true
}

// row sets the first cell left and the others right, each in its column.
func (t *textPage) row(cells []string, widths []int) {
	columns, lines := make([][]string, len(cells)), 1
	for i, cell := range cells {
		columns[i] = layout.Wrap(cell, widths[i])
		lines = max(lines, len(columns[i]))
	}
	for n := range lines {
		var b strings.Builder
		for i, column := range columns {
			var text string
			if n < len(column) {
				text = column[n]
			}
			if i == 0 {
				b.WriteString(layout.Pad(text, widths[0]))
			} else {
				b.WriteString("  " + layout.PadLeft(text, widths[i]))
			}
		}
		t.line(b.String())
	}
}

// deepest is the depth beyond which a chain is set in no further.
const deepest = 8

// chain sets each link in by its depth, its amount right.
func (t *textPage) chain(links Chain) {
	for _, l := range links {
		indent := strings.Repeat("  ", min(l.Depth, deepest))
		room := t.width - len(indent)
		lines := layout.Wrap(l.Label, room)
		for _, line := range lines[:len(lines)-1] {
			t.line(indent + line)
		}
		last := lines[len(lines)-1]
		if gap := room - layout.Width(last) - layout.Width(l.Amount); gap >= 2 {
			t.line(indent + last + strings.Repeat(" ", gap) + l.Amount)
		} else {
			t.line(indent + last)
			for _, line := range layout.Wrap(l.Amount, room) {
				t.line(indent + layout.PadLeft(line, room))
			}
		}
		for _, d := range l.Detail {
			t.wrapped(indent+"  ", d)
		}
	}
}

// stacked writes a table that is too wide as one group of labeled figures a
// row.
func (t *textPage) stacked(tb Table) {
	for i, row := range tb.Rows {
		if i > 0 {
			t.line("")
		}
		t.wrapped("", row[0])
		var rows Rows
		for c := 1; c < len(row); c++ {
			rows = append(rows, Row{Label: "  " + tb.Head[c], Amount: row[c]})
		}
		t.stackedRows(rows)
	}
}

// stackedRows sets a label left and a figure right where both fit on a line,
// else one after the other.
func (t *textPage) stackedRows(rows Rows) {
	for _, r := range rows {
		gap := t.width - layout.Width(r.Label) - layout.Width(r.Amount)
		if gap >= 2 {
			t.line(r.Label + strings.Repeat(" ", gap) + r.Amount)
		} else {
			t.wrapped("  ", strings.TrimSpace(r.Label)+": "+r.Amount)
		}
	}
}
