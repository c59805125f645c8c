package tax

import "example.com/plumbline/internal/money"

// adjustmentParts are the adjustments taken, Schedule 1 Part II, in dollars
// for the year.
type adjustmentParts struct {
	Educator           money.Amount
	HSA                money.Amount
	HalfSelfEmployment money.Amount
	IRA                money.Amount
	StudentLoan        money.Amount
	Other              money.Amount
}

// adjustedGrossIncome takes the adjustments off total income.
func (c *computation) adjustedGrossIncome() {}
