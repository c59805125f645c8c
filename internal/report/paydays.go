package report

import (
	"fmt"
	"slices"

	"example.com/plumbline/internal/certificate"
	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/payroll"
)

// mostBars is how many paydays are drawn one by one; a year of more is drawn by
// months.
const mostBars = 27

// Paydays is the year as a chart of paydays on the recommended plan: withheld
// so far, still to come, and the tax to meet.
func Paydays(r certificate.Result) Page {
	p := Page{
		AsOf:     r.Household.AsOf,
		Title:    fmt.Sprintf("The paydays of %d", r.TaxYear),
		Subtitle: "On the " + standing(r) + " certificates.",
	}
	p.add(paydays(r)...)
	p.add(Paragraph(estimateCaution))
	return p
}

// paydays is the chart: each bar is what has been withheld by a day, drawn
// against what paychecks must withhold over the year.
func paydays(r certificate.Result) []Block {
	days := withheldByDay(r)
	if len(days) == 0 {
		return nil
	}
	o := r.Recommended.Outlook
	meet := o.TotalTax.Sub(o.RefundableCredits).Sub(o.OtherPayments).OrZero()
	bars := Bars{Legend: []string{
		"withheld so far",
		"withheld on the paydays to come",
		"not withheld yet of the tax that paychecks have to meet, " + meet.Grouped(),
	}}
	bar := func(label string, toCome money.Amount) {
		by := o.WithheldSoFar.Add(toCome)
		bars.Rows = append(bars.Rows, Bar{
			Label: label, Figure: by.Grouped(),
			Parts: []money.Amount{o.WithheldSoFar, toCome, meet.Sub(by).OrZero()},
		})
	}
	monthly := len(days) > mostBars
	bar("so far", money.Zero)
	sum := money.Zero
	for i, d := range days {
		sum = sum.Add(d.tax)
		month := d.date.Month.String()[:3]
		switch {
		case !monthly:
			bar(fmt.Sprintf("%s %2d", month, d.date.Day), sum)
		case i+1 == len(days) || days[i+1].date.Month != d.date.Month:
			bar(month, sum)
		}
	}
	return []Block{
		Heading("The paydays of the year"),
		Paragraph("Federal income tax withheld by each day, all jobs together:"),
		bars,
	}
}

// dayTax is the federal income tax withheld on one day.
type dayTax struct {
	date household.Date
	tax  money.Amount
}

// withheldByDay is what the recommended plan withholds on each day to come, all
// jobs together, in order.
func withheldByDay(r certificate.Result) []dayTax {
	var days []dayTax
	for _, i := range r.Household.CountedJobs() {
		onFile := payroll.OnFile{Now: r.Household.Jobs[i].Certificate}
		for _, c := range r.Recommended.Certificates {
			if c.Job == i {
				onFile.New, onFile.From = &c.Certificate, c.FirstPayday
			}
		}
		for _, e := range payroll.NewJobYear(r.Household, i, r.Tables).Ledger(onFile) {
			days = append(days, dayTax{e.Date, e.FederalTax})
		}
	}
	slices.SortStableFunc(days, func(a, b dayTax) int { return a.date.Compare(b.date) })
	var merged []dayTax
	for _, d := range days {
		if n := len(merged); n > 0 && merged[n-1].date == d.date {
			merged[n-1].tax = merged[n-1].tax.Add(d.tax)
			continue
		}
		merged = append(merged, d)
	}
	return merged
}
