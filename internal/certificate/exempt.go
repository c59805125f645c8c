package certificate

import (
	"slices"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/payroll"
	"example.com/plumbline/internal/words"
)

// mayClaimExemption reports whether the person may claim to be exempt from
// withholding: no tax last year that is known of, and none expected this year.
//
// IRC 3402(n); Form W-4, "Exempt from withholding".
func (pr *projection) mayClaimExemption() bool {
	last, known := pr.h.LastYear.Tax()
	return known && last.IsZero() && !pr.taxed() && pr.ownWages()
}

// claimFails reports whether a claim to be exempt on file for the year does not
// hold: tax is expected, or last year had some. A claim of last year, which ends by
// itself, was made on that year's conditions. A pension's payer may be told to
// withhold nothing without any.
//
// IRC 3402(n), 3405(a)(2); Form W-4 (2026), "Exemption from withholding".
func (pr *projection) claimFails(j openJob, c *household.Certificate) bool {
	if c == nil || !c.Exempt || j.pension() {
		return false
	}
	last, _ := pr.h.LastYear.Tax()
	return pr.taxed() || last.IsPositive() && pr.claimedThisYear(j, c)
}

// claimOpen reports whether a claim to be exempt on file turns on last year's tax,
// which is not known.
func (pr *projection) claimOpen(j openJob, c *household.Certificate) bool {
	_, known := pr.h.LastYear.Tax()
	return c != nil && c.Exempt && !known && !pr.taxed() && pr.claimedThisYear(j, c)
}

// claimedThisYear reports whether the claim to be exempt on a certificate of a job
// that pays wages is, or may be, this year's.
func (pr *projection) claimedThisYear(j openJob, c *household.Certificate) bool {
	_, ends := j.year.ClaimEnds(c)
	return j.job.Kind == household.Wages && !ends
}

// ownWages reports whether a new certificate would count at a job of the person's
// own that pays wages.
func (pr *projection) ownWages() bool {
	return slices.ContainsFunc(pr.payers, func(s payer) bool { return s.job.Earner == household.OfSelf && !s.pension() })
}

// claimsExemption reports whether the advice is to claim exemption: where the
// person may and wants to; or may, and the claim that they made before ends, or
// something would have to be entered to bring down what is withheld.
func (pr *projection) claimsExemption(r Result) bool {
	if !pr.mayClaimExemption() {
		return false
	}
	if pr.h.Wish.Exempt {
		return true
	}
	lowered := slices.ContainsFunc(r.Recommended.Certificates, func(c JobCertificate) bool {
		return !c.Keep && c.Corrected && c.Certificate.Credits.IsPositive()
	})
	ends := slices.ContainsFunc(pr.payers, func(s payer) bool {
		_, ends := s.year.ClaimEnds(s.job.Certificate)
		return ends && s.job.Earner == household.OfSelf
	})
	ends = ends && r.AsFiled.WithholdingToCome.IsPositive() // else the end of the claim changes nothing
	return (lowered || ends) && pr.goal.IsZero() && pr.h.Wish.TellEmployer == household.TellAll
}

// claimsAgain reports whether a claim to be exempt of the year before is on file
// at a job of the person's own, and may be made again.
func (pr *projection) claimsAgain() bool {
	return pr.mayClaimExemption() && slices.ContainsFunc(pr.payers, func(s payer) bool {
		c := s.job.Certificate
		return c != nil && c.Exempt && s.job.Earner == household.OfSelf && !s.pension()
	})
}

// claimExempt puts the claim to be exempt from withholding in the place of the
// recommended plan's entries. The former plan becomes the first alternative. The
// claim ends on the day given.
func (r *Result) claimExempt(pr *projection, until household.Date) {
	p := pr.claiming(r.Recommended)
	p.Reason = words.T("certificate.why.exempt", "until", until)
	r.Alternatives = append([]Plan{r.Recommended}, r.Alternatives...)
	r.Recommended, r.Advised = p, PlanExempt
}

// claiming is a plan with the claim to be exempt in the place of its entries. The
// claim is the person's own: not the spouse's, and not for a pension, so that
// those certificates stay as they were. One that is on file for the year is not
// made again.
//
// Form W-4, Exempt from withholding; IRC 3402(n).
func (pr *projection) claiming(p Plan) Plan {
	p.Name = PlanExempt
	p.Certificates = slices.Clone(p.Certificates)
	toCome := pr.fixed
	for i := range p.Certificates {
		c := &p.Certificates[i]
		s := pr.payers[slices.IndexFunc(pr.payers, func(s payer) bool { return s.index == c.Job })]
		if s.job.Earner == household.OfSelf && !s.pension() {
			onFile := s.job.Certificate
			_, ends := s.year.ClaimEnds(onFile)
			*c = JobCertificate{
				Job: c.Job, Name: c.Name, Kind: c.Kind, FirstPayday: c.FirstPayday, EffectiveBy: c.EffectiveBy, Paydays: c.Paydays,
				Certificate: household.Certificate{Status: c.Certificate.Status, Exempt: true},
				Lines:       EmptyLines(), Keep: onFile != nil && onFile.Exempt && !ends,
				TakeHomeNow: c.TakeHomeNow, TakeHome: c.TakeHome.Add(c.Withholding), Change: c.Withholding.Add(c.Change),
				Learns: []words.Text{words.T("certificate.learns.exempt")},
			}
		}
		toCome = toCome.Add(s.year.Withheld(payroll.OnFile{Now: s.job.Certificate, New: &c.Certificate, From: c.FirstPayday}))
	}
	p.Outlook = pr.outlook(toCome)
	over := p.Balance.Sub(pr.goal)
	p.Lands, p.Left, p.NearEnough, p.Lasts = over.IsZero(), over, true, false
	return p
}

// EmptyLines are the lines of a certificate on which nothing is entered but the
// filing status.
func EmptyLines() Lines {
	entry := func(line string) Entry { return Entry{Line: line, Amount: money.Zero} }
	return Lines{L3a: entry("3a"), L3b: entry("3b"), L3: entry("3"), L4a: entry("4a"), L4b: entry("4b"), L4c: entry("4c")}
}
