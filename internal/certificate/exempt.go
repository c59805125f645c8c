package certificate

import (
	"slices"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
)

// Exempt is the plan of someone who claims to be exempt from withholding; Solve
// never gives it, since the claim is for the person to make.
const PlanExempt = "exempt"

// ClaimExempt puts the claim to be exempt from withholding in the place of the
// recommended plan's entries, for the reason given; learns is what an employer
// then learns, in a phrase. The former plan becomes the first alternative. The
// claim is the person's own (Form W-4, Exempt from withholding; IRC 3402(n)): not
// the spouse's, and not for a pension, so that those certificates stay as they
// were recommended. What the paydays withhold until the claim counts is what
// they would if each such job ended the day before.
func (r *Result) ClaimExempt(reason, learns string) {
	until := r.Household
	until.Jobs = slices.Clone(until.Jobs)
	p := r.Recommended
	p.Name, p.Reason = PlanExempt, reason
	p.Certificates = slices.Clone(p.Certificates)
	for i := range p.Certificates {
		c := &p.Certificates[i]
		j := &until.Jobs[c.Job]
		if j.Earner == household.OfSpouse || j.Kind == household.Pension {
			continue
		}
		*c = JobCertificate{
			Job: c.Job, Name: c.Name, Kind: c.Kind, FirstPayday: c.FirstPayday, EffectiveBy: c.EffectiveBy, Paydays: c.Paydays,
			Certificate: household.Certificate{Status: c.Certificate.Status, Exempt: true},
			Lines:       EmptyLines(), Change: c.Withholding.Add(c.Change),
			Learns: []string{learns},
		}
		j.LastPayday = c.FirstPayday.AddDays(-1)
		j.OneTimePay = slices.DeleteFunc(slices.Clone(j.OneTimePay), func(o household.OneTimePay) bool { return !o.Payday.Before(c.FirstPayday) })
	}
	before, _ := AsFiled(until, r.Tables, 0, nil)
	p.WithholdingToCome = before.WithholdingToCome
	p.Outlook = p.Outlook.settle()
	over := p.Balance.Sub(r.Household.Wish.Refund)
	p.Lands, p.Left = over.IsZero(), over
	r.Alternatives = append([]Plan{r.Recommended}, r.Alternatives...)
	r.Recommended = p
}

// EmptyLines are the lines of a certificate on which nothing stands but the
// filing status.
func EmptyLines() Lines {
	entry := func(line string) Entry { return Entry{Line: line, Amount: money.Zero} }
	return Lines{L3a: entry("3a"), L3b: entry("3b"), L3: entry("3"), L4a: entry("4a"), L4b: entry("4b"), L4c: entry("4c")}
}
