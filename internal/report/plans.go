package report

import (
	"slices"

	"example.com/plumbline/internal/certificate"
)

// Plans is the plans side by side: what each asks for and leads to, and what
// becomes of it if the rest of the year comes out otherwise.
func (w Writer) Plans(r certificate.Result) Page {
	p := w.page(PlansPage, r, w.say("page.plans.title"))
	p.add(w.plans(r)...)
	return p
}

// plans are the plans that differ from each other, the recommended one first, in
// a line of a table and a line of words each.
func (w Writer) plans(r certificate.Result) []Block {
	if len(r.Recommended.Certificates) == 0 {
		return nil
	}
	distinct := w.distinct(r)
	if len(distinct) == 1 {
		return append([]Block{Paragraph(w.say("page.plans.only"))}, w.shifts(distinct)...)
	}
	t := Table{Head: []string{w.say("page.plans.plan"), w.say("page.plans.forms"), w.say("page.plans.outcome"), w.say("page.plans.paycheck")}}
	var items, jobs []string // jobs where their paychecks change apart
	for _, p := range distinct {
		var changes, names []string
		for _, c := range p.Certificates {
			changes, names = append(changes, w.more(c.Change)), append(names, shortName(c.Name))
		}
		if slices.Equal(slices.Compact(slices.Clone(changes)), changes[:1]) {
			changes = changes[:1]
		} else {
			jobs = names
		}
		t.Rows = append(t.Rows, []string{w.planName(p, r), w.say("page.plans.count", "n", len(toHandIn(p))), w.balanceCell(p.Balance), w.say("page.plans.changes", "changes", changes)})
		what := w.said(p.Reason)
		for _, c := range p.Certificates {
			if c.LittleLeft {
				what += " " + sentence(w.said(c.Takes()))
			}
		}
		items = append(items, w.say("page.plans.what", "plan", w.planName(p, r), "what", what))
	}
	blocks := []Block{t}
	if jobs != nil {
		blocks = append(blocks, Paragraph(w.say("page.plans.order", "jobs", jobs)))
	}
	blocks = append(blocks, List{Items: items})
	if r.Verdict.Code == certificate.JanuaryOnly {
		blocks = append([]Block{Paragraph(w.say("page.plans.january", "this", r.TaxYear, "next", r.January.TaxYear))}, blocks...)
	}
	return append(blocks, w.shifts(distinct)...)
}

// distinct are the plans without those that come to the same certificates as an
// earlier one.
func (w Writer) distinct(r certificate.Result) []certificate.Plan {
	var all []certificate.Plan
	for _, p := range append([]certificate.Plan{r.Recommended}, r.Alternatives...) {
		if !slices.ContainsFunc(all, func(q certificate.Plan) bool { return sameCertificates(p, q) }) {
			all = append(all, p)
		}
	}
	return all
}

// planName is a plan in a few words, with a mark on the one that is taken.
func (w Writer) planName(p certificate.Plan, r certificate.Result) string {
	name := w.say("page.plan." + p.Name)
	switch {
	case p.Name == r.Recommended.Name && (r.Advised == "" || r.Advised == p.Name):
		return w.say("page.plans.recommended", "plan", name)
	case p.Name == r.Recommended.Name:
		return w.say("page.plans.chosen", "plan", name)
	}
	return name
}

// mostShifts is how many plans have room side by side.
const mostShifts = 5

// shifts are what becomes of each plan if the rest of the year comes out
// otherwise.
func (w Writer) shifts(plans []certificate.Plan) []Block {
	if len(plans[0].Shifts()) == 0 {
		return nil
	}
	t := Table{Head: []string{w.say("page.plans.if")}}
	plans = plans[:min(len(plans), mostShifts)]
	for _, p := range plans {
		t.Head = append(t.Head, w.say("page.plan."+p.Name))
	}
	row := func(label string, of func(certificate.Plan) string) {
		cells := []string{label}
		for _, p := range plans {
			cells = append(cells, of(p))
		}
		t.Rows = append(t.Rows, cells)
	}
	row(w.say("page.plans.expected"), func(p certificate.Plan) string { return w.short(p.Balance) })
	for i, s := range plans[0].Shifts() {
		var stops []any
		if s.Stops != "" {
			stops = []any{"job", shortName(s.Stops)}
		}
		row(w.say("page.shift."+s.Case, stops...), func(p certificate.Plan) string { return w.short(p.Shifts()[i].Balance) })
	}
	return []Block{Heading(w.say("page.plans.otherwise")), t}
}

// sameCertificates reports whether two plans come to the same entries for every
// job.
func sameCertificates(p, q certificate.Plan) bool {
	return slices.EqualFunc(p.Certificates, q.Certificates, func(b, c certificate.JobCertificate) bool {
		return b.Job == c.Job && b.Certificate.Same(&c.Certificate)
	})
}
