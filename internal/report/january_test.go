package report

import (
	"strings"
	"testing"
	"time"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
)

// creditParent is a parent with one child, whose earned income credit makes the
// year's tax less than the paychecks withhold with the form's own entries.
func creditParent(asOf, stub household.Date, paid int64) household.Household {
	return household.Household{
		TaxYear: 2026, AsOf: asOf, Status: household.HeadOfHousehold,
		Self: household.Person{BirthDate: household.On(1990, time.June, 1)},
		Jobs: []household.Job{{
			Name: "Mill", Frequency: household.Biweekly, TaxablePay: money.Dollars(1850), FirstPayday: household.On(2026, time.January, 9),
			YearToDate:  &household.YearToDate{Payday: stub, TaxablePay: money.Dollars(paid), FederalTax: money.Dollars(80)},
			Certificate: &household.Certificate{Status: household.CertificateHeadOfHousehold},
		}},
		Dependents: []household.Dependent{{Name: "Wren", BirthDate: household.On(2018, time.February, 2)}},
	}
}

// Step 3 beyond the credits is never left without its reason, in January neither
// (Publication 505, Worksheet 1-5).
func TestJanuaryTellsStep3BeyondCredits(t *testing.T) {
	r := solved(t, creditParent(household.On(2026, time.December, 20), household.On(2026, time.December, 11), 44_400))
	for _, c := range toHandIn(r.January.Plan) {
		if !c.Lines.L3.Amount.More(c.Lines.L3a.Amount.Add(c.Lines.L3b.Amount)) {
			continue
		}
		if got := asText(t, 400, en.January(r)); !strings.Contains(got, en.said(c.Lines.L3.Reason)) {
			t.Errorf("January does not say why Step 3 is %s:\n%s", c.Lines.L3.Amount, got)
		}
	}
}

// Where only January's forms are to be handed in, the first screen has their
// entries.
func TestFirstScreenHasJanuaryWhereNothingElseIsDue(t *testing.T) {
	const body = 19 // of 24 lines, less the head and the keys
	r := solved(t, creditParent(household.On(2026, time.December, 20), household.On(2026, time.December, 11), 44_400))
	due := toHandIn(r.January.Plan)
	if !r.Recommended.NothingToHandIn() || len(due) == 0 {
		t.Fatalf("this year %d forms, in January %d", len(toHandIn(r.Recommended)), len(due))
	}
	p := en.Answer(r)
	p.Title = ""
	lines := Lines(p, Style{Width: 80})
	first := ""
	for _, l := range lines {
		first += l.Text + "\n"
	}
	if len(lines) > body {
		t.Errorf("%d lines, want at most %d:\n%s", len(lines), body, first)
	}
	for _, e := range due[0].Lines.All() {
		if e.Amount.IsPositive() && !strings.Contains(first, e.Amount.GroupedDollars()) {
			t.Errorf("%s of %s is not on the first screen:\n%s", e.Amount, e.Line, first)
		}
	}
}

// Where the form handed in now brings back much less next year than the one on file
// would, the first screen says so.
func TestFirstScreenHasNextYearWhereMuchLessComesBack(t *testing.T) {
	h := creditParent(household.On(2026, time.November, 20), household.On(2026, time.November, 13), 42_550)
	h.Jobs[0].Certificate.Status = household.CertificateSingle
	r := solved(t, h)
	if r.Recommended.NothingToHandIn() || r.January.OnFile.IsZero() {
		t.Fatalf("%s, and for next year %q", r.Recommended.Name, en.said(r.January.OnFile))
	}
	if got := asText(t, 400, en.Answer(r)); !strings.Contains(got, en.said(r.January.OnFile)) {
		t.Errorf("the first screen does not say %q:\n%s", en.said(r.January.OnFile), got)
	}
	kept := creditParent(household.On(2026, time.November, 20), household.On(2026, time.November, 13), 42_550)
	kept.Jobs[0].Certificate = &r.January.Certificates[0].Certificate
	if got := asText(t, 400, en.Answer(solved(t, kept))); strings.Contains(got, "on file now") {
		t.Errorf("with the form on file already:\n%s", got)
	}
}

// Who gives up a claim to be exempt by December 1 is not told to wait for December.
func TestTheEndOfAClaimDoesNotWaitForDecember(t *testing.T) {
	none, income := money.Zero, money.Dollars(3000)
	r := solved(t, household.Household{
		TaxYear: 2026, AsOf: household.On(2026, time.May, 30), Status: household.Single,
		Self:     household.Person{BirthDate: household.On(2006, time.February, 1)},
		Jobs:     []household.Job{{Name: "Plant", Frequency: household.Biweekly, TaxablePay: money.Dollars(1500), FirstPayday: household.On(2026, time.October, 9)}},
		LastYear: &household.LastYear{TotalTax: &none, AdjustedGrossIncome: &income},
		Wish:     household.Wish{Exempt: true},
	})
	got := asText(t, 400, en.Steps(r))
	if !strings.Contains(got, "Hand in 2027's form by December 1") || strings.Contains(got, "In December, check") {
		t.Error(got)
	}
}
