package tables

import (
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/yamldoc"
)

// Itemized is Schedule A's floors and caps, gifts aside.
type Itemized struct {
	Medical           Medical            `yaml:"medical,required"`
	StateLocal        StateLocal         `yaml:"state_local_taxes,required"`
	MortgageInsurance *MortgageInsurance `yaml:"mortgage_insurance"` // nil where the year allows none
	Overall           *OverallLimit      `yaml:"overall_limit"`      // nil where the year has none
}

// Medical is the deduction for medical expenses: IRC 213(a).
type Medical struct {
	Citation `yaml:",inline"`
	Floor    money.Rate `yaml:"floor,required"` // of adjusted gross income
}

// StateLocal is the deduction for state and local taxes: IRC 164(b)(6), (7).
type StateLocal struct {
	Citation  `yaml:",inline"`
	Cap       Amounts    `yaml:"cap,required"`
	PhaseFrom Amounts    `yaml:"phase_down_from,required"` // adjusted gross income
	PhaseRate money.Rate `yaml:"phase_down_rate,required"`
	AtLeast   Amounts    `yaml:"at_least,required"`
}

// MortgageInsurance is IRC 163(h)(3)(E): premiums as interest, phased out.
type MortgageInsurance struct {
	Citation  `yaml:",inline"`
	PhaseFrom Amounts    `yaml:"phase_out_from,required"` // adjusted gross income
	Step      Amounts    `yaml:"step,required"`
	PerStep   money.Rate `yaml:"lost_each_step,required"`
}

// Check asks for steps.
func (m *MortgageInsurance) Check(report yamldoc.Report) {
	eachStatus(m.Step, func(status string, step money.Amount) { positive(report, "step."+status, step) })
}

// MortgageDebt is IRC 163(h)(3)(B) and (F): the debt of which interest may be
// deducted.
type MortgageDebt struct {
	Citation `yaml:",inline"`
	Limit    Amounts `yaml:"limit,required"`
	Before   Amounts `yaml:"limit_before,required"` // loans from before December 16, 2017
}

// Check asks for debt, by which interest is divided.
func (m *MortgageDebt) Check(report yamldoc.Report) {
	eachStatus(m.Limit, func(status string, a money.Amount) { positive(report, "limit."+status, a) })
	eachStatus(m.Before, func(status string, a money.Amount) { positive(report, "limit_before."+status, a) })
}

// Charity is the limits on the deduction for gifts to charity: IRC 170(b)(1).
type Charity struct {
	Citation   `yaml:",inline"`
	CashLimit  money.Rate `yaml:"cash_limit,required"`  // of adjusted gross income
	OtherLimit money.Rate `yaml:"other_limit,required"` // of adjusted gross income, for property
	Floor      money.Rate `yaml:"floor,required"`       // zero where the year has none
}

// GamblingLosses is the deduction for gambling losses: IRC 165(d).
type GamblingLosses struct {
	Citation `yaml:",inline"`
	Share    money.Rate `yaml:"share,required"` // of the losses, within the winnings
}

// OverallLimit is IRC 68: the reduction of itemized deductions at the top rate.
type OverallLimit struct {
	Citation    `yaml:",inline"`
	Numerator   int     `yaml:"numerator,required"`
	Denominator int     `yaml:"denominator,required"`
	Over        Amounts `yaml:"over,required"`
}

// Check asks for a divisor.
func (l *OverallLimit) Check(report yamldoc.Report) {
	if l.Denominator <= 0 {
		report("denominator", notPositive())
	}
}
