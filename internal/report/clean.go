package report

import (
	"cmp"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"example.com/plumbline/internal/household"

	"example.com/plumbline/internal/layout"
)

// Names come from answers files that anybody may have written. Every renderer
// draws cleaned pages, so that no escape sequence, direction mark or line break
// inside a name reaches a terminal or tears a page.

// cleaned is the page with every string of it made harmless.
func (p Page) cleaned() Page { return p.mapped(layout.Clean) }

// longestName is the most columns that a name takes up on a page.
const longestName = 32

// shortName is a name cut to the length that pages have room for.
func shortName(name string) string {
	return layout.Clip(strings.Join(strings.Fields(layout.Clean(name)), " "), longestName)
}

// shortNames is the page with the household's job names cut wherever they
// stand, also inside sentences that were written elsewhere, and with a capital
// where one that is plain words ("your second job") begins a text.
func (p Page) shortNames(h household.Household) Page {
	var long []string
	for _, j := range h.Jobs {
		for _, name := range []string{j.Name, strings.TrimSpace(j.Name)} {
			if name != "" && shortName(name) != name {
				long = append(long, name)
			}
		}
	}
	if len(long) == 0 {
		return p.begunWith(h)
	}
	// The longest first: one name may be the beginning of another.
	slices.SortFunc(long, func(a, b string) int { return cmp.Compare(len(b), len(a)) })
	var pairs []string
	for _, name := range long {
		pairs = append(pairs, name, shortName(name))
	}
	return p.mapped(strings.NewReplacer(pairs...).Replace).begunWith(h)
}

// begunWith is the page with a capital where a job's name in plain words begins
// a text.
func (p Page) begunWith(h household.Household) Page {
	return p.mapped(func(s string) string {
		for _, j := range h.Jobs {
			name := shortName(j.Name)
			if first, _, _ := strings.Cut(name, " "); first != "" && strings.ToLower(first) == first && strings.HasPrefix(s, name) {
				r, size := utf8.DecodeRuneInString(s)
				return string(unicode.ToUpper(r)) + s[size:]
			}
		}
		return s
	})
}

// mapped is the page with every string of it put through f.
func (p Page) mapped(f func(string) string) Page {
	m := Page{AsOf: p.AsOf, Title: f(p.Title), Subtitle: f(p.Subtitle), Blocks: make([]Block, len(p.Blocks))}
	for i, b := range p.Blocks {
		m.Blocks[i] = b.mapped(f)
	}
	return m
}

func (b Heading) mapped(f func(string) string) Block    { return Heading(f(string(b))) }
func (b Subheading) mapped(f func(string) string) Block { return Subheading(f(string(b))) }
func (b Paragraph) mapped(f func(string) string) Block  { return Paragraph(f(string(b))) }
func (b Blanks) mapped(f func(string) string) Block     { return Blanks(each(b, f)) }

func (b Entries) mapped(f func(string) string) Block {
	return Entries(each(b, func(e FormEntry) FormEntry {
		return FormEntry{f(e.Step), f(e.Label), f(e.Write), f(e.Reason)}
	}))
}

func (b Rows) mapped(f func(string) string) Block {
	return Rows(each(b, func(r Row) Row {
		return Row{f(r.Label), f(r.Amount), f(r.Form), each(r.Detail, f), r.Total}
	}))
}

func (b Chain) mapped(f func(string) string) Block {
	return Chain(each(b, func(l Link) Link { return Link{l.Depth, f(l.Label), f(l.Amount), each(l.Detail, f)} }))
}

func (b Table) mapped(f func(string) string) Block {
	return Table{each(b.Head, f), each(b.Rows, func(row []string) []string { return each(row, f) })}
}

func (b List) mapped(f func(string) string) Block {
	return List{b.Numbered, each(b.Items, f)}
}

func (b Bars) mapped(f func(string) string) Block {
	return Bars{each(b.Legend, f), each(b.Rows, func(r Bar) Bar { return Bar{f(r.Label), r.Parts, f(r.Figure)} })}
}

func each[T any](list []T, f func(T) T) []T {
	mapped := make([]T, len(list))
	for i, v := range list {
		mapped[i] = f(v)
	}
	return mapped
}
