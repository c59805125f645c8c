package tax

import (
	"slices"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/tables"
)

// cautions names what the answers suggest and the return does not compute, or
// takes for granted. It runs last, so that a caution can depend on any line.
func (c *computation) cautions() {
	if c.s == nil {
		return
	}
	for _, s := range c.dependents {
		c.s.Notes = append(c.s.Notes, s.Notes...)
	}
	for _, w := range warnings {
		if w.when(c) {
			args := []any{"who", w.who}
			if w.args != nil {
				args = append(args, w.args(c.y)...)
			}
			c.note(w.code, args...)
		}
	}
}

// warnings are the cautions that concern the whole return, each with the answers
// that bring it up. Codes are permanent.
var warnings = []struct {
	code string
	when func(c *computation) bool
	who  string                     // of a note that is worded for several kinds of people
	args func(y *tables.Year) []any // of a note that names figures of the law
}{
	{code: "head_of_household_person", when: (*computation).nobodyMakesHeadOfHousehold},
	{code: "head_of_household_possible", when: (*computation).maybeHeadOfHousehold},
	{code: "head_of_household_possible", when: (*computation).maybeConsideredUnmarried, who: "married"},
	{code: "surviving_spouse_child", when: (*computation).noChildOfSurvivingSpouse},
	{code: "separate_community_property", when: (*computation).separate},
	{code: "child_unearned_income", when: func(c *computation) bool { return c.h.Parents == nil && c.parentsRateApplies() }},
	{code: "parents_rate_siblings", when: func(c *computation) bool { return c.h.Parents != nil && c.parentsRateApplies() }},
	{code: "parents_rate_itemized", when: func(c *computation) bool { return c.Itemized && c.h.Parents != nil && c.parentsRateApplies() }},
	{code: "care_lived_apart", when: func(c *computation) bool { return c.separate() && c.h.LivedApart && c.careExpenses().IsPositive() }},
	{code: "care_separate", when: func(c *computation) bool { return c.separate() && !c.h.LivedApart && c.careExpenses().IsPositive() }},
	{code: "care_student", when: (*computation).studentLimitsCare},
	{code: "care_account", when: func(c *computation) bool { return c.careExcluded().IsPositive() && c.careExpenses().IsPositive() }},
	{code: "education_separate", when: func(c *computation) bool { return c.separate() && len(c.h.Credits.Education) > 0 }},
	{code: "education_claimed", when: func(c *computation) bool { return claimable(&c.h) && len(c.h.Credits.Education) > 0 }},
	{code: "education_number", when: func(c *computation) bool { return c.educationNeedsNumber() && len(c.h.Credits.Education) > 0 }},
	{code: "early_distribution", when: (*computation).drawsEarly, args: func(y *tables.Year) []any {
		return []any{"rate", y.EarlyWithdrawals.Rate, "age", y.EarlyWithdrawals.AgeYears}
	}},
	{code: "early_simple_plan", when: func(c *computation) bool { return c.EarlyWithdrawalTax.IsPositive() }, args: func(y *tables.Year) []any {
		return []any{"rate", y.EarlyWithdrawals.Rate, "simple", y.EarlySimple.Rate}
	}},
	{code: "premium_months", when: func(c *computation) bool { return c.h.Marketplace != nil && c.h.Marketplace.Premiums.IsPositive() }},
	{code: "premium_marriage", when: func(c *computation) bool { return c.h.Joint() && c.ExcessAdvance.IsPositive() }},
	{code: "premium_dependents", when: (*computation).dependentsMayEarn},
	{code: "mortgage_mixed", when: (*computation).mortgagesMayDiffer},
	{code: "business_several", when: func(c *computation) bool {
		return c.BusinessDeduction.IsPositive() && c.TaxableIncome.Add(c.BusinessDeduction).More(c.y.BusinessIncome.Threshold.Of(c.Status))
	}},
	{code: "gain_kinds", when: func(c *computation) bool { return c.income.NetCapitalGain.IsPositive() }},
	{code: "investment_tax_deductions", when: func(c *computation) bool {
		return c.NetInvestmentTax.IsPositive() && c.Itemized && c.deductions.StateLocal.IsPositive()
	}},
	{code: "minimum_tax_items", when: func(c *computation) bool { return c.AlternativeMinimumTax.IsPositive() }},
	{code: "gambling_losses", when: func(c *computation) bool {
		return c.Itemized && c.h.Income.Other.IsPositive() && c.deductions.OtherItemized.IsPositive()
	}},
	{code: "benefits_lump_sum", when: func(c *computation) bool { return c.income.TaxableBenefits.IsPositive() }},
	{code: "net_operating_loss", when: func(c *computation) bool { return c.TotalIncome.IsNegative() }},
	{code: "self_employed_health", when: func(c *computation) bool { return c.income.SelfEmployment.IsPositive() && c.ownPremiums().IsZero() }},
	{code: "earned_income_credit_age", when: func(c *computation) bool {
		return c.EarnedIncomeCredit.IsPositive() && c.earnedIncomeChildren() == 0 && c.birthDateMissing()
	}},
	{code: "earned_income_credit_separate", when: func(c *computation) bool { return c.EarnedIncomeCredit.IsPositive() && c.separate() }},
}

// dependentsMayEarn reports a dependent who is no young child, so that income of
// theirs may be part of the household income for the premium tax credit.
//
// IRC 36B(d)(2)(A)(ii); Form 8962 line 2b (the line from memory).
func (c *computation) dependentsMayEarn() bool {
	m := c.h.Marketplace
	return m != nil && m.Premiums.IsPositive() && slices.ContainsFunc(c.dependents, func(s Standing) bool { return s.Counts != NotCounted && !s.ChildCredit })
}

// mortgagesMayDiffer reports a debt above the limit of new loans: some of it may be
// of the time of the higher limit, and some not.
//
// IRC 163(h)(3)(F)(i)(III).
func (c *computation) mortgagesMayDiffer() bool {
	d := &c.h.Deductions
	return c.Itemized && d.MortgageInterest.IsPositive() && d.MortgageBalance.More(c.y.MortgageDebt.Limit.Of(c.Status))
}

// nobodyMakesHeadOfHousehold: IRC 2(b)(1).
func (c *computation) nobodyMakesHeadOfHousehold() bool {
	return c.Status == household.HeadOfHousehold && !c.qualifyingPerson()
}

// maybeHeadOfHousehold: IRC 2(b)(1), and 7703(b) for a married person who lived
// apart.
func (c *computation) maybeHeadOfHousehold() bool {
	unmarried := c.Status == household.Single || c.separate() && c.h.LivedApart
	return unmarried && c.qualifyingPerson()
}

// maybeConsideredUnmarried reports a married person filing separately with a
// child at home for more than half the year, who has not said to have lived
// apart from the spouse.
//
// IRC 7703(b)(1): a child, stepchild or foster child (152(f)(1)) whom the
// taxpayer may claim.
func (c *computation) maybeConsideredUnmarried() bool {
	return c.separate() && !c.h.LivedApart && slices.ContainsFunc(c.dependents, func(s Standing) bool { return s.Unmarried })
}

// qualifyingPerson reports whether a dependent can make someone head of
// household.
func (c *computation) qualifyingPerson() bool {
	return slices.ContainsFunc(c.dependents, func(s Standing) bool { return s.HeadOfHousehold })
}

// noChildOfSurvivingSpouse: IRC 2(a)(1)(B).
func (c *computation) noChildOfSurvivingSpouse() bool {
	return c.Status == household.QualifyingSurvivingSpouse &&
		!slices.ContainsFunc(c.dependents, func(s Standing) bool { return s.SurvivingSpouse })
}

// studentLimitsCare reports whether a student's own earnings limit the
// dependent care credit of a joint return.
func (c *computation) studentLimitsCare() bool {
	if !c.h.Joint() || !c.careExpenses().IsPositive() {
		return false
	}
	limit := money.Min(c.careExpenses(), c.careCap())
	for _, e := range c.earners() {
		if c.h.Person(e).FullTimeStudent && c.work[e].EarnedIncome.Less(limit) {
			return true
		}
	}
	return false
}

func (c *computation) birthDateMissing() bool {
	for _, e := range c.earners() {
		if c.h.Person(e).BirthDate.IsZero() {
			return true
		}
	}
	return false
}
