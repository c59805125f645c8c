package tax

import "example.com/plumbline/internal/money"

// carryLosses is what next year begins with of this year's capital losses. What
// is deducted this year uses up short-term losses first; it counts only as far
// as there was income to deduct it from.
//
// IRC 1212(b)(1), (2); Instructions for Schedule D, Capital Loss Carryover
// Worksheet.
func (c *computation) carryLosses() {
	deducted := c.income.CapitalGain.Neg().OrZero() // line 2
	if deducted.IsZero() {
		return
	}
	short, long := c.termGains()
	income := c.AdjustedGrossIncome.Sub(money.Sum(c.StandardOrItemized, c.BusinessDeduction, c.ExtraDeductions)) // line 1
	used := money.Min(deducted, income.Add(deducted).OrZero())                                                   // line 4
	c.CarriedLosses.ShortTerm = short.Neg().Sub(used.Add(long.OrZero())).OrZero()                                // line 8
	left := used.Sub(short.Neg().OrZero()).OrZero()                                                              // line 11
	c.CarriedLosses.LongTerm = long.Neg().Sub(short.OrZero().Add(left)).OrZero()                                 // line 13
}

// termGains are the year's net short-term and long-term gains, with the losses
// that last year left.
//
// IRC 1212(b)(1), 1222(5) to (8); Schedule D lines 7 and 15.
func (c *computation) termGains() (short, long money.Amount) {
	in := &c.h.Income
	return in.ShortTermGain.Sub(in.CapitalLossCarryover.ShortTerm), in.LongTermGain.Sub(in.CapitalLossCarryover.LongTerm)
}
