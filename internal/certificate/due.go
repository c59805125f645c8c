package certificate

import (
	"slices"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/tables"
	"example.com/plumbline/internal/tax"
	"example.com/plumbline/internal/words"
)

// Change is one change at home or at work that bears on the certificates, with
// what the rules say of it.
type Change struct {
	Code   string         // "status", "job_begun", "raise", "child_credit", "other_credits", "deductions", "exemption"
	What   words.Text     // what changed, in a sentence
	Must   bool           // a new certificate is due; otherwise one may be given whenever one wishes
	By     household.Date // the day by which it is due; zero when it need not be given
	Year   int            // the year for which it is to count
	Reason words.Text     // why, in a sentence
	Source string
}

// Days gives the day of a change by its code: of a job begun, by whose it is.
type Days func(code string, of household.Earner) household.Date

// Due lists the changes between two states of a household after which a new
// certificate may be due, and by when. Each change has its day; the certificates on
// file are those of the answers after. y is the tables of the year of the answers
// after; the answers before may be of an earlier year, and are then compared with
// the same amounts.
//
// A new certificate is due within the days of the rule only where too little
// would be withheld for the year with those on file. Where enough is, a change
// to a status that is taxed more still asks for one for next year, by the
// rule's date or as many days after the change if that is later.
//
// Publication 505 (2025), ch. 1, p. 3; IRC 3402(f)(2)(B), (C).
func Due(before, after household.Household, on Days, y *tables.Year) []Change {
	then := *y
	then.Year = before.TaxYear
	c := comparison{
		before: newProjection(before, &then, nil), after: newProjection(after, y, nil),
		on: on, rules: y.Payroll.Effective,
	}
	c.enough = !c.after.outlook(c.after.asFiledToCome()).Balance.IsNegative()
	c.formBefore, c.formAfter = c.before.fillForm(nil), c.after.fillForm(nil)
	c.status()
	c.jobsBegun()
	c.raises()
	c.credits()
	c.deductions()
	c.exemption()
	return c.found
}

// comparison is two states of a household being compared.
type comparison struct {
	before, after         *projection
	formBefore, formAfter formEntries
	on                    Days
	rules                 tables.Effective
	enough                bool // the certificates on file withhold this year's tax
	found                 []Change
}

// add puts a change on the list, due where too little would be withheld.
func (c *comparison) add(code string, what words.Text) { c.addOf(household.OfSelf, code, what) }

// addOf is the same of a change of one of the two earners.
func (c *comparison) addOf(who household.Earner, code string, what words.Text) {
	ch := Change{
		Code: code, What: what, Year: c.after.h.TaxYear,
		Reason: words.T("certificate.due.enough"),
		Source: "Publication 505 (2025), ch. 1, p. 3",
	}
	if !c.enough {
		days := c.rules.NewWithinDays
		ch.Must, ch.By = true, c.on(code, who).AddDays(days)
		ch.Reason = words.T("certificate.due.too_little", "days", days)
	}
	c.found = append(c.found, ch)
}

// status is a change from joint to head of household or single, or from head
// of household to single. It is the one change that asks for a certificate for
// next year where enough is withheld in this one.
func (c *comparison) status() {
	was, is := c.before.status(), c.after.status()
	rank := func(s household.CertificateStatus) int {
		return slices.Index([]household.CertificateStatus{household.CertificateSingle, household.CertificateHeadOfHousehold, household.CertificateJoint}, s)
	}
	if rank(is) >= rank(was) {
		if was != is {
			c.add("status", words.T("certificate.change.status_less"))
			last := &c.found[len(c.found)-1]
			last.Must, last.By = false, household.Date{}
			last.Reason = words.T("certificate.due.lower")
		}
		return
	}
	c.add("status", words.T("certificate.change.status_more"))
	if last := &c.found[len(c.found)-1]; !last.Must {
		last.Must, last.Year = true, c.after.h.TaxYear+1
		on := c.on(last.Code, household.OfSelf)
		last.By = household.On(on.Year, c.rules.NextYearBy.Month, c.rules.NextYearBy.Day)
		if tenDays := on.AddDays(c.rules.NewWithinDays); tenDays.After(last.By) {
			last.By = tenDays
		}
		last.Reason = words.T("certificate.due.next_year", "by", household.On(on.Year, c.rules.NextYearBy.Month, c.rules.NextYearBy.Day), "days", c.rules.NewWithinDays)
	}
}

// jobsBegun is another job, where the first job's certificate was written by
// the Step 2(b) worksheet or an estimate, or where the Step 2(c) box now
// belongs on it.
func (c *comparison) jobsBegun() {
	var begun []openJob
	estimated := false
	for _, j := range c.after.jobs {
		if c.before.find(j.job) == nil && c.after.overlaps(j) {
			begun = append(begun, j)
		} else if f := j.job.Certificate; f != nil && f.Extra.IsPositive() {
			estimated = true
		}
	}
	if len(begun) == 0 || !estimated && len(c.after.jobs) != 2 {
		return
	}
	for _, j := range begun {
		c.addOf(j.job.Earner, "job_begun", words.T("certificate.change.job_begun", "job", j.name))
	}
}

// overlaps reports whether a job pays while another of the jobs does.
func (pr *projection) overlaps(j openJob) bool {
	days := j.job.Paydays(pr.h.TaxYear)
	return slices.ContainsFunc(pr.jobs, func(o openJob) bool {
		theirs := o.job.Paydays(pr.h.TaxYear)
		return o.index != j.index && len(days) > 0 && len(theirs) > 0 &&
			!days[0].After(theirs[len(theirs)-1]) && !theirs[0].After(days[len(days)-1])
	})
}

// find is the same job in another state of the household, by name and earner.
func (pr *projection) find(j household.Job) *openJob {
	for i := range pr.jobs {
		if other := pr.jobs[i].job; other.Name == j.Name && other.Earner == j.Earner {
			return &pr.jobs[i]
		}
	}
	return nil
}

// raises is a raise at a second or third job whose certificate has no box.
func (c *comparison) raises() {
	for _, s := range c.after.payers[min(1, len(c.after.payers)):] {
		old := c.before.find(s.job)
		if old == nil || s.job.Certificate != nil && s.job.Certificate.MultipleJobs {
			continue
		}
		was := old.job.OrdinaryPay().Times(c.before.y.Payroll.Periods.Of(old.job.Frequency))
		if up := s.annual.Sub(was); up.More(c.rules.Changes.RaiseOver) {
			c.add("raise", words.T("certificate.change.raise", "job", s.name, "up", up))
		}
	}
}

// credits is a child credit no longer expected, and other credits that fell.
func (c *comparison) credits() {
	if was, is := c.before.children(), c.after.children(); is < was {
		c.add("child_credit", words.T("certificate.change.child_credit", "is", is, "was", was))
	}
	other := func(r tax.Return) money.Amount { return r.NonrefundableCredits.Sub(r.ChildTaxCredit) }
	if down := other(c.before.ret).Sub(other(c.after.ret)); down.More(c.rules.Changes.CreditsDownBy) {
		c.add("other_credits", words.T("certificate.change.other_credits", "down", down))
	}
}

// children is for how many the child tax credit is expected.
func (pr *projection) children() int {
	n := 0
	for _, s := range tax.Standings(pr.h, pr.y) {
		if s.ChildCredit {
			n++
		}
	}
	return n
}

// deductions is deductions beyond the standard one that fell.
func (c *comparison) deductions() {
	if down := c.formBefore.L4b.Sub(c.formAfter.L4b); down.More(c.rules.Changes.DeductionsDownBy) {
		c.add("deductions", words.T("certificate.change.deductions", "down", down))
	}
}

// exemption is a claim to be exempt that no longer holds, since there is tax
// for the year.
func (c *comparison) exemption() {
	for _, j := range c.after.jobs {
		if f := j.job.Certificate; f != nil && f.Exempt && c.after.ret.TotalTax.More(c.after.ret.RefundableCredits) {
			c.add("exemption", words.T("certificate.change.exemption", "job", j.name))
		}
	}
}
