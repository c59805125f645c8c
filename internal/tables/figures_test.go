package tables

import "testing"

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
		{"standard_deduction", "standard_deduction.basic.single", "15750", "16100"},
		{"itemized_deductions.overall_limit", "itemized_deductions.overall_limit.numerator", "", "2"},
		{"charity", "charity.floor", "0", "0.005"},
		// The form's joint table had 18 rows in 2025, and 15 in 2026.
		{"form_w4.multiple_jobs", "form_w4.multiple_jobs.married_filing_jointly.rows[17].from", "525000", ""},
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

func TestPercent(t *testing.T) {
	for _, tt := range []struct{ old, now, want string }{
		{"16100", "16600", "+3.1%"},
		{"500000", "400000", "-20.0%"},
		{"0", "400", ""},
		{"2026-04-15", "2027-04-15", ""},
		{"", "2", ""},
	} {
		if got := (Change{Old: tt.old, New: tt.now}).Percent(); got != tt.want {
			t.Errorf("%q to %q: %q, want %q", tt.old, tt.now, got, tt.want)
		}
	}
	if changed, of := (Change{Old: "1, 2, 3", New: "1, 5, 6"}).List(); changed != 2 || of != 3 {
		t.Errorf("%d of %d change, want 2 of 3", changed, of)
	}
}
