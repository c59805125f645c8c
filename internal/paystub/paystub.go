// Package paystub reads a pay stub backwards: what payroll should have taken
// from it by the certificate believed to be on file on that day and, where the
// stub shows something else, which usual cause makes just that. Without a
// certificate it finds those that withhold the same. It blames nobody and
// changes nothing.
//
// Start at Stubs, or at Fits where no certificate is known.
package paystub

import (
	"slices"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/payroll"
	"example.com/plumbline/internal/tables"
	"example.com/plumbline/internal/words"
)

// Stub is one job's pay stub beside the certificate believed to be on
// file. Amounts are dollars for the paychecks that it covers.
type Stub struct {
	Job       int // index into Household.Jobs
	Name      string
	Payday    household.Date
	Basis     Basis
	Paychecks int // covered: one, or all of the year so far

	FederalTax     Check
	SocialSecurity *Check // nil when the stub's figure is not known
	Medicare       *Check // the same

	// Unread says why the federal tax cannot be judged: the stub's figures do not
	// fit together, or nobody knows which certificate counted on that payday.
	Unread words.Text
	// Explanations are causes of the federal tax, the most exact first; none when
	// it is right. One that is right by an earlier certificate has that alone.
	Explanations []Explanation
	Ask          []words.Text // what to ask payroll; empty when there is nothing to ask
	Questions    []words.Text // figures of the stub that cannot be right together
	// Varies says that pay was not the same on each payday, as is usual; empty
	// where it was, or one paycheck was read.
	Varies words.Text
	// TaxOfOne reports that the tax for the year is about that of one paycheck.
	TaxOfOne bool
	// Paid is the number of ordinary paychecks that both the pay and the tax for
	// the year fit, where it is not the calendar's; else zero.
	Paid int
	// PayIsGross reports that the pay for the year is about that of so many
	// paychecks before pre-tax deductions, while the tax is that after them.
	PayIsGross bool
}

// Basis is which figures of a stub were read.
type Basis string

// The two kinds of figures.
const (
	LastPaycheck Basis = "last_paycheck" // those of its own payday
	YearToDate   Basis = "year_to_date"
)

// Check is a figure of the stub beside what it should be.
type Check struct {
	Expected money.Amount // on pay that varies, the least it can be: that on its average
	Most     money.Amount // on pay that varies, the most it is likely to be; else Expected
	Actual   money.Amount
	Right    bool       // as expected, up to rounding; on pay that varies, from Expected to Most
	FarApart bool       // more than is likely, but paychecks that are far apart can bring it; Most is then the most of all
	About    bool       // so near to Expected that the difference says nothing: Why says why
	Why      words.Text // where they differ and a plain cause fits, the cause
}

// Explanation is a cause that would make payroll withhold about what the stub
// shows.
type Explanation struct {
	Code    string
	What    words.Text
	Figure  money.Amount // what it makes payroll withhold
	Off     money.Amount // how far that is from the stub
	Exact   bool         // to the cent, up to payroll's own rounding
	Allowed bool         // payroll may do so: nothing to put right
	Ask     words.Text
}

// Stubs reads the pay stub of each job on the return that has one: the newest
// paycheck where the answers give it, else the year to date. A paycheck from
// before the year-to-date figures is out of date and not read.
//
// Publication 15-T, Worksheet 1A; Publication 15, section 7; IRC 3101.
func Stubs(h household.Household, y *tables.Year) []Stub {
	var read []Stub
	for _, i := range h.CountedJobs() {
		if s, ok := Read(h, i, y); ok {
			read = append(read, s)
		}
	}
	return read
}

// Read reads the pay stub of the job at an index of Household.Jobs, and reports
// whether it has one.
func Read(h household.Household, job int, y *tables.Year) (Stub, bool) {
	r, ok := newReader(h, job, y)
	if !ok {
		return Stub{}, false
	}
	return r.read(), true
}

// stubReader reads one job's stub.
type stubReader struct {
	h     household.Household
	job   household.Job
	index int
	y     *tables.Year

	paycheck *household.Paycheck // nil: the year to date is read
	payday   household.Date
	pay      money.Amount       // taxable pay of one paycheck without one-time pay; the average where it varies
	varies   bool               // the year's pay is not ordinary pay on each payday
	oneTime  money.Amount       // one-time pay within the paycheck
	n        int                // paychecks covered
	actual   money.Amount       // federal tax on the stub
	so       household.PaySoFar // zero without figures for the year
	days     []household.Date   // that the stub covers, where they are known
	mostTax  *money.Amount      // on pay that varies; figured when it is first asked for
	inShort  bool               // only causes that settle whether the tax is wrong are looked for
}

func newReader(h household.Household, job int, y *tables.Year) (*stubReader, bool) {
	r := &stubReader{h: h, job: h.Jobs[job], index: job, y: y}
	p, year := r.job.LastPaycheck, r.job.YearToDate
	if p != nil && year != nil && !p.Payday.IsZero() && p.Payday.Before(year.Payday) {
		p = nil // out of date
	}
	switch {
	case p != nil:
		r.paycheck, r.payday, r.n = p, p.Payday, 1
		r.pay, r.oneTime, r.actual = p.TaxablePay.Sub(p.OneTimePay).OrZero(), p.OneTimePay, p.FederalTax
		if !r.payday.IsZero() { // a paycheck may have no date
			r.days = []household.Date{r.payday}
		}
	case year != nil:
		days := r.job.YearPaydays(h.TaxYear)
		r.payday, r.n, r.days, r.so = year.Payday, days.Covered, days.All[:days.Covered], r.job.PaySoFarOn(days)
		r.pay, r.actual = r.job.OrdinaryPay(), year.FederalTax
		if variesUsually(r.so, r.job.PayVaries) {
			r.varies, r.pay = true, r.so.Paid.DividedBy(r.so.Paydays).ToCent()
		}
	default:
		return nil, false
	}
	return r, true
}

// cents is how far two right computations of a paycheck can be apart: lines 2h
// and 3b of Worksheet 1A may each be rounded to the cent, or only the result.
var cents = money.Cents(2)

func (r *stubReader) read() Stub {
	s := Stub{Job: r.index, Name: r.h.JobName(r.index), Payday: r.payday, Basis: YearToDate, Paychecks: r.n}
	s.FederalTax.Actual = r.actual
	fits := true
	if r.paycheck != nil {
		s.Basis = LastPaycheck
		s.Questions = r.questionPaycheck()
	} else {
		if r.onPaidPaychecks(&s) {
			return s
		}
		s.Questions, fits = r.questionYear()
		s.Varies = r.aboutPay()
	}
	if !fits {
		s.Unread = words.T("stub.unread.does_not_fit")
		return s
	}
	r.federal(&s)
	r.social(&s)
	return s
}

// questionPaycheck questions a paycheck that does not go with the job.
func (r *stubReader) questionPaycheck() (questions []words.Text) {
	if p := r.paycheck; p.FederalTax.More(p.TaxablePay) {
		questions = append(questions, words.T("stub.question.tax_above_pay", "tax", p.FederalTax, "pay", p.TaxablePay))
	}
	return append(questions, r.questionDay()...)
}

// questionDay questions a day that the job does not pay on.
func (r *stubReader) questionDay() []words.Text {
	if r.payday.IsZero() || len(r.job.Paydays(r.h.TaxYear)) == 0 || r.job.IsPaydayStub(r.h.TaxYear, r.payday) {
		return nil
	}
	return []words.Text{words.T("stub.question.not_a_payday", "payday", r.payday)}
}

// questionYear questions year-to-date figures, and reports whether they can be
// the paychecks that the calendar counts, so that the tax can be read.
func (r *stubReader) questionYear() (questions []words.Text, fits bool) {
	so := r.so
	onPayday := r.n > 0 && r.days[r.n-1] == r.payday
	if !onPayday && !r.job.FirstPayday.IsZero() { // without it the paydays are assumed
		questions = r.questionDay()
	}
	if so.Even() || r.varies {
		return questions, true
	}
	if so.Ordinary.IsPositive() {
		questions = append(questions, words.T("stub.question.payday_count", "paydays", so.Paydays, "payday", r.payday,
			"pay", so.Ordinary, "expected", so.Expected, "shown", so.Paid))
	}
	return questions, false
}

// federal compares the federal income tax with what the certificate asks for,
// and looks for the cause where they differ.
func (r *stubReader) federal(s *Stub) {
	as, known := r.asBelieved()
	if !known {
		r.beforeItCounted(s, as)
		return
	}
	c := &s.FederalTax
	c.Expected = r.withheld(as)
	c.Most, c.Right = c.Expected, r.matches(c.Expected)
	all, ofOne := r.ofOne(as)
	switch {
	case c.Right:
	case ofOne:
		s.TaxOfOne, c.Expected, c.Most = true, all, all
		s.Questions = append(s.Questions, words.T("stub.question.tax_of_one", "shown", r.actual, "paychecks", r.n, "expected", c.Expected))
		s.Unread = words.T("stub.unread.does_not_fit")
	case r.varies:
		r.onVariedPay(s, as)
	default:
		s.Explanations = r.explain(as)
		s.Ask = r.toAsk(s.Explanations)
		r.mayVary(s, as)
		r.aboutRight(s)
	}
}

// projectedOff is how far a year's withholding by projected tables is taken to be
// off, dollars: a step or two in which the standard deduction and the brackets
// are rounded, at the lower rates. No rule.
var projectedOff = money.Dollars(100)

// aboutRight judges tax that differs by too little to ask payroll about: by less
// than a dollar a paycheck, or by no more than tables that are projected can be
// off. A cause that makes just the stub's figure is still named, except that by
// such tables none can be told.
func (r *stubReader) aboutRight(s *Stub) {
	c := &s.FederalTax
	off := c.Expected.Sub(r.actual).Abs()
	projected := r.y.Projected != nil
	small := off.Less(nearEnough.Times(r.n))
	if projected && r.job.Frequency != household.FrequencyUnknown {
		slack := projectedOff.DividedBy(r.y.Payroll.Periods.Of(r.job.Frequency)).ToCent().Times(r.n)
		small = small || !off.More(slack)
	}
	if c.Right || !small || len(s.Explanations) > 0 && s.Explanations[0].Allowed && s.Explanations[0].Exact {
		return
	}
	c.About, c.Why, s.Ask = true, words.T("stub.about.small"), nil
	s.Explanations = slices.DeleteFunc(s.Explanations, func(e Explanation) bool { return !e.Exact || projected })
	if projected {
		c.Why = words.T("stub.about.projected", "year", r.y.Year)
	}
}

// beforeItCounted reads paychecks of which some came before the certificate on
// file counted, while the one before it is not known: they are not judged by it.
// Where a usual certificate before it makes just the stub's figure, that one is
// named, and nothing is wrong.
func (r *stubReader) beforeItCounted(s *Stub, as supposition) {
	for _, c := range r.earlierForms(as) {
		if f := r.withheld(c.as); f.Equal(r.actual) {
			s.FederalTax = Check{Expected: f, Most: f, Actual: r.actual, Right: true}
			s.Explanations = []Explanation{{Code: c.code, What: c.what, Figure: f, Exact: true, Allowed: true}}
			return
		}
	}
	s.Unread = words.T("stub.unread.earlier_certificate", "basis", string(s.Basis), "from", r.job.PaydayOf(r.job.Certificate.CountsFrom))
}

// toAsk is what to ask payroll about the causes found: about each of those that
// are equally exact; nothing where what payroll may do explains the stub.
func (r *stubReader) toAsk(found []Explanation) []words.Text {
	if len(found) == 0 {
		return []words.Text{words.T("stub.ask.open", "basis", string(r.basis()))}
	}
	if found[0].Allowed {
		return nil
	}
	var ask []words.Text
	for i, e := range found {
		said := false
		for _, a := range ask {
			said = said || a.Equal(e.Ask)
		}
		if (i == 0 || e.Exact) && !e.Allowed && !said {
			ask = append(ask, e.Ask)
		}
	}
	return ask
}

func (r *stubReader) basis() Basis {
	if r.paycheck != nil {
		return LastPaycheck
	}
	return YearToDate
}

// matches reports whether a figure is the stub's, up to payroll's own rounding
// of each paycheck.
func (r *stubReader) matches(figure money.Amount) bool {
	return !figure.Sub(r.actual).Abs().More(cents.Times(r.n))
}

// supposition is one way in which payroll may have worked out the stub.
type supposition struct {
	certificate *household.Certificate // that of the newest paychecks
	earlier     []run                  // paychecks before them, oldest first
	pay         money.Amount           // without one-time pay
	oneTime     money.Amount
	treatment   household.BonusTreatment
	frequency   household.Frequency
	options     payroll.Options
}

// run is paychecks in a row under one certificate.
type run struct {
	certificate *household.Certificate
	paychecks   int
}

// asBelieved is payroll doing what the answers say, each paycheck by the
// certificate of its day. It reports false where the certificate of some is not
// known; those are then the first run, as if by none.
func (r *stubReader) asBelieved() (s supposition, known bool) {
	s = supposition{certificate: r.job.Certificate, pay: r.pay, oneTime: r.oneTime, frequency: r.job.Frequency}
	for _, o := range r.job.OneTimePay {
		if r.paycheck != nil && r.job.PaydayOf(o.Payday) == r.payday {
			s.treatment = o.Withholding
		}
	}
	known = true
	var runs []run
	for _, d := range r.days {
		c, ok := r.job.CertificateOn(d)
		known = known && ok
		if last := len(runs) - 1; last >= 0 && runs[last].certificate == c {
			runs[last].paychecks++
			continue
		}
		runs = append(runs, run{c, 1})
	}
	if len(runs) > 0 {
		s.earlier, s.certificate = runs[:len(runs)-1], runs[len(runs)-1].certificate
	}
	return s, known
}

// withheld is the federal tax that a supposition makes.
func (r *stubReader) withheld(s supposition) money.Amount {
	total, left := money.Zero, r.n
	for _, e := range s.earlier {
		total = total.Add(r.ofPaycheck(s, e.certificate).Times(e.paychecks))
		left -= e.paychecks
	}
	return total.Add(r.ofPaycheck(s, s.certificate).Times(left))
}

// ofPaycheck is the federal tax of one paycheck under a certificate.
func (r *stubReader) ofPaycheck(s supposition, c *household.Certificate) money.Amount {
	p := payroll.Paycheck{Wages: s.pay, Frequency: s.frequency, Kind: r.job.Kind}
	tax := payroll.Withholding(p, c, r.y, s.options, nil)
	if s.oneTime.IsPositive() {
		b := payroll.Bonus{Amount: s.oneTime, Treatment: s.treatment}
		tax = tax.Add(payroll.OnBonus(p, b, c, r.y, s.options, nil))
	}
	return tax
}

// social compares social security and Medicare tax with the pay.
func (r *stubReader) social(s *Stub) {
	p := r.paycheck
	if p == nil || r.job.Kind != household.Wages {
		return
	}
	t := r.y.SocialSecurityTax
	if p.SocialSecurity != nil {
		c := r.socialCheck(*p.SocialSecurity, t.Rate)
		if !c.Right && p.SocialSecurity.IsZero() {
			c.Why = words.T("stub.social.none_taken", "base", t.WageBase)
		}
		s.SocialSecurity = &c
	}
	if p.Medicare != nil {
		c := r.socialCheck(*p.Medicare, t.MedicareRate)
		if over := r.y.AdditionalMedicare; !c.Right && p.Medicare.More(c.Expected) && c.Why.IsZero() {
			c.Why = words.T("stub.social.additional_medicare", "rate", over.Rate, "over", over.WithheldOver)
		}
		s.Medicare = &c
	}
}

// socialCheck compares a tax at a rate with taxable pay and the retirement
// savings that it includes. Pay with all other pre-tax deductions put back, or
// without the savings, is named where it fits.
func (r *stubReader) socialCheck(actual money.Amount, rate money.Rate) Check {
	pay, saved := r.pay.Add(r.oneTime), r.job.Pretax.Retirement
	on := func(wages money.Amount) money.Amount { return wages.At(rate).ToCent() }
	near := func(figure money.Amount) bool { return !figure.Sub(actual).Abs().More(cents) }
	c := Check{Expected: on(pay.Add(saved)), Actual: actual}
	c.Most = c.Expected
	c.Right = near(c.Expected)
	switch {
	case c.Right:
	case near(on(pay.Add(r.job.Pretax.Total()))):
		c.Why = words.T("stub.social.on_gross")
	case near(on(pay)):
		c.Why = words.T("stub.social.without_savings")
	}
	return c
}
