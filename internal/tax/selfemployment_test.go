package tax

import (
	"slices"
	"strings"
	"testing"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/worksheet"
)

func TestSelfEmploymentTax(t *testing.T) {
	tests := []struct {
		source     string
		year       int
		wages, net string
		earnings   string
		tax        string
		half       string
		earned     string
	}{
		// 20,000 × 0.9235 = 18,470; × 12.4% = 2,290.28; × 2.9% = 535.63
		{"IRC 1401, 1402(a)(12)", 2026, "0", "20000", "18470", "2825.91", "1412.96", "18587.05"},
		// 433.13 × 0.9235 = 399.995555: less than 400
		{"IRC 1402(b)(2): below the least net earnings", 2026, "0", "433.13", "0", "0", "0", "433.13"},
		// 433.14 × 0.9235 = 400.00479; × 15.3% = 61.200733; half 30.600366
		{"IRC 1402(b)(2): at the least net earnings", 2026, "0", "433.14", "400.00", "61.20", "30.60", "402.54"},
		{"IRC 1402(a): a loss is taxed at nothing", 2026, "5000", "-3000", "0", "0", "0", "2000"},
		// base left 184,500 - 180,000 = 4,500 × 12.4% = 558; 18,470 × 2.9% = 535.63
		{"IRC 1402(b)(1): wages use up the base", 2026, "180000", "20000", "18470", "1093.63", "546.82", "199453.19"},
		// base left 176,100 - 180,000: none; 535.63 alone
		{"IRC 1402(b)(1): the base of the year before", 2025, "180000", "20000", "18470", "535.63", "267.82", "199732.19"},
		// 300,000 × 0.9235 = 277,050; 184,500 × 12.4% = 22,878; × 2.9% = 8,034.45
		{"IRC 1402(b)(1): net earnings above the base", 2026, "0", "300000", "277050", "30912.45", "15456.23", "284543.78"},
	}
	for _, tt := range tests {
		t.Run(tt.source, func(t *testing.T) {
			h := household.Household{Income: household.Income{SelfEmployment: household.ByEarner{Self: usd(tt.net), Spouse: usd("7777")}}}
			c := throughDeductions(h, lawOf(t, tt.year), paid(household.OfSelf, tt.wages))
			w := c.work[household.OfSelf]
			want(t, "net earnings", w.NetEarnings, tt.earnings)
			want(t, "self-employment tax", c.SelfEmploymentTax, tt.tax)
			want(t, "half of it", c.adjustments.HalfSelfEmployment, tt.half)
			want(t, "earned income", w.EarnedIncome, tt.earned)
			want(t, "the spouse's, not on this return", c.work[household.OfSpouse].SelfEmploymentTax, "0")
		})
	}
}

// Each spouse has a base of their own: one spouse's wages leave the other's
// whole, and one's loss lowers income but not the other's tax.
//
// IRC 1402(b); Schedule SE, one for each spouse.
func TestSelfEmploymentTaxOfEach(t *testing.T) {
	h := household.Household{
		Status: household.MarriedFilingJointly,
		Income: household.Income{SelfEmployment: household.ByEarner{Self: usd("-10000"), Spouse: usd("20000")}},
	}
	c := throughDeductions(h, lawOf(t, 2026), paid(household.OfSelf, "200000"))
	want(t, "self-employment tax", c.SelfEmploymentTax, "2825.91") // as above
	want(t, "business income", c.income.SelfEmployment, "10000")
	for id, amount := range map[string]string{"tax.business_income": "10000", "tax.self_employment_tax": "2825.91"} {
		i := slices.IndexFunc(c.s.Lines, func(l worksheet.Line) bool { return l.ID == id })
		if i < 0 {
			t.Fatalf("no line %s", id)
		}
		want(t, id, c.s.Lines[i].Amount, amount)
	}
	// 10,000 × 0.9235 × 15.3% = 1,412.955 beside the 2,825.91
	h.Income.SelfEmployment.Self = usd("10000")
	both := throughDeductions(h, lawOf(t, 2026))
	for id, amount := range map[string]string{"tax.business_income": "30000", "tax.self_employment_tax": "4238.87"} {
		i := slices.IndexFunc(both.s.Lines, func(l worksheet.Line) bool { return l.ID == id })
		want(t, id+" of both", both.s.Lines[i].Amount, amount)
		each := strings.Replace(id, "tax.business_income", "income.self_employment", 1)
		if from := []string{each + ".self", each + ".spouse"}; !slices.Equal(both.s.Lines[i].From, from) {
			t.Errorf("%s is from %q, want %q", id, both.s.Lines[i].From, from)
		}
	}
	want(t, "adjusted gross income", c.AdjustedGrossIncome, "208587.05") // 200,000 + 10,000 - 1,412.955, half a cent up
}
