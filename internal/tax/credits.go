package tax

import (
	"fmt"

	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/worksheet"
)

// creditParts is what the credits' rules leave for each other. Amounts are
// dollars for the year.
type creditParts struct {
	taxLeft               money.Amount // income tax, excess advance and minimum tax that no credit has met yet
	children, others      int          // dependents for the child tax credit, and for the other credit
	childUnused           money.Amount // child tax credit and credit for other dependents for which no tax was left
	opportunityRefundable money.Amount // American opportunity credit, refundable part
	adoptionRefundable    money.Amount
	premium               money.Amount // premium tax credit beyond its advance
	other                 money.Amount // refundable credits that the answers give
}

// nonrefundable takes the nonrefundable credits, in the order of Schedule 3
// and Form 1040 line 19, each against the tax that the ones before it left.
//
// IRC 26(a); Schedule 3 lines 1 to 8; Form 1040 lines 19 and 20.
func (c *computation) nonrefundable() {
	c.credits.taxLeft = money.Sum(c.IncomeTax, c.ExcessAdvance, c.AlternativeMinimumTax)
	foreign := c.foreignTax()
	care := c.dependentCare()
	education := c.education()
	savers := c.savers()
	improvements := c.homeImprovements()
	other := c.otherNonrefundable()
	c.ChildTaxCredit = c.childTaxCredit()
	adoption := c.adoption()
	clean := c.cleanEnergy()
	c.NonrefundableCredits = c.totalIfAny(worksheet.Line{
		ID:     "tax.nonrefundable_credits",
		Form:   "Form 1040 line 21",
		Source: "IRC 26(a)",
	},
		part{"tax.foreign_tax_credit", foreign},
		part{"tax.dependent_care_credit", care},
		part{"tax.education_credits", education},
		part{"tax.savers_credit", savers},
		part{"tax.home_improvement_credit", improvements},
		part{"tax.other_nonrefundable_credits", other},
		part{"tax.child_tax_credit", c.ChildTaxCredit},
		part{"tax.adoption_credit", adoption},
		part{"tax.clean_energy_credit", clean},
	)
}

// take is a credit up to the tax left for it, which it then meets.
//
// IRC 26(a).
func (c *computation) take(credit money.Amount) money.Amount {
	taken := money.Min(credit.ToCent(), c.credits.taxLeft)
	c.credits.taxLeft = c.credits.taxLeft.Sub(taken)
	return taken
}

// otherNonrefundable is the nonrefundable credits that the answers give as one
// sum.
//
// IRC 26(a).
func (c *computation) otherNonrefundable() money.Amount {
	given := c.h.Credits.OtherNonrefundable
	if given.IsZero() {
		return given
	}
	left := c.credits.taxLeft
	return c.s.Add(worksheet.Line{
		ID:     "tax.other_nonrefundable_credits",
		Form:   "Schedule 3 line 7",
		Amount: c.take(given),
		How:    c.how("within_tax", "credit", given, "left", left),
		From:   []string{"credits.other_nonrefundable"},
		Source: "IRC 26(a)",
	})
}

// refundable takes the refundable credits.
//
// Form 1040 lines 27 to 31.
func (c *computation) refundable() {
	c.EarnedIncomeCredit = c.earnedIncomeCredit()
	c.AdditionalChildTaxCredit = c.additionalChildTaxCredit()
	c.credits.other = c.given("tax.other_refundable_credits", "Schedule 3 line 13z", "credits.other_refundable", "IRC 6401(b)", c.h.Credits.OtherRefundable)
	c.RefundableCredits = c.totalIfAny(worksheet.Line{
		ID:     "tax.refundable_credits",
		Form:   "Form 1040 line 32",
		Source: "IRC 37 ff.",
	},
		part{"tax.earned_income_credit", c.EarnedIncomeCredit},
		part{"tax.additional_child_tax_credit", c.AdditionalChildTaxCredit},
		part{"tax.opportunity_refundable", c.credits.opportunityRefundable},
		part{"tax.adoption_refundable", c.credits.adoptionRefundable},
		part{"tax.net_premium_credit", c.credits.premium},
		part{"tax.other_refundable_credits", c.credits.other},
	)
}

// earnedIncome is the earned income of everyone on the return: wages, and net
// profit less half of the self-employment tax; a loss comes off.
//
// IRC 32(c)(2).
func (c *computation) earnedIncome() money.Amount {
	earned := money.Zero
	for _, e := range c.earners() {
		earned = earned.Add(c.work[e].EarnedIncome)
	}
	return earned
}

// earnedFrom are the lines that earned income came from, and more.
func (c *computation) earnedFrom(more ...string) []string {
	return append(c.from(
		part{"tax.wages", c.income.Wages},
		part{"tax.business_income", c.income.SelfEmployment},
		part{"tax.half_self_employment_tax", c.adjustments.HalfSelfEmployment},
	), more...)
}

// dependentsFrom are the keys of an answer about each dependent who counts.
func (c *computation) dependentsFrom(counts func(Standing) bool, answer string) []string {
	if c.s == nil {
		return nil
	}
	var keys []string
	for i, s := range c.dependents {
		if counts(s) {
			keys = append(keys, fmt.Sprintf("dependents[%d].%s", i, answer))
		}
	}
	return keys
}
