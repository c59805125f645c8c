package tax

import (
	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/worksheet"
)

// limitedBusiness is the deduction for one business where taxable income is
// above the threshold. Amounts are dollars for the year.
type limitedBusiness struct {
	Income    money.Amount // qualified business income that counts, after the losses of the other business
	Limit     money.Amount // by wages and property
	Component money.Amount // what it adds to the deduction
}

// sum is what both businesses add to the deduction.
func (q *businessParts) sum() money.Amount { return q.Each[0].Component.Add(q.Each[1].Component) }

// limitBusinesses figures each earner's business where taxable income before
// the deduction is above the threshold. A specified service trade counts for
// the share of the phase-in range that is left, and not at all above it. A loss
// of one business lowers the income of the other. Then the share of income is
// held to the wages and property of the business: within the range by as much
// as the range is used up, above it in full.
//
// IRC 199A(b)(2), limits; (b)(3)(B), phase-in; (c)(2), Reg.
// 1.199A-1(d)(2)(iii), losses; (d)(3), specified service trades. Form 8995-A
// Parts II and III, Schedules A and C.
func (c *computation) limitBusinesses(q *businessParts, taxable money.Amount) {
	r := &c.y.BusinessIncome
	over := taxable.Sub(r.Threshold.Of(c.Status))
	used := over.Over(r.PhaseIn.Of(c.Status)).Capped()
	var wages, property [2]money.Amount
	lost, gained := money.Zero, money.Zero
	for _, e := range c.earners() {
		income, b := c.work[e].qualifiedIncome(), c.h.Income.Business.Of(e)
		switch {
		case b != nil && b.SpecifiedService != nil:
			wages[e], property[e] = b.Wages, b.Property
			if *b.SpecifiedService {
				income, wages[e], property[e] = income.Sub(income.At(used)), b.Wages.Sub(b.Wages.At(used)), b.Property.Sub(b.Property.At(used))
			}
		case income.IsPositive():
			q.Unknown = true
			income = money.Zero
		}
		q.Each[e].Income = income
		lost, gained = lost.Add(income.OrZero().Sub(income)), gained.Add(income.OrZero())
	}
	q.Income = gained.Sub(lost)
	for _, e := range c.earners() {
		b := &q.Each[e]
		if !b.Income.IsPositive() || !q.Income.IsPositive() {
			b.Income = money.Zero
			continue
		}
		b.Income = b.Income.Sub(lost.At(b.Income.Over(gained)))
		b.Limit = money.Max(wages[e].At(r.WagesShare), wages[e].At(r.WagesShareWithProperty).Add(property[e].At(r.PropertyShare)))
		full := b.Income.At(r.Rate)
		b.Component = full.Sub(full.Sub(b.Limit).OrZero().At(used))
	}
}

// traceLimits writes down what each business adds.
func (c *computation) traceLimits(q *businessParts) {
	r := &c.y.BusinessIncome
	for _, e := range c.earners() {
		b := &q.Each[e]
		if c.s == nil || b.Component.IsZero() {
			continue
		}
		key := "income.business." + household.Earner(e).String()
		c.s.Add(worksheet.Line{
			ID:     "tax.business_limit" + earnerIDs[e],
			Form:   "Form 8995-A line 15",
			Amount: b.Component,
			How:    c.how("business_limited", "rate", r.Rate, "income", b.Income, "limit", b.Limit),
			From:   []string{"income.self_employment" + earnerIDs[e], key},
			Source: c.cite("IRC 199A(b)(2), (3), (d)(3)", r.Citation),
		})
	}
}
