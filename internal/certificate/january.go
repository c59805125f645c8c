package certificate

import (
	"slices"
	"time"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/tables"
	"example.com/plumbline/internal/tax"
	"example.com/plumbline/internal/words"
	"example.com/plumbline/internal/worksheet"
)

// January is the second certificate: what to hand in so that it counts from
// the first payday of next year. A correction sized for the rest of this year
// would be wrong then.
type January struct {
	TaxYear    int
	TablesYear int                // the year whose tables were used; another than TaxYear where next year's are not published
	Projected  *tables.Projection // how the tables of TablesYear were moved on; nil where they were not
	Plan
	// HandIn is the last day on which the law makes payroll go by a certificate
	// from the first payday on, or by which a claim to be exempt is made again;
	// zero where there is nothing to hand in.
	HandIn household.Date
	Return tax.Return
	Trace  *worksheet.Sheet
	// EstimatedTax is what is taken to be paid as estimated tax again.
	EstimatedTax money.Amount
	// Estimated is the same by due date; nil where the dates of the year are not known.
	Estimated []tax.Payment
	// Voluntary is what could be withheld from social security benefits in the place
	// of new certificates; the zero value where that is said of this year already.
	Voluntary VoluntaryWithholding
	// OnFile is how next year would go on the forms on file now, where these may stay
	// and much more would come back; zero where not.
	OnFile words.Text
	Once   []words.Text // what this year has and next year is not counted to have again
}

// januaryYear is next year as it lies ahead, on which certificates can be tried.
type januaryYear struct {
	pr         *projection
	f          formEntries
	trace      *worksheet.Sheet
	tablesYear int
	projected  *tables.Projection
	once       []words.Text
}

// openJanuary opens the full next year; nil where no job runs into it. Without
// next year's tables this year's serve, under next year's dates and ages.
func (pr *projection) openJanuary(next *tables.Year) *januaryYear {
	if pr.fullYear {
		return nil
	}
	h, once := nextYear(pr.h, pr.ret)
	j := &januaryYear{trace: new(worksheet.Sheet), once: once}
	if next != nil && next.Year == h.TaxYear {
		j.tablesYear = next.Year
		if p := next.Projected; p != nil {
			j.tablesYear, j.projected = p.From, p
		}
	} else {
		standIn := *pr.y
		standIn.Year = h.TaxYear
		next, j.tablesYear = &standIn, pr.y.Year
	}
	j.pr = &projection{h: h, y: next, trace: j.trace, fullYear: true}
	j.pr.open()
	if len(j.pr.payers) == 0 {
		return nil
	}
	j.f = j.pr.fillForm(j.trace)
	return j
}

// put is a plan's certificates, for each of January's payers: of those that the
// plan does not have, what is on file. A claim to be exempt was made this year at
// the latest, so that January's payroll sees it end.
func (j *januaryYear) put(of func(job int) *household.Certificate) []*household.Certificate {
	certs := make([]*household.Certificate, len(j.pr.payers))
	for i, s := range j.pr.payers {
		certs[i] = s.job.Certificate
		if c := of(s.index); c != nil {
			certs[i] = c
		}
		certs[i] = madeBefore(certs[i], j.pr.h.TaxYear)
	}
	return certs
}

// madeBefore is a certificate whose claim to be exempt is of the year before, at
// the latest.
func madeBefore(c *household.Certificate, year int) *household.Certificate {
	if c == nil || !c.Exempt || !c.CountsFrom.IsZero() && c.CountsFrom.Year < year {
		return c
	}
	old := *c
	old.CountsFrom = household.EndOfYear(year - 1)
	return &old
}

// of is a candidate's certificate for a job; nil where it has none.
func (d *candidate) of(job int) *household.Certificate {
	for i, s := range d.pr.payers {
		if s.index == job {
			return &d.certs[i]
		}
	}
	return nil
}

// try is January's year with certificates that have all been handed in; nil where
// one is missing.
func (j *januaryYear) try(of func(job int) *household.Certificate) *candidate {
	certs := make([]household.Certificate, len(j.pr.payers))
	for i, c := range j.put(of) {
		if c == nil {
			return nil
		}
		certs[i] = *c
	}
	return j.pr.newCandidate(certs)
}

// with is what next year ends on if a candidate's certificates stay, and whether
// they are near enough for it too, and may stay in it.
func (j *januaryYear) with(d *candidate) (balance money.Amount, lasts bool) {
	if j == nil {
		return money.Zero, true
	}
	then := j.try(d.of)
	if then == nil {
		return money.Zero, false
	}
	return then.balance(), j.fits(then)
}

// fits reports whether certificates may stay next year and end near enough. Step
// 3 may not be above the year's credits.
func (j *januaryYear) fits(d *candidate) bool {
	for i := range d.certs {
		if !j.pr.mayStay(j.pr.payers[i].openJob, &d.certs[i]) {
			return false
		}
	}
	if d.claimed().More(j.pr.credits) {
		return false
	}
	balance := d.balance()
	lands, _ := j.pr.landing(balance)
	return lands || j.pr.band().holds(balance.Sub(j.pr.aim(j.f)))
}

// onFile is the year with other certificates on file.
func (j *januaryYear) onFile(of func(job int) *household.Certificate) *januaryYear {
	k, pr := *j, *j.pr
	pr.payers = slices.Clone(j.pr.payers)
	for i, c := range j.put(of) {
		pr.payers[i].job.Certificate, pr.payers[i].most = c, nil
	}
	k.pr = &pr
	return &k
}

// best is the plan for the full year: the certificates on file where they are
// near enough, else the simplest that is.
func (j *januaryYear) best() (namedCandidate, option, string) {
	all := j.pr.candidates(j.f, nil)
	options := j.pr.options(all, j.f, nil)
	for i, n := range all {
		if n.name == PlanKeep && !j.fits(n.candidate) {
			options[i].near = false
		}
	}
	i, ground := choose(options)
	return all[i], options[i], ground
}

// lastingCandidate is January's certificates handed in now; nil where a job has
// none then, or they are what is on file.
func (j *januaryYear) lastingCandidate(pr *projection) *candidate {
	if j == nil || len(pr.payers) == 0 {
		return nil
	}
	full, _, _ := j.best()
	if full.name == PlanKeep {
		return nil
	}
	certs := make([]household.Certificate, len(pr.payers))
	for i, s := range pr.payers {
		c := full.of(s.index)
		if c == nil {
			return nil
		}
		certs[i] = *c
	}
	d := pr.newCandidate(certs)
	d.next = j
	return d
}

// after is January once a plan's certificates are on file.
func (j *januaryYear) after(p Plan) *January {
	if j == nil {
		return nil
	}
	k := j.onFile(func(job int) *household.Certificate {
		for i, c := range p.Certificates {
			if c.Job == job {
				return &p.Certificates[i].Certificate
			}
		}
		return nil
	})
	n, o, _ := k.best()
	jan := January{TaxYear: k.pr.h.TaxYear, TablesYear: k.tablesYear, Projected: k.projected, Plan: n.plan(n.name, k.f), Return: k.pr.ret, Trace: k.trace, Once: k.once, EstimatedTax: k.pr.h.Payments.EstimatedTax}
	jan.Estimated = k.pr.planned()
	jan.NearEnough = o.near
	again := k.pr.claimsAgain()
	if again {
		jan.Plan = k.pr.claiming(jan.Plan)
	}
	jan.Reason = words.T("certificate.plan." + jan.Name)
	jan.Lasts, jan.JanuaryBalance = true, jan.Balance
	if again {
		jan.HandIn = k.pr.y.ClaimsRenewedBy(jan.TaxYear)
		return &jan
	}
	jan.OnFile = j.onFileNow(jan.Plan)
	for _, c := range jan.Certificates {
		by := c.FirstPayday.AddDays(-k.pr.y.Payroll.Effective.ReplacementDays).BusinessDayBefore()
		if !c.Keep && (jan.HandIn.IsZero() || by.Before(jan.HandIn)) {
			jan.HandIn = by
		}
	}
	return &jan
}

// JanuaryAsFiled is the balance of next year if the certificates on file now
// stay; false where no job runs into it. A job without one is withheld from as
// single with no entries (Publication 15, section 9).
func (r Result) JanuaryAsFiled() (money.Amount, bool) {
	if r.January == nil {
		return money.Zero, false
	}
	j := newProjection(r.Household, r.Tables, nil).openJanuary(r.next)
	return j.try(func(job int) *household.Certificate {
		if r.Household.Jobs[job].Certificate == nil {
			return new(household.Certificate)
		}
		return nil
	}).balance(), true
}

// onFileNow is what the forms on file now would bring back for next year, beside a plan
// for it under which much less does, and what they leave of each paycheck: a refund
// that was counted on is now in the paychecks. It is zero where no more would come
// back, and where a form may not stay or there is none.
func (j *januaryYear) onFileNow(plan Plan) words.Text {
	d := j.try(func(int) *household.Certificate { return nil })
	if d == nil || !d.balance().Sub(plan.Balance).More(overMost) {
		return words.Text{}
	}
	var changes []words.Text
	for _, c := range plan.Certificates {
		i := slices.IndexFunc(j.pr.payers, func(s payer) bool { return s.index == c.Job })
		s := j.pr.payers[i]
		if !j.pr.mayStay(s.openJob, s.job.Certificate) {
			return words.Text{}
		}
		more := c.Withholding.Sub(s.year.Regular(s.year.InForce(s.job.Certificate, s.from)))
		if more = more.ToDollar(); !more.IsZero() {
			changes = append(changes, words.T("certificate.on_file.paycheck", "amount", more.Abs(), "less", yesNo(more.IsNegative()), "kind", c.Kind.String(), "job", c.Name, "jobs", len(plan.Certificates)))
		}
	}
	if len(changes) == 0 {
		return words.Text{}
	}
	return words.T("certificate.on_file.january", "jobs", len(plan.Certificates), "outcome", j.pr.outlook(money.Sum(d.withheld...).Add(j.pr.fixed)).plainly(), "changes", changes)
}

// nextYear is the household moved to January: everyone a year older, the
// calendar of paydays carried on, nothing paid yet, and this year's return behind
// it. A job that ends this year keeps its place and pays nothing. A child born
// this year lives with the family all of next year. What comes by the month comes
// in twelve; capital losses not deducted are carried; what may happen only once
// is not counted again; and what the
// answers say of next year overrules all of that. once is what was left out.
func nextYear(h household.Household, ret tax.Return) (n household.Household, once []words.Text) {
	n = h
	n.TaxYear++
	n.AsOf = household.EndOfYear(h.TaxYear)
	n.Wish.FirstPayday = n.AsOf.AddDays(1)
	n.Wish.Exempt = false
	owed := ret.TotalTax.Sub(ret.RefundableCredits).OrZero() // Form 2210 line 8
	n.LastYear = &household.LastYear{TotalTax: &owed, AdjustedGrossIncome: &ret.AdjustedGrossIncome}
	n.NextYear = household.NextYear{}
	n.Jobs = make([]household.Job, len(h.Jobs))
	for i, j := range h.Jobs {
		if len(j.OneTimePay) > 0 {
			once = append(once, words.T("certificate.once.bonus"))
		}
		if len(paydaysNext(j, h.TaxYear)) == 0 {
			n.Jobs[i] = household.Job{Name: j.Name, Earner: j.Earner, Kind: j.Kind, Frequency: j.Frequency, LastPayday: n.AsOf}
			continue
		}
		j = j.InStep(h.TaxYear)
		j.FirstPayday = j.FirstPaydayIn(n.TaxYear)
		j.YearToDate, j.LastPaycheck, j.OneTimePay = nil, nil, nil
		n.Jobs[i] = j
	}
	n.Dependents = slices.Clone(h.Dependents)
	for i, d := range n.Dependents {
		if d.BirthDate.Year == h.TaxYear {
			n.Dependents[i].MonthsWithYou = nil
		}
		switch {
		case d.CareMonthly != nil:
			n.Dependents[i].CareExpenses, n.Dependents[i].CareMonthly = money.Zero, everyMonth(d.CareMonthly)
		case d.CareExpenses.IsPositive():
			n.Dependents[i].CareExpenses = money.Zero
			once = append(once, words.T("certificate.once.care"))
		}
	}
	if n.Self.CareMonthly != nil {
		n.Self.CareMonthly = everyMonth(n.Self.CareMonthly)
	}
	if h.Spouse != nil && h.Spouse.CareMonthly != nil {
		spouse := *h.Spouse
		spouse.CareMonthly, n.Spouse = everyMonth(spouse.CareMonthly), &spouse
	}
	n.Income.CapitalLossCarryover = ret.CarriedLosses
	once = append(once, leaveOnce(&n)...)
	h.NextYear.Apply(&n)
	once = slices.DeleteFunc(once, func(what words.Text) bool { return saidAnyway(h.NextYear, what) })
	return n, slices.CompactFunc(once, words.Text.Equal)
}

// everyMonth is a monthly amount over all months of a year. One that has ended is
// not counted again.
func everyMonth(m *household.EachMonth) *household.EachMonth {
	if _, last := m.Months(); last < int(time.December) {
		return nil
	}
	return &household.EachMonth{Amount: m.Amount}
}

// paydaysNext are a job's paydays of the year after, in step with this year's.
func paydaysNext(j household.Job, year int) []household.Date {
	return j.InStep(year).Paydays(year + 1)
}
