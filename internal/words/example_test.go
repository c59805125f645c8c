package words_test

import (
	"fmt"

	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/words"
)

// A package that computes gives a code and values; the edge says them.
func Example() {
	t := words.T("line.payroll.bonus.high", "over", money.Dollars(1_000_000))
	fmt.Println(words.English().Say(t))
	// Output: Withheld from supplemental wages of the year above $1,000,000
}
