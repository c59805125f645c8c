package tax

import (
	"encoding/json"
	"strings"
	"testing"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/tables"
	"example.com/plumbline/internal/words"
)

// Whole returns by hand, line by line in the order of Form 1040.
func TestCompute(t *testing.T) {
	tests := []struct {
		source   string
		year     int
		method   Method
		h        household.Household
		wages    []string // of the person, of the spouse
		agi      string
		taxable  string
		tax      string
		credits  string
		total    string
		earned   string // earned income credit
		child    string // additional child tax credit
		refunded string
	}{
		{
			// 80,000 + 30,000 + 400 of interest; less 32,200 = 78,200.
			// Row 78,200 to 78,250: 2,480 + 12% × (78,225 - 24,800) = 8,891.
			// 2 × 2,200 = 4,400.
			"a family of four", 2026, ByReturn,
			household.Household{
				Status: household.MarriedFilingJointly, Dependents: children(2),
				Income: household.Income{Interest: usd("400")},
			},
			[]string{"80000", "30000"},
			"110400", "78200", "8891", "4400", "4491", "0", "0", "0",
		},
		{
			// 28,000 less 23,625 = 4,375. Row 4,350 to 4,400: 437.50, 438.
			// Of 2,200, 438 meet the tax; of 1,762 left, 1,700 are refundable,
			// 15% × (28,000 - 2,500) being more.
			// EIC Table, row 28,000 to 28,050: 4,328 - 15.98% × (28,025 - 23,350) = 3,580.94.
			"a parent alone with one child", 2025, ByReturn,
			household.Household{Status: household.HeadOfHousehold, Dependents: children(1)},
			[]string{"28000"},
			"28000", "4375", "438", "438", "0", "3581", "1700", "5281",
		},
		{
			// 60,000 × 0.9235 × 15.3% = 8,477.73; half 4,238.865.
			// 60,000 - 4,238.865 = 55,761.135; less 15,750 = 40,011.135;
			// less 20% of the smaller, 8,002.227 = 32,008.908.
			// 1,192.50 + 12% × (32,008.908 - 11,925) = 3,602.57.
			"self-employed", 2025, BySchedule,
			household.Household{Income: household.Income{SelfEmployment: household.ByEarner{Self: usd("60000")}}},
			nil, "55761.14", "32008.91", "3602.57", "0", "12080.30", "0", "0", "0",
		},
	}
	for _, tt := range tests {
		t.Run(tt.source, func(t *testing.T) {
			y := lawOf(t, tt.year)
			var pay []household.YearPay
			for i, wages := range tt.wages {
				pay = append(pay, jobPay(y, i, household.Earner(i), usd(wages)))
			}
			r := Compute(tt.h, pay, y, tt.method, nil)
			want(t, "adjusted gross income", r.AdjustedGrossIncome, tt.agi)
			want(t, "taxable income", r.TaxableIncome, tt.taxable)
			want(t, "income tax", r.IncomeTax, tt.tax)
			want(t, "nonrefundable credits", r.NonrefundableCredits, tt.credits)
			want(t, "total tax", r.TotalTax, tt.total)
			want(t, "earned income credit", r.EarnedIncomeCredit, tt.earned)
			want(t, "additional child tax credit", r.AdditionalChildTaxCredit, tt.child)
			want(t, "refundable credits", r.RefundableCredits, tt.refunded)
		})
	}
}

// Every line that other programs read has a name of its own, none that of a Go
// field.
func TestLinesAreNamed(t *testing.T) {
	text, err := json.Marshal(View(words.English(), Return{Itemized: true}, new(tables.Year), nil).Lines)
	if err != nil {
		t.Fatal(err)
	}
	var lines map[string]any
	if err := json.Unmarshal(text, &lines); err != nil {
		t.Fatal(err)
	}
	for name := range lines {
		if name != strings.ToLower(name) {
			t.Errorf("%s has no name for other programs; give it a tag", name)
		}
	}
	if lines["deduction_kind"] != "itemized" {
		t.Errorf("the kind of deduction is %v", lines["deduction_kind"])
	}
}
