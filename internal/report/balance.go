package report

import (
	"fmt"

	"example.com/plumbline/internal/certificate"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/tax"
)

// beforeAndAfter holds the year on the certificates on file against the year on
// the recommended ones; where they are the same, it shows the year once.
func beforeAndAfter(r certificate.Result) []Block {
	now, then := r.AsFiled, r.Recommended.Outlook
	title := "The year before and after"
	head := []string{"", "as things stand", standing(r)}
	if now.Balance.Equal(then.Balance) {
		title, head = "The year", []string{"", "for the year"}
	}
	t := Table{Head: head}
	row := func(label string, words func(money.Amount) string, now, then money.Amount) {
		cells := []string{label, words(now), words(then)}
		t.Rows = append(t.Rows, cells[:len(head)])
	}
	grouped := money.Amount.Grouped
	row("Tax", grouped, now.TotalTax, then.TotalTax)
	if then.RefundableCredits.IsPositive() {
		row("Refundable credits", grouped, now.RefundableCredits, then.RefundableCredits)
	}
	row("Withheld so far", grouped, now.WithheldSoFar, then.WithheldSoFar)
	row("Withholding to come", grouped, now.WithholdingToCome, then.WithholdingToCome)
	if then.OtherPayments.IsPositive() {
		row("Other payments", grouped, now.OtherPayments, then.OtherPayments)
	}
	row("Balance", balanceWords, now.Balance, then.Balance)
	return []Block{Heading(title), t}
}

// balanceWords is a balance in words: no sign, no color.
func balanceWords(a money.Amount) string {
	switch {
	case a.IsPositive():
		return "refund of " + a.Grouped()
	case a.IsNegative():
		return a.Abs().Grouped() + " due"
	}
	return "even"
}

// balancePhrase is a balance inside a sentence.
func balancePhrase(a money.Amount) string {
	switch {
	case a.IsPositive():
		return "a refund of " + a.Grouped()
	case a.IsNegative():
		return a.Abs().Grouped() + " due"
	}
	return "nothing due and nothing back"
}

// directPayments are what paychecks cannot cover, by due date.
func directPayments(r certificate.Result) []Block {
	e := r.Estimated
	if !e.Amount.IsPositive() {
		return nil
	}
	blocks := []Block{
		Heading("What paychecks cannot cover"),
		Paragraph(fmt.Sprintf("%s of this year's tax is left for you to pay yourself, with Form 1040-ES.", e.Amount.Grouped())),
	}
	if len(e.Payments) == 0 {
		return append(blocks, Paragraph("Every due date of the year has passed: pay as soon as you can, at the latest with the return."))
	}
	var rows Rows
	for _, p := range e.Payments {
		rows = append(rows, Row{Label: "By " + p.Due.Long(), Amount: p.Amount.Grouped()})
	}
	return append(blocks, rows)
}

// penalty is whether the penalty for paying too late in the year is ruled out,
// as things stand and on the recommended plan, and about how much it would be.
func penalty(r certificate.Result) []Block {
	u := r.Underpayment
	blocks := []Block{Heading("Penalty for paying too late in the year")}
	blocks = append(blocks, Paragraph("As things stand: "+ruledOut(r.Harbor)))
	if !r.Recommended.NothingToHandIn() {
		blocks = append(blocks, Paragraph("On the "+standing(r)+" plan: "+ruledOut(u.Harbor)))
	}
	if len(u.Quarters) == 0 {
		return blocks
	}
	t := Table{Head: []string{"due date", "short by then", "penalty, about"}}
	for _, q := range u.Quarters {
		t.Rows = append(t.Rows, []string{q.Due.Long(), q.Short.Grouped(), q.Penalty.Grouped()})
	}
	t.Rows = append(t.Rows, []string{"in all", "", u.Penalty.Grouped()})
	blocks = append(blocks, t)
	switch {
	case len(r.Estimated.Payments) == 0:
	case u.PenaltyIfPaid.IsZero():
		blocks = append(blocks, Paragraph("With the payments above made when they are due, there is no penalty."))
	default:
		blocks = append(blocks, Paragraph(fmt.Sprintf("With the payments above made when they are due, it is about %s in all.", u.PenaltyIfPaid.Grouped())))
	}
	return blocks
}

// ruledOut is whether the penalty is ruled out, and by which test.
func ruledOut(h tax.Harbor) string {
	if h.Safe {
		return "ruled out. " + h.Reason
	}
	return "not ruled out. " + h.Reason
}
