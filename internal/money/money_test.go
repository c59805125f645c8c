package money

import (
	"encoding/json"
	"math/big"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func TestParse(t *testing.T) {
	tests := []struct{ text, want string }{
		{"1234.5", "1234.50"},
		{"1,234.50", "1234.50"},
		{"$1,234.50", "1234.50"},
		{" 2,400 ", "2400.00"},
		{"-20", "-20.00"},
		{"-$20.05", "-20.05"},
		{".5", "0.50"},
		{"0", "0.00"},
		{"1,000,000", "1000000.00"},
		{"999999999999.99", "999999999999.99"},
	}
	for _, tt := range tests {
		got, err := Parse(tt.text)
		if err != nil || got.String() != tt.want {
			t.Errorf("Parse(%q) = %v, %v; want %s", tt.text, got, err, tt.want)
		}
	}
}

func TestParseRefuses(t *testing.T) {
	const shape = "amount none"
	tests := []struct{ text, want string }{
		{"", shape},
		{"1.200,50", shape},
		{"1,20", shape},
		{"12,34,567", shape},
		{",500", shape},
		{"5.", shape},
		{"1e999", shape},
		{"1e5", shape},
		{"NaN", shape},
		{"Inf", shape},
		{"0x10", shape},
		{"010", shape},
		{"1_000", shape},
		{"+5", shape},
		{"--5", shape},
		{"$-5", shape},
		{"١٢٣", shape},
		{"−5", shape}, // U+2212
		{"5 000", shape},
		{"1000000000000", "amount too_large"},
		{"0.12345678901", "amount places"},
		{strings.Repeat("9", 50), "amount too_large"},
		{strings.Repeat("9", 10_000), shape},
	}
	for _, tt := range tests {
		got, err := Parse(tt.text)
		if err == nil {
			t.Errorf("Parse(%.60q) = %v, want an error", tt.text, got)
			continue
		}
		if !strings.Contains(err.Error(), tt.want) || len(err.Error()) > 200 {
			t.Errorf("Parse(%.60q): error %q, want one that says %q", tt.text, err, tt.want)
		}
	}
}

func TestRounding(t *testing.T) {
	tests := []struct {
		name string
		got  Amount
		want string
	}{
		{"half a cent goes up", MustParse("2.345").ToCent(), "2.35"},
		{"half a cent goes away from zero", MustParse("-2.345").ToCent(), "-2.35"},
		{"below half a cent goes down", MustParse("2.3449").ToCent(), "2.34"},
		{"50 cents go up", MustParse("10.50").ToDollar(), "11.00"},
		{"49 cents go down", MustParse("10.49").ToDollar(), "10.00"},
		{"cents dropped", MustParse("10.99").DollarDown(), "10.00"},
		{"cents rounded up", MustParse("10.01").DollarUp(), "11.00"},
		{"whole dollars stay", MustParse("10").DollarUp(), "10.00"},
		{"to ten dollars, half up", MustParse("485").ToMultiple(Dollars(10)), "490.00"},
		{"to ten dollars, down", MustParse("484.99").ToMultiple(Dollars(10)), "480.00"},
		{"down to a hundred", MustParse("2299").DownToMultiple(Dollars(100)), "2200.00"},
	}
	for _, tt := range tests {
		if tt.got.String() != tt.want {
			t.Errorf("%s: got %v, want %s", tt.name, tt.got, tt.want)
		}
	}
}

func TestSteps(t *testing.T) {
	thousand := Dollars(1000)
	tests := []struct {
		excess      string
		full, begun int
	}{
		{"0", 0, 0}, {"0.01", 0, 1}, {"999.99", 0, 1}, {"1000", 1, 1}, {"1000.01", 1, 2},
	}
	for _, tt := range tests {
		a := MustParse(tt.excess)
		if a.Steps(thousand) != tt.full || a.StepsBegun(thousand) != tt.begun {
			t.Errorf("%s in thousands: %d full, %d begun; want %d, %d", tt.excess, a.Steps(thousand), a.StepsBegun(thousand), tt.full, tt.begun)
		}
	}
}

func TestWriting(t *testing.T) {
	a := MustParse("-1234567.5")
	if got := a.Grouped(); got != "-1,234,567.50" {
		t.Errorf("Grouped = %s", got)
	}
	if got := a.GroupedDollars(); got != "-1,234,568" {
		t.Errorf("GroupedDollars = %s", got)
	}
	if got := Cents(99).Grouped(); got != "0.99" {
		t.Errorf("Grouped = %s", got)
	}
	js, err := json.Marshal(map[string]Amount{"a": a})
	if err != nil || string(js) != `{"a":-1234567.50}` {
		t.Errorf("JSON = %s, %v", js, err)
	}
	if got := MustParse("0.0765").At(Percent(100)); got.Text() != "0.0765" {
		t.Errorf("Text = %s", got.Text())
	}
}

func TestRate(t *testing.T) {
	var r Rate
	if err := r.UnmarshalText([]byte("0.0765")); err != nil || r.String() != "7.65%" {
		t.Errorf("rate %v, %v", r, err)
	}
	for _, bad := range []string{"1.01", "-0.1", "22%", "", "1e-2"} {
		if err := r.UnmarshalText([]byte(bad)); err == nil {
			t.Errorf("%q read as the rate %v", bad, r)
		}
	}
}

// Adding, multiplying and rounding agree with exact fractions.
func TestArithmeticIsExact(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := rapid.Int64Range(-1e12, 1e12).Draw(t, "a")
		b := rapid.Int64Range(-1e12, 1e12).Draw(t, "b")
		n := rapid.IntRange(1, 400).Draw(t, "n")
		if got := Cents(a).Add(Cents(b)).Sub(Cents(b)); !got.Equal(Cents(a)) {
			t.Fatalf("%d + %d - %d cents = %v", a, b, b, got)
		}
		want := new(big.Rat).SetFrac64(a, int64(n)*100)
		half := big.NewRat(1, 200)
		if a < 0 {
			half.Neg(half)
		}
		cents := new(big.Rat).Add(want, half)
		cents.Mul(cents, big.NewRat(100, 1))
		whole := new(big.Int).Quo(cents.Num(), cents.Denom()) // toward zero: half away from zero after adding the half
		if got := Cents(a).DividedBy(n).ToCent(); !got.Equal(Cents(whole.Int64())) {
			t.Fatalf("%d cents ÷ %d = %v, want %v cents", a, n, got, whole)
		}
	})
}

func FuzzParse(f *testing.F) {
	for _, s := range []string{"1,234.50", "$5", "-.5", "1e999", "١٢٣", "0x10", "999999999999.9999999999"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		a, err := Parse(s)
		if err != nil {
			return
		}
		again, err := Parse(a.Text())
		if err != nil || !again.Equal(a) {
			t.Errorf("Parse(%q) = %s, which reads as %v, %v", s, a.Text(), again, err)
		}
	})
}
