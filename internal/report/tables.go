package report

import (
	"fmt"

	"example.com/plumbline/internal/tables"
)

// Figures is every figure of a year with its source, how well it is known, and
// whether it is set again each year.
func (w Writer) Figures(y *tables.Year) Page {
	p := Page{Title: w.say("page.tables.title", "year", y.Year), Subtitle: w.say("page.tables.subtitle")}
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
			if f.Citation.Note != "" {
				p.add(Paragraph(w.say("page.tables.note", "note", f.Citation.Note)))
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

// Changes are the figures that differ between two years.
func (w Writer) Changes(before, after *tables.Year) Page {
	p := Page{Title: w.say("page.tables.compare", "before", before.Year, "after", after.Year)}
	table := Table{Head: []string{w.say("page.tables.figure"), fmt.Sprint(before.Year), fmt.Sprint(after.Year)}}
	for _, c := range tables.Compare(before, after) {
		table.Rows = append(table.Rows, []string{c.Key, c.Old, c.New})
	}
	if len(table.Rows) == 0 {
		p.add(Paragraph(w.say("page.tables.same")))
		return p
	}
	p.add(table)
	return p
}
