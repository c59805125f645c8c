package tables

import (
	"fmt"
	"math/big"

	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/words"
	"example.com/plumbline/internal/yamldoc"
)

// EarnedIncome is the earned income credit: IRC 32.
type EarnedIncome struct {
	Citation        `yaml:",inline"`
	InvestmentLimit money.Amount   `yaml:"investment_income_limit,required"`
	ChildlessFrom   int            `yaml:"childless_from_age,required"`
	ChildlessTo     int            `yaml:"childless_under_age,required"`
	RowWidth        money.Amount   `yaml:"table_row_width,required"` // the EIC Table's rows
	ByChildren      []EarnedColumn `yaml:"by_children,required"`     // 0, 1, 2, 3 or more
}

// Check asks for the columns of no child to three and more.
func (c *EarnedIncome) Check(report yamldoc.Report) {
	const columns = 4
	if n := len(c.ByChildren); n != columns {
		report("by_children", words.T("tables.by_children", "n", n, "needed", columns))
	}
	positive(report, "table_row_width", c.RowWidth)
}

// EarnedColumn is the credit's shape for a number of children.
type EarnedColumn struct {
	EarnedAmount          money.Amount `yaml:"earned_income_amount,required"`
	MaximumCredit         money.Amount `yaml:"maximum_credit,required"`
	PhaseInRate           money.Rate   `yaml:"phase_in_rate,required"`
	PhaseOutRate          money.Rate   `yaml:"phase_out_rate,required"`
	PhaseOutFrom          money.Amount `yaml:"phase_out_from,required"`
	PhaseOutFromJoint     money.Amount `yaml:"phase_out_from_joint,required"`
	CompletePhaseOut      money.Amount `yaml:"completed_phase_out,required"`
	CompletePhaseOutJoint money.Amount `yaml:"completed_phase_out_joint,required"`
}

// Check asks that the phase-outs do not end before they begin.
func (c *EarnedColumn) Check(report yamldoc.Report) {
	if c.CompletePhaseOut.Less(c.PhaseOutFrom) {
		report("completed_phase_out", endsEarly("phase_out", c.CompletePhaseOut.Text(), c.PhaseOutFrom.Text()))
	}
	if c.CompletePhaseOutJoint.Less(c.PhaseOutFromJoint) {
		report("completed_phase_out_joint", endsEarly("phase_out", c.CompletePhaseOutJoint.Text(), c.PhaseOutFromJoint.Text()))
	}
}

// creditEnds are the maximum credits and where they are phased out, to the
// dollar as the revenue procedure prints them: IRC 32(a), (b).
func (y *Year) creditEnds() map[string]string {
	all := map[string]string{}
	for i, c := range y.EarnedIncome.ByChildren {
		most := c.EarnedAmount.At(c.PhaseInRate).ToDollar()
		lost := new(big.Rat).Quo(ratOf(most), rateRat(c.PhaseOutRate))
		end := func(from money.Amount) string {
			return decimalText(nearest(new(big.Rat).Add(ratOf(from), lost), big.NewRat(1, 1)))
		}
		at := fmt.Sprintf("earned_income_credit.by_children[%d].", i)
		all[at+"maximum_credit"] = most.Text()
		all[at+"completed_phase_out"] = end(c.PhaseOutFrom)
		all[at+"completed_phase_out_joint"] = end(c.PhaseOutFromJoint)
	}
	return all
}
