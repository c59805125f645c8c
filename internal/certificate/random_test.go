package certificate

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

// random makes households of every kind from a seed: the same seed makes the
// same household.
type random struct {
	*rand.Rand
	tables map[int]*tables.Year
}

func newRandom(t testing.TB, seed uint64) random {
	return random{rand.New(rand.NewPCG(seed, 20260615)), map[int]*tables.Year{2025: year(t, 2025), 2026: year(t, 2026)}}
}

func (r random) chance(percent int) bool { return r.IntN(100) < percent }

// upTo is a whole number of dollars and cents, small ones more often.
func (r random) upTo(most int64) money.Amount {
	share := r.Float64() * r.Float64()
	return money.Cents(int64(share * float64(most) * 100))
}

// sometimes is upTo in so many cases of a hundred, else nothing.
func (r random) sometimes(percent int, most int64) money.Amount {
	if r.chance(percent) {
		return r.upTo(most)
	}
	return money.Zero
}

func (r random) date(from, to household.Date) household.Date {
	return from.AddDays(r.IntN(from.DaysUntil(to) + 1))
}

// household is a random household with at least one job.
func (r random) household() household.Household {
	year := 2025 + r.IntN(2)
	newYear, yearEnd := household.On(year, time.January, 1), household.EndOfYear(year)
	h := household.Household{
		Format: 1, TaxYear: year,
		AsOf:   r.date(newYear, household.On(year, time.November, 20)),
		Status: household.Statuses()[r.IntN(5)],
		Self:   r.person(year),
	}
	if h.Joint() {
		p := r.person(year)
		h.Spouse = &p
	}
	for i := range 1 + r.IntN(3) + r.IntN(2)*r.IntN(2) {
		h.Jobs = append(h.Jobs, r.job(h, fmt.Sprintf("job %d", i+1)))
	}
	for range r.IntN(4) {
		if r.chance(60) {
			h.Dependents = append(h.Dependents, household.Dependent{BirthDate: r.date(household.On(year-22, 1, 1), yearEnd), FullTimeStudent: r.chance(30)})
		}
	}
	h.Income = household.Income{
		Interest: r.sometimes(40, 6000), OrdinaryDividends: r.sometimes(15, 9000), LongTermGain: r.sometimes(10, 30000),
		Unemployment: r.sometimes(5, 9000), Retirement: r.sometimes(8, 30000), SocialSecurity: r.sometimes(8, 30000),
	}
	h.Income.SelfEmployment.Self = r.sometimes(15, 60000)
	h.Adjustments.StudentLoanInterest = r.sometimes(10, 2500)
	h.Deductions = household.Deductions{
		StateLocalTaxes: r.sometimes(30, 30000), MortgageInterest: r.sometimes(25, 30000), CharityCash: r.sometimes(30, 8000), Medical: r.sometimes(10, 20000),
	}
	h.Credits.OtherNonrefundable = r.sometimes(5, 2000)
	h.Payments.EstimatedTax = r.sometimes(10, 8000)
	if r.chance(50) {
		h.LastYear = &household.LastYear{TotalTax: r.upTo(40000), AdjustedGrossIncome: r.upTo(250000)}
	}
	h.Wish.Refund = r.sometimes(20, 1500).DollarDown()
	if r.chance(15) {
		h.Wish.TellEmployer = household.ExtraOnly
	}
	if r.chance(25) {
		h.Wish.Spread = household.InProportion
	}
	return h
}

func (r random) person(year int) household.Person {
	return household.Person{BirthDate: r.date(household.On(year-80, 1, 1), household.On(year-18, 1, 1))}
}

func (r random) job(h household.Household, name string) household.Job {
	newYear := household.On(h.TaxYear, time.January, 1)
	j := household.Job{
		Name:        name,
		Frequency:   household.Frequencies()[[]int{0, 1, 1, 2, 2, 2, 2, 3, 3, 4, 4, 5}[r.IntN(12)]],
		FirstPayday: r.date(newYear, newYear.AddDays(30)),
	}
	if h.Joint() && r.chance(50) {
		j.Earner = household.OfSpouse
	}
	if r.chance(10) {
		j.Kind = household.Pension
	}
	if r.chance(15) {
		j.FirstPayday = r.date(newYear, household.On(h.TaxYear, time.November, 20))
	}
	if r.chance(12) {
		j.LastPayday = r.date(j.FirstPayday, household.EndOfYear(h.TaxYear))
	}
	periods := []int{0, 260, 52, 26, 24, 12, 4, 2, 1}[j.Frequency]
	j.TaxablePay = money.Dollars(12000).Add(r.upTo(240000)).DividedBy(periods).ToCent()
	if r.chance(20) {
		j.Pretax.Retirement = j.TaxablePay.At(money.Percent(int64(r.IntN(12)))).ToCent()
	}
	if r.chance(85) {
		j.Certificate = r.certificate(h)
	}
	if r.chance(80) {
		j.YearToDate = r.stub(h, j)
	}
	if r.chance(15) {
		when := household.BonusTreatment(r.IntN(2))
		j.OneTimePay = []household.OneTimePay{{Payday: r.date(h.AsOf, household.EndOfYear(h.TaxYear)), Amount: r.upTo(12000).Add(money.Dollars(100)), Withholding: when}}
	}
	return j
}

func (r random) certificate(h household.Household) *household.Certificate {
	c := household.Certificate{Status: h.Status.OnCertificate()}
	switch {
	case r.chance(10):
		return &household.Certificate{Edition: household.Before2020, Marital: household.Marital(r.IntN(3)), Allowances: r.IntN(5)}
	case r.chance(3):
		c.Exempt = true
	case r.chance(20):
		c.Status = household.CertificateStatus(r.IntN(3))
	}
	c.MultipleJobs = r.chance(20)
	c.Credits = r.sometimes(30, 6600).DollarDown()
	c.OtherIncome = r.sometimes(10, 8000).DollarDown()
	c.Deductions = r.sometimes(10, 9000).DollarDown()
	c.Extra = r.sometimes(20, 150).DollarDown()
	return &c
}

// stub is year-to-date figures through the last payday before the day of the
// answers, mostly with the tax that the certificate on file makes, else with
// any; nil before the first payday.
func (r random) stub(h household.Household, j household.Job) *household.YearToDate {
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
	if r.chance(75) {
		p := payroll.Paycheck{Wages: j.TaxablePay, Frequency: j.Frequency, Kind: j.Kind}
		tax = payroll.Withholding(p, j.Certificate, r.tables[h.TaxYear], payroll.Options{}, nil).Times(n)
	}
	return &household.YearToDate{Payday: last, TaxablePay: paid, FederalTax: tax}
}
