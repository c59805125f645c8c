package tax

import (
	"testing"

	"example.com/plumbline/internal/household"
)

func TestMinimumTaxIncome(t *testing.T) {
	tests := []struct {
		source string
		year   int
		status household.Status
		agi    string
		set    func(c *computation)
		want   string
	}{
		{"IRC 56(b)(1): the standard deduction is not allowed", 2025, household.Single, "600000", func(c *computation) {
			c.StandardOrItemized = usd("15750")
		}, "600000"},
		// 600,000 - 60,000 + 10,000
		{"IRC 56(b)(1): nor state and local taxes", 2025, household.Single, "600000", func(c *computation) {
			c.Itemized, c.StandardOrItemized, c.deductions.StateLocal = true, usd("60000"), usd("10000")
		}, "550000"},
		// 53,000 of itemized deductions less 10,000 of taxes come off: 700,000 - 43,000
		{"IRC 56(b)(1): nor does the overall limit apply", 2026, household.Single, "700000", func(c *computation) {
			c.Itemized, c.StandardOrItemized = true, usd("50000")
			c.deductions.StateLocal, c.deductions.OverallReduction = usd("10000"), usd("3000")
		}, "657000"},
		// 600,000 - 1,000 of tips - 2,000 of business income deduction
		{"IRC 56(b)(1), 151(d)(5)(C): nor the deduction for seniors, but tips are", 2025, household.Single, "600000", func(c *computation) {
			c.StandardOrItemized, c.ExtraDeductions, c.deductions.Senior, c.deductions.Tips = usd("15750"), usd("7000"), usd("6000"), usd("1000")
			c.BusinessDeduction = usd("2000")
		}, "597000"},
		// Instructions for Form 6251 (2025), line 4 (from memory): above 900,350,
		// 25% of the excess, 40,000 × 25% = 10,000
		{"IRC 55(d)(3): a separate filer adds a part back", 2025, household.MarriedFilingSeparately, "940350", func(*computation) {}, "950350"},
		{"IRC 55(d)(3): at 900,350", 2025, household.MarriedFilingSeparately, "900350", func(*computation) {}, "900350"},
		{"IRC 55(d)(3): from 1,174,350 the whole 68,500", 2025, household.MarriedFilingSeparately, "1174350", func(*computation) {}, "1242850"},
		{"IRC 55(d)(3): never more", 2025, household.MarriedFilingSeparately, "2000000", func(*computation) {}, "2068500"},
	}
	for _, tt := range tests {
		c := onReturn(household.Household{Status: tt.status}, lawOf(t, tt.year), tt.agi, "0")
		tt.set(c)
		income, _ := c.sum(c.minimumTaxParts()...)
		want(t, tt.source, income, tt.want)
	}
}

func TestMinimumTax(t *testing.T) {
	tests := []struct {
		source              string
		year                int
		status              household.Status
		agi, incomeTax, amt string
	}{
		// 88,100 - 25% × 23,650 = 82,187.50; 650,000 - 82,187.50 = 567,812.50;
		// 26% × 239,100 + 28% × 328,712.50 = 62,166 + 92,039.50 = 154,205.50
		{"IRC 55(d)(3): 25% of the exemption in 2025", 2025, household.Single, "650000", "150000", "4205.50"},
		// 90,100 - 50% × 100,000 = 40,100; 559,900; 26% × 244,500 + 28% × 315,400 = 63,570 + 88,312
		{"IRC 55(d)(4)(A)(ii): 50% from 2026", 2026, household.Single, "600000", "150000", "1882"},
		// 200,000 - 140,200 = 59,800 × 26%
		{"IRC 55(b)(1)(A)(i): 26%, joint", 2026, household.MarriedFilingJointly, "200000", "10000", "5548"},
		{"IRC 55(a): the income tax is more", 2026, household.MarriedFilingJointly, "200000", "15548", "0"},
		{"IRC 55(d): within the exemption", 2026, household.Single, "90100", "0", "0"},
		// 90,101 - 90,100
		{"IRC 55(d): a dollar above", 2026, household.Single, "90101", "0", "0.26"},
	}
	for _, tt := range tests {
		c := onReturn(household.Household{Status: tt.status}, lawOf(t, tt.year), tt.agi, "0")
		c.IncomeTax = usd(tt.incomeTax)
		c.minimumTax()
		want(t, tt.source, c.AlternativeMinimumTax, tt.amt)
	}
}

// IRC 55(b)(3): gains keep their rates, and the room that ordinary income
// leaves below the zero rate's limit. 2025, single: 34,250 of ordinary taxable
// income and a gain of 1,000,000.
//
//	income tax   1,192.50 + 12% × 22,325 = 3,871.50
//	             48,350 - 34,250 = 14,100 at 0%
//	             533,400 - 48,350 = 485,050 at 15% = 72,757.50
//	             500,850 at 20% = 100,170            sum 176,799.00
//	minimum tax  no exemption is left; 1,050,000 - 1,000,000 = 50,000 at 26% = 13,000
//	             the gain as above: 172,927.50       sum 185,927.50
func TestMinimumTaxKeepsRatesForGains(t *testing.T) {
	c := onReturn(household.Household{}, lawOf(t, 2025), "1050000", "1034250")
	c.m = BySchedule
	c.StandardOrItemized, c.income.NetCapitalGain = usd("15750"), usd("1000000")
	c.incomeTax()
	c.minimumTax()
	want(t, "income tax", c.IncomeTax, "176799")
	want(t, "alternative minimum tax", c.AlternativeMinimumTax, "9128.50")
}
