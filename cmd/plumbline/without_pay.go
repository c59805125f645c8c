package main

import (
	"bytes"
	"errors"
	"strings"

	"example.com/plumbline/internal/certificate"
	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/interview"
	"example.com/plumbline/internal/report"
	"example.com/plumbline/internal/yamldoc"
)

// withoutPay is what can be said of answers that the interview calls finished
// though they say nothing of pay: which boxes to check on a form that is else
// left blank. It reports false where the answers lack something else.
func (p *program) withoutPay(doc *yamldoc.Document, err error) (certificate.Result, bool) {
	var problems yamldoc.Problems
	if doc == nil || !errors.As(err, &problems) {
		return certificate.Result{}, false
	}
	for _, problem := range problems {
		if !problem.Missing() || !strings.HasSuffix(problem.Key, ".pay_frequency") {
			return certificate.Result{}, false
		}
	}
	day := p.today
	if text, ok := doc.Get("as_of"); ok { // that of the sitting, or the interview would ask what has changed since
		_ = day.UnmarshalText([]byte(text))
	}
	s, err := interview.Start(doc, interview.Env{Today: day, Tables: p.year, Language: p.language})
	if err != nil || !s.Blank() {
		return certificate.Result{}, false
	}
	r, err := s.Result()
	return r, err == nil
}

// blankResult is a result without pay as the machine interface has it: only what
// is known, under the names of a whole result, so that nothing missing reads as
// zero.
type blankResult struct {
	TaxYear     int        `json:"tax_year"`
	Language    string     `json:"language"`
	WithoutPay  bool       `json:"without_pay"`
	Message     string     `json:"message"`
	Recommended *blankPlan `json:"recommended,omitempty"`
}

type blankPlan struct {
	Plan         string      `json:"plan"`
	Reason       string      `json:"reason"`
	Certificates []blankForm `json:"certificates"`
}

type blankForm struct {
	Job          string                      `json:"job"`
	Kind         string                      `json:"kind"`
	Status       household.CertificateStatus `json:"filing_status"`
	MultipleJobs bool                        `json:"multiple_jobs"`
	Exempt       bool                        `json:"exempt"`
}

// sayWithoutPay says what a command cannot tell of answers without pay, and
// where to go instead.
func (p *program) sayWithoutPay(r certificate.Result, file string, asJSON bool) error {
	if file == "-" {
		file = "FILE"
	}
	message := p.say("command.without_pay.message", "file", yamldoc.Printable(file))
	if asJSON {
		return p.printJSON(blankResult{TaxYear: r.TaxYear, Language: p.language.Tag(), WithoutPay: true, Message: message})
	}
	return p.print(report.Page{AsOf: r.Household.AsOf, Title: p.say("command.without_pay.title", "year", r.TaxYear), Blocks: []report.Block{report.Paragraph(message)}})
}

// certificateWithoutPay gives the form with its filing status alone, in the shape
// asked for.
func (p *program) certificateWithoutPay(r certificate.Result, f certificateFlags) error {
	if f.fill != "" {
		if err := p.fillForms(r, f.fill, f.out, f.force); err != nil {
			return err
		}
	}
	pages := p.pages().BlankPages(r)
	if f.pdf != "" {
		var b bytes.Buffer
		if err := p.pages().PDF(&b, pages); err != nil {
			return systemFailed(err)
		}
		if err := writeFile(f.pdf, b.Bytes(), f.force); err != nil {
			return err
		}
		p.tell("files.wrote", "file", f.pdf)
	}
	switch {
	case f.asJSON:
		plan := &blankPlan{Plan: r.Recommended.Name, Reason: p.language.Say(r.Recommended.Reason)}
		for _, c := range r.Recommended.Certificates {
			plan.Certificates = append(plan.Certificates, blankForm{c.Name, c.Kind.String(), c.Certificate.Status, c.Certificate.MultipleJobs, c.Certificate.Exempt})
		}
		return p.printJSON(blankResult{r.TaxYear, p.language.Tag(), true, p.say("page.verdict.blank"), plan})
	case f.fill != "" || f.pdf != "":
		return nil
	}
	return p.printPages(pages, f.markdown)
}
