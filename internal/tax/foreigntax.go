package tax

import (
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/worksheet"
)

// foreignTax is the credit for taxes paid abroad on dividends and interest, up
// to the limit that needs no form, against the regular tax alone. It changes no
// minimum tax: it lowers the tentative tax by as much as the regular one (Form
// 6251 lines 8 and 10).
//
// IRC 27, 901(a), 904(j); Schedule 3 line 1.
func (c *computation) foreignTax() money.Amount {
	paid, r := c.h.Credits.ForeignTax, &c.y.ForeignTax
	if !paid.IsPositive() {
		return money.Zero
	}
	limit, tax := r.WithoutUp.Of(c.Status), c.IncomeTax.Add(c.ExcessAdvance)
	if paid.More(limit) {
		c.note("foreign_tax_above_limit", "limit", limit)
	}
	return c.s.Add(worksheet.Line{
		ID:     "tax.foreign_tax_credit",
		Form:   "Schedule 3 line 1",
		Amount: c.take(money.Min(paid, limit, tax)),
		How:    c.how("foreign_tax", "paid", paid, "limit", limit, "tax", tax),
		From:   []string{"credits.foreign_tax", "tax.income_tax"},
		Source: c.cite("IRC 904(j)", r.Citation),
	})
}
