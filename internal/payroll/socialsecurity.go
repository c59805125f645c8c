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
	base := money.Min(wages, y.SocialSecurityTax.WageBase)
	high := wages.Sub(y.AdditionalMedicare.WithheldOver).OrZero()
	return socialTaxes{
		wages:              base,
		socialSecurity:     base.At(y.SocialSecurityTax.Rate).ToCent(),
		medicare:           wages.At(y.SocialSecurityTax.MedicareRate).ToCent(),
		additionalMedicare: high.At(y.AdditionalMedicare.Rate).ToCent(),
	}
}
