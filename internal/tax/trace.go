package tax

import (
	"strings"

	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/tables"
	"example.com/plumbline/internal/words"
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

// totalIfAny is total, without a line where there is nothing to show.
func (c *computation) totalIfAny(l worksheet.Line, parts ...part) money.Amount {
	for _, p := range parts {
		if !p.amount.IsZero() {
			return c.total(l, parts...)
		}
	}
	return money.Zero
}

// sumOf adds up parts.
func sumOf(parts []part) money.Amount {
	sum := money.Zero
	for _, p := range parts {
		sum = sum.Add(p.amount)
	}
	return sum
}

// sum adds up parts, and is the arithmetic of it.
func (c *computation) sum(parts ...part) (money.Amount, worksheet.How) {
	sum := sumOf(parts)
	if c.s == nil {
		return sum, worksheet.How{}
	}
	var a arithmetic
	for _, p := range parts {
		a.add(p.amount)
	}
	return sum, a.how()
}

// how is arithmetic that needs words, by its code in the section how; nothing
// where no trace is kept.
func (c *computation) how(code string, namesAndValues ...any) worksheet.How {
	if c.s == nil {
		return worksheet.How{}
	}
	return worksheet.Worded(words.T("how."+code, namesAndValues...))
}

// note records an assumption or a caution, by its code in the section note.
func (c *computation) note(code string, namesAndValues ...any) {
	if c.s != nil {
		c.s.Say(words.T("note."+code, namesAndValues...))
	}
}

// arithmetic is a sum being written down; amounts of zero are passed over.
type arithmetic struct {
	format strings.Builder
	args   []any
}

func (a *arithmetic) add(amount money.Amount) { a.term(amount, "%v", amount.Abs()) }

// times adds several equal amounts.
func (a *arithmetic) times(n int, amount money.Amount) {
	a.term(amount.Times(n), "%d × %v", n, amount.Abs())
}

func (a *arithmetic) term(amount money.Amount, format string, args ...any) {
	if amount.IsZero() {
		return
	}
	switch {
	case len(a.args) > 0 && amount.IsNegative():
		a.format.WriteString(" − ")
	case len(a.args) > 0:
		a.format.WriteString(" + ")
	case amount.IsNegative():
		a.format.WriteString("-")
	}
	a.format.WriteString(format)
	a.args = append(a.args, args...)
}

func (a *arithmetic) how() worksheet.How {
	if len(a.args) == 0 {
		return worksheet.Worded(words.T("how.nothing"))
	}
	return worksheet.Using(a.format.String(), a.args...)
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

// aside carries out rules whose lines are further down on the form than
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
