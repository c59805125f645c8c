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

// reasonsFor are the chains behind an entry, or behind all entries.
func reasonsFor(r certificate.Result, entry string) ([]worksheet.Reason, error) {
	name := strings.NewReplacer("(", "", ")", "").Replace(strings.ToLower(strings.TrimPrefix(entry, "Step ")))
	var reasons []worksheet.Reason
	known := []string{}
	for _, jc := range r.Recommended.Certificates {
		for _, e := range jc.Lines.All() {
			known = append(known, e.Line)
			if (entry == "" && e.Amount.IsPositive()) || e.Line == name {
				reasons = append(reasons, r.Trace.ExplainFrom(entryLine(jc, e, "")))
			}
		}
	}
	reasons = append(reasons, januaryReasons(r.January, name)...)
	if entry == "" || len(reasons) > 0 {
		if len(reasons) == 0 {
			name = "total_tax" // nothing is entered: what the year comes to is left to explain
		} else {
			return reasons, nil
		}
	}
	for _, id := range []string{name, "tax." + name, "form." + name, "year." + name} {
		if reason, ok := r.Trace.Explain(id); ok {
			return []worksheet.Reason{reason}, nil
		}
	}
	if reasons := paycheckReasons(r, name); len(reasons) > 0 {
		return reasons, nil
	}
	return nil, wrongUsage(fmt.Errorf("%q is not a figure of this result; write one of %s, withholding, or a line of the return such as total_tax, taxable_income or child_tax_credit", entry, strings.Join(slices.Compact(slices.Sorted(slices.Values(known))), ", ")))
}

// januaryReasons are the chains behind an entry of the certificates to hand in
// in January.
func januaryReasons(j *certificate.January, name string) []worksheet.Reason {
	if j == nil {
		return nil
	}
	var reasons []worksheet.Reason
	for _, jc := range j.Certificates {
		for _, e := range jc.Lines.All() {
			if e.Line == name && e.Amount.IsPositive() && !jc.Keep {
				reasons = append(reasons, j.Trace.ExplainFrom(entryLine(jc, e, fmt.Sprintf(" of January %d", j.TaxYear))))
			}
		}
	}
	return reasons
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
