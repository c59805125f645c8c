package report

import "example.com/plumbline/internal/layout"

// Names come from answers files that anybody may have written. Every renderer
// draws cleaned pages, so that no escape sequence, direction mark or line break
// inside a name reaches a terminal or tears a page.

// cleaned is the page with every string of it made harmless.
func (p Page) cleaned() Page { return p.mapped(layout.Clean) }

// mapped is the page with every string of it put through f.
func (p Page) mapped(f func(string) string) Page {
	m := Page{Kind: p.Kind, AsOf: p.AsOf, Title: f(p.Title), Subtitle: f(p.Subtitle), Blocks: make([]Block, len(p.Blocks))}
	for i, b := range p.Blocks {
		m.Blocks[i] = b.mapped(f)
	}
	return m
}

func (b Heading) mapped(f func(string) string) Block    { return Heading(f(string(b))) }
func (b Subheading) mapped(f func(string) string) Block { return Subheading(f(string(b))) }
func (b Paragraph) mapped(f func(string) string) Block  { return Paragraph(f(string(b))) }
func (b Lead) mapped(f func(string) string) Block       { return Lead(f(string(b))) }

func (b Together) mapped(f func(string) string) Block {
	return Together(each(b, func(part Block) Block { return part.mapped(f) }))
}

func (b Entries) mapped(f func(string) string) Block {
	return Entries(each(b, func(e FormEntry) FormEntry {
		return FormEntry{f(e.Step), f(e.Label), f(e.Write), f(e.Reason), e.Empty, e.line}
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

func (b Chart) mapped(f func(string) string) Block {
	b.Done, b.Both, b.OnlyA, b.OnlyB, b.Goal = f(b.Done), f(b.Both), f(b.OnlyA), f(b.OnlyB), f(b.Goal)
	b.Head = [3]string{f(b.Head[0]), f(b.Head[1]), f(b.Head[2])}
	b.Rows = each(b.Rows, func(r Bar) Bar {
		r.Label, r.FigureA, r.FigureB = f(r.Label), f(r.FigureA), f(r.FigureB)
		return r
	})
	return b
}

func each[T any](list []T, f func(T) T) []T {
	mapped := make([]T, len(list))
	for i, v := range list {
		mapped[i] = f(v)
	}
	return mapped
}
