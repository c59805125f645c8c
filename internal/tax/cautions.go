package tax

import (
	"slices"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
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
			c.s.Note(w.code, "%s", w.text)
		}
	}
}

// warnings are the cautions that concern the whole return, each with the answers
// that bring it up. Codes are permanent.
var warnings = []struct {
	code string
	when func(c *computation) bool
	text string
}{
	{
		"head_of_household_person", (*computation).nobodyMakesHeadOfHousehold,
		"Head of household needs a qualifying person who lives with you more than half the year, or a parent you support; the answers name none. See Publication 501.",
	},
	{
		"head_of_household_possible", (*computation).maybeHeadOfHousehold,
		"You may be head of household, which is taxed less, if you paid more than half the cost of keeping up the home: someone in the answers may be the qualifying person for it. See Publication 501.",
	},
	{
		"head_of_household_possible", (*computation).maybeConsideredUnmarried,
		"A married parent who lived apart from the spouse for the last six months of the year may file as head of household, which is taxed less, having paid more than half the cost of keeping up the home of a child who lived there more than half the year (IRC 7703(b), Publication 501). If that is so, answer that you lived apart.",
	},
	{
		"surviving_spouse_child", (*computation).noChildOfSurvivingSpouse,
		"A qualifying surviving spouse needs a dependent child or stepchild at home all year; the answers name none. See Publication 501.",
	},
	{
		"separate_community_property", (*computation).separate,
		"In a community property state, married people who file separately each report half of the community income (Publication 555). That is not done here.",
	},
	{
		"child_unearned_income", func(c *computation) bool { return c.h.Parents == nil && c.parentsRateApplies() },
		"Part of the unearned income of a child or young student is taxed at the parents' rate (IRC 1(g), Form 8615). Give your parents' taxable income and filing status to have it counted; without them the tax may be too low.",
	},
	{
		"care_lived_apart", func(c *computation) bool { return c.separate() && c.h.LivedApart && c.careExpenses().IsPositive() },
		"The dependent care credit of a separate filer is counted because you lived apart; your home must also have been the qualifying person's, at more than half its cost paid by you (IRC 21(e)(4)).",
	},
	{
		"care_separate", func(c *computation) bool { return c.separate() && !c.h.LivedApart && c.careExpenses().IsPositive() },
		"A separate filer who did not live apart from the spouse has no dependent care credit (IRC 21(e)(2)).",
	},
	{
		"care_student", (*computation).studentLimitsCare,
		"A spouse who is a full-time student is treated as earning a set amount for each month of study (IRC 21(d)(2)). Only five months are counted, so the dependent care credit may be too low if there are more.",
	},
	{
		"care_account", func(c *computation) bool { return c.careExcluded().IsPositive() && c.careExpenses().IsPositive() },
		"The limit of the dependent care credit is reduced by what paychecks put into the employer's dependent care plan. Give as care expenses only what that plan does not pay back.",
	},
	{
		"education_separate", func(c *computation) bool { return c.separate() && len(c.h.Credits.Education) > 0 },
		"Married people who file separately have no education credits (IRC 25A(g)(6)).",
	},
	{
		"education_claimed", func(c *computation) bool { return claimable(&c.h) && len(c.h.Credits.Education) > 0 },
		"One who can be claimed as a dependent has no education credits; whoever claims that person may have them (IRC 25A(g)(3)).",
	},
	{
		"education_number", func(c *computation) bool { return c.educationNeedsNumber() && len(c.h.Credits.Education) > 0 },
		"The education credits ask for a taxpayer's and the student's social security number valid for work (IRC 25A(g)(1)), so none is counted.",
	},
	{
		"early_distribution", (*computation).drawsEarly,
		"If you take money out of a retirement plan before you are 59 and a half, with no exception, 10% more is due on it: give that part.",
	},
	{
		"gain_kinds", func(c *computation) bool { return c.income.NetCapitalGain.IsPositive() },
		"Long-term gains are taken as none from collectibles, small business stock or depreciation of buildings, which have rates of their own (IRC 1(h)(4) to (6)).",
	},
	{
		"investment_tax_deductions", func(c *computation) bool {
			return c.NetInvestmentTax.IsPositive() && c.Itemized && c.deductions.StateLocal.IsPositive()
		},
		"The net investment income tax is figured without deducting state income tax on that income (Form 8960 line 9b), so it may be a little too high.",
	},
	{
		"minimum_tax_items", func(c *computation) bool { return c.AlternativeMinimumTax.IsPositive() },
		"The alternative minimum tax counts only what the answers can say. Incentive stock options, private activity bonds, depreciation and the credit for earlier years' minimum tax are not counted (Form 6251).",
	},
	{
		"gambling_losses", func(c *computation) bool {
			return c.Itemized && c.h.Income.Other.IsPositive() && c.deductions.OtherItemized.IsPositive()
		},
		"If other income and other deductions are gambling winnings and losses, give them as such: the law limits the losses (IRC 165(d)).",
	},
	{
		"benefits_lump_sum", func(c *computation) bool { return c.income.TaxableBenefits.IsPositive() },
		"If social security benefits include a sum for earlier years, they may be taxed by those years' incomes (IRC 86(e)). That is not computed.",
	},
	{
		"net_operating_loss", func(c *computation) bool { return c.TotalIncome.IsNegative() },
		"A loss larger than all income may be carried to other years (IRC 172). Limits on business losses and the carryover are not computed.",
	},
	{
		"self_employed_health", func(c *computation) bool { return c.income.SelfEmployment.IsPositive() && c.ownPremiums().IsZero() },
		"If your business pays for your health insurance, give the premiums: they can be deducted (IRC 162(l)).",
	},
	{
		"earned_income_credit_age", func(c *computation) bool {
			return c.EarnedIncomeCredit.IsPositive() && c.earnedIncomeChildren() == 0 && c.birthDateMissing()
		},
		"The earned income credit without a qualifying child has age limits; with no birth date given, the age is taken as within them.",
	},
	{
		"earned_income_credit_separate", func(c *computation) bool { return c.EarnedIncomeCredit.IsPositive() && c.separate() },
		"The earned income credit of a separate filer is counted because you lived apart from the spouse and have a qualifying child (IRC 32(d)(2)).",
	},
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
