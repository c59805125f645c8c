// Package money is dollars and rates, exact. It hides the decimal library: an
// Amount is made from text or whole dollars, never from a float; adding and
// multiplying are exact, and an amount is rounded only where a caller names
// the rounding that the form or the publication orders.
//
// Start at Parse for what people type, Dollars for whole amounts.
package money

import (
	"strconv"
	"strings"

	"github.com/shopspring/decimal"
)

// Amount is a sum of money in dollars, exact to any fraction of a cent. The
// zero value is no money. Compare with Equal or Cmp, not ==.
type Amount struct{ d decimal.Decimal }

// Zero is no money.
var Zero Amount

// quotientPlaces is the number of decimal places carried by a division that
// does not come out even: far below a cent, so that the one rounding the
// caller names afterwards is the only one that shows.
const quotientPlaces = 16

// centPlaces is the power of ten at which amounts are held from the start, so
// that most sums need no change of scale, which costs more than the sum.
const centPlaces = -2

// Dollars is n whole dollars.
func Dollars(n int64) Amount { return Amount{decimal.New(n*100, centPlaces)} }

// Cents is n cents.
func Cents(n int64) Amount { return Amount{decimal.New(n, centPlaces)} }

// Add is a + b. Most lines of a return are zero: adding nothing costs nothing.
func (a Amount) Add(b Amount) Amount {
	switch {
	case b.d.IsZero():
		return a
	case a.d.IsZero():
		return b
	}
	return Amount{a.d.Add(b.d)}
}

// Sub is a - b.
func (a Amount) Sub(b Amount) Amount {
	if b.d.IsZero() {
		return a
	}
	return Amount{a.d.Sub(b.d)}
}

// Neg is -a.
func (a Amount) Neg() Amount { return Amount{a.d.Neg()} }

// Abs is a without its sign.
func (a Amount) Abs() Amount { return Amount{a.d.Abs()} }

// Times is a multiplied by the whole number n.
func (a Amount) Times(n int) Amount { return Amount{a.d.Mul(decimal.NewFromInt(int64(n)))} }

// At is a multiplied by the rate r, exact.
func (a Amount) At(r Rate) Amount { return Amount{a.d.Mul(r.d)} }

// DividedBy is a divided by the whole number n, carried far below a cent.
// It panics when n is zero, as integer division does.
func (a Amount) DividedBy(n int) Amount {
	return Amount{a.d.DivRound(decimal.NewFromInt(int64(n)), quotientPlaces)}
}

// Over is the ratio a ÷ b, carried far below what a cent can show. It panics
// when b is zero.
func (a Amount) Over(b Amount) Rate { return Rate{a.d.DivRound(b.d, quotientPlaces)} }

// Steps is the number of whole steps in a: a ÷ step, rounded down. A rule that
// counts "each $1,000" uses Steps; one that adds "or fraction thereof" uses
// StepsBegun. It panics when step is zero.
func (a Amount) Steps(step Amount) int { return int(a.d.Div(step.d).Floor().IntPart()) }

// StepsBegun is the number of steps begun in a: a ÷ step, rounded up.
func (a Amount) StepsBegun(step Amount) int { return int(a.d.Div(step.d).Ceil().IntPart()) }

// Cmp is -1, 0 or +1 as a is less than, equal to or more than b.
func (a Amount) Cmp(b Amount) int { return a.d.Cmp(b.d) }

// Equal reports whether a and b are the same sum.
func (a Amount) Equal(b Amount) bool { return a.d.Equal(b.d) }

// Less reports whether a is less than b.
func (a Amount) Less(b Amount) bool { return a.d.Cmp(b.d) < 0 }

// More reports whether a is more than b.
func (a Amount) More(b Amount) bool { return a.d.Cmp(b.d) > 0 }

// IsZero reports whether a is no money.
func (a Amount) IsZero() bool { return a.d.IsZero() }

// IsNegative reports whether a is less than zero.
func (a Amount) IsNegative() bool { return a.d.IsNegative() }

// IsPositive reports whether a is more than zero.
func (a Amount) IsPositive() bool { return a.d.IsPositive() }

// OrZero is a, or zero when a is negative: the form's "if zero or less,
// enter -0-".
func (a Amount) OrZero() Amount {
	if a.IsNegative() {
		return Zero
	}
	return a
}

// Min is the smallest of the amounts given.
func Min(a Amount, more ...Amount) Amount {
	for _, b := range more {
		if b.Less(a) {
			a = b
		}
	}
	return a
}

// Max is the largest of the amounts given.
func Max(a Amount, more ...Amount) Amount {
	for _, b := range more {
		if b.More(a) {
			a = b
		}
	}
	return a
}

// Sum adds the amounts given.
func Sum(amounts ...Amount) Amount {
	total := Zero
	for _, a := range amounts {
		total = total.Add(a)
	}
	return total
}

// ToCent rounds to the nearest cent, a half cent away from zero.
func (a Amount) ToCent() Amount { return Amount{a.d.Round(2)} }

// ToDollar rounds to the nearest dollar, 50 cents away from zero: the rounding
// of the return and of Publication 15-T.
func (a Amount) ToDollar() Amount { return Amount{a.d.Round(0)} }

// DollarDown drops the cents, toward minus infinity.
func (a Amount) DollarDown() Amount { return Amount{a.d.Floor()} }

// DollarUp rounds up to the next whole dollar.
func (a Amount) DollarUp() Amount { return Amount{a.d.Ceil()} }

// ToMultiple rounds to the nearest multiple of step, a half step up.
func (a Amount) ToMultiple(step Amount) Amount {
	return Amount{a.d.DivRound(step.d, quotientPlaces).Round(0).Mul(step.d)}
}

// DownToMultiple rounds down to a multiple of step.
func (a Amount) DownToMultiple(step Amount) Amount {
	return Amount{a.d.Div(step.d).Floor().Mul(step.d)}
}

// WholeDollars is a's number of dollars with the cents dropped, for use as a
// count or in a whole-dollar entry that has been rounded already.
func (a Amount) WholeDollars() int64 { return a.d.IntPart() }

// String is the amount to the cent without grouping: "-1234.50".
func (a Amount) String() string {
	const most = 17 // digits that surely fit an int64
	switch {
	case a.d.IsZero():
		return "0.00"
	case a.d.Exponent() != centPlaces || a.d.NumDigits() > most:
		return a.d.StringFixed(2)
	}
	// Whole cents, as most amounts are: no rounding, and a fifth of its time.
	text := make([]byte, 0, most+3)
	n := a.d.CoefficientInt64()
	if n < 0 {
		text, n = append(text, '-'), -n
	}
	text = strconv.AppendInt(text, n/100, 10)
	return string(append(text, '.', byte('0'+n/10%10), byte('0'+n%10)))
}

// Grouped is the amount to the cent as people read it: "-1,234.50".
func (a Amount) Grouped() string { return group(a.String()) }

// GroupedDollars is the amount to the dollar as people read it: "-1,235".
func (a Amount) GroupedDollars() string { return group(a.d.StringFixed(0)) }

// Text is the shortest exact text of the amount: "1234.5".
func (a Amount) Text() string { return a.d.String() }

func group(s string) string {
	sign, digits := "", s
	if strings.HasPrefix(s, "-") {
		sign, digits = "-", s[1:]
	}
	whole, cents, hasCents := strings.Cut(digits, ".")
	var b strings.Builder
	b.WriteString(sign)
	for i, r := range whole {
		if i > 0 && (len(whole)-i)%3 == 0 {
			b.WriteByte(',')
		}
		b.WriteRune(r)
	}
	if hasCents {
		b.WriteByte('.')
		b.WriteString(cents)
	}
	return b.String()
}

// MarshalJSON writes a JSON number with two decimals.
func (a Amount) MarshalJSON() ([]byte, error) { return []byte(a.String()), nil }

// MarshalText writes the shortest exact text, as it stands in answers files
// and yearly tables.
func (a Amount) MarshalText() ([]byte, error) { return []byte(a.Text()), nil }

// UnmarshalText reads what Parse reads.
func (a *Amount) UnmarshalText(text []byte) error {
	v, err := Parse(string(text))
	if err != nil {
		return err
	}
	*a = v
	return nil
}

// Rate is a share, as 0.0765 of an amount.
type Rate struct{ d decimal.Decimal }

// Percent is n hundredths.
func Percent(n int64) Rate { return Rate{decimal.New(n, -2)} }

// Add is r + q.
func (r Rate) Add(q Rate) Rate { return Rate{r.d.Add(q.d)} }

// Sub is r - q.
func (r Rate) Sub(q Rate) Rate { return Rate{r.d.Sub(q.d)} }

// Times is r multiplied by the whole number n.
func (r Rate) Times(n int) Rate { return Rate{r.d.Mul(decimal.NewFromInt(int64(n)))} }

// Cmp is -1, 0 or +1 as r is less than, equal to or more than q.
func (r Rate) Cmp(q Rate) int { return r.d.Cmp(q.d) }

// IsZero reports whether r is nothing.
func (r Rate) IsZero() bool { return r.d.IsZero() }

// ToPlaces rounds to the given number of decimal places, a half away from
// zero: worksheets that say "as a decimal rounded to at least three places".
func (r Rate) ToPlaces(n int32) Rate { return Rate{r.d.Round(n)} }

// Capped is r, or one when r is above one.
func (r Rate) Capped() Rate {
	if one := Percent(100); r.Cmp(one) > 0 {
		return one
	}
	return r
}

// String is the rate as a percentage: "7.65%".
func (r Rate) String() string { return r.d.Shift(2).String() + "%" }

// Text is the shortest exact text of the rate as a fraction: "0.0765".
func (r Rate) Text() string { return r.d.String() }

// MarshalText writes the rate as a fraction.
func (r Rate) MarshalText() ([]byte, error) { return []byte(r.Text()), nil }

// UnmarshalText reads a fraction from 0 to 1, as 0.0765.
func (r *Rate) UnmarshalText(text []byte) error {
	d, ok := plainDecimal(string(text))
	if !ok || d.IsNegative() || d.GreaterThan(decimal.NewFromInt(1)) {
		return &Fault{"rate", string(text)}
	}
	*r = Rate{d}
	return nil
}
