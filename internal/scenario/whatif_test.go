package scenario

import (
	"testing"

	"example.com/plumbline/internal/certificate"
	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/sample"
	"example.com/plumbline/internal/words"
)

func solved(t *testing.T, h household.Household) certificate.Result {
	t.Helper()
	h.Check(func(key string, what words.Text) { t.Errorf("%s: %s", key, words.English().Say(what)) })
	r, err := certificate.Solve(h, sample.Year(t, h.TaxYear), nil)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// Each change by hand: what it does to the year's tax.
func TestWhatIf(t *testing.T) {
	h := sample.Demo(t, "two-earners")
	a := solved(t, h)
	percent := money.Percent
	for _, tt := range []struct {
		about string
		with  household.Household
		tax   string
	}{
		// IRC 24: a child born in the year is a child credit of 2,200.
		{"a baby this year", WithBaby(h, household.On(2026, 11, 3)), "-2200.00"},
		{"a baby next year", WithBaby(h, household.On(2027, 1, 3)), "0.00"},
	} {
		t.Run(tt.about, func(t *testing.T) {
			c := Compare(a, solved(t, tt.with))
			if c.Change.TotalTax.String() != tt.tax {
				t.Errorf("tax changes by %v, want %v", c.Change.TotalTax, tt.tax)
			}
		})
	}
	// On each payday to come: 10% of 3,660 more; 3% of 3,980 gross less.
	for _, tt := range []struct {
		about string
		with  household.Household
		each  string
	}{
		{"a raise", WithRaise(h, 0, percent(10)), "366.00"},
		{"3% more into the retirement plan", WithMoreRetirement(h, 0, percent(3)), "-119.40"},
	} {
		t.Run(tt.about, func(t *testing.T) {
			b := solved(t, tt.with)
			n := len(h.Jobs[0].PaydaysToCome(2026))
			want := money.MustParse(tt.each).Times(n)
			if got := b.Return.Wages.Sub(a.Return.Wages); !got.Equal(want) {
				t.Errorf("wages change by %v, want %v", got, want)
			}
		})
	}
	t.Run("half the hours", func(t *testing.T) {
		// Far from the average of the year so far, which would go on otherwise: the 14 paydays
		// twice a month after May 29, of 1,105 less.
		b := solved(t, WithHours(h, 1, money.Dollars(40), money.Dollars(20)))
		if got := a.Return.Wages.Sub(b.Return.Wages); !got.Equal(money.Dollars(14 * 1105)) {
			t.Errorf("wages fall by %v, want 15,470", got)
		}
	})
	t.Run("the spouse stops in September", func(t *testing.T) {
		b := solved(t, WithJobsEnded(h, household.On(2026, 9, 30), 1))
		// Six paydays, October 15 to December 31, of 2,210.
		if got := a.Return.Wages.Sub(b.Return.Wages); !got.Equal(money.Dollars(6 * 2210)) {
			t.Errorf("wages fall by %v, want 13,260", got)
		}
		c := Compare(a, b)
		if !c.Change.TotalTax.IsNegative() || len(c.Entries) == 0 {
			t.Errorf("%+v", c)
		}
	})
	t.Run("married in December", func(t *testing.T) {
		single := sample.Demo(t, "new-hire")
		b := solved(t, WithMarriage(single, household.Person{}))
		// 47,840 of wages. Single: less 16,100. Joint: less 32,200 = 15,640 at
		// 10%, from the Tax Table's row 15,600-15,650: 1,562.50.
		if got := b.Return.TotalTax; got.Sub(money.MustParse("1562.50")).Abs().More(money.Dollars(1)) {
			t.Errorf("tax %v", got)
		}
		if s := b.Recommended.Certificates[0].Certificate.Status; s != household.CertificateJoint {
			t.Errorf("status %v", s)
		}
	})
	if after := solved(t, h); !after.Return.TotalTax.Equal(a.Return.TotalTax) || !after.Recommended.Balance.Equal(a.Recommended.Balance) {
		t.Error("a what-if changed the household that it was asked of")
	}
}

func TestCompareSame(t *testing.T) {
	r := solved(t, sample.Demo(t, "two-earners"))
	if c := Compare(r, r); len(c.Entries) > 0 || !c.Change.TotalTax.IsZero() || !c.Change.Recommended.IsZero() {
		t.Errorf("%+v", c)
	}
}

// A baby in March of next year changes January's certificate alone: the child
// counts for that year (IRC 24(c)(1)), and not for this one.
func TestCompareJanuary(t *testing.T) {
	h := sample.Answers(t, "a couple with one job", `
format: 1
tax_year: 2026
as_of: 2026-06-15
filing_status: married_filing_jointly
jobs:
  - {name: Mill, pay_frequency: biweekly, taxable_pay: 3000, first_payday: 2026-01-09, certificate: {filing_status: married_filing_jointly}}
`)
	c := Compare(solved(t, h), solved(t, WithBaby(h, household.On(2027, 3, 10))))
	if len(c.Entries) > 0 || !c.Change.TotalTax.IsZero() {
		t.Errorf("this year changes: %+v", c)
	}
	credits := false
	for _, e := range c.January {
		credits = credits || e.Line == "3a" && e.B.Equal(money.Dollars(2200)) && e.A.IsZero()
	}
	if !credits {
		t.Errorf("January: %+v", c.January)
	}
}
