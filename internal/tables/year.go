// Package tables is one year of the law's figures: rate schedules, deductions,
// credits, thresholds, the form's worksheets and payroll's tables, each group
// with the source of its figures and how well it is known. Figures live in
// taxtables/YEAR.yaml; this package reads them, strictly, from an fs.FS, and
// derives what a publication derives from them. It holds no rule of the law.
//
// Start at Load, which reads only the year asked for. Year is the whole file.
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

// Bracket taxes what lies over an amount, up to the next bracket.
type Bracket struct {
	Over money.Amount `yaml:"over,required"`
	Rate money.Rate   `yaml:"rate,required"`
}

// Schedules are the rate schedules of IRC 1(j).
type Schedules struct {
	Citation `yaml:",inline"`
	Rates    ByStatus[Schedule] `yaml:"by_status,required"`
}

// TaxTable is how the return reads tax below a taxable income: from a table
// whose rows it describes, the tax being that on the middle of the row.
type TaxTable struct {
	Citation `yaml:",inline"`
	Below    money.Amount `yaml:"below,required"` // taxable income from which the schedule itself is used
	Rows     Rows         `yaml:"rows,required"`
}

// StandardDeduction is IRC 63(c).
type StandardDeduction struct {
	Citation            `yaml:",inline"`
	Basic               Amounts      `yaml:"basic,required"`
	AgedFrom            int          `yaml:"aged_from,required"`
	AgedOrBlind         Amounts      `yaml:"aged_or_blind,required"` // for each of age and blindness, each person
	DependentLeast      money.Amount `yaml:"dependent_at_least,required"`
	DependentEarnedPlus money.Amount `yaml:"dependent_earned_income_plus,required"`
}

// CapitalGains is IRC 1(h).
type CapitalGains struct {
	Citation   `yaml:",inline"`
	ZeroTop    Amounts    `yaml:"zero_rate_up_to,required"`   // taxable income
	MiddleTop  Amounts    `yaml:"middle_rate_up_to,required"` // taxable income
	MiddleRate money.Rate `yaml:"middle_rate,required"`
	TopRate    money.Rate `yaml:"top_rate,required"`
}

// CapitalLosses is IRC 1211(b).
type CapitalLosses struct {
	Citation `yaml:",inline"`
	Limit    Amounts `yaml:"limit,required"`
}

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

// AdditionalMedicare is IRC 3101(b)(2), 1401(b)(2), 3102(f).
type AdditionalMedicare struct {
	Citation     `yaml:",inline"`
	Rate         money.Rate   `yaml:"rate,required"`
	Over         Amounts      `yaml:"over,required"`
	WithheldOver money.Amount `yaml:"employer_withholds_over,required"` // wages from one employer
}

// NetInvestment is IRC 1411.
type NetInvestment struct {
	Citation `yaml:",inline"`
	Rate     money.Rate `yaml:"rate,required"`
	Over     Amounts    `yaml:"over,required"`
}

// SelfEmployment is IRC 1401.
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

// SelfEmploymentDeduction is IRC 164(f).
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

// PhaseOut is a range of income over which something is lost.
type PhaseOut struct {
	From money.Amount `yaml:"from,required"`
	To   money.Amount `yaml:"to,required"`
}

// Adjustments are the limits of Schedule 1, Part II.
type Adjustments struct {
	StudentLoan          StudentLoan          `yaml:"student_loan_interest,required"`
	Educator             Educator             `yaml:"educator_expenses,required"`
	HealthSavings        HealthSavings        `yaml:"health_savings,required"`
	IndividualRetirement IndividualRetirement `yaml:"individual_retirement,required"`
}

// StudentLoan is IRC 221.
type StudentLoan struct {
	Citation `yaml:",inline"`
	Cap      money.Amount       `yaml:"cap,required"`
	PhaseOut ByStatus[PhaseOut] `yaml:"phase_out,required"` // separate filers may not deduct: a range of 0 to 0
}

// Educator is IRC 62(a)(2)(D).
type Educator struct {
	Citation `yaml:",inline"`
	Cap      money.Amount `yaml:"cap,required"` // each person
}

// HealthSavings is IRC 223(b).
type HealthSavings struct {
	Citation    `yaml:",inline"`
	SelfOnly    money.Amount `yaml:"self_only,required"`
	Family      money.Amount `yaml:"family,required"`
	CatchUp     money.Amount `yaml:"catch_up,required"` // each person
	CatchUpFrom int          `yaml:"catch_up_from,required"`
}

// IndividualRetirement is IRC 219(b)(5).
type IndividualRetirement struct {
	Citation    `yaml:",inline"`
	Limit       money.Amount `yaml:"limit,required"`    // each person
	CatchUp     money.Amount `yaml:"catch_up,required"` // each person
	CatchUpFrom int          `yaml:"catch_up_from,required"`
}

// Itemized is Schedule A's floors and caps, gifts aside.
type Itemized struct {
	Medical           Medical            `yaml:"medical,required"`
	StateLocal        StateLocal         `yaml:"state_local_taxes,required"`
	MortgageInsurance *MortgageInsurance `yaml:"mortgage_insurance"` // nil where the year allows none
	Overall           *OverallLimit      `yaml:"overall_limit"`      // nil where the year has none
}

// Medical is IRC 213(a).
type Medical struct {
	Citation `yaml:",inline"`
	Floor    money.Rate `yaml:"floor,required"` // of adjusted gross income
}

// StateLocal is IRC 164(b)(6), (7).
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

// OverallLimit is IRC 68: the reduction of itemized deductions at the top rate.
type OverallLimit struct {
	Citation    `yaml:",inline"`
	Numerator   int     `yaml:"numerator,required"`
	Denominator int     `yaml:"denominator,required"`
	Over        Amounts `yaml:"over,required"`
}

// Charity is IRC 170(b)(1).
type Charity struct {
	Citation   `yaml:",inline"`
	CashLimit  money.Rate `yaml:"cash_limit,required"`  // of adjusted gross income
	OtherLimit money.Rate `yaml:"other_limit,required"` // of adjusted gross income, for property
	Floor      money.Rate `yaml:"floor,required"`       // zero where the year has none
}

// PlainGifts is IRC 170(p): gifts deducted beside the standard deduction.
type PlainGifts struct {
	Citation `yaml:",inline"`
	Cap      Amounts `yaml:"cap,required"` // zero where the year has none
}

// StepPhaseOut loses an amount for each step of income over a start.
type StepPhaseOut struct {
	From    Amounts      `yaml:"from,required"`
	Step    money.Amount `yaml:"step,required"`
	PerStep money.Amount `yaml:"lost_each_step,required"`
}

// Tips is IRC 224.
type Tips struct {
	Citation `yaml:",inline"`
	Cap      Amounts      `yaml:"cap,required"`       // zero: separate filers may not deduct
	PhaseOut StepPhaseOut `yaml:"phase_out,required"` // full steps only
}

// Overtime is IRC 225.
type Overtime struct {
	Citation `yaml:",inline"`
	Cap      Amounts      `yaml:"cap,required"`       // zero: separate filers may not deduct
	PhaseOut StepPhaseOut `yaml:"phase_out,required"` // full steps only
}

// CarLoan is IRC 163(h)(4).
type CarLoan struct {
	Citation `yaml:",inline"`
	Cap      Amounts      `yaml:"cap,required"`
	PhaseOut StepPhaseOut `yaml:"phase_out,required"` // each step begun
}

// Senior is IRC 151(d)(5)(C).
type Senior struct {
	Citation `yaml:",inline"`
	Each     Amounts    `yaml:"each,required"` // zero: separate filers may not deduct
	AgedFrom int        `yaml:"aged_from,required"`
	From     Amounts    `yaml:"phase_out_from,required"`
	Rate     money.Rate `yaml:"phase_out_rate,required"` // of the excess, off each person's amount
}

// BusinessIncome is IRC 199A.
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

// AMT is IRC 55.
type AMT struct {
	Citation     `yaml:",inline"`
	LowerRate    money.Rate `yaml:"lower_rate,required"`
	UpperRate    money.Rate `yaml:"upper_rate,required"`
	UpperOver    Amounts    `yaml:"upper_rate_over,required"`
	Exemption    Amounts    `yaml:"exemption,required"`
	PhaseOutFrom Amounts    `yaml:"phase_out_from,required"`
	PhaseOutRate money.Rate `yaml:"phase_out_rate,required"`
}

// ChildCredit is IRC 24.
type ChildCredit struct {
	Citation      `yaml:",inline"`
	PerChild      money.Amount `yaml:"per_child,required"`
	ChildUnder    int          `yaml:"child_under,required"`
	PerOther      money.Amount `yaml:"per_other_dependent,required"`
	RefundableCap money.Amount `yaml:"refundable_cap_per_child,required"`
	PhaseOut      StepPhaseOut `yaml:"phase_out,required"` // each step begun
	EarnedFloor   money.Amount `yaml:"refundable_earned_income_over,required"`
	EarnedRate    money.Rate   `yaml:"refundable_rate,required"`
	ManyChildren  int          `yaml:"payroll_tax_rule_from_children,required"`
	// TaxpayerSSN: from 2025 one taxpayer on the return needs a social security
	// number valid for work too (IRC 24(h)(7)).
	TaxpayerSSN bool `yaml:"taxpayer_ssn_required"`
}

// DependentTests are the figures of IRC 152.
type DependentTests struct {
	Child    ChildTests    `yaml:"qualifying_child,required"`
	Relative RelativeTests `yaml:"qualifying_relative,required"`
}

// ChildTests is IRC 152(c). The months are those of IRC 2(b) too.
type ChildTests struct {
	Citation     `yaml:",inline"`
	Under        int `yaml:"under,required"`                 // age at the end of the year
	StudentUnder int `yaml:"student_under,required"`         // age at the end of the year
	MonthsOver   int `yaml:"residence_months_over,required"` // lived with the taxpayer for more than
}

// RelativeTests is IRC 152(d).
type RelativeTests struct {
	Citation     `yaml:",inline"`
	IncomeUnder  money.Amount `yaml:"gross_income_under,required"`
	MemberMonths int          `yaml:"member_months,required"` // of the household, for someone who is no relative
}

// DependentCare is IRC 21.
type DependentCare struct {
	Citation   `yaml:",inline"`
	CapOne     money.Amount `yaml:"expense_cap_one,required"`
	CapMore    money.Amount `yaml:"expense_cap_two_or_more,required"`
	TopRate    money.Rate   `yaml:"top_rate,required"`
	PerStep    money.Rate   `yaml:"lost_each_step,required"`
	FirstFrom  money.Amount `yaml:"first_phase_from,required"`
	FirstStep  money.Amount `yaml:"first_phase_step,required"`
	FirstLeast money.Rate   `yaml:"first_phase_at_least,required"`
	ChildUnder int          `yaml:"child_under,required"` // age of a qualifying person
	Student    CareStudent  `yaml:"student,required"`
	// The second fall of 2026; where the year has none, Second is nil.
	Second *SecondCarePhase `yaml:"second_phase"`
}

// CareStudent is IRC 21(d)(2): what a spouse is treated as earning in a month of
// full-time study, by the number of qualifying persons.
type CareStudent struct {
	Citation `yaml:",inline"`
	One      money.Amount `yaml:"earns_a_month_one,required"`
	More     money.Amount `yaml:"earns_a_month_two_or_more,required"`
	Months   int          `yaml:"months,required"` // that make a full-time student, IRC 21(e)(8)
}

// SecondCarePhase is the further fall of IRC 21(a)(2) from 2026.
type SecondCarePhase struct {
	From  Amounts    `yaml:"from,required"`
	Step  Amounts    `yaml:"step,required"`
	Least money.Rate `yaml:"at_least,required"`
}

// Education is IRC 25A.
type Education struct {
	Citation         `yaml:",inline"`
	FullUpTo         money.Amount       `yaml:"opportunity_full_up_to,required"`
	PartUpTo         money.Amount       `yaml:"opportunity_part_up_to,required"` // a further amount
	PartRate         money.Rate         `yaml:"opportunity_part_rate,required"`
	RefundableRate   money.Rate         `yaml:"opportunity_refundable_rate,required"`
	LifetimeCap      money.Amount       `yaml:"lifetime_expense_cap,required"` // a return
	LifetimeRate     money.Rate         `yaml:"lifetime_rate,required"`
	PhaseOut         ByStatus[PhaseOut] `yaml:"phase_out,required"`           // separate filers may not claim: 0 to 0
	UnderAgeNoRefund int                `yaml:"refundable_from_age,required"` // below it the refundable part may be barred
	// TaxpayerSSN: from 2026 a taxpayer on the return needs a social security
	// number valid for work (IRC 25A(g)(1), P.L. 119-21 sec. 70606).
	TaxpayerSSN bool `yaml:"taxpayer_ssn_required"`
}

// Savers is IRC 25B.
type Savers struct {
	Citation   `yaml:",inline"`
	Cap        money.Amount `yaml:"contribution_cap,required"` // each person
	MinimumAge int          `yaml:"minimum_age,required"`
	Tiers      []SaversTier `yaml:"tiers,required"` // highest rate first
}

// SaversTier is a rate up to an adjusted gross income.
type SaversTier struct {
	Rate money.Rate `yaml:"rate,required"`
	UpTo Amounts    `yaml:"up_to,required"`
}

// EarnedIncome is IRC 32.
type EarnedIncome struct {
	Citation        `yaml:",inline"`
	InvestmentLimit money.Amount   `yaml:"investment_income_limit,required"`
	ChildlessFrom   int            `yaml:"childless_from_age,required"`
	ChildlessTo     int            `yaml:"childless_under_age,required"`
	RowWidth        money.Amount   `yaml:"table_row_width,required"` // the EIC Table's rows
	ByChildren      []EarnedColumn `yaml:"by_children,required"`     // 0, 1, 2, 3 or more
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

// Underpayment is IRC 6654(d), (e).
type Underpayment struct {
	Citation       `yaml:",inline"`
	CurrentShare   money.Rate   `yaml:"share_of_this_year,required"`
	PriorShare     money.Rate   `yaml:"share_of_last_year,required"`
	PriorHighExtra money.Rate   `yaml:"high_income_extra_share,required"` // added to PriorShare above HighIncome
	HighIncome     Amounts      `yaml:"high_income_over,required"`        // last year's adjusted gross income
	LeastDue       money.Amount `yaml:"due_less_than,required"`
	Installments   Installments `yaml:"installments,required"`
	Interest       Interest     `yaml:"interest,required"`
}

// Installments is IRC 6654(c)(2): when estimated tax is due, Form 1040-ES.
type Installments struct {
	Citation `yaml:",inline"`
	Due      []household.Date `yaml:"due,required"`          // for this tax year
	Day      int              `yaml:"day_of_month,required"` // the day that the law names, from which the penalty counts
}

// Interest is the underpayment rate of IRC 6621, through April 15 of the next
// year.
type Interest struct {
	Citation `yaml:",inline"`
	Rates    []InterestRate `yaml:"rates,required"`
}

// InterestRate is the underpayment rate of IRC 6621 from a date on.
type InterestRate struct {
	From household.Date `yaml:"from,required"`
	Rate money.Rate     `yaml:"rate,required"`
}
