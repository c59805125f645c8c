package payroll

import (
	"testing"

	"example.com/plumbline/internal/money"
)

// The rates and bases are those of Publication 15 (2026), section 9, and its
// predecessor for 2025: 6.2% up to the wage base of the year, 1.45%, and 0.9% on
// wages above $200,000. The steps are by hand.
func TestStubOf(t *testing.T) {
	y := yearOf(t, 2026)
	base := y.SocialSecurityTax.WageBase.Amount
	tests := []struct {
		name                                string
		wages, withheld, retirement, before string
		security, medicare, takeHome        string
	}{
		// 2,400 × 6.2% = 148.80; × 1.45% = 34.80; 2,400 - 200 - 148.80 - 34.80.
		{"an ordinary paycheck", "2400", "200", "0", "0", "148.80", "34.80", "2016.40"},
		// Both taxes on 2,500: 155.00 and 36.25; 2,400 - 200 - 155 - 36.25.
		{"100 into a retirement plan", "2400", "200", "100", "0", "155.00", "36.25", "2008.75"},
		// 1,000 below the base: 62.00 of social security tax.
		{"across the wage base", "2400", "0", "0", base.Sub(money.Dollars(1000)).Text(), "62.00", "34.80", "2303.20"},
		{"above the wage base", "2400", "0", "0", base.Text(), "0.00", "34.80", "2365.20"},
		// 400 of it above 200,000: 34.80 + 0.9% × 400 = 38.40.
		{"across 200,000", "2400", "0", "0", "198000", "0.00", "38.40", "2361.60"},
	}
	for _, tt := range tests {
		got := StubOf(money.MustParse(tt.wages), money.MustParse(tt.withheld), money.MustParse(tt.retirement), money.MustParse(tt.before), y)
		if got.SocialSecurity.String() != tt.security || got.Medicare.String() != tt.medicare || got.TakeHome.String() != tt.takeHome {
			t.Errorf("%s: social security %v, Medicare %v, take-home %v; want %s, %s, %s", tt.name, got.SocialSecurity, got.Medicare, got.TakeHome, tt.security, tt.medicare, tt.takeHome)
		}
	}
}
