package household

import (
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/words"
)

// PaySoFar is the pay that a stub shows for the year beside what its paydays
// would bring at ordinary pay. Amounts are dollars.
type PaySoFar struct {
	Paydays  int          // that the stub covers
	Paid     money.Amount // taxable pay for the year so far
	Ordinary money.Amount // taxable pay of an ordinary paycheck
	Expected money.Amount // ordinary pay on each of the paydays
	Average  money.Amount // what each payday has brought, to the cent
}

// PaySoFar compares the year-to-date pay of the job with its ordinary pay; zero
// without a stub.
func (j Job) PaySoFar(year int) PaySoFar {
	if j.YearToDate == nil {
		return PaySoFar{}
	}
	p := PaySoFar{Paydays: j.YearPaydays(year).Covered, Paid: j.YearToDate.TaxablePay, Ordinary: j.OrdinaryPay()}
	if p.Paydays > 0 {
		p.Expected = p.Ordinary.Times(p.Paydays)
		p.Average = p.Paid.DividedBy(p.Paydays).ToCent()
	}
	return p
}

// Irregular reports whether the pay so far is so far from ordinary pay that
// either it varies or one of the two is wrong: by more than a hundredth and more
// than a dollar a payday. Our own measure.
func (p PaySoFar) Irregular() bool {
	return p.Paydays > 0 && p.Ordinary.IsPositive() && apart(p.Paid, p.Expected, p.Paydays)
}

func apart(paid, expected money.Amount, paydays int) bool {
	const hundredth = 100
	off := paid.Sub(expected).Abs()
	return off.More(expected.DividedBy(hundredth)) && off.More(money.Dollars(int64(paydays)))
}

// Growth is what a newer stub shows beyond an older one of the same job and
// year. Amounts are dollars.
type Growth struct {
	Paydays  int          // after the older stub, through the newer one
	Paid     money.Amount // taxable pay since the older stub
	Expected money.Amount // ordinary pay on each of those paydays
	PayNow   money.Amount // what each of those paydays brought, to the cent; zero where there is none
	Extra    money.Amount // Paid beyond Expected, not below zero: a bonus, if it is one
}

// Unexpected reports whether pay grew by so much more or less than ordinary pay
// that the person should be asked why: a raise, a bonus, hours that vary.
func (g Growth) Unexpected() bool { return apart(g.Paid, g.Expected, g.Paydays) }

// Grown compares a newer stub with the job's last one. A newer stub has a later
// date, no less pay and no less tax for the year: the error says which it has
// not, and what to do.
func (j Job) Grown(year int, newer YearToDate) (Growth, error) {
	was := j.YearToDate
	if was == nil {
		was = &YearToDate{}
	}
	switch {
	case !was.Payday.IsZero() && !newer.Payday.After(was.Payday):
		return Growth{}, words.Fail("household.newer_stub.date", "new", newer.Payday, "old", was.Payday)
	case newer.TaxablePay.Less(was.TaxablePay):
		return Growth{}, words.Fail("household.newer_stub.pay", "new", newer.TaxablePay, "old", was.TaxablePay, "date", was.Payday)
	case newer.FederalTax.Less(was.FederalTax):
		return Growth{}, words.Fail("household.newer_stub.tax", "new", newer.FederalTax, "old", was.FederalTax, "date", was.Payday)
	}
	g := Growth{
		Paydays: j.PaydaysThrough(year, newer.Payday).Covered - j.PaydaysThrough(year, was.Payday).Covered,
		Paid:    newer.TaxablePay.Sub(was.TaxablePay),
	}
	g.Expected = j.OrdinaryPay().Times(g.Paydays)
	g.Extra = g.Paid.Sub(g.Expected).OrZero()
	if g.Paydays > 0 {
		g.PayNow = g.Paid.DividedBy(g.Paydays).ToCent()
	}
	return g, nil
}
