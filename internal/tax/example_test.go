package tax_test

import (
	"fmt"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/tables"
	"example.com/plumbline/internal/tax"
	"example.com/plumbline/internal/worksheet"
	"example.com/plumbline/taxtables"
)

// The return of a single person who earned $60,000 in 2026, with its trace.
func ExampleCompute() {
	y, err := tables.Load(taxtables.Files, 2026)
	if err != nil {
		panic(err)
	}
	h := household.Household{TaxYear: 2026, Status: household.Single}
	wages := money.Dollars(60_000)
	pay := []household.YearPay{{TaxableWages: wages, SocialSecurityWages: wages, MedicareWages: wages}}
	var trace worksheet.Sheet
	r := tax.Compute(h, pay, y, tax.ByReturn, &trace)
	line, _ := trace.Line("tax.income_tax")
	// 60,000 - 16,100 = 43,900; the middle of its row of the Tax Table is 43,925:
	// 1,240 + 12% × (43,925 - 12,400) = 5,023
	fmt.Println(r.TaxableIncome, r.TotalTax, line.Form)
	// Output: 43900.00 5023.00 Form 1040 line 16
}
