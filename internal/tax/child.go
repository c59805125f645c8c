package tax

import (
	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/worksheet"
)

// childTaxCredit is an amount for each child and each other dependent, less a
// fixed amount for each step of adjusted gross income begun above the start, as
// far as the tax left allows. What no tax is left for goes on to the additional
// child tax credit.
//
// IRC 24(a), (b)(1), (h)(2) to (4); Schedule 8812 lines 4 to 14.
func (c *computation) childTaxCredit() money.Amount {
	for _, s := range c.dependents {
		switch {
		case s.ChildCredit:
			c.credits.children++
		case s.OtherCredit:
			c.credits.others++
		}
	}
	if c.credits.children+c.credits.others == 0 {
		return money.Zero
	}
	r := c.y.ChildCredit
	before := r.PerChild.Times(c.credits.children).Add(r.PerOther.Times(c.credits.others))
	start, lost := r.PhaseOut.From.Of(c.Status), c.childCreditLost()
	full := before.Sub(lost).OrZero()
	c.s.Add(worksheet.Line{
		ID:     "tax.child_tax_credit.full",
		Form:   "Schedule 8812 line 12",
		Amount: full,
		How:    c.how("child_credit", "children", c.credits.children, "each", r.PerChild, "others", c.credits.others, "other", r.PerOther, "lost", lost, "over", start),
		From:   append(c.dependentsFrom(func(s Standing) bool { return s.ChildCredit || s.OtherCredit }, "birth_date"), "tax.adjusted_gross_income"),
		Source: c.cite("IRC 24(a), (b)(1), (h)", r.Citation),
	})
	left := c.credits.taxLeft
	taken := c.s.Add(worksheet.Line{
		ID:     "tax.child_tax_credit",
		Form:   "Form 1040 line 19",
		Amount: c.take(full),
		How:    c.how("within_tax", "credit", full, "left", left),
		From:   []string{"tax.child_tax_credit.full"},
		Source: c.cite("IRC 26(a)", r.Citation),
	})
	c.credits.childUnused = full.Sub(taken)
	return taken
}

// childCreditLost is what the phase-out takes: a fixed amount for each step of
// adjusted gross income begun above the start.
//
// IRC 24(b)(1), 24(h)(3); Schedule 8812 lines 9 to 11.
func (c *computation) childCreditLost() money.Amount {
	p := c.y.ChildCredit.PhaseOut
	excess := c.AdjustedGrossIncome.Sub(p.From.Of(c.Status)).OrZero()
	return p.PerStep.Times(excess.StepsBegun(p.Step))
}

// additionalChildTaxCredit is the refundable part of the child tax credit: of
// the credit for which no tax was left, as much as a share of earned income
// above a floor, or for three or more children the payroll taxes beyond the
// earned income credit if that is more, up to a limit for each child.
//
// IRC 24(d)(1), 24(h)(5) and (6); Schedule 8812 Part II.
func (c *computation) additionalChildTaxCredit() money.Amount {
	r := c.y.ChildCredit
	most := money.Min(c.credits.childUnused, r.RefundableCap.Times(c.credits.children))
	if !most.IsPositive() {
		return money.Zero
	}
	earned := c.earnedIncome()
	base := earned.Sub(r.EarnedFloor).OrZero().At(r.EarnedRate)
	how := c.how("additional_child", "rate", r.EarnedRate, "earned", earned, "floor", r.EarnedFloor, "most", most)
	if c.credits.children >= r.ManyChildren {
		if payroll := c.payrollTaxes().Sub(c.EarnedIncomeCredit).Sub(c.excessWithheld()).OrZero(); payroll.More(base) {
			base = payroll
			how = c.how("payroll_taxes", "taxes", payroll, "most", most)
		}
	}
	credit := money.Min(base, most).ToCent()
	if credit.IsZero() {
		return credit
	}
	return c.s.Add(worksheet.Line{
		ID:     "tax.additional_child_tax_credit",
		Form:   "Form 1040 line 28",
		Amount: credit,
		How:    how,
		From:   c.earnedFrom("tax.child_tax_credit.full", "tax.child_tax_credit"),
		Source: c.cite("IRC 24(d), (h)(5), (h)(6)", r.Citation),
	})
}

// payrollTaxes are the social security and Medicare taxes of everyone on the
// return: the employee's share on wages, and half of the tax on
// self-employment; the additional Medicare tax as owed, not as withheld.
//
// IRC 24(d)(2); Schedule 8812 lines 21 and 22.
func (c *computation) payrollTaxes() money.Amount {
	sum := money.Zero
	for _, p := range c.pay {
		if p.Kind == household.Wages && c.counts(p.Earner) {
			sum = sum.Add(p.SocialSecurityTax).Add(p.MedicareTax)
		}
	}
	onWages, onSelfEmployment := c.additionalMedicareParts()
	return money.Sum(sum, c.adjustments.HalfSelfEmployment, onWages, onSelfEmployment.DividedBy(2))
}
