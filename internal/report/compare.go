package report

import (
	"strconv"

	"example.com/plumbline/internal/layout"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/scenario"
)

// Comparison is two results side by side, under the names that the person knows
// them by: what changes in tax, balance and entries, this year and the next.
func (w Writer) Comparison(c scenario.Comparison, a, b string) Page {
	p := Page{
		Title:    w.say("page.compare.title"),
		Subtitle: w.say("page.compare.subtitle", "a", a, "b", b),
	}
	p.add(w.sideBySide(c.TaxYear, c.A, c.B, c.Change))
	if n := c.NextYear; n != nil {
		p.add(w.sideBySide(n.TaxYear, n.A, n.B, n.Change))
	}
	p.add(Heading(w.say("page.compare.entries")))
	p.add(w.entryChanges(c.Entries)...)
	if n := c.NextYear; n != nil {
		p.add(Heading(w.say("page.compare.entries_next", "year", n.TaxYear)))
		p.add(w.entryChanges(c.January)...)
	}
	p.add(w.estimate())
	return p
}

// sideBySide is a year of two results. What neither has is left out.
func (w Writer) sideBySide(year int, a, b, change scenario.Summary) Table {
	t := Table{Head: []string{strconv.Itoa(year), "A", "B", w.say("page.compare.change")}}
	row := func(code string, of func(scenario.Summary) money.Amount) {
		if !of(a).IsZero() || !of(b).IsZero() {
			t.Rows = append(t.Rows, []string{w.say("page.compare." + code), w.dollars(of(a)), w.dollars(of(b)), w.more(of(change))})
		}
	}
	balance := func(code string, of func(scenario.Summary) money.Amount) {
		t.Rows = append(t.Rows, []string{w.say("page.compare." + code), w.short(of(a)), w.short(of(b)), w.balanceChange(of(a), of(b))})
	}
	row("tax", func(s scenario.Summary) money.Amount { return s.TotalTax })
	row("credits", func(s scenario.Summary) money.Amount { return s.RefundableCredits })
	balance("as_filed", func(s scenario.Summary) money.Amount { return s.AsFiled })
	balance("recommended", func(s scenario.Summary) money.Amount { return s.Recommended })
	row("pay", func(s scenario.Summary) money.Amount { return s.EstimatedPayment })
	return t
}

// entryChanges are the entries that change, job by job.
func (w Writer) entryChanges(changes []scenario.EntryChange) []Block {
	if len(changes) == 0 {
		return []Block{Paragraph(w.say("page.compare.none"))}
	}
	var blocks []Block
	job, t := "", Table{}
	for i, e := range changes {
		if i == 0 || e.Job != job {
			job = e.Job
			blocks = append(blocks, Subheading(shortName(job)))
			t = Table{Head: []string{"", "A", "B", w.say("page.compare.change")}}
		}
		row := []string{w.say("page.compare.line", "line", e.Line), e.A.GroupedDollars(), e.B.GroupedDollars(), w.more(e.B.Sub(e.A))}
		if e.Line == "withholding" {
			row = []string{w.say("page.compare.withholding"), e.A.Grouped(), e.B.Grouped(), w.more(e.B.Sub(e.A))}
		}
		t.Rows = append(t.Rows, row)
		if i+1 == len(changes) || changes[i+1].Job != job {
			blocks = append(blocks, t)
		}
	}
	return blocks
}

// balanceChange is how a balance moves, without saying which way is good.
func (w Writer) balanceChange(a, b money.Amount) string {
	change := b.Sub(a)
	switch {
	case change.ToDollar().IsZero():
		return w.say("page.change.none")
	case a.IsNegative() || a.IsZero() && change.IsNegative():
		return w.say("page.compare.owe", "way", way(change.Neg()), "amount", change.Abs())
	}
	return w.say("page.compare.refund", "way", way(change), "amount", change.Abs())
}

// way is whether an amount is more or less, as a choice of words.
func way(a money.Amount) string {
	if a.IsNegative() {
		return "less"
	}
	return "more"
}

// short is a balance in a table's cell.
func (w Writer) short(a money.Amount) string {
	switch whole := a.ToDollar(); {
	case whole.IsPositive():
		return w.say("page.balance.short_back", "amount", a)
	case whole.IsNegative():
		return w.say("page.balance.short_owe", "amount", a.Abs())
	}
	return w.dollars(money.Zero)
}

// ShortPath is the end of a file's name, which tells two files apart.
func ShortPath(name string) string { return layout.ClipLeft(layout.Clean(name), longestName) }
