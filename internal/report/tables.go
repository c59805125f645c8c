package report

import (
	"strconv"

	"example.com/plumbline/internal/tables"
)

// Figures is every figure of a year with its source, how well it is known, and
// whether it is set again each year.
func (w Writer) Figures(y *tables.Year) Page {
	p := w.Projected(Page{Title: w.say("page.tables.title", "year", y.Year), Subtitle: w.say("page.tables.subtitle")}, y)
	var table Table
	group := ""
	flush := func() {
		if len(table.Rows) > 0 {
			p.add(table)
		}
		table = Table{Head: []string{w.say("page.tables.figure"), w.say("page.tables.value"), w.say("page.tables.basis")}}
	}
	for _, f := range y.Figures() {
		if f.Group != group {
			flush()
			group = f.Group
			p.add(Heading(group), Paragraph(w.say("page.source", "source", f.Citation.Source)))
			if note := f.Citation.NoteIn(w.language); note != "" {
				p.add(Paragraph(w.say("page.tables.note", "note", note)))
			}
		}
		name := f.Key[len(f.Group)+1:]
		if f.Indexed {
			name += " *"
		}
		table.Rows = append(table.Rows, []string{name, f.Value, string(f.Basis)})
	}
	flush()
	return p
}

// Changes are the figures that differ between two years, by group.
func (w Writer) Changes(before, after *tables.Year) Page {
	title := w.say("page.tables.compare", "before", before.Year, "after", after.Year)
	return w.changes(title, before, after, strconv.Itoa(before.Year), strconv.Itoa(after.Year), w.say("page.tables.change"))
}

// Missed is by how much the published figures of a year are off those that were
// projected for it.
func (w Writer) Missed(projected, published *tables.Year) Page {
	made := projected.Projected
	title := w.say("page.tables.missed", "year", published.Year, "from", made.From, "rise", made.Rise)
	return w.changes(title, projected, published, w.say("page.tables.as_projected"), w.say("page.tables.as_published"), w.say("page.tables.off"))
}

func (w Writer) changes(title string, before, after *tables.Year, old, now, change string) Page {
	p := Page{Title: title}
	var table Table
	group := ""
	for _, c := range tables.Compare(before, after) {
		if c.Group != group {
			if len(table.Rows) > 0 {
				p.add(table)
			}
			group = c.Group
			p.add(Heading(group))
			table = Table{Head: []string{w.say("page.tables.figure"), old, now, change}}
		}
		row := []string{c.Key[len(c.Group)+1:], c.Old, c.New, c.Percent()}
		if changed, of := c.List(); of > 0 {
			row[1], row[2], row[3] = "", "", w.say("page.tables.list_change", "changed", changed, "of", of)
		}
		table.Rows = append(table.Rows, row)
	}
	if len(table.Rows) == 0 {
		p.add(Paragraph(w.say("page.tables.same")))
		return p
	}
	p.add(table)
	return p
}
