package main

import (
	"fmt"

	"github.com/spf13/cobra"

	"example.com/plumbline/internal/certificate"
	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/report"
	"example.com/plumbline/internal/words"
)

// certificateFlags say in which shape the certificates are given.
type certificateFlags struct {
	asJSON, markdown, pages bool
	all, plans              bool
	force                   bool
	pdf, fill, out          string
	plan                    string
}

func (p *program) certificateCommand() *cobra.Command {
	var f certificateFlags
	cmd := &cobra.Command{
		Use:        "certificate",
		SuggestFor: []string{"form", "forms", "w4", "w-4"},
		Args:       exactly(1, "answers"),
		RunE:       func(cmd *cobra.Command, args []string) error { return p.certificate(args[0], f) },
	}
	fl := cmd.Flags()
	fl.BoolVar(&f.asJSON, "json", false, "")
	fl.BoolVar(&f.markdown, "markdown", false, "")
	fl.BoolVar(&f.pages, "pages", false, "")
	fl.BoolVar(&f.all, "all", false, "")
	fl.BoolVar(&f.plans, "plans", false, "")
	fl.StringVar(&f.plan, "plan", "", "")
	fl.StringVar(&f.pdf, "pdf", "", "")
	fl.StringVar(&f.fill, "fill", "", "")
	fl.StringVarP(&f.out, "out", "o", "", "")
	fl.BoolVar(&f.force, "force", false, "")
	return cmd
}

func (p *program) certificate(name string, f certificateFlags) error {
	if (f.fill == "") != (f.out == "") {
		return wrongUsage(words.Fail("command.fill_and_out"))
	}
	if f.asJSON && (f.markdown || f.pages) {
		other := "markdown"
		if f.pages {
			other = "pages"
		}
		return wrongUsage(words.Fail("command.together", "one", "json", "other", other))
	}
	h, doc, err := p.answers(name)
	if r, ok := p.withoutPay(doc, err); ok {
		return p.certificateWithoutPay(r, f)
	}
	if err != nil {
		return err
	}
	r, err := p.solve(h)
	if err != nil {
		return err
	}
	if f.plan != "" {
		if err := r.Choose(f.plan); err != nil {
			return wrongUsage(words.Fail("command.of_flag", "flag", "plan", "what", err))
		}
	}
	if f.fill != "" {
		if err := p.fillForms(r, f.fill, f.out, f.force); err != nil {
			return err
		}
	}
	if f.pdf != "" {
		if err := p.writePages(r, f.pdf, f.force); err != nil {
			return err
		}
	}
	switch {
	case f.asJSON:
		return p.printJSON(r.In(p.language))
	case f.pages:
		return p.printPages(p.pages().Handover(r), f.markdown)
	case f.fill != "" || f.pdf != "":
		return nil
	}
	page := p.pages().Certificate(r)
	switch {
	case f.all:
		page = p.pages().All(r)
	case f.plans:
		page = p.pages().Plans(r)
	}
	return p.printPages([]report.Page{page}, f.markdown)
}

// printPages writes pages to standard output, as text or Markdown, with an
// empty line between two.
func (p *program) printPages(pages []report.Page, markdown bool) error {
	for i, page := range pages {
		if i > 0 {
			fmt.Fprintln(p.stdout)
		}
		if !markdown {
			if err := p.print(page); err != nil {
				return err
			}
			continue
		}
		if err := p.pages().Markdown(p.stdout, page); err != nil {
			return systemFailed(err)
		}
	}
	return nil
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
