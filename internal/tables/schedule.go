package tables

import "example.com/plumbline/internal/money"

// Schedule is a rate schedule: its brackets from zero up.
type Schedule []Bracket

// Tax is the tax on an amount by the schedule, exact; nothing on zero or less.
func (s Schedule) Tax(amount money.Amount) money.Amount {
	tax := money.Zero
	for i, b := range s {
		if !amount.More(b.Over) {
			break
		}
		top := amount
		if i+1 < len(s) {
			top = money.Min(amount, s[i+1].Over)
		}
		tax = tax.Add(top.Sub(b.Over).At(b.Rate))
	}
	return tax
}

// RateAt is the rate of the bracket in which an amount ends: the rate on the
// next dollar when the amount stands on a bracket's edge.
func (s Schedule) RateAt(amount money.Amount) money.Rate {
	rate := s[0].Rate
	for _, b := range s {
		if amount.Less(b.Over) {
			break
		}
		rate = b.Rate
	}
	return rate
}
