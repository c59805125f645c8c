package tax

import (
	"testing"

	"example.com/plumbline/internal/household"
)

func TestAdjustments(t *testing.T) {
	old, young := household.On(1970, 6, 1), household.On(1990, 6, 1)
	type ad = household.Adjustments
	each := func(self, spouse string) household.ByEarner {
		return household.ByEarner{Self: usd(self), Spouse: usd(spouse)}
	}
	const single, joint, separate = household.Single, household.MarriedFilingJointly, household.MarriedFilingSeparately
	tests := []struct {
		source string
		year   int
		status household.Status
		born   household.Date // of both
		wages  string
		given  ad
		want   string // all adjustments
		note   string
	}{
		{"IRC 62(a)(2)(D): as paid", 2025, single, young, "50000", ad{EducatorExpenses: each("250", "0")}, "250", ""},
		{"IRC 62(a)(2)(D): the cap of 2025", 2025, single, young, "50000", ad{EducatorExpenses: each("400", "0")}, "300", "educator_above_cap"},
		{"IRC 62(a)(2)(D): the cap of 2026", 2026, single, young, "50000", ad{EducatorExpenses: each("400", "0")}, "350", "educator_above_cap"},
		{"IRC 62(a)(2)(D): a cap for each", 2026, joint, young, "50000", ad{EducatorExpenses: each("400", "200")}, "550", ""},
		{"IRC 62(a)(2)(D): not the spouse's on a separate return", 2026, separate, young, "50000", ad{EducatorExpenses: each("100", "200")}, "100", ""},

		{"IRC 223(b)(2)(A): self-only", 2026, single, young, "50000", ad{HSAContribution: usd("4400")}, "4400", ""},
		{"IRC 223(b)(2)(B): family", 2026, single, young, "50000", ad{HSAContribution: usd("4401")}, "4401", "hsa_family_assumed"},
		{"IRC 223(b)(2)(B): above family", 2026, single, young, "50000", ad{HSAContribution: usd("9000")}, "8750", "hsa_above_limit"},
		{"IRC 223(b)(3): the addition at 55", 2026, single, old, "50000", ad{HSAContribution: usd("9900")}, "9750", "hsa_above_limit"},
		{"IRC 223(b)(3): one for each spouse", 2026, joint, old, "50000", ad{HSAContribution: usd("12000")}, "10750", "hsa_above_limit"},
		{"IRC 223(b)(2)(B): the year before", 2025, single, young, "50000", ad{HSAContribution: usd("9000")}, "8550", "hsa_above_limit"},

		{"Publication 17 (2024), ch. 9: 34 years old, earned 24,000; the limit of 2025 is the same", 2025, single, young, "24000", ad{IRADeduction: usd("7001")}, "7000", "ira_above_limit"},
		{"Publication 17 (2024), ch. 9: earned 3,500, so no more than that", 2025, single, young, "3500", ad{IRADeduction: usd("3500.01")}, "3500.01", "ira_above_pay"},
		{"IRC 219(b)(5)(A): the limit of 2025", 2025, single, young, "50000", ad{IRADeduction: usd("7500")}, "7000", "ira_above_limit"},
		{"IRC 219(b)(5)(A): the limit of 2026", 2026, single, young, "50000", ad{IRADeduction: usd("7500")}, "7500", "ira_as_given"},
		{"IRC 219(b)(5)(B): the addition at 50", 2026, single, old, "50000", ad{IRADeduction: usd("9000")}, "8600", "ira_above_limit"},
		{"IRC 219(b), (c): a limit for each spouse", 2026, joint, old, "50000", ad{IRADeduction: usd("20000")}, "17200", "ira_above_limit"},

		{"IRC 221(b)(1): the cap", 2026, single, young, "85000", ad{StudentLoanInterest: usd("3000")}, "2500", ""},
		// 2,500 × 3,750 / 15,000 = 625 is lost
		{"IRC 221(b)(2): a quarter of the way", 2026, single, young, "88750", ad{StudentLoanInterest: usd("3000")}, "1875", ""},
		// 1,200 × (90,000 - 85,000) / 15,000 = 400 is lost: the share is taken of what the cap leaves
		{"IRC 221(b)(2): of less than the cap", 2026, single, young, "90000", ad{StudentLoanInterest: usd("1200")}, "800", ""},
		{"IRC 221(b)(2): at the end", 2026, single, young, "100000", ad{StudentLoanInterest: usd("1200")}, "0", ""},
		// 2,500 × (185,000 - 170,000) / 30,000 = 1,250
		{"IRC 221(b)(2), Rev. Proc. 2024-40: joint in 2025", 2025, joint, young, "185000", ad{StudentLoanInterest: usd("2500")}, "1250", ""},
		// 2,500 × (185,000 - 175,000) / 30,000 = 833.33
		{"IRC 221(b)(2), Rev. Proc. 2025-32: joint in 2026", 2026, joint, young, "185000", ad{StudentLoanInterest: usd("2500")}, "1666.67", ""},
		// 90,000 - 5,000 of other adjustments is 85,000, the start: nothing is lost
		{"IRC 221(b)(2)(C): income after the other adjustments", 2026, single, young, "90000", ad{StudentLoanInterest: usd("1200"), Other: usd("5000")}, "6200", ""},
		{"IRC 221(e)(2): separate filers", 2026, separate, young, "30000", ad{StudentLoanInterest: usd("1200")}, "0", "student_loan_separate"},
	}
	for _, tt := range tests {
		t.Run(tt.source, func(t *testing.T) {
			h := household.Household{
				Status: tt.status, Adjustments: tt.given,
				Self: household.Person{BirthDate: tt.born}, Spouse: &household.Person{BirthDate: tt.born},
			}
			c := throughDeductions(h, lawOf(t, tt.year), paid(household.OfSelf, tt.wages))
			want(t, "adjustments", c.Adjustments, tt.want)
			want(t, "adjusted gross income", c.AdjustedGrossIncome, usd(tt.wages).Sub(usd(tt.want)).Text())
			if tt.note != "" && !hasNote(c, tt.note) {
				t.Errorf("no note %q among %v", tt.note, c.s.Notes)
			}
		})
	}
}

// IRC 223(b)(6): no deduction for someone who can be claimed.
func TestHSAOfDependent(t *testing.T) {
	h := household.Household{Self: household.Person{CanBeClaimed: true}, Adjustments: household.Adjustments{HSAContribution: usd("1000")}}
	c := throughDeductions(h, lawOf(t, 2026), paid(household.OfSelf, "20000"))
	want(t, "adjustments", c.Adjustments, "0")
	if !hasNote(c, "hsa_dependent") {
		t.Error("not noted")
	}
}
