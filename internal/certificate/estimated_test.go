package certificate

import (
	"slices"
	"strings"
	"testing"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/tax"
	"example.com/plumbline/internal/words"
)

// says reports whether the verdict of a result has a sentence.
func says(r Result, code string) bool {
	return slices.ContainsFunc(r.Verdict.Sentences, func(t words.Text) bool { return t.Code == code })
}

// Only the required annual payment has to be there in the year; what is owed
// beyond it is paid with the return.
//
// Taxable income of 67,600 - 16,100 = 51,500, in the row of the Tax Table that is
// taxed at its middle, 51,525: 10% of 12,400, 12% of 38,000 and 22% of 1,125, which
// is 6,047.50, printed 6,048. Nine tenths of it are 5,443.20 and have to be there by
// January 15; the other 604.80 can wait until April 15. Of 5,443.20, what is withheld
// is there already; the payment is rounded up to whole dollars.
//
// IRC 6654(d)(1)(B)(i), 6072(a), 6151(a).
func TestTwoPayments(t *testing.T) {
	const december = "format: 1\ntax_year: 2026\nas_of: 2026-12-01\nfiling_status: single\njobs:\n  - {name: Mill, pay_frequency: biweekly, taxable_pay: 2600, first_payday: 2026-01-09, year_to_date: {payday: 2026-11-27, taxable_pay: 62400, federal_tax: 2800}, certificate: {filing_status: single, deductions: 36000}}\n"
	r := solvedText(t, december)
	paid, all := money.Sum(r.AsFiled.WithheldSoFar, r.AsFiled.WithholdingToCome), money.MustParse("6048")
	soon := money.MustParse("5443.20").Sub(paid).DollarUp()
	rest := all.Sub(paid).Sub(soon)
	d := r.Verdict.PayDirectly
	if !r.Return.TotalTax.Equal(all) || len(d.Parts) != 2 || !d.WithReturn.Equal(rest) || !d.Amount.Equal(soon.Add(rest)) ||
		d.Parts[0].Due != household.On(2027, 1, 15) || !d.Parts[0].Amount.Equal(soon) || d.Parts[1].Due != household.On(2027, 4, 15) || !d.Parts[1].Amount.Equal(rest) {
		t.Errorf("tax %v, pay %+v, want %v and %v", r.Return.TotalTax, d, soon, rest)
	}
	if last := r.Verdict.Sentences[1]; last.Code != "certificate.verdict.pay_and_rest" {
		t.Errorf("said %v", last)
	}

	// No penalty falls on what waits: all of it in January costs as much.
	pr := newProjection(r.Household, r.Tables, nil)
	early := Estimated{Amount: d.Amount, Payments: installments(d.Amount, r.Household.AsOf, r.Tables)}
	if all := pr.underpayment(r.Recommended, early).PenaltyIfPaid; !all.Equal(r.Underpayment.PenaltyIfPaid) {
		t.Errorf("a penalty of %v, %v where all is paid in January", r.Underpayment.PenaltyIfPaid, all)
	}

	// Paid today, 45 days before January 15, three quarters of what is missing bear no
	// interest of 7% for these days (IRC 6654(a), (b)); both sums are rounded to the cent.
	saved := money.MustParse("5443.20").Sub(paid).Times(3).DividedBy(4).At(money.Percent(7)).Times(45).DividedBy(365)
	u := r.Underpayment
	if off := u.PenaltyIfPaid.Sub(u.PenaltyIfNow).Sub(saved).Abs(); off.More(money.Cents(1)) {
		t.Errorf("%v in January and %v today, want %v less", u.PenaltyIfPaid, u.PenaltyIfNow, saved)
	}
	if !says(r, "certificate.verdict.pay_now") || says(r, "certificate.verdict.besides") {
		t.Errorf("said %v", r.Verdict.Sentences)
	}
	// What the answers have of estimated tax is not part of the payment.
	if !says(solvedText(t, december+"payments: {estimated_tax: 300}\n"), "certificate.verdict.besides") {
		t.Error("it does not say that the payment is besides the 300 of the answers")
	}

	// Last year's tax of 3,000 is below nine tenths of this year's: it has to be
	// there, and is within what is withheld and 120 or so.
	r = solvedText(t, december+"last_year: {total_tax: 3000, adjusted_gross_income: 60000}\n")
	if d := r.Verdict.PayDirectly; len(d.Parts) != 2 || !d.Parts[0].Amount.Equal(dollars(3000).Sub(paid).DollarUp()) {
		t.Errorf("by last year's tax: %+v", d)
	}

	// Once the last date is past, all is paid with the return.
	r = solvedText(t, december+"wish: {first_payday: 2026-12-25}\n")
	pr = newProjection(r.Household, r.Tables, nil)
	pr.h.AsOf = household.On(2027, 2, 1)
	p := r.Recommended
	p.NearEnough = false
	if e := pr.estimated(p); len(e.Payments) != 1 || e.Payments[0].Due != household.On(2027, 4, 15) || !e.Payments[0].Amount.Equal(p.Balance.Neg()) {
		t.Errorf("in February: %+v of %v", e, p.Balance)
	}
}

// The estimated tax of a year is planned by its due dates while all of them are to
// come, and January's form counts on the same again. The days of 2026: April 15, June
// 15, September 15, and January 15, 2027 (IRC 6654(c)(2)). A fourth of 2,402 is
// 600.50, each time rounded up to 601; the last has the other 599.
func TestPlannedPayments(t *testing.T) {
	const of2025 = "format: 1\ntax_year: 2025\nfiling_status: single\njobs:\n  - {name: Mill, pay_frequency: biweekly, taxable_pay: 2600, first_payday: 2025-01-10, certificate: {filing_status: single}}\nincome: {self_employment: {self: 9000}}\npayments: {estimated_tax: 2402}\n"
	want := []tax.Payment{
		{Due: household.On(2026, 4, 15), Amount: dollars(601)},
		{Due: household.On(2026, 6, 15), Amount: dollars(601)},
		{Due: household.On(2026, 9, 15), Amount: dollars(601)},
		{Due: household.On(2027, 1, 15), Amount: dollars(599)},
	}
	same := func(a, b tax.Payment) bool { return a.Due == b.Due && a.Amount.Equal(b.Amount) }
	r, err := Solve(answers(t, "in 2025", of2025+"as_of: 2025-11-10\n"), year(t, 2025), year(t, 2026))
	if err != nil {
		t.Fatal(err)
	}
	if got := r.January.Estimated; !slices.EqualFunc(got, want, same) || r.Planned != nil {
		t.Errorf("for 2026: %+v, and for 2025: %+v", got, r.Planned)
	}
	of2026 := strings.ReplaceAll(of2025, "2025", "2026")
	if got := solvedText(t, of2026+"as_of: 2026-04-15\n").Planned; !slices.EqualFunc(got, want, same) {
		t.Errorf("on the first day: %+v", got)
	}
	if r := solvedText(t, of2026+"as_of: 2026-04-16\n"); r.Planned != nil || r.January.Estimated != nil {
		t.Errorf("after it: %+v; for 2027, of which no table was given: %+v", r.Planned, r.January.Estimated)
	}
}
