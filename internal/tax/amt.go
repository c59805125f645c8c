package tax

import (
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/worksheet"
)

// minimumTax is what the tentative minimum tax comes to above the income tax.
//
// IRC 55(a); Form 6251 lines 7 to 11.
func (c *computation) minimumTax() {
	income := c.minimumTaxIncome()
	base := income.Sub(c.minimumTaxExemption(income)).OrZero()
	tentative := c.tentativeTax(base)
	c.AlternativeMinimumTax = tentative.Sub(c.IncomeTax).OrZero()
	if c.AlternativeMinimumTax.IsZero() {
		return // nothing to show: the income tax is the larger
	}
	source := c.cite("IRC 55, 56(b)(1)", c.y.AMT.Citation)
	c.s.Add(worksheet.Line{
		ID:     "tax.amt.income",
		Form:   "Form 6251 line 4",
		Label:  "Alternative minimum taxable income",
		Amount: income,
		How:    worksheet.Using("taxable income without the standard deduction, state and local taxes and the senior deduction"),
		From:   []string{"tax.taxable_income"},
		Source: source,
	})
	c.s.Add(worksheet.Line{
		ID:     "tax.amt.base",
		Form:   "Form 6251 line 6",
		Label:  "Minimum tax income above the exemption",
		Amount: base,
		How:    worksheet.Using("%v - %v", income, income.Sub(base)),
		From:   []string{"tax.amt.income"},
		Source: source,
	})
	c.s.Add(worksheet.Line{
		ID:     "tax.amt.tentative",
		Form:   "Form 6251 line 9",
		Label:  "Tentative minimum tax",
		Amount: tentative,
		How:    worksheet.Using("%v and %v above %v, capital gains at their own rates", c.y.AMT.LowerRate, c.y.AMT.UpperRate, c.y.AMT.UpperOver.Of(c.Status)),
		From:   []string{"tax.amt.base"},
		Source: source,
	})
	c.s.Add(worksheet.Line{
		ID:     "tax.alternative_minimum_tax",
		Form:   "Schedule 2 line 2",
		Label:  "Alternative minimum tax",
		Amount: c.AlternativeMinimumTax,
		How:    worksheet.Using("%v - %v", tentative, c.IncomeTax),
		From:   []string{"tax.amt.tentative", "tax.income_tax"},
		Source: source,
	})
}

// minimumTaxIncome is taxable income, below zero if the deductions are more
// than the income, figured without the standard deduction, without state and
// local taxes where they are itemized, without the overall limit on itemized
// deductions, and without deductions of IRC 151. The deduction for seniors is
// in IRC 151(d)(5)(C) and so is added back; the other deductions of Schedule
// 1-A, qualified business income (IRC 199A(f)(2)) and gifts stand.
//
// A separate filer adds back the phase-out's share of what lies above the
// income that leaves no exemption, up to the exemption.
//
// IRC 55(b)(2), 55(d)(3), 56(b)(1); Form 6251 lines 1 to 4.
func (c *computation) minimumTaxIncome() money.Amount {
	d := c.deductions
	income := c.AdjustedGrossIncome.Sub(c.ExtraDeductions).Sub(c.BusinessDeduction).Add(d.Senior)
	if c.Itemized {
		income = income.Sub(c.StandardOrItemized).Add(d.StateLocal).Sub(d.OverallReduction)
	}
	if c.separate() {
		exemption := c.y.AMT.Exemption.Of(c.Status)
		beyond := c.exemptionLost(income).Sub(exemption).OrZero()
		income = income.Add(money.Min(exemption, beyond))
	}
	return income
}

// minimumTaxExemption is the exemption, less a share of the income above a
// threshold.
//
// IRC 55(d); Form 6251 line 5.
func (c *computation) minimumTaxExemption(income money.Amount) money.Amount {
	return c.y.AMT.Exemption.Of(c.Status).Sub(c.exemptionLost(income)).OrZero()
}

// exemptionLost is the share of the income above the threshold by which the
// exemption falls; it may be more than the exemption.
//
// IRC 55(d)(3), 55(d)(4)(A)(ii).
func (c *computation) exemptionLost(income money.Amount) money.Amount {
	a := c.y.AMT
	return income.Sub(a.PhaseOutFrom.Of(c.Status)).OrZero().At(a.PhaseOutRate)
}

// tentativeTax taxes the base at the two rates, with capital gains and
// qualified dividends kept at the rates they have in the income tax, where that
// comes to less.
//
// IRC 55(b)(1), 55(b)(3); Form 6251 line 7 and Part III.
func (c *computation) tentativeTax(base money.Amount) money.Amount {
	flat := c.minimumRates(base)
	preferred := c.income.Preferred()
	if !preferred.IsPositive() || !base.IsPositive() {
		return flat.ToCent()
	}
	g := c.y.CapitalGains
	ordinary := c.TaxableIncome.Sub(preferred).OrZero() // of the income tax, which sets where the rates change
	gains := money.Min(base, preferred)
	roomAtZero := g.ZeroTop.Of(c.Status).Sub(ordinary).OrZero()
	zero := money.Min(gains, roomAtZero)
	middle := money.Min(gains.Sub(zero), g.MiddleTop.Of(c.Status).Sub(ordinary.Add(roomAtZero)).OrZero())
	top := gains.Sub(zero).Sub(middle)
	tax := c.minimumRates(base.Sub(gains)).Add(middle.At(g.MiddleRate)).Add(top.At(g.TopRate))
	return money.Min(flat, tax).ToCent()
}

// minimumRates is the lower rate, and above a threshold the upper rate.
//
// IRC 55(b)(1)(A); Form 6251 lines 18 and 39.
func (c *computation) minimumRates(base money.Amount) money.Amount {
	a := c.y.AMT
	over := base.Sub(a.UpperOver.Of(c.Status)).OrZero()
	return base.Sub(over).At(a.LowerRate).Add(over.At(a.UpperRate))
}
