package certificate

import (
	"fmt"
	"slices"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/tax"
	"example.com/plumbline/internal/worksheet"
)

// plan is a draft written out: its year and its certificates, each line with
// its reason.
func (d *draft) plan(name string, f asked) Plan {
	a := d.a
	d.traceGap(name)
	p := Plan{Name: name, Outlook: a.outlook(money.Sum(d.withheld...).Add(a.fixed))}
	p.Lands, p.Left = a.landing(p.Balance)
	p.Harbor = tax.SafeHarbor(a.ret, a.h, a.paid(p.Outlook), a.y)
	for i := range a.seats {
		p.Certificates = append(p.Certificates, d.certificate(i, name, f))
	}
	slices.SortStableFunc(p.Certificates, func(b, c JobCertificate) int { return b.Job - c.Job })
	return p
}

// traceGap writes down what a plan's corrections make up for.
func (d *draft) traceGap(name string) {
	a := d.a
	if a.trace == nil {
		return
	}
	a.trace.Add(worksheet.Line{
		ID: "plan." + name + ".gap", Label: "What the year would lack without a correction; too much where negative", Amount: a.need.Sub(d.before),
		How:  worksheet.Using("%v - %v that the paychecks to come withhold with the other entries", a.need, d.before),
		From: []string{"plan.to_withhold"}, Source: worksheet505,
	})
}

// landing reports whether a balance lands: at least the wished refund and less
// than a dollar above it for each payday on which a new certificate would
// count. It also gives what is left beyond the wish when it does not.
func (a *ahead) landing(balance money.Amount) (lands bool, left money.Amount) {
	paydays := 0
	for _, s := range a.seats {
		paydays += s.paydays
	}
	over := balance.Sub(a.h.Wish.Refund)
	if !over.IsNegative() && over.Less(money.Dollars(int64(max(paydays, 1)))) {
		return true, money.Zero
	}
	return false, over
}

// draftOf is the draft of a plan that has been written out.
func (a *ahead) draftOf(p Plan) *draft {
	certs := a.blanks()
	for i, s := range a.seats {
		for _, c := range p.Certificates {
			if c.Job == s.index {
				certs[i] = c.Certificate
			}
		}
	}
	return a.newDraft(certs)
}

// paidOut is the part of a refund that comes from refundable credits beyond the
// tax: it is paid out whether tax was withheld or not.
func (o Outlook) paidOut() money.Amount {
	return money.Min(o.RefundableCredits.Sub(o.TotalTax), o.Balance).OrZero()
}

// comesBack is a refund with such a part, in words.
func (o Outlook) comesBack() string {
	if o.paidOut().Equal(o.Balance) {
		return o.Balance.Grouped() + " comes back as a refund, all of it credits paid out whether tax was withheld or not"
	}
	return fmt.Sprintf("%s comes back as a refund, of which %s are credits paid out whether tax was withheld or not", o.Balance.Grouped(), o.paidOut().Grouped())
}

// paid is what counts as paid toward the year's tax for the safe harbor.
func (a *ahead) paid(o Outlook) money.Amount {
	return money.Sum(o.WithheldSoFar, o.WithholdingToCome, o.OtherPayments)
}

// certificate is a seat's certificate written out.
func (d *draft) certificate(i int, name string, f asked) JobCertificate {
	a, s, c := d.a, d.a.seats[i], d.certs[i]
	now := s.job.Certificate
	jc := JobCertificate{
		Job:         s.index,
		Name:        jobName(s.job, s.index),
		Kind:        s.job.Kind,
		FirstPayday: s.from,
		EffectiveBy: effectiveBy(a.h.AsOf, s, a.y),
		Corrected:   d.added[i].extra.IsPositive() || d.added[i].credits.IsPositive(),
		Keep:        now != nil && same(*now, c),
		Certificate: c,
		Withholding: s.ordinary(&c, a.y),
		Paydays:     s.paydays,
		Learns:      learns(c, f, i == 0),
	}
	jc.Change = s.ordinary(now, a.y).Sub(jc.Withholding)
	jc.Lines = d.lines(i, name, f, jc.Keep)
	return jc
}

// jobName is what to call a job.
func jobName(j household.Job, index int) string {
	if j.Name != "" {
		return j.Name
	}
	return fmt.Sprintf("Job %d", index+1)
}

// learns is what an employer can tell from a certificate.
func learns(c household.Certificate, f asked, carrier bool) []string {
	learned := []string{}
	switch c.Status {
	case household.CertificateJoint:
		learned = append(learned, "that you file as a married couple or a surviving spouse")
	case household.CertificateHeadOfHousehold:
		learned = append(learned, "that you keep a home for a child or relative")
	}
	if c.MultipleJobs {
		learned = append(learned, "that there is a second job in the household")
	}
	if c.Credits.IsPositive() {
		if carrier && f.Children+f.Others > 0 {
			learned = append(learned, "that you have children or other dependents")
		} else {
			learned = append(learned, "that you claim credits")
		}
	}
	if c.OtherIncome.IsPositive() {
		learned = append(learned, "that you have other income")
	}
	if c.Deductions.IsPositive() {
		learned = append(learned, "that you have deductions of your own")
	}
	return learned
}

// The ways in which the rest of the year may come out otherwise.
const (
	PayLower       = "pay_10_percent_lower"
	PayHigher      = "pay_10_percent_higher"
	SecondJobStops = "second_job_stops"
)

// otherwise is the year ahead under one of those ways.
type otherwise struct {
	name string
	*ahead
}

// otherwises are the ways that can happen to this household. Each return is
// figured once, for all plans.
func (a *ahead) otherwises() []otherwise {
	if len(a.seats) == 0 {
		return nil
	}
	ways := []otherwise{
		{PayLower, a.under(payScaled(a.h, money.Percent(90)))},
		{PayHigher, a.under(payScaled(a.h, money.Percent(110)))},
	}
	if n := len(a.seats); n > 1 {
		ways = append(ways, otherwise{SecondJobStops, a.under(stopped(a.h, a.seats[n-1].index))})
	}
	return ways
}

// under is the year ahead of changed facts, for certificates chosen before
// they changed.
func (a *ahead) under(h household.Household) *ahead {
	b := &ahead{h: h, y: a.y, method: a.method}
	b.openJobs()
	b.fileReturn()
	return b
}

// payScaled is the household with all ordinary pay to come at a share of what
// is expected.
func payScaled(h household.Household, share money.Rate) household.Household {
	h.Jobs = slices.Clone(h.Jobs)
	for i := range h.Jobs {
		j := &h.Jobs[i]
		j.TaxablePay, j.GrossPay = j.OrdinaryPay().At(share).ToCent(), money.Zero
	}
	return h
}

// stopped is the household with a job that pays no more after the day of the
// answers.
func stopped(h household.Household, job int) household.Household {
	h.Jobs = slices.Clone(h.Jobs)
	j := &h.Jobs[job]
	j.LastPayday = h.AsOf
	if stub := j.StubPayday(); stub.After(j.LastPayday) {
		j.LastPayday = stub
	}
	j.OneTimePay = nil
	return h
}

// shifts is how far a plan's balance moves under each of the ways.
func (d *draft) shifts(balance money.Amount, ways []otherwise) []Shift {
	return shiftsOf(balance, ways, func(job int) (*household.Certificate, household.Date) {
		for i, s := range d.a.seats {
			if s.index == job {
				return &d.certs[i], s.from
			}
		}
		return nil, household.Date{}
	})
}

// shiftsOf is the same for the new certificate, and the day from which it
// counts, of each job; the zero date for none.
func shiftsOf(balance money.Amount, ways []otherwise, of func(job int) (*household.Certificate, household.Date)) []Shift {
	var all []Shift
	for _, w := range ways {
		toCome := money.Zero
		for _, j := range w.jobs {
			c, from := of(j.index)
			toCome = toCome.Add(j.withheld(c, from))
		}
		b := w.outlook(toCome).Balance
		all = append(all, Shift{Case: w.name, Balance: b, Change: b.Sub(balance)})
	}
	return all
}
