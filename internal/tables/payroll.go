package tables

import (
	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
)

// Payroll is Publication 15-T: the figures from which the percentage method's
// tables are made, and those beside them.
type Payroll struct {
	Citation `yaml:",inline"`
	// StandardDeduction is the one built into the year's tables, which need not
	// be the one on the return: the tables of 2025 were printed before the law
	// that raised it.
	StandardDeduction BuiltInDeduction `yaml:"built_in_standard_deduction,required"`
	// Line1g is Worksheet 1A, line 1g, where the Step 2 box is not checked.
	Line1g       BuiltInDeduction `yaml:"line_1g,required"`
	Allowance    money.Amount     `yaml:"allowance,required"` // Worksheet 1A, line 1k
	Periods      Periods          `yaml:"pay_periods,required"`
	Supplemental Supplemental     `yaml:"supplemental,required"`
	// Nonresident is what is added to a nonresident alien's wages, per paycheck,
	// only for figuring the tax to withhold.
	Nonresident Nonresident `yaml:"nonresident_addition,required"`
	// WageBracket describes the rows of the wage bracket method.
	WageBracket WageBracket `yaml:"wage_bracket,required"`
	Effective   Effective   `yaml:"certificate_effective,required"`
}

// Supplemental is Publication 15, section 7: the flat rates for bonuses and
// the like.
type Supplemental struct {
	Citation `yaml:",inline"`
	Rate     money.Rate   `yaml:"flat_rate,required"`
	HighRate money.Rate   `yaml:"high_rate,required"`
	HighOver money.Amount `yaml:"high_rate_over,required"` // supplemental wages from one employer in the year
}

// BuiltInDeduction is an amount for each status box of the certificate.
type BuiltInDeduction struct {
	Single          money.Amount `yaml:"single,required"` // single or married filing separately
	Joint           money.Amount `yaml:"married_filing_jointly,required"`
	HeadOfHousehold money.Amount `yaml:"head_of_household,required"`
}

// Of is the amount for a status box.
func (b BuiltInDeduction) Of(s household.CertificateStatus) money.Amount {
	switch s {
	case household.CertificateJoint:
		return b.Joint
	case household.CertificateHeadOfHousehold:
		return b.HeadOfHousehold
	}
	return b.Single
}

// PerFrequency is a figure for each pay frequency.
type PerFrequency[T any] struct {
	Daily       T `yaml:"daily,required"`
	Weekly      T `yaml:"weekly,required"`
	Biweekly    T `yaml:"biweekly,required"`
	Semimonthly T `yaml:"semimonthly,required"`
	Monthly     T `yaml:"monthly,required"`
	Quarterly   T `yaml:"quarterly,required"`
	Semiannual  T `yaml:"semiannual,required"`
	Annual      T `yaml:"annual,required"`
}

// Of is the figure for a pay frequency; for one not known, the annual figure.
func (p PerFrequency[T]) Of(f household.Frequency) T {
	switch f {
	case household.Daily:
		return p.Daily
	case household.Weekly:
		return p.Weekly
	case household.Biweekly:
		return p.Biweekly
	case household.Semimonthly:
		return p.Semimonthly
	case household.Monthly:
		return p.Monthly
	case household.Quarterly:
		return p.Quarterly
	case household.Semiannual:
		return p.Semiannual
	}
	return p.Annual
}

// Periods is the number of pay periods by which Publication 15-T divides the
// year, Worksheet 1A, Table 3.
type Periods = PerFrequency[int]

// Nonresident are Publication 15-T's two tables of additions.
type Nonresident struct {
	Citation   `yaml:",inline"`
	Current    PerFrequency[money.Amount] `yaml:"current_certificate,required"`
	Before2020 PerFrequency[money.Amount] `yaml:"before_2020,required"`
}

// WageBracket describes the wage bracket method's tables: the tax on the
// middle of a row of wages, rounded to the dollar.
type WageBracket struct {
	Citation `yaml:",inline"`
	UpTo     money.Amount       `yaml:"annual_wages_up_to,required"` // above it the percentage method is used
	Rows     PerFrequency[Rows] `yaml:"rows,required"`               // wages of a paycheck; no rows where there is no table
}

// Effective is when a certificate must be put into effect, and when a new one
// is due: IRC 3402(f)(2), (3).
type Effective struct {
	Citation        `yaml:",inline"`
	ReplacementDays int            `yaml:"replacement_within_days,required"`
	NewWithinDays   int            `yaml:"new_certificate_within_days,required"` // after a change that lowers what may be claimed
	NextYearBy      household.Date `yaml:"next_year_certificate_by,required"`    // the date by which a change of status that matters only next year is told
	Exemption       Exemption      `yaml:"exemption,required"`
	PartYear        PartYear       `yaml:"part_year_method,required"`
	Changes         Changes        `yaml:"changes,required"`
}

// Exemption is how long a claim to be exempt lasts: Reg. 31.3402(f)(4)-2(c).
type Exemption struct {
	Citation  `yaml:",inline"`
	RenewedBy household.Date `yaml:"renewed_by,required"` // the date by which an exempt person gives a new certificate
}

// PartYear is the part-year method of Publication 505, chapter 1.
type PartYear struct {
	Citation `yaml:",inline"`
	MostDays int `yaml:"employed_at_most_days,required"`
}

// Changes are those of Publication 505, chapter 1, after which a new
// certificate is due.
type Changes struct {
	Citation         `yaml:",inline"`
	RaiseOver        money.Amount `yaml:"raise_over,required"`
	CreditsDownBy    money.Amount `yaml:"credits_down_by_over,required"`
	DeductionsDownBy money.Amount `yaml:"deductions_down_by_over,required"`
}

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

// MultipleJobs are the form's printed tables for the Step 2(b) worksheet.
type MultipleJobs struct {
	Citation `yaml:",inline"`
	// PayOver: with more than one job above it, the worksheet sends the person
	// to Publication 505.
	PayOver         money.Amount      `yaml:"more_than_one_job_over,required"`
	Joint           MultipleJobsTable `yaml:"married_filing_jointly,required"`
	Single          MultipleJobsTable `yaml:"single,required"`
	HeadOfHousehold MultipleJobsTable `yaml:"head_of_household,required"`
}

// Table is the printed table for a status box.
func (m *MultipleJobs) Table(s household.CertificateStatus) *MultipleJobsTable {
	switch s {
	case household.CertificateJoint:
		return &m.Joint
	case household.CertificateHeadOfHousehold:
		return &m.HeadOfHousehold
	}
	return &m.Single
}

// MultipleJobsTable is one printed table: the row by the annual taxable wages
// of the higher paying job, the column by those of the lower.
type MultipleJobsTable struct {
	Lower []money.Amount    `yaml:"lower_paying_from,required"` // where each column begins
	Rows  []MultipleJobsRow `yaml:"rows,required"`
}

// MultipleJobsRow is one row: where it begins, and its cells, dollars a year.
type MultipleJobsRow struct {
	From  money.Amount   `yaml:"from,required"`
	At    money.Amount   `yaml:"at"` // the wages that its cells are figured on; zero: 85% into the row
	Cells []money.Amount `yaml:"cells,required"`
}
