package certificate

import (
	"strings"
	"testing"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/words"
	"example.com/plumbline/internal/worksheet"
)

// oneJob is one single person's job in the year's answers.
func oneJob(asOf, job string) string {
	return "format: 1\ntax_year: 2026\nas_of: " + asOf + "\nfiling_status: single\nself: {birth_date: 1990-06-01}\njobs:\n  - {name: Mill, " + job + "}\n"
}

// A job that pays nothing at all is the first thing to know; one that pays once
// a year is not such a job.
func TestNoPayIsSaidFirst(t *testing.T) {
	r := solvedText(t, oneJob("2026-03-02", "pay_frequency: biweekly, first_payday: 2026-01-09"))
	if len(r.Warnings) == 0 || r.Warnings[0].Code != "job.no_pay" || !strings.HasPrefix(r.Warnings[0].Said(words.English()), "Mill: ") || warned(r, "no_stub") != "" {
		t.Errorf("warned %+v", r.Warnings)
	}
	for _, pays := range []string{"gross_pay: 900", "one_time_pay: [{payday: 2026-12-11, amount: 900}]", "year_to_date: {payday: 2026-02-20, taxable_pay: 900, federal_tax: 5}"} {
		if m := warned(solvedText(t, oneJob("2026-03-02", "pay_frequency: biweekly, first_payday: 2026-01-09, "+pays)), "job.no_pay"); m != "" {
			t.Errorf("%s: warned %q", pays, m)
		}
	}
}

// Paydays behind the day of the answers, without a stub, are an assumption.
func TestPastPaydaysWithoutAStubAreNamed(t *testing.T) {
	const job = "pay_frequency: biweekly, taxable_pay: 2000, first_payday: 2026-01-09, certificate: {filing_status: single}"
	if m := warned(solvedText(t, oneJob("2026-02-06", job)), "no_stub"); !strings.Contains(m, "2 paydays before February 6") {
		t.Errorf("warned %q", m)
	}
	if m := warned(solvedText(t, oneJob("2026-01-09", job)), "no_stub"); m != "" {
		t.Errorf("no payday has passed; warned %q", m)
	}
	stub := ", year_to_date: {payday: 2026-01-23, taxable_pay: 4000, federal_tax: 300}"
	if m := warned(solvedText(t, oneJob("2026-02-06", job+stub)), "no_stub"); m != "" {
		t.Errorf("there is a stub; warned %q", m)
	}
}

// IRC 3402(f)(3)(B)(i): a replacement must count from the first payroll period
// that ends on or after the 30th day. Handed in on December 2 that day is
// January 1: the biweekly paydays are December 4, 18 and 31 and January 15, so
// that no payday of the year is safe. A job that ends has no later payday.
// Handed in on November 25 it is December 25, and December 31 is safe.
func TestACertificateThatMayCountLate(t *testing.T) {
	const job = "pay_frequency: biweekly, taxable_pay: 4000, first_payday: 2026-01-02, year_to_date: {payday: 2026-11-20, taxable_pay: 96000, federal_tax: 9000}, certificate: {filing_status: single}"
	tests := []struct {
		asOf, more string
		by         household.Date
		lost       string // empty: not late
	}{
		{"2026-12-02", "", household.On(2027, 1, 15), "2 paydays"},
		{"2026-12-02", ", last_payday: 2026-12-18", household.On(2027, 1, 1), "1 payday"},
		{"2026-11-25", "", household.On(2026, 12, 31), ""},
		{"2026-11-18", "", household.On(2026, 12, 18), ""},
	}
	for _, tt := range tests {
		r := solvedText(t, oneJob(tt.asOf, strings.Replace(job, "certificate:", strings.TrimPrefix(tt.more+", ", ", ")+"certificate:", 1)))
		c, m := r.Recommended.Certificates[0], warned(r, "certificate.may_count_late")
		if c.Keep || c.FirstPayday != household.On(2026, 12, 18) || c.EffectiveBy != tt.by || (m != "") != (tt.lost != "") {
			t.Errorf("%+v: first %v, by law %v, warned %q", tt, c.FirstPayday, c.EffectiveBy, m)
		}
		if tt.lost != "" && !(strings.Contains(m, tt.by.Long()) && strings.Contains(m, tt.lost)) {
			t.Errorf("%+v: warned %q", tt, m)
		}
	}
}

// A correction that leaves almost nothing of a paycheck is not all that can be
// done: January 15 is the fourth due date (IRC 6654(c)(2)).
func TestLittleLeftNamesThePayment(t *testing.T) {
	const job = "pay_frequency: biweekly, taxable_pay: 2000, first_payday: 2026-01-02, year_to_date: {payday: 2026-11-20, taxable_pay: 48000, federal_tax: %}, certificate: {filing_status: single}"
	r := solvedText(t, oneJob("2026-11-25", strings.Replace(job, "%", "900", 1)))
	c, m := r.Recommended.Certificates[0], warned(r, "certificate.little_left")
	// FICA on 2,000 is 124.00 + 29.00 (IRC 3101(a), (b)).
	left := dollars(2000 - 153).Sub(c.Withholding)
	for _, want := range []string{left.Grouped(), "Form 1040-ES", "January 15, 2027", c.Certificate.Extra.Times(c.Paydays).Grouped()} {
		if !strings.Contains(m, want) {
			t.Errorf("extra %v, withholding %v, without %q: %q", c.Certificate.Extra, c.Withholding, want, m)
		}
	}
	if m := warned(solvedText(t, oneJob("2026-11-25", strings.Replace(job, "%", "3200", 1))), "certificate.little_left"); m != "" {
		t.Errorf("enough is left; warned %q", m)
	}
}

const oneParent = `
format: 1
tax_year: 2026
as_of: 2026-03-02
filing_status: head_of_household
self: {birth_date: 1990-06-01}
jobs:
  - {name: Mill, pay_frequency: biweekly, taxable_pay: 900, first_payday: 2026-01-09, year_to_date: {payday: 2026-02-20, taxable_pay: 3600, federal_tax: 0}, certificate: {filing_status: head_of_household}}
dependents: [{name: a, birth_date: 2018-02-02}, {name: b, birth_date: 2020-02-02}]
`

// A refund of refundable credits is not too much withheld (IRC 32, 24(d)). And
// where nothing is withheld either way, January asks for no other certificate.
func TestARefundOfCredits(t *testing.T) {
	r := solvedText(t, oneParent)
	if r.AsFiled.WithholdingToCome.IsPositive() || !r.AsFiled.Balance.IsPositive() {
		t.Fatalf("as filed %+v", r.AsFiled)
	}
	for _, s := range []string{r.Recommended.Reason, warned(r, "over_withheld")} {
		if !strings.Contains(s, "credits paid out whether tax was withheld or not") || strings.Contains(s, "too much") || strings.Contains(s, "withheld than") {
			t.Errorf("said: %s", s)
		}
	}
	if j := r.January; j == nil || !j.NothingToHandIn() || j.Certificates[0].Withholding.IsPositive() {
		t.Errorf("January %+v", j)
	}
}

// That no certificate can undo an excess is said only where no plan can: the
// private one lowers nothing.
func TestWhoseLimitAnExcessIs(t *testing.T) {
	over := oneJob("2026-08-03", "pay_frequency: biweekly, taxable_pay: 2600, first_payday: 2026-01-09, year_to_date: {payday: 2026-07-24, taxable_pay: 39000, federal_tax: %}, certificate: {filing_status: single}")
	if m := warned(solvedText(t, strings.Replace(over, "%", "9000", 1)), "over_withheld"); !strings.HasPrefix(m, "No certificate can undo") {
		t.Errorf("warned %q", m)
	}
	private := strings.Replace(over, "%", "5000", 1) + "wish: {tell_employer: extra_only}\n"
	if m := warned(solvedText(t, private), "over_withheld"); !strings.HasPrefix(m, "The certificates of this plan cannot undo") {
		t.Errorf("warned %q", m)
	}
}

// What goes into Step 3 beyond the credits is told in plain words, with the
// year it holds for (Publication 505, Worksheet 1-5, line 6).
func TestStep3BeyondCreditsIsTold(t *testing.T) {
	r := solvedText(t, strings.Replace(oneJob("2026-08-03", "pay_frequency: biweekly, taxable_pay: 2600, first_payday: 2026-01-09, year_to_date: {payday: 2026-07-24, taxable_pay: 39000, federal_tax: 4700}, certificate: {filing_status: single}"),
		"jobs:", "dependents: [{name: a, birth_date: 2018-02-02}]\njobs:", 1))
	e := r.Recommended.Certificates[0].Lines.L3
	more := e.Amount.Sub(dollars(2200)) // IRC 24(h)(2)
	want := e.Amount.GroupedDollars() + " in all: 2,200 of credits, and " + more.GroupedDollars() + " more because"
	if !more.IsPositive() || !strings.HasPrefix(e.Reason, want) || !strings.Contains(e.Reason, "It holds for 2026 only") || strings.Contains(e.Reason, "pay periods") {
		t.Errorf("Step 3 of %v: %s", e.Amount, e.Reason)
	}
	if reason := r.Trace.ExplainFrom(worksheetLine(e)); len(reason.From) != 2 {
		t.Errorf("comes from %+v, want the form's Step 3 and the plan's gap", reason.From)
	}
}

// worksheetLine is an entry as the line that explain begins at.
func worksheetLine(e Entry) worksheet.Line { return worksheet.Line{Amount: e.Amount, From: e.From} }
