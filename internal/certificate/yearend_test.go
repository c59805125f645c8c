package certificate

import (
	"fmt"
	"testing"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
)

// A retired worker in late November: a weekly job and a pension, benefits that
// make her owe, and no tax last year, so that no penalty follows. A form for
// December alone is never advised, whatever is missing: one that is right for next
// year is, or January's; the rest is paid with the return.
func TestNoFormForDecemberAlone(t *testing.T) {
	for _, tt := range []struct{ about, asOf, last string }{
		{"no tax last year", "2026-11-27", "0"},
		{"last year's tax is paid already", "2026-11-16", "600"},
	} {
		advisedForms := -1
		for interest := 1000; interest <= 9000; interest += 1000 {
			r := advised(t, tt.asOf, "single", `
  - {name: Garden center, pay_frequency: weekly, taxable_pay: 420, first_payday: 2026-03-13, year_to_date: {payday: 2026-11-13, taxable_pay: 15792, federal_tax: 464.64}, certificate: {filing_status: single}}
  - {name: Pension, kind: pension, pay_frequency: monthly, taxable_pay: 640, year_to_date: {payday: 2026-11-02, taxable_pay: 7040, federal_tax: 165}, certificate: {filing_status: single, extra: 15}}
`, fmt.Sprintf("self: {birth_date: 1958-05-14}\nincome: {interest: %d, social_security_monthly: {amount: 2140.9, first_month: 1, last_month: 12}}\nlast_year: {total_tax: %s, adjusted_gross_income: 8900}\n", interest, tt.last))
			v := r.Verdict
			if !r.AsFiled.Balance.Less(dollars(-500)) || !r.Harbor.Safe {
				t.Fatalf("%s, %d of interest: on file the year ends on %v, safe %v", tt.about, interest, r.AsFiled.Balance, r.Harbor.Safe)
			}
			if r.Recommended.Name != PlanLasting || r.January.forms() > 0 {
				t.Errorf("%s, %d of interest: %s with %d forms now and %d in January", tt.about, interest, r.Recommended.Name, v.Forms, r.January.forms())
			}
			if advisedForms >= 0 && v.Forms != advisedForms {
				t.Errorf("%s, %d of interest: %d forms, with less interest %d", tt.about, interest, v.Forms, advisedForms)
			}
			if advisedForms = v.Forms; !v.PayDirectly.Amount.Equal(v.PayDirectly.WithReturn) || !v.PayDirectly.Amount.IsPositive() {
				t.Errorf("%s, %d of interest: %v is to be paid, %v of it with the return", tt.about, interest, v.PayDirectly.Amount, v.PayDirectly.WithReturn)
			}
		}
	}
}

// November 16, two paydays on which a new form would count, 1,352 short, and a form
// on file that claims a child who is not there: the one that is right in January too
// is handed in now.
//
// By hand: 26 × 2,000 = 52,000, less 16,100: 35,900; the tax table's row is taxed as
// 35,925: 1,240 + 12% × (35,925 − 12,400) = 4,063. The form on file takes 2,200 off:
// 52,000 − 8,600 = 43,400; 1,240 + 12% × (43,400 − 19,900) − 2,200 = 1,860, a
// paycheck 71.54. Three more on top of 2,496.38 make 2,711: 1,352 short.
func TestTwoPaydaysLeft(t *testing.T) {
	r := advised(t, "2026-11-16", "single", `
  - {name: Mill, pay_frequency: biweekly, taxable_pay: 2000, first_payday: 2026-01-09, year_to_date: {payday: 2026-11-13, taxable_pay: 46000, federal_tax: 2496.38}, certificate: {filing_status: single, credits: 2200}}
`, "last_year: {total_tax: 2000, adjusted_gross_income: 40000}\n")
	if want := money.Cents(-1352_00); r.AsFiled.Balance.Sub(want).Abs().More(dollars(1)) {
		t.Fatalf("on file the year ends on %v, want about %v", r.AsFiled.Balance, want)
	}
	p := r.Recommended
	if p.Name != PlanPlain || p.forms() != 1 || r.January.forms() != 0 || p.Certificates[0].Paydays != 2 {
		t.Errorf("advised %s with %d forms, on %d paydays, and %d in January", p.Name, p.forms(), p.Certificates[0].Paydays, r.January.forms())
	}
}

// servesLongEnough reports an advised form that January replaces and that counts on
// one payday, or for December alone where no penalty follows. It is false where
// this says nothing: a form is due anyway.
func servesLongEnough(t *testing.T, seed uint64, r Result) bool {
	h := r.Household
	if len(r.Duties) > 0 || r.Recommended.Name == PlanExempt {
		return false
	}
	december := household.On(h.TaxYear, 12, 1)
	for _, c := range r.Recommended.Certificates {
		onFile := h.Jobs[c.Job].Certificate
		if c.Keep || onFile == nil || onFile.Exempt || r.Recommended.Lasts || h.Wish.TellEmployer == household.ExtraOnly && !tellsNothing(*onFile) {
			continue
		}
		if c.Paydays == 1 || r.January != nil && !c.FirstPayday.Before(december) && r.Harbor.Safe {
			t.Errorf("seed %d: %s asks for a form at %s for %d paydays from %v on", seed, r.Recommended.Name, c.Name, c.Paydays, c.FirstPayday)
		}
	}
	return true
}
