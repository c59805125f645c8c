package tax

import "example.com/plumbline/internal/worksheet"

// gamblingWinnings are income, before any losses.
//
// IRC 61(a); Schedule 1 line 8b.
func (c *computation) gamblingWinnings() {
	c.income.Gambling = c.given("tax.gambling_winnings", "Schedule 1 line 8b", "income.gambling_winnings", "IRC 61(a)", c.h.Income.GamblingWinnings)
}

// gamblingLosses are itemized: a share of them, no more than the winnings.
//
// IRC 165(d)(1); Schedule A line 16.
func (c *computation) gamblingLosses() {
	lost, r := c.h.Deductions.GamblingLosses, &c.y.GamblingLosses
	if !lost.IsPositive() {
		return
	}
	counted := lost.At(r.Share)
	l := worksheet.Line{
		ID:     "tax.itemized.gambling_losses",
		Form:   "Schedule A line 16",
		Amount: counted,
		How:    c.how("gambling", "lost", lost, "share", r.Share, "winnings", c.income.Gambling),
		From:   []string{"deductions.gambling_losses", "income.gambling_winnings"},
		Source: c.cite("IRC 165(d)", r.Citation),
	}
	if counted.More(c.income.Gambling) {
		l.Amount = c.income.Gambling
	}
	c.deductions.GamblingLosses = c.s.Add(l)
	c.GamblingLosses = c.deductions.GamblingLosses
}
