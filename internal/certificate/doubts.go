package certificate

import (
	"slices"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
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

// doubts are the entries of a plan that rest on something open.
func (pr *projection) doubts(p Plan, f formEntries) []Doubt {
	var all []Doubt
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
			about := words.T("certificate.doubt.head_of_household")
			if e := pr.found.expected; e.Children > 0 {
				about = words.T("certificate.doubt.unborn_head", "due", e.Due, "year", pr.h.TaxYear)
			}
			all = append(all, Doubt{Job: c.Job, Entry: "1c", About: about, Safe: words.T("certificate.safe.single")})
		}
		all = append(all, pr.doubtsOfChildren(c)...)
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

// insteadOfExempt is what to write by somebody who is not sure of the claim to be
// exempt: the ordinary form, with the credits that it asks for where there is but one
// certificate to put them on.
func (pr *projection) insteadOfExempt(f formEntries) words.Text {
	if len(pr.payers) == 1 && f.L3.IsPositive() && pr.h.Wish.TellEmployer == household.TellAll {
		return words.T("certificate.safe.with_credits", "credits", f.L3)
	}
	return words.T("certificate.safe.plain")
}

// doubtsOfChildren are the children and others in a certificate's Step 3 whose
// claim is open: one of shared custody, one who is not born yet and counted all the
// same.
func (pr *projection) doubtsOfChildren(c JobCertificate) []Doubt {
	var all []Doubt
	if c.Lines.L3a.Amount.IsZero() && c.Lines.L3b.Amount.IsZero() {
		return nil
	}
	for i, s := range tax.Standings(pr.h, pr.y) {
		each, entry := pr.y.Form.PerChild, "3a"
		if s.OtherCredit {
			each, entry = pr.y.Form.PerOther, "3b"
		}
		if !s.ChildCredit && !s.OtherCredit {
			continue
		}
		d, name := pr.h.Dependents[i], pr.h.DependentName(i)
		rest := c.Lines.L3.Amount.Sub(each).OrZero()
		safe := words.T("certificate.safe.without", "line", entry, "less", each, "rest", rest)
		switch {
		case d.BirthDate.After(pr.h.AsOf):
			all = append(all, Doubt{Job: c.Job, Entry: entry, About: words.T("certificate.doubt.unborn", "name", name, "year", pr.h.TaxYear), Safe: words.T("certificate.safe.owe_more", "more", each), Amount: rest})
		case slices.ContainsFunc(s.Notes, func(n worksheet.Note) bool { return n.Code == "shared_custody" }):
			all = append(all, Doubt{Job: c.Job, Entry: entry, About: words.T("certificate.doubt.custody", "name", name), Safe: safe, Amount: rest})
		}
	}
	return all
}

// qualifyingPerson reports whether somebody in the answers makes the person head
// of household.
//
// IRC 2(b)(1).
func (pr *projection) qualifyingPerson() bool {
	return slices.ContainsFunc(tax.Standings(pr.h, pr.y), func(s tax.Standing) bool { return s.HeadOfHousehold })
}
