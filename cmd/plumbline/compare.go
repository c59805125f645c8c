package main

import (
	"errors"
	"fmt"

	"github.com/spf13/cobra"

	"example.com/plumbline/internal/certificate"
	"example.com/plumbline/internal/report"
	"example.com/plumbline/internal/scenario"
)

func (p *program) compareCommand() *cobra.Command {
	var asJSON bool
	cmd := &cobra.Command{
		Use:  "compare",
		Args: exactly(2, "two_answers"),
		RunE: func(cmd *cobra.Command, args []string) error {
			var results [2]certificate.Result
			var faults []error // of both files at once
			for i, name := range args {
				h, _, err := p.answers(name)
				if err == nil {
					if results[i], err = p.solve(h); err != nil {
						err = fmt.Errorf("%s: %w", name, err)
					}
				}
				faults = append(faults, err)
			}
			if err := errors.Join(faults...); err != nil {
				return err
			}
			c := scenario.Compare(results[0], results[1])
			if asJSON {
				return p.printJSON(c)
			}
			page := p.pages().Comparison(c, report.ShortPath(args[0]), report.ShortPath(args[1]))
			a, b := results[0].Tables, results[1].Tables
			if a.Year != b.Year {
				page = p.pages().Projected(page, a)
			}
			return p.print(p.pages().Projected(page, b))
		},
	}
	cmd.Flags().BoolVar(&asJSON, "json", false, "")
	return cmd
}
