package tax

import (
	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/tables"
	"example.com/plumbline/internal/worksheet"
)

// Counting is as what a dependent counts (IRC 152).
type Counting int8

// The two kinds of dependent, and neither.
const (
	NotCounted         Counting = iota
	QualifyingChild             // IRC 152(c)
	QualifyingRelative          // IRC 152(d)
)

// Standing is what one person in the answers counts for on this return.
type Standing struct {
	Counts          Counting
	ChildCredit     bool   // child tax credit, IRC 24(a)
	OtherCredit     bool   // credit for other dependents, IRC 24(h)(4)
	EarnedIncome    bool   // qualifying child for the earned income credit, IRC 32(c)(3)
	CareCredit      bool   // qualifying person for the dependent care credit, IRC 21(b)(1)
	HeadOfHousehold bool   // qualifying person for head of household, IRC 2(b)
	Reason          string // one plain sentence with the test that decided
	Notes           []worksheet.Note
}

// Standings are the standings of the household's dependents, in their order.
func Standings(h household.Household, y *tables.Year) []Standing {
	return make([]Standing, len(h.Dependents))
}
