package certificate

import (
	"slices"
	"sync"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/tax"
	"example.com/plumbline/internal/words"
	"example.com/plumbline/internal/worksheet"
)

// plan is a candidate written out: its year and its certificates, each line with
// its reason.
func (d *candidate) plan(name string, f formEntries) Plan {
	pr := d.pr
	d.traceGap(name)
	p := Plan{Name: name, Outlook: pr.outlook(money.Sum(d.withheld...).Add(pr.fixed))}
	p.Lands, p.Left = pr.landing(p.Balance)
	p.Harbor = tax.SafeHarbor(pr.ret, pr.h, pr.paid(p.Outlook), pr.y)
	for i := range pr.payers {
		p.Certificates = append(p.Certificates, d.certificate(i, name, f))
	}
	slices.SortStableFunc(p.Certificates, func(b, c JobCertificate) int { return b.Job - c.Job })
	return p
}

// traceGap writes down what a plan's corrections make up for.
func (d *candidate) traceGap(name string) {
	pr := d.pr
	if pr.trace == nil {
		return
	}
	pr.trace.Add(worksheet.Line{
		ID: "plan." + name + ".gap", Name: words.T("line.plan.gap"), Amount: pr.need.Sub(d.before),
		How:  worksheet.Worded(words.T("how.gap", "need", pr.need, "withheld", d.before)),
		From: []string{"plan.to_withhold"}, Source: worksheet505,
	})
}

// landing reports whether a balance lands: at least the wished refund and less
// than a dollar above it for each payday on which a new certificate would
// count. It also gives what is left beyond the wish when it does not.
func (pr *projection) landing(balance money.Amount) (lands bool, left money.Amount) {
	paydays := 0
	for _, s := range pr.payers {
		paydays += s.paydays
	}
	goal := pr.goal
	if goal.IsZero() {
		goal = pr.h.Wish.Goal() // which comes back anyway
	}
	over := balance.Sub(goal)
	if !over.IsNegative() && over.Less(money.Dollars(int64(max(paydays, 1)))) {
		return true, money.Zero
	}
	return false, over
}

// paidOut is the part of a refund that comes from refundable credits beyond the
// tax: it is paid out whether tax was withheld or not.
func (o Outlook) paidOut() money.Amount {
	return money.Min(o.RefundableCredits.Sub(o.TotalTax), o.Balance).OrZero()
}

// paid is what counts as paid toward the year's tax for the safe harbor.
func (pr *projection) paid(o Outlook) money.Amount {
	return money.Sum(o.WithheldSoFar, o.WithholdingToCome, o.OtherPayments)
}

// certificate is a payer's certificate written out.
func (d *candidate) certificate(i int, name string, f formEntries) JobCertificate {
	s, c := d.pr.payers[i], d.certs[i]
	now := s.job.Certificate
	jc := JobCertificate{
		Job:         s.index,
		Name:        s.name,
		Kind:        s.job.Kind,
		FirstPayday: s.from,
		EffectiveBy: s.byLaw,
		Corrected:   d.added[i].extra.IsPositive() || d.added[i].credits.IsPositive(),
		Keep:        now.Same(&c),
		NextYear:    d.next != nil && !now.Same(&c),
		Certificate: c,
		Withholding: s.year.Regular(s.year.InForce(&c, s.from)),
		Paydays:     s.paydays,
		Learns:      learns(c, f, i == 0),
	}
	before := s.year.Regular(s.year.InForce(now, s.from))
	jc.Change = before.Sub(jc.Withholding)
	jc.TakeHomeNow, jc.TakeHome = s.untaxed.Sub(before), s.untaxed.Sub(jc.Withholding)
	jc.LittleLeft = !jc.Keep && jc.Withholding.More(d.pr.mostWithheld(i))
	jc.Lines = d.lines(i, name, f, jc.Keep)
	return jc
}

// learns is what an employer can tell from a certificate.
func learns(c household.Certificate, f formEntries, carrier bool) []words.Text {
	var learned []words.Text
	add := func(what string) { learned = append(learned, words.T("certificate.learns."+what)) }
	switch c.Status {
	case household.CertificateJoint:
		add("joint")
	case household.CertificateHeadOfHousehold:
		add("head_of_household")
	}
	if c.MultipleJobs {
		add("second_job")
	}
	if c.Credits.IsPositive() {
		if carrier && f.Children+f.Others > 0 {
			add("dependents")
		} else {
			add("credits")
		}
	}
	if c.OtherIncome.IsPositive() {
		add("other_income")
	}
	if c.Deductions.IsPositive() {
		add("deductions")
	}
	return learned
}

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
		ways = append(ways, variation{SecondJobStops, pr.kindOf(n - 1), pr.without(pr.payers[n-1].index)})
	}
	return ways
}

// kindOf is what a payer is beside the others: a pension, the only job, or one of
// several.
func (pr *projection) kindOf(i int) string {
	jobs := 0
	for _, s := range pr.payers {
		if !s.pension() {
			jobs++
		}
	}
	switch {
	case pr.payers[i].pension():
		return "pension"
	case jobs == 1:
		return "job"
	}
	return "second_job"
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
