package certificate

import (
	"testing"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/tax"
)

// Coverage of the marketplace goes on in January as it is, unless the answers say
// otherwise: more months and premiums, or none.
func TestJanuaryHasItsOwnCoverage(t *testing.T) {
	five := 5
	now := household.Marketplace{Months: &five, Premiums: dollars(3000), Benchmark: dollars(3100)}
	all := household.Marketplace{Premiums: dollars(8000), Benchmark: dollars(8200), Advance: dollars(1200)}
	for name, tt := range map[string]struct {
		next *household.Marketplace
		want household.Marketplace
	}{
		"as it is":       {nil, now},
		"all year":       {&all, all},
		"none, no money": {&household.Marketplace{}, household.Marketplace{}},
	} {
		h := household.Household{TaxYear: 2026, Marketplace: &now}
		h.NextYear.Marketplace = tt.next
		n, _ := nextYear(h, tax.Return{})
		if got := *n.Marketplace; got.CoveredMonths() != tt.want.CoveredMonths() || !got.Premiums.Equal(tt.want.Premiums) ||
			!got.Benchmark.Equal(tt.want.Benchmark) || !got.Advance.Equal(tt.want.Advance) {
			t.Errorf("%s: January has %+v, want %+v", name, got, tt.want)
		}
		if h.Marketplace.CoveredMonths() != five {
			t.Errorf("%s: this year's coverage has changed", name)
		}
	}
}
