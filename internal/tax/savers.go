package tax

import (
	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/worksheet"
)

// savers is the credit for retirement savings: a rate, by adjusted gross
// income, of each person's contributions up to a limit.
//
// IRC 25B(a), (b); Form 8880.
//
// Where the limit is zero the saver's match of IRC 6433 has taken its place, but for
// gifts to ABLE accounts, which are not in the answers.
func (c *computation) savers() money.Amount {
	saved := money.Zero
	for _, e := range c.earners() {
		if own := c.h.Credits.RetirementSaving.Of(e); own.IsPositive() && c.y.Savers.Cap.IsZero() {
			c.note("savers_match", "year", c.y.Year)
		}
		if c.maySave(e) {
			saved = saved.Add(money.Min(c.h.Credits.RetirementSaving.Of(e), c.y.Savers.Cap))
		}
	}
	rate, left := c.saversRate(), c.credits.taxLeft
	if saved.IsZero() || rate.IsZero() {
		return money.Zero
	}
	return c.s.Add(worksheet.Line{
		ID:     "tax.savers_credit",
		Form:   "Schedule 3 line 4",
		Amount: c.take(saved.At(rate)),
		How:    c.how("rate_within_tax", "amount", saved, "rate", rate, "left", left),
		From:   []string{"credits.retirement_saving", "tax.adjusted_gross_income"},
		Source: c.cite("IRC 25B", c.y.Savers.Citation),
	})
}

// maySave reports whether a person's contributions count: of age at the end of
// the year, no full-time student, and not to be claimed by another.
//
// IRC 25B(c).
func (c *computation) maySave(e household.Earner) bool {
	p := c.h.Person(e)
	ofAge := p.BirthDate.IsZero() || p.BirthDate.BirthdayAge(c.y.Year) >= c.y.Savers.MinimumAge
	return ofAge && !p.FullTimeStudent && !p.CanBeClaimed
}

// saversRate is the rate of the first tier that the adjusted gross income does
// not pass; zero above the last.
//
// IRC 25B(b).
func (c *computation) saversRate() money.Rate {
	for _, t := range c.y.Savers.Tiers {
		if !c.AdjustedGrossIncome.More(t.UpTo.Of(c.Status)) {
			return t.Rate
		}
	}
	return money.Rate{}
}
