package tables

import (
	"cmp"
	"math/big"
)

// months are those in which the twelve of the rule's price index end.
func (r *Rule) months() string { return cmp.Or(r.Through, augustIndex) }

// byPrices reports whether the rule's amounts rise with a price index.
func (r *Rule) byPrices() bool { return len(r.Base) > 0 && r.YearlyRise.IsZero() }

// notYet reports whether the amounts of the rule are still those of the statute:
// the index of the year before is that of the base year.
func (r *Rule) notYet(y *Year) bool { return int(r.BaseYear) >= y.Year-1 }

// slope is the unrounded amount for each point of the index.
func (r *Rule) slope(y *Year, base *big.Rat) *big.Rat {
	levels := y.Prices.of(r.Through)
	s := new(big.Rat).Quo(base, levels[r.BaseYear].r)
	if r.PlusYear != 0 {
		s.Add(s, new(big.Rat).Quo(ratOf(r.PlusBase), levels[r.PlusYear].r))
	}
	return s
}

// at is what the rule makes of a base amount at a level of the price index. An
// amount never falls below that of the statute.
func (r *Rule) at(y *Year, base, level *big.Rat) *big.Rat {
	whole := new(big.Rat).Add(base, ratOf(r.PlusBase))
	amount := whole
	if !r.notYet(y) {
		amount = new(big.Rat).Mul(r.slope(y, base), level)
	}
	if amount.Cmp(whole) < 0 {
		amount = whole
	}
	rise := new(big.Rat).Sub(amount, base)
	switch {
	case !r.IncreaseDown.IsZero():
		return rise.Add(base, down(rise, ratOf(r.IncreaseDown)))
	case !r.IncreaseNearest.IsZero():
		return rise.Add(base, nearest(rise, ratOf(r.IncreaseNearest)))
	case !r.AmountDown.IsZero():
		return down(amount, ratOf(r.AmountDown))
	}
	return nearest(amount, ratOf(r.AmountNearest))
}

// interval is where the index must be for the rule to give an amount: at least
// the one, below the other.
func (r *Rule) interval(y *Year, base, amount *big.Rat) (least, below *big.Rat) {
	least, below = amount, amount
	switch {
	case !r.IncreaseDown.IsZero():
		below = new(big.Rat).Add(amount, ratOf(r.IncreaseDown))
	case !r.AmountDown.IsZero():
		below = new(big.Rat).Add(amount, ratOf(r.AmountDown))
	default:
		middle := half(ratOf(r.IncreaseNearest.Add(r.AmountNearest))) // one of them is zero
		least, below = new(big.Rat).Sub(amount, middle), new(big.Rat).Add(amount, middle)
	}
	slope := r.slope(y, base)
	least, below = new(big.Rat).Quo(least, slope), new(big.Rat).Quo(below, slope)
	if whole := new(big.Rat).Add(base, ratOf(r.PlusBase)); amount.Cmp(whole) <= 0 {
		least = new(big.Rat) // an index below the base year's gives the amount of the statute too
	}
	if !r.fits(base, amount) {
		below = least // no level gives this amount
	}
	return least, below
}

// fits reports whether an amount is rounded as the rule has it.
func (r *Rule) fits(base, amount *big.Rat) bool {
	from, step := base, ratOf(r.IncreaseDown.Add(r.IncreaseNearest))
	if step.Sign() == 0 {
		from, step = new(big.Rat), ratOf(r.AmountDown.Add(r.AmountNearest))
	}
	over := new(big.Rat).Sub(amount, from)
	return over.Sign() >= 0 && down(over, step).Cmp(over) == 0
}

// without is a base amount that no price index has raised yet: as it is, or
// risen by statute each year.
func (r *Rule) without(y *Year, base *big.Rat) *big.Rat {
	amount := new(big.Rat).Set(base)
	factor := new(big.Rat).Add(big.NewRat(1, 1), rateRat(r.YearlyRise))
	last := y.Year
	if r.Until != 0 {
		last = min(last, r.Until)
	}
	for range last - int(r.BaseYear) {
		amount.Mul(amount, factor)
	}
	return amount
}
