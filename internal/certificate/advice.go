package certificate

import (
	"slices"

	"example.com/plumbline/internal/money"
)

// option is what the choice among plans looks at: nothing of the household, so
// that the choice can be read, and checked, by itself.
type option struct {
	plan    string
	forms   int          // to hand in now
	untrue  int          // of those, with another status than the return's
	entries int          // lines filled in on those
	over    money.Amount // what the year ends on beyond the aim; negative is short of it
	near    bool         // near enough
	lasts   bool         // near enough in January's year too, with no new form
	then    money.Amount // what January's year ends on with no new form
	livable bool         // no paycheck shrinks by more than it may
	late    bool         // payroll need not go by it before the year ends
	petty   bool         // has an extra amount of a few dollars a paycheck
	brief   bool         // a form would serve too few paydays before January's replaces it
	open    bool         // the law and the person's wishes leave it open
}

// sound reports whether an option can be advised on its own: with nothing left
// to pay beside it.
func (o option) sound() bool {
	return o.open && o.near && o.livable && o.worthForms()
}

// worthForms reports whether the forms of an option are worth handing in.
func (o option) worthForms() bool { return !o.petty && !o.brief && !(o.late && o.forms > 0) }

// simplest is the order of the plans where everything else is equal.
var simplest = []string{PlanKeep, PlanPlain, PlanBox, PlanExtra, PlanSimple, PlanForm, PlanTuned, PlanLasting, PlanPrivate, PlanEven}

// compare is which of two sound options an adviser would rather give: negative
// for the first. Fewest forms to hand in; the return's status on them; then the one
// that is still right in January; fewest entries; nearest to the aim. Without any entry the plain status
// goes before the box, and whatever ties is decided by the order of simplest.
func (o option) compare(p option) int {
	later := func(x option) int {
		if x.lasts {
			return 0
		}
		return 1
	}
	if by := o.forms - p.forms; by != 0 {
		return by
	}
	if by := o.untrue - p.untrue; by != 0 {
		return by
	}
	if by := later(o) - later(p); by != 0 {
		return by
	}
	if by := o.entries - p.entries; by != 0 {
		return by
	}
	simpler := slices.Index(simplest, o.plan) - slices.Index(simplest, p.plan)
	if by := o.over.Abs().Cmp(p.over.Abs()); by != 0 && o.entries > 0 || simpler == 0 {
		return by
	}
	return simpler
}

// The grounds of a choice.
const (
	becauseNear   = "near"   // it ends near enough
	becausePartly = "partly" // it does as much as paychecks can carry; the rest is paid directly
	becauseNext   = "next"   // it is right for next year; what is left of this one is settled with the return
	becauseLate   = "late"   // no new certificate can help in time
)

// choose is the plan to advise, by its index, and on what ground.
//
//   - The certificates on file stay where they may and the year ends near
//     enough to what the person wants.
//   - Else, of the plans that end near enough, that no paycheck suffers under,
//     and that payroll must go by in time, the one that compare puts first.
//   - Else, where too little would be withheld, the plan that makes up most of
//     it within what paychecks can carry, if it makes up enough of it to be worth
//     a form; the rest is paid directly.
//   - Else January's certificates, handed in now, where January needs new ones and
//     they do this year no harm: one form, and no second date to remember.
//   - Else the certificates on file, or those that have to replace them.
//
// With the last two what is missing is paid directly. What is withheld too much
// comes back.
func choose(options []option) (index int, ground string) {
	best := -1
	for i, o := range options {
		if o.sound() && (best < 0 || o.compare(options[best]) < 0) {
			best = i
		}
	}
	if best >= 0 {
		return best, becauseNear
	}
	rest := slices.IndexFunc(options, func(o option) bool { return o.open }) // the first is the one that asks for least
	partly := rest
	for i, o := range options {
		if !o.open || !o.livable || !o.worthForms() {
			continue
		}
		if o.over.Abs().Less(options[partly].over.Abs()) {
			partly = i
		}
	}
	if partly != rest {
		missing, left := options[rest].over.Abs(), options[partly].over.Abs()
		if !missing.Sub(left).Less(missing.At(worthwhileShare)) {
			return partly, becausePartly
		}
	}
	next := slices.IndexFunc(options, func(o option) bool {
		return o.plan == PlanLasting && o.open && o.lasts && o.livable && o.worthForms() && !o.over.Abs().More(options[rest].over.Abs())
	})
	if next >= 0 && !options[rest].lasts {
		return next, becauseNext
	}
	return rest, becauseLate
}
