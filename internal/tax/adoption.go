package tax

import (
	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/worksheet"
)

// adoption is the nonrefundable part of the credit for adoptions; it leaves the
// refundable part to Form 1040 line 30. For each child it is what was paid, or
// for a child with special needs the whole of it, up to a cap, less the share
// that lies as far into the phase-out as the income does. Married people must
// file jointly, or have lived apart.
//
// IRC 23(a)(1), (a)(3), (a)(4), (b)(1), (b)(2), (c)(1), (f)(1); Form 8839 lines
// 2 to 16 (from memory). It comes after the child tax credit (IRC 23(c)(1); Schedule 8812,
// Credit Limit Worksheet B).
func (c *computation) adoption() money.Amount {
	if len(c.h.Credits.Adoption) == 0 {
		return money.Zero
	}
	if c.separate() && !c.h.LivedApart {
		c.note("adoption_separate")
		return money.Zero
	}
	r := &c.y.Adoption
	lost := c.AdjustedGrossIncome.Sub(r.PhaseOut.From).OrZero().Over(r.PhaseOut.To.Sub(r.PhaseOut.From)).Capped()
	all := money.Zero
	for _, a := range c.h.Credits.Adoption {
		credit := adoptionOf(a, r.Cap)
		credit = credit.Sub(credit.At(lost)).ToCent()
		all = all.Add(credit)
		c.credits.adoptionRefundable = c.credits.adoptionRefundable.Add(money.Min(credit, r.Refundable))
	}
	if all.IsZero() {
		return all
	}
	source := c.cite("IRC 23", r.Citation)
	c.s.Add(worksheet.Line{
		ID:     "tax.adoption_refundable",
		Form:   "Form 1040 line 30",
		Amount: c.credits.adoptionRefundable,
		How:    c.how("adoption_refundable", "all", all, "each", r.Refundable),
		From:   []string{"credits.adoption", "tax.adjusted_gross_income"},
		Source: source,
	})
	rest, left := all.Sub(c.credits.adoptionRefundable), c.credits.taxLeft
	taken := c.s.Add(worksheet.Line{
		ID:     "tax.adoption_credit",
		Form:   "Schedule 3 line 6c",
		Amount: c.take(rest),
		How:    c.how("adoption", "rest", rest, "left", left),
		From:   []string{"credits.adoption", "tax.adjusted_gross_income"},
		Source: source,
	})
	if over := rest.Sub(taken); over.IsPositive() {
		c.note("adoption_carryover", "over", over)
	}
	return taken
}

// adoptionOf is the credit for one child before its phase-out.
//
// IRC 23(a)(3), (b)(1).
func adoptionOf(a household.Adoption, most money.Amount) money.Amount {
	if a.SpecialNeeds {
		return most
	}
	return money.Min(a.Expenses, most)
}
