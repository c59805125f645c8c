package tables

import (
	"example.com/plumbline/internal/money"
)

// ChildCredit is the credits for children and other dependents: IRC 24.
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

// ChildTests is who is a qualifying child: IRC 152(c). The months are those of IRC 2(b) too.
type ChildTests struct {
	Citation     `yaml:",inline"`
	Under        int `yaml:"under,required"`                 // age at the end of the year
	StudentUnder int `yaml:"student_under,required"`         // age at the end of the year
	MonthsOver   int `yaml:"residence_months_over,required"` // lived with the taxpayer for more than
}

// RelativeTests is who is a qualifying relative: IRC 152(d).
type RelativeTests struct {
	Citation     `yaml:",inline"`
	IncomeUnder  money.Amount `yaml:"gross_income_under,required"`
	MemberMonths int          `yaml:"member_months,required"` // of the household, for someone who is no relative
}
