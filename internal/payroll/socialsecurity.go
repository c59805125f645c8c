package payroll

import (
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/tables"
)

// socialTaxes are the employee's social security and Medicare taxes on a
// year's wages from one employer, each to the cent.
type socialTaxes struct {
	wages              money.Amount // social security wages, up to the base
	socialSecurity     money.Amount
	medicare           money.Amount // without additional
	additionalMedicare money.Amount
}

// socialTaxesOn figures the taxes on the year's wages so far. Payroll takes
// from a paycheck what the taxes on the wages after it are more than those
// before it, so that fractions of a cent never add up.
//
// IRC 3101(a), (b)(1), and 3121(a)(1), the base; 3102(f), additional Medicare
// tax on the wages that one employer pays above the amount where withholding
// starts, whatever the filing status.
func socialTaxesOn(wages money.Amount, y *tables.Year) socialTaxes {
	base := money.Min(wages, y.SocialSecurityTax.WageBase.Amount)
	high := wages.Sub(y.AdditionalMedicare.WithheldOver).OrZero()
	return socialTaxes{
		wages:              base,
		socialSecurity:     base.At(y.SocialSecurityTax.Rate).ToCent(),
		medicare:           wages.At(y.SocialSecurityTax.MedicareRate).ToCent(),
		additionalMedicare: high.At(y.AdditionalMedicare.Rate).ToCent(),
	}
}

// Stub is what one paycheck's stub shows besides income tax: social security and
// Medicare taxes, and what is left to take home. Dollars, per paycheck.
type Stub struct {
	SocialWages    money.Amount // the pay that social security and Medicare taxes are on: with pre-tax retirement savings, and above the wage base too
	SocialSecurity money.Amount
	Medicare       money.Amount // with additional Medicare tax
	TakeHome       money.Amount // the pay less these and income tax; before state tax and what comes off after tax
}

// StubOf figures a paycheck's stub: its federal taxable wages, the income tax
// withheld, what it puts into pre-tax retirement savings (which social security
// and Medicare tax are taken from too), and the wages that this employer has
// paid this year before it, in social security wages.
//
// IRC 3101, 3102(f), 3121(a)(1), 3121(v)(1)(A).
func StubOf(wages, withheld, retirement, before money.Amount, y *tables.Year) Stub {
	social := wages.Add(retirement)
	so, to := socialTaxesOn(before, y), socialTaxesOn(before.Add(social), y)
	s := Stub{
		SocialWages:    social,
		SocialSecurity: to.socialSecurity.Sub(so.socialSecurity),
		Medicare:       to.medicare.Add(to.additionalMedicare).Sub(so.medicare).Sub(so.additionalMedicare),
	}
	s.TakeHome = wages.Sub(money.Sum(withheld, s.SocialSecurity, s.Medicare))
	return s
}
