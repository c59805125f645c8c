package tax

import (
	"time"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/worksheet"
)

// dependentCare is a share of what care of qualifying persons cost so that the
// taxpayers could work. A married person must file jointly, or have lived apart.
//
// IRC 21(a), 21(e)(2) and (4); Form 2441, Part II.
func (c *computation) dependentCare() money.Amount {
	expenses := c.careExpenses()
	if !expenses.IsPositive() || c.separate() && !c.h.LivedApart {
		return money.Zero
	}
	most, earned := c.careCap(), c.careEarnings()
	counted := money.Min(expenses, most, earned)
	if !counted.IsPositive() {
		return money.Zero
	}
	c.s.Add(worksheet.Line{
		ID:     "tax.dependent_care_expenses",
		Form:   "Form 2441 line 6",
		Amount: counted,
		How:    c.how("care", "paid", expenses, "most", most, "earned", earned),
		From:   c.earnedFrom(c.careFrom()...),
		Source: c.cite("IRC 21(c), (d)", c.y.DependentCare.Citation),
	})
	rate, left := c.careRate(), c.credits.taxLeft
	return c.s.Add(worksheet.Line{
		ID:     "tax.dependent_care_credit",
		Form:   "Schedule 3 line 2",
		Amount: c.take(counted.At(rate)),
		How:    c.how("rate_within_tax", "amount", counted, "rate", rate, "left", left),
		From:   []string{"tax.dependent_care_expenses", "tax.adjusted_gross_income"},
		Source: c.cite("IRC 21(a)", c.y.DependentCare.Citation),
	})
}

// careExpenses is what was paid for the care of qualifying persons: of a child
// born in the year from the birth on, since nobody cares for a child before it.
//
// IRC 21(b).
func (c *computation) careExpenses() money.Amount {
	expenses := money.Zero
	for i, d := range c.h.Dependents {
		if c.dependents[i].CareCredit {
			expenses = expenses.Add(d.Care(c.y.Year))
		}
	}
	for _, e := range c.h.DisabledSpouses() {
		expenses = expenses.Add(c.h.Person(e).Care())
	}
	return expenses
}

// careFrom are the keys of what was paid, and of what makes a spouse count.
func (c *computation) careFrom() []string {
	keys := c.dependentsFrom(func(s Standing) bool { return s.CareCredit }, "care_expenses")
	if c.s == nil {
		return keys
	}
	for _, e := range c.h.DisabledSpouses() {
		keys = append(keys, e.String()+".disabled")
		if c.h.Person(e).CareMonthly != nil {
			keys = append(keys, e.String()+".care_monthly")
		}
	}
	return keys
}

// careCap is the limit on expenses by the number of qualifying persons, with or
// without expenses of their own, less what an employer's dependent care plan
// already excludes from income.
//
// IRC 21(c).
func (c *computation) careCap() money.Amount {
	limit := c.y.DependentCare.CapOne
	if c.carePersons() > 1 {
		limit = c.y.DependentCare.CapMore
	}
	return limit.Sub(c.careExcluded()).OrZero()
}

// carePersons is the number of persons whose care counts: dependents, and a
// spouse who is not able to care for themselves.
//
// IRC 21(b)(1).
func (c *computation) carePersons() int {
	persons := len(c.h.DisabledSpouses())
	for _, s := range c.dependents {
		if s.CareCredit {
			persons++
		}
	}
	return persons
}

// careExcluded is what the jobs on the return keep out of wages for dependent
// care: the amount of a paycheck times the paydays of the year.
//
// IRC 129(a); 21(c), last sentence.
func (c *computation) careExcluded() money.Amount {
	excluded := money.Zero
	for _, j := range c.h.Jobs {
		if j.Pretax.DependentCare.IsPositive() && c.counts(j.Earner) {
			excluded = excluded.Add(j.Pretax.DependentCare.Times(len(j.Paydays(c.y.Year))))
		}
	}
	return excluded
}

// careEarnings is the earned income that limits the expenses: the taxpayer's,
// on a joint return the lower of the two. A spouse who is a full-time student, or
// not able to care for themselves, is treated as earning an amount in each month
// of that: of study the five months that make a student are certain, the other is
// taken to last all year. Only one of two is so treated in the same month.
//
// IRC 21(d)(1), (d)(2); Instructions for Form 2441, p. 4.
func (c *computation) careEarnings() money.Amount {
	self := c.work[household.OfSelf].EarnedIncome
	if !c.h.Joint() {
		return self
	}
	spouse := c.work[household.OfSpouse].EarnedIncome
	least := money.Zero
	if months := c.treatedMonths(); months > 0 {
		month := c.y.DependentCare.Student.One
		if c.carePersons() > 1 {
			month = c.y.DependentCare.Student.More
		}
		least = month.Times(months)
	}
	if self.Less(spouse) {
		return money.Min(money.Max(self, least), spouse)
	}
	return money.Min(self, money.Max(spouse, least))
}

// treatedMonths are the months in which the spouse with the lower earned income
// is treated as earning an amount.
func (c *computation) treatedMonths() int {
	e := household.OfSpouse
	if c.work[household.OfSelf].EarnedIncome.Less(c.work[household.OfSpouse].EarnedIncome) {
		e = household.OfSelf
	}
	switch p := c.h.Person(e); {
	case p.Disabled:
		return int(time.December)
	case p.FullTimeStudent:
		return c.y.DependentCare.Student.Months
	}
	return 0
}

// careRate is the top rate, less a point for each step of adjusted gross income
// begun above the start, down to a floor; and from 2026 less a further point for
// each step begun above a second start, down to a lower floor.
//
// IRC 21(a)(2); Form 2441 line 8.
func (c *computation) careRate() money.Rate {
	d, income := c.y.DependentCare, c.AdjustedGrossIncome
	rate := lowerBySteps(d.TopRate, d.PerStep, income.Sub(d.FirstFrom), d.FirstStep, d.FirstLeast)
	if s := d.Second; s != nil {
		rate = lowerBySteps(rate, d.PerStep, income.Sub(s.From.Of(c.Status)), s.Step.Of(c.Status), s.Least)
	}
	return rate
}

// lowerBySteps takes a part off a rate for each step begun of an excess, down
// to a floor.
func lowerBySteps(rate, part money.Rate, excess, step money.Amount, floor money.Rate) money.Rate {
	lowered := rate.Sub(part.Times(excess.OrZero().StepsBegun(step)))
	if lowered.Cmp(floor) < 0 {
		return floor
	}
	return lowered
}
