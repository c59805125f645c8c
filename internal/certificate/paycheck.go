package certificate

import (
	"fmt"

	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/payroll"
	"example.com/plumbline/internal/words"
	"example.com/plumbline/internal/worksheet"
)

// Paycheck is what payroll withholds from an ordinary paycheck under one of the
// result's certificates, line by line as "payroll.1a" to "payroll.4b", with the
// entries that its lines name, and the trace that these came from.
func (r Result) Paycheck(c JobCertificate) *worksheet.Sheet {
	s := new(worksheet.Sheet)
	s.Append(r.Trace)
	p := payroll.NewJobYear(r.Household, c.Job, r.Tables).Paycheck()
	var from []string
	for _, answer := range r.Household.Jobs[c.Job].OrdinaryPayAnswers() {
		from = append(from, fmt.Sprintf("jobs[%d].%s", c.Job, answer))
	}
	s.Add(worksheet.Line{
		ID: "taxable_pay", Amount: p.Wages,
		From: from,
	})
	for _, e := range []struct {
		id    string
		entry Entry
	}{
		{"certificate.credits", c.Lines.L3},
		{"certificate.other_income", c.Lines.L4a},
		{"certificate.deductions", c.Lines.L4b},
		{"certificate.extra", c.Lines.L4c},
	} {
		s.Add(worksheet.Line{
			ID: e.id, Name: words.T("line.of_certificate", "line", e.entry.Line), Amount: e.entry.Amount,
			How: worksheet.Worded(e.entry.Reason), From: e.entry.From, Source: e.entry.Source,
		})
	}
	payroll.Withholding(p, &c.Certificate, r.Tables, payroll.Options{}, s)
	return s
}

// traceOutlook writes down how the year ends, on the certificates "advised" or
// "on_file".
func (pr *projection) traceOutlook(o Outlook, on string) {
	if pr.trace == nil {
		return
	}
	add := func(id, form string, name words.Text, amount money.Amount, how words.Text, from ...string) {
		pr.trace.Add(worksheet.Line{ID: "year." + id, Form: form, Name: name, Amount: amount, How: worksheet.Worded(how), From: from, Source: "IRC 31, 6315"})
	}
	add("withheld_so_far", "", words.Text{}, o.WithheldSoFar, words.Text{}, "jobs.year_to_date.federal_tax")
	add("withholding_to_come", "", words.T("line.year.withholding_to_come", "on", on), o.WithholdingToCome, words.T("how.paydays_added"), "jobs.taxable_pay", "jobs.certificate")
	from := []string{"year.withheld_so_far", "year.withholding_to_come"}
	if o.OtherPayments.IsPositive() {
		add("other_payments", "", words.Text{}, o.OtherPayments, words.T("how.other_payments"), "payments")
		from = append(from, "year.other_payments")
	}
	if o.RefundableCredits.IsPositive() {
		from = append(from, "tax.refundable_credits")
	}
	name, form := words.T("line.year.refund", "on", on), "Form 1040 line 34"
	if o.Balance.IsNegative() {
		name, form = words.T("line.year.due", "on", on), "Form 1040 line 37"
	}
	add("balance", form, name, o.Balance,
		words.T("how.balance", "so_far", o.WithheldSoFar, "to_come", o.WithholdingToCome, "paid", o.OtherPayments, "credits", o.RefundableCredits, "tax", o.TotalTax),
		append(from, "tax.total_tax")...)
}
