// Package money is dollars and rates, exact. It hides the decimal library: an
// Amount is made from text or whole dollars, never from a float; adding and
// multiplying are exact, and an amount is rounded only where a caller names
// the rounding that the form or the publication orders.
//
// Start at Parse for what people type, Dollars for whole amounts.
package money

import "strings"

// Amount is a sum of money in dollars, exact to any fraction of a cent. The
// zero value is no money. Compare with Equal or Cmp, not ==.
type Amount struct{ n number }

// Zero is no money.
var Zero Amount

// Dollars is n whole dollars.
func Dollars(n int64) Amount { return Amount{whole(n)} }

// Cents is n cents.
func Cents(n int64) Amount { return Amount{hundredths(n)} }

// Add is a + b.
func (a Amount) Add(b Amount) Amount { return Amount{a.n.add(b.n)} }

// Sub is a - b.
func (a Amount) Sub(b Amount) Amount { return Amount{a.n.add(b.n.neg())} }

// Neg is -a.
func (a Amount) Neg() Amount { return Amount{a.n.neg()} }

// Abs is a without its sign.
func (a Amount) Abs() Amount {
	if a.IsNegative() {
		return a.Neg()
	}
	return a
}

// Times is a multiplied by the whole number n.
func (a Amount) Times(n int) Amount { return Amount{a.n.times(whole(int64(n)))} }

// At is a multiplied by the rate r, exact.
func (a Amount) At(r Rate) Amount { return Amount{a.n.times(r.n)} }

// DividedBy is a divided by the whole number n, carried far below a cent.
// It panics when n is zero, as integer division does.
func (a Amount) DividedBy(n int) Amount { return Amount{a.n.over(whole(int64(n)))} }

// Over is the ratio a ÷ b, carried far below what a cent can show. It panics
// when b is zero.
func (a Amount) Over(b Amount) Rate { return Rate{a.n.over(b.n)} }

// Steps is the number of whole steps in a: a ÷ step, rounded down. A rule that
// counts "each $1,000" uses Steps; one that adds "or fraction thereof" uses
// StepsBegun. It panics when step is zero.
func (a Amount) Steps(step Amount) int { return int(a.n.steps(step.n).int()) }

// StepsBegun is the number of steps begun in a: a ÷ step, rounded up.
func (a Amount) StepsBegun(step Amount) int { return -int(a.n.neg().steps(step.n).int()) }

// Cmp is -1, 0 or +1 as a is less than, equal to or more than b.
func (a Amount) Cmp(b Amount) int { return a.n.cmp(b.n) }

// Equal reports whether a and b are the same sum.
func (a Amount) Equal(b Amount) bool { return a.n.cmp(b.n) == 0 }

// Less reports whether a is less than b.
func (a Amount) Less(b Amount) bool { return a.n.cmp(b.n) < 0 }

// More reports whether a is more than b.
func (a Amount) More(b Amount) bool { return a.n.cmp(b.n) > 0 }

// IsZero reports whether a is no money.
func (a Amount) IsZero() bool { return a.n.sign() == 0 }

// IsNegative reports whether a is less than zero.
func (a Amount) IsNegative() bool { return a.n.sign() < 0 }

// IsPositive reports whether a is more than zero.
func (a Amount) IsPositive() bool { return a.n.sign() > 0 }

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
func (a Amount) ToCent() Amount { return Amount{a.n.round(2)} }

// ToDollar rounds to the nearest dollar, 50 cents away from zero: the rounding
// of the return and of Publication 15-T.
func (a Amount) ToDollar() Amount { return Amount{a.n.round(0)} }

// DollarDown drops the cents, toward minus infinity.
func (a Amount) DollarDown() Amount { return Amount{a.n.down()} }

// DollarUp rounds up to the next whole dollar.
func (a Amount) DollarUp() Amount { return Amount{a.n.up()} }

// ToMultiple rounds to the nearest multiple of step, a half step up.
func (a Amount) ToMultiple(step Amount) Amount {
	return Amount{a.n.nearest(step.n).times(step.n)}
}

// DownToMultiple rounds down to a multiple of step.
func (a Amount) DownToMultiple(step Amount) Amount {
	return Amount{a.n.steps(step.n).times(step.n)}
}

// WholeDollars is a's number of dollars with the cents dropped, for use as a
// count or in a whole-dollar entry that has been rounded already.
func (a Amount) WholeDollars() int64 { return a.n.int() }

// String is the amount to the cent without grouping: "-1234.50".
func (a Amount) String() string { return string(a.Append(make([]byte, 0, longest))) }

// longest is room for the text of an amount that people have.
const longest = 16

// Append appends what String is.
func (a Amount) Append(text []byte) []byte { return a.n.append(text, 2) }

// Grouped is the amount to the cent as people read it: "-1,234.50".
func (a Amount) Grouped() string { return group(a.String()) }

// GroupedDollars is the amount to the dollar as people read it: "-1,235".
func (a Amount) GroupedDollars() string { return group(a.n.round(0).text()) }

// Text is the shortest exact text of the amount: "1234.5".
func (a Amount) Text() string { return a.n.text() }

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
func (a Amount) MarshalJSON() ([]byte, error) { return a.Append(make([]byte, 0, longest)), nil }

// MarshalText writes the shortest exact text, as it is in answers files
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
type Rate struct{ n number }

// Percent is n hundredths.
func Percent(n int64) Rate { return Rate{hundredths(n)} }

// Add is r + q.
func (r Rate) Add(q Rate) Rate { return Rate{r.n.add(q.n)} }

// Sub is r - q.
func (r Rate) Sub(q Rate) Rate { return Rate{r.n.add(q.n.neg())} }

// Times is r multiplied by the whole number n.
func (r Rate) Times(n int) Rate { return Rate{r.n.times(whole(int64(n)))} }

// Cmp is -1, 0 or +1 as r is less than, equal to or more than q.
func (r Rate) Cmp(q Rate) int { return r.n.cmp(q.n) }

// IsZero reports whether r is nothing.
func (r Rate) IsZero() bool { return r.n.sign() == 0 }

// ToPlaces rounds to the given number of decimal places, a half away from
// zero: worksheets that say "as a decimal rounded to at least three places".
func (r Rate) ToPlaces(n int32) Rate { return Rate{r.n.round(n)} }

// Capped is r, or one when r is above one.
func (r Rate) Capped() Rate {
	if one := Percent(100); r.Cmp(one) > 0 {
		return one
	}
	return r
}

// String is the rate as a percentage: "7.65%".
func (r Rate) String() string { return r.n.times(whole(100)).text() + "%" }

// Text is the shortest exact text of the rate as a fraction: "0.0765".
func (r Rate) Text() string { return r.n.text() }

// MarshalText writes the rate as a fraction.
func (r Rate) MarshalText() ([]byte, error) { return []byte(r.Text()), nil }

// UnmarshalText reads a fraction from 0 to 1, as 0.0765.
func (r *Rate) UnmarshalText(text []byte) error {
	n, ok := plain(string(text))
	if !ok || n.cmp(whole(1)) > 0 {
		return &Fault{"rate", string(text)}
	}
	*r = Rate{n}
	return nil
}
