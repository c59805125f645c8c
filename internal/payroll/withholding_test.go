package payroll

import (
	"testing"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/tables"
	"example.com/plumbline/taxtables"
)

var years = map[int]*tables.Year{}

// yearOf is a year's tables as the program ships them.
func yearOf(t testing.TB, year int) *tables.Year {
	t.Helper()
	if years[year] == nil {
		y, err := tables.Load(taxtables.Files, year)
		if err != nil {
			t.Fatal(err)
		}
		years[year] = y
	}
	return years[year]
}

func amount(s string) money.Amount { return money.MustParse(s) }

func BenchmarkWithholding(b *testing.B) {
	y := yearOf(b, 2025)
	p := Paycheck{Wages: amount("2400"), Frequency: household.Biweekly}
	c := &household.Certificate{Status: household.CertificateJoint, Credits: amount("2200"), Extra: amount("20")}
	b.ReportAllocs()
	for b.Loop() {
		Withholding(p, c, y, Options{}, nil)
	}
}
