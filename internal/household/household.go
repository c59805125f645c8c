// Package household is the facts of one household for one tax year, in the
// shape of the answers file: people, jobs, dependents, income, deductions,
// credits, payments and wishes. It checks that the facts agree with each
// other, knows the calendar of paydays, and holds no arithmetic of the law.
//
// Start at Household. The yaml tags are the names in the answers file, with
// "signed" beside the amounts that may be negative; a key left out is the zero
// value, which means "does not apply, zero, not known".
// Facts that do not apply under the filing status (a spouse's job after a
// divorce) stay in the file and are passed over by the methods that list
// people and jobs: read those through Earners and CountedJobs.
package household

import (
	"slices"

	"example.com/plumbline/internal/money"
)

// Format is the newest version of the answers file that this program knows.
const Format = 1

// Household is everything that one answers file says.
type Household struct {
	Format      int          `yaml:"format,required"`
	ID          string       `yaml:"id"` // whose answers these are, in the helper's own words; no more than a label
	TaxYear     int          `yaml:"tax_year,required"`
	AsOf        Date         `yaml:"as_of"` // the day this is worked out; the reader of the file fills in today
	Status      Status       `yaml:"filing_status,required"`
	LivedApart  bool         `yaml:"lived_apart"` // from the spouse, the whole year; matters only to separate filers
	Self        Person       `yaml:"self"`
	Spouse      *Person      `yaml:"spouse"`
	Jobs        []Job        `yaml:"jobs"`
	Dependents  []Dependent  `yaml:"dependents"`
	Income      Income       `yaml:"income"`
	Adjustments Adjustments  `yaml:"adjustments"`
	Deductions  Deductions   `yaml:"deductions"`
	Credits     Credits      `yaml:"credits"`
	Payments    Payments     `yaml:"payments"`
	OtherTaxes  OtherTaxes   `yaml:"other_taxes"`
	Parents     *Parents     `yaml:"parents"`            // of one whose own unearned income may be taxed at their rate; nil: not known
	Marketplace *Marketplace `yaml:"health_marketplace"` // nil: no insurance from the marketplace
	LastYear    *LastYear    `yaml:"last_year"`          // nil when not known
	NextYear    NextYear     `yaml:"next_year"`          // what is known to differ then
	Wish        Wish         `yaml:"wish"`
	Interview   InterviewLog `yaml:"interview"`
}

// Person is one taxpayer.
type Person struct {
	BirthDate       Date  `yaml:"birth_date"`
	Blind           bool  `yaml:"blind"`
	CanBeClaimed    bool  `yaml:"can_be_claimed"`     // as a dependent on another person's return
	SSNValidForWork *bool `yaml:"ssn_valid_for_work"` // nil means yes; the number itself is never asked for
	FullTimeStudent bool  `yaml:"full_time_student"`  // during any five months of the year
	// Not able to care for themselves, all year, at home with the spouse: IRC
	// 21(b)(1)(C). And what is paid for their care so that the spouse can work.
	Disabled    bool       `yaml:"disabled"`
	CareMonthly *EachMonth `yaml:"care_monthly"`
}

// Care is what the care of the person costs in the year.
func (p Person) Care() money.Amount { return orMonthly(money.Zero, p.CareMonthly) }

// HasSSN reports whether the person has a social security number valid for
// work; yes unless the answers say no.
func (p Person) HasSSN() bool { return p.SSNValidForWork == nil || *p.SSNValidForWork }

// Job is one employer's pay, or one pension paid at intervals.
type Job struct {
	Name        string       `yaml:"name"`
	Earner      Earner       `yaml:"earner"`
	Kind        JobKind      `yaml:"kind"`
	State       State        `yaml:"state"` // where the work is done
	Frequency   Frequency    `yaml:"pay_frequency,required"`
	TaxablePay  money.Amount `yaml:"taxable_pay"` // federal taxable wages in an ordinary paycheck; read through OrdinaryPay
	GrossPay    money.Amount `yaml:"gross_pay"`   // per paycheck, before Pretax
	PayVaries   bool         `yaml:"pay_varies"`  // from paycheck to paycheck, so that ordinary pay is an average
	Pretax      Pretax       `yaml:"pretax"`
	FirstPayday Date         `yaml:"first_payday"`
	// The days of the month on which pay is due, one for monthly pay, two for
	// semimonthly; none: they follow from FirstPayday.
	PaydaysOfMonth []DayOfMonth `yaml:"paydays_of_month"`
	Moved          MovedPaydays `yaml:"moved_paydays"` // paydays on which banks are closed
	LastPayday     Date         `yaml:"last_payday"`
	YearToDate     *YearToDate  `yaml:"year_to_date"`  // nil: nothing paid yet
	LastPaycheck   *Paycheck    `yaml:"last_paycheck"` // the newest stub's own paycheck, to compare with the certificate
	OneTimePay     []OneTimePay `yaml:"one_time_pay"`
	// Both for the whole year, already inside taxable pay; Overtime is only
	// the premium part.
	QualifiedTips     money.Amount `yaml:"qualified_tips"`
	QualifiedOvertime money.Amount `yaml:"qualified_overtime"`
	Certificate       *Certificate `yaml:"certificate"` // nil: payroll has none
	// The certificates that payroll went by before Certificate.CountsFrom, as
	// far as they are known, oldest first.
	EarlierCertificates []Certificate `yaml:"earlier_certificates"`
}

// Pretax is what comes off gross pay before federal income tax, per paycheck.
type Pretax struct {
	Retirement    money.Amount `yaml:"retirement"`
	Health        money.Amount `yaml:"health"`
	FSA           money.Amount `yaml:"fsa"`
	HSA           money.Amount `yaml:"hsa"`
	DependentCare money.Amount `yaml:"dependent_care"`
	Other         money.Amount `yaml:"other"`
}

// Total is all pre-tax deductions of one paycheck.
func (p Pretax) Total() money.Amount {
	return money.Sum(p.Retirement, p.Health, p.FSA, p.HSA, p.DependentCare, p.Other)
}

// PretaxKind is one kind of pre-tax deduction, by its key, and its dollars a
// paycheck.
type PretaxKind struct {
	Name   string
	Amount money.Amount
}

// Kinds are the deductions that there are.
func (p Pretax) Kinds() []PretaxKind {
	all := []PretaxKind{
		{"retirement", p.Retirement},
		{"health", p.Health},
		{"fsa", p.FSA},
		{"hsa", p.HSA},
		{"dependent_care", p.DependentCare},
		{"other", p.Other},
	}
	return slices.DeleteFunc(all, func(k PretaxKind) bool { return !k.Amount.IsPositive() })
}

// OrdinaryPay is the federal taxable wages of an ordinary paycheck: as given,
// or gross pay less the pre-tax deductions.
func (j Job) OrdinaryPay() money.Amount {
	if j.TaxablePay.IsZero() && j.GrossPay.IsPositive() {
		return j.GrossPay.Sub(j.Pretax.Total()).OrZero()
	}
	return j.TaxablePay
}

// PayAnswers are the keys, within the job's answers, that its pay for the year
// comes from.
func (j Job) PayAnswers() []string {
	var keys []string
	if j.YearToDate != nil {
		keys = append(keys, "year_to_date.taxable_pay")
	}
	keys = append(keys, j.OrdinaryPayAnswers()...)
	if len(j.OneTimePay) > 0 {
		keys = append(keys, "one_time_pay")
	}
	return keys
}

// OrdinaryPayAnswers are the keys, within the job's answers, that OrdinaryPay
// comes from.
func (j Job) OrdinaryPayAnswers() []string {
	switch {
	case j.TaxablePay.IsPositive() || !j.GrossPay.IsPositive():
		return []string{"taxable_pay"}
	case j.Pretax.Total().IsPositive():
		return []string{"gross_pay", "pretax"}
	}
	return []string{"gross_pay"}
}

// YearToDate is the last pay stub's running totals, true through Payday.
type YearToDate struct {
	Payday     Date         `yaml:"payday,required"`
	TaxablePay money.Amount `yaml:"taxable_pay"`
	FederalTax money.Amount `yaml:"federal_tax"`
}

// Paycheck is what one pay stub shows for its own payday.
type Paycheck struct {
	Payday         Date          `yaml:"payday"`
	TaxablePay     money.Amount  `yaml:"taxable_pay"`
	OneTimePay     money.Amount  `yaml:"one_time_pay"` // a bonus inside TaxablePay
	FederalTax     money.Amount  `yaml:"federal_tax"`
	SocialSecurity *money.Amount `yaml:"social_security"` // nil when not read off the stub
	Medicare       *money.Amount `yaml:"medicare"`
}

// OneTimePay is a bonus or the like still to come: supplemental wages.
type OneTimePay struct {
	Payday      Date           `yaml:"payday,required"`
	Amount      money.Amount   `yaml:"amount,required"`
	Withholding BonusTreatment `yaml:"withholding"`
}

// Certificate is a withholding certificate as payroll holds it.
type Certificate struct {
	CountsFrom   Date              `yaml:"counts_from"` // the first payday on which payroll went by it; zero: since before this year
	Edition      Edition           `yaml:"edition"`
	Status       CertificateStatus `yaml:"filing_status"`
	MultipleJobs bool              `yaml:"multiple_jobs"` // the Step 2(c) box
	Credits      money.Amount      `yaml:"credits"`       // Step 3, a year
	OtherIncome  money.Amount      `yaml:"other_income"`  // Step 4(a), a year
	Deductions   money.Amount      `yaml:"deductions"`    // Step 4(b), a year
	Extra        money.Amount      `yaml:"extra"`         // Step 4(c), a paycheck; line 6 before 2020
	Exempt       bool              `yaml:"exempt"`
	Marital      Marital           `yaml:"marital"`    // before 2020 only
	Allowances   int               `yaml:"allowances"` // before 2020 only
}

// Same reports whether two certificates have the same entries, or neither is
// there.
func (c *Certificate) Same(as *Certificate) bool {
	if c == nil || as == nil {
		return c == as
	}
	return c.Edition == as.Edition && c.Status == as.Status && c.MultipleJobs == as.MultipleJobs && c.Exempt == as.Exempt &&
		c.Marital == as.Marital && c.Allowances == as.Allowances &&
		c.Credits.Equal(as.Credits) && c.OtherIncome.Equal(as.OtherIncome) && c.Deductions.Equal(as.Deductions) && c.Extra.Equal(as.Extra)
}

// Dependent is a person whom the household may claim. The optional facts are
// pointers: nil means "the ordinary answer", given by the method of that name.
type Dependent struct {
	Name              string       `yaml:"name"`
	BirthDate         Date         `yaml:"birth_date"`
	Relationship      Relationship `yaml:"relationship"`
	MonthsWithYou     *int         `yaml:"months_with_you"`
	FullTimeStudent   bool         `yaml:"full_time_student"`
	Disabled          bool         `yaml:"disabled"`
	SupportsSelf      bool         `yaml:"supports_self"`
	YouSupport        *bool        `yaml:"you_support"`
	GrossIncome       money.Amount `yaml:"gross_income"`
	SSNValidForWork   *bool        `yaml:"ssn_valid_for_work"`
	FilesJointReturn  bool         `yaml:"files_joint_return"`
	CitizenOrResident *bool        `yaml:"citizen_or_resident"`
	CareExpenses      money.Amount `yaml:"care_expenses"` // of the year; read through Care
	CareMonthly       *EachMonth   `yaml:"care_monthly"`
	CountsAs          CountsAs     `yaml:"counts_as"`
}

// Months is the number of months the dependent lives with the taxpayer this
// year; all twelve unless the answers say otherwise.
func (d Dependent) Months() int {
	if d.MonthsWithYou == nil {
		return 12
	}
	return *d.MonthsWithYou
}

// Supported reports whether the taxpayer pays more than half of the
// dependent's support; yes unless the answers say no.
func (d Dependent) Supported() bool { return d.YouSupport == nil || *d.YouSupport }

// HasSSN reports whether the dependent has a social security number valid for
// work; yes unless the answers say no.
func (d Dependent) HasSSN() bool { return d.SSNValidForWork == nil || *d.SSNValidForWork }

// Resident reports whether the dependent is a citizen, national or resident;
// yes unless the answers say no.
func (d Dependent) Resident() bool { return d.CitizenOrResident == nil || *d.CitizenOrResident }

// Care is the dependent's care expenses of a year: as given, or the monthly
// amount over its months, from the birth on.
func (d Dependent) Care(year int) money.Amount {
	m := d.CareMonthly
	if first := d.FirstMonthOf(year); m != nil && m.FirstMonth < first {
		m = &EachMonth{Amount: m.Amount, FirstMonth: first, LastMonth: m.LastMonth}
	}
	return orMonthly(d.CareExpenses, m)
}

// FirstMonthOf is the first month of a year in which the dependent was alive, 1 to
// 12; 1 where the birth date is not known.
func (d Dependent) FirstMonthOf(year int) int {
	if d.BirthDate.Year == year {
		return int(d.BirthDate.Month)
	}
	return 1
}

// Marketplace is a year's health insurance from the marketplace, as Form 1095-A
// sums it up: dollars for the months that it covers.
type Marketplace struct {
	Months    *int         `yaml:"months"`    // nil: all twelve
	Premiums  money.Amount `yaml:"premiums"`  // enrollment premiums, before any advance
	Benchmark money.Amount `yaml:"benchmark"` // premiums of the second lowest cost silver plan
	Advance   money.Amount `yaml:"advance"`   // advance credit paid to the insurer
	Household *int         `yaml:"household"` // people in the tax family; nil: those on the return
	Place     Place        `yaml:"place"`
}

// CoveredMonths is the number of months of coverage; all twelve unless the
// answers say otherwise.
func (m Marketplace) CoveredMonths() int {
	if m.Months == nil {
		return 12
	}
	return *m.Months
}

// LastYear is what last year's return shows; a figure is nil when it is not
// known. The tax is that of Form 2210, line 8: the total tax less the refundable
// credits.
type LastYear struct {
	TotalTax            *money.Amount `yaml:"total_tax"`
	AdjustedGrossIncome *money.Amount `yaml:"adjusted_gross_income,signed"`
	Forecast            bool          `yaml:"forecast"` // both were expected last year; the return is not there yet
}

// NextYear is what is known to be otherwise in the year after the tax year.
// What it leaves out follows from this year: what recurs comes again, what
// happens once does not.
type NextYear struct {
	Income      IncomeOf[*money.Amount]            `yaml:"income"`
	Adjustments AdjustmentsOf[*money.Amount]       `yaml:"adjustments"`
	Deductions  DeductionsOf[*money.Amount, *bool] `yaml:"deductions"`
	Credits     CreditsOf[*money.Amount]           `yaml:"credits"`
	Payments    PaymentsOf[*money.Amount]          `yaml:"payments"`
	Jobs        []NextJob                          `yaml:"jobs"`
	Dependents  []NextDependent                    `yaml:"dependents"`
	Marketplace *Marketplace                       `yaml:"health_marketplace"` // in place of this year's; without premiums there is none
}

// NextJob is what differs next year at the job of that name.
type NextJob struct {
	Name       string        `yaml:"name,required"`
	TaxablePay *money.Amount `yaml:"taxable_pay"` // in an ordinary paycheck, from January on
	LastPayday Date          `yaml:"last_payday"` // the job ends then
	OneTimePay []OneTimePay  `yaml:"one_time_pay"`
}

// NextDependent is what differs next year for the dependent of that name, or
// somebody born then.
type NextDependent struct {
	Name         string        `yaml:"name,required"`
	BirthDate    Date          `yaml:"birth_date"` // of somebody who is not among this year's dependents
	CareExpenses *money.Amount `yaml:"care_expenses"`
}

// Tax is last year's tax, and whether it is known.
func (l *LastYear) Tax() (tax money.Amount, known bool) {
	if l == nil || l.TotalTax == nil {
		return money.Zero, false
	}
	return *l.TotalTax, true
}

// Wish is what the person wants of the result. A nil amount leaves it to the
// rules of the advice.
type Wish struct {
	Aim          Aim           `yaml:"aim"`
	Refund       money.Amount  `yaml:"refund"`                 // read through Goal
	Exempt       bool          `yaml:"exempt"`                 // claim exemption from withholding, where the person may
	Within       *money.Amount `yaml:"within"`                 // how near is near enough, dollars on either side
	MostLess     *money.Amount `yaml:"most_less_per_paycheck"` // by how much an ordinary paycheck may shrink, at each job
	TellEmployer Disclosure    `yaml:"tell_employer"`
	Spread       Spread        `yaml:"spread"`
	FirstPayday  Date          `yaml:"first_payday"`
}

// Goal is the balance to aim for: the refund wished for, or nothing.
func (w Wish) Goal() money.Amount {
	if w.Aim == AimUnsaid || w.Aim == AimRefund {
		return w.Refund
	}
	return money.Zero
}

// Joint reports whether the spouse is on the same return.
func (h Household) Joint() bool { return h.Status == MarriedFilingJointly }

// Earners are the people on this return: self, and the spouse on a joint one.
func (h Household) Earners() []Earner {
	if h.Joint() {
		return []Earner{OfSelf, OfSpouse}
	}
	return []Earner{OfSelf}
}

// Person is the facts about one earner; nothing is known of a spouse who is
// not in the answers.
func (h Household) Person(e Earner) Person {
	switch {
	case e == OfSelf:
		return h.Self
	case h.Spouse != nil:
		return *h.Spouse
	}
	return Person{}
}

// DisabledSpouses are those on a joint return who are not able to care for
// themselves, each of them the spouse of the other: IRC 21(b)(1)(C).
func (h Household) DisabledSpouses() []Earner {
	if !h.Joint() {
		return nil
	}
	return slices.DeleteFunc(h.Earners(), func(e Earner) bool { return !h.Person(e).Disabled })
}

// CountedJobs are the indexes into Jobs of those on this return: all of one's
// own, and the spouse's on a joint return.
func (h Household) CountedJobs() []int {
	var counted []int
	for i, j := range h.Jobs {
		if j.Earner == OfSelf || h.Joint() {
			counted = append(counted, i)
		}
	}
	return counted
}
