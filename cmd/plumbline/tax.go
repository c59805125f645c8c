package main

import (
	"encoding/json"
	"os"

	"github.com/spf13/cobra"
	"golang.org/x/term"

	"example.com/plumbline/internal/certificate"
	"example.com/plumbline/internal/report"
	"example.com/plumbline/internal/tax"
	"example.com/plumbline/internal/terminal"
	"example.com/plumbline/internal/words"
	"example.com/plumbline/internal/worksheet"
)

func (p *program) taxCommand() *cobra.Command {
	var asJSON, why bool
	var method string
	cmd := &cobra.Command{
		Use:        "tax",
		SuggestFor: []string{"return", "taxes"},
		Args:       exactly(1, "answers"),
		RunE: func(cmd *cobra.Command, args []string) error {
			m, err := methodNamed(method)
			if err != nil {
				return err
			}
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
			sheet := new(worksheet.Sheet)
			_, ret := certificate.AsFiled(h, y, m, sheet)
			if asJSON {
				return p.printJSON(tax.View(p.language, ret, y, sheet.Notes))
			}
			return p.print(p.pages().Projected(p.pages().Tax(ret, sheet, why), y))
		},
	}
	cmd.Flags().BoolVar(&asJSON, "json", false, "")
	cmd.Flags().BoolVar(&why, "why", false, "")
	cmd.Flags().StringVar(&method, "method", "return", "")
	return cmd
}

func methodNamed(name string) (tax.Method, error) {
	switch name {
	case "return":
		return tax.ByReturn, nil
	case "schedule":
		return tax.BySchedule, nil
	}
	return 0, wrongUsage(words.Fail("command.of_flag", "flag", "method", "what", words.T("command.not_a_method", "name", name)))
}

// print writes a page to standard output.
func (p *program) print(page report.Page) error {
	if err := report.Text(p.stdout, page, p.style()); err != nil {
		return systemFailed(err)
	}
	return nil
}

// pages writes pages in the language of the program.
func (p *program) pages() report.Writer { return report.In(p.language) }

// style is how pages are printed: with block characters where a terminal has
// them, and with plain signs where other programs may read.
func (p *program) style() report.Style {
	f, ok := p.stdout.(*os.File)
	return report.Style{Width: p.width(), Unicode: ok && term.IsTerminal(int(f.Fd())) && terminal.Unicode()}
}

// width is how wide pages are printed: as wide as the terminal is, where there is
// one.
func (p *program) width() int {
	if f, ok := p.stdout.(*os.File); ok {
		if columns, _, err := term.GetSize(int(f.Fd())); err == nil && columns > 0 {
			return min(columns, report.Widest)
		}
	}
	return report.Width
}

// printJSON writes a value to standard output, indented.
func (p *program) printJSON(v any) error {
	enc := json.NewEncoder(p.stdout)
	enc.SetIndent("", "  ")
	enc.SetEscapeHTML(false)
	if err := enc.Encode(v); err != nil {
		return systemFailed(err)
	}
	return nil
}

// exactly refuses any other number of arguments, naming what is expected.
func exactly(n int, what string) cobra.PositionalArgs { return between(n, n, what) }

// between refuses fewer arguments and more.
func between(least, most int, what string) cobra.PositionalArgs {
	return func(cmd *cobra.Command, args []string) error {
		if len(args) >= least && len(args) <= most {
			return nil
		}
		return takes(cmd, what)
	}
}

// takes says what a command takes.
func takes(cmd *cobra.Command, what string) error {
	return wrongUsage(words.Fail("command.takes", "command", cmd.CommandPath(), "what", what))
}
