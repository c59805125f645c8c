package certificate

import (
	"slices"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/tables"
	"example.com/plumbline/internal/tax"
	"example.com/plumbline/internal/words"
	"example.com/plumbline/internal/worksheet"
)

// Doubt is an entry that is true only if something is that the answers leave
// open, with the entry that is safe if it is not.
type Doubt struct {
	Job    int        // index into Household.Jobs
	Entry  string     // "1c", "3a", "3b", "3", "exempt"
	About  words.Text // what has to be true
	Safe   words.Text // what to write if it is not, or what follows
	Amount money.Amount
}

// doubts are the entries of the recommended plan that rest on something open.
func (pr *projection) doubts(r Result, f formEntries) []Doubt {
	var all []Doubt
	p := r.Recommended
	for _, c := range p.Certificates {
		if c.Keep {
			all = append(all, pr.doubtsOfClaim(c)...)
			continue
		}
		if c.Certificate.Exempt {
			all = append(all, Doubt{Job: c.Job, Entry: "exempt", About: words.T("certificate.doubt.exempt", "year", pr.h.TaxYear), Safe: pr.insteadOfExempt(f)})
			continue
		}
		if c.Certificate.Status == household.CertificateHeadOfHousehold && !pr.qualifyingPerson() {
			all = append(all, Doubt{Job: c.Job, Entry: "1c", About: words.T("certificate.doubt.head_of_household"), Safe: words.T("certificate.safe.single")})
		}
		all = append(all, pr.doubtsOfChildren(c, r.next)...)
	}
	if len(all) == 0 {
		all = pr.doubtsOfTheYear(p)
	}
	return all
}

// doubtsOfClaim is what has to be true for a claim to be exempt that stays on file.
func (pr *projection) doubtsOfClaim(c JobCertificate) []Doubt {
	j := pr.jobs[slices.IndexFunc(pr.jobs, func(j openJob) bool { return j.index == c.Job })]
	if !pr.claimOpen(j, j.job.Certificate) {
		return nil
	}
	return []Doubt{{
		Job: c.Job, Entry: "exempt",
		About: words.T("certificate.doubt.exempt_on_file", "job", c.Name, "year", pr.h.TaxYear, "last", pr.h.TaxYear-1),
		Safe:  words.T("certificate.safe.without_claim", "days", pr.y.Payroll.Effective.NewWithinDays),
	}}
}

// insteadOfExempt is what somebody writes who is not sure of the claim to be exempt:
// the ordinary form, with the credits that it asks for where there is but one
// certificate to put them on.
func (pr *projection) insteadOfExempt(f formEntries) words.Text {
	if len(pr.payers) == 1 && f.L3.IsPositive() && pr.h.Wish.TellEmployer == household.TellAll {
		return words.T("certificate.safe.with_credits", "credits", f.L3)
	}
	return words.T("certificate.safe.plain")
}

// doubtsOfChildren are the children and others in a certificate's Step 3 whose
// claim is open: one who is not born yet, one of shared custody.
func (pr *projection) doubtsOfChildren(c JobCertificate, next *tables.Year) []Doubt {
	var all []Doubt
	if c.Lines.L3a.Amount.IsZero() && c.Lines.L3b.Amount.IsZero() {
		return nil
	}
	for i, s := range tax.Standings(pr.h, pr.y) {
		each, entry, line := pr.y.Form.PerChild, "3a", c.Lines.L3a.Amount
		if s.OtherCredit {
			each, entry, line = pr.y.Form.PerOther, "3b", c.Lines.L3b.Amount
		}
		if !s.ChildCredit && !s.OtherCredit {
			continue
		}
		switch {
		case pr.unborn(i):
			all = append(all, Doubt{Job: c.Job, Entry: entry, About: pr.aboutUnborn(i), Safe: pr.untilBorn(next)})
		case slices.ContainsFunc(s.Notes, func(n worksheet.Note) bool { return n.Code == "shared_custody" }):
			rest := c.Lines.L3.Amount.Sub(each).OrZero()
			all = append(all, Doubt{
				Job: c.Job, Entry: entry, Amount: rest, About: words.T("certificate.doubt.custody", "name", pr.h.DependentName(i)),
				Safe: words.T("certificate.safe.without", "entry", entry, "amount", line.Sub(each).OrZero(), "rest", rest),
			})
		}
	}
	return all
}

// doubtsOfTheYear are the children not born yet whose credit the year's tax counts
// where no certificate claims it: at the last entry of the first certificate to
// hand in, which is sized by that tax.
func (pr *projection) doubtsOfTheYear(p Plan) []Doubt {
	i := slices.IndexFunc(p.Certificates, func(c JobCertificate) bool { return !c.Keep && !c.Certificate.Exempt })
	claims := slices.ContainsFunc(p.Certificates, func(c JobCertificate) bool { return c.Certificate.Credits.IsPositive() })
	if i < 0 || claims {
		return nil
	}
	c, entry := p.Certificates[i], "1c"
	for _, e := range c.Lines.All() {
		if e.Amount.IsPositive() {
			entry = e.Line
		}
	}
	return pr.doubtsOfUnborn(c.Job, entry)
}

// doubtsOfUnborn are the children not born yet whose credit the year's tax counts,
// at an entry of a job's certificate.
func (pr *projection) doubtsOfUnborn(job int, entry string) []Doubt {
	var all []Doubt
	for i, s := range tax.Standings(pr.h, pr.y) {
		if s.ChildCredit && pr.unborn(i) {
			more := pr.withoutUnborn(nil).owed().Sub(pr.owed())
			all = append(all, Doubt{
				Job: job, Entry: entry, Amount: more, About: pr.aboutUnborn(i),
				Safe: words.T("certificate.safe.owe_more", "more", more),
			})
		}
	}
	return all
}

// unborn reports whether a dependent is not born on the day of the answers.
func (pr *projection) unborn(i int) bool { return pr.h.Dependents[i].BirthDate.After(pr.h.AsOf) }

// aboutUnborn is what has to be true where a child is counted before the birth.
func (pr *projection) aboutUnborn(i int) words.Text {
	return words.T("certificate.doubt.unborn", "due", pr.h.Dependents[i].BirthDate, "year", pr.h.TaxYear)
}

// withoutUnborn is the projection without the children who are not born.
func (pr *projection) withoutUnborn(trace *worksheet.Sheet) *projection {
	h := pr.h
	h.Dependents = slices.DeleteFunc(slices.Clone(h.Dependents), func(d household.Dependent) bool { return d.BirthDate.After(h.AsOf) })
	return newProjection(h, pr.y, trace)
}

// untilBorn is what is safe until the birth: the entries that would be advised
// without the child. They differ in more than the child's own credit where the care
// credit rests on it too (IRC 21(c)), and in what is withheld beside Step 3.
func (pr *projection) untilBorn(next *tables.Year) words.Text {
	trace := new(worksheet.Sheet)
	var forms, filled []JobCertificate
	for _, c := range pr.withoutUnborn(trace).solve(next, trace).Recommended.Certificates {
		if c.Keep {
			continue
		}
		forms = append(forms, c)
		if entries(c.Certificate) > 0 || c.Certificate.MultipleJobs {
			filled = append(filled, c)
		}
	}
	var then []words.Text
	for _, c := range filled {
		if c.Certificate.MultipleJobs {
			then = append(then, words.T("certificate.safe.box", "forms", len(filled), "job", c.Name))
		}
		for _, e := range c.Lines.All() {
			if e.Amount.IsPositive() {
				then = append(then, words.T("certificate.safe.entry", "amount", e.Amount, "entry", e.Line, "forms", len(filled), "job", c.Name))
			}
		}
	}
	switch {
	case len(forms) == 0:
		return words.T("certificate.safe.until_born_keep")
	case len(then) == 0:
		return words.T("certificate.safe.until_born_plain")
	}
	return words.T("certificate.safe.until_born", "entries", then)
}

// owed is the year's tax less the credits that are paid out.
func (pr *projection) owed() money.Amount { return pr.ret.TotalTax.Sub(pr.ret.RefundableCredits) }

// qualifyingPerson reports whether somebody in the answers makes the person head
// of household.
//
// IRC 2(b)(1).
func (pr *projection) qualifyingPerson() bool {
	return slices.ContainsFunc(tax.Standings(pr.h, pr.y), func(s tax.Standing) bool { return s.HeadOfHousehold })
}
