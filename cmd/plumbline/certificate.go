package main

import (
	"github.com/spf13/cobra"

	"example.com/plumbline/internal/certificate"
	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/report"
)

func (p *program) certificateCommand() *cobra.Command {
	var asJSON bool
	cmd := &cobra.Command{
		Use:   "certificate FILE",
		Short: "The entries to write on each certificate, and the year they lead to",
		Long: `Reads the answers in FILE and prints what to write on each Form W-4, the year
before and after, the other plans, and January's certificate. FILE - is standard
input.`,
		Args: exactly(1, "an answers file"),
		RunE: func(cmd *cobra.Command, args []string) error {
			h, _, err := p.answers(args[0])
			if err != nil {
				return err
			}
			r, err := p.solve(h)
			if err != nil {
				return err
			}
			if asJSON {
				return p.printJSON(r)
			}
			return p.print(report.Certificate(r))
		},
	}
	cmd.Flags().BoolVar(&asJSON, "json", false, "print JSON")
	return cmd
}

// solve finds the certificates for a household, with the tables of its year
// and, where there are any, of the next.
func (p *program) solve(h household.Household) (certificate.Result, error) {
	y, err := p.year(h.TaxYear)
	if err != nil {
		return certificate.Result{}, err
	}
	next, err := p.nextYear(h.TaxYear)
	if err != nil {
		return certificate.Result{}, err
	}
	r, err := certificate.Solve(h, y, next)
	if err != nil {
		return certificate.Result{}, wrongAnswers(err)
	}
	return r, nil
}
