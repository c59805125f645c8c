package money_test

import (
	"fmt"

	"example.com/plumbline/internal/money"
)

// Arithmetic is exact; rounding is asked for by name.
func Example() {
	tax := money.MustParse("1234.56").At(money.Percent(22)) // 1,234.56 × 0.22
	fmt.Println(tax.Text(), tax.ToCent(), tax.ToDollar())
	// Output: 271.6032 271.60 272.00
}
