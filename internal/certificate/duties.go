package certificate

import (
	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/words"
)

// Duty is a new certificate that the law asks for, whether or not it is advised.
type Duty struct {
	Code string // "status", "exemption", "renewal", "credits"
	Job  int    // index into Household.Jobs
	Days int    // within so many days of the change; zero: by the date
	By   household.Date
	Text words.Text
}

// duties are the new certificates that the law asks for: those of this year, then
// those for the next.
//
// Publication 505 (2025), ch. 1, p. 3; 26 CFR 31.3402(l)-1(c); IRC 3402(f)(2).
func (pr *projection) duties(r Result, next *januaryYear) []Duty {
	var all []Duty
	for _, j := range pr.jobs {
		if code := pr.dutyOf(j, r); code != "" {
			all = append(all, pr.duty(code, j, r))
		}
	}
	if next != nil && !pr.taxed() && next.pr.taxed() {
		all = append(all, pr.exemptionEnds(r)...)
	}
	return all
}

// dutyOf is the code of the duty at a job, "" for none. A claim to be exempt that no
// longer holds is one; a claim that may be of an earlier year is made again, and one
// that has ended asks for nothing. A status that is taxed less than the true one is
// one; so are credits no longer expected, where a new certificate would still count
// this year.
func (pr *projection) dutyOf(j openJob, r Result) string {
	c := j.job.Certificate
	switch {
	case c == nil, pr.claimEnded(j):
		return ""
	case pr.claimFails(j, c):
		return "exemption"
	case c.Exempt && pr.claimMayEnd(j) && !r.Recommended.replaces(j.index):
		return "renewal"
	case pr.statusMustChange(c):
		return "status"
	case pr.reaches(j.index) && pr.claimsTooMuch(c):
		return "credits"
	}
	return ""
}

// duty is the duty of a code with its date: within days of the change; a claim by
// the day on which it would end; a status by the day for next year's certificates,
// where enough is withheld.
func (pr *projection) duty(code string, j openJob, r Result) Duty {
	d := Duty{Code: code, Job: j.index}
	switch {
	case code == "renewal":
		d.By = pr.y.ClaimsRenewedBy(pr.h.TaxYear)
		d.Text = words.T("certificate.duty.renewal", "job", j.name, "year", pr.h.TaxYear, "ends", d.By)
	case code == "status" && !r.AsFiled.Balance.IsNegative():
		d.By = pr.nextYearBy()
		d.Text = words.T("certificate.duty.status_next_year", "job", j.name, "by", d.By, "year", pr.h.TaxYear+1)
	case code == "exemption" && !pr.taxed():
		d.Days = pr.y.Payroll.Effective.NewWithinDays
		d.Text = words.T("certificate.duty.exemption_last_year", "job", j.name, "year", pr.h.TaxYear, "last", pr.h.TaxYear-1, "days", d.Days)
	default:
		d.Days = pr.y.Payroll.Effective.NewWithinDays
		d.Text = words.T("certificate.duty."+code, "job", j.name, "days", d.Days)
	}
	return d
}

// exemptionEnds are the duties of who is exempt and will owe tax next year: a
// certificate for it where January's plan has one.
//
// 26 CFR 31.3402(f)(2)-1, from memory.
func (pr *projection) exemptionEnds(r Result) []Duty {
	var all []Duty
	for _, c := range r.Recommended.Certificates {
		if !c.Certificate.Exempt || c.Kind != household.Wages || !r.January.replaces(c.Job) {
			continue
		}
		d := Duty{Code: "exemption", Job: c.Job, By: pr.nextYearBy()}
		if tenDays := pr.h.AsOf.AddDays(pr.y.Payroll.Effective.NewWithinDays); tenDays.After(d.By) {
			d.By = tenDays
		}
		next := pr.h.TaxYear + 1
		d.Text = words.T("certificate.duty.exemption_next_year", "job", c.Name, "ends", pr.y.ClaimsRenewedBy(next), "year", next, "by", d.By)
		all = append(all, d)
	}
	return all
}

// nextYearBy is the day by which next year's certificate is due.
func (pr *projection) nextYearBy() household.Date {
	by := pr.y.Payroll.Effective.NextYearBy
	return household.On(pr.h.TaxYear, by.Month, by.Day)
}
