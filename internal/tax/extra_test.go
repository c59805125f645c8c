package tax

import (
	"testing"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/sample"
)

func TestScheduleOneA(t *testing.T) {
	const single, joint, separate = household.Single, household.MarriedFilingJointly, household.MarriedFilingSeparately
	no := false
	tests := []struct {
		source         string
		status         household.Status
		income         string
		tips, overtime string // of self
		spouses        string // tips
		carLoan        string
		seniors        int
		selfSSN        *bool
		want           string
		note           string
	}{
		{"Instructions for Form 1040 (2025), p. 6: tips, at most 25,000", single, "80000", "26000", "0", "0", "0", 0, nil, "25000", ""},
		{"IRC 224(b)(1): one cap on a joint return", joint, "80000", "20000", "0", "20000", "0", 0, nil, "25000", ""},
		{"IRC 224(b)(2): at the start", single, "150000", "5000", "0", "0", "0", 0, nil, "5000", ""},
		{"Schedule 1-A line 11: a part of a thousand is dropped", single, "150999", "5000", "0", "0", "0", 0, nil, "5000", ""},
		{"IRC 224(b)(2): one full thousand, 5,000 - 100", single, "151000", "5000", "0", "0", "0", 0, nil, "4900", ""},
		// 25,000 - 100 × 100, off the capped amount
		{"IRC 224(b)(2): off the capped amount", single, "250000", "40000", "0", "0", "0", 0, nil, "15000", ""},
		{"IRC 224(b)(2): joint, 300,000", joint, "310000", "5000", "0", "0", "0", 0, nil, "4000", ""},
		{"IRC 224(b)(2): not below zero", single, "300000", "5000", "0", "0", "0", 0, nil, "0", ""},
		{"IRC 224(f): separate filers", separate, "50000", "5000", "0", "0", "0", 0, nil, "0", "joint_return_required"},
		{"IRC 224(e): no number, no deduction for one's own tips", joint, "50000", "5000", "0", "700", "0", 0, &no, "700", "ssn_required"},
		{"the spouse's tips are on a joint return only", single, "50000", "5000", "0", "700", "0", 0, nil, "5000", ""},

		{"Instructions for Form 1040 (2025), p. 106: overtime, at most 12,500", single, "80000", "0", "13000", "0", "0", 0, nil, "12500", ""},
		{"Instructions for Form 1040 (2025), p. 106: 25,000 on a joint return", joint, "80000", "0", "26000", "0", "0", 0, nil, "25000", ""},
		{"Instructions for Form 1040 (2025), p. 106: income over 150,000, 12,500 - 3 × 100", single, "153999", "0", "13000", "0", "0", 0, nil, "12200", ""},
		{"Instructions for Form 1040 (2025), p. 106: income over 300,000 on a joint return", joint, "301000", "0", "13000", "0", "0", 0, nil, "12900", ""},
		{"IRC 225(e): separate filers", separate, "50000", "0", "5000", "0", "0", 0, nil, "0", "joint_return_required"},
		{"IRC 225(d): no number", single, "50000", "0", "5000", "0", "0", 0, &no, "0", "ssn_required"},

		{"Instructions for Form 1040 (2025), p. 109: car loan, at most 10,000", single, "80000", "0", "0", "0", "10001", 0, nil, "10000", ""},
		{"Instructions for Form 1040 (2025), p. 109: income over 100,000", single, "100000", "0", "0", "0", "3000", 0, nil, "3000", ""},
		{"Schedule 1-A line 28: a step begun counts", single, "100001", "0", "0", "0", "3000", 0, nil, "2800", ""},
		{"IRC 163(h)(4)(C)(ii): exactly one step", single, "101000", "0", "0", "0", "3000", 0, nil, "2800", ""},
		{"IRC 163(h)(4)(C)(ii): two steps begun", single, "101001", "0", "0", "0", "3000", 0, nil, "2600", ""},
		{"Instructions for Form 1040 (2025), p. 109: income over 200,000 on a joint return", joint, "200001", "0", "0", "0", "3000", 0, nil, "2800", ""},
		{"IRC 163(h)(4)(C): nothing above 49,000 over the start", single, "149001", "0", "0", "0", "10000", 0, nil, "0", ""},
		{"IRC 163(h)(4): separate filers may", separate, "80000", "0", "0", "0", "3000", 0, nil, "3000", ""},
		{"IRC 163(h)(4): needs no number", single, "80000", "0", "0", "0", "3000", 0, &no, "3000", ""},

		{"Instructions for Form 1040 (2025), p. 110: 6,000 each", single, "75000", "0", "0", "0", "0", 1, nil, "6000", ""},
		{"Instructions for Form 1040 (2025), p. 110: 6,000 each, both", joint, "150000", "0", "0", "0", "0", 2, nil, "12000", ""},
		{"IRC 151(d)(5)(C)(iii): 6% of the dollar above", single, "75001", "0", "0", "0", "0", 1, nil, "5999.94", ""},
		// 6,000 - 6% × 50,000 = 3,000
		{"IRC 151(d)(5)(C)(iii): single", single, "125000", "0", "0", "0", "0", 1, nil, "3000", ""},
		// 2 × (6,000 - 6% × 50,000)
		{"IRC 151(d)(5)(C)(iii): off each one's amount", joint, "200000", "0", "0", "0", "0", 2, nil, "6000", ""},
		{"IRC 151(d)(5)(C)(iii): one of two", joint, "200000", "0", "0", "0", "0", 1, nil, "3000", ""},
		{"IRC 151(d)(5)(C)(iii): gone at 175,000", single, "175000", "0", "0", "0", "0", 1, nil, "0", ""},
		{"IRC 151(d)(5)(C)(iii): gone at 250,000, for two as well", joint, "250000", "0", "0", "0", "0", 2, nil, "0", ""},
		{"IRC 151(d)(5)(C)(iv): no number", joint, "100000", "0", "0", "0", "0", 2, &no, "6000", "ssn_required"},
		{"IRC 151(d)(5)(C)(v): separate filers", separate, "50000", "0", "0", "0", "0", 1, nil, "0", "joint_return_required"},
		{"Schedule 1-A line 38: all of them", single, "80000", "100", "200", "0", "300", 1, nil, "6300", ""}, // 600 + 6,000 - 6% × 5,000
	}
	for _, year := range sample.Years() {
		if year > 2028 {
			break // IRC 151(d)(5)(C)(i), 163(h)(4)(A), 224(h), 225(g): in law through 2028, the same each year
		}
		y := lawOf(t, year)
		for _, tt := range tests {
			aged := household.On(year-65, 12, 31)
			h := household.Household{
				Status: tt.status,
				Self:   household.Person{SSNValidForWork: tt.selfSSN},
				Spouse: &household.Person{},
				Jobs: []household.Job{
					{QualifiedTips: usd(tt.tips), QualifiedOvertime: usd(tt.overtime)},
					{Earner: household.OfSpouse, QualifiedTips: usd(tt.spouses)},
				},
				Deductions: household.Deductions{CarLoanInterest: usd(tt.carLoan)},
			}
			if tt.seniors > 0 {
				h.Self.BirthDate = aged
			}
			if tt.seniors > 1 {
				h.Spouse.BirthDate = aged
			}
			c := throughDeductions(h, y, paid(household.OfSelf, tt.income))
			want(t, tt.source, c.ExtraDeductions, tt.want)
			if tt.note != "" && !hasNote(c, tt.note) {
				t.Errorf("%s: no note %q among %v", tt.source, tt.note, c.s.Notes)
			}
		}
	}
}
