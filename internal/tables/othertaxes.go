package tables

import "example.com/plumbline/internal/money"

// AMT is the alternative minimum tax: IRC 55.
type AMT struct {
	Citation     `yaml:",inline"`
	LowerRate    money.Rate `yaml:"lower_rate,required"`
	UpperRate    money.Rate `yaml:"upper_rate,required"`
	UpperOver    Amounts    `yaml:"upper_rate_over,required"`
	Exemption    Amounts    `yaml:"exemption,required"`
	PhaseOutFrom Amounts    `yaml:"phase_out_from,required"`
	PhaseOutRate money.Rate `yaml:"phase_out_rate,required"`
}

// NetInvestment is the net investment income tax: IRC 1411.
type NetInvestment struct {
	Citation `yaml:",inline"`
	Rate     money.Rate `yaml:"rate,required"`
	Over     Amounts    `yaml:"over,required"`
}

// EarlyWithdrawals is IRC 72(t): the tax on money taken out of a retirement
// plan before an age.
type EarlyWithdrawals struct {
	Citation  `yaml:",inline"`
	Rate      money.Rate `yaml:"rate,required"`
	AgeYears  int        `yaml:"age_years,required"`
	AgeMonths int        `yaml:"age_months,required"` // after the birthday
}

// EarlySimpleWithdrawals is IRC 72(t)(6)(A): the tax where the money comes from a
// SIMPLE plan in its first two years.
type EarlySimpleWithdrawals struct {
	Citation `yaml:",inline"`
	Rate     money.Rate `yaml:"rate,required"`
}
