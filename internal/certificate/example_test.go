package certificate_test

import (
	"fmt"

	"example.com/plumbline/internal/certificate"
	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/tables"
	"example.com/plumbline/taxtables"
)

// What somebody should hand in who has been paid $2,000 every two weeks since
// January 2026, on a certificate that says single, and has interest of $6,000.
func ExampleSolve() {
	y, err := tables.Load(taxtables.Files, 2026)
	if err != nil {
		panic(err)
	}
	h := household.Household{
		TaxYear: 2026, AsOf: household.On(2026, 1, 1), Status: household.Single,
		Jobs: []household.Job{{
			Name: "Mill", Frequency: household.Biweekly, FirstPayday: household.On(2026, 1, 9), TaxablePay: money.Dollars(2_000),
			Certificate: &household.Certificate{Status: household.CertificateSingle},
		}},
		Income: household.Income{Interest: money.Dollars(6_000)},
	}
	r, err := certificate.Solve(h, y, nil)
	if err != nil {
		panic(err)
	}
	// 26 × 2,000 + 6,000 - 16,100 = 41,900; the middle of its row of the Tax Table is
	// 41,925: 1,240 + 12% × (41,925 - 12,400) = 4,783. Payroll would withhold
	// 26 × 156.15 = 4,059.90 (package payroll's example), 723.10 too little. A new
	// certificate counts from the second payday on: 723.10 / 25 = 28.92, which is 29
	// in whole dollars, and 25 × 29 - 723.10 = 1.90 comes back.
	fmt.Println(r.Return.TotalTax, r.AsFiled.Balance, r.Recommended.Certificates[0].Lines.L4c.Amount, r.Recommended.Balance)
	// Output: 4783.00 -723.10 29.00 1.90
}
