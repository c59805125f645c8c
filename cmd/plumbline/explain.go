package main

import (
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"example.com/plumbline/internal/certificate"
	"example.com/plumbline/internal/report"
	"example.com/plumbline/internal/worksheet"
	"example.com/plumbline/internal/yamldoc"
)

func (p *program) explainCommand() *cobra.Command {
	var asJSON bool
	cmd := &cobra.Command{
		Use:   "explain FILE [ENTRY]",
		Short: "Where a figure comes from, down to table and law",
		Long: `Shows the chain behind a figure of the result: the lines it came from, down to
the answers, with the arithmetic, the table and the law. ENTRY is a line of the
certificate (3, 3a, 3b, 4a, 4b, 4c), withholding for what is then taken from a
paycheck, balance, or a line of the return by its name, such as total_tax. Without ENTRY, every entry of the recommended certificates is
explained.`,
		Args: cobra.RangeArgs(1, 2),
		RunE: func(cmd *cobra.Command, args []string) error {
			h, doc, err := p.answers(args[0])
			if err != nil {
				return err
			}
			r, err := p.solve(h)
			if err != nil {
				return err
			}
			entry := ""
			if len(args) == 2 {
				entry = args[1]
			}
			reasons, err := reasonsFor(r, entry)
			if err != nil {
				return err
			}
			if asJSON {
				return p.printJSON(reasons)
			}
			return p.print(report.Explanation(reasons, answerTexts(doc, reasons)))
		},
	}
	cmd.Flags().BoolVar(&asJSON, "json", false, "print JSON")
	return cmd
}

// reasonsFor are the chains behind a figure, or behind all entries where none is
// named; where nothing is entered, behind the year's tax.
func reasonsFor(r certificate.Result, figure string) ([]worksheet.Reason, error) {
	if figure == "" {
		entered := entryReasons(r.Recommended, r.Trace, "", func(e certificate.Entry) bool { return e.Amount.IsPositive() })
		if len(entered) > 0 {
			return entered, nil
		}
		figure = "total_tax"
	}
	name := strings.NewReplacer("(", "", ")", "").Replace(strings.ToLower(strings.TrimPrefix(figure, "Step ")))
	for _, find := range []func(certificate.Result, string) []worksheet.Reason{entriesNamed, lineNamed, paycheckReasons} {
		if found := find(r, name); len(found) > 0 {
			return found, nil
		}
	}
	return nil, wrongUsage(fmt.Errorf("%q is not a figure of this result; write one of 3, 3a, 3b, 4a, 4b, 4c, withholding, or a line of the return such as total_tax, taxable_income or child_tax_credit", figure))
}

// entriesNamed are the chains behind an entry on every certificate of the plan,
// then on those to hand in in January where it is not empty.
func entriesNamed(r certificate.Result, name string) []worksheet.Reason {
	found := entryReasons(r.Recommended, r.Trace, "", func(e certificate.Entry) bool { return e.Line == name })
	if j := r.January; j != nil {
		due := j.Plan
		due.Certificates = slices.DeleteFunc(slices.Clone(due.Certificates), func(jc certificate.JobCertificate) bool { return jc.Keep })
		found = append(found, entryReasons(due, j.Trace, fmt.Sprintf(" of January %d", j.TaxYear), func(e certificate.Entry) bool {
			return e.Line == name && e.Amount.IsPositive()
		})...)
	}
	return found
}

// entryReasons are the chains behind those entries of a plan that are wanted.
func entryReasons(p certificate.Plan, trace *worksheet.Sheet, when string, wanted func(certificate.Entry) bool) []worksheet.Reason {
	var reasons []worksheet.Reason
	for _, jc := range p.Certificates {
		for _, e := range jc.Lines.All() {
			if wanted(e) {
				reasons = append(reasons, trace.ExplainFrom(entryLine(jc, e, when)))
			}
		}
	}
	return reasons
}

// lineNamed is the chain behind a line of the trace, by its ID or the part of it
// after the subject.
func lineNamed(r certificate.Result, name string) []worksheet.Reason {
	for _, id := range []string{name, "tax." + name, "form." + name, "year." + name} {
		if reason, ok := r.Trace.Explain(id); ok {
			return []worksheet.Reason{reason}
		}
	}
	return nil
}

// entryLine is an entry of a certificate as a line to explain.
func entryLine(jc certificate.JobCertificate, e certificate.Entry, when string) worksheet.Line {
	why := e.Reason
	if e.Amount.IsZero() {
		why = "nothing asks for this entry"
	}
	return worksheet.Line{
		ID:     "certificate." + e.Line,
		Form:   "Form W-4 line " + e.Line,
		Label:  fmt.Sprintf("%s, Step %s%s", jc.Name, e.Line, when),
		Amount: e.Amount,
		How:    worksheet.Using("%s", why),
		From:   e.From,
		Source: e.Source,
	}
}

// paycheckReasons are the chains behind a line of payroll's worksheet, such as
// payroll.2g, on an ordinary paycheck of each job; withholding is its last line.
func paycheckReasons(r certificate.Result, name string) []worksheet.Reason {
	id := "payroll." + strings.TrimPrefix(name, "payroll.")
	if name == "withholding" || name == "withholding_per_paycheck" {
		id = "payroll.4b"
	}
	var reasons []worksheet.Reason
	for _, jc := range r.Recommended.Certificates {
		if reason, ok := r.Paycheck(jc).Explain(id); ok {
			reason.Line.Label = jc.Name + ", " + reason.Line.Label
			reasons = append(reasons, reason)
		}
	}
	return reasons
}

// answerTexts are the answers, as they stand in the file, that chains end in.
func answerTexts(doc *yamldoc.Document, reasons []worksheet.Reason) map[string]string {
	texts := map[string]string{}
	for _, r := range reasons {
		for _, key := range r.Answers {
			if text, ok := doc.Get(key); ok {
				texts[key] = text
			}
		}
		for key, text := range answerTexts(doc, r.From) {
			texts[key] = text
		}
	}
	return texts
}
