package certificate

import (
	"slices"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/tables"
	"example.com/plumbline/internal/tax"
)

// Estimated is what the paychecks cannot cover by year end, to be paid
// directly with Form 1040-ES.
type Estimated struct {
	Amount   money.Amount  // for the year; zero when the paychecks cover it
	Payments []tax.Payment // by due date
}

// estimated is what a plan leaves to be paid directly: what is owed where it is
// not near enough. Only the required annual payment has to be there in the year;
// what is owed beyond it is due with the return, as all of it is where no penalty
// can follow. A rest that nobody would notice is not parted from the other.
//
// IRC 6654(d)(1), 6072(a), 6151(a).
func (pr *projection) estimated(p Plan) Estimated {
	owed := p.Balance.Neg().OrZero()
	if p.NearEnough || owed.IsZero() {
		return Estimated{}
	}
	soon, rest := money.Zero, owed
	if !p.Harbor.Safe {
		soon = money.Min(p.Harbor.Required.Sub(pr.paid(p.Outlook)).DollarUp(), owed)
		if rest = owed.Sub(soon); !rest.More(shortBy) {
			soon, rest = owed, money.Zero
		}
	}
	e := Estimated{Amount: owed, Payments: installments(soon, pr.h.AsOf, pr.y)}
	if len(e.Payments) == 0 { // the last of the year's dates is past
		rest = owed
	}
	if rest.IsPositive() {
		e.Payments = append(e.Payments, tax.Payment{Due: pr.returnDue(), Amount: rest})
	}
	return e
}

// returnDue is the day on which the return of the year is due.
//
// IRC 6072(a).
func (pr *projection) returnDue() household.Date {
	first := pr.y.Underpayment.Installments.Due[0]
	return household.On(pr.y.Year+1, first.Month, first.Day)
}

// direct is the payment with its first day, and what waiting would cost.
func (e Estimated) direct(pr *projection, u Underpayment) DirectPayment {
	if !e.Amount.IsPositive() {
		return DirectPayment{}
	}
	d := DirectPayment{Amount: e.Amount, By: e.Payments[0].Due, Parts: e.Payments, Waiting: u.Penalty.Sub(u.PenaltyIfPaid).OrZero()}
	if last := e.Payments[len(e.Payments)-1]; last.Due == pr.returnDue() {
		d.WithReturn = last.Amount
	}
	return d
}

// installments spreads an amount over the due dates still to come. The next
// one takes what the ones already past should have had, so that each quarter
// of the year is caught up with; the rest comes in equal parts.
//
// IRC 6654(c), (d)(1)(A): four equal installments.
func installments(owed money.Amount, asOf household.Date, y *tables.Year) []tax.Payment {
	due := y.Underpayment.Installments.Due
	var coming []tax.Payment
	left := owed
	for i, d := range due {
		if d.Before(asOf) || !owed.IsPositive() {
			continue
		}
		parts := 1
		if len(coming) == 0 {
			parts = i + 1
		}
		amount := money.Min(owed.Times(parts).DividedBy(len(due)).DollarUp(), left)
		if i == len(due)-1 {
			amount = left
		}
		if amount.IsPositive() {
			coming = append(coming, tax.Payment{Due: d, Amount: amount})
		}
		left = left.Sub(amount)
	}
	return coming
}

// planned is the year's estimated tax that the answers give, by due date in four
// equal installments. It is nil once the first day has passed, since nobody knows
// what was paid by then, and where the year's own tables are not known.
//
// IRC 6654(c), (d)(1)(A).
func (pr *projection) planned() []tax.Payment {
	first := pr.y.Underpayment.Installments.Due[0]
	if first.Year != pr.h.TaxYear || first.Before(pr.h.AsOf) {
		return nil
	}
	return installments(pr.h.Payments.EstimatedTax, pr.h.AsOf, pr.y)
}

// underpayment is whether a plan is in a safe harbor, and the penalty's rough
// size where it is not: with nothing paid beyond the paychecks, and with the
// estimated payments made when they are due.
func (pr *projection) underpayment(p Plan, e Estimated) Underpayment {
	u := Underpayment{Harbor: p.Harbor, Quarters: tax.Penalty(p.Harbor, pr.paid(p.Outlook), pr.y)}
	u.Penalty = inAll(u.Quarters)
	u.PenaltyIfPaid = inAll(tax.Penalty(p.Harbor, pr.paid(p.Outlook), pr.y, e.Payments...))
	today := slices.Clone(e.Payments)
	for i := range today {
		if today[i].Due != pr.returnDue() {
			today[i].Due = pr.h.AsOf
		}
	}
	u.PenaltyIfNow = inAll(tax.Penalty(p.Harbor, pr.paid(p.Outlook), pr.y, today...))
	return u
}

// inAll is the penalty of all due dates together.
func inAll(quarters []tax.Installment) money.Amount {
	sum := money.Zero
	for _, q := range quarters {
		sum = sum.Add(q.Penalty)
	}
	return sum.ToCent()
}
