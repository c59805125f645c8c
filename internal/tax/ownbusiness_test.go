package tax

import (
	"testing"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/worksheet"
)

func selfOnly(amount string) household.ByEarner { return household.ByEarner{Self: usd(amount)} }

// Retirement plans of the self-employed, on both sides of each limit.
func TestOwnRetirement(t *testing.T) {
	tests := []struct {
		source       string
		year         int
		profit, paid string
		age          int
		want         string
	}{
		// 50,000: half of 7,064.775 is 3,532.3875, which leaves 46,467.6125; 20% is
		// 9,293.5225, with 24,500 of deferral 33,793.5225.
		{"IRC 404(a)(8): within the limit", 2026, "50000", "33793.52", 40, "33793.52"},
		{"IRC 404(a)(8): a dollar above it", 2026, "50000", "33794.52", 40, "33793.52"},
		{"IRC 414(v)(2)(B): 8,000 more at 50", 2026, "50000", "90000", 50, "41793.52"},
		{"IRC 414(v)(2)(B): not at 49", 2026, "50000", "90000", 49, "33793.52"},
		{"IRC 414(v)(2)(E): 11,250 more at 60", 2026, "50000", "90000", 60, "45043.52"},
		{"IRC 414(v)(2)(E): and at 63", 2026, "50000", "90000", 63, "45043.52"},
		{"IRC 414(v)(2)(E): 8,000 at 64", 2026, "50000", "90000", 64, "41793.52"},
		{"Notice 2024-80: 23,500 in 2025", 2025, "50000", "90000", 40, "32793.52"},
		// 10,000: half of 1,412.955 is 706.4775.
		{"IRC 415(c)(1)(B): no more than the profit", 2026, "10000", "90000", 40, "9293.52"},
		// 30,000: half of 4,238.865 is 2,119.4325, which leaves 27,880.5675. Less 24,500
		// half of 3,380.5675 is 1,690.28, less than 20%, 5,576.11.
		{"IRC 415(c)(3)(B): half of what the deferral leaves", 2026, "30000", "90000", 40, "26190.28"},
		// The addition for age: 3,380.5675 - 1,690.28 = 1,690.28, less than 8,000.
		{"IRC 414(v)(2)(A)(ii): the rest of what is earned", 2026, "30000", "90000", 50, "27880.57"},
		{"a loss leaves nothing", 2026, "-10000", "5000", 40, "0"},
		// 400,000: 369,400 of net earnings; 184,500 × 12.4% + 369,400 × 2.9% = 22,878 +
		// 10,712.60; half is 16,795.30, 20% of the rest 76,640.94.
		{"IRC 415(c)(1)(A), Notice 2025-67: the limit on additions", 2026, "400000", "90000", 40, "72000"},
		{"IRC 414(v)(3)(A): with 8,000 above it", 2026, "400000", "90000", 55, "80000"},
		{"IRC 415(c)(1)(A), Notice 2024-80", 2025, "400000", "90000", 40, "70000"},
	}
	for _, tt := range tests {
		h := household.Household{
			Self:        household.Person{BirthDate: household.On(tt.year-tt.age, 6, 15)},
			Income:      household.Income{SelfEmployment: selfOnly(tt.profit)},
			Adjustments: household.Adjustments{SelfEmployedRetirement: selfOnly(tt.paid)},
		}
		c := throughDeductions(h, lawOf(t, tt.year))
		want(t, tt.source, c.adjustments.OwnRetirement, tt.want)
		want(t, tt.source+": adjustments", c.Adjustments, c.adjustments.OwnRetirement.Add(c.adjustments.HalfSelfEmployment).ToCent().Text())
		if above := usd(tt.paid).More(usd(tt.want)); hasNote(c, "own_retirement_above_limit") != above {
			t.Errorf("%s: noted above the limit: %v", tt.source, !above)
		}
	}
}

// The premiums of each business, within what it earns.
//
// IRC 162(l)(2)(A); Form 7206.
func TestOwnHealth(t *testing.T) {
	// 10,000 less 706.4775 and 2,000 into a plan: 7,293.5225.
	h := household.Household{
		Status:      household.MarriedFilingJointly,
		Income:      household.Income{SelfEmployment: household.ByEarner{Self: usd("10000"), Spouse: usd("40000")}},
		Adjustments: household.Adjustments{SelfEmployedRetirement: selfOnly("2000"), SelfEmployedHealth: household.ByEarner{Self: usd("7293.52"), Spouse: usd("1000")}},
	}
	y := lawOf(t, 2026)
	c := throughDeductions(h, y)
	want(t, "to the profit", c.adjustments.OwnHealth, "8293.52")
	h.Adjustments.SelfEmployedHealth.Self = usd("7300")
	c = throughDeductions(h, y)
	want(t, "above the profit", c.adjustments.OwnHealth, "8293.52")
	// 50,000 - 3,532.3875 - 2,000 - 8,293.52
	want(t, "adjusted gross income", c.AdjustedGrossIncome, "36174.09")
	// 20% of what is left of 36,174.09 after 32,200, 794.82, is less than 20% of
	// qualified business income, 36,174.09.
	want(t, "business deduction", c.BusinessDeduction, "794.82")
	h.Status = household.MarriedFilingSeparately
	want(t, "a spouse's premiums are not on a separate return", throughDeductions(h, y).adjustments.OwnHealth, "7293.52")
}

// Retirement and health insurance of the owner lower qualified business income.
//
// Reg. 1.199A-3(b)(1)(vi).
func TestOwnBusinessDeductionsLowerQualifiedIncome(t *testing.T) {
	h := household.Household{
		Income:      household.Income{SelfEmployment: selfOnly("50000"), Interest: usd("60000")},
		Adjustments: household.Adjustments{SelfEmployedRetirement: selfOnly("6000"), SelfEmployedHealth: selfOnly("4000")},
	}
	// 50,000 - 3,532.3875 - 6,000 - 4,000 = 36,467.6125; 20%.
	want(t, "business deduction", throughDeductions(h, lawOf(t, 2026)).BusinessDeduction, "7293.52")
}

// The deduction and the premium tax credit, each of which turns on the other.
//
// Rev. Proc. 2014-41 sec. 4.
func TestOwnHealthWithPremiumCredit(t *testing.T) {
	// 2026, a profit of 50,000: 46,467.61 before the deduction; 6,000 of premiums
	// and of benchmark.
	//	6,000 deducted: 40,467.61, 258%, 8.68%: 3,513 of one's own, 2,487 of credit
	//	3,513 deducted: 42,954.61, 274%, 9.17%: 3,939, 2,061
	//	3,939:          42,528.61, 271%, 9.08%: 3,862, 2,138
	//	3,862:          42,605.61, 272%, 9.11%: 3,881, 2,119
	//	3,881:          42,586.61, 272%, 9.11%: 3,880, 2,120
	//	3,880:          42,587.61, 272%, 9.11%: 3,880, 2,120
	h := household.Household{
		Income:      household.Income{SelfEmployment: selfOnly("50000")},
		Adjustments: household.Adjustments{SelfEmployedHealth: selfOnly("6000")},
		Marketplace: covered("6000", "6000", "0"),
	}
	s := new(worksheet.Sheet)
	r := Compute(h, nil, lawOf(t, 2026), ByReturn, s)
	want(t, "adjusted gross income", r.AdjustedGrossIncome, "42587.61")
	want(t, "credit", r.RefundableCredits, "2120")
	if noted(s, "premium_credit_unsettled") {
		t.Error("noted as unsettled")
	}

	// 2025, a profit of 10,000 and 23,706.48 of other income: 33,000.00 before the
	// deduction; 5,500 in advance. With the first cap 500 + 375 is deducted: 32,125,
	// 213%, not below 200%. With the second 500 + 975: 31,525, 209%: it holds.
	//	credit on 31,525: 2.36% is 744, 5,256: 744 deducted
	//	32,256, 214%, 2.56%: 826, 5,174: 826
	//	32,174, 213%, 2.52%: 811, 5,189: 811
	//	32,189, 213%, 2.52%: 811, 5,189
	h = household.Household{
		Income:      household.Income{SelfEmployment: selfOnly("10000"), Unemployment: usd("23706.48")},
		Adjustments: household.Adjustments{SelfEmployedHealth: selfOnly("6000")},
		Marketplace: covered("6000", "6000", "5500"),
	}
	r = Compute(h, nil, lawOf(t, 2025), ByReturn, nil)
	want(t, "adjusted gross income", r.AdjustedGrossIncome, "32189.00")
	want(t, "paid back", r.ExcessAdvance, "311")

	// The same with 6,800 in advance of 7,000, all of it too much at 2025's second
	// cap: benchmark 5,000. 200 + 975 deducted: 31,825, 211%: 2.44% is 777, 4,223 of
	// credit; the cap leaves 5,825 paid: 1,175 deducted, 975 paid back.
	h.Adjustments.SelfEmployedHealth, h.Marketplace = selfOnly("7000"), covered("7000", "5000", "6800")
	r = Compute(h, nil, lawOf(t, 2025), ByReturn, nil)
	want(t, "adjusted gross income at the cap", r.AdjustedGrossIncome, "31825.00")
	want(t, "paid back at the cap", r.ExcessAdvance, "975")

	// 2026, near the end of the credit at 62,600.
	h = household.Household{
		Income:      household.Income{SelfEmployment: selfOnly("10000"), Unemployment: usd("56306.48")},
		Adjustments: household.Adjustments{SelfEmployedHealth: selfOnly("9000")},
		Marketplace: covered("9000", "9000", "0"),
	}
	// 65,600 before: all deducted, 56,600: 361%, 5,637 of one's own, 3,363 of
	// credit; 5,637 deducted: 59,963: 383%, 5,972; 5,972: 59,628, 5,939; and so on.
	r = Compute(h, nil, lawOf(t, 2026), ByReturn, nil)
	want(t, "deduction and credit are the premiums", usd("65600").Sub(r.AdjustedGrossIncome).Add(r.RefundableCredits), "9000")
	// 69,000 before: 60,000 with all deducted: 383%, 5,976, 3,024 of credit; 5,976
	// deducted: 63,024, above: no credit, and all deducted again. 6,400 may be
	// deducted, which leaves the end of the credit, 62,600, and a quarter of a cent.
	h.Income.Unemployment = usd("59706.48")
	s = new(worksheet.Sheet)
	r = Compute(h, nil, lawOf(t, 2026), ByReturn, s)
	want(t, "no pair fits: adjusted gross income", r.AdjustedGrossIncome, "62600.00")
	want(t, "no pair fits: credit", r.RefundableCredits, "0")
	if !noted(s, "premium_credit_unsettled") {
		t.Error("not noted as unsettled")
	}
}

// Insurance outside the marketplace beside it, and two businesses: the credit
// falls on the marketplace's premiums alone, and on both businesses alike.
func TestOwnHealthSharesTheCredit(t *testing.T) {
	c := &computation{h: household.Household{
		Status:      household.MarriedFilingJointly,
		Adjustments: household.Adjustments{SelfEmployedHealth: household.ByEarner{Self: usd("6000"), Spouse: usd("3000")}},
		Marketplace: covered("6000", "6000", "0"),
	}, y: lawOf(t, 2026)}
	c.work[0].SelfEmploymentNet, c.work[1].SelfEmploymentNet = usd("50000"), usd("50000")
	d := c.ownHealthLess(usd("1500"))
	want(t, "of 6,000: two thirds of 1,500", d[0], "5000")
	want(t, "of 3,000: one third of 1,500", d[1], "2500")
	c.h.Adjustments.SelfEmployedHealth = selfOnly("3000") // half of the marketplace's premiums
	d = c.ownHealthLess(usd("1500"))
	want(t, "half of 1,500", d[0], "2250")
	want(t, "nothing", d[1], money.Zero.Text())
}
