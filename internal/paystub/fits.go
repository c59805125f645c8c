package paystub

import (
	"slices"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/tables"
	"example.com/plumbline/internal/words"
)

// Fit is a certificate that withholds just what a stub shows. At the same pay it
// will go on withholding the same, whether it is the one that payroll has or not.
type Fit struct {
	Certificate household.Certificate
	Kind        FitKind
	What        words.Text // the certificate in a few words
	Rounded     bool       // it makes the stub's figure up to payroll's rounding, not to the cent
}

// FitKind is how usual a certificate is; the smaller, the more usual.
type FitKind int8

// The kinds of certificate that are tried, in this order.
const (
	NoEntries    FitKind = iota // a filing status alone, with or without the box for two jobs
	ExemptClaim                 // where nothing is withheld
	CreditsAlone                // Step 3 for so many children and other dependents
	Allowances                  // an older form
	RoundExtra                  // Step 4(c) in fives
	Worked                      // an entry worked out so that it fits: it stands for those on file
)

// Fits are the certificates that withhold just what the stub of a job shows, the
// most usual first, and of equally usual ones those of the household's own
// status: for somebody who does not know what payroll has on file. None where
// the stub's figures do not fit together, pay varied, or nothing that is tried fits.
//
// The certificate in the answers is not looked at.
func Fits(h household.Household, job int, y *tables.Year) []Fit {
	r, ok := newReader(h, job, y)
	if !ok || r.n == 0 {
		return nil
	}
	if r.paycheck == nil {
		if _, fits := r.questionYear(); !fits || r.varies {
			return nil
		}
	}
	f := fitter{r: r, own: h.Status.OnCertificate()}
	f.as, _ = r.asBelieved()
	f.as.earlier = nil
	f.usual()
	if len(f.found) == 0 {
		f.rounded = true
		f.usual()
	}
	if len(f.found) == 0 {
		f.rounded = false
		f.worked()
	}
	return f.found
}

// usual are all certificates but one that is worked out.
func (f *fitter) usual() {
	f.noEntries()
	f.exempt()
	f.credits()
	for _, c := range oldForms() {
		f.try(*c, Allowances)
	}
	f.extra()
}

// fitter tries certificates on one stub.
type fitter struct {
	r     *stubReader
	own   household.CertificateStatus
	as    supposition
	found []Fit

	rounded bool // up to payroll's own rounding of each paycheck, not to the cent
}

// try keeps a certificate that makes the stub's figure and is not kept yet.
func (f *fitter) try(c household.Certificate, kind FitKind) bool {
	if w := f.withheld(c); !w.Equal(f.r.actual) && !(f.rounded && f.r.matches(w)) {
		return false
	}
	if !slices.ContainsFunc(f.found, func(k Fit) bool { return k.Certificate.Same(&c) }) {
		f.found = append(f.found, Fit{c, kind, EntriesText(c), f.rounded})
	}
	return true
}

func (f *fitter) withheld(c household.Certificate) money.Amount {
	as := f.as
	as.certificate = &c
	return f.r.withheld(as)
}

// plain are the certificates without entries: the household's own status first,
// each status without the box and then with it.
func (f *fitter) plain() []household.Certificate {
	statuses := slices.Clone(certificateStatuses)
	slices.SortStableFunc(statuses, func(a, b household.CertificateStatus) int {
		switch f.own {
		case a:
			return -1
		case b:
			return 1
		}
		return 0
	})
	var all []household.Certificate
	for _, box := range []bool{false, true} {
		if box && f.r.job.Kind == household.Pension {
			break // Form W-4P has no such box
		}
		for _, s := range statuses {
			all = append(all, household.Certificate{Status: s, MultipleJobs: box})
		}
	}
	return all
}

func (f *fitter) noEntries() {
	for _, c := range f.plain() {
		f.try(c, NoEntries)
	}
}

func (f *fitter) exempt() {
	if f.r.actual.IsZero() {
		f.try(household.Certificate{Exempt: true}, ExemptClaim)
	}
}

// credits are Step 3 for as many children and other dependents as a family has.
func (f *fitter) credits() {
	const children, others = 8, 4
	for _, c := range f.plain() {
		if !f.withheld(c).More(f.r.actual) {
			continue
		}
		for n := range children + 1 {
			for m := range others + 1 {
				c.Credits = f.r.y.ChildCredit.PerChild.Times(n).Add(f.r.y.ChildCredit.PerOther.Times(m))
				f.try(c, CreditsAlone)
			}
		}
	}
}

// extra is Step 4(c) in fives of dollars.
func (f *fitter) extra() {
	const fives = 5
	for _, c := range f.plain() {
		extra, ok := f.r.extraOn(f.as, c)
		if ok && extra.IsPositive() && extra.Equal(extra.DividedBy(fives).ToDollar().Times(fives)) {
			c.Extra = extra
			f.try(c, RoundExtra)
		}
	}
}

// worked is one certificate that fits by an entry worked out for it: Step 4(c)
// in whole dollars, else Step 3 or Step 4(a), the roundest amount that does it,
// with Step 4(c) for what no such amount reaches.
func (f *fitter) worked() {
	for _, c := range f.plain() {
		if extra, ok := f.r.extraOn(f.as, c); ok && extra.IsPositive() {
			c.Extra = extra
			if f.try(c, Worked) {
				return
			}
		}
	}
	for _, c := range f.plain() {
		entry := &c.Credits
		if f.withheld(c).Less(f.r.actual) {
			entry = &c.OtherIncome
		}
		for _, step := range []int64{1000, 500, 100, 50, 10, 1} {
			if f.solve(&c, entry, money.Dollars(step)) && f.try(c, Worked) {
				return
			}
		}
	}
}

// solve looks for the multiple of a step at which an entry makes the stub's
// figure: withholding only falls as Step 3 rises, and only rises with Step 4(a).
func (f *fitter) solve(c *household.Certificate, entry *money.Amount, step money.Amount) bool {
	const most = 2_000_000 // dollars: more than any entry comes to
	falls := entry == &c.Credits
	low, high := 0, money.Dollars(most).Steps(step)
	for low < high {
		middle := (low + high) / 2
		*entry = step.Times(middle)
		w := f.withheld(*c)
		if falls && w.More(f.r.actual) || !falls && w.Less(f.r.actual) {
			low = middle + 1
		} else {
			high = middle
		}
	}
	*entry = step.Times(low)
	return f.withheld(*c).Equal(f.r.actual)
}

// EntriesText is a certificate in a few words, with its entries.
func EntriesText(c household.Certificate) words.Text {
	form := formText(&c)
	var entries []words.Text
	for _, e := range []struct {
		step   string
		amount money.Amount
	}{{"3", c.Credits}, {"4a", c.OtherIncome}, {"4b", c.Deductions}, {"4c", c.Extra}} {
		if e.amount.IsPositive() && c.Edition == household.Current {
			entries = append(entries, words.T("stub.form.entry", "step", words.T("stub.step."+e.step), "amount", e.amount))
		}
	}
	if len(entries) == 0 {
		return form
	}
	if form.Code == "stub.form.plain" { // which says that there is nothing else
		form = statusText(c.Status)
	}
	return words.T("stub.form.with_entries", "form", form, "entries", entries)
}
