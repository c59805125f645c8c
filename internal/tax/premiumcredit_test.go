package tax

import (
	"testing"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/worksheet"
)

// covered is insurance from the marketplace.
func covered(premiums, benchmark, advance string) *household.Marketplace {
	return &household.Marketplace{Premiums: usd(premiums), Benchmark: usd(benchmark), Advance: usd(advance)}
}

// ofFamily is the same for a tax family of a number of people.
func ofFamily(people int, m *household.Marketplace) *household.Marketplace {
	m.Household = &people
	return m
}

func TestPremiumCredit(t *testing.T) {
	const single, joint, separate, head = household.Single, household.MarriedFilingJointly, household.MarriedFilingSeparately, household.HeadOfHousehold
	six := 6
	half := covered("2750", "3000", "0")
	half.Months = &six
	alaska := covered("5500", "6000", "0")
	alaska.Place = household.Alaska
	tests := []struct {
		source string
		year   int
		status household.Status
		income string
		m      *household.Marketplace
		net    string // Schedule 3 line 9
		repaid string // Schedule 2 line 1a
		note   string
	}{
		// 39,125 is 250% of 15,650: 8.44% is 3,302.15, 3,302; 6,000 - 3,302 = 2,698.
		{"Form 8962 line 11, 2026: a credit not paid in advance", 2026, single, "39125", covered("5500", "6000", "0"), "2698", "0", ""},
		{"Form 8962 line 26, 2026: more than the advance", 2026, single, "39125", covered("5500", "6000", "2000"), "698", "0", ""},
		{"Form 8962 line 26, 2026: the advance to the dollar", 2026, single, "39125", covered("5500", "6000", "2698"), "0", "0", ""},
		{"Form 8962 line 27, 2026: an excess of 302, all of it paid back", 2026, single, "39125", covered("5500", "6000", "3000"), "0", "302", "premium_advance_repaid"},
		{"Form 8962 line 11e: no more than the premiums", 2026, single, "39125", covered("2000", "6000", "0"), "2000", "0", ""},
		{"Form 8962 line 11d: a benchmark below one's share", 2026, single, "39125", covered("2000", "3302", "0"), "0", "0", ""},
		// 3,302 ÷ 12 = 275.17, 275 a month: 3,000 - 6 × 275 = 1,350.
		{"Form 8962 line 8b: six months", 2026, single, "39125", half, "1350", "0", ""},
		// 39,125 ÷ 19,550 = 200.1%: 6.60% is 2,582.25, 2,582.
		{"Form 8962 line 4: Alaska", 2026, single, "39125", alaska, "3418", "0", ""},
		// 39,125 ÷ 21,150 = 184.9%: 4.19% + 2.41% × 34/50 = 5.83%: 2,280.99, 2,281.
		{"Form 8962 line 1: two people", 2026, single, "39125", ofFamily(2, covered("5500", "6000", "0")), "3719", "0", ""},

		// 132%: 2.10% of 20,814.49 is 437.10; 133%: 3.14% of 20,814.50 is 653.58.
		{"Rev. Proc. 2025-25: a cent below 133%", 2026, single, "20814.49", covered("9000", "6000", "0"), "5563", "0", ""},
		{"Rev. Proc. 2025-25: 133%", 2026, single, "20814.50", covered("9000", "6000", "0"), "5346", "0", ""},
		// 9.96% of 62,600 is 6,234.96.
		{"IRC 36B(c)(1)(A): 400% in 2026", 2026, single, "62600", covered("9000", "8000", "0"), "1765", "0", ""},
		{"IRC 36B(c)(1)(A): a cent above 400% in 2026, all of the advance paid back", 2026, single, "62600.01", covered("9000", "8000", "1765"), "0", "1765", "premium_credit_high_income"},
		// 8.5% of 62,600.01 is 5,321.00.
		{"IRC 36B(c)(1)(E): no end in 2025", 2025, single, "62600.01", covered("9000", "8000", "0"), "2679", "0", ""},
		{"IRC 36B(c)(1)(A): a cent below the poverty line", 2026, single, "15649.99", covered("9000", "6000", "0"), "0", "0", "premium_credit_low_income"},
		// 2.10% of 15,649.99 is 328.65; of 15,650 the same.
		{"Reg. 1.36B-2(b)(6): the same with an advance on a higher estimate", 2026, single, "15649.99", covered("9000", "6000", "5000"), "671", "0", ""},
		{"IRC 36B(c)(1)(A): the poverty line", 2026, single, "15650", covered("9000", "6000", "0"), "5671", "0", ""},

		// Of 15,060, 200% is 30,120: 1.96% of 30,119.99 is 590.35, 2.00% of 30,120 is 602.40.
		{"Table 5 (2025): below 200%, single", 2025, single, "30119.99", covered("9000", "6000", "5900"), "0", "375", ""},
		{"Table 5 (2025): 200%, single", 2025, single, "30120", covered("9000", "6000", "6500"), "0", "975", ""},
		{"Table 5 (2025): below 200%, head of household", 2025, head, "30119.99", covered("9000", "6000", "6500"), "0", "750", ""},
		{"Table 5 (2025): 200%, head of household", 2025, head, "30120", covered("9000", "6000", "8500"), "0", "1950", ""},
		// 300% is 45,180: 6.00% is 2,710.80, 3,289 of credit.
		{"Table 5 (2025): 300%, single", 2025, single, "45180", covered("9000", "6000", "6000"), "0", "1625", ""},
		{"Table 5 (2025): 300%, two on a joint return", 2025, joint, "45180", ofFamily(1, covered("9000", "6000", "8000")), "0", "3250", ""},
		{"Table 5 (2025): an excess below the cap", 2025, single, "45180", covered("9000", "6000", "4289"), "0", "1000", ""},
		// 400% is 60,240: 8.5% is 5,120.40; 8.48% of 60,239.99 is 5,108.35.
		{"Table 5 (2025): below 400%", 2025, single, "60239.99", covered("9000", "6000", "6000"), "0", "1625", ""},
		{"Table 5 (2025): 400%, no cap", 2025, single, "60240", covered("9000", "6000", "6000"), "0", "5120", ""},
		// 192%: 4.19% + 2.41% × 42/50 = 6.21%: 1,870.45, all of which was paid in advance too much.
		{"Table 5: none from 2026", 2026, single, "30119.99", covered("9000", "6000", "6000"), "0", "1870", ""},

		{"IRC 36B(c)(1)(C): a separate return pays back to the cap of others", 2025, separate, "30119.99", covered("9000", "6000", "5900"), "0", "750", "premium_credit_separate"},
		{"IRC 36B(c)(1)(C): and from 2026 all of it", 2026, separate, "30119.99", covered("9000", "6000", "5900"), "0", "5900", "premium_credit_separate"},
	}
	for _, tt := range tests {
		t.Run(tt.source, func(t *testing.T) {
			h := household.Household{TaxYear: tt.year, Status: tt.status, Income: household.Income{Unemployment: usd(tt.income)}, Marketplace: tt.m}
			if tt.status == joint && tt.m.Household == nil {
				t.Fatal("say how many people")
			}
			s := new(worksheet.Sheet)
			r := Compute(h, nil, lawOf(t, tt.year), ByReturn, s)
			want(t, "net credit", r.RefundableCredits, tt.net)
			want(t, "paid back", r.ExcessAdvance, tt.repaid)
			want(t, "total tax", r.TotalTax, r.IncomeTax.Add(usd(tt.repaid)).Text())
			if tt.note != "" && !noted(s, tt.note) {
				t.Errorf("no note %s: %v", tt.note, s.Notes)
			}
		})
	}
}

// noted reports whether a sheet has a note.
func noted(s *worksheet.Sheet, code string) bool {
	for _, n := range s.Notes {
		if n.Code == code {
			return true
		}
	}
	return false
}

// One who can be claimed has no credit.
//
// IRC 36B(c)(1)(D).
func TestPremiumCreditOfOneWhoIsClaimed(t *testing.T) {
	h := household.Household{Self: household.Person{CanBeClaimed: true}, Income: household.Income{Unemployment: usd("39125")}, Marketplace: covered("5500", "6000", "0")}
	s := new(worksheet.Sheet)
	want(t, "refundable credits", Compute(h, nil, lawOf(t, 2026), ByReturn, s).RefundableCredits, "0")
	if !noted(s, "premium_credit_claimed") {
		t.Errorf("notes %v", s.Notes)
	}
}

// Tax-exempt interest and benefits that are not taxed are household income, and
// the interest decides how much of the benefits is taxed.
//
// IRC 36B(d)(2)(B), 86(b)(2)(B); Social Security Benefits Worksheet line 4.
func TestHouseholdIncome(t *testing.T) {
	// 20,000 of benefits, 10,000 of pensions, 9,000 exempt: 10,000 + 19,000 =
	// 29,000, 4,000 above 25,000: 2,000 of benefits are taxed. Without the exempt
	// interest it is 20,000, and none is.
	h := household.Household{Income: household.Income{SocialSecurity: usd("20000"), Retirement: usd("10000"), TaxExemptInterest: usd("9000")}, Marketplace: covered("9000", "9000", "0")}
	y := lawOf(t, 2026)
	c := throughDeductions(h, y)
	want(t, "taxable benefits", c.income.TaxableBenefits, "2000")
	want(t, "adjusted gross income", c.AdjustedGrossIncome, "12000")
	// 12,000 + 9,000 + 18,000 = 39,000
	want(t, "household income", c.householdIncome(), "39000")
	// Half of 9,000 more than the limit of the earned income credit: IRC 32(i)(2)(B).
	want(t, "investment income", c.investmentIncome(), "9000")
	h.Income.TaxExemptInterest = money.Zero
	want(t, "taxable benefits without exempt interest", throughDeductions(h, y).income.TaxableBenefits, "0")
}

// What is paid back is met by nonrefundable credits, and the minimum tax is
// measured against it.
//
// IRC 26(b), 55(c)(1); Form 1040 line 18; Form 6251 line 10.
func TestExcessAdvanceIsRegularTax(t *testing.T) {
	h := household.Household{
		Status: household.HeadOfHousehold, Dependents: children(1), Income: household.Income{Unemployment: usd("90000")},
		Marketplace: covered("9000", "8000", "4000"),
	}
	y := lawOf(t, 2026)
	r := Compute(h, nil, y, BySchedule, nil)
	// 90,000 is above 400% of 21,150: 4,000 is paid back. 90,000 - 24,150 = 65,850:
	// 1,770 + 12% × 48,150 = 7,548. Less 2,200.
	want(t, "income tax", r.IncomeTax, "7548")
	want(t, "total tax", r.TotalTax, "9348")
	h.Income.Unemployment = usd("20000") // below 24,150: no income tax
	h.Marketplace.Advance, h.Marketplace.Benchmark = usd("1500"), usd("1200")
	h.Marketplace.Household = new(int)
	*h.Marketplace.Household = 1
	// 127%: 2.10% of 20,000 is 420; 780 of credit; 720 is paid back, met by the child's credit.
	r = Compute(h, nil, y, BySchedule, nil)
	want(t, "paid back", r.ExcessAdvance, "720")
	want(t, "child tax credit", r.ChildTaxCredit, "720")
	want(t, "total tax", r.TotalTax, "0")
}
