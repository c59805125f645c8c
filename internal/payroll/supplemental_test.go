package payroll

import (
	"testing"

	"pgregory.net/rapid"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/worksheet"
)

func TestOnBonus(t *testing.T) {
	const flat, together = household.FlatRate, household.WithPaycheck
	exempt := &household.Certificate{Exempt: true}
	credits := &household.Certificate{Credits: amount("9000")}
	bracket := Options{WageBracket: true}
	tests := []struct {
		source    string
		year      int
		paycheck  Paycheck
		bonus     string
		treatment household.BonusTreatment
		earlier   string
		c         *household.Certificate
		o         Options
		want      string
	}{
		{"Publication 15 (2025), section 7, example 2: 190 on 3,000 less 77 on 2,000", 2025, monthly("2000"), "1000", together, "0", single(false), bracket, "113.00"},
		{"Publication 15 (2025), section 7, example 3: flat rate", 2025, monthly("2000"), "1000", flat, "0", single(false), bracket, "220.00"},
		{"Publication 15 (2025), section 7, example 4: 427 on 5,000 less 190 on 3,000", 2025, monthly("3000"), "2000", together, "1000", single(false), bracket, "237.00"},
		{"Publication 15, section 7: the flat rate leaves Step 3 out", 2026, monthly("2000"), "1000", flat, "0", credits, Options{}, "220.00"},
		{"Publication 15, section 7: none on file", 2026, monthly("2000"), "1000", flat, "0", nil, Options{}, "220.00"},
		{"Publication 15, section 7: an exempt employee's bonus is exempt", 2026, monthly("2000"), "1000", flat, "0", exempt, Options{}, "0.00"},
		{"the same with the paycheck", 2026, monthly("2000"), "1000", together, "0", exempt, Options{}, "0.00"},
		{"Publication 15, section 7: 22% × 100,000 + 37% × 150,000", 2026, monthly("2000"), "250000", flat, "900000", single(false), Options{}, "77500.00"},
		{"Publication 15, section 7: above a million even when exempt, 37% × 150,000", 2026, monthly("2000"), "250000", flat, "900000", exempt, Options{}, "55500.00"},
		{"the last dollar of the million, 22% × 1", 2026, monthly("2000"), "1", flat, "999999", single(false), Options{}, "0.22"},
		{"the first dollar above it, 37% × 1", 2026, monthly("2000"), "1", flat, "1000000", single(false), Options{}, "0.37"},
		{"above a million with the paycheck too, 37% × 1,000", 2026, monthly("2000"), "1000", together, "1000000", single(false), Options{}, "370.00"},
		// 22% × 1000.05 = 220.011
		{"to the cent", 2026, monthly("2000"), "1000.05", flat, "0", single(false), Options{}, "220.01"},
		{"to the dollar", 2026, monthly("2000"), "1003", flat, "0", single(false), Options{WholeDollars: true}, "221.00"},
		// (3000 × 12 − 8600 = 27400: 1240 + 12% × 7500 = 2140; ÷ 12 = 178.33) less (2000 × 12 − 8600 = 15400: 10% × 7900 = 790; ÷ 12 = 65.83)
		{"Publication 15, section 7, with the paycheck by Worksheet 1A", 2026, monthly("2000"), "1000", together, "0", single(false), Options{}, "112.50"},
		// Step 3 of 9000 takes all of 2140 a year away
		{"with the paycheck the credits go on counting", 2026, monthly("2000"), "1000", together, "0", credits, Options{}, "0.00"},
		{"a pension has no flat rate here: as with the paycheck, 112.50 above", 2026, Paycheck{Wages: amount("2000"), Frequency: household.Monthly, Kind: household.Pension}, "1000", flat, "0", single(false), Options{}, "112.50"},
	}
	for _, tt := range tests {
		t.Run(tt.source, func(t *testing.T) {
			b := Bonus{Amount: amount(tt.bonus), Treatment: tt.treatment, Earlier: amount(tt.earlier)}
			var s worksheet.Sheet
			got := OnBonus(tt.paycheck, b, tt.c, yearOf(t, tt.year), tt.o, &s)
			if got.String() != tt.want {
				t.Errorf("withheld from a bonus of %s: %v, want %s", tt.bonus, got, tt.want)
			}
			written := money.Zero
			for _, l := range s.Lines {
				written = written.Add(l.Amount)
			}
			if !written.Equal(got) {
				t.Errorf("the sheet's lines add up to %v, the bonus withholds %v", written, got)
			}
		})
	}
}

func TestBonusIsNeverTakenWhole(t *testing.T) {
	y := yearOf(t, 2026)
	rapid.Check(t, func(t *rapid.T) {
		b := Bonus{
			Amount:    money.Cents(int64(rapid.IntRange(0, 2_000_000_00).Draw(t, "bonus"))),
			Treatment: rapid.SampledFrom([]household.BonusTreatment{household.FlatRate, household.WithPaycheck}).Draw(t, "treatment"),
			Earlier:   money.Dollars(int64(rapid.IntRange(0, 1_500_000).Draw(t, "earlier"))),
		}
		p, c := drawPaycheck(t), drawCertificate(t, "certificate")
		got := OnBonus(p, b, c, y, Options{}, nil)
		if got.IsNegative() || got.More(b.Amount) {
			t.Fatalf("withheld %v from a bonus of %v", got, b.Amount)
		}
		more := b
		more.Amount = b.Amount.Add(money.Dollars(1))
		if next := OnBonus(p, more, c, y, Options{}, nil); next.Less(got) {
			t.Fatalf("withheld %v from a bonus of %v, %v from a dollar more", got, b.Amount, next)
		}
	})
}
