package tax

import (
	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/tables"
	"example.com/plumbline/internal/words"
)

// Harbor tells whether enough is paid over the year to rule out the penalty for
// underpaying estimated tax.
type Harbor struct {
	Safe     bool
	Required money.Amount // the required annual payment, dollars for the year
	Reason   words.Text   // one plain sentence with the test that decided
}

// SafeHarbor holds what is paid over the year against the required annual
// payment: the smaller of 90% of this year's tax, after refundable credits, and
// 100% of last year's, 110% where last year's adjusted gross income was high or
// is not known. Where last year's tax is not known, this year's alone decides.
// No penalty falls either on one who had no tax last year, or whose tax less
// withholding is below $1,000. The shares and limits are the table's.
//
// paid is all that counts as paid for the year, in dollars: withholding with
// excess social security and additional Medicare tax withheld, and the
// estimated tax of the answers. That estimated tax is paid on time is assumed,
// and that last year's return covered twelve months.
//
// IRC 6654(d)(1)(B) and (C), 6654(e)(1) and (2), 6654(f); Form 2210 lines 1
// to 9.
func SafeHarbor(r Return, h household.Household, paid money.Amount, y *tables.Year) Harbor {
	u := y.Underpayment
	owed := r.TotalTax.Sub(r.RefundableCredits).OrZero()
	withheld := paid.Sub(h.Payments.EstimatedTax)
	current := owed.At(u.CurrentShare).ToCent()
	b := Harbor{Required: current}
	of, share, income := "this", u.CurrentShare, "known"
	lastTax, known := h.LastYear.Tax()
	if known {
		prior := u.PriorShare
		if agi := h.LastYear.AdjustedGrossIncome; agi == nil || agi.More(u.HighIncome.Of(r.Status)) {
			prior = prior.Add(u.PriorHighExtra)
		}
		if asked := lastTax.At(prior).ToCent(); asked.Less(current) {
			b.Required, of, share = asked, "last", prior
			if h.LastYear.AdjustedGrossIncome == nil {
				income = "unknown"
			}
		}
	}
	b.Safe = true
	switch due := owed.Sub(withheld); {
	case due.Less(u.LeastDue):
		b.Reason = words.T("harbor.little_due", "least", u.LeastDue)
	case known && lastTax.IsZero():
		b.Reason = words.T("harbor.no_tax_last_year")
	case !paid.Less(b.Required):
		b.Reason = words.T("harbor.enough", "required", b.Required, "share", share, "of", of, "income", income)
	default:
		b.Safe = false
		last := "known"
		if !known {
			last = "unknown"
		}
		b.Reason = words.T("harbor.not_enough", "paid", paid, "required", b.Required, "share", share, "of", of, "income", income, "last", last)
	}
	return b
}

// LeastSafe is the least that has to be paid over the year, counted as SafeHarbor
// counts it, for no penalty to follow.
//
// IRC 6654(d)(1)(B), 6654(e)(1) and (2).
func LeastSafe(r Return, h household.Household, y *tables.Year) money.Amount {
	if last, known := h.LastYear.Tax(); known && last.IsZero() {
		return money.Zero
	}
	owed := r.TotalTax.Sub(r.RefundableCredits).OrZero()
	small := money.Sum(owed.Sub(y.Underpayment.LeastDue), money.Cents(1), h.Payments.EstimatedTax).OrZero()
	return money.Min(SafeHarbor(r, h, money.Zero, y).Required, small)
}

// Installment is one of the year's four due dates for estimated tax. Amounts
// are dollars.
type Installment struct {
	Due     household.Date // the day by which a payment is on time
	Short   money.Amount   // by how much the payments so far stay behind what is due so far
	Penalty money.Amount   // to more than the cent; on Short until the next due date, the last until the return is due
}

// Payment is estimated tax paid on a day, in dollars.
type Payment struct {
	Due    household.Date `json:"due"` // the day on which it is made
	Amount money.Amount   `json:"amount"`
}

// Penalty is the rough size of the penalty on a year that is not in a safe
// harbor: for each due date a quarter of the required payment, what is missing
// of it bearing interest at the published rates until it is paid or the return
// is due. Withholding and the answers' estimated tax are taken as paid in four
// equal parts on the due dates, which the law presumes of withholding; later
// payments count from their own days, those between two due dates too. Nothing
// where the year is safe.
//
// A due date on a weekend or holiday moves for the payment, and not for the
// count of days, which begins on the date that the law names: Instructions for
// Form 2210 (2025), p. 5, where the second installment runs from 6/15/25, a
// Sunday.
//
// IRC 6654(a), (b), (c), (g); Form 2210 Part III.
func Penalty(b Harbor, paid money.Amount, y *tables.Year, later ...Payment) []Installment {
	if b.Safe {
		return nil
	}
	dates, day := y.Underpayment.Installments.Due, y.Underpayment.Installments.Day
	var all []Installment
	for i, due := range dates {
		from := household.On(due.Year, due.Month, day)
		until := household.On(dates[0].Year+1, dates[0].Month, day) // the return's due date
		if i+1 < len(dates) {
			until = household.On(dates[i+1].Year, dates[i+1].Month, day)
		}
		short := b.Required.Sub(paid).Times(i + 1).DividedBy(len(dates))
		for _, p := range later {
			if !p.Due.After(due) {
				short = short.Sub(p.Amount)
			}
		}
		short = short.OrZero()
		rates := y.Underpayment.Interest.Rates
		penalty, left := interest(short, from, until, rates), short
		for _, p := range later {
			if p.Due.After(due) && p.Due.Before(until) {
				made := money.Min(p.Amount, left)
				penalty, left = penalty.Sub(interest(made, p.Due, until, rates)), left.Sub(made)
			}
		}
		all = append(all, Installment{Due: due, Short: short.ToCent(), Penalty: penalty})
	}
	return all
}

// interest is simple interest on an amount from one date to another, the first
// not counted, each day at its rate.
//
// IRC 6621(a)(2); Form 2210, penalty worksheet: by days of 365, 76 of them from
// April 15 through June 30, where a rate period ends.
func interest(amount money.Amount, from, to household.Date, rates []tables.InterestRate) money.Amount {
	const daysInYear = 365
	sum := money.Zero
	for i, r := range rates {
		start, end := from, to
		if before := r.From.AddDays(-1); i > 0 && before.After(start) {
			start = before
		}
		if i+1 < len(rates) {
			if last := rates[i+1].From.AddDays(-1); last.Before(end) {
				end = last
			}
		}
		if days := start.DaysUntil(end); days > 0 {
			sum = sum.Add(amount.At(r.Rate).Times(days).DividedBy(daysInYear))
		}
	}
	return sum
}
