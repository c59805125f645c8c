package tax

import (
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/worksheet"
)

// mortgageInterest is the interest of home loans up to a debt: of larger loans,
// the share that the limit is of their average balance. Loans of both times
// together have a limit of their own, which is not figured.
//
// IRC 163(h)(3)(B)(ii), (F)(i), (F)(iii) for loans from before December 16,
// 2017; Publication 936, Table 1.
func (c *computation) mortgageInterest() money.Amount {
	de, r := &c.h.Deductions, &c.y.MortgageDebt
	paid, balance := de.MortgageInterest, de.MortgageBalance
	if !paid.IsPositive() {
		return paid
	}
	limit := r.Limit.Of(c.Status)
	if de.MortgageBefore {
		limit = r.Before.Of(c.Status)
	}
	if balance.IsZero() {
		c.note("mortgage_debt_limit", "limit", limit)
		return paid
	}
	if !balance.More(limit) {
		return paid
	}
	return c.s.Add(worksheet.Line{
		ID:     "tax.itemized.mortgage_interest",
		Form:   "Publication 936, Table 1 line 15",
		Amount: paid.At(limit.Over(balance)).ToCent(),
		How:    worksheet.Using("%v × %v ÷ %v", paid, limit, balance),
		From:   []string{"deductions.mortgage_interest", "deductions.mortgage_balance"},
		Source: c.cite("IRC 163(h)(3)(F)", r.Citation),
	})
}
