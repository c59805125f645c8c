package certificate

import (
	"slices"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/tables"
	"example.com/plumbline/internal/tax"
	"example.com/plumbline/internal/worksheet"
)

// January is the second certificate: what to hand in so that it counts from
// the first payday of next year. A correction sized for the rest of this year
// would be wrong then.
type January struct {
	TaxYear    int
	TablesYear int  // the year whose tables were used; another than TaxYear where next year's are not published
	Projected  bool // the tables are those of TablesYear, moved on by an assumed rise in prices
	Plan
	Return tax.Return
	Trace  *worksheet.Sheet
}

// january solves the full next year by the plan that is recommended for this
// one; nil where no job runs into next year. Without next year's tables this
// year's stand in, under next year's dates and ages.
func (pr *projection) january(p Plan, next *tables.Year) *January {
	h := nextYear(pr.h, pr.ret, p)
	j := January{TaxYear: h.TaxYear, Trace: new(worksheet.Sheet)}
	if next != nil && next.Year == h.TaxYear {
		j.TablesYear = next.Year
		if p := next.Projected; p != nil {
			j.TablesYear, j.Projected = p.From, true
		}
	} else {
		standIn := *pr.y
		standIn.Year = h.TaxYear
		next, j.TablesYear = &standIn, pr.y.Year
	}
	b := newProjection(h, next, j.Trace)
	if len(b.payers) == 0 {
		return nil
	}
	f := b.fillForm(j.Trace)
	name, d := p.Name, b.candidate(p.Name, f)
	if d == nil { // next year has one earner left, or not two jobs
		name, d = PlanTuned, b.tunedCandidate(f)
	}
	if kept := b.keptLike(d); kept != nil {
		d = kept
	}
	j.Plan = d.plan(name, f)
	j.Plan.Reason = whatItIs[name]
	j.Return = b.ret
	return &j
}

// keptLike is the certificates on file, where all of them may stay and withhold
// from every paycheck what a candidate does: handing in others would change nothing.
// None may claim more in Step 3 than the candidate has a basis for. Otherwise nil.
func (pr *projection) keptLike(d *candidate) *candidate {
	certs := make([]household.Certificate, len(pr.payers))
	for i, s := range pr.payers {
		c := s.job.Certificate
		if !pr.mayStay(c) || c.Credits.More(d.certs[i].Credits) || !s.ordinary(c, pr.y).Equal(s.ordinary(&d.certs[i], pr.y)) {
			return nil
		}
		certs[i] = *c
	}
	kept := pr.newCandidate(certs)
	for i := range kept.withheld {
		if !kept.withheld[i].Equal(d.withheld[i]) {
			return nil
		}
	}
	return kept
}

// nextYear is the household moved to January: everyone a year older, the
// calendar of paydays carried on, nothing paid yet, no one-time pay, the plan's
// certificates on file, and this year's return behind it. A job that ends this
// year keeps its place and pays nothing. A child born this year lives with the
// family all of next year. Income outside the jobs, deductions and payments are
// taken to come again.
func nextYear(h household.Household, ret tax.Return, p Plan) household.Household {
	n := h
	n.TaxYear++
	n.AsOf = household.EndOfYear(h.TaxYear)
	n.Wish.FirstPayday = n.AsOf.AddDays(1)
	tax := ret.TotalTax.Sub(ret.RefundableCredits).OrZero() // Form 2210 line 8
	n.LastYear = &household.LastYear{TotalTax: &tax, AdjustedGrossIncome: &ret.AdjustedGrossIncome}
	n.Jobs = make([]household.Job, len(h.Jobs))
	for i, j := range h.Jobs {
		if len(paydaysNext(j, h.TaxYear)) == 0 {
			n.Jobs[i] = household.Job{Name: j.Name, Earner: j.Earner, Kind: j.Kind, Frequency: j.Frequency, LastPayday: n.AsOf}
			continue
		}
		j = j.InStep(h.TaxYear)
		j.FirstPayday = j.FirstPaydayIn(n.TaxYear)
		j.YearToDate, j.LastPaycheck, j.OneTimePay = nil, nil, nil
		n.Jobs[i] = j
	}
	for i, c := range p.Certificates {
		n.Jobs[c.Job].Certificate = &p.Certificates[i].Certificate
	}
	n.Dependents = slices.Clone(h.Dependents)
	for i, d := range n.Dependents {
		if d.BirthDate.Year == h.TaxYear {
			n.Dependents[i].MonthsWithYou = nil
		}
	}
	return n
}

// paydaysNext are a job's paydays of the year after, in step with this year's.
func paydaysNext(j household.Job, year int) []household.Date {
	return j.InStep(year).Paydays(year + 1)
}
