package certificate

import (
	"reflect"
	"strings"
	"testing"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/sample"
	"example.com/plumbline/internal/tax"
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

// unnamed are the kinds of income that Step 4(a) does not name: those that are part
// of another kind, that are not taxed, or that Step 4(a) leaves to estimated tax
// (Form W-4 (2026), p. 2, Specific Instructions: self-employment).
var unnamed = map[string]bool{
	"tax_exempt_interest": true, "qualified_dividends": true, "early_withdrawal": true, "self_employment": true,
	"business": true, "capital_loss_carryover": true, "social_security_monthly": true,
}

// Every kind of income that Step 4(a) may be made of has its name there.
func TestEveryIncomeIsNamed(t *testing.T) {
	y := sample.Year(t, 2026)
	kinds := reflect.TypeFor[household.Income]()
	for i := range kinds.NumField() {
		key, _, _ := strings.Cut(kinds.Field(i).Tag.Get("yaml"), ",")
		h := household.Household{TaxYear: 2026, Status: household.Single}
		amount, ok := reflect.ValueOf(&h.Income).Elem().Field(i).Addr().Interface().(*money.Amount)
		if !ok {
			if !unnamed[key] {
				t.Errorf("%s is no single amount: say here that Step 4(a) does not name it, or test by hand that it does", key)
			}
			continue
		}
		*amount = money.Dollars(90_000) // of benefits, enough to be taxed
		pr := &projection{h: h, ret: tax.Compute(h, nil, y, tax.ByReturn, nil)}
		if named := len(pr.otherIncome()) > 0; named == unnamed[key] {
			t.Errorf("%s is named in Step 4(a): %v, want %v", key, named, !unnamed[key])
		}
	}
}
