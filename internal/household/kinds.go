package household

import (
	"fmt"

	"example.com/plumbline/internal/money"
)

// LossesOf is the capital losses that last year could not deduct: amounts that
// are not negative.
type LossesOf[A any] struct {
	ShortTerm A `yaml:"short_term"`
	LongTerm  A `yaml:"long_term"`
}

// Losses are dollars of capital losses by term; not negative.
type Losses = LossesOf[money.Amount]

// Businesses are the two earners' businesses; nil where nothing is known.
type Businesses struct {
	Self   *Business `yaml:"self"`
	Spouse *Business `yaml:"spouse"`
}

// Of is the business of one earner.
func (b Businesses) Of(e Earner) *Business {
	if e == OfSpouse {
		return b.Spouse
	}
	return b.Self
}

// Business is what the deduction for business income asks of a business where
// income is high (IRC 199A). SpecifiedService is nil where it is not known, and
// nothing else is then read.
type Business struct {
	SpecifiedService *bool        `yaml:"specified_service"` // health, law, accounting, consulting and the like
	Wages            money.Amount `yaml:"wages"`             // paid to employees in the year, as their Forms W-2 say
	Property         money.Amount `yaml:"property"`          // what property in use cost when it was bought, without land
}

// Adoption is the adoption of one child.
type Adoption struct {
	Expenses     money.Amount `yaml:"expenses"`      // that count this year
	SpecialNeeds bool         `yaml:"special_needs"` // found so by a state: the whole credit, whatever was paid
}

// EnergyOf is what was paid for a home's energy, of kinds that count.
type EnergyOf[A any] struct {
	Clean        A `yaml:"clean"`        // solar panels, batteries, ground heat pumps
	Improvements A `yaml:"improvements"` // doors, windows, insulation, central air
	HeatPumps    A `yaml:"heat_pumps"`   // and biomass stoves
}

// OtherTaxes are taxes that the answers give as amounts.
type OtherTaxes struct {
	HouseholdWorkers money.Amount `yaml:"household_workers"` // Schedule H
}

// Parents are the parents of one who can be claimed, by whose rate unearned
// income may be taxed.
type Parents struct {
	Status             Status       `yaml:"filing_status,required"`
	TaxableIncome      money.Amount `yaml:"taxable_income"`
	QualifiedDividends money.Amount `yaml:"qualified_dividends"`
	NetCapitalGain     money.Amount `yaml:"net_capital_gain"` // long-term, less short-term losses
}

// Voluntary is withholding that one asks for on Form W-4V.
type Voluntary struct {
	Percent int  `yaml:"percent"`
	Months  *int `yaml:"months"` // of the year in which it is withheld; nil: all in which benefits are paid
}

// WithdrawalKind is what is withheld from a withdrawal by default.
type WithdrawalKind int8

// The two kinds of Form W-4R.
const (
	Nonperiodic WithdrawalKind = iota
	CouldBeRolledOver
)

var withdrawalKindNames = []string{"nonperiodic", "could_be_rolled_over"}

// Withdrawal is money still to be taken out of a retirement plan this year. It
// is within the income from retirement.
type Withdrawal struct {
	Amount  money.Amount   `yaml:"amount,required"`
	Kind    WithdrawalKind `yaml:"kind"`
	Percent *int           `yaml:"percent"` // asked for on Form W-4R; nil: the default
}

// String is the name in the answers file.
func (x WithdrawalKind) String() string { return withdrawalKindNames[x] }

// MarshalText writes the name in the answers file.
func (x WithdrawalKind) MarshalText() ([]byte, error) { return []byte(x.String()), nil }

// UnmarshalText reads the name in the answers file.
func (x *WithdrawalKind) UnmarshalText(text []byte) error {
	return choice(x, text, withdrawalKindNames, "withdrawal")
}

func (p PaymentsOf[A]) checkBenefits(r reporter) {
	p.SocialSecurity.check(r.under("social_security_withholding."))
	p.Unemployment.check(r.under("unemployment_withholding."))
	for i, w := range p.Withdrawals {
		if w.Percent != nil {
			r.percent(fmt.Sprintf("withdrawals[%d].percent", i), *w.Percent)
		}
	}
}

func (v *Voluntary) check(r reporter) {
	if v == nil {
		return
	}
	r.percent("percent", v.Percent)
	if v.Months != nil && (*v.Months < 1 || *v.Months > 12) {
		r.fault("months", "months_withheld", "months", *v.Months)
	}
}

func (r reporter) percent(key string, n int) {
	if n < 0 || n > 100 {
		r.fault(key, "percentage", "percent", n)
	}
}
