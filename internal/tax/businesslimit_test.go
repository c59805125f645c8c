package tax

import (
	"testing"

	"example.com/plumbline/internal/household"
)

// business is one whose kind is known.
func business(specified bool, wages, property string) *household.Business {
	return &household.Business{SpecifiedService: &specified, Wages: usd(wages), Property: usd(property)}
}

// Business income of 100,000 above the threshold: 197,300 and 50,000 of range
// in 2025, 201,750 and 75,000 in 2026, for a single person.
func TestLimitedBusiness(t *testing.T) {
	tests := []struct {
		source  string
		year    int
		taxable string
		b       *household.Business
		want    string
	}{
		{"IRC 199A(b)(3)(A): at the threshold nothing counts", 2025, "197300", business(true, "0", "0"), "20000"},
		{"IRC 199A(b)(3)(B): a dollar above, no wages: 20,000 × 1/50,000 lost", 2025, "197301", business(false, "0", "0"), "19999.60"},
		{"IRC 199A(b)(3)(B): half of the range, no wages", 2025, "222300", business(false, "0", "0"), "10000"},
		// 20,000 less half of what it has above 50% of 20,000
		{"IRC 199A(b)(3)(B): half of the range, wages of 20,000", 2025, "222300", business(false, "20000", "0"), "15000"},
		{"IRC 199A(b)(2)(B)(i): the end of the range, no wages", 2025, "247300", business(false, "0", "0"), "0"},
		{"IRC 199A(b)(2)(B)(i): 50% of wages", 2025, "247300", business(false, "20000", "0"), "10000"},
		{"IRC 199A(b)(2)(B)(i): wages enough", 2025, "247300", business(false, "40000", "0"), "20000"},
		{"IRC 199A(b)(2)(B)(i): a dollar of wages short", 2025, "300000", business(false, "39999", "0"), "19999.50"},
		// 25% of 20,000 + 2.5% of 300,000
		{"IRC 199A(b)(2)(B)(ii): wages and property", 2025, "247300", business(false, "20000", "300000"), "12500"},
		// 5,000 + 5,000 is no more than 10,000
		{"IRC 199A(b)(2)(B)(ii): property that adds nothing", 2025, "247300", business(false, "20000", "200000"), "10000"},
		// 50,000 of income and 10,000 of wages count: 10,000, of which 5,000 above
		// the limit, half of it lost
		{"IRC 199A(d)(3)(B): a service trade at half of the range", 2025, "222300", business(true, "20000", "0"), "7500"},
		{"IRC 199A(d)(3)(A): a service trade at the end of the range", 2025, "247300", business(true, "90000", "0"), "0"},
		{"IRC 199A(e)(2), 2026: half of the range, no wages", 2026, "239250", business(false, "0", "0"), "10000"},
		{"IRC 199A(i), 2026: the least deduction above the range", 2026, "276750", business(false, "0", "0"), "400"},
		{"IRC 199A(i), 2026: not of a service trade", 2026, "276750", business(true, "90000", "0"), "0"},
	}
	for _, tt := range tests {
		c := &computation{y: lawOf(t, tt.year), h: household.Household{Income: household.Income{Business: household.Businesses{Self: tt.b}}}}
		c.work[0].SelfEmploymentNet = usd("100000")
		q := c.qualifiedBusiness(usd(tt.taxable))
		want(t, tt.source, q.Deduction, tt.want)
		if q.Unknown {
			t.Errorf("%s: said to be unknown", tt.source)
		}
	}
}

// A loss of one business lowers the income of the other, and its wages count
// for nothing.
//
// IRC 199A(c)(2); Reg. 1.199A-1(d)(2)(iii)(A); Form 8995-A Schedule C.
func TestLimitedBusinessLoss(t *testing.T) {
	h := household.Household{Status: household.MarriedFilingJointly}
	h.Income.Business = household.Businesses{Self: business(false, "20000", "0"), Spouse: business(false, "80000", "0")}
	c := &computation{y: lawOf(t, 2026), h: h}
	c.Status = h.Status
	c.work[0].SelfEmploymentNet, c.work[1].SelfEmploymentNet = usd("100000"), usd("-40000")
	// Above 553,500: 20% of 60,000, held to 50% of 20,000.
	want(t, "a loss", c.qualifiedBusiness(usd("600000")).Deduction, "10000")
	c.work[1].SelfEmploymentNet = usd("-100000")
	want(t, "all lost", c.qualifiedBusiness(usd("600000")).Deduction, "0")
	c.work[1].SelfEmploymentNet = usd("50000")
	// 10,000 of 20,000, and 10,000
	want(t, "two gains", c.qualifiedBusiness(usd("600000")).Deduction, "20000")
	// The loss of a service trade above the range is no loss of a trade at all.
	c.work[1].SelfEmploymentNet, c.h.Income.Business.Spouse = usd("-150000"), business(true, "0", "0")
	want(t, "a loss that does not count", c.qualifiedBusiness(usd("600000")).Deduction, "10000")
	c.work[1].SelfEmploymentNet, c.h.Income.Business.Spouse = usd("50000"), nil
	q := c.qualifiedBusiness(usd("600000"))
	want(t, "one not known", q.Deduction, "10000")
	if !q.Unknown {
		t.Error("not said to be unknown")
	}
}
