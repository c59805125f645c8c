package tax

import (
	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/worksheet"
)

// earnerIDs tell the two earners' lines apart.
var earnerIDs = [2]string{".self", ".spouse"}

// businessIncome is the net profit of everyone on this return; a loss comes
// off.
//
// IRC 61(a)(2).
func (c *computation) businessIncome() {
	in := c.h.Income.SelfEmployment
	for _, e := range c.earners() {
		c.work[e].SelfEmploymentNet = in.Of(e)
	}
	net := c.work[household.OfSelf].SelfEmploymentNet.Add(c.work[household.OfSpouse].SelfEmploymentNet)
	c.income.SelfEmployment = net
	if in.Self.IsZero() && (in.Spouse.IsZero() || !c.h.Joint()) {
		return
	}
	c.total(worksheet.Line{
		ID:     "tax.business_income",
		Form:   "Schedule 1 line 3",
		Source: "IRC 61(a)(2)",
	},
		part{"income.self_employment.self", c.work[household.OfSelf].SelfEmploymentNet},
		part{"income.self_employment.spouse", c.work[household.OfSpouse].SelfEmploymentNet},
	)
}

// bothEarners are the earners of a joint return.
var bothEarners = [2]household.Earner{household.OfSelf, household.OfSpouse}

// earners are the people on this return.
func (c *computation) earners() []household.Earner {
	if c.h.Joint() {
		return bothEarners[:]
	}
	return bothEarners[:1]
}

// selfEmploymentTax is each earner's social security and Medicare tax on net
// earnings from self-employment, and what each has earned in all.
//
// IRC 1401(a), (b)(1); Schedule SE.
func (c *computation) selfEmploymentTax() {
	for _, e := range c.earners() {
		w := &c.work[e]
		c.earningsTax(e, w)
		w.HalfDeduction = w.SelfEmploymentTax.At(c.y.SelfEmployment.Deduction.Share)
		w.EarnedIncome = w.Wages.Add(w.SelfEmploymentNet).Sub(w.HalfDeduction)
	}
	self, spouse := c.work[household.OfSelf].SelfEmploymentTax, c.work[household.OfSpouse].SelfEmploymentTax
	if c.SelfEmploymentTax = self.Add(spouse); c.SelfEmploymentTax.IsZero() {
		return
	}
	c.total(worksheet.Line{
		ID:     "tax.self_employment_tax",
		Form:   "Schedule 2 line 4",
		Source: "IRC 1401",
	}, part{"tax.self_employment_tax.self", self}, part{"tax.self_employment_tax.spouse", spouse})
}

// earningsTax is one earner's self-employment tax: the social security part on
// net earnings up to the base that wages have left, the Medicare part on all.
// There is none on less than the least net earnings.
//
// IRC 1402(a)(12), net earnings; 1402(b), the base and the least; 1401(a),
// (b)(1), rates.
func (c *computation) earningsTax(e household.Earner, w *workParts) {
	r := &c.y.SelfEmployment
	earnings := w.SelfEmploymentNet.OrZero().At(r.NetEarnings.Factor)
	if earnings.Less(r.NetEarnings.AtLeast) || earnings.IsZero() {
		return
	}
	id := earnerIDs[e]
	w.NetEarnings = c.s.Add(worksheet.Line{
		ID:     "tax.net_earnings" + id,
		Form:   "Schedule SE line 6",
		Amount: earnings,
		How:    worksheet.Using("%v × %v", w.SelfEmploymentNet, r.NetEarnings.Factor),
		From:   []string{"income.self_employment" + id},
		Source: c.cite("IRC 1402(a)(12)", r.NetEarnings.Citation),
	})
	base := c.y.SocialSecurityTax.WageBase.Amount.Sub(w.SocialSecurityWages).OrZero()
	based := money.Min(earnings, base)
	w.SelfEmploymentTax = c.s.Add(worksheet.Line{
		ID:     "tax.self_employment_tax" + id,
		Form:   "Schedule SE line 12",
		Amount: based.At(r.SocialSecurityRate).Add(earnings.At(r.MedicareRate)),
		How:    worksheet.Using("%v × %v + %v × %v", based, r.SocialSecurityRate, earnings, r.MedicareRate),
		From:   append([]string{"tax.net_earnings" + id}, c.from(part{"tax.wages", w.SocialSecurityWages})...),
		Source: c.cite("IRC 1401(a), (b)(1), 1402(b)", r.Citation, c.y.SocialSecurityTax.WageBase.Citation),
	})
}

// halfSelfEmploymentTax is the adjustment for half of the self-employment tax.
//
// IRC 164(f).
func (c *computation) halfSelfEmploymentTax() {
	c.adjustments.HalfSelfEmployment = c.work[household.OfSelf].HalfDeduction.Add(c.work[household.OfSpouse].HalfDeduction)
	if c.SelfEmploymentTax.IsZero() {
		return
	}
	c.s.Add(worksheet.Line{
		ID:     "tax.half_self_employment_tax",
		Form:   "Schedule 1 line 15",
		Amount: c.adjustments.HalfSelfEmployment,
		How:    worksheet.Using("%v × %v", c.SelfEmploymentTax, c.y.SelfEmployment.Deduction.Share),
		From:   []string{"tax.self_employment_tax"},
		Source: c.cite("IRC 164(f)", c.y.SelfEmployment.Deduction.Citation),
	})
}
