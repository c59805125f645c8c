package tax

import (
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/worksheet"
)

// JSON is the return as other programs read it. Money is dollars for the year.
type JSON struct {
	TaxYear int              `json:"tax_year"`
	Lines   JSONLines        `json:"lines"`
	Notes   []worksheet.Note `json:"notes"`
}

// JSONLines are the return's lines by their fixed names.
type JSONLines struct {
	Wages                            money.Amount `json:"wages"`
	TotalIncome                      money.Amount `json:"total_income"`
	Adjustments                      money.Amount `json:"adjustments"`
	AdjustedGrossIncome              money.Amount `json:"adjusted_gross_income"`
	DeductionKind                    string       `json:"deduction_kind"`
	StandardOrItemized               money.Amount `json:"standard_or_itemized"`
	ExtraDeductions                  money.Amount `json:"extra_deductions"`
	QualifiedBusinessIncomeDeduction money.Amount `json:"qualified_business_income_deduction"`
	TaxableIncome                    money.Amount `json:"taxable_income"`
	IncomeTax                        money.Amount `json:"income_tax"`
	ExcessAdvancePremiumCredit       money.Amount `json:"excess_advance_premium_credit"`
	AlternativeMinimumTax            money.Amount `json:"alternative_minimum_tax"`
	NonrefundableCredits             money.Amount `json:"nonrefundable_credits"`
	ChildTaxCredit                   money.Amount `json:"child_tax_credit"`
	SelfEmploymentTax                money.Amount `json:"self_employment_tax"`
	AdditionalMedicareTax            money.Amount `json:"additional_medicare_tax"`
	NetInvestmentIncomeTax           money.Amount `json:"net_investment_income_tax"`
	EarlyWithdrawalTax               money.Amount `json:"early_withdrawal_tax"`
	HouseholdWorkersTax              money.Amount `json:"household_workers_tax"`
	TotalTax                         money.Amount `json:"total_tax"`
	EarnedIncomeCredit               money.Amount `json:"earned_income_credit"`
	AdditionalChildTaxCredit         money.Amount `json:"additional_child_tax_credit"`
	RefundableCredits                money.Amount `json:"refundable_credits"`
}

// View is the return, with the notes of its computation, as other programs
// read it.
func View(r Return, notes []worksheet.Note) JSON {
	kind := "standard"
	if r.Itemized {
		kind = "itemized"
	}
	return JSON{
		TaxYear: r.Year,
		Lines: JSONLines{
			Wages:                            r.Wages,
			TotalIncome:                      r.TotalIncome,
			Adjustments:                      r.Adjustments,
			AdjustedGrossIncome:              r.AdjustedGrossIncome,
			DeductionKind:                    kind,
			StandardOrItemized:               r.StandardOrItemized,
			ExtraDeductions:                  r.ExtraDeductions,
			QualifiedBusinessIncomeDeduction: r.BusinessDeduction,
			TaxableIncome:                    r.TaxableIncome,
			IncomeTax:                        r.IncomeTax,
			ExcessAdvancePremiumCredit:       r.ExcessAdvance,
			AlternativeMinimumTax:            r.AlternativeMinimumTax,
			NonrefundableCredits:             r.NonrefundableCredits,
			ChildTaxCredit:                   r.ChildTaxCredit,
			SelfEmploymentTax:                r.SelfEmploymentTax,
			AdditionalMedicareTax:            r.AdditionalMedicareTax,
			NetInvestmentIncomeTax:           r.NetInvestmentTax,
			EarlyWithdrawalTax:               r.EarlyWithdrawalTax,
			HouseholdWorkersTax:              r.HouseholdWorkersTax,
			TotalTax:                         r.TotalTax,
			EarnedIncomeCredit:               r.EarnedIncomeCredit,
			AdditionalChildTaxCredit:         r.AdditionalChildTaxCredit,
			RefundableCredits:                r.RefundableCredits,
		},
		Notes: append([]worksheet.Note{}, notes...),
	}
}
