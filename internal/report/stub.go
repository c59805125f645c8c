package report

import (
	"fmt"

	"example.com/plumbline/internal/paystub"
)

// mostExplanations is how many explanations of a stub are printed.
const mostExplanations = 4

// Stubs is each job's pay stub held against the certificate on file: what should
// be on it, what is, what would explain the difference, and what to ask payroll.
func Stubs(stubs []paystub.Stub) Page {
	p := Page{
		Title:    "Your pay stubs, checked",
		Subtitle: "What payroll should have withheld by the certificate in your answers, beside what the stub shows. Amounts are dollars.",
	}
	for _, s := range stubs {
		p.AsOf = s.Payday
		p.add(Heading(shortName(s.Name)), Paragraph(stubBasis(s)))
		p.add(questions(s)...)
		p.add(stubTable(s))
		p.add(stubVerdict(s)...)
	}
	p.add(Paragraph(estimateCaution))
	return p
}

func stubBasis(s paystub.Stub) string {
	if s.Basis == "year_to_date" {
		return fmt.Sprintf("The year so far through %s, %s.", s.Payday.Long(), counted(s.Paychecks, "paycheck", "paychecks"))
	}
	if s.Payday.IsZero() {
		return "The last paycheck."
	}
	return fmt.Sprintf("The paycheck of %s.", s.Payday.Long())
}

// questions are figures of the stub that cannot be right together.
func questions(s paystub.Stub) []Block {
	var list List
	for _, q := range s.Questions {
		list.Items = append(list.Items, q.Message)
	}
	if len(list.Items) == 0 {
		return nil
	}
	return []Block{Paragraph("These figures do not fit together:"), list}
}

func stubTable(s paystub.Stub) Table {
	t := Table{Head: []string{"", "should be", "on the stub", "apart"}}
	row := func(label string, c paystub.StubCheck) {
		t.Rows = append(t.Rows, []string{label, c.Expected.Grouped(), c.Actual.Grouped(), apart(c)})
	}
	if unread(s) {
		t.Rows = append(t.Rows, []string{"Federal income tax", "not known", s.FederalTax.Actual.Grouped(), ""})
	} else {
		row("Federal income tax", s.FederalTax)
	}
	if s.SocialSecurity != nil {
		row("Social security tax", *s.SocialSecurity)
	}
	if s.Medicare != nil {
		row("Medicare tax", *s.Medicare)
	}
	return t
}

// unread reports whether the stub's figures do not fit together, so that what
// should be on it is not known.
func unread(s paystub.Stub) bool {
	return !s.FederalTax.Right && len(s.Questions) > 0 && len(s.Explanations) == 0 && s.FederalTax.Expected.IsZero()
}

func apart(c paystub.StubCheck) string {
	if c.Right {
		return "right"
	}
	if c.Actual.More(c.Expected) {
		return c.Actual.Sub(c.Expected).Grouped() + " too much"
	}
	return c.Expected.Sub(c.Actual).Grouped() + " too little"
}

// stubVerdict is what would explain the stub, and what to ask.
func stubVerdict(s paystub.Stub) []Block {
	var blocks []Block
	switch {
	case s.FederalTax.Right:
		blocks = append(blocks, Paragraph("The federal income tax is what the certificate asks for."))
	case len(s.Explanations) > 0:
		list := List{Numbered: true}
		for _, e := range s.Explanations[:min(len(s.Explanations), mostExplanations)] {
			list.Items = append(list.Items, explanation(e))
		}
		blocks = append(blocks, Paragraph("What would explain the federal income tax, the most exact first:"), list)
	case !unread(s):
		blocks = append(blocks, Paragraph("None of the usual causes explains the federal income tax."))
	}
	for _, c := range []struct {
		name  string
		check *paystub.StubCheck
	}{{"Social security tax", s.SocialSecurity}, {"Medicare tax", s.Medicare}} {
		if c.check != nil && c.check.Why != "" {
			blocks = append(blocks, Paragraph(c.name+": "+sentence(c.check.Why)))
		}
	}
	switch {
	case unread(s):
		blocks = append(blocks, Paragraph(sentence(s.Ask)))
	case s.Ask != "":
		blocks = append(blocks, Paragraph("What to ask payroll: "+sentence(s.Ask)))
	}
	return blocks
}

func explanation(e paystub.Explanation) string {
	off := "exactly the stub's figure"
	if !e.Exact {
		off = e.Off.Grouped() + " away from the stub's figure"
	}
	s := fmt.Sprintf("%s That makes %s, %s.", sentence(e.What), e.Figure.Grouped(), off)
	if e.Allowed {
		s += " Payroll may do so: nothing to put right."
	}
	return s
}
