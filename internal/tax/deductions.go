package tax

import "example.com/plumbline/internal/money"

// deductionParts are the deductions from adjusted gross income, in dollars for
// the year. The parts of Schedule A are worked out whether it is used or not:
// Return.Itemized says.
type deductionParts struct {
	Standard         money.Amount // what the standard deduction would be
	Medical          money.Amount // above the floor
	StateLocal       money.Amount // within the cap
	Mortgage         money.Amount // interest, and premiums from 2026
	Gifts            money.Amount // within the limits, above the floor
	OtherItemized    money.Amount
	OverallReduction money.Amount // IRC 68, from 2026
	Itemized         money.Amount // all of Schedule A, less OverallReduction

	Tips             money.Amount // Schedule 1-A Part II
	Overtime         money.Amount // Part III
	CarLoan          money.Amount // Part IV
	Senior           money.Amount // Part V; a deduction of IRC 151
	GiftsNotItemized money.Amount // IRC 170(p), from 2026
}

// takeDeductions takes the deductions off adjusted gross income.
func (c *computation) takeDeductions() {}
