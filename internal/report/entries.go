package report

import (
	"slices"
	"strings"

	"example.com/plumbline/internal/certificate"
	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/tables"
)

// place is one place of a certificate: the line ("1c", "3a") and what to write
// there, or that it stays empty.
type place struct {
	line   string
	write  string
	empty  bool
	reason string
}

// places are all places of a certificate in the order of its steps.
func (w Writer) places(c certificate.JobCertificate, s household.Status, y *tables.Year) []place {
	status := place{line: "1c", write: w.box(c.Certificate.Status), reason: w.say("page.reason.status." + s.String())}
	if c.Certificate.Exempt {
		status = place{line: "1c", empty: true} // Form W-4 (2026) p. 2: Steps 1(a), 1(b) and 5, and no other
	}
	all := []place{status}
	if c.Kind == household.Wages {
		box := place{line: "2c", empty: true}
		if c.Certificate.MultipleJobs {
			box = place{line: "2c", write: w.say("page.write.check"), reason: w.say("page.reason.box")}
		}
		all = append(all, box)
	}
	for _, e := range c.Lines.All() {
		p := place{line: e.Line, empty: true}
		if e.Amount.IsPositive() {
			p = place{line: e.Line, write: e.Amount.GroupedDollars(), reason: w.said(e.Reason)}
		}
		all = append(all, p)
	}
	if c.Certificate.Exempt {
		write := w.say("page.write.check")
		if !y.Form.ExemptBox { // a box of its own from 2026, a word before
			write = w.say("page.write.exempt")
		}
		all = append(all, place{line: "exempt", write: write, reason: w.say("page.reason.exempt")})
	}
	return all
}

// box is a box of Step 1(c) in the form's words.
func (w Writer) box(s household.CertificateStatus) string { return w.say("page.box." + s.String()) }

// step is a line as the year's form names it. Until 2025 the two fields inside
// Step 3 had no letters.
func (w Writer) step(line string, y *tables.Year) string {
	switch {
	case line == "exempt" && y.Form.ExemptBox:
		return w.say("page.step.exempt")
	case line == "exempt":
		line = "4c"
	}
	if line[0] == '3' && y.Form.Extended == nil {
		line = "3"
	}
	return w.say("page.step.numbered", "line", line)
}

// entry is a place as an entry of a page.
func (w Writer) entry(p place, c certificate.JobCertificate, y *tables.Year) FormEntry {
	e := FormEntry{Step: w.step(p.line, y), Label: w.say("page.entry."+p.line, "kind", c.Kind.String(), "age", y.ChildCredit.ChildUnder), Write: p.write, Empty: p.empty, line: p.line}
	if p.empty {
		e.Write = w.say("page.write.empty")
	}
	return e
}

// toCopy are all entries of a certificate, the empty ones too, without the
// reasons: what one employer may see.
func (w Writer) toCopy(c certificate.JobCertificate, y *tables.Year) Entries {
	var entries Entries
	for _, p := range w.places(c, household.Single, y) {
		entries = append(entries, w.entry(p, c, y))
	}
	return entries
}

// filled are the entries of a certificate that are filled in, with the reasons
// where asked for.
func (w Writer) filled(c certificate.JobCertificate, s household.Status, y *tables.Year, why bool) Entries {
	var entries Entries
	for _, p := range w.places(c, s, y) {
		if p.empty {
			continue
		}
		e := w.entry(p, c, y)
		e.Step = strings.TrimPrefix(e.Step, w.say("page.step.numbered", "line", ""))
		if why {
			e.Reason = p.reason
		}
		entries = append(entries, e)
	}
	return entries
}

// brief are filled entries with a reason where the figure does not explain
// itself: not the status, nor a total of the lines above it.
func (w Writer) brief(c certificate.JobCertificate, s household.Status, y *tables.Year) Entries {
	entries := w.filled(c, s, y, true)
	sum := c.Lines.L3.Amount.Equal(c.Lines.L3a.Amount.Add(c.Lines.L3b.Amount))
	i := 0
	for _, p := range w.places(c, s, y) {
		if p.empty {
			continue
		}
		if p.line == "1c" || p.line == "3" && sum {
			entries[i].Reason = ""
		}
		i++
	}
	return entries
}

// rest is what else to write on a certificate: nothing but who one is.
func (w Writer) rest(c certificate.JobCertificate) string {
	if c.Certificate.Exempt {
		return w.say("page.write.rest_exempt")
	}
	if statusOnly(c.Certificate) {
		return w.say("page.write.nothing_more")
	}
	return w.say("page.write.rest_empty")
}

// statusOnly reports whether a certificate holds the status and nothing more.
func statusOnly(c household.Certificate) bool {
	return !c.MultipleJobs && !c.Exempt &&
		money.Sum(c.Credits, c.OtherIncome, c.Deductions, c.Extra).IsZero()
}

// inOneLine is a certificate in one line, with the lines that are filled in and
// those that are named, though they are zero.
func (w Writer) inOneLine(c household.Certificate, named ...string) string {
	if c.Exempt {
		return w.say("page.short.exempt")
	}
	var parts []string
	if c.Edition == household.Before2020 {
		parts = append(parts, w.say("page.short.before_2020", "marital", c.Marital.String(), "allowances", c.Allowances))
		if c.Extra.IsPositive() || slices.Contains(named, "4c") {
			parts = append(parts, w.say("page.short.extra", "amount", c.Extra))
		}
	} else {
		parts = append(parts, w.say("page.short."+c.Status.String()))
		if c.MultipleJobs {
			parts = append(parts, w.say("page.short.box"))
		}
		for _, e := range []struct {
			line   string
			amount money.Amount
		}{{"3", c.Credits}, {"4a", c.OtherIncome}, {"4b", c.Deductions}, {"4c", c.Extra}} {
			if e.amount.IsPositive() || slices.Contains(named, e.line) {
				parts = append(parts, w.say("page.short.entry", "line", e.line, "amount", e.amount))
			}
		}
	}
	return strings.Join(parts, "; ")
}

// toHandIn are the certificates of a plan that are handed in now.
func toHandIn(p certificate.Plan) []certificate.JobCertificate {
	return slices.DeleteFunc(slices.Clone(p.Certificates), func(c certificate.JobCertificate) bool { return c.Keep })
}

// kept are those that stay.
func kept(p certificate.Plan) []certificate.JobCertificate {
	return slices.DeleteFunc(slices.Clone(p.Certificates), func(c certificate.JobCertificate) bool { return !c.Keep })
}
