package tables

import (
	"math/big"
	"strings"

	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/words"
)

// number is an exact decimal that is no amount: a level of a price index, a
// factor. Its zero value is none.
type number struct{ r *big.Rat }

// UnmarshalText reads digits with at most one point.
func (n *number) UnmarshalText(text []byte) error {
	digits := strings.Replace(string(text), ".", "", 1)
	r, ok := new(big.Rat).SetString(string(text))
	if !ok || len(digits) > 20 || strings.Trim(digits, "0123456789") != "" || r.Sign() <= 0 {
		return words.Fail("tables.not_a_number", "text", string(text))
	}
	n.r = r
	return nil
}

// MarshalText writes the number as it is read.
func (n number) MarshalText() ([]byte, error) { return []byte(decimalText(n.r)), nil }

// ratOf is an amount as a fraction.
func ratOf(a money.Amount) *big.Rat {
	r, _ := new(big.Rat).SetString(a.Text())
	return r
}

// decimalText is a fraction in digits, to four places at most.
func decimalText(r *big.Rat) string {
	const places = 4
	text := r.FloatString(places)
	return strings.TrimSuffix(strings.TrimRight(text, "0"), ".")
}

// down is r rounded down to a multiple of step, nearest to the nearest one, the
// middle up.
func down(r, step *big.Rat) *big.Rat {
	q := new(big.Rat).Quo(r, step)
	whole := new(big.Int).Div(q.Num(), q.Denom()) // toward the lower, as q is not negative
	return q.Mul(new(big.Rat).SetInt(whole), step)
}

func nearest(r, step *big.Rat) *big.Rat { return down(new(big.Rat).Add(r, half(step)), step) }

func half(r *big.Rat) *big.Rat { return new(big.Rat).Quo(r, big.NewRat(2, 1)) }

// rateRat is a rate as a fraction.
func rateRat(r money.Rate) *big.Rat {
	f, _ := new(big.Rat).SetString(r.Text())
	return f
}
