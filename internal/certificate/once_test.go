package certificate

import (
	"reflect"
	"strings"
	"testing"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
)

// comesAgain are the kinds of income that January counts on: they come each year,
// or the year says itself what is left of them. All other kinds may happen only
// once. Our reading; Form W-4 asks for income that is expected this year.
var comesAgain = map[string]bool{
	"interest": true, "tax_exempt_interest": true, "ordinary_dividends": true, "qualified_dividends": true,
	"capital_loss_carryover": true, "self_employment": true, "business": true,
	"social_security": true, "social_security_monthly": true, "other": true,
}

// Every kind of income is one or the other: a new one has to say which.
func TestEveryIncomeComesAgainOrOnce(t *testing.T) {
	kinds := reflect.TypeFor[household.Income]()
	for i := range kinds.NumField() {
		key, _, _ := strings.Cut(kinds.Field(i).Tag.Get("yaml"), ",")
		var h household.Household
		field := reflect.ValueOf(&h.Income).Elem().Field(i)
		amount, ok := field.Addr().Interface().(*money.Amount)
		if !ok {
			if !comesAgain[key] {
				t.Errorf("%s is no single amount: say here whether it comes again, and test by hand how", key)
			}
			continue
		}
		*amount = money.Dollars(1_000)
		once := leaveOnce(&h)
		if gone := amount.IsZero(); gone == comesAgain[key] || gone != (len(once) == 1) {
			t.Errorf("%s: left out of January: %v, told as %v; it comes again: %v", key, gone, once, comesAgain[key])
		}
	}
}
