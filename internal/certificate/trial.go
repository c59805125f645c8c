package certificate

import (
	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/payroll"
	"example.com/plumbline/internal/tables"
)

// trials remembers what the certificates tried on a job withhold: plans share
// most of theirs.
type trials struct {
	years     []trial
	paychecks []trial
}

// trial is a certificate with what it withholds.
type trial struct {
	certificate *household.Certificate // nil: none
	from        household.Date         // the first payday on which it counts; zero: never
	amount      money.Amount
}

// asFiled remembers what the certificate on file withholds if it stays.
func (t *trials) asFiled(amount money.Amount) { t.years = append(t.years, trial{amount: amount}) }

// withheld is what a job's paydays to come withhold when a certificate counts
// from a day on, the zero date for never, and the one on file before: the
// replay by which every plan is proved.
func (j openJob) withheld(c *household.Certificate, from household.Date) money.Amount {
	return remembered(&j.tried.years, c, from, func(c *household.Certificate) money.Amount {
		return j.year.Withheld(payroll.OnFile{Now: j.job.Certificate, New: c, From: from})
	})
}

// ordinary is what an ordinary paycheck withholds on a certificate.
func (j openJob) ordinary(c *household.Certificate, y *tables.Year) money.Amount {
	return remembered(&j.tried.paychecks, c, household.Date{}, func(c *household.Certificate) money.Amount {
		return payroll.Withholding(j.year.Paycheck(), c, y, payroll.Options{}, nil)
	})
}

// remembered is what a certificate withholds, figured once.
func remembered(tried *[]trial, c *household.Certificate, from household.Date, figure func(*household.Certificate) money.Amount) money.Amount {
	for _, t := range *tried {
		if t.from == from && t.certificate.Same(c) {
			return t.amount
		}
	}
	t := trial{from: from}
	if c != nil {
		kept := *c // the caller may go on changing its own
		t.certificate = &kept
	}
	t.amount = figure(t.certificate)
	*tried = append(*tried, t)
	return t.amount
}
