package certificate

import (
	"slices"
	"strings"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/words"
	"example.com/plumbline/internal/worksheet"
)

// Explain are the chains behind a figure, by its name: an entry of the
// certificates ("3", "4c"), "withholding" on an ordinary paycheck, a line of the
// return or of payroll's worksheet. Without a name it is every entry that is
// filled in or, where none is, the year's tax. It finds nothing where the result
// has no such figure.
func (r Result) Explain(name string) []worksheet.Reason {
	return projectedIf(r.Projected(), r.explain(name))
}

func (r Result) explain(name string) []worksheet.Reason {
	if name == "" {
		if entered := r.entryReasons(r.Recommended, filled); len(entered) > 0 {
			return entered
		}
		name = "total_tax"
	}
	for _, find := range []func(string) []worksheet.Reason{r.entriesNamed, r.lineNamed, r.paycheckReasons} {
		if found := find(name); len(found) > 0 {
			return found
		}
	}
	return nil
}

func filled(e Entry) bool { return e.Amount.IsPositive() }

// entriesNamed are the chains behind an entry on every certificate of the plan,
// then on those to hand in in January where it is not empty.
func (r Result) entriesNamed(name string) []worksheet.Reason {
	found := r.entryReasons(r.Recommended, func(e Entry) bool { return e.Line == name })
	if j := r.January; j != nil {
		due := j.Plan
		due.Certificates = slices.DeleteFunc(slices.Clone(due.Certificates), func(jc JobCertificate) bool { return jc.Keep })
		found = append(found, j.entryReasons(due, func(e Entry) bool { return e.Line == name && filled(e) })...)
	}
	return found
}

// entryReasons are the chains behind those entries of a plan for this year that
// are wanted. The form that is right for all of next year has next year's figures.
func (r Result) entryReasons(p Plan, wanted func(Entry) bool) []worksheet.Reason {
	if p.Name == PlanLasting && r.January != nil {
		return r.January.entryReasons(p, wanted)
	}
	return entryReasons(p, r.Trace, 0, wanted)
}

// entryReasons are the chains behind those entries of a plan that are wanted, from
// next year's figures.
func (j *January) entryReasons(p Plan, wanted func(Entry) bool) []worksheet.Reason {
	return projectedIf(j.Projected != nil, entryReasons(p, j.Trace, j.TaxYear, wanted))
}

// projectedIf marks chains that come from projected figures of the law.
func projectedIf(projected bool, reasons []worksheet.Reason) []worksheet.Reason {
	for i := range reasons {
		reasons[i].Projected = reasons[i].Projected || projected
	}
	return reasons
}

// entryReasons are the chains behind those entries of a plan that are wanted. Of
// January's plan, january is its year.
func entryReasons(p Plan, trace *worksheet.Sheet, january int, wanted func(Entry) bool) []worksheet.Reason {
	var reasons []worksheet.Reason
	for _, jc := range p.Certificates {
		for _, e := range jc.Lines.All() {
			if wanted(e) {
				reasons = append(reasons, trace.ExplainFrom(entryLine(jc, e, trace, january)))
			}
		}
	}
	return reasons
}

// entryLine is an entry of a certificate as a line to explain. It comes from
// those lines of the trace that are there: a household without a credit has no
// line for it.
func entryLine(jc JobCertificate, e Entry, trace *worksheet.Sheet, january int) worksheet.Line {
	from := slices.DeleteFunc(slices.Clone(e.From), func(id string) bool {
		_, there := trace.Line(id)
		return !there && (strings.HasPrefix(id, "tax.") || strings.HasPrefix(id, "form.") || strings.HasPrefix(id, "plan."))
	})
	why := e.Reason
	if e.Amount.IsZero() {
		why = words.T("certificate.line.nothing")
	}
	name := words.T("line.entry", "job", jc.Name, "line", e.Line)
	if january > 0 {
		name = words.T("line.entry_january", "job", jc.Name, "line", e.Line, "year", january)
	}
	return worksheet.Line{
		ID:     "certificate." + e.Line,
		Form:   officialPlace(jc.Kind, e.Line),
		Name:   name,
		Amount: e.Amount,
		How:    worksheet.Worded(why),
		From:   from,
		Source: e.Source,
	}
}

// pensionForm is the form that payers of pensions get.
const pensionForm = "Form W-4P"

// officialPlace is a line as the form for a payer prints it: Form W-4 Step 4(c).
func officialPlace(kind household.JobKind, line string) string {
	form := "Form W-4"
	if kind == household.Pension {
		form = pensionForm
	}
	step, letter := line[:1], line[1:]
	if letter != "" {
		letter = "(" + letter + ")"
	}
	return form + " Step " + step + letter
}

// lineNamed is the chain behind a line of the trace, by its ID or the part of it
// after the subject.
func (r Result) lineNamed(name string) []worksheet.Reason {
	for _, id := range []string{name, "tax." + name, "form." + name, "year." + name} {
		if reason, ok := r.Trace.Explain(id); ok {
			return []worksheet.Reason{reason}
		}
	}
	return nil
}

// paycheckReasons are the chains behind a line of payroll's worksheet, such as
// payroll.2g, on an ordinary paycheck of each job; withholding is its last line.
func (r Result) paycheckReasons(name string) []worksheet.Reason {
	id := "payroll." + strings.TrimPrefix(name, "payroll.")
	if name == "withholding" || name == "withholding_per_paycheck" {
		id = "payroll.4b"
	}
	var reasons []worksheet.Reason
	for _, jc := range r.Recommended.Certificates {
		if reason, ok := r.Paycheck(jc).Explain(id); ok {
			reason.Line.Name = words.T("line.of_job", "job", jc.Name, "line", reason.Line.Label())
			reasons = append(reasons, reason)
		}
	}
	return reasons
}

// Worksheets are the lines of the form's worksheets
// ("form.mj.1", "form.dw.3") that an entry of a certificate came from.
func (r Result) Worksheets(jc JobCertificate) []worksheet.Line {
	trace := r.Trace
	if r.Recommended.Name == PlanLasting && r.January != nil {
		trace = r.January.Trace
	}
	var lines []worksheet.Line
	for _, sheet := range []struct{ prefix, result string }{{"form.mj.", "form.mj.4"}, {"form.dw.", "form.dw."}} {
		used := slices.ContainsFunc(jc.Lines.All(), func(e Entry) bool {
			return slices.ContainsFunc(e.From, func(id string) bool { return strings.HasPrefix(id, sheet.result) })
		})
		if !used {
			continue
		}
		for _, l := range trace.Lines {
			if strings.HasPrefix(l.ID, sheet.prefix) {
				lines = append(lines, l)
			}
		}
	}
	return lines
}
