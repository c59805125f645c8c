package tax

import (
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/worksheet"
)

// minimumTax is what the tentative minimum tax comes to above the regular tax:
// the income tax and what is paid back of the premium tax credit's advance.
//
// IRC 55(a), 55(c)(1), 26(b); Form 6251 lines 7 to 11.
func (c *computation) minimumTax() {
	parts := c.minimumTaxParts()
	income, how := c.sum(parts...)
	exemption := c.minimumTaxExemption(income)
	base := income.Sub(exemption).OrZero()
	tentative := c.tentativeTax(base)
	regular := c.IncomeTax.Add(c.ExcessAdvance)
	c.AlternativeMinimumTax = tentative.Sub(regular).OrZero()
	if c.AlternativeMinimumTax.IsZero() {
		return // nothing to show: the income tax is the larger
	}
	source := c.cite("IRC 55, 56(b)(1)", c.y.AMT.Citation)
	c.s.Add(worksheet.Line{
		ID:     "tax.amt.income",
		Form:   "Form 6251 line 4",
		Amount: income,
		How:    how,
		From:   c.from(parts...),
		Source: source,
	})
	c.s.Add(worksheet.Line{
		ID:     "tax.amt.base",
		Form:   "Form 6251 line 6",
		Amount: base,
		How:    worksheet.Using("%v − %v", income, exemption),
		From:   []string{"tax.amt.income"},
		Source: source,
	})
	a := &c.y.AMT
	c.s.Add(worksheet.Line{
		ID:     "tax.amt.tentative",
		Form:   "Form 6251 line 9",
		Amount: tentative,
		How:    c.how("minimum_rates", "lower", a.LowerRate, "upper", a.UpperRate, "over", a.UpperOver.Of(c.Status)),
		From:   []string{"tax.amt.base"},
		Source: source,
	})
	c.s.Add(worksheet.Line{
		ID:     "tax.alternative_minimum_tax",
		Form:   "Schedule 2 line 2",
		Amount: c.AlternativeMinimumTax,
		How:    worksheet.Using("%v − %v", tentative, regular),
		From:   append([]string{"tax.amt.tentative", "tax.income_tax"}, c.from(part{"tax.excess_advance", c.ExcessAdvance})...),
		Source: source,
	})
}

// minimumTaxParts make up alternative minimum taxable income: adjusted gross
// income less the deductions that the minimum tax allows too. It allows no
// standard deduction, no state and local taxes among those itemized, no overall
// limit on itemized deductions, and no deduction of IRC 151, to which the
// deduction for seniors belongs (IRC 151(d)(5)(C)). It allows the other deductions of
// Schedule 1-A, that for qualified business income (IRC 199A(f)(2)) and gifts.
//
// IRC 55(b)(2), 56(b)(1); Form 6251 lines 1 to 4.
func (c *computation) minimumTaxParts() []part {
	d := &c.deductions
	parts := []part{
		{"tax.adjusted_gross_income", c.AdjustedGrossIncome},
		{"tax.business_deduction", c.BusinessDeduction.Neg()},
		{"tax.extra_deductions", c.ExtraDeductions.Neg()},
		{"tax.senior", d.Senior},
	}
	if c.Itemized {
		parts = append(parts,
			part{"tax.deduction", c.StandardOrItemized.Neg()},
			part{"tax.itemized.state_local_taxes", d.StateLocal},
			part{"tax.itemized.overall_limit", d.OverallReduction.Neg()},
		)
	}
	if c.separate() {
		income, _ := c.sum(parts...)
		parts = append(parts, part{"filing_status", c.separateAddition(income)})
	}
	return parts
}

// separateAddition is what a separate filer adds to the income: the phase-out's
// share of what lies above the income that leaves no exemption, up to the
// exemption.
//
// IRC 55(d)(3), last sentence; Instructions for Form 6251, line 4.
func (c *computation) separateAddition(income money.Amount) money.Amount {
	exemption := c.y.AMT.Exemption.Of(c.Status)
	return money.Min(exemption, c.exemptionLost(income).Sub(exemption).OrZero())
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
