package tax

import (
	"testing"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/worksheet"
)

// A child of 17 whose parents file jointly with a taxable income of 150,000 in
// 2026, taxed at 22%: Form 8615 by hand.
func TestTaxAtParentsRate(t *testing.T) {
	tests := []struct {
		source    string
		wages     string
		in        household.Income
		blind     bool
		want      string
		uncounted string // without the parents' figures
	}{
		// 10,000 - 1,350 = 8,650. Net 7,300 × 22% = 1,606, and 10% of 1,350.
		{"interest alone", "0", household.Income{Interest: usd("10000")}, false, "1741", "865"},
		{"Form 8615 line 3: nothing net", "0", household.Income{Interest: usd("2700")}, false, "135", "135"},
		// a dollar net: 0.22 + 10% of 1,350
		{"Form 8615 line 3: a dollar net", "0", household.Income{Interest: usd("2701")}, false, "135.22", "135.10"},
		// 9,000 - 5,450 = 3,550; net 1,300 × 22% = 286, and 10% of 2,250
		{"wages beside it", "5000", household.Income{Interest: usd("4000")}, false, "511", "355"},
		// Half of 5,000 × 0.9235 × 15.3% is 353.24. 9,000 - 353.24, less a standard deduction
		// of 5,000 - 353.24 + 450, is 3,550; less 20% of it, IRC 199A(a), 2,840. Net 1,300 × 22%
		// = 286, and 10% of 1,540.
		{"a profit beside it", "0", household.Income{Interest: usd("4000"), SelfEmployment: household.ByEarner{Self: usd("5000")}}, false, "440", "284"},
		// 10,000 - 3,400 = 6,600, less than 7,300 net: all of it at 22%
		{"Form 8615 line 5: no more than taxable income", "0", household.Income{Interest: usd("10000")}, true, "1452", "660"},
		// 73% of the dividends are net: 7,300 × 15%; nothing on the rest
		{"qualified dividends", "0", household.Income{OrdinaryDividends: usd("10000"), QualifiedDividends: usd("10000")}, false, "1095", "0"},
		// Half are qualified: of 7,300 net 3,650 at 15% = 547.50 and 3,650 at 22% = 803;
		// of 1,350 left 1,350 are qualified: 5,000 - 3,650
		{"qualified dividends in part", "0", household.Income{OrdinaryDividends: usd("5000"), QualifiedDividends: usd("5000"), Interest: usd("5000")}, false, "1350.50", "365"},
	}
	y := lawOf(t, 2026)
	for _, tt := range tests {
		h := household.Household{Income: tt.in, Self: household.Person{CanBeClaimed: true, Blind: tt.blind, BirthDate: household.On(2009, 3, 3)}}
		pay := []household.YearPay{paid(household.OfSelf, tt.wages)}
		s := new(worksheet.Sheet)
		want(t, tt.source+": without the parents", Compute(h, pay, y, BySchedule, s).IncomeTax, tt.uncounted)
		if named := noted(s, "child_unearned_income"); named != (tt.want != tt.uncounted) {
			t.Errorf("%s: named: %v", tt.source, named)
		}
		h.Parents = &household.Parents{Status: household.MarriedFilingJointly, TaxableIncome: usd("150000")}
		s = new(worksheet.Sheet)
		want(t, tt.source, Compute(h, pay, y, BySchedule, s).IncomeTax, tt.want)
		if noted(s, "child_unearned_income") {
			t.Errorf("%s: named though computed", tt.source)
		}
		if named := noted(s, "parents_rate_siblings"); named != (tt.want != tt.uncounted) {
			t.Errorf("%s: brothers and sisters named: %v", tt.source, named)
		}
	}
	// Parents who are taxed less: the child's own tax is the larger (line 18).
	h := household.Household{Income: household.Income{Interest: usd("60000")}, Self: household.Person{CanBeClaimed: true}, Parents: &household.Parents{Status: household.MarriedFilingJointly}}
	// 58,650: 1,240 + 12% × 38,000 + 22% × 8,250 = 7,615
	want(t, "parents without income", Compute(h, nil, y, BySchedule, nil).IncomeTax, "7615")
	// Parents with 2,000 of qualified dividends and 3,000 of net gain in 100,000: the
	// zero rate ends at 98,900. Together 107,300, of which 102,300 is ordinary: 2,480 +
	// 12% × 76,000 + 22% × 1,500 = 11,930, and 15% of 5,000. Alone: 2,480 + 12% ×
	// 70,200 = 10,904, and 15% of 1,100. 12,680 - 11,069 = 1,611, and 10% of 1,350.
	withGains := household.Household{
		Income: household.Income{Interest: usd("10000")}, Self: household.Person{CanBeClaimed: true, BirthDate: household.On(2009, 3, 3)},
		Parents: &household.Parents{Status: household.MarriedFilingJointly, TaxableIncome: usd("100000"), QualifiedDividends: usd("2000"), NetCapitalGain: usd("3000")},
	}
	want(t, "the parents' gains", Compute(withGains, nil, y, BySchedule, nil).IncomeTax, "1746")
	// The child's 7,300 are gains too: 95,000 is ordinary, as alone; of 12,300 above
	// it 8,400 at 15%. 12,164 - 11,069 = 1,095, and nothing on the rest.
	withGains.Income = household.Income{OrdinaryDividends: usd("10000"), QualifiedDividends: usd("10000")}
	want(t, "gains of both", Compute(withGains, nil, y, BySchedule, nil).IncomeTax, "1095")

	h.Self.BirthDate = household.On(2002, 3, 3)
	h.Parents.TaxableIncome = usd("900000")
	want(t, "at 24 no longer", Compute(h, nil, y, BySchedule, nil).IncomeTax, "7615")
}
