package household

import "example.com/plumbline/internal/money"

// Income is the year's income outside the jobs.
type Income = IncomeOf[money.Amount]

// IncomeOf is the kinds of income: for this year an amount each; for what
// differs next year a pointer, nil where the answers say nothing.
type IncomeOf[A any] struct {
	Interest              A             `yaml:"interest"`
	TaxExemptInterest     A             `yaml:"tax_exempt_interest"` // not taxed, but counted where income is tested
	OrdinaryDividends     A             `yaml:"ordinary_dividends"`
	QualifiedDividends    A             `yaml:"qualified_dividends"`    // the qualified part of OrdinaryDividends
	ShortTermGain         A             `yaml:"short_term_gain,signed"` // may be negative
	LongTermGain          A             `yaml:"long_term_gain,signed"`  // may be negative
	CapitalLossCarryover  LossesOf[A]   `yaml:"capital_loss_carryover"` // of last year's losses
	SelfEmployment        ByEarnerOf[A] `yaml:"self_employment,signed"` // net profit; may be negative
	Business              Businesses    `yaml:"business"`               // what decides a deduction where income is high
	Unemployment          A             `yaml:"unemployment"`
	Retirement            A             `yaml:"retirement"`       // taxable part, not already a pension job
	EarlyWithdrawal       A             `yaml:"early_withdrawal"` // the part of Retirement taken before the age for it, with no exception
	GamblingWinnings      A             `yaml:"gambling_winnings"`
	SocialSecurity        A             `yaml:"social_security"` // benefits before any tax; read through Household.Benefits
	SocialSecurityMonthly *EachMonth    `yaml:"social_security_monthly"`
	Other                 A             `yaml:"other,signed"`
}

// Benefits are the social security benefits of the year, before any tax: as
// given, or the monthly amount over its months.
func (h Household) Benefits() money.Amount {
	return orMonthly(h.Income.SocialSecurity, h.Income.SocialSecurityMonthly)
}

// Adjustments come off total income.
type Adjustments = AdjustmentsOf[money.Amount]

// AdjustmentsOf is the kinds of adjustment, as IncomeOf is those of income.
type AdjustmentsOf[A any] struct {
	StudentLoanInterest A             `yaml:"student_loan_interest"`
	EducatorExpenses    ByEarnerOf[A] `yaml:"educator_expenses"`
	HSAContribution     A             `yaml:"hsa_contribution"` // made outside payroll
	IRADeduction        A             `yaml:"ira_deduction"`    // the deductible amount
	// What a business pays for its owner; premiums from the marketplace are
	// within the health insurance.
	SelfEmployedHealth     ByEarnerOf[A] `yaml:"self_employed_health"`
	SelfEmployedRetirement ByEarnerOf[A] `yaml:"self_employed_retirement"`
	Other                  A             `yaml:"other"`
}

// Deductions are what may be itemized or deducted beside the standard
// deduction, each before its floor or cap.
type Deductions = DeductionsOf[money.Amount, bool]

// DeductionsOf is the kinds of deduction, as IncomeOf is those of income; B is
// a yes or no, or a pointer to one.
type DeductionsOf[A, B any] struct {
	Medical           A `yaml:"medical"`
	StateLocalTaxes   A `yaml:"state_local_taxes"`
	MortgageInterest  A `yaml:"mortgage_interest"`
	MortgageBalance   A `yaml:"mortgage_balance"` // of the loans, on average over the year
	MortgageBefore    B `yaml:"mortgage_before_december_16_2017"`
	MortgageInsurance A `yaml:"mortgage_insurance"` // premiums; deductible from 2026
	CharityCash       A `yaml:"charity_cash"`
	CharityOther      A `yaml:"charity_other"`
	CarLoanInterest   A `yaml:"car_loan_interest"`
	GamblingLosses    A `yaml:"gambling_losses"`
	OtherItemized     A `yaml:"other_itemized"`
	SpouseItemizes    B `yaml:"spouse_itemizes"` // on a separate return of their own
}

// Credits are the credits that do not follow from the dependents.
type Credits = CreditsOf[money.Amount]

// CreditsOf is the kinds of credit, as IncomeOf is those of income.
type CreditsOf[A any] struct {
	Education          []Student     `yaml:"education"`
	RetirementSaving   ByEarnerOf[A] `yaml:"retirement_saving"`
	ForeignTax         A             `yaml:"foreign_tax"` // on dividends and interest, as statements show it
	Adoption           []Adoption    `yaml:"adoption"`
	Energy             EnergyOf[A]   `yaml:"energy"`
	OtherNonrefundable A             `yaml:"other_nonrefundable"`
	OtherRefundable    A             `yaml:"other_refundable"`
}

// Student is one student's education expenses of the year.
type Student struct {
	Kind     EducationCredit `yaml:"kind"`
	Expenses money.Amount    `yaml:"expenses"`
}

// Payments are made or withheld outside the jobs.
type Payments = PaymentsOf[money.Amount]

// PaymentsOf is the kinds of payment, as IncomeOf is those of income.
type PaymentsOf[A any] struct {
	EstimatedTax     A `yaml:"estimated_tax"`
	OtherWithholding A `yaml:"other_withholding"`
	// What benefits withhold as asked for on Form W-4V, and a withdrawal by
	// default or as asked for on Form W-4R.
	SocialSecurity *Voluntary   `yaml:"social_security_withholding"`
	Unemployment   *Voluntary   `yaml:"unemployment_withholding"`
	Withdrawals    []Withdrawal `yaml:"withdrawals"`
}

// ByEarner is a figure for each spouse.
type ByEarner = ByEarnerOf[money.Amount]

// ByEarnerOf is a figure for each spouse, as IncomeOf is the kinds of income.
type ByEarnerOf[A any] struct {
	Self   A `yaml:"self"`
	Spouse A `yaml:"spouse"`
}

// Of is the figure of one earner.
func (b ByEarnerOf[A]) Of(e Earner) A {
	if e == OfSpouse {
		return b.Spouse
	}
	return b.Self
}

// EachMonth is an amount that comes every month from one month of the year to
// another, both included.
type EachMonth struct {
	Amount     money.Amount `yaml:"amount,required"`
	FirstMonth int          `yaml:"first_month"` // 1 to 12; 0: January
	LastMonth  int          `yaml:"last_month"`  // 1 to 12; 0: December
}

// Months are the first and the last month, 1 to 12.
func (m EachMonth) Months() (first, last int) {
	first, last = m.FirstMonth, m.LastMonth
	if first == 0 {
		first = 1
	}
	if last == 0 {
		last = 12
	}
	return first, last
}

// Total is the amount over all its months.
func (m EachMonth) Total() money.Amount {
	first, last := m.Months()
	return m.Amount.Times(max(last-first+1, 0))
}

// orMonthly is a year's amount as given, or else the monthly one added up.
func orMonthly(year money.Amount, m *EachMonth) money.Amount {
	if year.IsZero() && m != nil {
		return m.Total()
	}
	return year
}
