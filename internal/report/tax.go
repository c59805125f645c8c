package report

import (
	"regexp"
	"strings"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/payroll"
	"example.com/plumbline/internal/tax"
	"example.com/plumbline/internal/worksheet"
)

// Tax is the year's return, line by line: only lines that hold an amount, in
// the return's order. With why, each line shows its arithmetic and source.
func (w Writer) Tax(r tax.Return, s *worksheet.Sheet, why bool) Page {
	p := Page{
		Title:    w.say("page.tax.title", "year", r.Year),
		Subtitle: w.say("page.tax.subtitle", "status", w.status(r.Status)),
	}
	p.add(w.sheetRows(s, why))
	p.add(w.notes(s.Notes)...)
	p.add(w.estimate())
	return p
}

// sheetRows are a sheet's lines that hold an amount, and the total tax, which is
// said also when there is none.
func (w Writer) sheetRows(s *worksheet.Sheet, why bool) Rows {
	var rows Rows
	for _, l := range s.Lines {
		if l.Amount.IsZero() && l.ID != "tax.total_tax" {
			continue
		}
		row := Row{Label: l.Said(w.language), Amount: shown(l), Form: w.formPlace(l.Form)}
		if why {
			row.Detail = w.detail(l)
		}
		rows = append(rows, row)
	}
	return rows
}

// shown is a line's amount. The balance has no sign: its label says whether it
// is due or comes back.
func shown(l worksheet.Line) string {
	switch {
	case l.ID == "year.balance":
		return l.Amount.Abs().Grouped()
	case l.Unit == worksheet.Count:
		return l.Amount.Text()
	case l.Unit == worksheet.Percent:
		return l.Amount.Text() + "%"
	}
	return l.Amount.Grouped()
}

// detail is a line's arithmetic and source.
func (w Writer) detail(l worksheet.Line) []string {
	var d []string
	if how := l.How.In(w.language); how != "" {
		d = append(d, how)
	}
	if l.Source != "" {
		d = append(d, l.Source)
	}
	return d
}

// formPlace is a line's place on the official form, without what every line of
// the return has in common. Names of forms stay as they are in every language.
func (w Writer) formPlace(form string) string {
	form = strings.TrimPrefix(form, "Form 1040 ")
	form = strings.Replace(form, "Schedule ", "Sch. ", 1)
	return formWord.ReplaceAllStringFunc(form, func(word string) string { return w.say("page.form_word." + word) })
}

// formWord is what of a place on a form is no name.
var formWord = regexp.MustCompile(`\b(lines?|section)\b`)

// Paycheck is what payroll withholds from one paycheck.
type Paycheck struct {
	Check        payroll.Paycheck
	Certificate  household.Certificate
	Given        []string // lines of the certificate ("4c") that were given an amount, zero too
	Year         int
	Withheld     money.Amount
	Stub         payroll.Stub
	WithoutExtra *payroll.Stub // the stub without Step 4(c); nil where nothing is there
	Sheet        *worksheet.Sheet
}

// Paycheck is what payroll withholds from one paycheck, step by step, and its
// stub. What was given as zero is named beside what is on the certificate: a
// shell makes a zero of $50.
func (w Writer) Paycheck(c Paycheck) Page {
	check, stub, s := c.Check, c.Stub, c.Sheet
	p := Page{
		Title:    w.say("page.paycheck.title", "frequency", w.say("page.frequency."+check.Frequency.String()), "year", c.Year),
		Subtitle: w.say("page.paycheck.subtitle", "entries", w.inOneLine(c.Certificate, c.Given...)),
	}
	rows := Rows{}
	for _, l := range s.Lines {
		row := Row{Label: l.Said(w.language), Amount: shown(l), Form: w.formPlace(lineName(l))}
		if how := l.How.In(w.language); how != "" {
			row.Detail = []string{how}
		}
		rows = append(rows, row)
	}
	rows = append(rows, Row{Label: w.say("page.paycheck.withheld"), Amount: c.Withheld.Grouped(), Total: true})
	p.add(rows)
	pay := Rows{{Label: w.say("paycheck.pay"), Amount: check.Wages.Grouped()}}
	if saved := stub.SocialWages.Sub(check.Wages); saved.IsPositive() {
		pay = append(pay,
			Row{Label: w.say("paycheck.retirement"), Amount: saved.Grouped()},
			Row{Label: w.say("paycheck.social_pay"), Amount: stub.SocialWages.Grouped()})
	}
	p.add(Heading(w.say("paycheck.stub")), append(pay, Rows{
		{Label: w.say("paycheck.income_tax"), Amount: c.Withheld.Grouped()},
		{Label: w.say("paycheck.social_security"), Amount: stub.SocialSecurity.Grouped()},
		{Label: w.say("paycheck.medicare"), Amount: stub.Medicare.Grouped()},
		{Label: w.say("paycheck.take_home"), Amount: stub.TakeHome.Grouped(), Total: true},
	}...))
	if c.WithoutExtra != nil {
		p.add(Paragraph(w.say("paycheck.without_extra", "amount", c.WithoutExtra.TakeHome)))
	}
	p.add(Paragraph(w.say("paycheck.before_state")))
	p.add(w.notes(s.Notes)...)
	return p
}

// lineName is the part of a line's form reference from "line" on.
func lineName(l worksheet.Line) string {
	if i := strings.LastIndex(l.Form, "line "); i >= 0 {
		return l.Form[i:]
	}
	return ""
}
