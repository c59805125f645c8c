package tax

import (
	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/words"
	"example.com/plumbline/internal/worksheet"
)

// deductionParts are the deductions from adjusted gross income, in dollars for
// the year. The parts of Schedule A are worked out whether it is used or not:
// Return.Itemized says.
type deductionParts struct {
	Standard         money.Amount // what the standard deduction would be
	Medical          money.Amount // above the floor
	StateLocal       money.Amount // within the cap
	Mortgage         money.Amount // interest, and premiums from 2026
	Gifts            money.Amount // within the limits, above the floor
	GamblingLosses   money.Amount // within the winnings
	OtherItemized    money.Amount
	OverallReduction money.Amount // IRC 68, from 2026
	Itemized         money.Amount // all of Schedule A, less OverallReduction

	Tips             money.Amount // Schedule 1-A Part II
	Overtime         money.Amount // Part III
	CarLoan          money.Amount // Part IV
	Senior           money.Amount // Part V; a deduction of IRC 151
	GiftsNotItemized money.Amount // IRC 170(p), from 2026
}

// takeDeductions takes the deductions off adjusted gross income: the standard
// deduction or Schedule A, the qualified business income deduction, and those
// that come on top of either.
//
// IRC 63(a), (b); Form 1040 lines 12e to 15.
func (c *computation) takeDeductions() {
	extra := c.aside(c.tips, c.overtime, c.carLoan, c.senior)
	c.standardDeduction()
	c.scheduleA()
	c.standardOrItemized()
	c.businessDeduction()
	c.s.Append(extra)
	c.extraDeductions()
	c.taxableIncome()
}

// extraDeductions are those that come on top of the standard deduction or
// Schedule A, the qualified business income deduction apart.
//
// IRC 63(b)(4), (7), 151(d)(5)(C); Schedule 1-A line 38.
func (c *computation) extraDeductions() {
	d := &c.deductions
	c.ExtraDeductions = c.totalIfAny(worksheet.Line{
		ID:     "tax.extra_deductions",
		Form:   "Form 1040 line 13b",
		Source: "IRC 63(b); Schedule 1-A line 38",
	},
		part{"tax.tips", d.Tips},
		part{"tax.overtime", d.Overtime},
		part{"tax.car_loan_interest", d.CarLoan},
		part{"tax.senior", d.Senior},
		part{"tax.gifts_without_itemizing", d.GiftsNotItemized},
	)
}

// scheduleOneA is the total of Schedule 1-A.
func (c *computation) scheduleOneA() money.Amount {
	d := &c.deductions
	return money.Sum(d.Tips, d.Overtime, d.CarLoan, d.Senior)
}

// taxableIncome is what the deductions leave of adjusted gross income.
//
// IRC 63(a), (b); Form 1040 line 15.
func (c *computation) taxableIncome() {
	parts := []part{
		{"tax.adjusted_gross_income", c.AdjustedGrossIncome},
		{"tax.deduction", c.StandardOrItemized.Neg()},
		{"tax.business_deduction", c.BusinessDeduction.Neg()},
		{"tax.extra_deductions", c.ExtraDeductions.Neg()},
	}
	left, how := c.sum(parts...)
	c.TaxableIncome = c.s.Add(worksheet.Line{
		ID:     "tax.taxable_income",
		Form:   "Form 1040 line 15",
		Amount: left.OrZero(),
		How:    how,
		From:   c.from(parts...),
		Source: "IRC 63(a), (b)",
	})
}

// standardDeduction is the basic amount of the filing status, held to less for
// a dependent, and an addition for each of age and blindness of each person on
// the return. There is none on a separate return where the spouse itemizes.
//
// IRC 63(c)(1) to (3), 63(f), additions; 63(c)(5), dependents; 63(c)(6)(A),
// the spouse who itemizes.
func (c *computation) standardDeduction() {
	d := &c.y.StandardDeduction
	l := worksheet.Line{
		ID:     "tax.standard_deduction",
		How:    c.how("spouse_itemizes"),
		From:   []string{"deductions.spouse_itemizes"},
		Source: c.cite("IRC 63(c)(6)(A)", d.Citation),
	}
	if !c.spouseItemizes() {
		basic, n := c.basicDeduction(), c.additions()
		each := d.AgedOrBlind.Of(c.Status)
		l.Amount = basic.Add(each.Times(n))
		l.How = c.how("standard", "basic", basic, "additions", n, "each", each)
		l.From = []string{"filing_status", "self"}
		l.Source = c.cite("IRC 63(c), (f)", d.Citation)
	}
	c.deductions.Standard = c.s.Add(l)
}

// spouseItemizes reports whether the spouse itemizes on a return of their own,
// so that this one has no standard deduction.
func (c *computation) spouseItemizes() bool { return c.separate() && c.h.Deductions.SpouseItemizes }

// basicDeduction is the basic standard deduction. For someone who can be
// claimed as a dependent it is a least amount, or what is earned and a little
// more, but never more than the ordinary one.
//
// IRC 63(c)(2), (c)(5); Standard Deduction Worksheet for Dependents.
func (c *computation) basicDeduction() money.Amount {
	d := &c.y.StandardDeduction
	basic := d.Basic.Of(c.Status)
	if !c.h.Self.CanBeClaimed && !(c.h.Joint() && c.h.Person(household.OfSpouse).CanBeClaimed) {
		return basic
	}
	earned := c.work[household.OfSelf].EarnedIncome.Add(c.work[household.OfSpouse].EarnedIncome)
	return c.s.Add(worksheet.Line{
		ID:     "tax.dependent_basic_deduction",
		Amount: money.Min(money.Max(d.DependentLeast, earned.Add(d.DependentEarnedPlus)), basic),
		How:    c.how("dependent_basic", "least", d.DependentLeast, "earned", earned, "plus", d.DependentEarnedPlus, "basic", basic),
		From: append([]string{"self.can_be_claimed"}, c.from(
			part{"tax.wages", c.Wages}, part{"tax.business_income", c.income.SelfEmployment}, part{"tax.half_self_employment_tax", c.adjustments.HalfSelfEmployment})...),
		Source: c.cite("IRC 63(c)(5)", d.Citation),
	})
}

// additions counts age and blindness of the people on the return. A spouse's,
// which a separate return may have in rare cases, are not counted.
//
// IRC 63(f)(1), (2), 151(b).
func (c *computation) additions() int {
	n := 0
	for _, e := range c.earners() {
		p := c.h.Person(e)
		if c.reached(p, c.y.StandardDeduction.AgedFrom) {
			n++
		}
		if p.Blind {
			n++
		}
	}
	if c.separate() && c.h.Spouse != nil && (c.h.Spouse.Blind || c.reached(*c.h.Spouse, c.y.StandardDeduction.AgedFrom)) {
		c.note("spouse_addition")
	}
	return n
}

// reached reports whether a person has reached an age by the end of the year,
// on the day before the birthday; not where the birth date is not known.
func (c *computation) reached(p household.Person, age int) bool {
	return !p.BirthDate.IsZero() && p.BirthDate.BirthdayAge(c.Year) >= age
}

// standardOrItemized takes the larger of the standard deduction, with the
// gifts that may be deducted beside it, and Schedule A.
//
// IRC 63(b), (e), the election to itemize; 170(p), gifts.
func (c *computation) standardOrItemized() {
	d := &c.deductions
	gifts := c.giftsNotItemized()
	other := d.Standard.Add(gifts)
	c.Itemized = d.Itemized.More(other) || c.spouseItemizes() && d.Itemized.Equal(other)
	l := worksheet.Line{
		ID:     "tax.deduction",
		Form:   "Form 1040 line 12e",
		Amount: d.Standard,
		How:    c.how("take_standard", "standard", d.Standard, "gifts", gifts, "itemized", d.Itemized),
		From:   append([]string{"tax.standard_deduction"}, c.from(part{"tax.itemized", d.Itemized})...),
		Source: "IRC 63(b), (e)",
	}
	if c.Itemized {
		l.Name, l.Amount = words.T("line.tax.deduction.itemized"), d.Itemized
		l.How = c.how("take_itemized", "itemized", d.Itemized, "standard", d.Standard, "gifts", gifts)
	}
	if c.spouseItemizes() {
		l.How = c.how("no_standard", "itemized", d.Itemized)
	}
	c.StandardOrItemized = c.s.Add(l)
	if !c.Itemized && gifts.IsPositive() {
		d.GiftsNotItemized = c.s.Add(worksheet.Line{
			ID:     "tax.gifts_without_itemizing",
			Amount: gifts,
			How:    c.how("at_most", "paid", c.h.Deductions.CharityCash, "most", c.y.PlainGifts.Cap.Of(c.Status)),
			From:   []string{"deductions.charity_cash"},
			Source: c.cite("IRC 170(p)", c.y.PlainGifts.Citation),
		})
	}
}

// giftsNotItemized are the gifts of cash that may be deducted without
// itemizing, up to the filing status's cap; none before 2026.
//
// IRC 170(p).
func (c *computation) giftsNotItemized() money.Amount {
	return money.Min(c.h.Deductions.CharityCash, c.y.PlainGifts.Cap.Of(c.Status))
}
