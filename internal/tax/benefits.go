package tax

import (
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/worksheet"
)

// benefitsWorksheet is the Social Security Benefits Worksheet of the
// Instructions for Form 1040, without exclusions, which are not in the answers.
// Amounts are dollars for the year.
type benefitsWorksheet struct {
	Half         money.Amount // half of the benefits
	Income       money.Amount // that and the other income, less the adjustments
	OverBase     money.Amount // Income above the base amount
	OverAdjusted money.Amount // Income above the adjusted base amount
	Lower        money.Amount // taxed at the lower rate
	Upper        money.Amount // taxed at the upper rate, beside Lower
	Most         money.Amount // no more of the benefits is taxed
	Taxable      money.Amount
}

// benefits is the taxable part of social security benefits: none up to the
// base amount; above it half of the excess, at most half of the benefits;
// above the adjusted base amount 85% of that excess besides, at most 85% of
// the benefits. Separate filers have no base amount unless they lived apart
// all year. Student loan interest is no adjustment here.
//
// IRC 86(a), what is taxed; 86(b)(2), modified adjusted gross income, with
// tax-exempt interest; 86(c), base amounts.
func (c *computation) benefits() {
	in := &c.income
	in.Benefits = c.given("tax.benefits", "Form 1040 line 6a", "income.social_security", "IRC 86(d)", c.h.Benefits())
	if !in.Benefits.IsPositive() {
		return
	}
	other := in.beforeBenefits().Add(c.h.Income.TaxExemptInterest)
	adjustments := c.adjustments.beforeStudentLoan()
	base, adjusted := c.benefitsBases()
	w := c.taxBenefits(other, adjustments, base, adjusted)
	source := c.cite("IRC 86; Instructions for Form 1040, Social Security Benefits Worksheet", c.y.Benefits.Citation)
	c.s.Add(worksheet.Line{
		ID:     "tax.benefits_income",
		Amount: w.Income,
		How:    c.how("benefits_income", "half", w.Half, "other", other, "adjustments", adjustments),
		From:   c.benefitsFrom(),
		Source: source,
	})
	l := worksheet.Line{
		ID:     "tax.taxable_benefits",
		Form:   "Form 1040 line 6b",
		Amount: w.Taxable,
		How:    c.how("benefits_none", "income", w.Income, "base", base),
		From:   []string{"tax.benefits", "tax.benefits_income"},
		Source: source,
	}
	if w.OverBase.IsPositive() {
		l.How = c.how("benefits", "lower", w.Lower, "base", base, "upper", w.Upper, "adjusted", adjusted, "rate", c.y.Benefits.UpperRate, "most", w.Most)
	}
	in.TaxableBenefits = c.s.Add(l)
	if c.separate() && !c.h.LivedApart {
		c.note("benefits_lived_together")
	}
}

// benefitsFrom are the lines of the income that decides how much is taxed.
func (c *computation) benefitsFrom() []string {
	if c.s == nil {
		return nil
	}
	from := []string{"tax.benefits"}
	for _, p := range c.income.parts() {
		if p.id != "tax.taxable_benefits" {
			from = append(from, c.from(p)...)
		}
	}
	from = append(from, c.from(part{"tax.tax_exempt_interest", c.h.Income.TaxExemptInterest})...)
	return append(from, c.from(c.otherThanStudentLoan()...)...)
}

// benefitsBases are the base amount and the adjusted base amount.
//
// IRC 86(c)(1) and (2).
func (c *computation) benefitsBases() (base, adjusted money.Amount) {
	b := &c.y.Benefits
	if c.separate() && c.h.LivedApart {
		return b.ApartBase, b.ApartAdjustedBase
	}
	return b.Base.Of(c.Status), b.AdjustedBase.Of(c.Status)
}

// taxBenefits goes through the worksheet.
func (c *computation) taxBenefits(other, adjustments, base, adjusted money.Amount) benefitsWorksheet {
	b, benefits := &c.y.Benefits, c.income.Benefits
	var w benefitsWorksheet
	w.Half = benefits.At(b.LowerRate)
	w.Income = w.Half.Add(other).Sub(adjustments)
	w.OverBase = w.Income.Sub(base).OrZero()
	w.OverAdjusted = w.Income.Sub(adjusted).OrZero()
	w.Lower = money.Min(w.OverBase.Sub(w.OverAdjusted).At(b.LowerRate), w.Half)
	w.Upper = w.OverAdjusted.At(b.UpperRate)
	w.Most = benefits.At(b.UpperRate)
	w.Taxable = money.Min(w.Lower.Add(w.Upper), w.Most)
	return w
}
