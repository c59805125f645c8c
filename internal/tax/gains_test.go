package tax

import (
	"testing"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/sample"
)

func TestCapitalGain(t *testing.T) {
	const joint, separate = household.MarriedFilingJointly, household.MarriedFilingSeparately
	tests := []struct {
		source      string
		status      household.Status
		short, long string
		onReturn    string
		own         string // at the rates for capital gains
		carried     bool
	}{
		{"IRC 1222(11): a long-term gain", joint, "0", "5000", "5000", "5000", false},
		{"IRC 1222(11): a short-term gain has no rate of its own", joint, "5000", "0", "5000", "0", false},
		{"IRC 1222: both", joint, "2000", "5000", "7000", "5000", false},
		{"IRC 1222(11): 5,000 - 2,000", joint, "-2000", "5000", "3000", "3000", false},
		{"IRC 1222: 5,000 - 2,000, all short-term", joint, "5000", "-2000", "3000", "0", false},
		{"IRC 1222: they cancel", joint, "-2000", "2000", "0", "0", false},
		{"IRC 1211(b): 1,000 - 2,500, within the limit", joint, "1000", "-2500", "-1500", "0", false},
		{"IRC 1211(b)(1): at the limit", joint, "-1000", "-2000", "-3000", "0", false},
		{"IRC 1211(b)(1): a dollar above it", joint, "-1001", "-2000", "-3000", "0", true},
		{"IRC 1211(b)(1): half for separate filers", separate, "0", "-1500", "-1500", "0", false},
		{"IRC 1211(b)(1): half for separate filers, a dollar above", separate, "0", "-1501", "-1500", "0", true},
	}
	for _, year := range sample.Years() {
		y := lawOf(t, year)
		for _, tt := range tests {
			h := household.Household{Status: tt.status, Income: household.Income{ShortTermGain: usd(tt.short), LongTermGain: usd(tt.long)}}
			c := throughDeductions(h, y)
			want(t, tt.source, c.income.CapitalGain, tt.onReturn)
			want(t, tt.source+": total income", c.TotalIncome, tt.onReturn)
			want(t, tt.source+": net capital gain", c.income.NetCapitalGain, tt.own)
			if hasNote(c, "capital_loss_carryover") != tt.carried {
				t.Errorf("%s: carryover noted: %v", tt.source, !tt.carried)
			}
		}
	}
}
