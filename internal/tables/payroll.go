package tables

import (
	"fmt"
	"strconv"
	"time"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/words"
	"example.com/plumbline/internal/yamldoc"
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

// Check asks for pay periods that grow fewer as they grow longer, down to the
// one of a year.
func (p *Payroll) Check(report yamldoc.Report) {
	before := 0
	for _, f := range household.Frequencies() {
		n, key := p.Periods.Of(f), "pay_periods."+f.String()
		switch {
		case n <= 0:
			report(key, notPositive())
		case before > 0 && n >= before:
			report(key, words.T("tables.pay_periods", "n", n, "before", before))
		case f == household.Annual && n != 1:
			report(key, words.T("tables.annual_periods", "n", n))
		}
		before = n
	}
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

// nonresidentAdditions are the standard deduction of a single person that is
// built into payroll's tables, and that less one allowance, a pay period, to 10
// cents: the construction that gives Publication 15-T (2025), Tables 1 and 2.
func (y *Year) nonresidentAdditions() map[string]string {
	all := map[string]string{}
	whole := y.Payroll.StandardDeduction.Single
	for _, f := range household.Frequencies() {
		part := func(a money.Amount) string {
			return a.DividedBy(y.Payroll.Periods.Of(f)).ToMultiple(money.Cents(10)).String()
		}
		all["payroll.nonresident_addition.current_certificate."+f.String()] = part(whole)
		all["payroll.nonresident_addition.before_2020."+f.String()] = part(whole.Sub(y.Payroll.Allowance))
	}
	return all
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

// ClaimsRenewedBy is the last day of a claim to be exempt from withholding that
// was made the year before: the table's own for the year after it, and figured in
// the same way for any other. Form W-4, "Exempt from withholding"; Publication 15,
// section 9.
func (y *Year) ClaimsRenewedBy(year int) household.Date {
	if year == y.Year+1 {
		return y.Payroll.Effective.Exemption.RenewedBy
	}
	return claimsRenewedBy(year)
}

func claimsRenewedBy(year int) household.Date {
	return onBusinessDay(household.On(year, time.February, 15))
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

// Voluntary is IRC 3402(p): the percents that Form W-4V offers.
type Voluntary struct {
	Citation       `yaml:",inline"`
	SocialSecurity []int `yaml:"social_security_percents,required"`
	Unemployment   int   `yaml:"unemployment_percent,required"`
}

// Check asks for percents that rise.
func (v *Voluntary) Check(report yamldoc.Report) {
	for i := 1; i < len(v.SocialSecurity); i++ {
		if now, before := v.SocialSecurity[i], v.SocialSecurity[i-1]; now <= before {
			report(fmt.Sprintf("social_security_percents[%d]", i), notRising("percents", strconv.Itoa(now), strconv.Itoa(before)))
		}
	}
}

// Withdrawals is IRC 3405: what is withheld from a payment of a retirement plan
// that does not come at intervals, unless one chooses otherwise on Form W-4R.
type Withdrawals struct {
	Citation    `yaml:",inline"`
	Nonperiodic int `yaml:"nonperiodic_percent,required"`
	Rollover    int `yaml:"rollover_percent,required"` // and no less
}
