package payroll

import (
	"testing"

	"pgregory.net/rapid"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
)

func drawOptions(t *rapid.T) Options {
	return Options{WholeDollars: rapid.Bool().Draw(t, "whole dollars"), WageBracket: rapid.Bool().Draw(t, "wage bracket")}
}

func TestWithholdingIsBetweenNothingAndThePay(t *testing.T) {
	y := yearOf(t, 2026)
	rapid.Check(t, func(t *rapid.T) {
		p := drawPaycheck(t)
		got := Withholding(p, drawCertificate(t, "certificate"), y, drawOptions(t), nil)
		if got.IsNegative() || got.More(p.Wages) {
			t.Fatalf("withheld %v from %v", got, p.Wages)
		}
	})
}

// The percentage and the wage bracket tables each rise with pay. Between them,
// where the bracket tables end, there is a step of up to half a row, so the
// wage bracket method is tried inside its tables.
func TestMorePayNeverLowersWithholding(t *testing.T) {
	y := yearOf(t, 2026)
	rapid.Check(t, func(t *rapid.T) {
		p := drawPaycheck(t)
		c := drawCertificate(t, "certificate")
		o := drawOptions(t)
		more := p
		more.Wages = p.Wages.Add(money.Cents(int64(rapid.IntRange(1, 100_000).Draw(t, "more"))))
		if o.WageBracket && c != nil {
			c.OtherIncome, c.Deductions = money.Zero, money.Zero
		}
		if limit := y.Payroll.WageBracket.UpTo; o.WageBracket && more.Wages.Times(yearPeriods[p.Frequency]).More(limit) {
			o.WageBracket = false
		}
		if _, ok := y.Payroll.WageBracket.Rows.Of(p.Frequency).Middle(more.Wages); !ok {
			o.WageBracket = false
		}
		a, b := Withholding(p, c, y, o, nil), Withholding(more, c, y, o, nil)
		if b.Less(a) {
			t.Fatalf("withheld %v from %v but %v from %v", a, p.Wages, b, more.Wages)
		}
	})
}

// Step 4(c) withholds exactly that much more, unless the pay does not hold it.
func TestExtraWithholdsExactlyThatMuchMore(t *testing.T) {
	y := yearOf(t, 2026)
	rapid.Check(t, func(t *rapid.T) {
		p := drawPaycheck(t)
		c := drawCertificate(t, "certificate")
		if c == nil || c.Exempt {
			c = &household.Certificate{}
		}
		o := drawOptions(t)
		extra := money.Dollars(int64(rapid.IntRange(1, 500).Draw(t, "extra")))
		with := *c
		with.Extra = c.Extra.Add(extra)
		want := Withholding(p, c, y, o, nil).Add(extra)
		if got := Withholding(p, &with, y, o, nil); !got.Equal(money.Min(want, p.Wages)) {
			t.Fatalf("withheld %v with %v more in Step 4(c), want %v of %v", got, extra, want, p.Wages)
		}
	})
}

func TestEntriesPushTheRightWay(t *testing.T) {
	y := yearOf(t, 2026)
	rapid.Check(t, func(t *rapid.T) {
		p := drawPaycheck(t)
		c := drawCertificate(t, "certificate")
		if c == nil || c.Edition == household.Before2020 {
			c = &household.Certificate{}
		}
		o := drawOptions(t)
		o.WageBracket = false // where its tables end, the methods change
		before := Withholding(p, c, y, o, nil)
		more := money.Dollars(int64(rapid.IntRange(1, 20000).Draw(t, "more")))
		for name, change := range map[string]struct {
			raises bool
			of     func(c *household.Certificate)
		}{
			"Step 3":    {false, func(c *household.Certificate) { c.Credits = c.Credits.Add(more) }},
			"Step 4(a)": {true, func(c *household.Certificate) { c.OtherIncome = c.OtherIncome.Add(more) }},
			"Step 4(b)": {false, func(c *household.Certificate) { c.Deductions = c.Deductions.Add(more) }},
		} {
			changed := *c
			change.of(&changed)
			after := Withholding(p, &changed, y, o, nil)
			if change.raises && after.Less(before) || !change.raises && after.More(before) {
				t.Fatalf("%s higher by %v: withheld %v, before %v", name, more, after, before)
			}
		}
	})
}
