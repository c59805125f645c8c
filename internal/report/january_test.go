package report

import (
	"strings"
	"testing"
	"time"

	"example.com/plumbline/internal/certificate"
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

// Where next year's form counts on estimated tax that is paid again, that is said
// beside its entries, and the steps have each payment with its day. The page to copy
// from, which an employer may see, does not tell it.
func TestJanuaryTellsTheEstimatedTaxItCountsOn(t *testing.T) {
	h := creditParent(household.On(2025, time.December, 20), household.On(2025, time.December, 12), 44_400)
	h.TaxYear, h.Jobs[0].FirstPayday = 2025, household.On(2025, time.January, 10)
	h.Income.SelfEmployment.Self, h.Payments.EstimatedTax = money.Dollars(9000), money.Dollars(2400)
	r, err := certificate.Solve(h, year(t, 2025), year(t, 2026))
	if err != nil {
		t.Fatal(err)
	}
	if !r.Recommended.NothingToHandIn() || r.January.NothingToHandIn() {
		t.Fatalf("this year %s, in January %s", r.Recommended.Name, r.January.Name)
	}
	const counts = "This counts on the $2,400 of estimated tax that you pay again for 2026."
	for _, p := range []Page{en.Answer(r), en.January(r), en.Steps(r)} {
		if got := asText(t, 400, p); !strings.Contains(got, counts) {
			t.Errorf("not said:\n%s", got)
		}
	}
	if got := asText(t, 400, en.Steps(r)); !strings.Contains(got, "The $2,400 of estimated tax for 2026 is due in parts: $600 by April 15, 2026, $600 by June 15, 2026, $600 by September 15, 2026 and $600 by January 15, 2027.") {
		t.Errorf("no days:\n%s", got)
	}
	for _, p := range en.NextFormPages(r) {
		if got := asText(t, 400, p); strings.Contains(got, "2,400") {
			t.Errorf("the page to copy from tells it:\n%s", got)
		}
	}
}

// What was advised to be paid for the year before is a step until its day has passed.
func TestStepsHaveWhatIsStillToPay(t *testing.T) {
	r := solved(t, creditParent(household.On(2026, time.April, 15), household.On(2026, time.April, 3), 12_950))
	r.Household.Interview.StillToPay = &household.StillToPay{TaxYear: 2025, Parts: []household.DirectPayment{
		{Amount: money.Dollars(4117), By: household.On(2026, time.January, 15)}, {Amount: money.MustParse("937.15"), By: household.On(2026, time.April, 15)},
	}}
	const step = "For 2025, pay directly to the IRS what you were advised to, if you have not yet: about $937 by April 15, 2026."
	if got := asText(t, 400, en.Steps(r)); !strings.Contains(got, step) {
		t.Errorf("not said:\n%s", got)
	}
	r.Household.AsOf = household.On(2026, time.April, 16)
	if got := asText(t, 400, en.Steps(r)); strings.Contains(got, "For 2025") {
		t.Errorf("said after its day:\n%s", got)
	}
}
