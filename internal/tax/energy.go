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
	c.s.Note("energy_item_limits", "Doors, windows, electrical panels and an energy audit have limits of their own within the credit for home improvements, which are not applied here (Form 5695).")
	return c.s.Add(worksheet.Line{
		ID:     "tax.home_improvement_credit",
		Form:   "Schedule 3 line 5b",
		Label:  "Energy efficient home improvement credit",
		Amount: c.take(improvements.Add(pumps)),
		How:    worksheet.Using("%v × %v and %v, at most %v and %v, within the tax left of %v", r.ImprovementsRate, paid.Improvements, paid.HeatPumps, r.ImprovementsCap, r.HeatPumpsCap, left),
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
		Label:  "Residential clean energy credit",
		Amount: c.take(full),
		How:    worksheet.Using("%v × %v, within the tax left of %v", paid, r.CleanRate, left),
		From:   []string{"credits.energy.clean"},
		Source: c.cite("IRC 25D(a)", r.Citation),
	})
	if over := full.Sub(taken); over.IsPositive() {
		c.s.Note("clean_energy_carryover", "Of the credit for clean energy, %s finds no tax this year and is carried to the next.", over.Grouped())
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
	c.s.Note("energy_credits_ended", "There is no credit for home energy costs of %d: the law ended it with 2025.", c.Year)
	return true
}
