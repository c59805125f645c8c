package tax

import "example.com/plumbline/internal/money"

// creditParts is what the credits' rules leave for each other. Amounts are
// dollars for the year.
type creditParts struct {
	taxLeft          money.Amount // income tax and minimum tax that no credit has met yet
	childUnused      money.Amount // child tax credit for which no tax was left
	opportunityCash  money.Amount // American opportunity credit, refundable part
	expectedEarnings money.Amount // earned income for the refundable child credit and the earned income credit
}

// nonrefundable takes the nonrefundable credits, in the order of Schedule 3
// and Form 1040 line 19, each against the tax that the ones before left.
func (c *computation) nonrefundable() {}
