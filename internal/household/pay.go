package household

import "example.com/plumbline/internal/money"

// YearPay is one job's whole year as it is on the Form W-2 or 1099-R:
// dollars for the year. Payroll works it out; the return reads it.
type YearPay struct {
	Job                   int // index into Household.Jobs
	Earner                Earner
	Kind                  JobKind
	TaxableWages          money.Amount // box 1; for a pension, its taxable amount
	SocialSecurityWages   money.Amount // box 3, up to the wage base; zero for a pension
	MedicareWages         money.Amount // box 5; zero for a pension
	Makeup                PayMakeup    // what TaxableWages adds up from
	FederalTax            money.Amount // box 2
	SocialSecurityTax     money.Amount // box 4
	MedicareTax           money.Amount // box 6 less AdditionalMedicareTax
	AdditionalMedicareTax money.Amount // the part of box 6 that IRC 3102(f) adds
}

// PayMakeup is what a job's pay for the year adds up from: what the last stub
// shows so far, the paydays to come at the ordinary pay, and one-time pay to
// come.
type PayMakeup struct {
	SoFar    money.Amount
	Paydays  int
	Ordinary money.Amount // of one payday
	OneTime  money.Amount
}
