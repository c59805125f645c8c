package report

import (
	"fmt"

	"example.com/plumbline/internal/layout"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/scenario"
)

// Comparison is two results side by side, under the names that the person knows
// them by: what changes in tax, balance and entries.
func Comparison(c scenario.Comparison, a, b string) Page {
	p := Page{
		Title:    "What changes",
		Subtitle: fmt.Sprintf("A is %s. B is %s. Amounts are dollars.", shortPath(a), shortPath(b)),
	}
	t := Table{Head: []string{"", "A", "B", "change"}}
	row := func(label string, words func(money.Amount) string, of func(scenario.Summary) money.Amount) {
		t.Rows = append(t.Rows, []string{label, words(of(c.A)), words(of(c.B)), changeWords(of(c.Change))})
	}
	grouped := money.Amount.Grouped
	row("Tax for the year", grouped, func(s scenario.Summary) money.Amount { return s.TotalTax })
	row("Refundable credits", grouped, func(s scenario.Summary) money.Amount { return s.RefundableCredits })
	balance := func(label string, of func(scenario.Summary) money.Amount) {
		t.Rows = append(t.Rows, []string{label, shortBalance(of(c.A)), shortBalance(of(c.B)), balanceChange(of(c.Change))})
	}
	balance("Balance as things stand", func(s scenario.Summary) money.Amount { return s.AsFiled })
	balance("Balance as recommended", func(s scenario.Summary) money.Amount { return s.Recommended })
	row("To pay yourself", grouped, func(s scenario.Summary) money.Amount { return s.EstimatedPayment })
	p.add(Heading("The year"), t)
	p.add(Heading("The recommended certificates"))
	p.add(entryChanges(c.Entries)...)
	p.add(Paragraph(estimateCaution))
	return p
}

// entryChanges are the entries that change, job by job.
func entryChanges(changes []scenario.EntryChange) []Block {
	if len(changes) == 0 {
		return []Block{Paragraph("No entry changes.")}
	}
	var blocks []Block
	job, t := "", Table{}
	for i, e := range changes {
		if i == 0 || e.Job != job {
			job = e.Job
			blocks = append(blocks, Subheading(shortName(job)))
			t = Table{Head: []string{"", "A", "B", "change"}}
		}
		label, words := fmt.Sprintf("%s (%s)", entryLabels[e.Line], e.Line), money.Amount.GroupedDollars
		if e.Line == "withholding" {
			label, words = "Tax from a paycheck", money.Amount.Grouped
		}
		t.Rows = append(t.Rows, []string{label, words(e.A), words(e.B), changeWords(e.B.Sub(e.A))})
		if i+1 == len(changes) || changes[i+1].Job != job {
			blocks = append(blocks, t)
		}
	}
	return blocks
}

// balanceChange is which way a balance moves, without saying which is good.
func balanceChange(a money.Amount) string {
	switch {
	case a.IsPositive():
		return a.Grouped() + " toward a refund"
	case a.IsNegative():
		return a.Abs().Grouped() + " away from one"
	}
	return "no change"
}

// shortPath is the end of a file's name, which tells two files apart.
func shortPath(name string) string {
	return layout.ClipLeft(layout.Clean(name), longestName)
}
