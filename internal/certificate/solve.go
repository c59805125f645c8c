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
func (a *ahead) solve(next *tables.Year, trace *worksheet.Sheet) Result {
	f := a.fillForm(trace)
	r := Result{
		TaxYear:   a.h.TaxYear,
		AsFiled:   a.outlook(a.asFiledToCome()),
		Return:    a.ret,
		Trace:     trace,
		Household: a.h,
		Tables:    a.y,
	}
	r.AsFiledLands, _ = a.landing(r.AsFiled.Balance)
	r.Harbor = tax.SafeHarbor(a.ret, a.h, a.paid(r.AsFiled), a.y)
	ways := a.otherwises()
	r.AsFiledShifts = shiftsOf(r.AsFiled.Balance, ways, func(int) (*household.Certificate, household.Date) { return nil, household.Date{} })

	var plans []Plan
	for _, n := range a.drafts(f) {
		p := n.plan(n.name, f)
		p.Shifts = n.shifts(p.Balance, ways)
		p.Reason = whatItIs[n.name]
		plans = append(plans, p)
	}
	chosen, why := a.choose(plans)
	r.Recommended, r.Alternatives = plans[chosen], append(append([]Plan{}, plans[:chosen]...), plans[chosen+1:]...)
	r.Recommended.Reason, r.Advised = why, r.Recommended.Name
	a.traceOutlook(r.Recommended.Outlook, "on the recommended certificates")

	r.Estimated = a.estimated(r.Recommended)
	r.Underpayment = a.underpayment(r.Recommended, r.Estimated)
	r.January = a.january(r.Recommended, next)
	r.OtherWays = a.otherWays(f)
	r.Warnings = a.warnings(r)
	return r
}

// namedDraft is a plan in the making.
type namedDraft struct {
	name string
	*draft
}

// drafts are the plans that this household can have, tuned first.
func (a *ahead) drafts(f asked) []namedDraft {
	var all []namedDraft
	for _, name := range []string{Tuned, Form, Box, Private, Even} {
		if d := a.draft(name, f); d != nil {
			all = append(all, namedDraft{name, d})
		}
	}
	return all
}

// draft is the plan of a name; nil where this household cannot have it.
func (a *ahead) draft(name string, f asked) *draft {
	switch name {
	case Form:
		return a.formDraft(f)
	case Box:
		return a.boxDraft(f)
	case Private:
		return a.privateDraft()
	case Even:
		return a.evenDraft(f)
	}
	return a.tunedDraft(f)
}

// whatItIs is each plan in a sentence.
var whatItIs = map[string]string{
	Form:    "What the form's own worksheets give, on paper.",
	Box:     "The Step 2(c) box on both certificates, the other entries on the better-paid job.",
	Tuned:   "What the form asks for on the best-paid job, with one correction so that the year ends where you want it.",
	Private: "Filing status and one extra amount: no employer learns of a spouse's job, a second job, dependents or other income.",
	Even:    "As tuned, with the correction shared by the two earners in proportion to their pay.",
}

// choose is the plan to recommend, by what the person said matters, and why in
// a sentence.
func (a *ahead) choose(plans []Plan) (index int, why string) {
	want, why := Tuned, ""
	switch {
	case a.h.Wish.TellEmployer == household.ExtraOnly:
		want, why = Private, "You want employers to learn nothing beyond your filing status and one extra amount"
	case a.h.Wish.Spread == household.InProportion:
		want, why = Even, "You want the correction shared in proportion to pay"
	}
	for i, p := range plans {
		if p.Name == want {
			return i, a.because(p, why, plans)
		}
	}
	// Two earners are needed to share anything.
	return 0, a.because(plans[0], "With one earner there is nothing to share", plans)
}

// because is why a plan is recommended, with what it cannot do and another
// plan could.
func (a *ahead) because(p Plan, why string, plans []Plan) string {
	aim := "the year ends even"
	if wish := a.h.Wish.Refund; wish.IsPositive() {
		aim = fmt.Sprintf("the year ends on the refund of %s that you want", wish.GroupedDollars())
	}
	switch {
	case len(a.jobs) == 0:
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
