package money

import (
	"fmt"
	"strings"
)

// What Parse takes at most: a trillion dollars either way, and no more places
// than an hourly wage worked out to the fraction of a cent needs.
const (
	mostDigits = 12
	mostPlaces = 10
)

// Fault is the error for a text that is no amount, or no rate. Package words says
// how to write one.
type Fault struct {
	Code string // none, too_large, places, rate
	Text string
}

func (f *Fault) Error() string { return fmt.Sprintf("amount %s: %.40q", f.Code, f.Text) }

// Parse reads an amount as people write it: "1234.5", "1,234.50", "$1,234.50",
// "-20". It refuses everything else (exponents, hexadecimal, signs other than
// a leading minus, digits of other scripts, a comma for the decimal point)
// with a *Fault.
func Parse(s string) (Amount, error) {
	text := strings.TrimSpace(s)
	negative := strings.HasPrefix(text, "-")
	text = strings.TrimPrefix(text, "-")
	text = strings.TrimPrefix(text, "$")
	text, grouped := ungroup(text)
	n, ok := plain(text)
	if !ok || !grouped {
		return Zero, &Fault{"none", s}
	}
	whole, places, _ := strings.Cut(text, ".")
	if len(whole) > mostDigits {
		return Zero, &Fault{"too_large", s}
	}
	if len(places) > mostPlaces {
		return Zero, &Fault{"places", s}
	}
	if negative {
		n = n.neg()
	}
	return Amount{n}, nil
}

// MustParse is Parse for constants in tests; it panics on a bad amount.
func MustParse(s string) Amount {
	a, err := Parse(s)
	if err != nil {
		panic(err)
	}
	return a
}

// ungroup drops thousands commas and reports whether they were where
// thousands end: "1,20" and "12,34,567" are typing mistakes.
func ungroup(s string) (string, bool) {
	whole, rest, hasPoint := strings.Cut(s, ".")
	parts := strings.Split(whole, ",")
	for i, p := range parts {
		if len(parts) > 1 && ((i == 0 && (p == "" || len(p) > 3)) || (i > 0 && len(p) != 3)) {
			return s, false
		}
	}
	if hasPoint {
		return strings.Join(parts, "") + "." + rest, true
	}
	return strings.Join(parts, ""), true
}
