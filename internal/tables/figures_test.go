package tables

import (
	"strings"
	"testing"

	"example.com/plumbline/internal/money"
)

func TestFigures(t *testing.T) {
	byKey := map[string]Figure{}
	for _, f := range shipped(t, 2026).Figures() {
		if _, twice := byKey[f.Key]; twice {
			t.Errorf("%s is listed twice", f.Key)
		}
		if f.Citation.Source == "" || f.Value == "" || f.Basis == "" || f.Basis == Mixed && f.Citation.Note == "" {
			t.Errorf("%s: incomplete: %+v, %+v", f.Key, f, f.Citation)
		}
		byKey[f.Key] = f
	}
	tests := []struct {
		key, group, value string
		basis             Basis
		indexed           bool
	}{
		{"standard_deduction.basic.head_of_household", "standard_deduction", "24150", Found, true},
		{"standard_deduction.dependent_earned_income_plus", "standard_deduction", "450", Found, true},
		{"standard_deduction.aged_from", "standard_deduction", "65", Found, false},
		{"rate_schedules.by_status.single[1].over", "rate_schedules", "12400", Found, true},
		{"rate_schedules.by_status.single[1].rate", "rate_schedules", "0.12", Found, false},
		{"savers_credit.tiers[1].up_to.single", "savers_credit", "26250", Found, true},
		{"savers_credit.tiers[2].up_to.single", "savers_credit", "40250", Found, true},
		{"earned_income_credit.by_children[3].phase_in_rate", "earned_income_credit", "0.45", Memory, false},
		{"underpayment.installments.due", "underpayment.installments", "2026-04-15, 2026-06-15, 2026-09-15, 2027-01-15", Derived, true},
		{"payroll.line_1g.single", "payroll", "8600", Memory, true},
		{"payroll.nonresident_addition.current_certificate.weekly", "payroll.nonresident_addition", "309.60", Derived, true},
		{"form_w4.multiple_jobs.single.rows[0].cells", "form_w4.multiple_jobs", shippedRow, Found, true},
		{"form_w4.exempt_box", "form_w4", "true", Found, false},
	}
	for _, tt := range tests {
		f := byKey[tt.key]
		if f.Group != tt.group || f.Value != tt.value || f.Basis != tt.basis || f.Indexed != tt.indexed {
			t.Errorf("%s: %+v, want %+v", tt.key, f, tt)
		}
	}
}

// Form W-4 (2026), page 5, single, the first row.
const shippedRow = "90, 850, 1020, 1020, 1020, 1070, 1870, 1870, 1870, 1870, 1870, 1970"

func TestCompare(t *testing.T) {
	changes := map[string]Change{}
	for _, c := range Compare(shipped(t, 2025), shipped(t, 2026)) {
		changes[c.Key] = c
	}
	tests := []Change{
		{"standard_deduction.basic.single", "15750", "16100"},
		{"itemized_deductions.overall_limit.numerator", "", "2"},
		{"charity.floor", "0", "0.005"},
		// The form's joint table had 18 rows in 2025, and 15 in 2026.
		{"form_w4.multiple_jobs.married_filing_jointly.rows[17].from", "525000", ""},
	}
	for _, want := range tests {
		if got := changes[want.Key]; got != want {
			t.Errorf("%s: %q to %q, want %q to %q", want.Key, got.Old, got.New, want.Old, want.New)
		}
	}
	for _, key := range []string{"tips_deduction.cap.single", "child_tax_credit.per_child", "rate_schedules.by_status.single[1].rate"} {
		if c, differs := changes[key]; differs {
			t.Errorf("%s is said to differ: %v", key, c)
		}
	}
	if same := Compare(shipped(t, 2026), shipped(t, 2026)); len(same) > 0 {
		t.Errorf("a year differs from itself: %v", same)
	}
}

// An inflation adjustment never lowers an amount (IRC 1(f)(3)), and a year's
// inflation is a matter of percents: what falls or leaps from one year to the
// next is a slip of the pen, or a law, and then named here.
func TestIndexedAmountsCreepUp(t *testing.T) {
	byLaw := func(key string) bool {
		switch {
		case strings.HasPrefix(key, "alternative_minimum_tax.phase_out_from."): // P.L. 119-21 sec. 70107
			return true
		case strings.HasPrefix(key, "premium_tax_credit.applicable_percentage."): // shares; P.L. 117-169 sec. 12001 ended with 2025
			return true
		case strings.HasPrefix(key, "form_w4.step_3a_per_child"), strings.HasPrefix(key, "form_w4.worksheet_"): // printed in 2025 before P.L. 119-21
			return true
		case strings.HasPrefix(key, "form_w4.multiple_jobs."), strings.HasPrefix(key, "underpayment."): // no amounts of the law
			return true
		}
		return strings.HasPrefix(key, "payroll.nonresident_addition.") || strings.HasPrefix(key, "payroll.built_in_standard_deduction.") // the same
	}
	compared := 0
	before := map[string]string{}
	for _, f := range shipped(t, 2025).Figures() {
		before[f.Key] = f.Value
	}
	for _, f := range shipped(t, 2026).Figures() {
		last, both := before[f.Key]
		if !f.Indexed || !both || byLaw(f.Key) || strings.HasSuffix(f.Key, "_by") || last == "0" {
			continue
		}
		compared++
		old, now := money.MustParse(last), money.MustParse(f.Value)
		if most := old.Times(120).DividedBy(100); now.Less(old) || now.More(most) {
			t.Errorf("%s: from %v to %v", f.Key, old, now)
		}
	}
	if compared < 100 {
		t.Errorf("compared %d figures, want all the indexed amounts", compared)
	}
}

// Rev. Proc. 2024-40 and 2025-32, earned income credit: the maximum credits and
// the ends of the phase-outs, which are found in print, hold the amounts that
// are from memory within a dollar.
func TestEarnedIncomeColumnsAgree(t *testing.T) {
	for _, year := range []int{2025, 2026} {
		for i, c := range shipped(t, year).EarnedIncome.ByChildren {
			near := func(what string, got, want money.Amount) {
				if got.Sub(want).Abs().More(money.Dollars(1)) {
					t.Errorf("%d, %d children: %s is %v, worked out %v", year, i, what, want, got)
				}
			}
			near("maximum credit", c.EarnedAmount.At(c.PhaseInRate), c.MaximumCredit)
			for _, end := range []struct{ from, to money.Amount }{
				{c.PhaseOutFrom, c.CompletePhaseOut}, {c.PhaseOutFromJoint, c.CompletePhaseOutJoint},
			} {
				lost := end.to.Sub(end.from).At(c.PhaseOutRate)
				if lost.Sub(c.MaximumCredit).Abs().More(money.Dollars(1).At(c.PhaseOutRate)) {
					t.Errorf("%d, %d children: from %v to %v loses %v, the credit is %v", year, i, end.from, end.to, lost, c.MaximumCredit)
				}
			}
		}
	}
}
