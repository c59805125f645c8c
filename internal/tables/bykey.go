package tables

import (
	"fmt"

	"example.com/plumbline/internal/money"
)

// The limits of what the answers give by a key of its own.

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

// MortgageDebt is IRC 163(h)(3)(B) and (F): the debt of which interest may be
// deducted.
type MortgageDebt struct {
	Citation `yaml:",inline"`
	Limit    Amounts `yaml:"limit,required"`
	Before   Amounts `yaml:"limit_before,required"` // loans from before December 16, 2017
}

// GamblingLosses is IRC 165(d).
type GamblingLosses struct {
	Citation `yaml:",inline"`
	Share    money.Rate `yaml:"share,required"` // of the losses, within the winnings
}

// ForeignTax is IRC 904(j).
type ForeignTax struct {
	Citation  `yaml:",inline"`
	WithoutUp Amounts `yaml:"without_form_up_to,required"`
}

// Adoption is IRC 23.
type Adoption struct {
	Citation   `yaml:",inline"`
	Cap        money.Amount `yaml:"cap,required"`       // each child
	PhaseOut   PhaseOut     `yaml:"phase_out,required"` // adjusted gross income
	Refundable money.Amount `yaml:"refundable_up_to,required"`
}

// Energy is IRC 25C and 25D.
type Energy struct {
	Citation         `yaml:",inline"`
	CleanRate        money.Rate   `yaml:"clean_rate,required"`
	ImprovementsRate money.Rate   `yaml:"improvements_rate,required"`
	ImprovementsCap  money.Amount `yaml:"improvements_cap,required"`
	HeatPumpsCap     money.Amount `yaml:"heat_pumps_cap,required"`
}

// Voluntary is IRC 3402(p): the percents that Form W-4V offers.
type Voluntary struct {
	Citation       `yaml:",inline"`
	SocialSecurity []int `yaml:"social_security_percents,required"`
	Unemployment   int   `yaml:"unemployment_percent,required"`
}

// Withdrawals is IRC 3405: what is withheld from a payment of a retirement plan
// that does not come at intervals, unless one chooses otherwise on Form W-4R.
type Withdrawals struct {
	Citation    `yaml:",inline"`
	Nonperiodic int `yaml:"nonperiodic_percent,required"`
	Rollover    int `yaml:"rollover_percent,required"` // and no less
}

// Check asks for debt, by which interest is divided.
func (m *MortgageDebt) Check(report func(key, message string)) {
	eachStatus(m.Limit, func(status string, a money.Amount) { positive(report, "limit."+status, a) })
	eachStatus(m.Before, func(status string, a money.Amount) { positive(report, "limit_before."+status, a) })
}

// Check asks for a range.
func (a *Adoption) Check(report func(key, message string)) {
	if !a.PhaseOut.To.More(a.PhaseOut.From) {
		report("phase_out.to", fmt.Sprintf("%s is not more than %s, where the range begins", a.PhaseOut.To.Text(), a.PhaseOut.From.Text()))
	}
}

// Check asks for percents that rise.
func (v *Voluntary) Check(report func(key, message string)) {
	for i := 1; i < len(v.SocialSecurity); i++ {
		if now, before := v.SocialSecurity[i], v.SocialSecurity[i-1]; now <= before {
			report(fmt.Sprintf("social_security_percents[%d]", i), fmt.Sprintf("percents must rise: %d is not more than %d before it", now, before))
		}
	}
}
