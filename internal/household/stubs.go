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
	p := PaySoFar{Paydays: j.YearPaydays(year).Covered, Paid: j.YearToDate.TaxablePay, Ordinary: j.OrdinaryPay()}
	if p.Paydays > 0 {
		p.Expected = p.Ordinary.Times(p.Paydays)
	}
	return p
}
