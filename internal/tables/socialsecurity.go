package tables

import (
	"example.com/plumbline/internal/money"
)

// SocialSecurityTax is the employee's share of IRC 3101.
type SocialSecurityTax struct {
	Citation     `yaml:",inline"`
	Rate         money.Rate `yaml:"rate,required"`
	MedicareRate money.Rate `yaml:"medicare_rate,required"`
	WageBase     WageBase   `yaml:"wage_base,required"`
}

// WageBase is the contribution and benefit base of IRC 3121(a)(1), set each
// year by the Social Security Administration (42 U.S.C. 430).
type WageBase struct {
	Citation `yaml:",inline"`
	Amount   money.Amount `yaml:"amount,required"`
}

// AdditionalMedicare is the additional Medicare tax: IRC 3101(b)(2), 1401(b)(2), 3102(f).
type AdditionalMedicare struct {
	Citation     `yaml:",inline"`
	Rate         money.Rate   `yaml:"rate,required"`
	Over         Amounts      `yaml:"over,required"`
	WithheldOver money.Amount `yaml:"employer_withholds_over,required"` // wages from one employer
}

// SelfEmployment is the self-employment tax: IRC 1401.
type SelfEmployment struct {
	Citation           `yaml:",inline"`
	SocialSecurityRate money.Rate              `yaml:"social_security_rate,required"`
	MedicareRate       money.Rate              `yaml:"medicare_rate,required"`
	NetEarnings        NetEarnings             `yaml:"net_earnings,required"`
	Deduction          SelfEmploymentDeduction `yaml:"deduction,required"`
}

// NetEarnings is IRC 1402(a)(12), (b)(2): what of a profit is taxed.
type NetEarnings struct {
	Citation `yaml:",inline"`
	Factor   money.Rate   `yaml:"factor,required"`
	AtLeast  money.Amount `yaml:"at_least,required"` // below it nothing is taxed
}

// SelfEmploymentDeduction is the part of that tax that is deducted: IRC 164(f).
type SelfEmploymentDeduction struct {
	Citation `yaml:",inline"`
	Share    money.Rate `yaml:"share,required"` // of the self-employment tax
}

// Benefits is IRC 86: the taxable part of social security benefits.
type Benefits struct {
	Citation          `yaml:",inline"`
	Base              Amounts      `yaml:"base_amount,required"`             // married_filing_separately: lived together at any time
	AdjustedBase      Amounts      `yaml:"adjusted_base_amount,required"`    // the same
	ApartBase         money.Amount `yaml:"lived_apart_base_amount,required"` // separate filers who lived apart all year
	ApartAdjustedBase money.Amount `yaml:"lived_apart_adjusted_base_amount,required"`
	LowerRate         money.Rate   `yaml:"lower_rate,required"`
	UpperRate         money.Rate   `yaml:"upper_rate,required"`
}
