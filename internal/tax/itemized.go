package tax

import (
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/worksheet"
)

// scheduleA is the itemized deductions, each within its own limits, and then
// all of them within the overall one.
//
// IRC 63(d); Schedule A.
func (c *computation) scheduleA() {
	d, in := &c.deductions, &c.h.Deductions
	if money.Sum(in.Medical, in.StateLocalTaxes, in.MortgageInterest, in.MortgageInsurance, in.CharityCash, in.CharityOther, in.GamblingLosses, in.OtherItemized).IsZero() {
		return
	}
	c.medical()
	c.stateLocalTaxes()
	c.mortgage()
	c.gifts()
	c.gamblingLosses()
	d.OtherItemized = c.given("tax.itemized.other", "Schedule A line 16", "deductions.other_itemized", "IRC 63(d)", in.OtherItemized)
	all := []part{
		{"tax.itemized.medical", d.Medical},
		{"tax.itemized.state_local_taxes", d.StateLocal},
		{"tax.itemized.mortgage", d.Mortgage},
		{"tax.itemized.gifts", d.Gifts},
		{"tax.itemized.gambling_losses", d.GamblingLosses},
		{"tax.itemized.other", d.OtherItemized},
	}
	c.overallLimit(sumOf(all))
	d.Itemized = c.total(worksheet.Line{
		ID:     "tax.itemized",
		Form:   "Schedule A line 17",
		Source: "IRC 63(d)",
	}, append(all, part{"tax.itemized.overall_limit", d.OverallReduction.Neg()})...)
}

// medical is medical expenses above a share of adjusted gross income.
//
// IRC 213(a); Schedule A lines 1 to 4.
func (c *computation) medical() {
	paid, m := c.h.Deductions.Medical, &c.y.Itemized.Medical
	if !paid.IsPositive() {
		return
	}
	floor := c.AdjustedGrossIncome.OrZero().At(m.Floor)
	c.deductions.Medical = c.s.Add(worksheet.Line{
		ID:     "tax.itemized.medical",
		Form:   "Schedule A line 4",
		Amount: paid.Sub(floor).OrZero(),
		How:    c.how("medical", "paid", paid, "rate", m.Floor, "floor", floor),
		From:   []string{"deductions.medical", "tax.adjusted_gross_income"},
		Source: c.cite("IRC 213(a)", m.Citation),
	})
}

// stateLocalTaxes are state and local taxes up to a cap, which falls by a
// share of high income, down to a least cap.
//
// IRC 164(b)(6), cap; (b)(7)(B), its fall by modified adjusted gross income,
// here adjusted gross income.
func (c *computation) stateLocalTaxes() {
	paid, t := c.h.Deductions.StateLocalTaxes, &c.y.Itemized.StateLocal
	if !paid.IsPositive() {
		return
	}
	full, from, least := t.Cap.Of(c.Status), t.PhaseFrom.Of(c.Status), t.AtLeast.Of(c.Status)
	over := c.AdjustedGrossIncome.Sub(from).OrZero()
	most := money.Max(full.Sub(over.At(t.PhaseRate)), least)
	c.deductions.StateLocal = c.s.Add(worksheet.Line{
		ID:     "tax.itemized.state_local_taxes",
		Form:   "Schedule A line 5e",
		Amount: money.Min(paid, most),
		How:    c.how("state_local", "paid", paid, "most", most, "cap", full, "rate", t.PhaseRate, "over", from, "least", least),
		From:   []string{"deductions.state_local_taxes", "tax.adjusted_gross_income"},
		Source: c.cite("IRC 164(b)(6), (7)", t.Citation),
	})
}

// mortgage is home mortgage interest within the debt limit, and mortgage
// insurance premiums in the years whose law allows them.
//
// IRC 163(h)(3).
func (c *computation) mortgage() {
	paid := c.mortgageInterest()
	c.MortgageInterest = paid
	premiums := c.mortgageInsurance()
	c.deductions.Mortgage = paid.Add(premiums)
	if c.deductions.Mortgage.IsZero() {
		return
	}
	interest := "deductions.mortgage_interest"
	if !paid.Equal(c.h.Deductions.MortgageInterest) {
		interest = "tax.itemized.mortgage_interest"
	}
	c.total(worksheet.Line{
		ID:     "tax.itemized.mortgage",
		Form:   "Schedule A line 8e",
		Source: "IRC 163(h)(3)",
	}, part{interest, paid}, part{"tax.itemized.mortgage_insurance", premiums})
}

// mortgageInsurance is the part of mortgage insurance premiums that counts as
// interest: a share of them is lost for each step of income begun.
//
// IRC 163(h)(3)(E), from 2026.
func (c *computation) mortgageInsurance() money.Amount {
	paid, m := c.h.Deductions.MortgageInsurance, c.y.Itemized.MortgageInsurance
	switch {
	case !paid.IsPositive():
		return money.Zero
	case m == nil:
		c.note("mortgage_insurance_not_deductible", "year", c.Year)
		return money.Zero
	}
	from := m.PhaseFrom.Of(c.Status)
	steps := c.AdjustedGrossIncome.Sub(from).OrZero().StepsBegun(m.Step.Of(c.Status))
	share := m.PerStep.Times(steps).Capped()
	return c.s.Add(worksheet.Line{
		ID:     "tax.itemized.mortgage_insurance",
		Form:   "Schedule A line 8d",
		Amount: paid.Sub(paid.At(share)),
		How:    c.how("mortgage_insurance", "paid", paid, "share", share, "steps", steps, "over", from),
		From:   []string{"deductions.mortgage_insurance", "tax.adjusted_gross_income"},
		Source: c.cite("IRC 163(h)(3)(E)", m.Citation),
	})
}

// gifts are gifts to charity: cash up to a share of income, then property up
// to a smaller share of which the cash has used its part, and of both only
// what lies above the floor. Adjusted gross income stands for the contribution
// base; the rest is carried to later years.
//
// IRC 170(b)(1)(A), property; (b)(1)(G), cash and its coordination with (A);
// (b)(1)(I), the floor from 2026, on what is otherwise allowed.
func (c *computation) gifts() {
	cash, property := c.h.Deductions.CharityCash, c.h.Deductions.CharityOther
	given := cash.Add(property)
	if given.IsZero() {
		return
	}
	r, base := &c.y.Charity, c.AdjustedGrossIncome.OrZero()
	cash = money.Min(cash, base.At(r.CashLimit))
	property = money.Min(property, base.At(r.OtherLimit).Sub(cash).OrZero())
	floor := base.At(r.Floor)
	c.deductions.Gifts = c.s.Add(worksheet.Line{
		ID:     "tax.itemized.gifts",
		Form:   "Schedule A line 14",
		Amount: cash.Add(property).Sub(floor).OrZero(),
		How:    c.how("gifts", "cash", cash, "property", property, "cash_limit", r.CashLimit, "other_limit", r.OtherLimit, "floor", floor),
		From:   []string{"deductions.charity_cash", "deductions.charity_other", "tax.adjusted_gross_income"},
		Source: c.cite("IRC 170(b)(1)", r.Citation),
	})
	if over := given.Sub(cash).Sub(property); over.IsPositive() {
		c.note("gifts_carryover", "over", over)
	}
}

// overallLimit lowers itemized deductions at the top rate: by a fraction of
// them or, if less, of what income without them lies above the start of the
// top bracket. It comes after every other limit, and the qualified business
// income deduction is figured as if it did not exist.
//
// IRC 68(a), (b); 199A(e)(1). None before 2026.
func (c *computation) overallLimit(itemized money.Amount) {
	o := c.y.Itemized.Overall
	if o == nil {
		return
	}
	from := o.Over.Of(c.Status)
	income := c.AdjustedGrossIncome.Sub(c.scheduleOneA())
	income = income.Sub(c.qualifiedBusiness(income.Sub(itemized)).Deduction)
	over := income.Sub(from)
	if !over.IsPositive() {
		return
	}
	limited := money.Min(itemized, over)
	c.deductions.OverallReduction = c.s.Add(worksheet.Line{
		ID:     "tax.itemized.overall_limit",
		Amount: limited.Times(o.Numerator).DividedBy(o.Denominator),
		How:    c.how("overall", "numerator", o.Numerator, "denominator", o.Denominator, "itemized", itemized, "over", over, "from", from),
		From:   []string{"tax.adjusted_gross_income"},
		Source: c.cite("IRC 68", o.Citation),
	})
}
