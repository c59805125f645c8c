package certificate

import (
	"slices"

	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/words"
)

// worksheet505 is the basis of a correction: what the year lacks, or has too
// much, spread over the paydays that are left.
const worksheet505 = "Publication 505 (2025), Worksheet 1-5"

// lines are a certificate's lines with the reason for each.
func (d *candidate) lines(i int, name string, f formEntries, keep bool) Lines {
	w := lineWriter{d: d, i: i, of: d.pr, f: f, name: name, keep: keep}
	if d.next != nil {
		w.of, w.f = d.next.pr, d.next.f
		f = w.f
	}
	c := d.certs[i]
	var l Lines
	if c.Exempt {
		return l.named()
	}
	entries := d.carries(i, f)
	if entries {
		l.L3a.Amount, l.L3b.Amount = f.L3a, f.L3b
	} else if keep && !c.Credits.More(f.L3) { // of one that claims more, the parts are not known
		l.L3a.Amount = money.Min(f.L3a, c.Credits)
		l.L3b.Amount = money.Min(f.L3b, c.Credits.Sub(l.L3a.Amount))
	}
	l.L3.Amount, l.L4a.Amount, l.L4b.Amount, l.L4c.Amount = c.Credits, c.OtherIncome, c.Deductions, c.Extra
	w.children(&l)
	w.credits(&l.L3, entries)
	w.plain(&l.L4a, "Step 4(a)", words.T("certificate.line.other_income", "kinds", w.of.otherIncome()), "form.4a")
	w.plain(&l.L4b, "Step 4(b)", words.T("certificate.line.deductions"), w.deductionsFrom())
	w.extra(&l.L4c)
	return l.named()
}

// carries reports whether a payer's certificate has the form's own Step 3.
func (d *candidate) carries(i int, f formEntries) bool {
	c := d.certs[i]
	return c.Credits.Sub(d.added[i].credits).Equal(f.L3)
}

// named gives each line its number.
func (l Lines) named() Lines {
	for _, e := range []struct {
		entry *Entry
		line  string
	}{{&l.L3a, "3a"}, {&l.L3b, "3b"}, {&l.L3, "3"}, {&l.L4a, "4a"}, {&l.L4b, "4b"}, {&l.L4c, "4c"}} {
		e.entry.Line = e.line
	}
	return l
}

// lineWriter writes the reasons of one certificate.
type lineWriter struct {
	d    *candidate
	i    int
	of   *projection // of the year that the form is filled for
	f    formEntries // of the same
	name string      // of the plan
	keep bool
}

// source is the form's step as the authority for a line.
func (w *lineWriter) source(step string) string {
	form := w.of.y.Form.Source
	if w.d.pr.payers[w.i].pension() {
		form = pensionForm
	}
	return form + ", " + step
}

// kept gives the reason of a line that stays as it is on file; it reports
// whether it did.
func (w *lineWriter) kept(e *Entry, step string) bool {
	if w.keep && e.Reason.IsZero() && e.Amount.IsPositive() {
		e.Reason, e.Source = words.T("certificate.line.on_file"), w.source(step)
	}
	return w.keep
}

// asOnFile gives that reason to a line of a new form that has the amount of the
// form on file, where the form's worksheets gave another; it reports whether it
// did.
func (w *lineWriter) asOnFile(e *Entry, step string) bool {
	onFile := w.d.pr.payers[w.i].job.Certificate
	if onFile == nil {
		return false
	}
	was, asked := onFile.Extra, w.f.Extra
	switch step {
	case "Step 4(a)":
		was, asked = onFile.OtherIncome, w.f.L4a
	case "Step 4(b)":
		was, asked = onFile.Deductions, w.f.L4b
	}
	if !e.Amount.Equal(was) || e.Amount.Equal(asked) {
		return false
	}
	e.Reason, e.Source = words.T("certificate.line.on_file"), w.source(step)
	return true
}

// children gives the reasons of Step 3(a) and (b): of a form that stays, the
// children only where it has the amount for them.
func (w *lineWriter) children(l *Lines) {
	if l.L3a.Amount.IsPositive() && (l.L3a.Amount.Equal(w.f.L3a) || !w.kept(&l.L3a, "Step 3(a)")) {
		l.L3a.Reason = words.T("certificate.line.children", "n", w.f.Children, "under", w.of.y.ChildCredit.ChildUnder, "each", w.of.y.Form.PerChild)
		l.L3a.Source, l.L3a.From = w.source("Step 3(a)"), []string{"form.3a"}
	}
	if l.L3b.Amount.IsPositive() && (l.L3b.Amount.Equal(w.f.L3b) || !w.kept(&l.L3b, "Step 3(b)")) {
		l.L3b.Reason = words.T("certificate.line.others", "n", w.f.Others, "each", w.of.y.Form.PerOther)
		l.L3b.Source, l.L3b.From = w.source("Step 3(b)"), []string{"form.3b"}
	}
}

// credits gives the reason of Step 3: its parts, and the basis of what goes
// beyond credits.
func (w *lineWriter) credits(e *Entry, entries bool) {
	if e.Amount.IsZero() || w.kept(e, "Step 3") {
		return
	}
	if entries && w.f.L3.IsPositive() {
		e.Reason = words.T("certificate.line.credits", "dependents", w.f.L3a.Add(w.f.L3b), "other", w.f.OtherCredits)
		if w.f.OtherCredits.IsPositive() {
			e.Reason = words.T("certificate.line.credits_with_other", "dependents", w.f.L3a.Add(w.f.L3b), "other", w.f.OtherCredits)
		}
		e.Source, e.From = w.source("Step 3"), []string{"form.3"}
	}
	if more := w.d.added[w.i].credits; more.IsPositive() {
		year := w.d.pr.h.TaxYear
		if e.Reason.IsZero() {
			e.Reason = words.T("certificate.line.credits_more", "more", more, "year", year)
		} else {
			e.Reason = words.T("certificate.line.credits_and_more", "credits", w.f.L3, "more", more, "year", year)
		}
		e.Source = join(e.Source, worksheet505+", line 6, p. 17")
		e.From = append(e.From, "plan."+w.name+".gap")
	}
}

// plain gives the reason of a line that the form's own worksheet gave.
func (w *lineWriter) plain(e *Entry, step string, reason words.Text, from string) {
	if e.Amount.IsZero() || w.kept(e, step) || w.asOnFile(e, step) {
		return
	}
	e.Reason, e.Source, e.From = reason, w.source(step), []string{from}
}

// deductionsFrom is the last line of the year's Deductions Worksheet.
func (w *lineWriter) deductionsFrom() string {
	if w.of.y.Form.Extended != nil {
		return "form.dw.15"
	}
	return "form.dw.5"
}

// extra gives the reason of Step 4(c).
func (w *lineWriter) extra(e *Entry) {
	if e.Amount.IsZero() || w.kept(e, "Step 4(c)") {
		return
	}
	added := w.d.added[w.i]
	if w.d.next != nil { // the amount of January's form, whatever it makes up there
		e.Reason, e.Source = words.T("certificate.line.next_year", "year", w.of.h.TaxYear), w.source("Step 4(c)")
		return
	}
	if onFile := w.d.pr.payers[w.i].job.Certificate; added.extra.IsZero() && onFile != nil && onFile.Extra.More(e.Amount) && !e.Amount.Equal(w.f.Extra) {
		e.Reason, e.Source = words.T("certificate.line.extra_less", "was", onFile.Extra), w.source("Step 4(c)")
		return
	}
	if added.extra.IsZero() && w.asOnFile(e, "Step 4(c)") {
		return
	}
	if added.extra.IsZero() {
		pensions := slices.ContainsFunc(w.d.pr.payers, func(s payer) bool { return s.pension() })
		e.Reason = words.T("certificate.line.multiple_jobs", "pensions", yesNo(pensions))
		e.Source, e.From = w.source("Step 2(b), line 4"), []string{"form.mj.4"}
		return
	}
	s, left := w.d.pr.payers[w.i], w.d.gap().OrZero()
	e.Reason = words.T("certificate.line.extra", "short", added.short.Add(left), "all", yesNo(left.IsZero()), "made", added.short, "paydays", s.paydays, "kind", s.job.Kind.String(), "extra", added.extra)
	e.Source = join(w.source("Step 4(c)"), worksheet505+", p. 17")
	e.From = []string{"plan." + w.name + ".gap"}
}

func join(a, b string) string {
	if a == "" {
		return b
	}
	return a + "; " + b
}
