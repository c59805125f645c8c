// Package paystub reads a pay stub backwards: what payroll should have taken
// from it by the certificate believed to be on file and, where the stub shows
// something else, which usual cause makes just that. It blames nobody and
// changes nothing.
//
// Start at Stubs.
package paystub

import (
	"fmt"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/payroll"
	"example.com/plumbline/internal/tables"
	"example.com/plumbline/internal/worksheet"
)

// Stub is one job's pay stub beside the certificate believed to be on
// file. Amounts are dollars for the paychecks that it covers.
type Stub struct {
	Job       int            `json:"-"` // index into Household.Jobs
	Name      string         `json:"job"`
	Payday    household.Date `json:"payday"`
	Basis     string         `json:"basis"`     // "last_paycheck" or "year_to_date"
	Paychecks int            `json:"paychecks"` // covered: one, or all of the year so far

	FederalTax     StubCheck  `json:"federal_tax"`
	SocialSecurity *StubCheck `json:"social_security"` // nil when the stub's figure is not known
	Medicare       *StubCheck `json:"medicare"`        // the same

	Explanations []Explanation    `json:"explanations"` // of the federal tax, most exact first; none when it is right
	Ask          string           `json:"ask"`          // what to ask payroll; empty when there is nothing to ask
	Questions    []worksheet.Note `json:"questions"`    // figures of the stub that cannot be right together
}

// StubCheck is a figure of the stub beside what it should be.
type StubCheck struct {
	Expected money.Amount `json:"expected"`
	Actual   money.Amount `json:"actual"`
	Right    bool         `json:"right"`
	Why      string       `json:"why"` // where they differ and a plain cause fits, the cause
}

// Explanation is a cause that would make payroll withhold about what the stub
// shows.
type Explanation struct {
	Code    string       `json:"code"`
	What    string       `json:"what"`    // the cause, in a sentence
	Figure  money.Amount `json:"figure"`  // what it makes payroll withhold
	Off     money.Amount `json:"off"`     // how far that is from the stub
	Exact   bool         `json:"exact"`   // to the cent, as far as payroll's own rounding goes
	Allowed bool         `json:"allowed"` // payroll may do so: nothing to put right
	Ask     string       `json:"ask"`     // what to ask payroll
}

// Stubs reads the pay stub of each job on the return that has one: the newest
// paycheck where the answers give it, else the year to date.
//
// Publication 15-T, Worksheet 1A; Publication 15, section 7; IRC 3101.
func Stubs(h household.Household, y *tables.Year) []Stub {
	var read []Stub
	for _, i := range h.CountedJobs() {
		r := stubReader{h: h, job: h.Jobs[i], index: i, y: y}
		if s, ok := r.read(); ok {
			read = append(read, s)
		}
	}
	return read
}

// stubReader reads one job's stub.
type stubReader struct {
	h     household.Household
	job   household.Job
	index int
	y     *tables.Year

	pay     money.Amount // taxable pay of one paycheck without one-time pay
	oneTime money.Amount // one-time pay within the paycheck
	n       int          // paychecks covered
	actual  money.Amount // federal tax on the stub
}

// cents is how far two right computations of a paycheck can be apart: lines 2h
// and 3b of Worksheet 1A may each be rounded to the cent, or only the result.
var cents = money.Cents(2)

func (r *stubReader) read() (Stub, bool) {
	s := Stub{Job: r.index, Name: r.h.JobName(r.index), Explanations: []Explanation{}, Questions: []worksheet.Note{}}
	switch {
	case r.job.LastPaycheck != nil:
		p := r.job.LastPaycheck
		s.Basis, s.Payday, s.Paychecks = "last_paycheck", p.Payday, 1
		r.n, r.oneTime, r.actual = 1, p.OneTimePay, p.FederalTax
		r.pay = p.TaxablePay.Sub(p.OneTimePay).OrZero()
		r.questionPaycheck(&s)
	case r.job.YearToDate != nil:
		p := r.job.YearToDate
		s.Basis, s.Payday = "year_to_date", p.Payday
		r.n, r.pay, r.actual = r.job.YearPaydays(r.h.TaxYear).Covered, r.job.OrdinaryPay(), p.FederalTax
		s.Paychecks = r.n
		if !r.questionYear(&s) {
			s.FederalTax = StubCheck{Actual: r.actual}
			s.Ask = "Look at the stub again before asking payroll: its figures do not fit together."
			return s, true
		}
	default:
		return Stub{}, false
	}
	r.federal(&s)
	r.social(&s)
	return s, true
}

// questionPaycheck questions a paycheck that does not go with the job.
func (r *stubReader) questionPaycheck(s *Stub) {
	var sheet worksheet.Sheet
	p := r.job.LastPaycheck
	if p.FederalTax.More(p.TaxablePay) {
		sheet.Note("stub.tax_above_pay", "Tax of %s cannot come from pay of %s.", p.FederalTax.Grouped(), p.TaxablePay.Grouped())
	}
	if !p.Payday.IsZero() && len(r.job.Paydays(r.h.TaxYear)) > 0 && !r.job.IsPaydayStub(r.h.TaxYear, p.Payday) {
		sheet.Note("stub.not_a_payday", "%s is not a payday by the first payday and the pay frequency given.", p.Payday.Long())
	}
	s.Questions = append(s.Questions, sheet.Notes...)
}

// questionYear questions year-to-date figures, and reports whether they are the
// ordinary paychecks that the calendar counts, so that the tax can be read.
func (r *stubReader) questionYear(s *Stub) bool {
	var sheet worksheet.Sheet
	p, pay := r.job.YearToDate, r.job.OrdinaryPay()
	fits := r.n > 0 && pay.Times(r.n).Sub(p.TaxablePay).Abs().Less(money.Dollars(1))
	if !fits && pay.IsPositive() {
		sheet.Note("stub.payday_count", "The calendar has %s through %s, which at %s each are %s, while the stub shows %s of taxable pay for the year.",
			counted(r.n, "payday", "paydays"), p.Payday.Long(), pay.Grouped(), pay.Times(r.n).Grouped(), p.TaxablePay.Grouped())
	}
	s.Questions = append(s.Questions, sheet.Notes...)
	return fits
}

// federal holds the federal income tax against the certificate, and looks for
// the cause where they differ.
func (r *stubReader) federal(s *Stub) {
	as := r.asBelieved()
	s.FederalTax = StubCheck{Expected: r.withheld(as), Actual: r.actual}
	s.FederalTax.Right = r.matches(s.FederalTax.Expected)
	if s.FederalTax.Right {
		return
	}
	s.Explanations = r.explain(as)
	switch {
	case len(s.Explanations) == 0:
		s.Ask = "Which certificate do you have on file for me, from when, with which filing status and entries, and how was the federal income tax on this paycheck worked out?"
	case !s.Explanations[0].Allowed:
		s.Ask = s.Explanations[0].Ask
	}
}

// matches reports whether a figure is the stub's, up to payroll's own rounding
// of each paycheck.
func (r *stubReader) matches(figure money.Amount) bool {
	return !figure.Sub(r.actual).Abs().More(cents.Times(r.n))
}

// supposition is one way in which payroll may have worked out the stub.
type supposition struct {
	certificate *household.Certificate
	pay         money.Amount // without one-time pay
	oneTime     money.Amount
	treatment   household.BonusTreatment
	frequency   household.Frequency
	options     payroll.Options
}

// asBelieved is payroll doing what the answers say.
func (r *stubReader) asBelieved() supposition {
	s := supposition{certificate: r.job.Certificate, pay: r.pay, oneTime: r.oneTime, frequency: r.job.Frequency}
	for _, o := range r.job.OneTimePay {
		if r.job.LastPaycheck != nil && o.Payday == r.job.LastPaycheck.Payday {
			s.treatment = o.Withholding
		}
	}
	return s
}

// withheld is the federal tax that a supposition makes.
func (r *stubReader) withheld(s supposition) money.Amount {
	p := payroll.Paycheck{Wages: s.pay, Frequency: s.frequency, Kind: r.job.Kind}
	tax := payroll.Withholding(p, s.certificate, r.y, s.options, nil)
	if s.oneTime.IsPositive() {
		b := payroll.Bonus{Amount: s.oneTime, Treatment: s.treatment}
		tax = tax.Add(payroll.OnBonus(p, b, s.certificate, r.y, s.options, nil))
	}
	return tax.Times(r.n)
}

// social holds social security and Medicare tax against the pay.
func (r *stubReader) social(s *Stub) {
	p := r.job.LastPaycheck
	if p == nil || r.job.Kind != household.Wages {
		return
	}
	t := r.y.SocialSecurityTax
	if p.SocialSecurity != nil {
		c := r.socialCheck(*p.SocialSecurity, t.Rate)
		if !c.Right && p.SocialSecurity.IsZero() {
			c.Why = fmt.Sprintf("none is taken once the year's wages at this employer reach %s, or from a job that social security does not cover", t.WageBase.Amount.GroupedDollars())
		}
		s.SocialSecurity = &c
	}
	if p.Medicare != nil {
		c := r.socialCheck(*p.Medicare, t.MedicareRate)
		if over := r.y.AdditionalMedicare; !c.Right && p.Medicare.More(c.Expected) && c.Why == "" {
			c.Why = fmt.Sprintf("%v more is taken from wages above %s in the year", over.Rate, over.WithheldOver.GroupedDollars())
		}
		s.Medicare = &c
	}
}

// socialCheck holds a tax at a rate against taxable pay with the retirement
// savings that it includes. Pay with all other pre-tax deductions put back, or
// without the savings, is named where it fits.
func (r *stubReader) socialCheck(actual money.Amount, rate money.Rate) StubCheck {
	pay, saved := r.pay.Add(r.oneTime), r.job.Pretax.Retirement
	on := func(wages money.Amount) money.Amount { return wages.At(rate).ToCent() }
	near := func(figure money.Amount) bool { return !figure.Sub(actual).Abs().More(cents) }
	c := StubCheck{Expected: on(pay.Add(saved)), Actual: actual}
	c.Right = near(c.Expected)
	switch {
	case c.Right:
	case near(on(pay.Add(r.job.Pretax.Total()))):
		c.Why = "it was taken from pay before all pre-tax deductions"
	case near(on(pay)):
		c.Why = "it was taken from taxable pay without the retirement savings, which should be in it"
	}
	return c
}
