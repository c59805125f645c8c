package certificate

import (
	"testing"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/tables"
)

// withWays are the ways that the employers may be asked for, better than the
// advice or not.
func withWays(h household.Household, y *tables.Year) Result {
	pr := newProjection(h, y, nil)
	return Result{OtherWays: pr.openWays(pr.fillForm(nil))}
}

func way(r Result, code string) (Way, bool) {
	for _, w := range r.OtherWays {
		if w.Code == code {
			return w, true
		}
	}
	return Way{}, false
}

func wantPaychecks(t *testing.T, w Way, want ...string) {
	t.Helper()
	for i, m := range want {
		if i >= len(w.Paychecks) || !w.Paychecks[i].Withheld.Equal(money.MustParse(m)) {
			t.Errorf("paychecks %v, want %v", w.Paychecks, want)
			return
		}
	}
}

// 2,000 every two weeks, single, nothing else: 52,000 - 8,600 = 43,400 a year;
// 1,240 + 12% of 43,400 - 19,900 = 4,060; ÷ 26 = 156.15. After 13 paydays 2,600
// is withheld: 14 × 156.15 to 16 × 156.15 are less, 17 × 156.15 = 2,654.55.
func TestCumulativeWages(t *testing.T) {
	r := withWays(overWithheld(t), year(t, 2026))
	w, ok := way(r, CumulativeWage)
	if !ok {
		t.Fatalf("not named among %v", r.OtherWays)
	}
	wantPaychecks(t, w, "0", "0", "0", "54.55", "156.15", "156.15")
	if w.Paychecks[0].Change.String() != "156.15" || w.Request.IsZero() || w.Condition.IsZero() {
		t.Errorf("first paycheck %+v, request %q, condition %q", w.Paychecks[0], w.Request, w.Condition)
	}
	if _, ok := way(r, PartYear); ok {
		t.Error("the part-year method is named for one employed all year")
	}
}

const summer = `
format: 1
tax_year: 2026
as_of: 2026-05-30
filing_status: single
self: {birth_date: 2006-02-01}
jobs:
  - {name: A, pay_frequency: biweekly, taxable_pay: 2000, first_payday: 2026-06-12, last_payday: 2026-08-21}
`

// A job from about 29 May, 149 days after 31 December: 10 idle pay periods. The
// fourth payday: 8,000 ÷ 14 = 571.43, taxed nothing. The fifth: 10,000 ÷ 15 =
// 666.67; × 26 - 8,600 = 8,733.33; 10% above 7,500, ÷ 26 = 4.74; × 15 = 71.10.
// The sixth: 12,000 ÷ 16 = 750; 13.08; × 16 = 209.28, less 71.10.
func TestPartYear(t *testing.T) {
	r := withWays(answers(t, "summer", summer), year(t, 2026))
	w, ok := way(r, PartYear)
	if !ok {
		t.Fatalf("not named among %v", r.OtherWays)
	}
	wantPaychecks(t, w, "0", "0", "0", "0", "71.10", "138.18")
	if w.Balance.String() != "209.28" {
		t.Errorf("balance %v: 12,000 of wages are below the standard deduction, so all 209.28 comes back", w.Balance)
	}
	if _, ok := way(r, CumulativeWage); ok {
		t.Error("the cumulative wage method is named for one who began in May")
	}
}

// Publication 505 (2025), ch. 1, p. 6: not for one who began before 1 May and
// works to year end: more than 245 days.
func TestPartYearAsksFor245Days(t *testing.T) {
	for _, tt := range []struct {
		first household.Date
		fits  bool
	}{
		{household.On(2026, 5, 1), false}, // since 17 April
		{household.On(2026, 5, 15), true}, // since 1 May
	} {
		h := answers(t, "summer", summer)
		h.AsOf = tt.first.AddDays(-15)
		h.Jobs[0].FirstPayday, h.Jobs[0].LastPayday = tt.first, household.Date{}
		r := withWays(h, year(t, 2026))
		if _, ok := way(r, PartYear); ok != tt.fits {
			t.Errorf("first payday %v: named %v, want %v", tt.first, ok, tt.fits)
		}
	}
}

// Nothing is named where the form's entries do not withhold too much.
func TestNoOtherWayIsNeeded(t *testing.T) {
	for _, name := range []string{"new-hire", "two-earners"} {
		r, err := Solve(demo(t, name), year(t, 2026), nil)
		if err != nil {
			t.Fatal(err)
		}
		if len(r.OtherWays) > 0 {
			t.Errorf("%s: %v", name, r.OtherWays)
		}
	}
}
