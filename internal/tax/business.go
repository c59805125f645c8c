package tax

import (
	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/worksheet"
)

// businessParts are the qualified business income deduction in the making.
// Amounts are dollars for the year.
type businessParts struct {
	Income    money.Amount // qualified business income of everyone on the return; negative: a loss
	Limit     money.Amount // a share of taxable income before the deduction, less net capital gain
	Above     bool         // taxable income is above the threshold: wages, property and the kind of business count
	Unknown   bool         // they count, and are not known
	Each      [2]limitedBusiness
	Least     bool // the minimum deduction counts
	Deduction money.Amount
}

// qualifiedBusiness figures the deduction from taxable income before it: a
// share of qualified business income, all businesses together, but no more than that
// share of taxable income less net capital gain and qualified dividends. From
// 2026, one with enough of it has at least a minimum. Above the threshold wages,
// property and the kind of business decide (businesslimit.go).
//
// IRC 199A(a), (b)(2), (c), (e)(1), (e)(2); (i), the minimum. Form 8995.
func (c *computation) qualifiedBusiness(taxable money.Amount) businessParts {
	r := &c.y.BusinessIncome
	var q businessParts
	for _, e := range c.earners() {
		q.Income = q.Income.Add(c.work[e].qualifiedIncome())
	}
	full := q.Income.At(r.Rate)
	if q.Above = taxable.More(r.Threshold.Of(c.Status)); q.Above {
		c.limitBusinesses(&q, taxable)
		full = q.sum()
	}
	if !q.Income.IsPositive() {
		return q
	}
	q.Limit = taxable.Sub(c.income.Preferred()).OrZero().At(r.Rate)
	q.Deduction = money.Min(full, q.Limit)
	if r.Least.IsPositive() && !q.Income.Less(r.LeastRequires) && q.Deduction.Less(r.Least) {
		q.Deduction, q.Least = r.Least, true
	}
	return q
}

// qualifiedIncome is the net profit of one earner's business less the
// deductions that belong to it: half of the self-employment tax, the owner's
// retirement plan and health insurance.
//
// IRC 199A(c)(1); Reg. 1.199A-3(b)(1)(vi).
func (w *workParts) qualifiedIncome() money.Amount {
	return w.SelfEmploymentNet.Sub(money.Sum(w.HalfDeduction, w.RetirementDeduction, w.HealthDeduction))
}

// businessDeduction takes the qualified business income deduction.
//
// IRC 199A; Form 1040 line 13a.
func (c *computation) businessDeduction() {
	r := &c.y.BusinessIncome
	taxable := c.AdjustedGrossIncome.Sub(c.StandardOrItemized).Sub(c.scheduleOneA()).Sub(c.deductions.GiftsNotItemized)
	if c.Itemized { // as if IRC 68 did not exist
		taxable = taxable.Sub(c.deductions.OverallReduction)
	}
	q := c.qualifiedBusiness(taxable)
	if q.Unknown {
		c.cautionAboveThreshold(taxable)
	}
	if q.Income.IsNegative() {
		c.note("qbi_loss_carryover")
	}
	if !q.Income.IsPositive() || q.Above && q.Deduction.IsZero() {
		return
	}
	if q.Above {
		c.traceLimits(&q)
	}
	l := worksheet.Line{
		ID:     "tax.business_deduction",
		Form:   "Form 1040 line 13a",
		Amount: q.Deduction,
		How:    c.how("business", "rate", r.Rate, "income", q.Income, "share", r.Rate, "taxable", taxable.OrZero(), "gain", c.income.Preferred()),
		From: c.from(
			part{"tax.business_income", c.income.SelfEmployment},
			part{"tax.half_self_employment_tax", c.adjustments.HalfSelfEmployment},
			part{"tax.self_employed_retirement.self", c.work[household.OfSelf].RetirementDeduction},
			part{"tax.self_employed_retirement.spouse", c.work[household.OfSpouse].RetirementDeduction},
			part{"tax.self_employed_health.self", c.work[household.OfSelf].HealthDeduction},
			part{"tax.self_employed_health.spouse", c.work[household.OfSpouse].HealthDeduction},
			part{"tax.adjusted_gross_income", c.AdjustedGrossIncome},
			part{"tax.deduction", c.StandardOrItemized},
			part{"tax.net_capital_gain", c.income.NetCapitalGain},
			part{"tax.qualified_dividends", c.income.QualifiedDividends},
		),
		Source: c.cite("IRC 199A(a), (i)", r.Citation),
	}
	if q.Above {
		l.How = c.how("business_limits", "income", q.sum(), "share", r.Rate, "taxable", taxable, "gain", c.income.Preferred())
		for _, e := range c.earners() {
			l.From = append(l.From, c.from(part{"tax.business_limit" + earnerIDs[e], q.Each[e].Component})...)
		}
	}
	if q.Least {
		l.How = c.how("business_least", "least", r.Least, "income", q.Income)
		c.note("qbi_minimum")
	}
	c.BusinessDeduction = c.s.Add(l)
}

// cautionAboveThreshold asks for what decides where the answers do not say.
//
// IRC 199A(b)(3), (d)(3).
func (c *computation) cautionAboveThreshold(taxable money.Amount) {
	c.note("qbi_above_threshold", "income", taxable, "threshold", c.y.BusinessIncome.Threshold.Of(c.Status))
}
