package certificate

import (
	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/payroll"
)

// trials remembers what the certificates tried on a job withhold: plans share
// most of theirs.
type trials struct{ tried []trial }

// trial is a certificate with what the paydays to come withhold.
type trial struct {
	certificate *household.Certificate // nil: none
	from        household.Date         // the first payday on which it counts; zero: never
	amount      money.Amount
}

// asFiled remembers what the certificate on file withholds if it stays.
func (t *trials) asFiled(amount money.Amount) { t.tried = append(t.tried, trial{amount: amount}) }

// withheld is what a job's paydays to come withhold when a certificate counts
// from a day on, the zero date for never, and the one on file before: the
// replay by which every plan is proved. It is figured once for each.
func (j openJob) withheld(c *household.Certificate, from household.Date) money.Amount {
	for _, t := range j.tried {
		if t.from == from && t.certificate.Same(c) {
			return t.amount
		}
	}
	t := trial{from: from}
	if c != nil {
		kept := *c // the caller may go on changing its own
		t.certificate = &kept
	}
	t.amount = j.year.Withheld(payroll.OnFile{Now: j.job.Certificate, New: t.certificate, From: from})
	j.tried = append(j.tried, t)
	return t.amount
}
