package main

import (
	"github.com/spf13/cobra"

	"example.com/plumbline/internal/paystub"
	"example.com/plumbline/internal/words"
)

func (p *program) stubCommand() *cobra.Command {
	var asJSON bool
	cmd := &cobra.Command{
		Use:        "stub",
		SuggestFor: []string{"paystub", "pay-stub"},
		Args:       exactly(1, "answers"),
		RunE: func(cmd *cobra.Command, args []string) error {
			h, doc, err := p.answers(args[0])
			if r, ok := p.withoutPay(doc, err); ok {
				return p.sayWithoutPay(r, args[0], asJSON)
			}
			if err != nil {
				return err
			}
			y, err := p.year(h.TaxYear)
			if err != nil {
				return err
			}
			stubs := paystub.Stubs(h, y)
			if len(stubs) == 0 {
				return wrongAnswers(words.Fail("command.no_stub", "file", args[0]))
			}
			if asJSON {
				views := make([]paystub.View, len(stubs))
				for i, s := range stubs {
					views[i] = s.In(p.language)
				}
				return p.printJSON(struct {
					TaxYear   int            `json:"tax_year"`
					Language  string         `json:"language"`
					Projected bool           `json:"projected,omitempty"`
					Stubs     []paystub.View `json:"stubs"`
				}{y.Year, p.language.Tag(), y.Projected != nil, views})
			}
			return p.print(p.pages().Projected(p.pages().Stubs(stubs), y))
		},
	}
	cmd.Flags().BoolVar(&asJSON, "json", false, "")
	return cmd
}
