package tables

import (
	"example.com/plumbline/internal/money"
)

// Form is the year's Form W-4: its amounts and its worksheets.
type Form struct {
	Citation `yaml:",inline"`
	PerChild money.Amount `yaml:"step_3a_per_child,required"`
	PerOther money.Amount `yaml:"step_3b_per_other_dependent,required"`
	Step3Up  Amounts      `yaml:"step_3_total_income_up_to,required"`
	// Deductions is the Step 4(b) worksheet's figures.
	StandardDeduction Amounts             `yaml:"worksheet_standard_deduction,required"`
	MedicalFloor      money.Rate          `yaml:"worksheet_medical_floor,required"`
	StateLocalCap     Amounts             `yaml:"worksheet_state_local_cap,required"`
	Extended          *ExtendedDeductions `yaml:"extended_deductions_worksheet"` // the long worksheet that begins with 2026
	ExemptBox         bool                `yaml:"exempt_box"`                    // a box of its own, from 2026; before, the word is written under Step 4(c)
	MultipleJobs      MultipleJobs        `yaml:"multiple_jobs,required"`
}

// ExtendedDeductions are the further figures of the Step 4(b) worksheet of
// Form W-4 (2026) and later, lines 1a to 14.
type ExtendedDeductions struct {
	TipsIncomeBelow     Amounts      `yaml:"tips_total_income_below,required"`        // line 1a
	TipsCap             Amounts      `yaml:"tips_cap,required"`                       // line 1a
	OvertimeIncomeBelow Amounts      `yaml:"overtime_total_income_below,required"`    // line 1b
	OvertimeCap         Amounts      `yaml:"overtime_cap,required"`                   // line 1b
	CarLoanIncomeBelow  Amounts      `yaml:"car_loan_total_income_below,required"`    // line 1c
	CarLoanCap          Amounts      `yaml:"car_loan_cap,required"`                   // line 1c
	SeniorIncomeBelow   Amounts      `yaml:"senior_total_income_below,required"`      // lines 3a, 3b
	SeniorEach          money.Amount `yaml:"senior_each,required"`                    // lines 3a, 3b
	SeniorFrom          int          `yaml:"senior_from,required"`                    // age
	StateLocalBelow     Amounts      `yaml:"state_local_total_income_below,required"` // line 6b
	GiftFloor           money.Rate   `yaml:"gift_floor,required"`                     // line 6d
	LimitOver           Amounts      `yaml:"limit_over,required"`                     // line 9
	LimitShare          money.Rate   `yaml:"limit_share,required"`                    // line 10
	GiftCap             Amounts      `yaml:"gift_without_itemizing_cap,required"`     // line 12
}
