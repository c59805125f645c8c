package certificate

import (
	"slices"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/payroll"
	"example.com/plumbline/internal/tables"
	"example.com/plumbline/internal/tax"
	"example.com/plumbline/internal/words"
	"example.com/plumbline/internal/worksheet"
)

// projection is the year as it lies ahead of a household: its return, which no
// certificate changes, and the paydays still to come, on which certificates
// can be tried.
type projection struct {
	h      household.Household
	y      *tables.Year
	method tax.Method
	trace  *worksheet.Sheet // nil where nobody reads it

	jobs   []openJob // the jobs on this return
	payers []payer   // those on which a new certificate would count this year, best paid first

	pay   []household.YearPay
	ret   tax.Return
	soFar money.Amount // withheld through the last stubs
	other money.Amount // payments that no job withholds
	// fixed is what the jobs without a payer will withhold: no certificate handed
	// in now reaches them.
	fixed money.Amount
	// goal is the balance to aim for.
	goal money.Amount
	// need is what the payers must withhold for the year to end on the goal;
	// negative when it will end above it whatever they do.
	need money.Amount
	// fullYear is a year that no payday has begun yet: January's. Nothing is made
	// up for in it, so that Step 3 is the credits and no more.
	fullYear bool
	found    foundIn       // in the answers as they were given
	credits  money.Amount  // what the form asks for in Step 3, the most that certificates may claim
	near     *band         // how far from the aim is near enough; figured when it is first asked for
	safe     *bool         // no penalty follows on the certificates on file; figured when it is first asked for
	claims   *bool         // the certificates on file claim too many credits; figured when it is first asked for
	nearest  *money.Amount // the lowest balance that true entries reach; figured when it is first asked for
}

// openJob is a job with its calendar, on which certificates are tried.
type openJob struct {
	index int // into Household.Jobs
	name  string
	job   household.Job
	year  *payroll.JobYear
	*trials
}

// payer is a job on which a new certificate would count this year.
type payer struct {
	openJob
	from    household.Date // the first payday on which it counts
	paydays int            // on which it counts
	toCome  int            // all paydays to come
	periods int            // Publication 15-T's number of pay periods
	annual  money.Amount   // ordinary pay over a whole year
	byLaw   household.Date // the payday by which payroll must go by it
	most    *money.Amount  // that a new certificate may take; figured when it is first asked for
	untaxed money.Amount   // what an ordinary paycheck would leave if no income tax were withheld
}

// newProjection opens a household's year. The return is traced to the sheet, which
// may be nil.
func newProjection(h household.Household, y *tables.Year, s *worksheet.Sheet) *projection {
	pr := &projection{h: h, y: y, trace: s}
	pr.open()
	return pr
}

// open lays out the jobs and figures the return.
func (pr *projection) open() {
	pr.openJobs()
	pr.findPayers()
	pr.fileReturn()
	if pr.h.Wish.Aim == household.AimNoPenalty {
		pr.aimAtNoPenalty()
	}
	pr.traceNeed()
}

// aimAtNoPenalty makes the goal the least that no penalty follows on, where the
// certificates on file withhold less than that. Where they withhold more, what
// they lead to is the goal, but for what comes back beyond the year's tax: Step 3
// above the credits is for a year in which too much is withheld, not for one in
// which tax is to be owed.
func (pr *projection) aimAtNoPenalty() {
	o := pr.outlook(pr.asFiledToCome())
	least := o.Balance.Sub(pr.paid(o)).Add(tax.LeastSafe(pr.ret, pr.h, pr.y))
	goal := money.Min(money.Max(o.Balance, least), money.Zero)
	pr.need = pr.need.Add(goal.Sub(pr.goal))
	pr.goal = goal
}

// openJobs lays out the calendar of each job on the return.
func (pr *projection) openJobs() {
	for _, i := range pr.h.CountedJobs() {
		pr.jobs = append(pr.jobs, openJobOf(pr.h, i, pr.y))
	}
}

func openJobOf(h household.Household, job int, y *tables.Year) openJob {
	return openJob{job, h.JobName(job), h.Jobs[job], payroll.NewJobYear(h, job, y), new(trials)}
}

// findPayers finds the jobs that can take a new certificate.
func (pr *projection) findPayers() {
	for _, j := range pr.jobs {
		paydays := j.year.Paydays()
		from := firstNewPayday(pr.h, j.job, paydays)
		if from.IsZero() {
			continue
		}
		periods := pr.y.Payroll.Periods.Of(j.job.Frequency)
		s := payer{
			openJob: j,
			from:    from,
			paydays: j.year.OrdinaryFrom(from),
			toCome:  j.year.OrdinaryFrom(household.Date{}),
			periods: periods,
			annual:  j.job.OrdinaryPay().Times(periods),
		}
		s.byLaw = effectiveBy(pr.h.AsOf, s, pr.y)
		s.untaxed = s.takeHome(pr.y)
		pr.payers = append(pr.payers, s)
	}
	slices.SortStableFunc(pr.payers, func(s, t payer) int { return t.annual.Cmp(s.annual) })
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
		earliest, skip = j.PaydayOf(h.Wish.FirstPayday), 0
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
func (pr *projection) fileReturn() {
	for _, j := range pr.jobs {
		pay, soFar := j.year.YearPay(payroll.OnFile{Now: j.job.Certificate}), j.year.SoFar()
		j.asFiled(pay.FederalTax.Sub(soFar))
		pr.pay, pr.soFar = append(pr.pay, pay), pr.soFar.Add(soFar)
		if !pr.reaches(j.index) {
			pr.fixed = pr.fixed.Add(j.withheld(nil, household.Date{}))
		}
	}
	pr.ret = tax.Compute(pr.h, pr.pay, pr.y, pr.method, pr.trace)
	pr.other = money.Sum(pr.h.Payments.EstimatedTax, pr.h.Payments.OtherWithholding,
		pr.ret.ExcessSocialSecurity, pr.ret.AdditionalMedicareWithheld, pr.ret.BenefitsWithheld)
	pr.goal = pr.wished()
	pr.need = pr.ret.TotalTax.Add(pr.goal).
		Sub(money.Sum(pr.ret.RefundableCredits, pr.other, pr.soFar, pr.fixed))
}

// wished is the balance that the paychecks are to bring. Credits that are paid out
// beyond the tax come back whatever is withheld: a refund of no more than these, or
// of so little more that they are near enough to it, asks the paychecks for nothing.
func (pr *projection) wished() money.Amount {
	goal, back := pr.h.Wish.Goal(), pr.ret.RefundableCredits.Sub(pr.ret.TotalTax)
	near := money.Min(bandOf(pr.ret.TotalTax, pr.h.Wish.Within).over, goal.At(overShare))
	if back.IsPositive() && !goal.Sub(back).More(near) {
		return money.Zero
	}
	return goal
}

// traceNeed writes down what the paychecks must withhold.
func (pr *projection) traceNeed() {
	if pr.trace == nil {
		return
	}
	how, from := words.T("how.need.tax", "amount", pr.ret.TotalTax), []string{"tax.total_tax"}
	for _, p := range []struct {
		amount     money.Amount
		code, from string
	}{
		{pr.goal, "how.need.goal", "wish.refund"},
		{pr.ret.RefundableCredits, "how.need.credits", "tax.refundable_credits"},
		{pr.other, "how.need.paid", "payments"},
		{pr.soFar, "how.need.so_far", "jobs.year_to_date.federal_tax"},
		{pr.fixed, "how.need.fixed", "jobs"},
	} {
		if !p.amount.IsZero() {
			how, from = words.T(p.code, "before", how, "amount", p.amount), append(from, p.from)
		}
	}
	pr.trace.Add(worksheet.Line{ID: "plan.to_withhold", Amount: pr.need, How: worksheet.Worded(how), From: from, Source: worksheet505})
}

func (pr *projection) reaches(index int) bool {
	return slices.ContainsFunc(pr.payers, func(s payer) bool { return s.index == index })
}

// outlook is how the year ends when the paychecks to come withhold so much.
func (pr *projection) outlook(toCome money.Amount) Outlook {
	return Outlook{
		TotalTax:          pr.ret.TotalTax,
		RefundableCredits: pr.ret.RefundableCredits,
		WithheldSoFar:     pr.soFar,
		WithholdingToCome: toCome,
		OtherPayments:     pr.other,
	}.settle()
}

// asFiledToCome is what the paychecks to come withhold on the certificates on
// file.
func (pr *projection) asFiledToCome() money.Amount {
	total := money.Zero
	for _, j := range pr.jobs {
		total = total.Add(j.withheld(nil, household.Date{}))
	}
	return total
}

// status is the box of Step 1(c).
func (pr *projection) status() household.CertificateStatus { return pr.h.Status.OnCertificate() }

// blank is a certificate with the status and nothing else.
func (pr *projection) blank() household.Certificate {
	return household.Certificate{Status: pr.status()}
}

// pension reports a pension, whose certificate is Form W-4P.
func (j openJob) pension() bool { return j.job.Kind == household.Pension }
