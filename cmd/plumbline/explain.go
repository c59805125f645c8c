package main

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"example.com/plumbline/internal/certificate"
	"example.com/plumbline/internal/words"
	"example.com/plumbline/internal/worksheet"
	"example.com/plumbline/internal/yamldoc"
)

// shallow is how deep explain goes unless it is asked for all: the figure, what
// it came from, and what that came from.
const shallow = 3

func (p *program) explainCommand() *cobra.Command {
	var asJSON, deep bool
	cmd := &cobra.Command{
		Use:  "explain",
		Args: between(1, 2, "explain"),
		RunE: func(cmd *cobra.Command, args []string) error {
			entry := ""
			if len(args) == 2 {
				entry = args[1]
			}
			return p.explain(args[0], entry, asJSON, deep)
		},
	}
	cmd.Flags().BoolVar(&asJSON, "json", false, "")
	cmd.Flags().BoolVar(&deep, "deep", false, "")
	return cmd
}

func (p *program) explain(file, entry string, asJSON, deep bool) error {
	h, doc, err := p.answers(file)
	if r, ok := p.withoutPay(doc, err); ok {
		return p.sayWithoutPay(r, file, asJSON)
	}
	if err != nil {
		return err
	}
	r, err := p.solve(h)
	if err != nil {
		return err
	}
	name := figureName(entry)
	if name == "1c" || name == "2c" || name == "exempt" {
		if asJSON {
			return wrongUsage(words.Fail("command.explain.no_amount", "entry", entry))
		}
		return p.print(p.pages().Projected(p.pages().ExplainBox(r, name), r.Tables))
	}
	reasons := r.Explain(name)
	if len(reasons) == 0 {
		if len(r.Recommended.Certificates) == 0 && (name == "withholding" || len(name) <= 2) {
			return wrongAnswers(words.Fail("command.explain.no_certificate"))
		}
		return wrongUsage(words.Fail("command.explain.unknown", "entry", entry))
	}
	if asJSON {
		views := make([]worksheet.View, len(reasons))
		for i, r := range reasons {
			views[i] = r.In(p.language)
		}
		return p.printJSON(views)
	}
	depth := shallow
	if deep {
		depth = 0
	}
	return p.print(p.pages().Projected(p.pages().Explanation(reasons, answerTexts(doc, r, reasons), depth), r.Tables))
}

// figureName is a figure as people write it ("Step 4(c)") by its name ("4c").
func figureName(typed string) string {
	name := strings.TrimSpace(strings.TrimPrefix(strings.ToLower(typed), "step"))
	return strings.NewReplacer("(", "", ")", "").Replace(name)
}

// answerTexts are the answers, as they are in the file, that chains end in, and
// the names of jobs and dependents.
func answerTexts(doc *yamldoc.Document, r certificate.Result, reasons []worksheet.Reason) map[string]string {
	texts := map[string]string{}
	for i := range r.Household.Jobs {
		texts[fmt.Sprintf("jobs[%d].name", i)] = r.Household.JobName(i)
	}
	for i := range r.Household.Dependents {
		texts[fmt.Sprintf("dependents[%d].name", i)] = r.Household.DependentName(i)
	}
	var add func([]worksheet.Reason)
	add = func(reasons []worksheet.Reason) {
		for _, r := range reasons {
			for _, key := range r.Answers {
				if text, ok := doc.Get(key); ok {
					texts[key] = text
				}
			}
			add(r.From)
		}
	}
	add(reasons)
	return texts
}
