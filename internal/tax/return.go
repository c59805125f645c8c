// Package tax is a household's federal income tax return for one year: total
// income, adjustments, deductions, tax, credits, other taxes and payments, in
// the order of Form 1040 and its schedules, each line traced to its answers,
// its table value and its source. It asks nothing, knows no payroll and no
// terminal, and holds no figure of the law: those are in tables.Year.
//
// Start at Compute.
package tax

import (
	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/tables"
	"example.com/plumbline/internal/worksheet"
)

// Method is how tax on taxable income is figured.
type Method int8

const (
	// ByReturn is as a return does it: the Tax Table below $100,000 of taxable
	// income and the EIC Table, the schedules and formulas above.
	ByReturn Method = iota
	// BySchedule is the rate schedules and the credit's formula, carried to the
	// cent.
	BySchedule
)

// Return is the year's return. Amounts are dollars for the year.
type Return struct {
	Year   int              `json:"-"`
	Status household.Status `json:"-"`

	Wages               money.Amount `json:"wages"`                               // Form 1040 line 1z
	TaxableBenefits     money.Amount `json:"-"`                                   // line 6b
	TaxedAsParents      money.Amount `json:"-"`                                   // Form 8615 line 3, of one who can be claimed, at any age
	CapitalGain         money.Amount `json:"-"`                                   // line 7a; a loss is negative
	TotalIncome         money.Amount `json:"total_income"`                        // line 9
	Adjustments         money.Amount `json:"adjustments"`                         // line 10
	AdjustedGrossIncome money.Amount `json:"adjusted_gross_income"`               // line 11
	Itemized            bool         `json:"-"`                                   // Schedule A is used
	StandardOrItemized  money.Amount `json:"standard_or_itemized"`                // line 12
	MortgageInterest    money.Amount `json:"-"`                                   // within the debt limit, whether itemized or not
	GamblingLosses      money.Amount `json:"-"`                                   // within the winnings, whether itemized or not
	ExtraDeductions     money.Amount `json:"extra_deductions"`                    // Schedule 1-A, and gifts without itemizing
	BusinessDeduction   money.Amount `json:"qualified_business_income_deduction"` // qualified business income deduction
	TaxableIncome       money.Amount `json:"taxable_income"`                      // line 15

	IncomeTax             money.Amount `json:"income_tax"`                    // line 16, before credits
	ExcessAdvance         money.Amount `json:"excess_advance_premium_credit"` // Schedule 2 line 1a: premium tax credit paid in advance, to pay back
	AlternativeMinimumTax money.Amount `json:"alternative_minimum_tax"`       // Schedule 2 line 2
	NonrefundableCredits  money.Amount `json:"nonrefundable_credits"`         // lines 19 and 20, up to the tax
	ChildTaxCredit        money.Amount `json:"child_tax_credit"`              // line 19: child tax credit and credit for other dependents, within NonrefundableCredits
	SelfEmploymentTax     money.Amount `json:"self_employment_tax"`           // Schedule 2 line 4
	AdditionalMedicareTax money.Amount `json:"additional_medicare_tax"`       // Schedule 2 line 11
	NetInvestmentTax      money.Amount `json:"net_investment_income_tax"`     // Schedule 2 line 12
	EarlyWithdrawalTax    money.Amount `json:"early_withdrawal_tax"`          // Schedule 2 line 8
	HouseholdWorkersTax   money.Amount `json:"household_workers_tax"`         // Schedule 2 line 9
	TotalTax              money.Amount `json:"total_tax"`                     // line 24

	EarnedIncomeCredit         money.Amount `json:"earned_income_credit"`        // line 27
	AdditionalChildTaxCredit   money.Amount `json:"additional_child_tax_credit"` // line 28
	RefundableCredits          money.Amount `json:"refundable_credits"`          // lines 27 to 31, refundable credits
	ExcessSocialSecurity       money.Amount `json:"-"`                           // Schedule 3 line 11
	AdditionalMedicareWithheld money.Amount `json:"-"`                           // Form 8959 line 24
	BenefitsWithheld           money.Amount `json:"-"`                           // lines 25b and 25c, as Forms W-4V and W-4R ask

	CarriedLosses household.Losses `json:"-"` // capital losses with which next year begins
}

// computation is one return in the making. Each rule is a method that reads
// what earlier rules left here, adds its lines to the sheet, and leaves its own
// result; compute calls them in the order of the form.
type computation struct {
	h   household.Household
	pay []household.YearPay
	y   *tables.Year
	m   Method
	s   *worksheet.Sheet

	Return

	income      incomeParts
	work        [2]workParts // by household.Earner
	adjustments adjustmentParts
	deductions  deductionParts
	dependents  []Standing // parallel to h.Dependents
	credits     creditParts
	settled     settlement // of the deduction for health insurance
}

// linesOfAReturn is room for the lines of a return of many kinds of income.
const linesOfAReturn = 64

// Compute figures the return of a household whose jobs paid and withheld what
// pay says. The trace goes to s, which may be nil. The answers must have passed
// household.Check; the year must be the household's.
func Compute(h household.Household, pay []household.YearPay, y *tables.Year, m Method, s *worksheet.Sheet) Return {
	c := computation{h: h, pay: pay, y: y, m: m, s: s}
	c.Year, c.Status = y.Year, h.Status
	s.Grow(linesOfAReturn)
	c.dependents = standings(h, y, s != nil)

	c.totalIncome()         // income.go, benefits.go, gains.go
	c.adjustedGrossIncome() // adjustments.go, ownbusiness.go
	c.takeDeductions()      // deductions.go, extra.go, business.go
	c.carryLosses()         // carryover.go
	c.incomeTax()           // incometax.go
	c.premiumCredit()       // premiumcredit.go
	c.minimumTax()          // amt.go
	c.nonrefundable()       // credits.go, foreigntax.go, care.go, education.go, savers.go, energy.go, child.go, adoption.go
	c.otherTaxes()          // othertaxes.go, earlywithdrawal.go
	c.refundable()          // child.go, earned.go
	c.payments()            // payments.go, voluntary.go
	c.cautions()            // cautions.go: what is not computed
	return c.Return
}
