package tax

import (
	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/worksheet"
)

// adjustmentParts are the adjustments taken, Schedule 1 Part II, in dollars
// for the year.
type adjustmentParts struct {
	Educator           money.Amount
	HSA                money.Amount
	HalfSelfEmployment money.Amount
	OwnRetirement      money.Amount // self-employed plans
	OwnHealth          money.Amount // self-employed health insurance
	IRA                money.Amount
	StudentLoan        money.Amount
	Other              money.Amount

	lines *worksheet.Sheet // of the adjustments that were needed before their place on the form
}

// beforeStudentLoan are all adjustments but student loan interest, which is
// limited by the income that they leave.
func (a *adjustmentParts) beforeStudentLoan() money.Amount {
	return money.Sum(a.Educator, a.HSA, a.HalfSelfEmployment, a.OwnRetirement, a.OwnHealth, a.IRA, a.Other)
}

// adjustedGrossIncome takes the adjustments off total income.
//
// IRC 62(a); Form 1040 lines 10 and 11, Schedule 1 Part II.
func (c *computation) adjustedGrossIncome() {
	a := &c.adjustments
	c.s.Append(a.lines)
	c.studentLoanInterest()
	c.Adjustments = c.total(worksheet.Line{
		ID:     "tax.adjustments",
		Form:   "Form 1040 line 10",
		Source: "IRC 62(a)",
	}, append(c.otherThanStudentLoan(), part{"tax.student_loan_interest", a.StudentLoan})...)
	c.AdjustedGrossIncome = c.total(worksheet.Line{
		ID:     "tax.adjusted_gross_income",
		Form:   "Form 1040 line 11a",
		Source: "IRC 62(a)",
	}, part{"tax.total_income", c.TotalIncome}, part{"tax.adjustments", c.Adjustments.Neg()})
}

// otherThanStudentLoan are the lines of all adjustments but student loan
// interest. Their sum is beforeStudentLoan.
func (c *computation) otherThanStudentLoan() []part {
	a := &c.adjustments
	return []part{
		{"tax.educator_expenses", a.Educator},
		{"tax.hsa_contribution", a.HSA},
		{"tax.half_self_employment_tax", a.HalfSelfEmployment},
		{"tax.self_employed_retirement.self", c.work[household.OfSelf].RetirementDeduction},
		{"tax.self_employed_retirement.spouse", c.work[household.OfSpouse].RetirementDeduction},
		{"tax.self_employed_health.self", c.work[household.OfSelf].HealthDeduction},
		{"tax.self_employed_health.spouse", c.work[household.OfSpouse].HealthDeduction},
		{"tax.ira_deduction", a.IRA},
		{"tax.other_adjustments", a.Other},
	}
}

// educator is what teachers pay for their classrooms, up to a cap for each.
//
// IRC 62(a)(2)(D).
func (c *computation) educator() {
	expenses, most := c.h.Adjustments.EducatorExpenses, c.y.Adjustments.Educator.Cap
	var each [2]money.Amount
	for _, e := range c.earners() {
		each[e] = money.Min(expenses.Of(e), most)
		if over := expenses.Of(e).Sub(most); over.IsPositive() {
			c.note("educator_above_cap", "over", over, "most", most)
		}
	}
	c.adjustments.Educator = each[household.OfSelf].Add(each[household.OfSpouse])
	if c.adjustments.Educator.IsZero() {
		return
	}
	c.total(worksheet.Line{
		ID:     "tax.educator_expenses",
		Form:   "Schedule 1 line 11",
		Source: c.cite("IRC 62(a)(2)(D)", c.y.Adjustments.Educator.Citation),
	},
		part{"adjustments.educator_expenses.self", each[household.OfSelf]},
		part{"adjustments.educator_expenses.spouse", each[household.OfSpouse]},
	)
}

// healthSavings is what is paid into a health savings account outside payroll,
// up to the family limit and the addition for each earner of the age for it:
// the answers do not say which coverage there is. Someone who can be claimed
// as a dependent may deduct none.
//
// IRC 223(b)(2), limits; (b)(3), addition; (b)(6), dependents.
func (c *computation) healthSavings() {
	paid := c.h.Adjustments.HSAContribution
	if !paid.IsPositive() {
		return
	}
	a := &c.y.Adjustments.HealthSavings
	more := a.CatchUp.Times(c.aged(a.CatchUpFrom))
	most := a.Family.Add(more)
	l := worksheet.Line{
		ID:     "tax.hsa_contribution",
		Form:   "Schedule 1 line 13",
		Amount: money.Min(paid, most),
		How:    c.how("hsa", "paid", paid, "limit", a.Family, "more", more),
		From:   []string{"adjustments.hsa_contribution"},
		Source: c.cite("IRC 223(b)", a.Citation),
	}
	switch {
	case c.h.Self.CanBeClaimed && !c.h.Joint():
		l.Amount, l.How = money.Zero, c.how("hsa_dependent")
		c.note("hsa_dependent")
	case paid.More(most):
		c.note("hsa_above_limit", "most", most)
	case paid.More(a.SelfOnly.Add(more)):
		c.note("hsa_family_assumed", "limit", a.SelfOnly.Add(more))
	}
	c.adjustments.HSA = c.s.Add(l)
}

// aged is how many of the people on this return have reached an age by the end
// of the year; one whose birth date is not known has not.
func (c *computation) aged(from int) int {
	n := 0
	for _, e := range c.earners() {
		if born := c.h.Person(e).BirthDate; !born.IsZero() && born.AgeAtEndOf(c.Year) >= from {
			n++
		}
	}
	return n
}

// retirementArrangement is the deduction for IRA contributions: the amount
// that the answers give as deductible, no more than the limit and the addition
// for age of everyone on this return.
//
// IRC 219(b)(5), limits. What pay allows, 219(b)(1)(B), and the phase-out of
// 219(g) for those with a plan at work are left to the answer, which is the
// deductible amount; more than the pay is remarked on.
func (c *computation) retirementArrangement() {
	given := c.h.Adjustments.IRADeduction
	if !given.IsPositive() {
		return
	}
	a := &c.y.Adjustments.IndividualRetirement
	most := a.Limit.Times(len(c.earners())).Add(a.CatchUp.Times(c.aged(a.CatchUpFrom)))
	c.adjustments.IRA = c.s.Add(worksheet.Line{
		ID:     "tax.ira_deduction",
		Form:   "Schedule 1 line 20",
		Amount: money.Min(given, most),
		How:    c.how("at_most_limit", "given", given, "most", most),
		From:   []string{"adjustments.ira_deduction"},
		Source: c.cite("IRC 219(b)(5)", a.Citation),
	})
	if given.More(most) {
		c.note("ira_above_limit", "most", most)
	}
	if pay := c.work[household.OfSelf].EarnedIncome.Add(c.work[household.OfSpouse].EarnedIncome).OrZero(); given.More(pay) {
		c.note("ira_above_pay", "pay", pay)
	}
	c.note("ira_as_given")
}

// otherAdjustments are those that no other line takes.
//
// IRC 62(a).
func (c *computation) otherAdjustments() {
	c.adjustments.Other = c.given("tax.other_adjustments", "Schedule 1 line 25", "adjustments.other", "IRC 62(a)", c.h.Adjustments.Other)
}

// studentLoanInterest is the interest paid on student loans up to a cap, less
// the share that lies as far into the phase-out range as the income does.
// Separate filers may deduct none.
//
// IRC 221(b)(1), cap; (b)(2), phase-out, by the income that the other
// adjustments leave; (e)(2), separate filers. Where the worksheet lets the
// share be rounded to three places or more, it is carried in full.
func (c *computation) studentLoanInterest() {
	paid := c.h.Adjustments.StudentLoanInterest
	if !paid.IsPositive() {
		return
	}
	a := &c.y.Adjustments.StudentLoan
	phase := a.PhaseOut.Of(c.Status)
	if !phase.To.IsPositive() {
		c.note("student_loan_separate")
		return
	}
	income := c.TotalIncome.Sub(c.adjustments.beforeStudentLoan())
	capped := money.Min(paid, a.Cap)
	lost := capped.At(income.Sub(phase.From).OrZero().Over(phase.To.Sub(phase.From)).Capped())
	c.adjustments.StudentLoan = c.s.Add(worksheet.Line{
		ID:     "tax.student_loan_interest",
		Form:   "Schedule 1 line 21",
		Amount: capped.Sub(lost),
		How:    c.how("phase_out", "amount", capped, "lost", lost, "from", phase.From, "to", phase.To, "income", income),
		From:   []string{"adjustments.student_loan_interest", "tax.total_income"},
		Source: c.cite("IRC 221(b)", a.Citation),
	})
	if c.h.Self.CanBeClaimed {
		c.note("student_loan_if_claimed")
	}
}
