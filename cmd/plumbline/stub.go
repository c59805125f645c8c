package main

import (
	"errors"

	"github.com/spf13/cobra"

	"example.com/plumbline/internal/paystub"
)

func (p *program) stubCommand() *cobra.Command {
	var asJSON bool
	cmd := &cobra.Command{
		Use:   "stub FILE",
		Short: "Hold the last pay stub against the certificate on file",
		Long: `Works out what payroll should have withheld on the last pay stub under the
certificate believed to be on file. Where the stub differs, it names what would
explain the difference, the closest first, and what to ask payroll.`,
		Args: exactly(1, "an answers file"),
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
				return wrongAnswers(errors.New("no job has a pay stub to read; give its last_paycheck or year_to_date"))
			}
			if asJSON {
				views := make([]paystub.View, len(stubs))
				for i, s := range stubs {
					views[i] = s.In(p.language)
				}
				return p.printJSON(struct {
					TaxYear   int            `json:"tax_year"`
					Projected bool           `json:"projected,omitempty"`
					Stubs     []paystub.View `json:"stubs"`
				}{y.Year, y.Projected != nil, views})
			}
			return p.print(p.pages().Projected(p.pages().Stubs(stubs), y))
		},
	}
	cmd.Flags().BoolVar(&asJSON, "json", false, "print JSON")
	return cmd
}
