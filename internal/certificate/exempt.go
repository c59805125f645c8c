package certificate

import (
	"slices"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/words"
)

// mayClaimExemption reports whether the person may claim to be exempt from
// withholding: no tax last year, as far as is known, and none expected this year.
//
// IRC 3402(n); Form W-4, "Exempt from withholding".
func (pr *projection) mayClaimExemption() bool {
	last, known := pr.h.LastYear.Tax()
	return known && last.IsZero() && !pr.taxed() && pr.ownWages()
}

// ownWages reports whether a new certificate would count at a job of the person's
// own that pays wages.
func (pr *projection) ownWages() bool {
	return slices.ContainsFunc(pr.payers, func(s payer) bool { return s.job.Earner == household.OfSelf && !s.pension() })
}

// claimsExemption reports whether the advice is to claim exemption: where the
// person may and wants to; or may, and something would have to be entered to
// bring down what is withheld.
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
	return lowered && pr.goal.IsZero() && pr.h.Wish.TellEmployer == household.TellAll
}

// claimExempt puts the claim to be exempt from withholding in the place of the
// recommended plan's entries. The former plan becomes the first alternative. The
// claim is the person's own: not the spouse's, and not for a pension, so that
// those certificates stay as they were recommended. It ends on the day given. What the paydays withhold
// until the claim counts is what they would if each such job ended the day
// before.
//
// Form W-4, Exempt from withholding; IRC 3402(n).
func (r *Result) claimExempt(until household.Date) {
	cut := r.Household
	cut.Jobs = slices.Clone(cut.Jobs)
	p := r.Recommended
	p.Name, p.Reason = PlanExempt, words.T("certificate.why.exempt", "until", until)
	p.Certificates = slices.Clone(p.Certificates)
	for i := range p.Certificates {
		c := &p.Certificates[i]
		j := &cut.Jobs[c.Job]
		if j.Earner == household.OfSpouse || j.Kind == household.Pension {
			continue
		}
		status := c.Certificate.Status
		exempt := household.Certificate{Status: status, Exempt: true}
		*c = JobCertificate{
			Job: c.Job, Name: c.Name, Kind: c.Kind, FirstPayday: c.FirstPayday, EffectiveBy: c.EffectiveBy, Paydays: c.Paydays,
			Certificate: exempt, Lines: EmptyLines(), Keep: j.Certificate != nil && j.Certificate.Exempt,
			TakeHomeNow: c.TakeHomeNow, TakeHome: c.TakeHome.Add(c.Withholding), Change: c.Withholding.Add(c.Change),
			Learns: []words.Text{words.T("certificate.learns.exempt")},
		}
		j.LastPayday = c.FirstPayday.AddDays(-1)
		j.OneTimePay = slices.DeleteFunc(slices.Clone(j.OneTimePay), func(o household.OneTimePay) bool { return !o.Payday.Before(c.FirstPayday) })
	}
	before, _ := AsFiled(cut, r.Tables, 0, nil)
	p.WithholdingToCome = before.WithholdingToCome
	p.Outlook = p.Outlook.settle()
	over := p.Balance.Sub(r.Household.Wish.Goal())
	p.Lands, p.Left, p.NearEnough, p.Lasts = over.IsZero(), over, true, false
	r.Alternatives = append([]Plan{r.Recommended}, r.Alternatives...)
	r.Recommended, r.Advised = p, PlanExempt
}

// EmptyLines are the lines of a certificate on which nothing is entered but the
// filing status.
func EmptyLines() Lines {
	entry := func(line string) Entry { return Entry{Line: line, Amount: money.Zero} }
	return Lines{L3a: entry("3a"), L3b: entry("3b"), L3: entry("3"), L4a: entry("4a"), L4b: entry("4b"), L4c: entry("4c")}
}
