package tax

import (
	"testing"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
)

func TestScheduleA(t *testing.T) {
	const single, joint, separate = household.Single, household.MarriedFilingJointly, household.MarriedFilingSeparately
	type in = household.Deductions
	tests := []struct {
		source string
		year   int
		status household.Status
		income string // adjusted gross income
		given  in
		want   string
		note   string
	}{
		{"IRC 213(a): 9,000 - 7.5% × 100,000", 2026, single, "100000", in{Medical: usd("9000")}, "1500", ""},
		{"IRC 213(a): at the floor", 2026, single, "100000", in{Medical: usd("7500")}, "0", ""},

		{"IRC 164(b)(6): the cap of 2025", 2025, single, "100000", in{StateLocalTaxes: usd("41000")}, "40000", ""},
		{"IRC 164(b)(7)(A): the cap of 2026", 2026, single, "100000", in{StateLocalTaxes: usd("41000")}, "40400", ""},
		{"IRC 164(b)(6): half for separate filers", 2026, separate, "100000", in{StateLocalTaxes: usd("41000")}, "20200", ""},
		{"IRC 164(b)(7)(B): 40,000 - 30% × (550,000 - 500,000)", 2025, joint, "550000", in{StateLocalTaxes: usd("41000")}, "25000", ""},
		// 40,400 - 30% × (550,000 - 505,000) = 26,900; below 640,600 no other limit
		{"IRC 164(b)(7)(B): 40,400 - 30% × (550,000 - 505,000)", 2026, single, "550000", in{StateLocalTaxes: usd("41000")}, "26900", ""},
		// 20,000 - 30% × (280,000 - 250,000)
		{"IRC 164(b)(7)(B): separate filers", 2025, separate, "280000", in{StateLocalTaxes: usd("41000")}, "11000", ""},
		{"IRC 164(b)(7)(B): at the end of the fall, 40,000 - 30% × 100,000", 2025, joint, "600000", in{StateLocalTaxes: usd("41000")}, "10000", ""},
		{"IRC 164(b)(7)(B): never below 10,000", 2025, joint, "900000", in{StateLocalTaxes: usd("41000")}, "10000", ""},
		{"IRC 164(b)(7)(B): never below 5,000 for separate filers", 2025, separate, "900000", in{StateLocalTaxes: usd("41000")}, "5000", ""},

		{"IRC 163(h)(3): as given", 2026, single, "100000", in{MortgageInterest: usd("12000")}, "12000", "mortgage_debt_limit"},
		{"IRC 163(h)(3)(E): not in 2025", 2025, single, "90000", in{MortgageInsurance: usd("1000")}, "0", "mortgage_insurance_not_deductible"},
		{"IRC 163(h)(3)(E)(i): from 2026", 2026, single, "100000", in{MortgageInsurance: usd("1000")}, "1000", ""},
		{"IRC 163(h)(3)(E)(ii): the first step begun", 2026, single, "100001", in{MortgageInsurance: usd("1000")}, "900", ""},
		{"IRC 163(h)(3)(E)(ii): nine steps", 2026, joint, "109000", in{MortgageInsurance: usd("1000")}, "100", ""},
		{"IRC 163(h)(3)(E)(ii): gone above 109,000", 2026, joint, "109001", in{MortgageInsurance: usd("1000")}, "0", ""},
		{"IRC 163(h)(3)(E)(ii): steps of 500 above 50,000, 2 begun", 2026, separate, "50501", in{MortgageInsurance: usd("1000")}, "800", ""},

		{"IRC 170(b)(1)(G): 60% for cash", 2025, single, "50000", in{CharityCash: usd("40000")}, "30000", "gifts_carryover"},
		{"IRC 170(b)(1)(A): 50% for property", 2025, single, "50000", in{CharityOther: usd("40000")}, "25000", "gifts_carryover"},
		// cash 15,000; property 25,000 - 15,000
		{"IRC 170(b)(1)(G)(iii): cash takes from the room for property", 2025, single, "50000", in{CharityCash: usd("15000"), CharityOther: usd("20000")}, "25000", "gifts_carryover"},
		{"IRC 170(b)(1)(I): no floor in 2025", 2025, single, "100000", in{CharityCash: usd("2000")}, "2000", ""},
		{"IRC 170(b)(1)(I): 2,000 - 0.5% × 100,000", 2026, single, "100000", in{CharityCash: usd("2000")}, "1500", ""},
		{"IRC 170(b)(1)(I): of cash and property together", 2026, single, "100000", in{CharityCash: usd("200"), CharityOther: usd("400")}, "100", ""},
		{"IRC 170(b)(1)(I): below the floor", 2026, single, "100000", in{CharityCash: usd("499")}, "0", ""},
		// 60% × 50,000 = 30,000, less 0.5% × 50,000
		{"IRC 170(b)(1)(I): on what the other limits allow", 2026, single, "50000", in{CharityCash: usd("40000")}, "29750", "gifts_carryover"},

		{"IRC 63(d)", 2026, single, "50000", in{OtherItemized: usd("1234.56")}, "1234.56", ""},

		{"IRC 68: not in 2025", 2025, single, "800000", in{OtherItemized: usd("37000")}, "37000", ""},
		// 37,000 is less than 800,000 - 640,600: 2/37 × 37,000 = 2,000
		{"IRC 68(a)(1): 2/37 of the deductions", 2026, single, "800000", in{OtherItemized: usd("37000")}, "35000", ""},
		// 644,300 - 640,600 = 3,700: 2/37 × 3,700 = 200
		{"IRC 68(a)(2): 2/37 of the income above the top bracket's start", 2026, single, "644300", in{OtherItemized: usd("37000")}, "36800", ""},
		{"IRC 68(a)(2): at the start", 2026, single, "640600", in{OtherItemized: usd("37000")}, "37000", ""},
		{"IRC 68(a): joint, 768,700", 2026, joint, "768700", in{OtherItemized: usd("37000")}, "37000", ""},
		{"IRC 68(a): separate, 384,350 + 3,700", 2026, separate, "388050", in{OtherItemized: usd("37000")}, "36800", ""},
		// taxes 40,400 - 30% × 295,000, not below 10,000; 10,000 + 27,000 = 37,000; less 2,000
		{"IRC 68(b): after the other limits", 2026, single, "800000", in{StateLocalTaxes: usd("60000"), OtherItemized: usd("27000")}, "35000", ""},
	}
	for _, tt := range tests {
		t.Run(tt.source, func(t *testing.T) {
			c := throughDeductions(household.Household{Status: tt.status, Deductions: tt.given}, lawOf(t, tt.year), paid(household.OfSelf, tt.income))
			want(t, "adjusted gross income", c.AdjustedGrossIncome, tt.income)
			want(t, "itemized", c.deductions.Itemized, tt.want)
			if tt.note != "" && !hasNote(c, tt.note) {
				t.Errorf("no note %q among %v", tt.note, c.s.Notes)
			}
		})
	}
}

// IRC 199A(e)(1), as amended with IRC 68: the qualified business income
// deduction is figured without the overall limit, and the overall limit with
// that deduction. A single filer with wages of 650,000, 100,000 of business
// profit and 560,000 of other itemized deductions, in 2026:
//
//	net earnings 92,350, all of the base used up by wages; tax 92,350 × 2.9% = 2,678.15; half 1,339.075
//	adjusted gross income 750,000 - 1,339.075 = 748,660.925
//	before the business deduction 748,660.925 - 560,000 = 188,660.925, below 201,750
//	business income 98,660.925 × 20% = 19,732.185, below 20% × 188,660.925
//	income for IRC 68: 748,660.925 - 19,732.185 - 640,600 = 88,328.74
//	2/37 × 88,328.74 = 4,774.5264...
//	taxable 748,660.925 - (560,000 - 4,774.5264...) - 19,732.185 = 173,703.2664...
//
// With 700,000 of itemized deductions taxable income is the narrower limit, and
// must not know of the reduction:
//
//	before the business deduction 48,660.925; × 20% = 9,732.185
//	income for IRC 68: 748,660.925 - 9,732.185 - 640,600 = 98,328.74; × 2/37 = 5,315.0670...
//	taxable 48,660.925 + 5,315.0670... - 9,732.185 = 44,243.8070...
func TestOverallLimitAndBusinessIncome(t *testing.T) {
	tests := []struct{ itemized, business, reduction, taxable string }{
		{"560000", "19732.19", "4774.53", "173703.27"},
		{"700000", "9732.19", "5315.07", "44243.81"},
	}
	for _, tt := range tests {
		h := household.Household{
			Income:     household.Income{SelfEmployment: household.ByEarner{Self: usd("100000")}},
			Deductions: household.Deductions{OtherItemized: usd(tt.itemized)},
		}
		c := throughDeductions(h, lawOf(t, 2026), paid(household.OfSelf, "650000"))
		want(t, "business deduction", c.BusinessDeduction, tt.business)
		want(t, "overall reduction", c.deductions.OverallReduction, tt.reduction)
		want(t, "taxable income", c.TaxableIncome, tt.taxable)
	}
}

// Form W-4 (2026), Deductions Worksheet line 10: 94% of the deductions where
// income is above the line 9 amount. That is 35/37, less what follows two digits.
func TestOverallLimitAgainstForm(t *testing.T) {
	y := lawOf(t, 2026)
	for _, status := range household.Statuses() {
		h := household.Household{Status: status, Deductions: household.Deductions{OtherItemized: usd("100000")}}
		c := throughDeductions(h, y, paid(household.OfSelf, "900000"))
		if got := c.deductions.Itemized.DividedBy(1000).DollarDown(); !got.Equal(money.Dollars(94)) {
			t.Errorf("%v: %v of 100,000 is %v%%, want 94%%", status, c.deductions.Itemized, got)
		}
	}
}
