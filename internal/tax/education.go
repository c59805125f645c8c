package tax

import (
	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/worksheet"
)

// education is the nonrefundable part of the two education credits; it leaves
// the refundable part of the American opportunity credit to Form 1040 line 29.
// Separate filers, those who can be claimed by another, and from 2026 those
// without a social security number valid for work have neither.
//
// IRC 25A(a), 25A(g)(1), (3) and (6), 25A(i); Form 8863.
func (c *computation) education() money.Amount {
	if len(c.h.Credits.Education) == 0 {
		return money.Zero
	}
	share, wholeOpportunity, wholeLifetime := c.educationShare(), c.opportunity(), c.lifetime()
	opportunity, lifetime := wholeOpportunity.At(share), wholeLifetime.At(share)
	if opportunity.Add(lifetime).IsZero() || claimable(&c.h) || c.educationNeedsNumber() {
		return money.Zero
	}
	refundable := c.opportunityRefundable(opportunity)
	full := opportunity.Sub(refundable).Add(lifetime)
	left := c.credits.taxLeft
	return c.s.Add(worksheet.Line{
		ID:     "tax.education_credits",
		Form:   "Schedule 3 line 3",
		Amount: c.take(full),
		How:    c.how("education", "opportunity", wholeOpportunity, "share", share.ToPlaces(5), "lifetime", wholeLifetime, "lifetime_share", share.ToPlaces(5), "refundable", refundable, "left", left),
		From:   []string{"credits.education", "tax.adjusted_gross_income"},
		Source: c.cite("IRC 25A", c.y.Education.Citation),
	})
}

// educationNeedsNumber reports whether the year asks for a taxpayer's social
// security number and nobody on the return has one. The students' numbers are
// not asked for.
//
// IRC 25A(g)(1), P.L. 119-21 sec. 70606.
func (c *computation) educationNeedsNumber() bool {
	return c.y.Education.TaxpayerSSN && !anyNumber(&c.h)
}

// opportunity is the American opportunity credit before its phase-out: for each
// student all of the first expenses and a part of the next.
//
// IRC 25A(b)(1).
func (c *computation) opportunity() money.Amount {
	e := c.y.Education
	credit := money.Zero
	for _, s := range c.h.Credits.Education {
		if s.Kind == household.AmericanOpportunity {
			full := money.Min(s.Expenses, e.FullUpTo)
			next := money.Min(s.Expenses.Sub(full), e.PartUpTo)
			credit = credit.Add(full).Add(next.At(e.PartRate))
		}
	}
	return credit
}

// lifetime is the lifetime learning credit before its phase-out: a part of all
// students' expenses together, up to a limit for the return.
//
// IRC 25A(c)(1).
func (c *computation) lifetime() money.Amount {
	e := c.y.Education
	expenses := money.Zero
	for _, s := range c.h.Credits.Education {
		if s.Kind == household.LifetimeLearning {
			expenses = expenses.Add(s.Expenses)
		}
	}
	return money.Min(expenses, e.LifetimeCap).At(e.LifetimeRate)
}

// educationShare is the share of the credits that the phase-out leaves: what
// is left of its range above the income. Separate filers have none.
//
// IRC 25A(d), 25A(g)(6); Form 8863 lines 2 to 6 and 13 to 17.
func (c *computation) educationShare() money.Rate {
	p := c.y.Education.PhaseOut.Of(c.Status)
	if !p.To.More(p.From) {
		return money.Rate{}
	}
	left := p.To.Sub(c.AdjustedGrossIncome).OrZero()
	return left.Over(p.To.Sub(p.From)).Capped()
}

// opportunityRefundable is the part of the American opportunity credit that is
// paid out whatever the tax. The law bars it to some people under 24, mostly
// students supported by their parents; the answers do not tell all of that
// test, so it is allowed and the case named.
//
// IRC 25A(i); Form 8863 lines 7 and 8.
func (c *computation) opportunityRefundable(credit money.Amount) money.Amount {
	e := c.y.Education
	if credit.IsZero() {
		return credit
	}
	born := c.h.Self.BirthDate
	if !c.h.Joint() && !born.IsZero() && born.BirthdayAge(c.y.Year) < e.UnderAgeNoRefund {
		c.note("opportunity_under_age", "age", e.UnderAgeNoRefund)
	}
	c.credits.opportunityRefundable = c.s.Add(worksheet.Line{
		ID:     "tax.opportunity_refundable",
		Form:   "Form 1040 line 29",
		Amount: credit.At(e.RefundableRate).ToCent(),
		How:    worksheet.Using("%v × %v", credit, e.RefundableRate),
		From:   []string{"credits.education", "tax.adjusted_gross_income"},
		Source: c.cite("IRC 25A(i)", e.Citation),
	})
	return c.credits.opportunityRefundable
}
