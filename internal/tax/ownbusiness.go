package tax

import (
	"sort"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/tables"
	"example.com/plumbline/internal/worksheet"
)

// The adjustments for what a business pays for its owner: a retirement plan and
// health insurance. Both lower qualified business income too; neither lowers
// self-employment tax.

// ownRetirement is the deduction for what the self-employed put into a
// retirement plan of their own, up to the most that any plan allows. Which plan it
// is, and what wages at another job defer, is not known. Profit is net of half of
// the self-employment tax.
//
// IRC 404(a)(8), 415(c)(1), 402(g), 414(v); Publication 560, worksheets for the
// self-employed; Schedule 1 line 16.
func (c *computation) ownRetirement() {
	r, asked := &c.y.SelfEmployedPlans, c.h.Adjustments.SelfEmployedRetirement
	for _, e := range c.earners() {
		given := asked.Of(e)
		if !given.IsPositive() {
			continue
		}
		w := &c.work[e]
		profit := w.SelfEmploymentNet.Sub(w.HalfDeduction).OrZero()
		catchUp := money.Zero
		if born := c.h.Person(e).BirthDate; !born.IsZero() {
			catchUp = r.Deferral.CatchUpAt(born.AgeAtEndOf(c.Year))
		}
		most := mostOwnRetirement(r, profit, catchUp)
		w.RetirementDeduction = money.Min(given, most).ToCent()
		c.s.Add(worksheet.Line{
			ID:     "tax.self_employed_retirement" + earnerIDs[e],
			Form:   "Schedule 1 line 16",
			Amount: w.RetirementDeduction,
			How:    c.how("own_retirement", "given", given, "most", most, "profit", profit),
			From: append([]string{"adjustments.self_employed_retirement" + earnerIDs[e]}, c.from(
				part{"tax.business_income", w.SelfEmploymentNet}, part{"tax.half_self_employment_tax", w.HalfDeduction})...),
			Source: c.cite("IRC 404(a)(8)", r.Additions.Citation, r.EmployerShare.Citation, r.Deferral.Citation),
		})
		if given.More(most) {
			c.note("own_retirement_above_limit", "most", w.RetirementDeduction)
		}
		c.note("own_retirement_plan")
	}
	c.adjustments.OwnRetirement = c.work[household.OfSelf].RetirementDeduction.Add(c.work[household.OfSpouse].RetirementDeduction)
}

// mostOwnRetirement is the most that may go into a plan of one's own: the
// employee's deferral, the employer's share of profit, and the addition for age.
// What the employer's part takes is no longer earned, and deferral and both
// together are no more than what is: so the employer's part is at most half of what
// the deferral leaves.
//
// IRC 404(a)(8), 415(c)(1), (3)(B), 401(c)(2)(A)(v), 414(v)(2)(A)(ii); Publication
// 560, Deduction Worksheet for Self-Employed.
func mostOwnRetirement(r *tables.SelfEmployedPlans, profit, catchUp money.Amount) money.Amount {
	deferral := money.Min(r.Deferral.Limit, profit)
	employer := money.Min(profit.At(r.EmployerShare.Share), profit.Sub(deferral).DividedBy(2), r.Additions.Limit.Sub(deferral))
	left := profit.Sub(deferral).Sub(employer)
	return money.Sum(deferral, employer, money.Min(catchUp, left))
}

// ownHealth is the deduction for health insurance that a business pays for its
// owner: the premiums, no more than what the business earns. Of premiums of the
// marketplace, only what no credit and no advance pays may be deducted; the
// credit turns on the deduction, and settleOwnHealth finds the two together.
// That nobody could join a plan at work is taken from the answer.
//
// IRC 162(l); Form 7206; Schedule 1 line 17.
func (c *computation) ownHealth() {
	paid := c.ownPremiums()
	if !paid.IsPositive() {
		return
	}
	kept := money.Zero
	if m := c.h.Marketplace; m != nil && m.Premiums.IsPositive() {
		kept = c.settleOwnHealth()
	}
	deductions := c.ownHealthLess(kept)
	for _, e := range c.earners() {
		given := c.h.Adjustments.SelfEmployedHealth.Of(e)
		if !given.IsPositive() {
			continue
		}
		w := &c.work[e]
		w.HealthDeduction = deductions[e]
		from := append([]string{"adjustments.self_employed_health" + earnerIDs[e]}, c.from(
			part{"tax.business_income", w.SelfEmploymentNet},
			part{"tax.half_self_employment_tax", w.HalfDeduction},
			part{"tax.self_employed_retirement" + earnerIDs[e], w.RetirementDeduction},
			part{"health_marketplace.premiums", kept},
		)...)
		c.s.Add(worksheet.Line{
			ID:     "tax.self_employed_health" + earnerIDs[e],
			Form:   "Schedule 1 line 17",
			Amount: w.HealthDeduction,
			How:    c.how("own_health", "given", given, "kept", kept, "earns", c.businessEarns(e)),
			From:   from,
			Source: "IRC 162(l)",
		})
	}
	c.adjustments.OwnHealth = money.Sum(deductions[:]...)
	c.note("own_health_plan_at_work")
}

// ownPremiums are the health insurance premiums that the answers give as those
// of a business on this return.
func (c *computation) ownPremiums() money.Amount {
	paid := money.Zero
	for _, e := range c.earners() {
		paid = paid.Add(c.h.Adjustments.SelfEmployedHealth.Of(e))
	}
	return paid
}

// businessEarns is the net profit of a business less half of its
// self-employment tax and what it puts into the owner's retirement plan.
//
// IRC 162(l)(2)(A), 401(c)(2); Form 7206 lines 4 to 10.
func (c *computation) businessEarns(e household.Earner) money.Amount {
	w := &c.work[e]
	return w.SelfEmploymentNet.Sub(w.HalfDeduction).Sub(w.RetirementDeduction).OrZero()
}

// ownHealthLess is each earner's deduction where a part of the marketplace's
// premiums is paid by the credit. The premiums of the businesses are taken as
// the marketplace's, up to what those are; the credit falls on all of the
// marketplace's premiums alike.
//
// IRC 162(l)(1), (2)(A); Rev. Proc. 2014-41 sec. 3.
func (c *computation) ownHealthLess(kept money.Amount) (deductions [2]money.Amount) {
	paid := c.ownPremiums()
	if m := c.h.Marketplace; kept.IsPositive() {
		kept = kept.At(money.Min(paid, m.Premiums).Over(m.Premiums))
	}
	for _, e := range c.earners() {
		given := c.h.Adjustments.SelfEmployedHealth.Of(e)
		left := given.Sub(kept.At(given.Over(paid))).OrZero()
		deductions[e] = money.Min(left, c.businessEarns(e)).ToCent()
	}
	return deductions
}

// settlement is the cap on repayment that the search for the deduction settled.
type settlement struct {
	done   bool
	capped bool
	cap    money.Amount
}

// settleOwnHealth finds the deduction for health insurance and the premium tax
// credit, each of which turns on the other, and returns what the credit pays of
// the premiums. First the cap on repayment: the lowest under whose percentage
// household income comes when as much is deducted as that cap leaves. Then, by
// turns, the credit on the income that the deduction leaves, and the deduction
// that the credit leaves, until they stay.
//
// Where they do not stay, a step of the share or the end of the credit lies
// between: then as much is deducted as leaves deduction and credit no more than
// the premiums, which is all that the law asks of any method.
//
// Rev. Proc. 2014-41 secs. 3 and 4; Publication 974, worksheets W and X.
func (c *computation) settleOwnHealth() money.Amount {
	const rounds = 20
	m := c.h.Marketplace
	c.settled = settlement{done: true}
	kept := money.Zero
	if m.Advance.IsPositive() {
		for _, row := range c.y.PremiumCredit.Caps() {
			most := row.Of(c.Status)
			left := m.Advance.Sub(most).OrZero()
			if c.form8962(c.householdIncomeWith(left)).Percent < row.BelowPercent {
				c.settled.capped, c.settled.cap, kept = true, most, left
				break
			}
		}
	}
	for range rounds {
		before := kept
		if kept = c.keptOf(before); kept.Equal(before) {
			return kept
		}
	}
	return c.leastKept()
}

// keptOf is what the credit pays of the premiums where the deduction leaves out
// what it is thought to pay.
func (c *computation) keptOf(thought money.Amount) money.Amount {
	kept := c.form8962(c.householdIncomeWith(thought)).Credit
	if c.settled.capped {
		kept = money.Max(kept, c.h.Marketplace.Advance.Sub(c.settled.cap))
	}
	return kept
}

// leastKept is the least, to the cent, that the credit may be thought to pay so
// that it does not pay more.
//
// Rev. Proc. 2014-41 sec. 3.
func (c *computation) leastKept() money.Amount {
	cents := func(a money.Amount) int { return int(a.Times(100).WholeDollars()) }
	least := sort.Search(cents(c.h.Marketplace.Premiums), func(n int) bool {
		thought := money.Cents(int64(n))
		return !c.keptOf(thought).More(thought)
	})
	kept := money.Cents(int64(least))
	if !c.keptOf(kept).Equal(kept) {
		c.note("premium_credit_unsettled")
	}
	return kept
}

// householdIncomeWith is household income where the credit pays a given part of
// the premiums and of the rest what may be is deducted. It leaves no trace, and the
// parts of income that turn on the deduction as they then are.
func (c *computation) householdIncomeWith(kept money.Amount) money.Amount {
	sheet := c.s
	c.s = nil
	defer func() { c.s = sheet }()
	deductions := c.ownHealthLess(kept)
	c.adjustments.OwnHealth = money.Sum(deductions[:]...)
	c.benefits()
	c.TotalIncome = c.income.beforeBenefits().Add(c.income.TaxableBenefits)
	c.studentLoanInterest()
	c.AdjustedGrossIncome = c.TotalIncome.Sub(c.adjustments.beforeStudentLoan()).Sub(c.adjustments.StudentLoan)
	return c.householdIncome()
}
