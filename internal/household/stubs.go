package household

import "example.com/plumbline/internal/money"

// PaySoFar is the pay that a stub shows for the year beside what its paydays
// would bring at ordinary pay. Amounts are dollars.
type PaySoFar struct {
	Paydays  int          // that the stub covers
	Paid     money.Amount // taxable pay for the year so far
	Ordinary money.Amount // taxable pay of an ordinary paycheck
	Expected money.Amount // ordinary pay on each of the paydays
}

// PaySoFar compares the year-to-date pay of the job with its ordinary pay; zero
// without a stub.
func (j Job) PaySoFar(year int) PaySoFar {
	if j.YearToDate == nil {
		return PaySoFar{}
	}
	return j.PaySoFarOn(j.YearPaydays(year))
}

// PaySoFarOn is the same where the paydays of the year are known.
func (j Job) PaySoFarOn(days YearPaydays) PaySoFar {
	if j.YearToDate == nil {
		return PaySoFar{}
	}
	p := PaySoFar{Paydays: days.Covered, Paid: j.YearToDate.TaxablePay, Ordinary: j.OrdinaryPay()}
	if p.Paydays > 0 {
		p.Expected = p.Ordinary.Times(p.Paydays)
	}
	return p
}

// Even reports ordinary pay on each payday, up to a dollar: an average is
// rounded to the cent.
func (p PaySoFar) Even() bool {
	return p.Paydays > 0 && p.Paid.Sub(p.Expected).Abs().Less(money.Dollars(1))
}

// Unlikely reports pay for the year of more than twice, or less than half, what
// its paydays bring at ordinary pay.
func (p PaySoFar) Unlikely() bool {
	return p.Paydays > 0 && (p.Paid.More(p.Expected.Times(unlikely)) || p.Expected.More(p.Paid.Times(unlikely)))
}

// Miscounted reports pay for the year that is just that of another number of
// ordinary paychecks, as when a payday is missing from the calendar.
func (p PaySoFar) Miscounted() bool {
	if p.Even() || !p.Ordinary.IsPositive() {
		return false
	}
	whole := p.Ordinary.Times(p.Nearest(p.Ordinary))
	return p.Paid.Sub(whole).Abs().Less(money.Dollars(1))
}

// OfMore reports pay for the year that is just that of more ordinary paychecks than
// there were paydays, so that one of the days or the pay is wrong.
func (p PaySoFar) OfMore() bool { return p.Miscounted() && p.Nearest(p.Ordinary) > p.Paydays }

// Nearest is the whole number of paychecks of so much that comes nearest to the
// pay for the year.
func (p PaySoFar) Nearest(pay money.Amount) int {
	return p.Paid.Add(pay.DividedBy(2)).Steps(pay)
}

// OfOnePaycheck reports pay for the year of several paydays that is about that of
// one paycheck, as when its figure was read in place of the year's total.
func (p PaySoFar) OfOnePaycheck() bool {
	const some, tenths = 3, 10
	return p.Paydays >= some && !p.Paid.Sub(p.Ordinary).Abs().Times(tenths).More(p.Ordinary)
}
