package certificate

import (
	"fmt"

	"example.com/plumbline/internal/money"
)

// worksheet505 is the basis of a correction: what the year lacks, or has too
// much, spread over the paydays that are left.
const worksheet505 = "Publication 505 (2025), Worksheet 1-5"

// lines are a certificate's lines with the reason for each.
func (d *candidate) lines(i int, name string, f formEntries, keep bool) Lines {
	w := lineWriter{d: d, i: i, f: f, name: name, keep: keep}
	c := d.certs[i]
	var l Lines
	if c.Exempt {
		return l.named()
	}
	entries := d.carries(i, f)
	if entries {
		l.L3a.Amount, l.L3b.Amount = f.L3a, f.L3b
	} else if keep {
		l.L3a.Amount = money.Min(f.L3a, c.Credits)
		l.L3b.Amount = money.Min(f.L3b, c.Credits.Sub(l.L3a.Amount))
	}
	l.L3.Amount, l.L4a.Amount, l.L4b.Amount, l.L4c.Amount = c.Credits, c.OtherIncome, c.Deductions, c.Extra
	w.children(&l)
	w.credits(&l.L3, entries)
	w.plain(&l.L4a, "Step 4(a)", "what you expect this year besides pay: interest, dividends, retirement income and the like; withheld from here, it needs no payment of its own", "form.4a")
	w.plain(&l.L4b, "Step 4(b)", "what your deductions and adjustments come to beyond the standard deduction, from the Deductions Worksheet", w.deductionsFrom())
	w.extra(&l.L4c)
	return l.named()
}

// carries reports whether a payer's certificate has the form's own Steps 3 to
// 4(b).
func (d *candidate) carries(i int, f formEntries) bool {
	c := d.certs[i]
	return i == 0 && c.Credits.Sub(d.added[i].credits).Equal(f.L3) && c.Deductions.Equal(f.L4b)
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
	f    formEntries
	name string // of the plan
	keep bool
}

// source is the form's step as the authority for a line.
func (w *lineWriter) source(step string) string {
	form := w.d.pr.y.Form.Source
	if w.d.pr.payers[w.i].pension() {
		form = "Form W-4P"
	}
	return form + ", " + step
}

// kept gives the reason of a line that stays as it is on file; it reports
// whether it did.
func (w *lineWriter) kept(e *Entry) bool {
	if w.keep && e.Reason == "" && e.Amount.IsPositive() {
		e.Reason = "as on file: the year ends where you want it with it"
		if !w.lands() {
			e.Reason = "as on file: another entry would change nothing"
		}
		e.Source = worksheet505
	}
	return w.keep
}

// lands reports whether the year of the candidate ends as wished.
func (w *lineWriter) lands() bool {
	pr := w.d.pr
	lands, _ := pr.landing(pr.outlook(money.Sum(w.d.withheld...).Add(pr.fixed)).Balance)
	return lands
}

// children gives the reasons of Step 3(a) and (b).
func (w *lineWriter) children(l *Lines) {
	if l.L3a.Amount.IsPositive() {
		l.L3a.Reason = fmt.Sprintf("%s under %d at year end, %s each", counted(w.f.Children, "child", "children"), w.d.pr.y.ChildCredit.ChildUnder, w.d.pr.y.Form.PerChild.GroupedDollars())
		l.L3a.Source, l.L3a.From = w.source("Step 3(a)"), []string{"form.3a"}
	}
	if l.L3b.Amount.IsPositive() {
		l.L3b.Reason = fmt.Sprintf("%s, %s each", counted(w.f.Others, "other dependent", "other dependents"), w.d.pr.y.Form.PerOther.GroupedDollars())
		l.L3b.Source, l.L3b.From = w.source("Step 3(b)"), []string{"form.3b"}
	}
}

func counted(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}

// credits gives the reason of Step 3: its parts, and the basis of what goes
// beyond credits.
func (w *lineWriter) credits(e *Entry, entries bool) {
	if e.Amount.IsZero() || w.kept(e) {
		return
	}
	if entries && w.f.L3.IsPositive() {
		part := "3(a) and 3(b)"
		if w.d.pr.y.Form.Extended == nil { // the fields have no letters yet
			part = "children and other dependents"
		}
		if w.f.OtherCredits.IsPositive() {
			part = fmt.Sprintf("%s, with %s of other credits", part, w.f.OtherCredits.GroupedDollars())
		}
		e.Reason = part
		e.Source, e.From = w.source("Step 3"), []string{"form.3"}
	}
	if more := w.d.added[w.i].credits; more.IsPositive() {
		year := w.d.pr.h.TaxYear
		why := fmt.Sprintf("because without it too much would be withheld in %d. The tax agency's Publication 505 (Worksheet 1-5) allows this. It holds for %d only", year, year)
		if e.Reason == "" {
			e.Reason = fmt.Sprintf("%s, %s", more.GroupedDollars(), why)
		} else {
			e.Reason = fmt.Sprintf("%s in all: %s of credits, and %s more %s", e.Amount.GroupedDollars(), w.f.L3.GroupedDollars(), more.GroupedDollars(), why)
		}
		e.Source = join(e.Source, worksheet505+", line 6, p. 17")
		e.From = append(e.From, "plan."+w.name+".gap")
	}
}

// plain gives the reason of a line that the form's own worksheet gave.
func (w *lineWriter) plain(e *Entry, step, reason, from string) {
	if e.Amount.IsZero() || w.kept(e) {
		return
	}
	e.Reason, e.Source, e.From = reason, w.source(step), []string{from}
}

// deductionsFrom is the last line of the year's Deductions Worksheet.
func (w *lineWriter) deductionsFrom() string {
	if w.d.pr.y.Form.Extended != nil {
		return "form.dw.15"
	}
	return "form.dw.5"
}

// extra gives the reason of Step 4(c).
func (w *lineWriter) extra(e *Entry) {
	if e.Amount.IsZero() || w.kept(e) {
		return
	}
	added := w.d.added[w.i]
	if added.extra.IsZero() {
		e.Reason = "what jobs that are each withheld from as the only one leave out, from the Multiple Jobs Worksheet"
		e.Source, e.From = w.source("Step 2(b), line 4"), []string{"form.mj.4"}
		return
	}
	s := w.d.pr.payers[w.i]
	each := "paycheck"
	if s.pension() {
		each = "payment"
	}
	e.Reason = fmt.Sprintf("without it the year would end %s short; over %s that is %s a %s, in whole dollars",
		added.short.Grouped(), counted(s.paydays, "payday", "paydays"), added.extra.GroupedDollars(), each)
	e.Source = join(w.source("Step 4(c)"), worksheet505+", p. 17")
	e.From = []string{"plan." + w.name + ".gap"}
}

func join(a, b string) string {
	if a == "" {
		return b
	}
	return a + "; " + b
}
