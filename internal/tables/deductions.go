package tables

import (
	"example.com/plumbline/internal/money"
)

// StandardDeduction is the standard deduction, and a dependent's: IRC 63(c).
type StandardDeduction struct {
	Citation            `yaml:",inline"`
	Basic               Amounts      `yaml:"basic,required"`
	AgedFrom            int          `yaml:"aged_from,required"`
	AgedOrBlind         Amounts      `yaml:"aged_or_blind,required"` // for each of age and blindness, each person
	DependentLeast      money.Amount `yaml:"dependent_at_least,required"`
	DependentEarnedPlus money.Amount `yaml:"dependent_earned_income_plus,required"`
}

// PlainGifts is IRC 170(p): gifts deducted beside the standard deduction.
type PlainGifts struct {
	Citation `yaml:",inline"`
	Cap      Amounts `yaml:"cap,required"` // zero where the year has none
}

// Tips is the deduction for tips: IRC 224.
type Tips struct {
	Citation `yaml:",inline"`
	Cap      Amounts      `yaml:"cap,required"`       // zero: separate filers may not deduct
	PhaseOut StepPhaseOut `yaml:"phase_out,required"` // full steps only
}

// Overtime is the deduction for the premium part of overtime pay: IRC 225.
type Overtime struct {
	Citation `yaml:",inline"`
	Cap      Amounts      `yaml:"cap,required"`       // zero: separate filers may not deduct
	PhaseOut StepPhaseOut `yaml:"phase_out,required"` // full steps only
}

// CarLoan is the deduction for interest on car loans: IRC 163(h)(4).
type CarLoan struct {
	Citation `yaml:",inline"`
	Cap      Amounts      `yaml:"cap,required"`
	PhaseOut StepPhaseOut `yaml:"phase_out,required"` // each step begun
}

// Senior is the deduction for people of an age: IRC 151(d)(5)(C).
type Senior struct {
	Citation `yaml:",inline"`
	Each     Amounts    `yaml:"each,required"` // zero: separate filers may not deduct
	AgedFrom int        `yaml:"aged_from,required"`
	From     Amounts    `yaml:"phase_out_from,required"`
	Rate     money.Rate `yaml:"phase_out_rate,required"` // of the excess, off each person's amount
}

// BusinessIncome is the deduction for qualified business income: IRC 199A.
type BusinessIncome struct {
	Citation      `yaml:",inline"`
	Rate          money.Rate   `yaml:"rate,required"`
	Threshold     Amounts      `yaml:"threshold,required"` // taxable income before the deduction
	PhaseIn       Amounts      `yaml:"phase_in_range,required"`
	Least         money.Amount `yaml:"minimum_deduction,required"`       // zero where the year has none
	LeastRequires money.Amount `yaml:"minimum_requires_income,required"` // qualified business income
	// Above the threshold: shares of wages paid, and of property held.
	WagesShare             money.Rate `yaml:"wages_share,required"`
	WagesShareWithProperty money.Rate `yaml:"wages_share_with_property,required"`
	PropertyShare          money.Rate `yaml:"property_share,required"`
}
