package certificate

import (
	"slices"
	"sync"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
)

// The ways in which the rest of the year may come out otherwise.
const (
	PayLower       = "pay_10_percent_lower"
	PayHigher      = "pay_10_percent_higher"
	SecondJobStops = "second_job_stops"
)

// variation is the year ahead under one of those ways.
type variation struct {
	name, stops string
	*projection
}

// variations are the ways that can happen to this household. Each return is
// figured once, for all plans.
func (pr *projection) variations() []variation {
	if len(pr.payers) == 0 {
		return nil
	}
	ways := []variation{{PayLower, "", pr.atPay(money.Percent(90))}, {PayHigher, "", pr.atPay(money.Percent(110))}}
	if n := len(pr.payers); n > 1 {
		ways = append(ways, variation{SecondJobStops, pr.payers[n-1].name, pr.without(pr.payers[n-1].index)})
	}
	return ways
}

// under is the year ahead of changed facts, for certificates chosen before they
// changed: again is a job's part of it.
func (pr *projection) under(h household.Household, again func(openJob) openJob) *projection {
	b := &projection{h: h, y: pr.y, method: pr.method}
	for _, j := range pr.jobs {
		b.jobs = append(b.jobs, again(j))
	}
	b.fileReturn()
	return b
}

// atPay is the year with all ordinary pay to come at a share of what is expected.
func (pr *projection) atPay(share money.Rate) *projection {
	h := pr.h
	h.Jobs = slices.Clone(h.Jobs)
	for i := range h.Jobs {
		j := &h.Jobs[i]
		j.TaxablePay, j.GrossPay = j.OrdinaryPay().At(share).ToCent(), money.Zero
	}
	return pr.under(h, func(j openJob) openJob {
		j.job = h.Jobs[j.index]
		j.year, j.trials = j.year.Paying(j.job.OrdinaryPay()), new(trials)
		return j
	})
}

// without is the year with a job that pays no more after the day of the answers.
func (pr *projection) without(job int) *projection {
	h := pr.h
	h.Jobs = slices.Clone(h.Jobs)
	stopped := &h.Jobs[job]
	stopped.LastPayday = h.AsOf
	if stub := stopped.StubPayday(); stub.After(stopped.LastPayday) {
		stopped.LastPayday = stub
	}
	stopped.OneTimePay = nil
	return pr.under(h, func(j openJob) openJob {
		if j.index == job {
			return openJobOf(h, job, pr.y)
		}
		return j
	})
}

// laterShifts are shifts to be figured; nil for none.
type laterShifts func() []Shift

func (l laterShifts) figured() []Shift {
	if l == nil {
		return nil
	}
	return l()
}

// shifts is how far a plan's balance moves under each of the ways.
func (d *candidate) shifts(balance money.Amount, ways func() []variation) laterShifts {
	return shiftsOf(balance, ways, func(job int) (*household.Certificate, household.Date) {
		for i, s := range d.pr.payers {
			if s.index == job {
				return &d.certs[i], s.from
			}
		}
		return nil, household.Date{}
	})
}

// shiftsOf is the same for the new certificate, and the day from which it
// counts, of each job; the zero date for none.
func shiftsOf(balance money.Amount, ways func() []variation, of func(job int) (*household.Certificate, household.Date)) laterShifts {
	return sync.OnceValue(func() []Shift {
		var all []Shift
		for _, w := range ways() {
			toCome := money.Zero
			for _, j := range w.jobs {
				c, from := of(j.index)
				toCome = toCome.Add(j.withheld(c, from))
			}
			b := w.outlook(toCome).Balance
			all = append(all, Shift{Case: w.name, Balance: b, Change: b.Sub(balance), Stops: w.stops})
		}
		return all
	})
}
