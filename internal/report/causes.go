package report

import (
	"slices"
	"strings"

	"example.com/plumbline/internal/certificate"
	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
)

// causes are what makes the person owe on the certificates on file, part by part.
func (w Writer) causes(r certificate.Result) []Block {
	causes := r.Causes()
	if len(causes) == 0 {
		return nil
	}
	pensions := "no"
	if slices.ContainsFunc(r.Household.Jobs, func(j household.Job) bool { return j.Kind == household.Pension }) {
		pensions = "yes"
	}
	var list List
	for _, c := range causes {
		if c.Short.Abs().Less(money.Dollars(1)) {
			continue
		}
		less := "no"
		if c.Short.IsNegative() {
			less = "yes"
		}
		args := []any{"amount", c.Short.Abs(), "less", less}
		switch c.Code {
		case certificate.CauseJobs:
			args = append(args, "n", c.Jobs, "pensions", pensions)
		case certificate.CauseForm:
			entries := w.say("page.why.cause.no_form")
			if onFile := r.Household.Jobs[c.Job].Certificate; onFile != nil {
				entries = w.inOneLine(*onFile)
			}
			args = append(args, "job", shortName(r.Household.JobName(c.Job)), "entries", entries)
		case certificate.CauseIncome:
			args = append(args, "n", len(c.Kinds), "kinds", c.Kinds, "pensions", pensions)
		case certificate.CausePayments:
			args = []any{"amount", c.Short.Abs()}
		}
		list.Items = append(list.Items, strings.TrimSpace(w.say("page.why.cause."+c.Code, args...)+" "+w.said(c.Doubt)))
	}
	return []Block{Paragraph(w.say("page.why.short", "amount", r.AsFiled.Balance.Abs())), list}
}
