package main

import (
	"errors"
	"fmt"

	"github.com/spf13/cobra"

	"example.com/plumbline/internal/certificate"
	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/report"
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
		Use:   "certificate FILE",
		Short: "The entries to write on each certificate, and the year they lead to",
		Long: `Reads the answers in FILE and prints what to write on each Form W-4, the year
before and after, the other plans, and January's certificate. FILE - is standard
input.

--pages prints a page for each employer, which holds only what that employer may
see, and one for the person alone; --pdf writes the same as a PDF. --fill takes
the fillable Form W-4 that you got from your employer or the tax agency and
writes a filled copy for each job; your name, address, number, signature and
date stay empty.`,
		Args: exactly(1, "an answers file"),
		RunE: func(cmd *cobra.Command, args []string) error { return p.certificate(args[0], f) },
	}
	fl := cmd.Flags()
	fl.BoolVar(&f.asJSON, "json", false, "print JSON")
	fl.BoolVar(&f.markdown, "markdown", false, "print Markdown")
	fl.BoolVar(&f.pages, "pages", false, "print the pages to hand over and to keep")
	fl.BoolVar(&f.all, "all", false, "print everything: the other plans, the paydays, what was assumed, other ways")
	fl.BoolVar(&f.plans, "plans", false, "print the plans only")
	fl.StringVar(&f.plan, "plan", "", "take the certificates of this `PLAN` instead of the recommended one")
	fl.StringVar(&f.pdf, "pdf", "", "write the pages to hand over and to keep to `OUT.pdf`")
	fl.StringVar(&f.fill, "fill", "", "fill the official form `BLANK.pdf`")
	fl.StringVarP(&f.out, "out", "o", "", "with --fill, write the filled form to `OUT.pdf`")
	fl.BoolVar(&f.force, "force", false, "replace files that are there already")
	cmd.MarkFlagsMutuallyExclusive("json", "markdown")
	cmd.MarkFlagsMutuallyExclusive("json", "pages")
	return cmd
}

func (p *program) certificate(name string, f certificateFlags) error {
	if (f.fill == "") != (f.out == "") {
		return wrongUsage(errors.New("--fill BLANK.pdf and -o OUT.pdf go together"))
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
			return wrongUsage(fmt.Errorf("--plan: %w", err))
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
		return p.printJSON(r)
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
