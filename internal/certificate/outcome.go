package certificate

import (
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/words"
)

// paidOut is the part of a refund that comes from refundable credits beyond the
// tax: it is paid out whether tax was withheld or not.
func (o Outlook) paidOut() money.Amount {
	return money.Min(o.RefundableCredits.Sub(o.TotalTax), o.Balance).OrZero()
}

// said is how a year ends, in a sentence; what is owed is due in April of the next.
func (o Outlook) said(year int) words.Text {
	switch {
	case o.Balance.Abs().Less(money.Dollars(1)):
		return words.T("certificate.outcome.even")
	case o.Balance.IsNegative():
		return words.T("certificate.outcome.owe", "amount", o.Balance.Abs(), "year", year+1)
	case o.paidOut().Equal(o.Balance):
		return words.T("certificate.outcome.credit", "amount", o.Balance)
	case o.paidOut().IsPositive():
		return words.T("certificate.outcome.refund_with_credit", "amount", o.Balance, "credit", o.paidOut())
	}
	return words.T("certificate.outcome.refund", "amount", o.Balance)
}

// plainly is how a year would end, as the end of a sentence.
func (o Outlook) plainly() words.Text {
	switch {
	case o.Balance.Abs().Less(money.Dollars(1)):
		return words.T("certificate.would.even")
	case o.Balance.IsNegative():
		return words.T("certificate.would.owe", "amount", o.Balance.Abs())
	}
	return words.T("certificate.would.refund", "amount", o.Balance)
}

// paid is what counts as paid toward the year's tax for the safe harbor.
func (pr *projection) paid(o Outlook) money.Amount {
	return money.Sum(o.WithheldSoFar, o.WithholdingToCome, o.OtherPayments)
}

// landing reports whether a balance lands: at least the wished refund and less
// than a dollar above it for each payday on which a new certificate would
// count. It also gives what is left beyond the wish when it does not.
func (pr *projection) landing(balance money.Amount) (lands bool, left money.Amount) {
	paydays := 0
	for _, s := range pr.payers {
		paydays += s.paydays
	}
	goal := pr.goal
	if goal.IsZero() {
		goal = pr.h.Wish.Goal() // which comes back anyway
	}
	over := balance.Sub(goal)
	if !over.IsNegative() && over.Less(money.Dollars(int64(max(paydays, 1)))) {
		return true, money.Zero
	}
	return false, over
}
