package tables

import (
	"example.com/plumbline/internal/money"
)

// Adjustments are the limits of Schedule 1, Part II.
type Adjustments struct {
	StudentLoan          StudentLoan          `yaml:"student_loan_interest,required"`
	Educator             Educator             `yaml:"educator_expenses,required"`
	HealthSavings        HealthSavings        `yaml:"health_savings,required"`
	IndividualRetirement IndividualRetirement `yaml:"individual_retirement,required"`
}

// StudentLoan is the deduction for interest on student loans: IRC 221.
type StudentLoan struct {
	Citation `yaml:",inline"`
	Cap      money.Amount       `yaml:"cap,required"`
	PhaseOut ByStatus[PhaseOut] `yaml:"phase_out,required"` // separate filers may not deduct: a range of 0 to 0
}

// Educator is the deduction for teachers' own expenses: IRC 62(a)(2)(D).
type Educator struct {
	Citation `yaml:",inline"`
	Cap      money.Amount `yaml:"cap,required"` // each person
}

// HealthSavings is the most that may go into health savings accounts: IRC 223(b).
type HealthSavings struct {
	Citation    `yaml:",inline"`
	SelfOnly    money.Amount `yaml:"self_only,required"`
	Family      money.Amount `yaml:"family,required"`
	CatchUp     money.Amount `yaml:"catch_up,required"` // each person
	CatchUpFrom int          `yaml:"catch_up_from,required"`
}

// IndividualRetirement is the most that may go into an IRA: IRC 219(b)(5).
type IndividualRetirement struct {
	Citation    `yaml:",inline"`
	Limit       money.Amount `yaml:"limit,required"`    // each person
	CatchUp     money.Amount `yaml:"catch_up,required"` // each person
	CatchUpFrom int          `yaml:"catch_up_from,required"`
}

// SelfEmployedPlans are the limits on what the self-employed put into a
// retirement plan of their own.
type SelfEmployedPlans struct {
	Additions     PlanAdditions `yaml:"additions,required"`
	EmployerShare EmployerShare `yaml:"employer_share,required"`
	Deferral      PlanDeferral  `yaml:"deferral,required"`
}

// PlanAdditions is IRC 415(c)(1)(A): the most of all additions of a year.
type PlanAdditions struct {
	Citation `yaml:",inline"`
	Limit    money.Amount `yaml:"limit,required"`
}

// EmployerShare is IRC 404(a)(8): what a business may put in as an employer.
type EmployerShare struct {
	Citation `yaml:",inline"`
	Share    money.Rate `yaml:"share,required"` // of net profit less half of the self-employment tax
}

// PlanDeferral is IRC 402(g), 414(v): what a person may put in as an employee.
type PlanDeferral struct {
	Citation    `yaml:",inline"`
	Limit       money.Amount `yaml:"limit,required"`
	CatchUp     money.Amount `yaml:"catch_up,required"`
	CatchUpFrom int          `yaml:"catch_up_from,required"`
	LateCatchUp money.Amount `yaml:"late_catch_up,required"` // in place of CatchUp
	LateFrom    int          `yaml:"late_catch_up_from,required"`
	LateBefore  int          `yaml:"late_catch_up_before,required"`
}

// CatchUpAt is the addition for age, by the age at the end of the year.
func (p *PlanDeferral) CatchUpAt(age int) money.Amount {
	switch {
	case age >= p.LateFrom && age < p.LateBefore:
		return p.LateCatchUp
	case age >= p.CatchUpFrom:
		return p.CatchUp
	}
	return money.Zero
}
