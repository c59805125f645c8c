package tax

import (
	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/worksheet"
)

// payments are the credits for payroll taxes withheld beyond what a year owes,
// and what benefits withhold.
func (c *computation) payments() {
	c.excessSocialSecurity()
	c.additionalMedicareWithheld()
	c.benefitsWithheld()
}

// excessSocialSecurity is the excess withheld, as a payment of income tax.
//
// IRC 31(b); Schedule 3 line 11.
func (c *computation) excessSocialSecurity() {
	c.ExcessSocialSecurity = c.excessWithheld()
	if c.ExcessSocialSecurity.IsZero() {
		return
	}
	t := &c.y.SocialSecurityTax
	c.s.Add(worksheet.Line{
		ID:     "tax.excess_social_security",
		Form:   "Schedule 3 line 11",
		Amount: c.ExcessSocialSecurity,
		How:    c.how("excess_social", "rate", t.Rate, "base", t.WageBase.Amount, "most", t.WageBase.Amount.At(t.Rate)),
		From:   c.payAnswers(household.Wages),
		Source: c.cite("IRC 31(b), 6413(c)", t.Citation, t.WageBase.Citation),
	})
}

// excessWithheld is what two or more employers of one person together withheld
// of social security tax above the most that one person owes. What a single
// employer withheld too much is the employer's to give back.
//
// IRC 6413(c)(1); Instructions for Schedule 3, line 11.
func (c *computation) excessWithheld() money.Amount {
	most := c.y.SocialSecurityTax.WageBase.Amount.At(c.y.SocialSecurityTax.Rate)
	excess := money.Zero
	for _, e := range c.earners() {
		withheld := money.Zero
		for _, p := range c.pay {
			if p.Earner == e && p.Kind == household.Wages {
				withheld = withheld.Add(money.Min(p.SocialSecurityTax, most))
			}
		}
		excess = excess.Add(withheld.Sub(most).OrZero())
	}
	return excess.ToCent()
}

// additionalMedicareWithheld is what employers withheld of the additional
// Medicare tax; it counts as income tax withheld.
//
// IRC 31(c), 3102(f); Form 8959 line 24.
func (c *computation) additionalMedicareWithheld() {
	for _, p := range c.pay {
		if c.counts(p.Earner) {
			c.AdditionalMedicareWithheld = c.AdditionalMedicareWithheld.Add(p.AdditionalMedicareTax)
		}
	}
	if c.AdditionalMedicareWithheld.IsZero() {
		return
	}
	c.s.Add(worksheet.Line{
		ID:     "tax.additional_medicare_withheld",
		Form:   "Form 8959 line 24",
		Amount: c.AdditionalMedicareWithheld,
		How:    c.how("sum_of_jobs"),
		From:   c.payAnswers(household.Wages),
		Source: c.cite("IRC 31(c), 3102(f)", c.y.AdditionalMedicare.Citation),
	})
}
