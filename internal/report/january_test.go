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

// januaryText is the part about January of the whole result.
func januaryText(t *testing.T, r certificate.Result) string {
	t.Helper()
	return strings.Join(strings.Fields(asText(t, 80, Page{Blocks: january(r, false)})), " ")
}

// Step 3 beyond the credits is never left without its reason, in January neither
// (Publication 505, Worksheet 1-5). Where this year's stays, next year's page
// says that it was worked out anew, and where the year leads.
func TestJanuaryTellsStep3BeyondCredits(t *testing.T) {
	r := solved(t, creditParent(household.On(2026, time.December, 20), household.On(2026, time.December, 11), 44_400))
	if got := januaryText(t, r); !strings.Contains(got, "2,520 in all: 2,200 of credits, and 320 more") || !strings.Contains(got, "It holds for 2027 only") || strings.Contains(got, "1 child under") {
		t.Errorf("January: %s", got)
	}
	r = solved(t, creditParent(household.On(2026, time.March, 2), household.On(2026, time.February, 20), 7_400))
	if got := januaryText(t, r); !strings.Contains(got, "Nothing to hand in for 2027") || !strings.Contains(got, "a refund of 231.00") || !strings.Contains(got, "worked out anew for 2027") || strings.Contains(got, "fit 2027") {
		t.Errorf("January: %s", got)
	}
}

// The private plan cannot lower anything: its certificates stay in January, and
// where they lead is said instead of that they fit.
func TestJanuaryOfThePrivatePlan(t *testing.T) {
	h := creditParent(household.On(2026, time.March, 2), household.On(2026, time.February, 20), 7_400)
	h.Wish.TellEmployer = household.ExtraOnly
	r := solved(t, h)
	if got := januaryText(t, r); r.January.Lands || !strings.Contains(got, balancePhrase(r.January.Balance)) || strings.Contains(got, "fit 2027") {
		t.Errorf("January lands %v: %s", r.January.Lands, got)
	}
}
