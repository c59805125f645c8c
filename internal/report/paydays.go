package report

import (
	"example.com/plumbline/internal/certificate"
	"example.com/plumbline/internal/money"
)

// mostBars is how many paydays are drawn one by one; a year of more is drawn by
// months.
const mostBars = 14

// Paydays is the year as a chart of paydays, as it is beside the advice.
func (w Writer) Paydays(r certificate.Result) Page {
	p := w.page(PaydaysPage, r, w.say("page.paydays.title", "year", r.TaxYear))
	p.add(w.chart(r)...)
	return p
}

// chart is the federal income tax withheld by each payday or month: each bar is
// what has been withheld by then on the certificates on file, and on the
// recommended ones, drawn against what paychecks must withhold over the year.
func (w Writer) chart(r certificate.Result) []Block {
	days := r.Paydays()
	if len(days) == 0 {
		return nil
	}
	o := r.Recommended.Outlook
	meet := o.TotalTax.Sub(o.RefundableCredits).Sub(o.OtherPayments).OrZero()
	same := r.Recommended.NothingToHandIn()
	c := Chart{
		Done: w.say("page.paydays.done"), Both: w.say("page.paydays.both"),
		Goal: w.say("page.paydays.goal", "amount", meet), Mark: meet,
		Head: [3]string{w.say("page.paydays.by"), w.say("page.year.now"), w.say("page.year.then")},
	}
	if same {
		c.Both, c.Head[2] = w.say("page.paydays.to_come"), ""
	}
	a, b := o.WithheldSoFar, o.WithheldSoFar
	bar := func(label string) {
		row := Bar{Label: label, Done: o.WithheldSoFar, A: a, B: b, FigureA: w.dollars(a), FigureB: w.dollars(b)}
		if same {
			row.FigureB = ""
		}
		if a.More(b) {
			c.OnlyA = w.say("page.paydays.only_now")
		} else if b.More(a) {
			c.OnlyB = w.say("page.paydays.only_then")
		}
		c.Rows = append(c.Rows, row)
	}
	bar(w.say("page.paydays.so_far"))
	monthly := len(days) > mostBars
	for i, d := range days {
		a, b = a.Add(d.OnFile), b.Add(d.Planned)
		switch {
		case !monthly:
			bar(w.say("page.paydays.day", "date", d.Date))
		case i+1 == len(days) || days[i+1].Date.Month != d.Date.Month:
			bar(w.say("page.paydays.month", "date", d.Date))
		}
	}
	return []Block{Paragraph(w.say("page.paydays.explain")), c}
}

// most is the longest bar of a chart, its mark with it.
func (c Chart) most() money.Amount {
	most := c.Mark
	for _, r := range c.Rows {
		most = money.Max(most, r.A, r.B)
	}
	return most
}
