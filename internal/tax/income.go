package tax

import (
	"strconv"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/worksheet"
)

// incomeParts are the lines of total income. Amounts are dollars for the year.
type incomeParts struct {
	Wages              money.Amount // Form 1040 line 1z
	Interest           money.Amount // taxable; line 2b
	OrdinaryDividends  money.Amount // line 3b
	QualifiedDividends money.Amount // line 3a, within OrdinaryDividends
	Pensions           money.Amount // taxable; lines 4b and 5b
	Benefits           money.Amount // social security benefits before any tax, line 6a
	TaxableBenefits    money.Amount // line 6b
	CapitalGain        money.Amount // line 7a: the year's net gain, or the part of the loss that may be deducted (negative)
	NetCapitalGain     money.Amount // IRC 1222(11): net long-term gain over net short-term loss; no dividends; never negative
	SelfEmployment     money.Amount // net profit of all earners; may be negative
	Unemployment       money.Amount
	Gambling           money.Amount // winnings
	Other              money.Amount // may be negative
}

// beforeBenefits is total income without the part of social security benefits
// that is taxed, which turns on it.
func (p *incomeParts) beforeBenefits() money.Amount {
	sum := p.TaxableBenefits.Neg()
	for _, part := range p.parts() {
		sum = sum.Add(part.amount)
	}
	return sum
}

// Preferred is the income that the rates for capital gains may reach: net
// capital gain and qualified dividends (IRC 1(h)(11)).
func (p incomeParts) Preferred() money.Amount { return p.NetCapitalGain.Add(p.QualifiedDividends) }

// workParts are one earner's wages and self-employment. Amounts are dollars
// for the year.
type workParts struct {
	Wages               money.Amount // box 1 of the earner's jobs, no pensions
	SocialSecurityWages money.Amount // box 3 of the earner's jobs, as each employer counts them
	MedicareWages       money.Amount // box 5
	SelfEmploymentNet   money.Amount // net profit; may be negative
	NetEarnings         money.Amount // IRC 1402(a); zero where below the least that is taxed
	SelfEmploymentTax   money.Amount // Schedule SE line 12
	HalfDeduction       money.Amount // Schedule SE line 13
	RetirementDeduction money.Amount // of one's own plan, Schedule 1 line 16
	HealthDeduction     money.Amount // health insurance of the self-employed, Schedule 1 line 17
	EarnedIncome        money.Amount // wages and net profit, less HalfDeduction; may be negative
}

// totalIncome adds up the year's income.
//
// IRC 61(a); Form 1040 lines 1 to 9.
func (c *computation) totalIncome() {
	c.wages()
	c.interest()
	c.dividends()
	c.pensions()

	// Benefits are taxed by what else there is: by lines further down, and by
	// the adjustments.
	below := c.aside(c.capitalGain, c.businessIncome, c.unemployment, c.gamblingWinnings, c.otherIncome)
	lines := c.aside(c.selfEmploymentTax, c.educator, c.healthSavings, c.halfSelfEmploymentTax, c.ownRetirement)
	after := c.aside(c.retirementArrangement, c.otherAdjustments)
	lines.Append(c.aside(c.ownHealth)) // by all other adjustments
	lines.Append(after)
	c.adjustments.lines = lines
	c.benefits()
	c.s.Append(below)
	c.TaxableBenefits, c.CapitalGain = c.income.TaxableBenefits, c.income.CapitalGain

	parts := c.income.parts()
	c.TotalIncome = c.total(worksheet.Line{
		ID:     "tax.total_income",
		Form:   "Form 1040 line 9",
		Source: "IRC 61(a)",
	}, parts[:]...)
}

// parts are the lines of total income, in the order of the form.
func (p *incomeParts) parts() [10]part {
	return [10]part{
		{"tax.wages", p.Wages},
		{"tax.interest", p.Interest},
		{"tax.ordinary_dividends", p.OrdinaryDividends},
		{"tax.pensions", p.Pensions},
		{"tax.taxable_benefits", p.TaxableBenefits},
		{"tax.capital_gain", p.CapitalGain},
		{"tax.business_income", p.SelfEmployment},
		{"tax.unemployment", p.Unemployment},
		{"tax.gambling_winnings", p.Gambling},
		{"tax.other_income", p.Other},
	}
}

// counts reports whether an earner is on this return.
func (c *computation) counts(e household.Earner) bool {
	return e == household.OfSelf || c.h.Joint()
}

// wages is the pay of all jobs on this return, pensions apart, and each
// earner's share of it.
//
// IRC 61(a)(1).
func (c *computation) wages() {
	for _, p := range c.pay {
		if p.Kind == household.Pension || !c.counts(p.Earner) {
			continue
		}
		w := &c.work[p.Earner]
		w.Wages = w.Wages.Add(p.TaxableWages)
		w.SocialSecurityWages = w.SocialSecurityWages.Add(p.SocialSecurityWages)
		w.MedicareWages = w.MedicareWages.Add(p.MedicareWages)
		c.income.Wages = c.income.Wages.Add(p.TaxableWages)
	}
	c.Wages = c.income.Wages
	if c.s != nil && !c.Wages.IsZero() {
		c.s.Add(worksheet.Line{
			ID:     "tax.wages",
			Form:   "Form 1040 line 1z",
			Amount: c.Wages,
			How:    c.payArithmetic(household.Wages, money.Zero),
			From:   c.payAnswers(household.Wages),
			Source: "IRC 61(a)(1)",
		})
	}
}

// payArithmetic is the year's pay of each job of a kind on this return as it adds
// up: the year so far, the paydays to come, and one-time pay; and another amount
// beside. The answers that it came from are payAnswers.
func (c *computation) payArithmetic(kind household.JobKind, beside money.Amount) worksheet.How {
	var a arithmetic
	for _, p := range c.pay {
		if p.Kind != kind || !c.counts(p.Earner) {
			continue
		}
		m := p.Makeup
		if !money.Sum(m.SoFar, m.Ordinary.Times(m.Paydays), m.OneTime).Equal(p.TaxableWages) {
			a.add(p.TaxableWages)
			continue
		}
		a.add(m.SoFar)
		a.times(m.Paydays, m.Ordinary)
		a.add(m.OneTime)
	}
	a.add(beside)
	return a.how()
}

// payAnswers are the keys of the answers that the year's pay of each job of a
// kind came from.
func (c *computation) payAnswers(kind household.JobKind) []string {
	var keys []string
	for _, p := range c.pay {
		if p.Kind != kind || !c.counts(p.Earner) || p.TaxableWages.IsZero() {
			continue
		}
		var j household.Job
		if p.Job < len(c.h.Jobs) {
			j = c.h.Jobs[p.Job]
		}
		for _, answer := range j.PayAnswers() {
			keys = append(keys, jobKey(p.Job, answer))
		}
	}
	return keys
}

// jobKey is the key of an answer about a job.
func jobKey(job int, answer string) string { return "jobs[" + strconv.Itoa(job) + "]." + answer }

// given records an amount that the return takes as the answers give it; none
// where there is none.
func (c *computation) given(id, form, key, source string, amount money.Amount) money.Amount {
	if amount.IsZero() || c.s == nil {
		return amount
	}
	return c.s.Add(worksheet.Line{
		ID: id, Form: form, Amount: amount,
		How: c.how("given"), From: []string{key}, Source: source,
	})
}

// interest is the year's taxable interest. What is exempt is written down, since
// some tests of income count it.
//
// IRC 61(a)(4), 103(a).
func (c *computation) interest() {
	c.given("tax.tax_exempt_interest", "Form 1040 line 2a", "income.tax_exempt_interest", "IRC 103(a)", c.h.Income.TaxExemptInterest)
	c.income.Interest = c.given("tax.interest", "Form 1040 line 2b", "income.interest", "IRC 61(a)(4)", c.h.Income.Interest)
}

// dividends are the year's ordinary dividends, and within them the qualified
// ones, which are income once but taxed at the rates for capital gains.
//
// IRC 61(a)(7); IRC 1(h)(11), qualified dividends.
func (c *computation) dividends() {
	in := c.h.Income
	c.income.QualifiedDividends = c.given("tax.qualified_dividends", "Form 1040 line 3a", "income.qualified_dividends", "IRC 1(h)(11)", in.QualifiedDividends)
	c.income.OrdinaryDividends = c.given("tax.ordinary_dividends", "Form 1040 line 3b", "income.ordinary_dividends", "IRC 61(a)(7)", in.OrdinaryDividends)
}

// pensions are the taxable part of pensions, annuities and distributions:
// those paid at intervals, which withhold like a job, and all others.
//
// IRC 61(a)(8), 72, 408(d).
func (c *computation) pensions() {
	other := c.h.Income.Retirement
	c.income.Pensions = other
	for _, p := range c.pay {
		if p.Kind == household.Pension && c.counts(p.Earner) {
			c.income.Pensions = c.income.Pensions.Add(p.TaxableWages)
		}
	}
	if c.s != nil && !c.income.Pensions.IsZero() {
		c.s.Add(worksheet.Line{
			ID:     "tax.pensions",
			Form:   "Form 1040 lines 4b, 5b",
			Amount: c.income.Pensions,
			How:    c.payArithmetic(household.Pension, other),
			From:   append(c.payAnswers(household.Pension), c.from(part{"income.retirement", other})...),
			Source: "IRC 61(a)(8), 72, 408(d)",
		})
	}
}

// unemployment is unemployment compensation, all of it taxed.
//
// IRC 85(a).
func (c *computation) unemployment() {
	c.income.Unemployment = c.given("tax.unemployment", "Schedule 1 line 7", "income.unemployment", "IRC 85(a)", c.h.Income.Unemployment)
}

// otherIncome is what no other line takes; a loss comes off.
//
// IRC 61(a).
func (c *computation) otherIncome() {
	c.income.Other = c.given("tax.other_income", "Schedule 1 line 8z", "income.other", "IRC 61(a)", c.h.Income.Other)
}
