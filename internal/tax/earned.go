package tax

import (
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/tables"
	"example.com/plumbline/internal/worksheet"
)

// earnedIncomeCredit is a share of earned income up to an amount, less a share
// of what adjusted gross income, or earned income if that is more, has above a
// threshold; by the number of qualifying children.
//
// IRC 32(a), (b); Instructions for Form 1040, lines 27a to 27c.
func (c *computation) earnedIncomeCredit() money.Amount {
	earned := c.earnedIncome()
	children := c.earnedIncomeChildren()
	if !earned.IsPositive() || !c.mayHaveEarnedIncomeCredit(children) {
		return money.Zero
	}
	column := c.y.EarnedIncome.ByChildren[min(children, len(c.y.EarnedIncome.ByChildren)-1)]
	credit := c.earnedIncomeFormula(column, earned)
	how := c.how("earned_formula", "earned", earned, "income", c.AdjustedGrossIncome)
	if c.m == ByReturn {
		credit = c.earnedIncomeFromTable(column, earned)
		how = c.how("earned_table", "earned", earned, "income", c.AdjustedGrossIncome)
	}
	if credit.IsZero() {
		return credit
	}
	return c.s.Add(worksheet.Line{
		ID:     "tax.earned_income_credit",
		Form:   "Form 1040 line 27a",
		Amount: credit,
		How:    how,
		From:   c.earnedFrom(append(c.dependentsFrom(func(s Standing) bool { return s.EarnedIncome }, "birth_date"), "tax.adjusted_gross_income")...),
		Source: c.cite("IRC 32", c.y.EarnedIncome.Citation),
	})
}

// earnedIncomeChildren is the number of qualifying children for the credit.
//
// IRC 32(c)(3).
func (c *computation) earnedIncomeChildren() int {
	n := 0
	for _, s := range c.dependents {
		if s.EarnedIncome {
			n++
		}
	}
	return n
}

// mayHaveEarnedIncomeCredit holds the return against the tests other than
// income: numbers valid for work, nobody who can be claimed by another, no
// separate return but of one who lived apart with a qualifying child, no more
// investment income than the limit, and without a child an age within bounds.
//
// IRC 32(c)(1)(A)(ii), 32(d), 32(i), 32(m).
func (c *computation) mayHaveEarnedIncomeCredit(children int) bool {
	for _, e := range c.earners() {
		if p := c.h.Person(e); !p.HasSSN() || p.CanBeClaimed {
			return false
		}
	}
	if c.separate() && !(c.h.LivedApart && children > 0) {
		return false
	}
	if c.investmentIncome().More(c.y.EarnedIncome.InvestmentLimit) {
		return false
	}
	return children > 0 || c.ofAgeWithoutChild()
}

// investmentIncome is the interest, taxed or not, dividends and net capital gain that the
// credit allows only so much of; a loss does not reduce it.
//
// IRC 32(i)(2); Publication 596, rule 6.
func (c *computation) investmentIncome() money.Amount {
	return money.Sum(c.income.Interest, c.h.Income.TaxExemptInterest, c.income.OrdinaryDividends, c.income.CapitalGain.OrZero())
}

// ofAgeWithoutChild reports whether someone on the return is of an age at which
// the credit is given without a child. The lower age is reached on the day
// before the birthday; the upper one counts from the birthday, as the
// instructions do (born after December 31, 1960, for 2025). An age that is not
// known is taken as within the bounds.
//
// IRC 32(c)(1)(A)(ii)(II).
func (c *computation) ofAgeWithoutChild() bool {
	r := c.y.EarnedIncome
	for _, e := range c.earners() {
		born := c.h.Person(e).BirthDate
		if born.IsZero() || born.BirthdayAge(c.y.Year) >= r.ChildlessFrom && born.AgeAtEndOf(c.y.Year) < r.ChildlessTo {
			return true
		}
	}
	return false
}

// phaseOutOf is where a column's phase-out starts and is complete.
func (c *computation) phaseOutOf(column tables.EarnedColumn) (from, complete money.Amount) {
	if c.h.Joint() {
		return column.PhaseOutFromJoint, column.CompletePhaseOutJoint
	}
	return column.PhaseOutFrom, column.CompletePhaseOut
}

// earnedIncomeFormula is the credit by the words of the law, to the cent.
//
// IRC 32(a)(1) and (2).
func (c *computation) earnedIncomeFormula(column tables.EarnedColumn, earned money.Amount) money.Amount {
	from, _ := c.phaseOutOf(column)
	credit := money.Min(earned, column.EarnedAmount).At(column.PhaseInRate)
	income := money.Max(earned, c.AdjustedGrossIncome)
	limit := column.EarnedAmount.At(column.PhaseInRate).Sub(income.Sub(from).OrZero().At(column.PhaseOutRate))
	return money.Min(credit, limit).OrZero().ToCent()
}

// earnedIncomeFromTable reads the credit in the EIC Table on earned income, and
// on adjusted gross income where that has reached the phase-out, and takes the
// smaller.
//
// IRC 32(f); Instructions for Form 1040, EIC Worksheet A.
func (c *computation) earnedIncomeFromTable(column tables.EarnedColumn, earned money.Amount) money.Amount {
	from, complete := c.phaseOutOf(column)
	width := c.y.EarnedIncome.RowWidth
	credit := earnedTable(column, from, complete, width, earned)
	if !c.AdjustedGrossIncome.Less(from) {
		credit = money.Min(credit, earnedTable(column, from, complete, width, c.AdjustedGrossIncome))
	}
	return credit
}

// earnedTable is one look-up in the EIC Table: the credit on the middle of the
// amount's row, rounded to the dollar. A row that reaches the earned income
// amount has the maximum credit, and the last row ends where the phase-out is
// complete.
//
// IRC 32(f)(2); the construction gives the published table, 2025.
func earnedTable(column tables.EarnedColumn, from, complete, width, amount money.Amount) money.Amount {
	if !amount.Less(complete) {
		return money.Zero
	}
	bottom := amount.DownToMultiple(width)
	top := money.Min(bottom.Add(width), complete)
	middle := bottom.Add(top).DividedBy(2)
	credit := column.MaximumCredit
	if !top.More(column.EarnedAmount) {
		credit = money.Min(credit, middle.At(column.PhaseInRate))
	}
	return credit.Sub(middle.Sub(from).OrZero().At(column.PhaseOutRate)).OrZero().ToDollar()
}
