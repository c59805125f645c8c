package money

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"github.com/shopspring/decimal"
)

// numbers are numbers of every kind: whole, in cents, with more places than are
// counted, and around the bounds of what is counted.
func numbers() []decimal.Decimal {
	var all []decimal.Decimal
	for _, text := range []string{
		"0", "0.01", "0.005", "0.0049", "0.015", "0.5", "1", "9.99", "10", "26", "50", "99.995", "1234.5", "1000", "0.0765", "0.000001", "0.0000001", "0.9999999",
		"38.4615384615384615", "0.3333333333333333", "2305843009213.693951", "2305843009213.693952", "2305843009213.693953", "999999999999.99",
		"99999999999999.99", "123456789012345678901.25",
	} {
		d := decimal.RequireFromString(text)
		all = append(all, d, d.Neg())
	}
	r := rand.New(rand.NewPCG(1, 2))
	for range 60 {
		all = append(all, decimal.New(r.Int64()>>r.IntN(60)-r.Int64N(1000), -r.Int32N(9)))
	}
	return all
}

// Counting in millionths gives what the decimal library gives, operation for
// operation.
func TestNumberAgreesWithTheLibrary(t *testing.T) {
	same := func(got number, want decimal.Decimal, what string, args ...any) {
		t.Helper()
		if !got.decimal().Equal(want) || got.text() != want.String() {
			t.Errorf("%s = %s, want %s", fmt.Sprintf(what, args...), got.text(), want)
		}
	}
	all := numbers()
	for _, d := range all {
		a := exact(d)
		same(a, d, "%s", d)
		same(a.neg(), d.Neg(), "-(%s)", d)
		same(a.down(), d.Floor(), "%s down", d)
		same(a.up(), d.Ceil(), "%s up", d)
		for n := int32(-2); n <= 8; n++ {
			same(a.round(n), d.Round(n), "%s to %d places", d, n)
		}
		if got, want := string(a.append(nil, 2)), d.StringFixed(2); got != want {
			t.Errorf("%s is written %s, want %s", d, got, want)
		}
		if got, want := a.sign(), d.Sign(); got != want {
			t.Errorf("the sign of %s is %d, want %d", d, got, want)
		}
		if d.Abs().LessThan(decimal.New(1, 18)) && a.int() != d.IntPart() {
			t.Errorf("the whole part of %s is %d, want %d", d, a.int(), d.IntPart())
		}
		for _, e := range all {
			b := exact(e)
			same(a.add(b), d.Add(e), "%s + %s", d, e)
			same(a.times(b), d.Mul(e), "%s x %s", d, e)
			if got, want := a.cmp(b), d.Cmp(e); got != want {
				t.Errorf("%s compared with %s is %d, want %d", d, e, got, want)
			}
			if e.IsZero() {
				continue
			}
			quotient, rest := d.QuoRem(e, 0)
			down, half := quotient, rest.Abs().Mul(decimal.New(2, 0)).Cmp(e.Abs()) >= 0
			if rest.Sign()*e.Sign() < 0 {
				down = quotient.Sub(decimal.New(1, 0))
			}
			near := quotient
			if half {
				near = quotient.Add(decimal.New(int64(d.Sign()*e.Sign()), 0))
			}
			same(a.over(b), d.DivRound(e, quotientPlaces), "%s / %s", d, e)
			tooFine := d.Exponent() < -2 || e.Exponent() < -2 || e.Abs().GreaterThan(decimal.New(1, 13))
			if !tooFine { // what is carried of a quotient tells it from a whole number
				same(a.steps(b), down, "%s in steps of %s", d, e)
				same(a.nearest(b), near, "%s in the nearest steps of %s", d, e)
			}
		}
	}
}

// The sums of a return are counted: what goes to the library costs twenty times as
// much.
func TestUsualNumbersAreCounted(t *testing.T) {
	rate := Rate{exact(decimal.RequireFromString("0.0765"))}
	for what, a := range map[string]Amount{
		"cents":              Cents(123456),
		"typed":              MustParse("1,234.56"),
		"a share":            MustParse("1234.56").At(rate),
		"a rounded share":    MustParse("1234.56").At(rate).DividedBy(26).ToCent(),
		"an even quotient":   Dollars(1300).DividedBy(26),
		"a multiple":         MustParse("1234.56").ToMultiple(Dollars(50)),
		"the largest typed":  MustParse("999,999,999,999.99"),
		"a sum of the large": MustParse("999,999,999,999.99").Add(MustParse("999,999,999,999.99")),
	} {
		if a.n.other != nil {
			t.Errorf("%s, %s, is left to the library", what, a.Text())
		}
	}
	if n := testing.AllocsPerRun(100, func() {
		a := Cents(123456).At(rate).Add(Dollars(12)).Sub(Cents(7)).Times(26).ToCent()
		if a.IsNegative() || a.Less(Dollars(1)) {
			t.Error("not the amount expected")
		}
	}); n > 0 {
		t.Errorf("usual arithmetic allocates %v times", n)
	}
}
