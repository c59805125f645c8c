package tax

import (
	"strings"

	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/tables"
	"example.com/plumbline/internal/worksheet"
)

// part is a line that goes into a total.
type part struct {
	id     string
	amount money.Amount
}

// total records the sum of some lines, passing over those that are zero: its
// arithmetic is theirs, and its From names them after what it names already.
func (c *computation) total(l worksheet.Line, parts ...part) money.Amount {
	l.Amount, l.How = c.sum(parts...)
	l.From = append(l.From, c.from(parts...)...)
	return c.s.Add(l)
}

// sum adds up parts, and is the arithmetic of it.
func (c *computation) sum(parts ...part) (money.Amount, worksheet.How) {
	sum := money.Zero
	for _, p := range parts {
		sum = sum.Add(p.amount)
	}
	if c.s == nil {
		return sum, worksheet.How{}
	}
	var format strings.Builder
	var args []any
	for _, p := range parts {
		if p.amount.IsZero() {
			continue
		}
		switch {
		case len(args) > 0 && p.amount.IsNegative():
			format.WriteString(" - ")
		case len(args) > 0:
			format.WriteString(" + ")
		case p.amount.IsNegative():
			format.WriteString("-")
		}
		format.WriteString("%v")
		args = append(args, p.amount.Abs())
	}
	if len(args) == 0 {
		return sum, worksheet.Using("nothing")
	}
	return sum, worksheet.Using(format.String(), args...)
}

// from are the lines that an amount came from; those that are zero or have no
// name are left out.
func (c *computation) from(parts ...part) []string {
	if c.s == nil {
		return nil
	}
	var ids []string
	for _, p := range parts {
		if !p.amount.IsZero() && p.id != "" {
			ids = append(ids, p.id)
		}
	}
	return ids
}

// aside carries out rules whose lines stand further down on the form than
// those that need their results, and returns the lines, to be appended there.
func (c *computation) aside(rules ...func()) *worksheet.Sheet {
	sheet := c.s
	defer func() { c.s = sheet }()
	if sheet != nil {
		c.s = &worksheet.Sheet{Lines: make([]worksheet.Line, 0, 8)}
	}
	for _, rule := range rules {
		rule()
	}
	return c.s
}

// cite is the source of a line: the rule's section, then where its figures are
// published, the first of which may begin with the same section. Nothing where
// no trace is kept.
func (c *computation) cite(section string, figures ...tables.Citation) string {
	if c.s == nil {
		return ""
	}
	source := section
	for _, f := range figures {
		switch {
		case strings.HasPrefix(f.Source, source):
			source = f.Source
		default:
			source += "; " + f.Source
		}
	}
	return source
}
