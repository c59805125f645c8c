package tax

import (
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/worksheet"
)

// homeImprovements is the credit for a home's energy efficiency: a share of what
// was paid, up to a cap for improvements and one for heat pumps.
//
// IRC 25C(a), (b)(1), (b)(5); Form 5695 Part II; Schedule 3 line 5b.
func (c *computation) homeImprovements() money.Amount {
	paid, r := c.h.Credits.Energy, c.y.Energy
	if paid.Improvements.Add(paid.HeatPumps).IsZero() || c.noEnergyCredits() {
		return money.Zero
	}
	improvements := money.Min(paid.Improvements.At(r.ImprovementsRate), r.ImprovementsCap)
	pumps := money.Min(paid.HeatPumps.At(r.ImprovementsRate), r.HeatPumpsCap)
	left := c.credits.taxLeft
	c.note("energy_item_limits")
	return c.s.Add(worksheet.Line{
		ID:     "tax.home_improvement_credit",
		Form:   "Schedule 3 line 5b",
		Amount: c.take(improvements.Add(pumps)),
		How:    c.how("home_energy", "rate", r.ImprovementsRate, "improvements", paid.Improvements, "pumps", paid.HeatPumps, "improvements_cap", r.ImprovementsCap, "pumps_cap", r.HeatPumpsCap, "left", left),
		From:   []string{"credits.energy.improvements", "credits.energy.heat_pumps"},
		Source: c.cite("IRC 25C(a), (b)", r.Citation),
	})
}

// cleanEnergy is the credit for solar panels and the like: a share of what was
// paid. It comes last, and what finds no tax is carried to next year.
//
// IRC 25D(a), (c); Form 5695 Part I; Schedule 3 line 5a.
func (c *computation) cleanEnergy() money.Amount {
	paid, r := c.h.Credits.Energy.Clean, c.y.Energy
	if paid.IsZero() || c.noEnergyCredits() {
		return money.Zero
	}
	full, left := paid.At(r.CleanRate).ToCent(), c.credits.taxLeft
	taken := c.s.Add(worksheet.Line{
		ID:     "tax.clean_energy_credit",
		Form:   "Schedule 3 line 5a",
		Amount: c.take(full),
		How:    c.how("rate_within_tax", "amount", paid, "rate", r.CleanRate, "left", left),
		From:   []string{"credits.energy.clean"},
		Source: c.cite("IRC 25D(a)", r.Citation),
	})
	if over := full.Sub(taken); over.IsPositive() {
		c.note("clean_energy_carryover", "over", over)
	}
	return taken
}

// noEnergyCredits reports whether the year has none of these credits, and says
// so.
//
// P.L. 119-21 secs. 70505, 70506.
func (c *computation) noEnergyCredits() bool {
	if c.y.Energy != nil {
		return false
	}
	c.note("energy_credits_ended", "year", c.Year)
	return true
}
