package certificate

import (
	"strings"
	"testing"

	"example.com/plumbline/internal/money"
)

// Both children are on file, and one is 17 this year: 3(a) is for one, 2,200, and
// 3(b) for the other, 500. Where too little is withheld, the law asks for a new
// form within 10 days, and the advice is that form; where enough is, the form may
// finish the year.
//
// By hand: 27 × 2,050 = 55,350 (January 1, 2027 is a holiday, so its pay comes in
// December), less 24,150: 31,200, taxed as 31,225: 1,770 + 12% × 13,525 = 3,393;
// less 2,700 of credits 693. The earned income credit pays out less than that.
//
// IRC 3402(f)(2)(B), 24(c)(1), (h)(4); Publication 505 (2025), ch. 1, p. 3; Form W-4
// (2026), Step 3.
func TestCreditsNoLongerExpected(t *testing.T) {
	const household = "format: 1\ntax_year: 2026\nas_of: 2026-11-27\nfiling_status: head_of_household\njobs:\n  - {name: Mill, pay_frequency: biweekly, taxable_pay: 2050, first_payday: 2026-01-02, year_to_date: {payday: 2026-11-20, taxable_pay: 49200, federal_tax: FEDERAL}, certificate: {filing_status: head_of_household, credits: 4400}}\ndependents:\n  - {birth_date: 2009-02-14}\n  - {birth_date: 2013-08-08}\n"
	short := solvedText(t, strings.Replace(household, "FEDERAL", "0", 1))
	p := short.Recommended
	if tax := short.Return.TotalTax; !tax.Equal(dollars(693)) || !short.AsFiled.Balance.IsNegative() {
		t.Fatalf("tax %v, on file the year ends on %v", tax, short.AsFiled.Balance)
	}
	l := p.Certificates[0].Lines
	if len(short.Duties) != 1 || short.Duties[0].Code != "credits" || short.Duties[0].Days != 10 {
		t.Errorf("duties %v", short.Duties)
	}
	if short.Verdict.Code != NewCertificate || short.Verdict.Forms != 1 || !l.L3a.Amount.Equal(dollars(2200)) || !l.L3b.Amount.Equal(dollars(500)) || !l.L3.Amount.Equal(dollars(2700)) {
		t.Errorf("advised %s, %d forms: 3(a) %v, 3(b) %v, 3 %v", short.Verdict.Code, short.Verdict.Forms, l.L3a.Amount, l.L3b.Amount, l.L3.Amount)
	}

	enough := solvedText(t, strings.Replace(household, "FEDERAL", "100", 1))
	p = enough.Recommended
	l = p.Certificates[0].Lines
	if len(enough.Duties) > 0 || !p.NothingToHandIn() || !l.L3.Amount.Equal(dollars(4400)) {
		t.Errorf("with enough withheld: duties %v, %d forms, Step 3 of %v", enough.Duties, p.forms(), l.L3.Amount)
	}
	if parts := money.Sum(l.L3a.Amount, l.L3b.Amount); !parts.IsZero() {
		t.Errorf("the form on file claims 4,400, and its parts are given as %v", parts)
	}
}

// A form that does not reach the goal says what is missing without its Step 4(c),
// and how much of that it makes up.
//
// 27 × 820 = 22,140 and 12 of interest, less 16,100: 6,052, taxed as 6,075: 607.50,
// printed 608. As single a paycheck has (26 × 820 − 8,600 − 7,500) × 10% ÷ 26 =
// 20.08, on two paydays 40.16: without 4(c) 567.84 is missing. A quarter of what is
// left of 820 after 7.65% and nothing withheld, 189.32, less 20.08 is 169 a paycheck,
// 338 together.
func TestStepFourCMakesUpAPart(t *testing.T) {
	r := solvedText(t, "format: 1\ntax_year: 2026\nas_of: 2026-11-27\nfiling_status: single\njobs:\n  - {name: Mill, pay_frequency: biweekly, taxable_pay: 820, first_payday: 2026-01-02, year_to_date: {payday: 2026-11-20, taxable_pay: 19680, federal_tax: 0}, certificate: {exempt: true}}\nincome: {interest: 12}\nlast_year: {total_tax: 265, adjusted_gross_income: 18400}\n")
	e := r.Recommended.Certificates[0].Lines.L4c
	if !e.Amount.Equal(dollars(169)) || say(e.Reason) != "Without this you would be $568 short. This makes up $338 of it: $169 a paycheck on 2 paydays." {
		t.Errorf("4(c) of %v: %s", e.Amount, say(e.Reason))
	}
}
