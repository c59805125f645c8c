package interview

import (
	"os"
	"slices"
	"strings"
	"testing"

	"example.com/plumbline/internal/money"
)

// supposed carries on a conversation about what may happen, on the
// demonstration couple with two jobs and two children in June.
func supposed(t *testing.T, answers ...string) *WhatIf {
	t.Helper()
	file, err := os.ReadFile("../../testdata/two-earners/household.yaml")
	if err != nil {
		t.Fatal(err)
	}
	w, err := begin(t, "2026-06-15", string(file)).WhatIf()
	if err != nil {
		t.Fatal(err)
	}
	for _, a := range answers {
		q, ok := w.Question()
		if !ok {
			t.Fatalf("no question left to answer %q to", a)
		}
		if q.Text == "" || strings.Contains(q.Text, "{") {
			t.Errorf("question %s reads %q", q.Key, q.Text)
		}
		if err := w.Answer(a); err != nil {
			t.Fatalf("%s: %v", q.Key, err)
		}
	}
	if q, ok := w.Question(); ok {
		t.Fatalf("after %q there is still %s to ask", answers, q.Key)
	}
	return w
}

// Each thing that may happen moves the year's tax the way the law moves it.
func TestWhatIf(t *testing.T) {
	usd := money.MustParse
	tests := []struct {
		source  string
		answers []string
		what    string
		tax     money.Amount // change of the year's tax
	}{
		{
			// 10% of 3,660.00 is 366.00, on the 14 biweekly paydays after June 12:
			// 5,124.00, in the bracket of 22% as all of the couple's last dollars.
			"IRC 1(j): 22% of 5,124.00", []string{"raise", "1", "10"}, "a raise of 10% at Larkspur Clinic", usd("1127.28"),
		},
		{
			// The same paydays, 3% of the gross pay of 3,980.00: 119.40 × 14 = 1,671.60,
			// of which 22% is 367.752.
			"IRC 402(e)(3): 22% of 1,671.60 less", []string{"retirement", "1", "3"}, "3% more for retirement at Larkspur Clinic", usd("-367.75"),
		},
		{"IRC 24(h)(2): 2,200 for a child born this year", []string{"baby", "2026-12-31"}, "a baby born on December 31, 2026", usd("-2200")},
		{"a child born next year counts for nothing yet", []string{"baby", "2027-01-01"}, "a baby born on January 1, 2027", usd("0")},
		{
			// The spouse's 2,210.00 twice a month from September 15 on, 8 paydays:
			// 17,680.00. Taxable income of 116,340.00 falls to 98,660.00, into the Tax
			// Table: on 98,675.00, 2,480.00 + 12% × 73,875.00 = 11,345.00, where it was
			// 11,600.00 + 22% × 15,540.00 = 15,018.80.
			"IRC 1(j): 11,345.00 instead of 15,018.80", []string{"ends", "2", "2026-09-14"}, "no pay after September 14, 2026 at Ostrich Fern Nursery", usd("-3673.80"),
		},
		{
			// 40 hours to 30: three quarters of 3,660.00 is 2,745.00, 915.00 less on 14
			// paydays, 12,810.00. Taxable income of 116,340.00 falls to 103,530.00, over
			// the Table: 11,600.00 + 22% × 2,730.00 = 12,200.60.
			"IRC 1(j): 22% of 12,810.00 less", []string{"hours", "1", "40", "30"}, "30 hours a week in place of 40 at Larkspur Clinic", usd("-2818.20"),
		},
		{
			// 500.00 on each Friday from December 4 on; January 1 is a holiday, paid
			// December 31. Five paydays and 2,500.00, at 22%.
			"IRC 1(j): 22% of 2,500.00", []string{"begins", "spouse", "500", "weekly", "2026-12-04"}, "a new job with $500 a paycheck, from December 4, 2026 on", usd("550"),
		},
	}
	for _, tt := range tests {
		t.Run(tt.source, func(t *testing.T) {
			c, what, err := supposed(t, tt.answers...).Comparison()
			if err != nil {
				t.Fatal(err)
			}
			if what != tt.what {
				t.Errorf("it is called %q, want %q", what, tt.what)
			}
			if !c.Change.TotalTax.ToCent().Equal(tt.tax) {
				t.Errorf("the tax changes by %v, want %v", c.Change.TotalTax, tt.tax)
			}
		})
	}
}

func TestWhatIfAsksOnlyWhatCanHappen(t *testing.T) {
	w := supposed(t, "baby", "2026-12-31")
	for w.Back() {
	}
	q, _ := w.Question()
	var offered []string
	for _, o := range q.Options {
		offered = append(offered, o.Value)
	}
	if slices.Contains(offered, aWedding) {
		t.Errorf("a married couple is offered a wedding: %v", offered)
	}
	if err := w.Answer("a windfall"); err == nil {
		t.Error("something that is not offered was taken")
	}
	if err := w.Answer("raise"); err != nil {
		t.Fatal(err)
	}
	if q, _ := w.Question(); len(q.Options) != 2 || q.Options[1].Label != "Ostrich Fern Nursery" {
		t.Errorf("the jobs offered are %v", q.Options)
	}
	if err := w.Answer("3"); err == nil {
		t.Error("a job that there is not was taken")
	}
}

// A wedding brings a spouse, with pay or without, onto one return.
func TestWhatIfAWedding(t *testing.T) {
	file, err := os.ReadFile("../../testdata/new-hire/household.yaml")
	if err != nil {
		t.Fatal(err)
	}
	w, err := begin(t, "2026-01-05", string(file)).WhatIf()
	if err != nil {
		t.Fatal(err)
	}
	for _, a := range []string{"marriage", "0"} {
		if err := w.Answer(a); err != nil {
			t.Fatal(err)
		}
	}
	c, _, err := w.Comparison()
	if err != nil {
		t.Fatal(err)
	}
	if !c.Change.TotalTax.IsNegative() {
		t.Errorf("with a spouse who earns nothing the tax changes by %v; the joint schedule and deduction are wider", c.Change.TotalTax)
	}
}

// A job that ends with the year, or begins in January, changes nothing of this year
// and all of the next: both are beside each other.
func TestWhatIfAtTheYearsEnd(t *testing.T) {
	for _, answers := range [][]string{
		{"ends", "2", "2026-12-31"},
		{"begins", "self", "800", "weekly", "2027-01-08"},
	} {
		c, what, err := supposed(t, answers...).Comparison()
		if err != nil {
			t.Fatal(err)
		}
		if !c.Change.TotalTax.IsZero() || !c.Change.AsFiled.IsZero() {
			t.Errorf("%s: this year changes: %+v", what, c.Change)
		}
		if c.NextYear == nil || c.NextYear.TaxYear != 2027 || c.NextYear.Change.TotalTax.IsZero() || c.NextYear.Change.AsFiled.IsZero() || len(c.January) == 0 {
			t.Errorf("%s: the next year does not change: %+v", what, c)
		}
	}
}
