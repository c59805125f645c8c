package tax

import (
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/words"
	"example.com/plumbline/internal/worksheet"
)

// capitalGain nets the year's short- and long-term gains and losses with what
// last year's losses left. A net
// gain is income; a net loss comes off other income up to the limit, the rest
// being carried to next year.
//
// IRC 1222, netting; IRC 1211(b), limit; IRC 1212(b), what is carried. What next
// year begins with is carryLosses.
func (c *computation) capitalGain() {
	short, long := c.termGains()
	limit := c.y.CapitalLosses.Limit.Of(c.Status)
	if short.IsZero() && long.IsZero() {
		return
	}
	net := short.Add(long)
	l := worksheet.Line{
		ID:     "tax.capital_gain",
		Form:   "Form 1040 line 7a",
		Amount: money.Max(net, limit.Neg()),
		How:    c.how("gain", "short", short, "long", long),
		From:   c.gainAnswers(),
		Source: c.cite("IRC 1222", c.y.CapitalLosses.Citation),
	}
	if net.IsNegative() {
		l.Name = words.T("line.tax.capital_gain.loss")
	}
	if net.Less(limit.Neg()) {
		l.How = c.how("loss", "short", short, "long", long, "net", net, "limit", limit)
		c.note("capital_loss_carryover", "carried", net.Neg().Sub(limit))
	}
	c.income.CapitalGain = c.s.Add(l)
	c.income.NetCapitalGain = c.netCapitalGain()
}

// netCapitalGain is the part of the year's gains that has its own rates: the
// net long-term gain less a net short-term loss.
//
// IRC 1222(11); Schedule D lines 15 and 16, the smaller.
func (c *computation) netCapitalGain() money.Amount {
	short, long := c.termGains()
	amount := money.Min(long, long.Add(short)).OrZero()
	if amount.IsZero() {
		return amount
	}
	return c.s.Add(worksheet.Line{
		ID:     "tax.net_capital_gain",
		Form:   "Schedule D lines 15, 16",
		Amount: amount,
		How:    c.how("net_gain", "long", long, "loss", short.Neg().OrZero()),
		From:   c.gainAnswers(),
		Source: "IRC 1222(11)",
	})
}

// gainAnswers are the answers that gains and losses came from.
func (c *computation) gainAnswers() []string {
	in := &c.h.Income
	return c.from(
		part{"income.short_term_gain", in.ShortTermGain}, part{"income.long_term_gain", in.LongTermGain},
		part{"income.capital_loss_carryover.short_term", in.CapitalLossCarryover.ShortTerm},
		part{"income.capital_loss_carryover.long_term", in.CapitalLossCarryover.LongTerm},
	)
}
