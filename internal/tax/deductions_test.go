package tax

import (
	"testing"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/tables"
)

// law2024 is the table of 2025 with the standard deduction of Publication 17 (2024),
// chapter 10.
func law2024(t *testing.T) *tables.Year {
	y := *lawOf(t, 2025)
	d := &y.StandardDeduction
	d.Basic.Single, d.Basic.MarriedFilingSeparately = usd("14600"), usd("14600")
	d.Basic.MarriedFilingJointly = usd("29200")
	d.AgedOrBlind.Single, d.AgedOrBlind.MarriedFilingJointly = usd("1950"), usd("1550")
	d.DependentLeast = usd("1300")
	y.Year = 2024
	return &y
}

func TestStandardDeductionPublished(t *testing.T) {
	const single, joint, separate = household.Single, household.MarriedFilingJointly, household.MarriedFilingSeparately
	y2025, y2024 := lawOf(t, 2025), law2024(t)
	tests := []struct {
		source    string
		year      *tables.Year
		status    household.Status
		boxes     int // age 65 or older, and blind
		dependent bool
		wages     string
		business  string
		interest  string
		want      string
	}{
		{"Publication 501 (2025), p. 24, example 1", y2025, joint, 0, false, "60000", "0", "0", "31500"},
		{"Publication 501 (2025), p. 24, example 2", y2025, joint, 1, false, "60000", "0", "0", "33100"},
		{"Publication 501 (2025), p. 24, example 3", y2025, joint, 2, false, "60000", "0", "0", "34700"},
		{"Publication 501 (2025), p. 24, dependents, example 1", y2025, single, 0, true, "150", "0", "780", "1350"},
		{"Publication 501 (2025), p. 24, dependents, example 2", y2025, separate, 0, true, "3800", "0", "1500", "4250"},
		{"Publication 501 (2025), p. 24, dependents, example 3", y2025, single, 1, true, "2900", "0", "1300", "5350"},
		{"Publication 17 (2024), ch. 10, example 1", y2024, joint, 0, false, "60000", "0", "0", "29200"},
		{"Publication 17 (2024), ch. 10, example 2", y2024, joint, 1, false, "60000", "0", "0", "30750"},
		{"Publication 17 (2024), ch. 10, example 3", y2024, joint, 2, false, "60000", "0", "0", "32300"},
		{"Publication 17 (2024), ch. 10, dependents, example 1", y2024, single, 0, true, "150", "0", "780", "1300"},
		{"Publication 17 (2024), ch. 10, dependents, example 2", y2024, separate, 0, true, "3800", "0", "1500", "4250"},
		{"Publication 17 (2024), ch. 10, dependents, example 3", y2024, single, 1, true, "2900", "0", "1300", "5300"},
		{"Publication 17 (2024), ch. 10, dependents, example 4", y2024, single, 0, true, "7000", "-3000", "500", "4450"},
	}
	for _, tt := range tests {
		t.Run(tt.source, func(t *testing.T) {
			h := household.Household{
				Status: tt.status,
				Self:   household.Person{CanBeClaimed: tt.dependent, Blind: tt.boxes > 0},
				Spouse: &household.Person{Blind: tt.boxes > 1},
				Income: household.Income{Interest: usd(tt.interest), SelfEmployment: household.ByEarner{Self: usd(tt.business)}},
			}
			c := throughDeductions(h, tt.year, paid(household.OfSelf, tt.wages))
			want(t, "standard deduction", c.StandardOrItemized, tt.want)
		})
	}
}

func TestStandardDeduction(t *testing.T) {
	const single, joint, separate = household.Single, household.MarriedFilingJointly, household.MarriedFilingSeparately
	aged, born1961 := household.On(1955, 5, 5), household.On(1961, 1, 1)
	person := func(born household.Date, blind bool) household.Person {
		return household.Person{BirthDate: born, Blind: blind}
	}
	none := household.Person{}
	dependent := household.Person{CanBeClaimed: true}
	tests := []struct {
		source       string
		year         int
		status       household.Status
		self, spouse household.Person
		itemizes     bool
		wages        string
		want         string
	}{
		{"Instructions for Form 1040 (2025), p. 110: born on January 1, 1961, is 65 at the end of 2025", 2025, single, person(born1961, false), none, false, "30000", "17750"},
		{"Instructions for Form 1040 (2025), p. 110: born on January 2, 1961, is not", 2025, single, person(household.On(1961, 1, 2), false), none, false, "30000", "15750"},
		{"Instructions for Form 1040 (2025), p. 110: born on February 14, 1960, is", 2025, single, person(household.On(1960, 2, 14), false), none, false, "30000", "17750"},
		{"IRC 63(c)(2), Rev. Proc. 2025-32", 2026, single, none, none, false, "30000", "16100"},
		{"IRC 63(f): two additions for one person, 16,100 + 2 × 2,050", 2026, single, person(aged, true), none, false, "30000", "20200"},
		{"IRC 63(f): four on a joint return, 32,200 + 4 × 1,650", 2026, joint, person(aged, true), person(aged, true), false, "30000", "38800"},
		{"IRC 63(f): a surviving spouse has the married addition, 32,200 + 1,650", 2026, household.QualifyingSurvivingSpouse, person(aged, false), person(aged, true), false, "30000", "33850"},
		{"IRC 63(f), 151(b): no addition for a spouse on a separate return", 2026, separate, none, person(aged, true), false, "30000", "16100"},
		{"IRC 63(c)(6)(A): the spouse itemizes", 2026, separate, person(aged, true), none, true, "30000", "0"},
		{"IRC 63(c)(6)(A): matters on a separate return only", 2026, joint, none, none, true, "30000", "32200"},
		{"IRC 63(c)(5)(A): at least 1,350", 2026, single, dependent, none, false, "900", "1350"},
		{"IRC 63(c)(5)(B): 901 + 450", 2026, single, dependent, none, false, "901", "1351"},
		{"IRC 63(c)(5): no more than the basic amount", 2026, single, dependent, none, false, "15650", "16100"},
		{"IRC 63(c)(5): no more than the basic amount, a dollar on", 2026, single, dependent, none, false, "15651", "16100"},
		{"IRC 63(c)(5): joint, where the spouse can be claimed, 5,000 + 450", 2026, joint, none, dependent, false, "5000", "5450"},
		{"IRC 63(c)(5): the additions come after, 1,350 + 2,050", 2026, single, household.Person{CanBeClaimed: true, Blind: true}, none, false, "0", "3400"},
	}
	for _, tt := range tests {
		t.Run(tt.source, func(t *testing.T) {
			h := household.Household{Status: tt.status, Self: tt.self, Spouse: &tt.spouse, Deductions: household.Deductions{SpouseItemizes: tt.itemizes}}
			c := throughDeductions(h, lawOf(t, tt.year), paid(household.OfSelf, tt.wages))
			want(t, "standard deduction", c.StandardOrItemized, tt.want)
			if c.Itemized != (tt.want == "0") {
				t.Errorf("itemized: %v", c.Itemized)
			}
		})
	}
}

func TestStandardOrItemized(t *testing.T) {
	const single, joint, separate = household.Single, household.MarriedFilingJointly, household.MarriedFilingSeparately
	type in = household.Deductions
	tests := []struct {
		source   string
		year     int
		status   household.Status
		given    in
		itemized bool
		main     string
		extra    string
		taxable  string // of 100,000 in wages
	}{
		{"IRC 63(e): equal, so not itemized", 2025, single, in{OtherItemized: usd("15750")}, false, "15750", "0", "84250"},
		{"IRC 63(e): a dollar more", 2025, single, in{OtherItemized: usd("15751")}, true, "15751", "0", "84249"},
		{"IRC 170(p): not before 2026", 2025, single, in{CharityCash: usd("900")}, false, "15750", "0", "84250"},
		{"IRC 170(p): on top of the standard deduction", 2026, single, in{CharityCash: usd("900")}, false, "16100", "900", "83000"},
		{"IRC 170(p): its cap", 2026, single, in{CharityCash: usd("1001")}, false, "16100", "1000", "82900"},
		{"IRC 170(p): its cap on a joint return", 2026, joint, in{CharityCash: usd("5000")}, false, "32200", "2000", "65800"},
		{"IRC 170(p): cash alone", 2026, single, in{CharityOther: usd("900")}, false, "16100", "0", "83900"},
		// itemized: 16,400 + 800 - 500 of floor = 16,700, less than 16,100 + 800
		{"IRC 63(b)(4): the gift counts beside the standard deduction", 2026, single, in{OtherItemized: usd("16400"), CharityCash: usd("800")}, false, "16100", "800", "83100"},
		// 16,700 + 800 - 500 = 17,000
		{"IRC 63(b)(4): not where one itemizes", 2026, single, in{OtherItemized: usd("16700"), CharityCash: usd("800")}, true, "17000", "0", "83000"},
		{"IRC 63(c)(6)(A): must itemize what little there is", 2026, separate, in{OtherItemized: usd("10"), SpouseItemizes: true}, true, "10", "0", "99990"},
	}
	for _, tt := range tests {
		t.Run(tt.source, func(t *testing.T) {
			c := throughDeductions(household.Household{Status: tt.status, Deductions: tt.given}, lawOf(t, tt.year), paid(household.OfSelf, "100000"))
			if c.Itemized != tt.itemized {
				t.Errorf("itemized: %v", c.Itemized)
			}
			want(t, "standard or itemized", c.StandardOrItemized, tt.main)
			want(t, "extra deductions", c.ExtraDeductions, tt.extra)
			want(t, "taxable income", c.TaxableIncome, tt.taxable)
		})
	}
}

// IRC 63(a): deductions do not carry taxable income below zero.
func TestTaxableIncomeNotBelowZero(t *testing.T) {
	h := household.Household{Income: household.Income{SelfEmployment: household.ByEarner{Self: usd("-9000")}}}
	c := throughDeductions(h, lawOf(t, 2026), paid(household.OfSelf, "5000"))
	want(t, "adjusted gross income", c.AdjustedGrossIncome, "-4000")
	want(t, "taxable income", c.TaxableIncome, "0")
}
