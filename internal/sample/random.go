// Package sample is what the tests of several packages share: households - the demos,
// answers written in a test, random ones of every kind from a seed - and a language
// that is invented. Nothing but tests uses it.
package sample

import (
	"fmt"
	"math/rand/v2"
	"testing"
	"time"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/payroll"
	"example.com/plumbline/internal/tables"
)

// Random makes households of every kind from a seed: the same seed makes the
// same household.
type Random struct {
	*rand.Rand
	later  *rand.Rand // draws the years after the first two that have a table
	tables map[int]*tables.Year
}

// NewRandom is the source of a seed.
func NewRandom(t testing.TB, seed uint64) Random {
	r := Random{rand.New(rand.NewPCG(seed, 20260615)), rand.New(rand.NewPCG(seed, 20270101)), map[int]*tables.Year{}}
	for _, year := range Years() {
		r.tables[year] = Year(t, year)
	}
	return r
}

// Chance is true in so many cases of a hundred.
func (r Random) Chance(percent int) bool { return r.IntN(100) < percent }

// UpTo is a whole number of dollars and cents, small ones more often.
func (r Random) UpTo(most int64) money.Amount {
	share := r.Float64() * r.Float64()
	return money.Cents(int64(share * float64(most) * 100))
}

// Sometimes is UpTo in so many cases of a hundred, else nothing.
func (r Random) Sometimes(percent int, most int64) money.Amount {
	if r.Chance(percent) {
		return r.UpTo(most)
	}
	return money.Zero
}

// Date is a day of those from one to another, both included.
func (r Random) Date(from, to household.Date) household.Date {
	return from.AddDays(r.IntN(from.DaysUntil(to) + 1))
}

// Household is a random household with at least one job.
func (r Random) Household() household.Household {
	year := r.year()
	newYear, yearEnd := household.On(year, time.January, 1), household.EndOfYear(year)
	h := household.Household{
		Format: 1, TaxYear: year,
		AsOf:   r.Date(newYear, household.On(year, time.November, 20)),
		Status: household.Statuses()[r.IntN(5)],
		Self:   r.person(year),
	}
	if h.Joint() {
		p := r.person(year)
		h.Spouse = &p
	}
	for i := range 1 + r.IntN(3) + r.IntN(2)*r.IntN(2) {
		h.Jobs = append(h.Jobs, r.Job(h, fmt.Sprintf("job %d", i+1)))
	}
	for range r.IntN(4) {
		if r.Chance(60) {
			h.Dependents = append(h.Dependents, household.Dependent{BirthDate: r.Date(household.On(year-22, 1, 1), yearEnd), FullTimeStudent: r.Chance(30)})
		}
	}
	h.Income = household.Income{
		Interest: r.Sometimes(40, 6000), OrdinaryDividends: r.Sometimes(15, 9000), LongTermGain: r.Sometimes(10, 30000),
		Unemployment: r.Sometimes(5, 9000), Retirement: r.Sometimes(8, 30000), SocialSecurity: r.Sometimes(8, 30000),
	}
	h.Income.SelfEmployment.Self = r.Sometimes(15, 60000)
	h.Adjustments.StudentLoanInterest = r.Sometimes(10, 2500)
	h.Deductions = household.Deductions{
		StateLocalTaxes: r.Sometimes(30, 30000), MortgageInterest: r.Sometimes(25, 30000), CharityCash: r.Sometimes(30, 8000), Medical: r.Sometimes(10, 20000),
	}
	h.Credits.OtherNonrefundable = r.Sometimes(5, 2000)
	h.Payments.EstimatedTax = r.Sometimes(10, 8000)
	if r.Chance(50) {
		tax, income := r.UpTo(40000), r.UpTo(250000)
		h.LastYear = &household.LastYear{TotalTax: &tax, AdjustedGrossIncome: &income}
	}
	h.Wish.Refund = r.Sometimes(20, 1500).DollarDown()
	if r.Chance(15) {
		h.Wish.TellEmployer = household.ExtraOnly
	}
	if r.Chance(25) {
		h.Wish.Spread = household.InProportion
	}
	return h
}

// year is one of those that have a table, each as likely as the others. When a year
// is added, it takes its share of the seeds, and all others keep their households.
func (r Random) year() int {
	years := Years()
	year := years[r.IntN(2)]
	for i, later := range years[2:] {
		if r.later.IntN(i+3) == 0 {
			year = later
		}
	}
	return year
}

func (r Random) person(year int) household.Person {
	return household.Person{BirthDate: r.Date(household.On(year-80, 1, 1), household.On(year-18, 1, 1))}
}

// Job is a job of a household, which may be a pension, end, or begin late.
func (r Random) Job(h household.Household, name string) household.Job {
	newYear := household.On(h.TaxYear, time.January, 1)
	j := household.Job{
		Name:        name,
		Frequency:   household.Frequencies()[[]int{0, 1, 1, 2, 2, 2, 2, 3, 3, 4, 4, 5}[r.IntN(12)]],
		FirstPayday: r.Date(newYear, newYear.AddDays(30)),
	}
	if h.Joint() && r.Chance(50) {
		j.Earner = household.OfSpouse
	}
	if r.Chance(10) {
		j.Kind = household.Pension
	}
	if r.Chance(15) {
		j.FirstPayday = r.Date(newYear, household.On(h.TaxYear, time.November, 20))
	}
	if r.Chance(12) {
		j.LastPayday = r.Date(j.FirstPayday, household.EndOfYear(h.TaxYear))
	}
	periods := []int{0, 260, 52, 26, 24, 12, 4, 2, 1}[j.Frequency]
	j.TaxablePay = money.Dollars(12000).Add(r.UpTo(240000)).DividedBy(periods).ToCent()
	if r.Chance(20) {
		j.Pretax.Retirement = j.TaxablePay.At(money.Percent(int64(r.IntN(12)))).ToCent()
	}
	if r.Chance(85) {
		j.Certificate = r.Certificate(h)
	}
	if r.Chance(80) {
		j.YearToDate = r.stub(h, j)
	}
	if r.Chance(15) {
		when := household.BonusTreatment(r.IntN(2))
		j.OneTimePay = []household.OneTimePay{{Payday: r.Date(h.AsOf, household.EndOfYear(h.TaxYear)), Amount: r.UpTo(12000).Add(money.Dollars(100)), Withholding: when}}
	}
	return j
}

// Certificate is one that payroll may have on file, often a wrong one.
func (r Random) Certificate(h household.Household) *household.Certificate {
	c := household.Certificate{Status: h.Status.OnCertificate()}
	switch {
	case r.Chance(10):
		return &household.Certificate{Edition: household.Before2020, Marital: household.Marital(r.IntN(3)), Allowances: r.IntN(5)}
	case r.Chance(3):
		c.Exempt = true
	case r.Chance(20):
		c.Status = household.CertificateStatus(r.IntN(3))
	}
	c.MultipleJobs = r.Chance(20)
	c.Credits = r.Sometimes(30, 6600).DollarDown()
	c.OtherIncome = r.Sometimes(10, 8000).DollarDown()
	c.Deductions = r.Sometimes(10, 9000).DollarDown()
	c.Extra = r.Sometimes(20, 150).DollarDown()
	return &c
}

// stub is year-to-date figures through the last payday before the day of the
// answers, mostly with the tax that the certificate on file makes, else with
// any; nil before the first payday.
func (r Random) stub(h household.Household, j household.Job) *household.YearToDate {
	n, last := 0, household.Date{}
	for _, d := range j.Paydays(h.TaxYear) {
		if d.After(h.AsOf) {
			break
		}
		n, last = n+1, d
	}
	if n == 0 {
		return nil
	}
	paid := j.TaxablePay.Times(n)
	tax := paid.At(money.Percent(int64(r.IntN(18)))).ToCent()
	if r.Chance(75) {
		p := payroll.Paycheck{Wages: j.TaxablePay, Frequency: j.Frequency, Kind: j.Kind}
		tax = payroll.Withholding(p, j.Certificate, r.tables[h.TaxYear], payroll.Options{}, nil).Times(n)
	}
	return &household.YearToDate{Payday: last, TaxablePay: paid, FederalTax: tax}
}
