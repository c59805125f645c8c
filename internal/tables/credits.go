package tables

import (
	"fmt"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/words"
	"example.com/plumbline/internal/yamldoc"
)

// DependentCare is the credit for the care of children and other dependents: IRC 21.
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

// Check asks for a step.
func (c *DependentCare) Check(report yamldoc.Report) {
	positive(report, "first_phase_step", c.FirstStep)
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

// Check asks for steps.
func (p *SecondCarePhase) Check(report yamldoc.Report) {
	eachStatus(p.Step, func(status string, step money.Amount) { positive(report, "step."+status, step) })
}

// Education is the American opportunity and lifetime learning credits: IRC 25A.
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

// Savers is the credit for retirement savings: IRC 25B.
type Savers struct {
	Citation   `yaml:",inline"`
	Cap        money.Amount `yaml:"contribution_cap,required"` // each person
	MinimumAge int          `yaml:"minimum_age,required"`
	Tiers      []SaversTier `yaml:"tiers,required"` // highest rate first
}

// Check asks that rates fall as incomes rise.
func (c *Savers) Check(report yamldoc.Report) {
	for i := 1; i < len(c.Tiers); i++ {
		tier, before := c.Tiers[i], c.Tiers[i-1]
		at := fmt.Sprintf("tiers[%d].", i)
		if tier.Rate.Cmp(before.Rate) >= 0 {
			report(at+"rate", words.T("tables.must_fall", "now", tier.Rate.Text(), "before", before.Rate.Text()))
		}
		for _, s := range household.Statuses() {
			if upTo, least := tier.UpTo.Of(s), before.UpTo.Of(s); upTo.Less(least) {
				report(at+"up_to."+s.String(), words.T("tables.limits_rise", "now", upTo.Text(), "before", least.Text()))
			}
		}
	}
}

// SaversTier is a rate up to an adjusted gross income.
type SaversTier struct {
	Rate money.Rate `yaml:"rate,required"`
	UpTo Amounts    `yaml:"up_to,required"`
}

// ForeignTax is the foreign tax that is credited without Form 1116: IRC 904(j).
type ForeignTax struct {
	Citation  `yaml:",inline"`
	WithoutUp Amounts `yaml:"without_form_up_to,required"`
}

// Adoption is the credit for the expenses of adopting: IRC 23.
type Adoption struct {
	Citation   `yaml:",inline"`
	Cap        money.Amount `yaml:"cap,required"`       // each child
	PhaseOut   PhaseOut     `yaml:"phase_out,required"` // adjusted gross income
	Refundable money.Amount `yaml:"refundable_up_to,required"`
}

// Check asks for a range.
func (a *Adoption) Check(report yamldoc.Report) {
	if !a.PhaseOut.To.More(a.PhaseOut.From) {
		report("phase_out.to", words.T("tables.no_range", "to", a.PhaseOut.To.Text(), "from", a.PhaseOut.From.Text()))
	}
}

// Energy is the credits for energy improvements to a home: IRC 25C and 25D.
type Energy struct {
	Citation         `yaml:",inline"`
	CleanRate        money.Rate   `yaml:"clean_rate,required"`
	ImprovementsRate money.Rate   `yaml:"improvements_rate,required"`
	ImprovementsCap  money.Amount `yaml:"improvements_cap,required"`
	HeatPumpsCap     money.Amount `yaml:"heat_pumps_cap,required"`
}
