package money

import (
	"errors"
	"testing"
)

func TestReadTyped(t *testing.T) {
	for text, want := range map[string]struct {
		amount string
		per    Per
	}{
		"$48k": {"48000", Unsaid}, "48.5k": {"48500", Unsaid}, "48,000/yr": {"48000", PerYear}, "48000 a year": {"48000", PerYear},
		"650/month": {"650", PerMonth}, "650 per month": {"650", PerMonth}, "650 x 3": {"1950", Unsaid}, "650x3": {"1950", Unsaid},
		"650 monthly": {"650", PerMonth}, "9000.": {"9000", Unsaid}, "37.5": {"37.5", Unsaid}, "$19.50/h": {"19.50", PerHour},
		"19.50 an hour": {"19.50", PerHour}, "about 9000": {"9000", Unsaid}, "1 200": {"1200", Unsaid}, "1 200.50": {"1200.50", Unsaid},
		"1'200": {"1200", Unsaid}, "-20": {"-20", Unsaid}, "$1,234.50": {"1234.50", Unsaid}, "1200 dollars": {"1200", Unsaid},
	} {
		got, err := ReadTyped(text)
		if err != nil || !got.Amount.Equal(MustParse(want.amount)) || got.Per != want.per {
			t.Errorf("%q is %v per %d (%v), want %s per %d", text, got.Amount, got.Per, err, want.amount, want.per)
		}
	}
	for text, code := range map[string]string{
		"1.200,50": "comma", "1200,50": "comma", "1.200": "comma", "12,5": "comma", "650/fortnight": "part", "650 euros": "part",
		"a lot": "none", "": "none", "1e5": "part", "12,34,567": "none", "-": "none", "1 20": "none",
	} {
		got, err := ReadTyped(text)
		var f *Fault
		if !errors.As(err, &f) || f.Code != code {
			t.Errorf("%q is %v (%v), want the fault %s", text, got.Amount, err, code)
		}
	}
}

// Whatever Parse reads, ReadTyped reads alike, but for what means something else
// elsewhere; and it never panics.
func FuzzReadTyped(f *testing.F) {
	for _, s := range []string{"$48k", "48,000/yr", "650 x 3", "1.200,50", "1 200", "9000.", "-20", "~5k a month"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		got, err := ReadTyped(s)
		want, strict := Parse(s)
		if strict != nil {
			return
		}
		var fault *Fault
		if errors.As(err, &fault) && fault.Code == "comma" {
			return
		}
		if err != nil || !got.Amount.Equal(want) || got.Per != Unsaid {
			t.Errorf("%q is %v per %d (%v), Parse reads %v", s, got.Amount, got.Per, err, want)
		}
	})
}
