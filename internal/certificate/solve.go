package certificate

import (
	"slices"
	"sync"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/tables"
	"example.com/plumbline/internal/tax"
	"example.com/plumbline/internal/words"
	"example.com/plumbline/internal/worksheet"
)

// solve works out every plan, the one to advise, January and what belongs to
// them.
func (pr *projection) solve(next *tables.Year, trace *worksheet.Sheet) Result {
	f := pr.fillForm(trace)
	r := Result{
		TaxYear:   pr.h.TaxYear,
		AsFiled:   pr.outlook(pr.asFiledToCome()),
		Return:    pr.ret,
		Trace:     trace,
		Household: pr.h,
		Tables:    pr.y,
		next:      next,
		wished:    pr.wished(),
	}
	r.AsFiledLands, _ = pr.landing(r.AsFiled.Balance)
	r.Harbor = tax.SafeHarbor(pr.ret, pr.h, pr.paid(r.AsFiled), pr.y)
	variations := sync.OnceValue(pr.variations)
	r.shifts = shiftsOf(r.AsFiled.Balance, variations, func(int) (*household.Certificate, household.Date) { return nil, household.Date{} })

	r.causes = pr.laterCauses(f)

	j := pr.openJanuary(next)
	all := pr.candidates(f, j)
	options := pr.options(all, f, j)
	chosen, ground := choose(options)
	all, options, chosen = distinct(all, options, chosen)
	for i, n := range all {
		p := n.plan(n.name, f)
		p.shifts = n.shifts(p.Balance, variations)
		p.NearEnough, p.Lasts = options[i].near, options[i].lasts
		p.JanuaryBalance = options[i].then
		p.Reason = words.T("certificate.plan." + n.name)
		if i == chosen {
			p.Reason, r.ground = because(all, options, chosen, ground, p), ground
			r.Recommended = p
			continue
		}
		r.Alternatives = append(r.Alternatives, p)
	}
	if pr.h.Wish.Aim == household.AimNoPenalty && !r.Recommended.NothingToHandIn() {
		r.Recommended.Name = PlanNoPenalty
	}
	r.Advised = r.Recommended.Name
	pr.traceOutlook(r.Recommended.Outlook, "advised")
	r.OtherWays = pr.otherWays(f, r.Recommended)
	pr.conclude(&r, f, j)
	if pr.claimsExemption(r) {
		r.claimExempt(pr, pr.y.ClaimsRenewedBy(pr.h.TaxYear+1))
		pr.conclude(&r, f, j)
	}
	return r
}

// conclude works out what follows from the recommended plan: what is left to pay
// directly, the penalty, January, doubts, steps, the verdict and the warnings.
func (pr *projection) conclude(r *Result, f formEntries, j *januaryYear) {
	r.Estimated = pr.estimated(r.Recommended)
	r.Planned = pr.planned()
	r.Voluntary = pr.voluntary(r.AsFiled.Balance, r.Recommended.NothingToHandIn(), f)
	r.Underpayment = pr.underpayment(r.Recommended, r.Estimated)
	if r.January = j.after(r.Recommended); r.January != nil && r.Voluntary.Percent == 0 {
		r.January.Voluntary = j.voluntary()
	}
	for i := range r.Recommended.Certificates {
		c := &r.Recommended.Certificates[i]
		c.ThisYear = !c.Keep && r.January.replaces(c.Job)
	}
	r.found, r.Irregular, r.CheckFirst = pr.found, pr.found.irregular, pr.toCheck()
	r.Doubts = pr.doubts(*r, f)
	r.Duties = pr.duties(*r, j)
	for _, d := range r.Duties {
		if d.Code == "exemption" && !d.By.IsZero() && d.By.Before(r.January.HandIn) {
			r.January.HandIn = d.By
		}
	}
	r.Verdict = pr.verdict(*r, f)
	r.Steps = steps(*r)
	r.Warnings = pr.warnings(*r, f)
}

// namedCandidate is a candidate by the name of its plan.
type namedCandidate struct {
	name string
	*candidate
}

// candidates are the plans that this household can have. The first is what asks
// for least: the certificates on file, or those that must replace them.
func (pr *projection) candidates(f formEntries, j *januaryYear) []namedCandidate {
	var all []namedCandidate
	add := func(name string, candidates ...*candidate) {
		for _, d := range candidates {
			if d != nil {
				all = append(all, namedCandidate{name, d})
			}
		}
	}
	certs, mayStay := pr.standingCerts()
	standing := pr.newCandidate(certs)
	standing.roundExtras()
	switch {
	case mayStay:
		add(PlanKeep, standing)
	case standing.newEntries() > 0:
		add(PlanSimple, standing)
	default:
		add(PlanPlain, standing)
	}
	add(PlanLasting, j.lastingCandidate(pr))
	add(PlanPlain, pr.newCandidate(pr.blanks()))
	add(PlanBox, pr.boxCandidate(f))
	add(PlanExtra, pr.extraCandidates()...)
	add(PlanSimple, pr.simpleCandidates(f)...)
	add(PlanForm, pr.formCandidate(f))
	add(PlanTuned, pr.tunedCandidate(f))
	if !pr.fullYear || pr.h.Wish.TellEmployer == household.ExtraOnly {
		add(PlanPrivate, pr.privateCandidate())
	}
	if pr.h.Wish.TellEmployer == household.ExtraOnly {
		for _, d := range pr.extraCandidates() {
			if !slices.ContainsFunc(d.certs, func(c household.Certificate) bool { return !tellsNothing(c) }) {
				add(PlanPrivate, d)
			}
		}
	}
	if !pr.fullYear || pr.h.Wish.Spread == household.InProportion {
		add(PlanEven, pr.evenCandidate(f))
	}
	return all
}

// options are what the choice looks at in the candidates.
func (pr *projection) options(all []namedCandidate, f formEntries, j *januaryYear) []option {
	standing, _ := pr.standingCerts()
	options := make([]option, len(all))
	for i, n := range all {
		options[i] = n.option(f, j, standing)
	}
	return options
}

// option is what the choice looks at in a candidate, standing the certificates on
// file, or what must replace them.
func (n namedCandidate) option(f formEntries, j *januaryYear, standing []household.Certificate) option {
	pr := n.pr
	allowed := !n.underpaid()
	o := option{plan: n.name, livable: true, open: n.open() && allowed}
	balance := n.balance()
	o.over = balance.Sub(pr.aim(f))
	lands, _ := pr.landing(balance)
	o.then, o.lasts = j.with(n.candidate)
	o.near = allowed && (lands || pr.band().holds(o.over) || n.settled(o, j))
	for i := range n.certs {
		c, s := &n.certs[i], pr.payers[i]
		if s.job.Certificate.Same(c) {
			continue
		}
		due := c.Same(&standing[i]) // whenever payroll gets to it
		o.forms++
		o.entries += entries(*c)
		if c.Status != pr.status() {
			o.untrue++
		}
		o.petty = o.petty || petty(*c) && pr.h.Wish.Within == nil
		o.livable = o.livable && !s.year.Regular(c).More(pr.mostWithheld(i))
		o.late = o.late || !due && pr.late(i)
		o.brief = o.brief || !due && pr.brief(i, j, o.lasts)
	}
	o.open = o.open && (!pr.fullYear && !pr.overclaimed() || !n.claimed().More(pr.credits))
	return o
}

// settled reports whether a plan that is right for January may leave more than is
// near enough otherwise of this year: the full-year certificates, handed in now or
// on file already. What is left is settled with the return, and no penalty may
// follow. Where the person says how near is near enough, that is the measure.
func (n namedCandidate) settled(o option, j *januaryYear) bool {
	pr := n.pr
	if n.name != PlanLasting && n.name != PlanKeep || j == nil || !o.lasts || pr.h.Wish.Within != nil {
		return false
	}
	return pr.band().times(lastingTimes).holds(o.over) &&
		(!n.balance().IsNegative() || tax.SafeHarbor(pr.ret, pr.h, pr.paid(pr.outlook(money.Sum(n.withheld...).Add(pr.fixed))), pr.y).Safe)
}

// open reports whether a plan is one of those that the person's wishes leave open
// to be advised.
func (n namedCandidate) open() bool {
	switch w := n.pr.h.Wish; {
	case w.TellEmployer == household.ExtraOnly:
		return n.name != PlanExtra && !slices.ContainsFunc(n.certs, func(c household.Certificate) bool { return !tellsNothing(c) })
	case w.Spread == household.InProportion && len(n.pr.onePayerEach()) > 1:
		return n.name == PlanKeep || n.name == PlanPlain || n.name == PlanEven
	}
	return n.name != PlanPrivate && n.name != PlanEven
}

// entries is how many lines of a certificate are filled in.
func entries(c household.Certificate) int {
	n := 0
	for _, a := range []money.Amount{c.Credits, c.OtherIncome, c.Deductions, c.Extra} {
		if a.IsPositive() {
			n++
		}
	}
	return n
}

// newEntries is how many lines are filled in on the certificates to hand in.
func (d *candidate) newEntries() int {
	n := 0
	for i, c := range d.certs {
		if !d.pr.payers[i].job.Certificate.Same(&c) {
			n += entries(c)
		}
	}
	return n
}

// claimed is what all certificates of a candidate claim in Step 3, without what a
// correction for the rest of this year added to it.
func (d *candidate) claimed() money.Amount {
	sum := money.Zero
	for i, c := range d.certs {
		sum = sum.Add(c.Credits).Sub(d.added[i].credits)
	}
	return sum
}

// balance is what the year ends on with a candidate.
func (d *candidate) balance() money.Amount {
	return d.pr.outlook(money.Sum(d.withheld...).Add(d.pr.fixed)).Balance
}

// distinct leaves one candidate of each name: the one chosen, else the one that
// compare puts first of those that end near enough, else the nearest.
func distinct(all []namedCandidate, options []option, chosen int) ([]namedCandidate, []option, int) {
	kept := []int{chosen}
	for i, o := range options {
		k := slices.IndexFunc(kept, func(k int) bool { return options[k].plan == o.plan })
		switch {
		case i == chosen || k == 0:
		case k < 0:
			kept = append(kept, i)
		default:
			was := options[kept[k]]
			if o.sound() != was.sound() {
				if o.sound() {
					kept[k] = i
				}
			} else if o.sound() && o.compare(was) < 0 || !o.sound() && o.over.Abs().Less(was.over.Abs()) {
				kept[k] = i
			}
		}
	}
	var some []namedCandidate
	var theirs []option
	for _, i := range kept {
		some, theirs = append(some, all[i]), append(theirs, options[i])
	}
	return some, theirs, 0
}

// because is why a plan is advised, in a sentence: what is simpler about it than
// about the one that would end exactly, what it cannot do, or that no entry brings
// the year down to the goal.
func because(all []namedCandidate, options []option, chosen int, ground string, p Plan) words.Text {
	o := options[chosen]
	switch {
	case ground == becausePartly && !o.near:
		return words.T("certificate.why.partly")
	case ground == becauseNext || ground == becauseLate:
		next := yesNo(ground == becauseNext)
		if why := price(all, options, next); !why.IsZero() {
			return why
		}
		if o.over.IsPositive() {
			return words.T("certificate.why.comes_back", "next", next)
		}
		return words.T("certificate.why.late", "next", next)
	}
	for _, exact := range options {
		if exact.plan == PlanTuned && exact.forms > o.forms && o.forms > 0 {
			return words.T("certificate.why.fewer_forms", "forms", o.forms, "instead", exact.forms, "outcome", p.Outlook.said(all[chosen].pr.h.TaxYear))
		}
	}
	if pr := all[chosen].pr; p.Balance.Sub(money.Max(pr.goal, pr.h.Wish.Goal())).More(pr.band().over) {
		return words.T("certificate.why.anyway", "forms", o.forms)
	}
	if o.plan == PlanKeep && o.over.Abs().IsZero() {
		return words.T("certificate.why.keep_exact")
	}
	return words.T("certificate.why." + o.plan)
}

// price is what the simplest plan that would end near enough takes from the
// paychecks that are left, a job at a time: of one that was passed over since they
// cannot spare it, since it serves too few of them, or since payroll need not go by
// it in time. It is zero where no plan would, or it takes nothing more. next is
// "yes" where January's form is advised.
func price(all []namedCandidate, options []option, next string) words.Text {
	best := -1
	for i, o := range options {
		if !o.open || !o.near || o.forms == 0 {
			continue
		}
		if best < 0 || options[best].late && !o.late || options[best].late == o.late && o.compare(options[best]) < 0 {
			best = i
		}
	}
	if best < 0 {
		return words.Text{}
	}
	var takes []words.Text
	d := all[best]
	for i, s := range d.pr.payers {
		more := s.year.Regular(&d.certs[i]).Sub(s.year.Regular(s.year.InForce(s.job.Certificate, s.from)))
		if more.IsPositive() {
			takes = append(takes, words.T("certificate.why.takes", "job", s.name, "more", more, "kind", s.job.Kind.String(), "paydays", s.paydays))
		}
	}
	if len(takes) == 0 {
		return words.Text{}
	}
	return words.T("certificate.why.price", "next", next, "takes", takes, "once", yesNo(!options[best].lasts), "late", yesNo(options[best].late))
}

// yesNo is a choice of words.
func yesNo(b bool) string {
	if b {
		return "yes"
	}
	return "no"
}
