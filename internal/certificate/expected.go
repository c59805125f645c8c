package certificate

import (
	"slices"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/tables"
	"example.com/plumbline/internal/words"
)

// Expected are the children of the answers who are not born yet, and what their
// birth changes. Nothing of a result counts them: neither the year's tax nor an
// entry.
//
// Somebody signs on the form how many children there are, so that the advice is what
// is true today. IRC 3402(f)(1)(C) allows a credit that "may reasonably be expected"
// on the facts of the day; whether that takes in a child before the birth no rule
// that we know of says, and who waits loses nothing: after the birth a new form
// takes less, and the rest comes back with the return. Entries that count a birth
// that does not come leave all of it to pay, the care credit too (IRC 21(c)). A
// child whom the answers say to count (household.CountsAsChild) is counted, with a
// doubt beside the entry.
type Expected struct {
	Children int
	Due      household.Date // of the first
	Less     money.Amount   // by how much the year's tax, less the credits paid out, falls with their birth
	Step3a   money.Amount   // how much more the form's own Step 3(a) then has
	Step3    money.Amount   // and all of Step 3, with the credits that hang on them

	all []household.Dependent // everybody in the answers, born or not
}

// bornSoFar is the household without the children who are not born on the day of
// its answers, and whether there are any.
func bornSoFar(h household.Household) (household.Household, bool) {
	all := h.Dependents
	h.Dependents = slices.DeleteFunc(slices.Clone(all), func(d household.Dependent) bool { return unborn(d, h) })
	return h, len(h.Dependents) < len(all)
}

// unborn reports whether a dependent is not born on the day of the answers, which
// do not say to count it all the same.
func unborn(d household.Dependent, h household.Household) bool {
	return !h.AsOf.IsZero() && d.BirthDate.After(h.AsOf) && d.CountsAs == household.ByTheTests
}

// expecting is what changes with the birth of those dependents of the answers who
// are left out of the projection.
func (pr *projection) expecting(all []household.Dependent) Expected {
	e := Expected{all: all}
	with := pr.h
	with.Dependents = slices.Clone(all)
	for i, d := range with.Dependents {
		if !unborn(d, with) {
			continue
		}
		e.Children++
		if e.Due.IsZero() || d.BirthDate.Before(e.Due) {
			e.Due = d.BirthDate
		}
		with.Dependents[i].CountsAs = household.CountsAsChild
	}
	then := newProjection(with, pr.y, nil)
	f, g := pr.fillForm(nil), then.fillForm(nil)
	owed := func(p *projection) money.Amount { return p.ret.TotalTax.Sub(p.ret.RefundableCredits) }
	e.Less = owed(pr).Sub(owed(then)).OrZero()
	e.Step3a, e.Step3 = g.L3a.Sub(f.L3a).OrZero(), g.L3.Sub(f.L3).OrZero()
	return e
}

// inJanuary is the household whose next year is January's: with the children who
// are due before the day by which the law wants next year's certificates. Those
// are signed when they are handed in, not today.
//
// IRC 3402(f)(2)(C).
func (e Expected) inJanuary(h household.Household, y *tables.Year) household.Household {
	if e.Children == 0 {
		return h
	}
	by := household.On(h.TaxYear, y.Payroll.Effective.NextYearBy.Month, y.Payroll.Effective.NextYearBy.Day)
	h.Dependents = slices.DeleteFunc(slices.Clone(e.all), func(d household.Dependent) bool {
		return unborn(d, h) && !d.BirthDate.Before(by)
	})
	return h
}

// said is that they are not counted, and what their birth changes.
func (e Expected) said(year int) words.Text {
	return words.T("certificate.verdict.unborn", "children", e.Children, "due", e.Due, "year", year, "less", e.Less)
}
