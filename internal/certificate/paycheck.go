package certificate

import (
	"fmt"

	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/payroll"
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
		ID: "taxable_pay", Label: "Taxable pay of an ordinary paycheck", Amount: p.Wages,
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
			ID: e.id, Label: "Step " + e.entry.Line + " of the certificate", Amount: e.entry.Amount,
			How: worksheet.Worded(e.entry.Reason), From: e.entry.From, Source: e.entry.Source,
		})
	}
	payroll.Withholding(p, &c.Certificate, r.Tables, payroll.Options{}, s)
	return s
}

// traceOutlook writes down how the year ends: on which certificates, in words.
func (pr *projection) traceOutlook(o Outlook, on string) {
	if pr.trace == nil {
		return
	}
	add := func(id, form, label string, amount money.Amount, how worksheet.How, from ...string) {
		pr.trace.Add(worksheet.Line{ID: "year." + id, Form: form, Label: label, Amount: amount, How: how, From: from, Source: "IRC 31, 6315"})
	}
	add("withheld_so_far", "", "Withheld through the last pay stubs", o.WithheldSoFar, worksheet.How{}, "jobs.year_to_date.federal_tax")
	add("withholding_to_come", "", "Withheld on the paydays to come, "+on, o.WithholdingToCome,
		worksheet.Using("payroll's figures for every payday to come, added up"), "jobs.taxable_pay", "jobs.certificate")
	from := []string{"year.withheld_so_far", "year.withholding_to_come"}
	if o.OtherPayments.IsPositive() {
		add("other_payments", "", "Paid otherwise", o.OtherPayments,
			worksheet.Using("estimated tax, other withholding, and social security and additional Medicare tax that count as paid"), "payments")
		from = append(from, "year.other_payments")
	}
	if o.RefundableCredits.IsPositive() {
		from = append(from, "tax.refundable_credits")
	}
	label, form := "Refund", "Form 1040 line 34"
	if o.Balance.IsNegative() {
		label, form = "Amount due", "Form 1040 line 37"
	}
	add("balance", form, label+", "+on, o.Balance,
		worksheet.Using("%v + %v + %v paid otherwise + %v of refundable credits - %v of tax", o.WithheldSoFar, o.WithholdingToCome, o.OtherPayments, o.RefundableCredits, o.TotalTax),
		append(from, "tax.total_tax")...)
}
