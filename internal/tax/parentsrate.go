package tax

import (
	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/tables"
	"example.com/plumbline/internal/worksheet"
)

// parentsRateApplies reports whether the return may be that of a child under
// IRC 1(g): one who can be claimed, younger than a student can be to count as a
// child, whose unearned income is more than twice the least standard deduction
// of a dependent (IRC 1(g)(4)(A)(ii)).
func (c *computation) parentsRateApplies() bool {
	return c.netUnearned().IsPositive() && OfParentsRateAge(c.h.Self, c.y)
}

// OfParentsRateAge reports whether one is young enough for the parents' rate, or
// may be.
//
// IRC 1(g)(2)(A).
func OfParentsRateAge(p household.Person, y *tables.Year) bool {
	return p.BirthDate.IsZero() || p.BirthDate.BirthdayAge(y.Year) < y.DependentTests.Child.StudentUnder
}

// netUnearned is the unearned income of one who can be claimed above what is free
// of the parents' rate, Form 8615 line 3.
//
// IRC 1(g)(4)(A).
func (c *computation) netUnearned() money.Amount {
	if !c.h.Self.CanBeClaimed || c.h.Joint() {
		return money.Zero
	}
	return c.unearned().Sub(c.unearnedFree()).OrZero()
}

// unearned is income other than pay and profit, Form 8615 line 1.
//
// IRC 1(g)(4)(A)(i).
func (c *computation) unearned() money.Amount {
	return c.TotalIncome.Sub(c.income.Wages).Sub(c.income.SelfEmployment)
}

// unearnedFree is the unearned income on which the parents' rate does not fall:
// twice the least standard deduction of a dependent. What itemizing would add to
// it is not counted.
//
// IRC 1(g)(4)(A)(ii); Form 8615 line 2.
func (c *computation) unearnedFree() money.Amount {
	return c.y.StandardDeduction.DependentLeast.Times(2)
}

// parentsRate is the tax of a child on whose net unearned income falls what it
// would add to the parents' tax; own is the tax without that. Net unearned
// income is taken to hold the same share of capital gains and qualified
// dividends as all unearned income, or all of them where it is all of taxable
// income. Brothers and sisters with such income are not counted.
//
// IRC 1(g)(1), (3), (4); Form 8615 lines 3 to 16; Instructions for Form 8615,
// Line 5 Worksheet 1. The line numbers are from memory.
func (c *computation) parentsRate(own money.Amount) money.Amount {
	p, preferred := c.h.Parents, c.income.Preferred()
	unearned := c.unearned()
	net := c.TaxedAsParents                      // line 3
	atParents := money.Min(net, c.TaxableIncome) // line 5
	gains := preferred.At(net.Over(unearned))    // of line 5
	if net.More(c.TaxableIncome) {
		gains = preferred
	}
	gains = money.Min(gains, atParents)
	theirs := p.TaxableIncome.OrZero() // line 6
	theirGains := p.QualifiedDividends.Add(p.NetCapitalGain)
	together := c.taxOf(theirs.Add(atParents), theirGains.Add(gains), p.Status)     // line 9
	alone := c.taxOf(theirs, theirGains, p.Status)                                  // line 10
	rest := c.taxOf(c.TaxableIncome.Sub(atParents), preferred.Sub(gains), c.Status) // line 15
	return c.s.Add(worksheet.Line{
		ID:     "tax.parents_rate",
		Form:   "Form 8615 line 16",
		Amount: together.Sub(alone).Add(rest),
		How:    c.how("parents_rate", "together", together, "alone", alone, "unearned", atParents, "rest", rest, "own", own),
		From:   []string{"tax.taxable_income", "parents.taxable_income"},
		Source: c.cite("IRC 1(g)", c.y.Schedules.Citation),
	})
}

// taxOf is the income tax on taxable income, some of it at the rates for
// capital gains, of anyone with a filing status.
func (c *computation) taxOf(taxable, preferred money.Amount, status household.Status) money.Amount {
	other := computation{y: c.y, m: c.m}
	other.Status, other.TaxableIncome, other.income.QualifiedDividends = status, taxable, preferred
	other.incomeTax()
	return other.IncomeTax
}
