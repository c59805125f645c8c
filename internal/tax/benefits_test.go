package tax

import (
	"testing"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/sample"
)

// The published worksheets. Line numbers are those of the worksheet in
// Publication 17 (2023), Worksheet 7-1.
func TestBenefitsPublished(t *testing.T) {
	type lines struct{ half, other, combined, adjustments, income, overBase, overAdjusted, lower, upper, most, taxable string }
	tests := []struct {
		source                             string
		status                             household.Status
		benefits, pension, wages, interest string
		ira                                string
		base                               string
		want                               lines
	}{
		{
			"Publication 17 (2024), ch. 7, quick check", household.Single, "1500", "16000", "0", "700", "0", "25000",
			lines{"750", "16700", "17450", "0", "17450", "0", "0", "0", "0", "1275", "0"},
		},
		{
			"Publication 17 (2023), ch. 7, example 1", household.Single, "5980", "18600", "9400", "990", "0", "25000",
			lines{"2990", "28990", "31980", "0", "31980", "6980", "0", "2990", "0", "5083", "2990"},
		},
		{
			"Publication 17 (2023), ch. 7, example 2", household.MarriedFilingJointly, "5600", "15500", "14000", "250", "1000", "32000",
			lines{"2800", "29750", "32550", "1000", "31550", "0", "0", "0", "0", "4760", "0"},
		},
		{
			// The $200 of savings bond interest that the example excludes from
			// income and the worksheet adds back is within the interest here.
			"Publication 17 (2023), ch. 7, example 3", household.MarriedFilingJointly, "10000", "38000", "0", "2500", "0", "32000",
			lines{"5000", "40500", "45500", "0", "45500", "13500", "1500", "5000", "1275", "8500", "6275"},
		},
	}
	y := lawOf(t, 2025)
	for _, tt := range tests {
		t.Run(tt.source, func(t *testing.T) {
			h := household.Household{
				Status:      tt.status,
				Income:      household.Income{SocialSecurity: usd(tt.benefits), Retirement: usd(tt.pension), Interest: usd(tt.interest)},
				Adjustments: household.Adjustments{IRADeduction: usd(tt.ira)},
			}
			c := throughDeductions(h, y, paid(household.OfSelf, tt.wages))
			want(t, "taxable benefits", c.income.TaxableBenefits, tt.want.taxable)

			base, adjusted := c.benefitsBases()
			want(t, "line 9, base amount", base, tt.base)
			other := c.TotalIncome.Sub(c.income.TaxableBenefits)
			want(t, "line 3, other income", other, tt.want.other)
			want(t, "line 7, adjustments", c.adjustments.beforeStudentLoan(), tt.want.adjustments)
			w := c.taxBenefits(other, c.adjustments.beforeStudentLoan(), base, adjusted)
			want(t, "line 2, half of the benefits", w.Half, tt.want.half)
			want(t, "line 6", w.Half.Add(other), tt.want.combined)
			want(t, "line 8", w.Income, tt.want.income)
			want(t, "line 10", w.OverBase, tt.want.overBase)
			want(t, "line 12", w.OverAdjusted, tt.want.overAdjusted)
			want(t, "line 15", w.Lower, tt.want.lower)
			want(t, "line 16", w.Upper, tt.want.upper)
			want(t, "line 18", w.Most, tt.want.most)
			want(t, "line 19", w.Taxable, tt.want.taxable)
		})
	}
}

func TestBenefitsTiers(t *testing.T) {
	const (
		single, joint, separate = household.Single, household.MarriedFilingJointly, household.MarriedFilingSeparately
		widowed                 = household.QualifyingSurvivingSpouse
	)
	tests := []struct {
		source      string
		status      household.Status
		apart       bool
		benefits    string
		pension     string
		studentLoan string
		taxable     string
	}{
		// half 10,000 + 15,000 = 25,000, the base amount: nothing above it
		{"IRC 86(c)(1)(A): at the base amount", single, false, "20000", "15000", "0", "0"},
		{"IRC 86(a)(1)(B): half of the dollar above it", single, false, "20000", "15001", "0", "0.50"},
		{"IRC 86(a)(1)(B): half of 9,000 at the adjusted base amount", single, false, "20000", "24000", "0", "4500"},
		{"IRC 86(a)(2)(A): and 85% of the dollar above it", single, false, "20000", "24001", "0", "4500.85"},
		// half 10,000 + 60,000 = 70,000; 4,500 + 85% × 36,000 = 35,100; at most 85% × 20,000
		{"IRC 86(a)(2)(B): no more than 85%", single, false, "20000", "60000", "0", "17000"},
		// half 10,000 + 36,000 = 46,000; 6,000 + 85% × 2,000
		{"IRC 86(c)(2)(B): joint", joint, false, "20000", "36000", "0", "7700"},
		// the same income: 4,500 + 85% × (46,000 - 34,000) = 14,700
		{"IRC 86(c)(2)(A): a surviving spouse is not on a joint return", widowed, false, "20000", "36000", "0", "14700"},
		// half 10,000 + 5,000 = 15,000 × 85% = 12,750
		{"IRC 86(c)(1)(C): separate filers who lived together have no base", separate, false, "20000", "5000", "0", "12750"},
		{"IRC 86(c)(1)(C)(ii): separate filers who lived apart have it", separate, true, "20000", "5000", "0", "0"},
		// 10,000 + 24,000 = 34,000 whatever the student loan: 4,500
		{"IRC 86(b)(2)(A): student loan interest is not taken off", single, false, "20000", "24000", "2000", "4500"},
	}
	for _, year := range sample.Years() {
		y := lawOf(t, year)
		for _, tt := range tests {
			h := household.Household{
				Status: tt.status, LivedApart: tt.apart,
				Income:      household.Income{SocialSecurity: usd(tt.benefits), Retirement: usd(tt.pension)},
				Adjustments: household.Adjustments{StudentLoanInterest: usd(tt.studentLoan)},
			}
			want(t, tt.source, throughDeductions(h, y).income.TaxableBenefits, tt.taxable)
		}
	}
}

// Half of self-employment tax is an adjustment that lowers the income which
// decides: 20,000 net earns 18,470 × 15.3% = 2,825.91 of tax, half of which is
// 1,412.955; 10,000 + 20,000 - 1,412.955 = 28,587.045; half of 3,587.045.
func TestBenefitsAfterAdjustments(t *testing.T) {
	h := household.Household{Income: household.Income{SocialSecurity: usd("20000"), SelfEmployment: household.ByEarner{Self: usd("20000")}}}
	c := throughDeductions(h, lawOf(t, 2026))
	if got := c.income.TaxableBenefits; !got.Equal(usd("1793.5225")) {
		t.Errorf("taxable benefits = %s, want 1793.5225 (IRC 86(b)(2))", got.Text())
	}
}

// More income never means less of the benefits taxed.
func TestBenefitsRise(t *testing.T) {
	y := lawOf(t, 2026)
	for _, status := range household.Statuses() {
		before := money.Zero
		for pension := int64(0); pension <= 80_000; pension += 500 {
			h := household.Household{Status: status, Income: household.Income{SocialSecurity: usd("18000"), Retirement: money.Dollars(pension)}}
			now := throughDeductions(h, y).income.TaxableBenefits
			if now.Less(before) || now.More(usd("15300")) { // 85% × 18,000
				t.Fatalf("%v with a pension of %d: %v of 18,000 taxed, after %v", status, pension, now, before)
			}
			before = now
		}
	}
}
