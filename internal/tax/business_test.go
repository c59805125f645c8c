package tax

import (
	"testing"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/sample"
)

func TestBusinessDeduction(t *testing.T) {
	const single, joint = household.Single, household.MarriedFilingJointly
	tests := []struct {
		source       string
		year         int
		status       household.Status
		wages        string
		self, spouse string
		longGain     string
		dividends    string // qualified
		want         string
		note         string
	}{
		// half of 2,825.91 is 1,412.955; 20% × (20,000 - 1,412.955)
		{"IRC 199A(b)(2)(A), Reg. 1.199A-3(b)(1)(vi)", 2026, single, "50000", "20000", "0", "0", "0", "3717.41", ""},
		// 18,587.045 - 16,100 = 2,487.045 × 20%
		{"IRC 199A(a)(1)(B): 20% of taxable income", 2026, single, "0", "20000", "0", "0", "0", "497.41", ""},
		// 15,750 in 2025: 2,837.045 × 20%
		{"IRC 199A(a)(1)(B): 20% of taxable income in 2025", 2025, single, "0", "20000", "0", "0", "0", "567.41", ""},
		// 18,587.045 + 10,000 + 1,000 - 16,100 = 13,487.045, less 11,000 of gain and dividends
		{"IRC 199A(a)(1)(B), (e)(3): less net capital gain and qualified dividends", 2026, single, "0", "20000", "0", "10000", "1000", "497.41", ""},
		// 20% × (18,587.045 - 10,000)
		{"IRC 199A(c)(2): one's loss comes off the other's profit", 2026, joint, "50000", "20000", "-10000", "0", "0", "1717.41", ""},
		{"IRC 199A(c)(2): a loss is carried", 2026, joint, "50000", "-20000", "10000", "0", "0", "0", "qbi_loss_carryover"},
		// 1,500 × 0.9235 × 15.3% = 211.94325, half 105.971625; 20% × 1,394.028375 = 278.81, so 400
		{"IRC 199A(i)(1): the minimum from 2026", 2026, single, "50000", "1500", "0", "0", "0", "400", "qbi_minimum"},
		{"IRC 199A(i): none in 2025", 2025, single, "50000", "1500", "0", "0", "0", "278.81", ""},
		// 1,076 × 0.9235 × 15.3% = 152.033958, half 76.016979: 999.983021
		{"IRC 199A(i)(2): less than 1,000", 2026, single, "50000", "1076", "0", "0", "0", "200.00", ""},
		// 1,077: half 76.087626...: 1,000.91
		{"IRC 199A(i)(2): at least 1,000", 2026, single, "50000", "1077", "0", "0", "0", "400", ""},
	}
	for _, tt := range tests {
		t.Run(tt.source, func(t *testing.T) {
			h := household.Household{Status: tt.status, Income: household.Income{
				SelfEmployment: household.ByEarner{Self: usd(tt.self), Spouse: usd(tt.spouse)},
				LongTermGain:   usd(tt.longGain), OrdinaryDividends: usd(tt.dividends), QualifiedDividends: usd(tt.dividends),
			}}
			c := throughDeductions(h, lawOf(t, tt.year), paid(household.OfSelf, tt.wages))
			want(t, "deduction", c.BusinessDeduction, tt.want)
			if tt.note != "" && !hasNote(c, tt.note) {
				t.Errorf("no note %q among %v", tt.note, c.s.Notes)
			}
		})
	}
}

// At the threshold the deduction is whole; a dollar above it, it is not
// computed and that is said. 300 of profit is below the least net earnings, so
// taxable income is wages + 300 less the standard deduction.
//
// IRC 199A(b)(3)(A), (e)(2).
func TestBusinessThreshold(t *testing.T) {
	for _, year := range sample.Years() {
		y := lawOf(t, year)
		for _, status := range household.Statuses() {
			at := y.BusinessIncome.Threshold.Of(status).Add(y.StandardDeduction.Basic.Of(status)).Sub(usd("300"))
			for _, tt := range []struct {
				more, want string
				caution    bool
			}{{"-1", "60", false}, {"0", "60", false}, {"1", "0", true}, {"200000", "0", true}} {
				h := household.Household{Status: status, Income: household.Income{SelfEmployment: household.ByEarner{Self: usd("300")}}}
				c := throughDeductions(h, y, paid(household.OfSelf, at.Add(usd(tt.more)).Text()))
				want(t, status.String()+" at the threshold and "+tt.more, c.BusinessDeduction, tt.want)
				if hasNote(c, "qbi_above_threshold") != tt.caution {
					t.Errorf("%d %v at the threshold and %s: cautioned: %v", year, status, tt.more, !tt.caution)
				}
			}
		}
	}
}
