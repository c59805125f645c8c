package payroll_test

import (
	"fmt"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/payroll"
	"example.com/plumbline/internal/tables"
	"example.com/plumbline/taxtables"
)

// What is withheld from $2,000 every two weeks in 2026, on a certificate with
// nothing but the box for single.
func ExampleWithholding() {
	y, err := tables.Load(taxtables.Files, 2026)
	if err != nil {
		panic(err)
	}
	check := payroll.Paycheck{Wages: money.Dollars(2_000), Frequency: household.Biweekly}
	onFile := household.Certificate{Status: household.CertificateSingle}
	// 26 × 2,000 - 8,600 = 43,400; 1,240 + 12% × (43,400 - 19,900) = 4,060; ÷ 26
	fmt.Println(payroll.Withholding(check, &onFile, y, payroll.Options{}, nil))
	// Output: 156.15
}
