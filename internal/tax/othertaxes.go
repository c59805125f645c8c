package tax

import (
	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/worksheet"
)

// otherTaxes adds the taxes that no nonrefundable credit meets, and totals the
// year's tax.
//
// Form 1040 lines 22 to 24.
func (c *computation) otherTaxes() {
	c.additionalMedicare()
	c.netInvestment()
	c.earlyWithdrawal()
	c.HouseholdWorkersTax = c.given("tax.household_workers", "Schedule 2 line 9", "other_taxes.household_workers", "IRC 3111, 3301; Schedule H", c.h.OtherTaxes.HouseholdWorkers)
	c.TotalTax = c.total(worksheet.Line{
		ID:     "tax.total_tax",
		Form:   "Form 1040 line 24",
		Source: "Form 1040 lines 16-24",
	},
		part{"tax.income_tax", c.IncomeTax},
		part{"tax.excess_advance", c.ExcessAdvance},
		part{"tax.alternative_minimum_tax", c.AlternativeMinimumTax},
		part{"tax.nonrefundable_credits", c.NonrefundableCredits.Neg()},
		part{"tax.self_employment_tax", c.SelfEmploymentTax},
		part{"tax.additional_medicare_tax", c.AdditionalMedicareTax},
		part{"tax.net_investment_income_tax", c.NetInvestmentTax},
		part{"tax.early_withdrawal", c.EarlyWithdrawalTax},
		part{"tax.household_workers", c.HouseholdWorkersTax},
	)
}

// additionalMedicare is a further Medicare tax on wages above a threshold of
// the filing status, and on self-employment income above what the wages leave
// of it.
//
// IRC 3101(b)(2), 1401(b)(2); Form 8959 Parts I, II and IV.
func (c *computation) additionalMedicare() {
	a := c.y.AdditionalMedicare
	onWages, onSelfEmployment := c.additionalMedicareParts()
	c.AdditionalMedicareTax = onWages.Add(onSelfEmployment).ToCent()
	if c.AdditionalMedicareTax.IsZero() {
		return
	}
	wages, earnings := c.medicareBase()
	c.s.Add(worksheet.Line{
		ID:     "tax.additional_medicare_tax",
		Form:   "Schedule 2 line 11",
		Amount: c.AdditionalMedicareTax,
		How:    c.how("additional_medicare", "rate", a.Rate, "wages", wages, "earnings", earnings, "over", a.Over.Of(c.Status)),
		From: c.from(
			part{"tax.wages", c.income.Wages},
			part{"tax.net_earnings.self", c.work[household.OfSelf].NetEarnings},
			part{"tax.net_earnings.spouse", c.work[household.OfSpouse].NetEarnings},
		),
		Source: c.cite("IRC 3101(b)(2), 1401(b)(2)", a.Citation),
	})
}

// additionalMedicareParts are the tax on wages, Form 8959 line 7, and on
// self-employment income, line 13.
func (c *computation) additionalMedicareParts() (onWages, onSelfEmployment money.Amount) {
	a := c.y.AdditionalMedicare
	over := a.Over.Of(c.Status)
	wages, earnings := c.medicareBase()
	onWages = wages.Sub(over).OrZero().At(a.Rate)
	left := over.Sub(wages).OrZero()
	return onWages, earnings.Sub(left).OrZero().At(a.Rate)
}

// medicareBase is the Medicare wages and net earnings from self-employment of
// all earners on the return.
func (c *computation) medicareBase() (wages, earnings money.Amount) {
	for _, w := range c.work {
		wages, earnings = wages.Add(w.MedicareWages), earnings.Add(w.NetEarnings.OrZero())
	}
	return wages, earnings
}

// netInvestment is a tax on the smaller of net investment income and the
// adjusted gross income above a threshold. Interest, dividends and capital gain
// are the investment income that the answers know; a capital loss reduces it as
// far as it may be deducted. No deduction for state income tax is taken, since
// the answers do not tell which part falls on investment.
//
// IRC 1411(a)(1), 1411(c); Reg. 1.1411-4(f)(4) for losses; Form 8960.
func (c *computation) netInvestment() {
	n := c.y.NetInvestment
	income := money.Sum(c.income.Interest, c.income.OrdinaryDividends, c.income.CapitalGain).OrZero()
	over := c.AdjustedGrossIncome.Sub(n.Over.Of(c.Status)).OrZero()
	c.NetInvestmentTax = money.Min(income, over).At(n.Rate).ToCent()
	if c.NetInvestmentTax.IsZero() {
		return
	}
	c.s.Add(worksheet.Line{
		ID:     "tax.net_investment_income_tax",
		Form:   "Schedule 2 line 12",
		Amount: c.NetInvestmentTax,
		How:    c.how("net_investment", "rate", n.Rate, "income", income, "over", over, "from", n.Over.Of(c.Status)),
		From: append([]string{"tax.adjusted_gross_income"}, c.from(
			part{"tax.interest", c.income.Interest},
			part{"tax.ordinary_dividends", c.income.OrdinaryDividends},
			part{"tax.capital_gain", c.income.CapitalGain},
		)...),
		Source: c.cite("IRC 1411", n.Citation),
	})
}

// separate reports whether this is the separate return of a married person.
func (c *computation) separate() bool { return c.Status == household.MarriedFilingSeparately }
