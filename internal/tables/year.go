// Package tables is one year of the law's figures: rate schedules, deductions,
// credits, thresholds, the form's worksheets and payroll's tables, each group
// with the source of its figures and how well it is known. Figures live in
// taxtables/YEAR.yaml; this package reads them, strictly, from an fs.FS, and
// derives what a publication derives from them. It holds no rule of the law.
//
// Start at Load, which reads only the year asked for. Year is the whole file; its
// groups are in files by subject.
package tables

import (
	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/yamldoc"
)

// Year is one yearly table, complete: nothing is inherited from another year.
type Year struct {
	Year int `yaml:"year,required"`

	Schedules          Schedules              `yaml:"rate_schedules,required"`
	TaxTable           TaxTable               `yaml:"tax_table,required"`
	StandardDeduction  StandardDeduction      `yaml:"standard_deduction,required"`
	CapitalGains       CapitalGains           `yaml:"capital_gains,required"`
	CapitalLosses      CapitalLosses          `yaml:"capital_losses,required"`
	SocialSecurityTax  SocialSecurityTax      `yaml:"social_security_tax,required"`
	AdditionalMedicare AdditionalMedicare     `yaml:"additional_medicare_tax,required"`
	NetInvestment      NetInvestment          `yaml:"net_investment_income_tax,required"`
	SelfEmployment     SelfEmployment         `yaml:"self_employment_tax,required"`
	Benefits           Benefits               `yaml:"social_security_benefits,required"`
	Adjustments        Adjustments            `yaml:"adjustments,required"`
	Itemized           Itemized               `yaml:"itemized_deductions,required"`
	Charity            Charity                `yaml:"charity,required"`
	PlainGifts         PlainGifts             `yaml:"gifts_without_itemizing,required"`
	Tips               Tips                   `yaml:"tips_deduction,required"`
	Overtime           Overtime               `yaml:"overtime_deduction,required"`
	CarLoan            CarLoan                `yaml:"car_loan_deduction,required"`
	Senior             Senior                 `yaml:"senior_deduction,required"`
	BusinessIncome     BusinessIncome         `yaml:"qualified_business_income,required"`
	AMT                AMT                    `yaml:"alternative_minimum_tax,required"`
	ChildCredit        ChildCredit            `yaml:"child_tax_credit,required"`
	DependentTests     DependentTests         `yaml:"dependent_tests,required"`
	DependentCare      DependentCare          `yaml:"dependent_care_credit,required"`
	Education          Education              `yaml:"education_credits,required"`
	Savers             Savers                 `yaml:"savers_credit,required"`
	EarnedIncome       EarnedIncome           `yaml:"earned_income_credit,required"`
	Underpayment       Underpayment           `yaml:"underpayment,required"`
	Payroll            Payroll                `yaml:"payroll,required"`
	Form               Form                   `yaml:"form_w4,required"`
	PremiumCredit      PremiumCredit          `yaml:"premium_tax_credit,required"`
	SelfEmployedPlans  SelfEmployedPlans      `yaml:"self_employed_plans,required"`
	EarlyWithdrawals   EarlyWithdrawals       `yaml:"early_withdrawals,required"`
	EarlySimple        EarlySimpleWithdrawals `yaml:"early_simple_withdrawals,required"`
	MortgageDebt       MortgageDebt           `yaml:"mortgage_debt,required"`
	GamblingLosses     GamblingLosses         `yaml:"gambling_losses,required"`
	ForeignTax         ForeignTax             `yaml:"foreign_tax_credit,required"`
	Adoption           Adoption               `yaml:"adoption_credit,required"`
	Energy             *Energy                `yaml:"residential_energy"` // nil where the year has no such credits
	Voluntary          Voluntary              `yaml:"voluntary_withholding,required"`
	Withdrawals        Withdrawals            `yaml:"withdrawal_withholding,required"`

	Prices PriceIndex  `yaml:"price_index,required"`
	Later  *LaterYears `yaml:"later_years"` // nil where nothing is known

	// Projected says how a year was made that has no table of its own, or none
	// that is complete; nil for a published one.
	Projected *Projection `yaml:"projected"`

	doc   *yamldoc.Document // as read, of a projected year its base year's
	edits map[string]edit   // figures of a projected year that differ in basis from doc, by full key
	open  map[string]bool   // figures of a started table whose published ones are still to be written

	broken []string // keys at which the file is not in order

	standard, checkbox percentageTables // derived, see Percentage

	states func() (*States, error) // reads them once, when first asked for; nil for a year that was not loaded
}

// ByStatus is a figure for each filing status; every status has its own
// column, however often two of them agree.
type ByStatus[T any] struct {
	Single                    T `yaml:"single,required"`
	MarriedFilingJointly      T `yaml:"married_filing_jointly,required"`
	MarriedFilingSeparately   T `yaml:"married_filing_separately,required"`
	HeadOfHousehold           T `yaml:"head_of_household,required"`
	QualifyingSurvivingSpouse T `yaml:"qualifying_surviving_spouse,required"`
}

// Of is the figure for a filing status.
func (b ByStatus[T]) Of(s household.Status) T {
	switch s {
	case household.MarriedFilingJointly:
		return b.MarriedFilingJointly
	case household.MarriedFilingSeparately:
		return b.MarriedFilingSeparately
	case household.HeadOfHousehold:
		return b.HeadOfHousehold
	case household.QualifyingSurvivingSpouse:
		return b.QualifyingSurvivingSpouse
	}
	return b.Single
}

// Amounts is an amount for each filing status, in dollars a year.
type Amounts = ByStatus[money.Amount]

// eachStatus calls f with the key and the amount of each filing status.
func eachStatus(amounts Amounts, f func(status string, a money.Amount)) {
	for _, s := range household.Statuses() {
		f(s.String(), amounts.Of(s))
	}
}

// PhaseOut is a range of income over which something is lost.
type PhaseOut struct {
	From money.Amount `yaml:"from,required"`
	To   money.Amount `yaml:"to,required"`
}

// Check asks that a range does not end before it begins.
func (p *PhaseOut) Check(report yamldoc.Report) {
	if p.To.Less(p.From) {
		report("to", endsEarly("range", p.To.Text(), p.From.Text()))
	}
}

// StepPhaseOut loses an amount for each step of income over a start.
type StepPhaseOut struct {
	From    Amounts      `yaml:"from,required"`
	Step    money.Amount `yaml:"step,required"`
	PerStep money.Amount `yaml:"lost_each_step,required"`
}

// Check asks for a step.
func (p *StepPhaseOut) Check(report yamldoc.Report) {
	positive(report, "step", p.Step)
}
