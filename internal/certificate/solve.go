package certificate

import (
	"fmt"
	"strings"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/tables"
	"example.com/plumbline/internal/tax"
	"example.com/plumbline/internal/worksheet"
)

// solve works out every plan, January and what stands beside them.
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
	}
	r.AsFiledLands, _ = pr.landing(r.AsFiled.Balance)
	r.Harbor = tax.SafeHarbor(pr.ret, pr.h, pr.paid(r.AsFiled), pr.y)
	ways := pr.variations()
	r.AsFiledShifts = shiftsOf(r.AsFiled.Balance, ways, func(int) (*household.Certificate, household.Date) { return nil, household.Date{} })

	var plans []Plan
	for _, n := range pr.candidates(f) {
		p := n.plan(n.name, f)
		p.Shifts = n.shifts(p.Balance, ways)
		p.Reason = whatItIs[n.name]
		plans = append(plans, p)
	}
	chosen, why := pr.choose(plans)
	r.Recommended, r.Alternatives = plans[chosen], append(append([]Plan{}, plans[:chosen]...), plans[chosen+1:]...)
	r.Recommended.Reason, r.Advised = why, r.Recommended.Name
	pr.traceOutlook(r.Recommended.Outlook, "on the recommended certificates")

	r.Estimated = pr.estimated(r.Recommended)
	r.Underpayment = pr.underpayment(r.Recommended, r.Estimated)
	r.January = pr.january(r.Recommended, next)
	r.OtherWays = pr.otherWays(f)
	r.Warnings = pr.warnings(r)
	return r
}

// namedDraft is a plan in the making.
type namedCandidate struct {
	name string
	*candidate
}

// candidates are the plans that this household can have, tuned first.
func (pr *projection) candidates(f formEntries) []namedCandidate {
	var all []namedCandidate
	for _, name := range []string{PlanTuned, PlanForm, PlanBox, PlanPrivate, PlanEven} {
		if d := pr.candidate(name, f); d != nil {
			all = append(all, namedCandidate{name, d})
		}
	}
	return all
}

// candidate is the plan of a name; nil where this household cannot have it.
func (pr *projection) candidate(name string, f formEntries) *candidate {
	switch name {
	case PlanForm:
		return pr.formCandidate(f)
	case PlanBox:
		return pr.boxCandidate(f)
	case PlanPrivate:
		return pr.privateCandidate()
	case PlanEven:
		return pr.evenCandidate(f)
	}
	return pr.tunedCandidate(f)
}

// whatItIs is each plan in a sentence.
var whatItIs = map[string]string{
	PlanForm:    "What the form's own worksheets give, on paper.",
	PlanBox:     "The Step 2(c) box on both certificates, the other entries on the better-paid job.",
	PlanTuned:   "What the form asks for on the best-paid job, with one correction so that the year ends where you want it.",
	PlanPrivate: "Filing status and one extra amount: no employer learns of a spouse's job, a second job, dependents or other income.",
	PlanEven:    "As tuned, with the correction shared by the two earners in proportion to their pay.",
}

// choose is the plan to recommend, by what the person said matters, and why in
// a sentence.
func (pr *projection) choose(plans []Plan) (index int, why string) {
	want, why := PlanTuned, ""
	switch {
	case pr.h.Wish.TellEmployer == household.ExtraOnly:
		want, why = PlanPrivate, "You want employers to learn nothing beyond your filing status and one extra amount"
	case pr.h.Wish.Spread == household.InProportion:
		want, why = PlanEven, "You want the correction shared in proportion to pay"
	}
	for i, p := range plans {
		if p.Name == want {
			return i, pr.because(p, why, plans)
		}
	}
	// Two earners are needed to share anything.
	return 0, pr.because(plans[0], "With one earner there is nothing to share", plans)
}

// because is why a plan is recommended, with what it cannot do and another
// plan could.
func (pr *projection) because(p Plan, why string, plans []Plan) string {
	aim := "the year ends even"
	if wish := pr.h.Wish.Refund; wish.IsPositive() {
		aim = fmt.Sprintf("the year ends on the refund of %s that you want", wish.GroupedDollars())
	}
	switch {
	case len(pr.jobs) == 0:
		why = clauses(why, "there is no job on this return whose paychecks could be withheld from")
	case len(p.Certificates) == 0:
		why = clauses(why, "no paycheck is left this year on which a new certificate would count")
	case p.Lands && p.NothingToHandIn():
		why = clauses(why, aim+" on the certificates on file, so there is nothing to hand in")
	case p.Lands && why == "":
		why = "With what the form asks for" + corrected(p) + ", " + aim
	case p.Lands:
		why = clauses(why, "with it "+aim)
	case p.Left.IsNegative():
		why = clauses(why, "it comes as near as the paychecks to come allow, and "+p.Left.Abs().Grouped()+" is still missing")
	case p.Outlook.paidOut().IsPositive():
		why = clauses(why, "it comes as near as it can, and "+p.Outlook.comesBack())
	default:
		why = clauses(why, "it comes as near as it can, and "+p.Left.Grouped()+" too much is withheld and comes back as a refund")
	}
	for _, q := range plans {
		if q.Lands && !p.Lands {
			why += fmt.Sprintf("; the plan %q would end the year where you want it", q.Name)
			break
		}
	}
	for _, q := range plans {
		if q.Harbor.Safe && !p.Harbor.Safe {
			why += fmt.Sprintf("; the plan %q would keep you safe from an underpayment penalty", q.Name)
			break
		}
	}
	return why + "."
}

// corrected says that a plan has a correction, when it has one.
func corrected(p Plan) string {
	n := 0
	for _, c := range p.Certificates {
		if c.Corrected {
			n++
		}
	}
	switch n {
	case 0:
		return ""
	case 1:
		return " and one correction"
	}
	return fmt.Sprintf(" and a correction on each of %d jobs", n)
}

// clauses joins two clauses into a sentence, without its period.
func clauses(a, b string) string {
	if a == "" {
		return strings.ToUpper(b[:1]) + b[1:]
	}
	return a + ": " + b
}
