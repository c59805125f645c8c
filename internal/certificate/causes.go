package certificate

import (
	"sync"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/payroll"
	"example.com/plumbline/internal/tax"
	"example.com/plumbline/internal/words"
)

// What makes the year come out as it does on the certificates on file.
const (
	CauseJobs       = "jobs"       // several jobs, each withheld from as the only one
	CauseForm       = "form"       // what is on the certificate of a job besides the true status
	CauseIncome     = "income"     // income besides the jobs, and other taxes
	CauseDeductions = "deductions" // what is taken off beyond the standard deduction of a young person
	CauseCredits    = "credits"
	CausePayments   = "payments" // made or withheld besides the jobs
	CauseRest       = "rest"     // pay that varied, part of a year, rounding
)

// Cause is one part of what the year is short on the certificates on file. All
// parts together are what is short, to the cent.
type Cause struct {
	Code  string
	Job   int          // of CauseForm, index into Household.Jobs
	Short money.Amount // dollars for the year that it leaves too little; negative: too much
	Kinds []words.Text // of CauseIncome, its kinds, where they have names
	Jobs  int          // of CauseJobs, how many, pensions included
	Doubt words.Text   // of CauseForm, that credits seem to be claimed twice; else zero
}

// Causes are why the person would owe on the certificates on file, in the order in
// which it builds up; none where little or nothing is owed. They are figured when
// they are first asked for.
func (r Result) Causes() []Cause {
	if r.causes == nil {
		return nil
	}
	return r.causes()
}

// causesAsFiled compares the withholding of the year with what the status alone
// would withhold at each job, and the tax of the year with the tax on the pay
// alone, to which other income, deductions and credits are added in turn.
func (pr *projection) causesAsFiled(f formEntries) []Cause {
	rest := pr.outlook(pr.asFiledToCome()).Balance.Neg()
	if rest.Less(shortBy) {
		return nil
	}
	var all []Cause
	add := func(c Cause) {
		if c.Short.Abs().Less(leastCause) {
			return
		}
		rest = rest.Sub(c.Short)
		all = append(all, c)
	}

	h := household.Household{
		TaxYear: pr.h.TaxYear, AsOf: pr.h.AsOf, Status: pr.h.Status, LivedApart: pr.h.LivedApart,
		Self: young(pr.h.Self), Jobs: fullyTaxed(pr.h.Jobs),
	}
	if pr.h.Spouse != nil {
		spouse := young(*pr.h.Spouse)
		h.Spouse = &spouse
	}
	net := func(h household.Household) money.Amount {
		r := tax.Compute(h, pr.pay, pr.y, pr.method, nil)
		return r.TotalTax.Sub(r.RefundableCredits)
	}
	onPay := net(h)
	h.Income, h.OtherTaxes, h.Parents = pr.h.Income, pr.h.OtherTaxes, pr.h.Parents
	onIncome := net(h)
	h.Self, h.Spouse, h.Jobs, h.Adjustments, h.Deductions = pr.h.Self, pr.h.Spouse, pr.h.Jobs, pr.h.Adjustments, pr.h.Deductions
	afterDeductions := net(h)

	alone := money.Zero
	var forms []Cause
	for i, j := range pr.jobs {
		byStatus := pr.byStatus(j, pr.pay[i])
		alone = alone.Add(byStatus)
		if blank := pr.blank(); !j.job.Certificate.Same(&blank) {
			forms = append(forms, Cause{Code: CauseForm, Job: j.index, Short: byStatus.Sub(pr.pay[i].FederalTax)})
		}
	}
	if len(pr.jobs) > 1 {
		add(Cause{Code: CauseJobs, Short: onPay.Sub(alone), Jobs: len(pr.jobs)})
	}
	for _, c := range forms {
		c.Doubt = pr.claimedTwice(c.Job, f)
		add(c)
	}
	add(Cause{Code: CauseIncome, Short: onIncome.Sub(onPay), Kinds: pr.incomeKinds()})
	add(Cause{Code: CauseDeductions, Short: afterDeductions.Sub(onIncome)})
	add(Cause{Code: CauseCredits, Short: pr.ret.TotalTax.Sub(pr.ret.RefundableCredits).Sub(afterDeductions)})
	add(Cause{Code: CausePayments, Short: pr.other.Neg()})
	if !rest.IsZero() {
		all = append(all, Cause{Code: CauseRest, Short: rest})
	}
	return all
}

// byStatus is what a certificate with the true status and nothing else would
// withhold in the year from a job, on its average paycheck.
func (pr *projection) byStatus(j openJob, pay household.YearPay) money.Amount {
	n := len(j.job.Paydays(pr.h.TaxYear))
	if n == 0 {
		return money.Zero
	}
	p, blank := j.year.Paycheck(), pr.blank()
	p.Wages = pay.TaxableWages.DividedBy(n)
	return payroll.Withholding(p, &blank, pr.y, payroll.Options{}, nil).Times(n)
}

// young is a person without what age and blindness take off.
func young(p household.Person) household.Person {
	p.BirthDate, p.Blind = household.Date{}, false
	return p
}

// fullyTaxed are jobs without the tips and overtime that are deducted.
func fullyTaxed(jobs []household.Job) []household.Job {
	plain := make([]household.Job, len(jobs))
	for i, j := range jobs {
		j.QualifiedTips, j.QualifiedOvertime = money.Zero, money.Zero
		plain[i] = j
	}
	return plain
}

// incomeKinds are the kinds of income besides the jobs.
func (pr *projection) incomeKinds() []words.Text {
	kinds := pr.otherIncome()
	if profit := pr.h.Income.SelfEmployment.Self.Add(pr.h.Income.SelfEmployment.Spouse); profit.IsPositive() {
		kinds = append(kinds, words.T("certificate.income.business", "amount", profit))
	}
	return kinds
}

// claimedTwice says of a job's form that its Step 3 and that of the others claim
// more credits than there are, or that it has allowances for people whose credits
// another form claims.
func (pr *projection) claimedTwice(job int, f formEntries) words.Text {
	claimed, other := money.Zero, ""
	var c *household.Certificate
	for _, j := range pr.jobs {
		onFile := j.job.Certificate
		if j.index == job {
			c = onFile
		}
		if onFile != nil && onFile.Credits.IsPositive() {
			claimed, other = claimed.Add(onFile.Credits), j.name
		}
	}
	switch {
	case c != nil && c.Edition == household.Before2020 && c.Allowances > 0 && other != "":
		return words.T("certificate.cause.allowances", "job", pr.h.JobName(job), "n", c.Allowances, "other", other)
	case c != nil && c.Credits.IsPositive() && claimed.More(f.L3):
		return words.T("certificate.cause.credits", "claimed", claimed, "credits", f.L3)
	}
	return words.Text{}
}

// laterCauses figures the causes once, when they are first asked for.
func (pr *projection) laterCauses(f formEntries) func() []Cause {
	return sync.OnceValue(func() []Cause { return pr.causesAsFiled(f) })
}
