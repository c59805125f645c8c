package money

import (
	"cmp"
	"math/bits"
	"strconv"
	"strings"

	"github.com/shopspring/decimal"
)

// number is a decimal fraction, exact. A solve does thousands of sums, and all but
// a few are of numbers with at most six decimal places: those are counted in
// millionths, at a twentieth of what the decimal library costs. A result that does
// not come out in millionths, or is too large, goes to the library. Which of the
// two a number is in never shows.
type number struct {
	millionths int64
	other      *decimal.Decimal // the number, where it is no count of millionths
}

const (
	places = 6
	unit   = 1_000_000 // 10 to the power of places
	// most bounds a count, so that two of them can be added before the sum is
	// looked at. It is two trillion dollars.
	most = 1 << 61
)

// quotientPlaces is the number of decimal places carried by a division that
// does not come out even: far below a cent, so that the one rounding the
// caller names afterwards is the only one that shows.
const quotientPlaces = 16

// hundredths is n hundredths.
func hundredths(n int64) number {
	const perHundredth = unit / 100
	if n > -most/perHundredth && n < most/perHundredth {
		return number{millionths: n * perHundredth}
	}
	return exact(decimal.New(n, -2))
}

// whole is n.
func whole(n int64) number {
	if n > -most/unit && n < most/unit {
		return number{millionths: n * unit}
	}
	return exact(decimal.New(n, 0))
}

// exact is a number of the library, counted in millionths where that is exact.
func exact(d decimal.Decimal) number {
	const digits = 18 // that surely fit an int64
	if e := d.Exponent(); e >= -places && e <= 0 && d.NumDigits() <= digits {
		if n, ok := product(d.CoefficientInt64(), powers[places+e], 1); ok {
			return number{millionths: n}
		}
	}
	return number{other: &d}
}

var powers = [places + 1]int64{1, 10, 100, 1_000, 10_000, 100_000, 1_000_000}

// product is a × b ÷ c, for a c above zero, and whether it comes out even and in
// bounds.
func product(a, b, c int64) (int64, bool) {
	high, low := bits.Mul64(magnitude(a), magnitude(b))
	if high >= uint64(c) {
		return 0, false
	}
	q, rest := bits.Div64(high, low, uint64(c))
	if rest != 0 || q >= most {
		return 0, false
	}
	if (a < 0) != (b < 0) {
		return -int64(q), true
	}
	return int64(q), true
}

func magnitude(n int64) uint64 {
	if n < 0 {
		return uint64(-n)
	}
	return uint64(n)
}

// decimal is the number as the library has it.
func (a number) decimal() decimal.Decimal {
	if a.other != nil {
		return *a.other
	}
	return decimal.New(a.millionths, -places)
}

// counted reports that both numbers are counts of millionths.
func counted(a, b number) bool { return a.other == nil && b.other == nil }

func (a number) add(b number) number {
	if counted(a, b) {
		if n := a.millionths + b.millionths; n > -most && n < most {
			return number{millionths: n}
		}
	}
	return exact(a.decimal().Add(b.decimal()))
}

func (a number) neg() number {
	if a.other == nil {
		return number{millionths: -a.millionths}
	}
	return exact(a.other.Neg())
}

func (a number) times(b number) number {
	if counted(a, b) {
		if n, ok := product(a.millionths, b.millionths, unit); ok {
			return number{millionths: n}
		}
	}
	return exact(a.decimal().Mul(b.decimal()))
}

// over is a ÷ b, to quotientPlaces where it does not come out even. It panics when
// b is zero.
func (a number) over(b number) number {
	if counted(a, b) && b.millionths > 0 {
		if n, ok := product(a.millionths, unit, b.millionths); ok {
			return number{millionths: n}
		}
	}
	return exact(a.decimal().DivRound(b.decimal(), quotientPlaces))
}

func (a number) cmp(b number) int {
	if counted(a, b) {
		return cmp.Compare(a.millionths, b.millionths)
	}
	return a.decimal().Cmp(b.decimal())
}

// sign is -1, 0 or +1.
func (a number) sign() int {
	if a.other == nil {
		return cmp.Compare(a.millionths, 0)
	}
	return a.other.Sign()
}

// round is the number to n decimal places, a half away from zero.
func (a number) round(n int32) number {
	switch {
	case a.other != nil || n < 0:
		return exact(a.decimal().Round(n))
	case n >= places:
		return a
	}
	step := powers[places-n]
	return number{millionths: nearest(a.millionths, step) * step}
}

// down is the number rounded to a whole one, toward minus infinity.
func (a number) down() number {
	if a.other != nil {
		return exact(a.other.Floor())
	}
	return number{millionths: floor(a.millionths, unit) * unit}
}

// up is the number rounded to a whole one, toward plus infinity.
func (a number) up() number { return a.neg().down().neg() }

// steps is a ÷ b rounded down to a whole number, toward minus infinity. It panics
// when b is zero.
func (a number) steps(b number) number {
	if counted(a, b) && b.millionths > 0 {
		return whole(floor(a.millionths, b.millionths))
	}
	return a.over(b).down()
}

// nearest is a ÷ b rounded to a whole number, a half away from zero. It panics when
// b is zero.
func (a number) nearest(b number) number {
	if counted(a, b) && b.millionths > 0 {
		return whole(nearest(a.millionths, b.millionths))
	}
	return a.over(b).round(0)
}

// floor is a ÷ b rounded toward minus infinity, for a b above zero.
func floor(a, b int64) int64 {
	q := a / b
	if a%b < 0 {
		q--
	}
	return q
}

// nearest is a ÷ b rounded, a half away from zero, for a b above zero.
func nearest(a, b int64) int64 {
	half := b / 2
	if a < 0 {
		half = -half
	}
	return (a + half) / b
}

// int is the number without its decimal places.
func (a number) int() int64 {
	if a.other != nil {
		return a.other.IntPart()
	}
	return a.millionths / unit
}

// text is the shortest exact text of the number.
func (a number) text() string {
	if a.other != nil {
		return a.other.String()
	}
	if a.millionths%unit == 0 {
		return strconv.FormatInt(a.millionths/unit, 10)
	}
	return strings.TrimRight(string(appendFixed(make([]byte, 0, longest), a.millionths, places)), "0")
}

// append appends the number, rounded to n decimal places, from 1 to 6.
func (a number) append(text []byte, n int32) []byte {
	r := a.round(n)
	if r.other != nil {
		return append(text, r.other.StringFixed(n)...)
	}
	return appendFixed(text, r.millionths/powers[places-n], n)
}

// appendFixed appends a count of parts of one, of which there are 10 to the power
// of n.
func appendFixed(text []byte, parts int64, n int32) []byte {
	if parts < 0 {
		text, parts = append(text, '-'), -parts
	}
	text = strconv.AppendInt(text, parts/powers[n], 10)
	text = append(text, '.')
	for rest := powers[n] / 10; rest > 0; rest /= 10 {
		text = append(text, byte('0'+parts/rest%10))
	}
	return text
}

// plain reads ASCII digits with at most one point and at least one digit after it;
// no leading zeros but the one before the point.
func plain(s string) (n number, ok bool) {
	whole, part, hasPoint := strings.Cut(s, ".")
	valid := allDigits(whole) && allDigits(part) &&
		(whole != "" || part != "") && (!hasPoint || part != "") &&
		(len(whole) < 2 || whole[0] != '0') && len(s) <= 64
	if !valid {
		return number{}, false
	}
	d, err := decimal.NewFromString(s)
	return exact(d), err == nil
}

func allDigits(s string) bool {
	return strings.IndexFunc(s, func(r rune) bool { return r < '0' || r > '9' }) < 0
}
