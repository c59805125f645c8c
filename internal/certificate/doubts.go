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
			continue
		}
		if c.Certificate.Exempt {
			all = append(all, Doubt{Job: c.Job, Entry: "exempt", About: words.T("certificate.doubt.exempt", "year", pr.h.TaxYear), Safe: pr.insteadOfExempt(f)})
			continue
		}
		if c.Certificate.Status == household.CertificateHeadOfHousehold && !pr.qualifyingPerson() {
			all = append(all, Doubt{Job: c.Job, Entry: "1c", About: words.T("certificate.doubt.head_of_household"), Safe: words.T("certificate.safe.single")})
		}
		all = append(all, pr.doubtsOfChildren(c)...)
	}
	if len(all) == 0 {
		all = pr.doubtsOfTheYear(p)
	}
	return all
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
// claim is open: one who is not born yet, one of shared custody.
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
			all = append(all, Doubt{Job: c.Job, Entry: entry, About: words.T("certificate.doubt.unborn", "name", name, "year", pr.h.TaxYear), Safe: safe, Amount: rest})
		case slices.ContainsFunc(s.Notes, func(n worksheet.Note) bool { return n.Code == "shared_custody" }):
			all = append(all, Doubt{Job: c.Job, Entry: entry, About: words.T("certificate.doubt.custody", "name", name), Safe: safe, Amount: rest})
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
		if s.ChildCredit && pr.h.Dependents[i].BirthDate.After(pr.h.AsOf) {
			all = append(all, Doubt{
				Job: job, Entry: entry, Amount: pr.y.Form.PerChild,
				About: words.T("certificate.doubt.unborn", "name", pr.h.DependentName(i), "year", pr.h.TaxYear),
				Safe:  words.T("certificate.safe.owe_more", "more", pr.y.Form.PerChild),
			})
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
