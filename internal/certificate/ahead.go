package certificate

import (
	"slices"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/payroll"
	"example.com/plumbline/internal/tables"
	"example.com/plumbline/internal/tax"
	"example.com/plumbline/internal/worksheet"
)

// ahead is the year as it lies ahead of a household: its return, which no
// certificate changes, and the paydays still to come, on which certificates
// can be tried.
type ahead struct {
	h      household.Household
	y      *tables.Year
	method tax.Method
	trace  *worksheet.Sheet // nil where nobody reads it

	jobs  []openJob // the jobs on this return
	seats []seat    // those on which a new certificate would count this year, best paid first

	pay   []household.YearPay
	ret   tax.Return
	soFar money.Amount // withheld through the last stubs
	other money.Amount // payments that no job withholds
	// fixed is what the jobs without a seat will withhold: no certificate handed
	// in now reaches them.
	fixed money.Amount
	// need is what the seats must withhold for the year to end on the wished
	// refund; negative when it will end above it whatever they do.
	need money.Amount
}

// openJob is a job with its calendar, on which certificates are tried.
type openJob struct {
	index int // into Household.Jobs
	job   household.Job
	year  *payroll.JobYear
	tried *trials
}

// seat is a job on which a new certificate would count this year.
type seat struct {
	openJob
	from    household.Date // the first payday on which it counts
	paydays int            // on which it counts
	toCome  int            // all paydays to come
	periods int            // Publication 15-T's number of pay periods
	annual  money.Amount   // ordinary pay over a whole year
}

// newAhead opens a household's year. The return is traced to the sheet, which
// may be nil.
func newAhead(h household.Household, y *tables.Year, s *worksheet.Sheet) *ahead {
	a := &ahead{h: h, y: y, trace: s}
	a.openJobs()
	a.findSeats()
	a.fileReturn()
	a.traceNeed()
	return a
}

// openJobs lays out the calendar of each job on the return.
func (a *ahead) openJobs() {
	for _, i := range a.h.CountedJobs() {
		a.jobs = append(a.jobs, openJob{i, a.h.Jobs[i], payroll.NewJobYear(a.h, i, a.y), new(trials)})
	}
}

// findSeats finds the jobs that can take a new certificate.
func (a *ahead) findSeats() {
	for _, j := range a.jobs {
		paydays := j.year.Paydays()
		from := firstNewPayday(a.h, j.job, paydays)
		if from.IsZero() {
			continue
		}
		periods := a.y.Payroll.Periods.Of(j.job.Frequency)
		a.seats = append(a.seats, seat{
			openJob: j,
			from:    from,
			paydays: j.year.OrdinaryFrom(from),
			toCome:  j.year.OrdinaryFrom(household.Date{}),
			periods: periods,
			annual:  j.job.OrdinaryPay().Times(periods),
		})
	}
	slices.SortStableFunc(a.seats, func(s, t seat) int { return t.annual.Cmp(s.annual) })
}

// firstNewPayday is the first payday on which a certificate handed in now
// counts: the one wished for; else the second payday after the day of the
// answers and after the last stub, or the first where payroll has no
// certificate yet. The zero date when there is none.
func firstNewPayday(h household.Household, j household.Job, paydays []payroll.Payday) household.Date {
	earliest, skip := h.AsOf.AddDays(1), 1
	if j.Certificate == nil {
		skip = 0
	}
	if !h.Wish.FirstPayday.IsZero() {
		earliest, skip = h.Wish.FirstPayday, 0
	}
	for _, p := range paydays {
		if !p.Ordinary || p.Date.Before(earliest) {
			continue
		}
		if skip == 0 {
			return p.Date
		}
		skip--
	}
	return household.Date{}
}

// fileReturn figures the year's return and what the paychecks must still
// withhold to meet it.
func (a *ahead) fileReturn() {
	for _, j := range a.jobs {
		pay, soFar := j.year.YearPay(payroll.OnFile{Now: j.job.Certificate}), j.year.SoFar()
		j.tried.asFiled(pay.FederalTax.Sub(soFar))
		a.pay, a.soFar = append(a.pay, pay), a.soFar.Add(soFar)
		if !a.seated(j.index) {
			a.fixed = a.fixed.Add(j.withheld(nil, household.Date{}))
		}
	}
	a.ret = tax.Compute(a.h, a.pay, a.y, a.method, a.trace)
	a.other = money.Sum(a.h.Payments.EstimatedTax, a.h.Payments.OtherWithholding,
		a.ret.ExcessSocialSecurity, a.ret.AdditionalMedicareWithheld)
	a.need = a.ret.TotalTax.Add(a.h.Wish.Refund).
		Sub(money.Sum(a.ret.RefundableCredits, a.other, a.soFar, a.fixed))
}

// traceNeed writes down what the paychecks must withhold.
func (a *ahead) traceNeed() {
	if a.trace == nil {
		return
	}
	format, args, from := "%v of tax", []any{a.ret.TotalTax}, []string{"tax.total_tax"}
	for _, p := range []struct {
		amount money.Amount
		format string
		from   string
	}{
		{a.h.Wish.Refund, " + %v of wished refund", "wish.refund"},
		{a.ret.RefundableCredits, " - %v of refundable credits", "tax.refundable_credits"},
		{a.other, " - %v paid otherwise", "payments"},
		{a.soFar, " - %v withheld so far", "jobs.year_to_date.federal_tax"},
		{a.fixed, " - %v from paychecks that no new certificate reaches", "jobs"},
	} {
		if !p.amount.IsZero() {
			format, args, from = format+p.format, append(args, p.amount), append(from, p.from)
		}
	}
	a.trace.Add(worksheet.Line{
		ID: "plan.to_withhold", Label: "What the paychecks to come must withhold", Amount: a.need,
		How: worksheet.Using(format, args...), From: from, Source: worksheet505,
	})
}

func (a *ahead) seated(index int) bool {
	return slices.ContainsFunc(a.seats, func(s seat) bool { return s.index == index })
}

// outlook is how the year ends when the paychecks to come withhold so much.
func (a *ahead) outlook(toCome money.Amount) Outlook {
	return Outlook{
		TotalTax:          a.ret.TotalTax,
		RefundableCredits: a.ret.RefundableCredits,
		WithheldSoFar:     a.soFar,
		WithholdingToCome: toCome,
		OtherPayments:     a.other,
	}.settle()
}

// asFiledToCome is what the paychecks to come withhold on the certificates on
// file.
func (a *ahead) asFiledToCome() money.Amount {
	total := money.Zero
	for _, j := range a.jobs {
		total = total.Add(j.withheld(nil, household.Date{}))
	}
	return total
}

// status is the box of Step 1(c).
func (a *ahead) status() household.CertificateStatus { return a.h.Status.OnCertificate() }

// blank is a certificate with the status and nothing else.
func (a *ahead) blank() household.Certificate {
	return household.Certificate{Status: a.status()}
}

// pension reports a pension, whose certificate is Form W-4P.
func (j openJob) pension() bool { return j.job.Kind == household.Pension }
