package certificate

import (
	"fmt"
	"strings"
	"testing"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/payroll"
)

// From the payday on which the claim counts nothing is withheld at the person's
// own jobs; the spouse's certificate stays. The paydays are replayed by payroll,
// which knows an exempt certificate by itself.
//
// Source: IRC 3402(n); Form W-4 (2026), Exempt from withholding: write nothing
// else but the status in Steps 2 to 4.
func TestClaimExempt(t *testing.T) {
	h := demo(t, "two-earners")
	r := solved(t, h)
	before := r.Recommended
	r.claimExempt(newProjection(h, year(t, h.TaxYear), nil), household.On(2027, 2, 16))
	p := r.Recommended
	if p.Name != PlanExempt || p.Reason.Code != "certificate.why.exempt" || r.Alternatives[0].Name != before.Name {
		t.Fatalf("the plan is %s because %q, then comes %s", p.Name, p.Reason, r.Alternatives[0].Name)
	}
	want := money.Zero
	for i, c := range p.Certificates {
		j := r.Household.Jobs[c.Job]
		year := payroll.NewJobYear(r.Household, c.Job, r.Tables)
		onFile := payroll.OnFile{Now: j.Certificate, New: &p.Certificates[i].Certificate, From: c.FirstPayday}
		want = want.Add(year.Withheld(onFile))
		if own := j.Earner == household.OfSelf; c.Certificate.Exempt != own {
			t.Errorf("%s: exempt %v", c.Name, c.Certificate.Exempt)
		} else if own && (!c.Withholding.IsZero() || c.Learns[0].Code != "certificate.learns.exempt") {
			t.Errorf("%s: %v is withheld, and the employer learns %v", c.Name, c.Withholding, c.Learns)
		}
		for _, e := range c.Lines.All() {
			if c.Certificate.Exempt && (!e.Amount.IsZero() || e.Line == "") {
				t.Errorf("%s: line %q has %v", c.Name, e.Line, e.Amount)
			}
		}
	}
	if !p.WithholdingToCome.Equal(want) {
		t.Errorf("%v is withheld to the end of the year, want %v", p.WithholdingToCome, want)
	}
	if less := before.Balance.Sub(p.Balance); !less.Equal(before.WithholdingToCome.Sub(want)) {
		t.Errorf("the balance falls by %v, the withholding by %v", less, before.WithholdingToCome.Sub(want))
	}
}

// After a claim to be exempt January has its own advice. Who expects no tax next
// year either claims it again, on a form of that year, by the day on which the old
// claim ends: February 16, 2027, since the 15th is Washington's Birthday. Who will
// owe tax gives a form without it by December 1, or within ten days if that is
// later.
//
// 500 every two weeks are 13,000 or so a year, less than the standard deduction of
// 16,100; 1,500 from October on are 10,500 this year and 39,000 next.
//
// IRC 3402(n), (f)(2)(C); 26 CFR 31.3402(f)(4)-2(c); Publication 15, section 9.
func TestJanuaryAfterAClaim(t *testing.T) {
	const head = "format: 1\ntax_year: 2026\nfiling_status: single\nself: {birth_date: 2006-02-01}\nlast_year: {total_tax: 0, adjusted_gross_income: 3000}\n"
	const cafe = "jobs:\n  - {name: Cafe, pay_frequency: biweekly, taxable_pay: 500, first_payday: 2026-01-09, year_to_date: {payday: 2026-10-30, taxable_pay: 11000, federal_tax: 0}, certificate: {filing_status: single, exempt: true, counts_from: 2026-01-09}}\n"
	const plant = "jobs:\n  - {name: Plant, pay_frequency: biweekly, taxable_pay: 1500, first_payday: 2026-10-09, certificate: {filing_status: single, exempt: true, counts_from: 2026-10-09}}\n"
	again := solvedText(t, head+"as_of: 2026-11-02\n"+cafe)
	j := again.January
	if j.Name != PlanExempt || j.Certificates[0].Keep || !j.Certificates[0].Certificate.Exempt || j.HandIn != household.On(2027, 2, 16) || !j.WithholdingToCome.IsZero() || len(again.Duties) > 0 {
		t.Errorf("January: %s by %v, %v withheld, duties %v", j.Name, j.HandIn, j.WithholdingToCome, again.Duties)
	}
	if v := again.Verdict; v.Code != JanuaryOnly || v.Sentences[0].Code != "certificate.verdict.january_claim" {
		t.Errorf("verdict %s: %v", v.Code, v.Sentences)
	}
	for _, tt := range []struct {
		asOf string
		by   household.Date
	}{
		{"2026-10-05", household.On(2026, 12, 1)},
		{"2026-11-21", household.On(2026, 12, 1)},
		{"2026-11-22", household.On(2026, 12, 2)},
		{"2026-12-10", household.On(2026, 12, 20)},
	} {
		r := solvedText(t, head+"as_of: "+tt.asOf+"\n"+plant)
		if len(r.Duties) != 1 || r.Duties[0].By != tt.by || r.January.Name == PlanExempt || r.January.Certificates[0].Certificate.Exempt || r.January.HandIn.After(tt.by) && tt.by.Before(household.On(2026, 12, 16)) {
			t.Errorf("on %s: duties %+v, January %s by %v", tt.asOf, r.Duties, r.January.Name, r.January.HandIn)
		}
	}
}

// A claim of the year before ends in February, and payroll withholds from then
// on: who may claim again is told to, and the old claim is not taken for the new.
func TestAClaimThatEndsIsMadeAgain(t *testing.T) {
	const text = "format: 1\ntax_year: 2026\nas_of: 2026-01-12\nfiling_status: single\nself: {birth_date: 2006-02-01}\nlast_year: {total_tax: %s, adjusted_gross_income: 3000}\njobs:\n  - {name: Cafe, pay_frequency: biweekly, taxable_pay: %s, first_payday: 2026-01-09, last_payday: 2026-08-21, certificate: {filing_status: single, exempt: true, counts_from: %s}}\n"
	for _, tt := range []struct {
		about, pay, lastYear, claimed, plan string
		handIn                              bool
	}{
		{"claimed last year", "750", "0", "2025-03-07", PlanExempt, true},
		{"claimed this year", "750", "0", "2026-01-09", PlanKeep, false},
		{"tax last year: no claim is open", "750", "50", "2025-03-07", PlanKeep, false},
		{"nothing would be withheld without it", "420", "0", "2025-03-07", PlanKeep, false},
	} {
		t.Run(tt.about, func(t *testing.T) {
			p := solvedText(t, fmt.Sprintf(text, tt.lastYear, tt.pay, tt.claimed)).Recommended
			if p.Name != tt.plan || p.NothingToHandIn() == tt.handIn {
				t.Errorf("%s, keep %v", p.Name, p.Certificates[0].Keep)
			}
		})
	}
}

// In January a claim of an unknown year may be of the year before: the verdict
// names the nearer day first, February 17, 2026, since the 15th is a Sunday and the
// 16th Washington's Birthday. After that day it cannot be, and next year's comes.
//
// IRC 3402(f)(2)(C) as 26 CFR 31.3402(f)(4)-2(c) has it; Publication 15, section 9.
func TestAnUndatedClaimInTheVerdict(t *testing.T) {
	const text = "format: 1\ntax_year: 2026\nas_of: %s\nfiling_status: single\nself: {birth_date: 2006-02-01}\nlast_year: {total_tax: 0, adjusted_gross_income: 3000}\njobs:\n  - {name: Cafe, pay_frequency: biweekly, taxable_pay: 350, first_payday: 2026-01-09, certificate: {filing_status: single, exempt: true}}\n"
	for _, tt := range []struct{ asOf, code, day string }{
		{"2026-01-20", "certificate.verdict.claim_undated", "February 17, 2026"},
		{"2026-02-17", "certificate.verdict.claim_undated", "February 17, 2026"},
		{"2026-02-18", "certificate.verdict.january_claim", "February 16, 2027"},
	} {
		first := solvedText(t, fmt.Sprintf(text, tt.asOf)).Verdict.Sentences[0]
		if first.Code != tt.code || !strings.Contains(say(first), tt.day) {
			t.Errorf("on %s: %s", tt.asOf, say(first))
		}
	}
}

// Who is not sure of the claim to be exempt fills in the ordinary form: for a child
// that is Step 3 with the child tax credit, 2,200 in 2026 (Form W-4 (2026), Step 3(a)),
// not the status alone, which would have tax withheld.
func TestInsteadOfTheClaim(t *testing.T) {
	const year = 2026
	for children, want := range map[int]string{0: "certificate.safe.plain", 1: "certificate.safe.with_credits"} {
		none := money.Zero
		h := household.Household{
			TaxYear: year, AsOf: household.On(year, 3, 2), Status: household.Single,
			Jobs: []household.Job{{
				Frequency: household.Biweekly, TaxablePay: money.Dollars(500), FirstPayday: household.On(year, 3, 13),
			}},
			LastYear: &household.LastYear{TotalTax: &none},
			Wish:     household.Wish{Exempt: true},
		}
		if children > 0 {
			h.Dependents = []household.Dependent{{Relationship: household.Child, BirthDate: household.On(2018, 3, 3)}}
		}
		r := solved(t, h)
		if len(r.Doubts) == 0 || r.Doubts[0].Entry != "exempt" || r.Doubts[0].Safe.Code != want {
			t.Fatalf("%d children: %+v, want %s", children, r.Doubts, want)
		}
		if children > 0 {
			if got := fmt.Sprint(r.Doubts[0].Safe.Args[0].Value); got != "2200.00" {
				t.Errorf("credits of %s, want 2,200", got)
			}
		}
	}
}

// A claim to be exempt is right only with no tax last year and none expected: with
// tax last year a form without it is due, with none nothing is said, and where it is
// not known the claim stays on that condition. 27 paychecks of 520 are 14,040, less
// than the standard deduction of 16,100: no tax this year.
//
// IRC 3402(n); Form W-4 (2026), "Exemption from withholding".
func TestTheClaimOnFileAndLastYearsTax(t *testing.T) {
	const text = "format: 1\ntax_year: 2026\nas_of: 2026-11-27\nfiling_status: single\nself: {birth_date: 2003-03-14}\njobs:\n  - {name: Cafe, pay_frequency: biweekly, taxable_pay: 520, first_payday: 2026-01-02, year_to_date: {payday: 2026-11-20, taxable_pay: 12480, federal_tax: 0}, certificate: {exempt: true}}\n"
	for _, tt := range []struct {
		about, lastYear string
		forms, doubts   int
	}{
		{"tax last year", "last_year: {total_tax: 265, adjusted_gross_income: 18400}\n", 1, 0},
		{"none last year", "last_year: {total_tax: 0, adjusted_gross_income: 8900}\n", 0, 0},
		{"not known", "", 0, 1},
	} {
		r := solvedText(t, text+tt.lastYear)
		if r.Verdict.Forms != tt.forms || len(r.Duties) != tt.forms || len(r.Doubts) != tt.doubts {
			t.Errorf("%s: %d forms, duties %v, doubts %v", tt.about, r.Verdict.Forms, r.Duties, r.Doubts)
		}
		if tt.forms > 0 && (r.Duties[0].Code != "exemption" || r.Duties[0].Days != 10 || r.Recommended.Certificates[0].Certificate.Exempt || r.Verdict.Sentences[1].Code != "certificate.verdict.due") {
			t.Errorf("%s: %+v, said %v", tt.about, r.Duties[0], r.Verdict.Sentences)
		}
	}
}
