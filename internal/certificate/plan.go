package certificate

import (
	"slices"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/tax"
	"example.com/plumbline/internal/words"
	"example.com/plumbline/internal/worksheet"
)

// plan is a candidate written out: its year and its certificates, each line with
// its reason.
func (d *candidate) plan(name string, f formEntries) Plan {
	pr := d.pr
	d.traceGap(name)
	p := Plan{Name: name, Outlook: pr.outlook(money.Sum(d.withheld...).Add(pr.fixed))}
	p.Lands, p.Left = pr.landing(p.Balance)
	p.Harbor = tax.SafeHarbor(pr.ret, pr.h, pr.paid(p.Outlook), pr.y)
	for i := range pr.payers {
		p.Certificates = append(p.Certificates, d.certificate(i, name, f))
	}
	slices.SortStableFunc(p.Certificates, func(b, c JobCertificate) int { return b.Job - c.Job })
	return p
}

// traceGap writes down what a plan's corrections make up for.
func (d *candidate) traceGap(name string) {
	pr := d.pr
	if pr.trace == nil {
		return
	}
	pr.trace.Add(worksheet.Line{
		ID: "plan." + name + ".gap", Name: words.T("line.plan.gap"), Amount: pr.need.Sub(d.before),
		How:  worksheet.Worded(words.T("how.gap", "need", pr.need, "withheld", d.before)),
		From: []string{"plan.to_withhold"}, Source: worksheet505,
	})
}

// certificate is a payer's certificate written out.
func (d *candidate) certificate(i int, name string, f formEntries) JobCertificate {
	s, c := d.pr.payers[i], d.certs[i]
	now := s.job.Certificate
	jc := JobCertificate{
		Job:         s.index,
		Name:        s.name,
		Kind:        s.job.Kind,
		FirstPayday: s.from,
		EffectiveBy: s.byLaw,
		Corrected:   d.added[i].extra.IsPositive() || d.added[i].credits.IsPositive(),
		Keep:        now.Same(&c),
		NextYear:    d.next != nil && !now.Same(&c),
		Certificate: c,
		Withholding: s.year.Regular(s.year.InForce(&c, s.from)),
		Paydays:     s.paydays,
		Learns:      learns(c, f, i == 0),
	}
	before := s.year.Regular(s.year.InForce(now, s.from))
	jc.Change = before.Sub(jc.Withholding)
	jc.TakeHomeNow, jc.TakeHome = s.untaxed.Sub(before), s.untaxed.Sub(jc.Withholding)
	jc.LittleLeft = !jc.Keep && jc.Withholding.More(d.pr.mostWithheld(i))
	jc.Lines = d.lines(i, name, f, jc.Keep)
	return jc
}

// learns is what an employer can tell from a certificate.
func learns(c household.Certificate, f formEntries, carrier bool) []words.Text {
	var learned []words.Text
	add := func(what string) { learned = append(learned, words.T("certificate.learns."+what)) }
	switch c.Status {
	case household.CertificateJoint:
		add("joint")
	case household.CertificateHeadOfHousehold:
		add("head_of_household")
	}
	if c.MultipleJobs {
		add("second_job")
	}
	if c.Credits.IsPositive() {
		if carrier && f.Children+f.Others > 0 {
			add("dependents")
		} else {
			add("credits")
		}
	}
	if c.OtherIncome.IsPositive() {
		add("other_income")
	}
	if c.Deductions.IsPositive() {
		add("deductions")
	}
	return learned
}

// Payers is who gets the new certificates of a plan: "wages" for employers alone,
// "pension" for payers of pensions alone, else "both".
func (p Plan) Payers() string {
	kinds := map[household.JobKind]bool{}
	for _, c := range p.Certificates {
		if !c.Keep {
			kinds[c.Kind] = true
		}
	}
	switch {
	case !kinds[household.Pension]:
		return household.Wages.String()
	case !kinds[household.Wages]:
		return household.Pension.String()
	}
	return "both"
}

// forms is how many certificates of a plan have to be handed in.
func (p Plan) forms() int {
	n := 0
	for _, c := range p.Certificates {
		if !c.Keep {
			n++
		}
	}
	return n
}

// entries is how many lines are filled in on those.
func (p Plan) entries() int {
	n := 0
	for _, c := range p.Certificates {
		if !c.Keep {
			n += entries(c.Certificate)
		}
	}
	return n
}

// newAt are the names of the jobs at which a plan has a new certificate.
func newAt(p Plan) []string {
	var names []string
	for _, c := range p.Certificates {
		if !c.Keep {
			names = append(names, c.Name)
		}
	}
	return names
}
