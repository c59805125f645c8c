package tax

import (
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/worksheet"
)

// capitalGain nets the year's short- and long-term gains and losses. A net
// gain is income; a net loss comes off other income up to the limit, the rest
// being carried to next year.
//
// IRC 1222, netting; IRC 1211(b), limit; IRC 1212(b), what is carried.
func (c *computation) capitalGain() {
	in, limit := c.h.Income, c.y.CapitalLosses.Limit.Of(c.Status)
	if in.ShortTermGain.IsZero() && in.LongTermGain.IsZero() {
		return
	}
	net := in.ShortTermGain.Add(in.LongTermGain)
	l := worksheet.Line{
		ID:     "tax.capital_gain",
		Form:   "Form 1040 line 7a",
		Label:  "Capital gain",
		Amount: money.Max(net, limit.Neg()),
		How:    worksheet.Using("%v short-term + %v long-term", in.ShortTermGain, in.LongTermGain),
		From:   []string{"income.short_term_gain", "income.long_term_gain"},
		Source: c.cite("IRC 1222", c.y.CapitalLosses.Citation),
	}
	if net.IsNegative() {
		l.Label = "Capital loss, as far as it may be deducted"
	}
	if net.Less(limit.Neg()) {
		l.How = worksheet.Using("%v short-term + %v long-term = %v, no more than a loss of %v", in.ShortTermGain, in.LongTermGain, net, limit)
		c.s.Note("capital_loss_carryover", "Of the capital loss, %s cannot be deducted this year and is carried to the next.", net.Neg().Sub(limit).Grouped())
	}
	c.income.CapitalGain = c.s.Add(l)
	c.income.NetCapitalGain = c.netCapitalGain()
}

// netCapitalGain is the part of the year's gains that has its own rates: the
// net long-term gain less a net short-term loss.
//
// IRC 1222(11); Schedule D lines 15 and 16, the smaller.
func (c *computation) netCapitalGain() money.Amount {
	short, long := c.h.Income.ShortTermGain, c.h.Income.LongTermGain
	amount := money.Min(long, long.Add(short)).OrZero()
	if amount.IsZero() {
		return amount
	}
	return c.s.Add(worksheet.Line{
		ID:     "tax.net_capital_gain",
		Form:   "Schedule D lines 15 and 16, the smaller",
		Label:  "Net capital gain, within the capital gain",
		Amount: amount,
		How:    worksheet.Using("%v less a short-term loss of %v", long, short.Neg().OrZero()),
		From:   []string{"income.long_term_gain", "income.short_term_gain"},
		Source: "IRC 1222(11)",
	})
}
