package report

import (
	"fmt"

	"example.com/plumbline/internal/tables"
)

// Figures is every figure of a year with its source, how well it is known, and
// whether it is set anew each year.
func Figures(y *tables.Year) Page {
	p := Page{
		Title:    fmt.Sprintf("Yearly table %d", y.Year),
		Subtitle: "Each figure with how well it is known: found in print, derived by a stated rule, or recalled from memory. An asterisk marks what is set anew each year.",
	}
	var table Table
	group := ""
	flush := func() {
		if len(table.Rows) > 0 {
			p.add(table)
		}
		table = Table{Head: []string{"figure", "value", "basis"}}
	}
	for _, f := range y.Figures() {
		if f.Group != group {
			flush()
			group = f.Group
			p.add(Heading(group), Paragraph("Source: "+f.Citation.Source))
			if f.Citation.Note != "" {
				p.add(Paragraph("Note: " + f.Citation.Note))
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
func Changes(before, after *tables.Year) Page {
	p := Page{Title: fmt.Sprintf("Yearly tables %d and %d", before.Year, after.Year)}
	table := Table{Head: []string{"figure", fmt.Sprint(before.Year), fmt.Sprint(after.Year)}}
	for _, c := range tables.Compare(before, after) {
		table.Rows = append(table.Rows, []string{c.Key, c.Old, c.New})
	}
	if len(table.Rows) == 0 {
		p.add(Paragraph("No figure differs."))
		return p
	}
	p.add(table)
	return p
}
