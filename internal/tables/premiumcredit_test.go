package tables

import (
	"testing"

	"example.com/plumbline/internal/household"
)

// Shares at and around the ends of the ranges.
func TestApplicablePercentage(t *testing.T) {
	tests := []struct {
		source  string
		year    int
		percent int
		want    string
	}{
		{"Form 8962 Table 2 (2025), from memory: nothing up to 150%", 2025, 149, "0"},
		{"Table 2 (2025): 150%", 2025, 150, "0"},
		{"Table 2 (2025): 0.02 × 1/50", 2025, 151, "0.0004"},
		{"Table 2 (2025): 200%", 2025, 200, "0.02"},
		{"Table 2 (2025): 0.02 + 0.02 × 25/50", 2025, 225, "0.03"},
		{"Table 2 (2025): 0.06 + 0.025 × 1/100 = 0.06025, half up", 2025, 301, "0.0603"},
		{"Table 2 (2025): 0.06 + 0.025 × 33/100 = 0.06825, half up", 2025, 333, "0.0683"},
		{"Table 2 (2025): 0.06 + 0.025 × 99/100 = 0.08475, half up", 2025, 399, "0.0848"},
		{"Table 2 (2025): 400% and more", 2025, 1200, "0.085"},
		{"Rev. Proc. 2025-25: below 133%", 2026, 132, "0.021"},
		{"Rev. Proc. 2025-25: 133%", 2026, 133, "0.0314"},
		{"Rev. Proc. 2025-25: 0.0314 + 0.0105 × 16/17 = 0.041282", 2026, 149, "0.0413"},
		{"Rev. Proc. 2025-25: 150%", 2026, 150, "0.0419"},
		{"Rev. Proc. 2025-25: 0.0660 + 0.0184 × 49/50 = 0.084032", 2026, 249, "0.084"},
		{"Rev. Proc. 2025-25: 300%", 2026, 300, "0.0996"},
		{"Rev. Proc. 2025-25: 400%", 2026, 400, "0.0996"},
	}
	for _, tt := range tests {
		y := shipped(t, tt.year)
		if got := y.PremiumCredit.Applicable.Share(tt.percent).Text(); got != tt.want {
			t.Errorf("%s: %s, want %s", tt.source, got, tt.want)
		}
	}
}

// A family of four: one, and three more.
func TestPovertyLine(t *testing.T) {
	p := shipped(t, 2026).PremiumCredit.PovertyLine
	for place, want := range map[household.Place]string{
		household.States: "32150", // 15,650 + 3 × 5,500
		household.Alaska: "40190", // 19,550 + 3 × 6,880
		household.Hawaii: "36980", // 17,990 + 3 × 6,330
	} {
		if got := p.Of(place, 4).Text(); got != want {
			t.Errorf("%v: %s, want %s", place, got, want)
		}
	}
	if got := p.Of(household.States, 0).Text(); got != "15650" {
		t.Errorf("nobody: %s, want the line of one", got)
	}
}
