package report

import (
	"fmt"
	"strings"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/payroll"
	"example.com/plumbline/internal/tax"
	"example.com/plumbline/internal/words"
	"example.com/plumbline/internal/worksheet"
)

// Tax is the year's return, line by line: only lines that hold an amount, in
// the return's order. With why, each line shows its arithmetic and source.
func Tax(r tax.Return, s *worksheet.Sheet, why bool) Page {
	p := Page{
		Title:    fmt.Sprintf("Federal income tax, %d", r.Year),
		Subtitle: "Filing status: " + statusWords[r.Status],
	}
	p.add(sheetRows(s, why))
	p.add(notes(s.Notes)...)
	p.add(Paragraph(estimateCaution))
	return p
}

// sheetRows are a sheet's lines that hold an amount.
func sheetRows(s *worksheet.Sheet, why bool) Rows {
	var rows Rows
	for _, l := range s.Lines {
		if l.Amount.IsZero() {
			continue
		}
		row := Row{Label: l.Label, Amount: shown(l), Form: shortForm(l.Form)}
		if why {
			row.Detail = detail(l)
		}
		rows = append(rows, row)
	}
	return rows
}

// shown is a line's amount. The balance has no sign: its label says whether it
// is due or comes back.
func shown(l worksheet.Line) string {
	if l.ID == "year.balance" {
		return l.Amount.Abs().Grouped()
	}
	return l.Amount.Grouped()
}

// detail is a line's arithmetic and source.
func detail(l worksheet.Line) []string {
	var d []string
	if how := l.How.String(); how != "" {
		d = append(d, how)
	}
	if l.Source != "" {
		d = append(d, l.Source)
	}
	return d
}

// shortForm leaves out what every line of the return has in common.
func shortForm(form string) string {
	form = strings.TrimPrefix(form, "Form 1040 ")
	return strings.Replace(form, "Schedule ", "Sch. ", 1)
}

// notes are assumptions and cautions, as a list under a heading.
func notes(ns []worksheet.Note) []Block {
	if len(ns) == 0 {
		return nil
	}
	var list List
	for _, n := range ns {
		list.Items = append(list.Items, n.Message)
	}
	return []Block{Heading("To know"), list}
}

// Paycheck is what payroll withholds from one paycheck, step by step.
func Paycheck(check payroll.Paycheck, c household.Certificate, year int, withheld money.Amount, stub payroll.Stub, s *worksheet.Sheet) Page {
	p := Page{
		Title:    fmt.Sprintf("Federal income tax to withhold from one %s paycheck, %d", check.Frequency, year),
		Subtitle: "Certificate: " + certificateWords(c),
	}
	rows := Rows{}
	for _, l := range s.Lines {
		row := Row{Label: l.Label, Amount: l.Amount.Grouped(), Form: lineName(l)}
		if how := l.How.String(); how != "" {
			row.Detail = []string{how}
		}
		rows = append(rows, row)
	}
	rows = append(rows, Row{Label: "Withheld", Amount: withheld.Grouped(), Total: true})
	p.add(rows)
	say := func(code string) string { return words.English().Say(words.T("paycheck." + code)) }
	p.add(Heading(say("stub")), Rows{
		{Label: say("pay"), Amount: check.Wages.Grouped()},
		{Label: say("income_tax"), Amount: withheld.Grouped()},
		{Label: say("social_security"), Amount: stub.SocialSecurity.Grouped()},
		{Label: say("medicare"), Amount: stub.Medicare.Grouped()},
		{Label: say("take_home"), Amount: stub.TakeHome.Grouped(), Total: true},
	}, Paragraph(say("before_state")))
	p.add(notes(s.Notes)...)
	return p
}

// lineName is the part of a line's form reference from "line" on.
func lineName(l worksheet.Line) string {
	if i := strings.LastIndex(l.Form, "line "); i >= 0 {
		return l.Form[i:]
	}
	return ""
}
