package tax

import (
	"strings"
	"testing"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/sample"
	"example.com/plumbline/internal/tables"
	"example.com/plumbline/internal/words"
	"example.com/plumbline/internal/worksheet"
)

// lawOf is the figures of a year, which all tests share.
func lawOf(t testing.TB, year int) *tables.Year {
	t.Helper()
	return sample.Year(t, year)
}

// usd reads an amount.
func usd(text string) money.Amount { return money.MustParse(text) }

// paid is the year's wages of one job of an earner.
func paid(e household.Earner, wages string) household.YearPay {
	w := usd(wages)
	return household.YearPay{Earner: e, TaxableWages: w, SocialSecurityWages: w, MedicareWages: w}
}

// throughDeductions carries a return to its taxable income.
func throughDeductions(h household.Household, y *tables.Year, pay ...household.YearPay) *computation {
	c := &computation{h: h, pay: pay, y: y, s: new(worksheet.Sheet)}
	c.Year, c.Status = y.Year, h.Status
	c.totalIncome()
	c.adjustedGrossIncome()
	c.takeDeductions()
	return c
}

// want compares an amount with what it should be, to the cent.
func want(t *testing.T, what string, got money.Amount, text string) {
	t.Helper()
	if !got.ToCent().Equal(usd(text)) {
		t.Errorf("%s = %v, want %s", what, got.Text(), text)
	}
}

// hasNote reports whether the computation noted something.
func hasNote(c *computation, code string) bool {
	for _, n := range c.s.Notes {
		if n.Code == code {
			return true
		}
	}
	return false
}

func TestTotalIncome(t *testing.T) {
	pension := household.YearPay{Job: 1, Kind: household.Pension, TaxableWages: usd("12000")}
	spouses := paid(household.OfSpouse, "30000")
	spouses.Job = 2
	in := household.Income{
		Interest: usd("300"), OrdinaryDividends: usd("900"), QualifiedDividends: usd("700"),
		Unemployment: usd("2500"), Retirement: usd("4000"), Other: usd("-150"),
		SelfEmployment: household.ByEarner{Self: usd("-1000"), Spouse: usd("5000")},
	}
	tests := []struct {
		source          string
		status          household.Status
		wages, pensions string
		total           string
	}{
		// 50,000 + 300 + 900 + (12,000 + 4,000) - 1,000 + 2,500 - 150
		{"Form 1040 lines 1z to 9: the spouse's pay is on a joint return only", household.MarriedFilingSeparately, "50000", "16000", "68550"},
		// the same + 30,000 + 5,000
		{"Form 1040 lines 1z to 9: a joint return has both", household.MarriedFilingJointly, "80000", "16000", "103550"},
	}
	for _, tt := range tests {
		t.Run(tt.source, func(t *testing.T) {
			h := household.Household{Status: tt.status, Income: in}
			c := throughDeductions(h, lawOf(t, 2026), paid(household.OfSelf, "50000"), pension, spouses)
			want(t, "wages", c.Wages, tt.wages)
			want(t, "pensions", c.income.Pensions, tt.pensions)
			want(t, "total income", c.TotalIncome, tt.total)
			want(t, "preferred income", c.income.Preferred(), "700")
		})
	}
}

// Every line names its section, and came from answers and from lines that
// were recorded before it was needed.
func TestLinesAreTraced(t *testing.T) {
	for _, year := range sample.Years() {
		c := throughDeductions(busyHousehold(), lawOf(t, year), busyPay()...)
		recorded := map[string]bool{}
		for _, l := range c.s.Lines {
			if recorded[l.ID] {
				t.Errorf("%d: %s is recorded twice", year, l.ID)
			}
			recorded[l.ID] = true
		}
		for _, l := range c.s.Lines {
			if l.Source == "" || strings.HasPrefix(l.Said(words.English()), "[") || l.How.String() == "" || len(l.From) == 0 {
				t.Errorf("%d: %s lacks its source, label, arithmetic or inputs: %+v", year, l.ID, l)
			}
			if strings.Contains(l.How.String(), "%!") {
				t.Errorf("%d: %s: arithmetic %q", year, l.ID, l.How)
			}
			for _, id := range l.From {
				if strings.HasPrefix(id, "tax.") && !recorded[id] {
					t.Errorf("%d: %s came from %s, which is not recorded", year, l.ID, id)
				}
			}
		}
	}
}

// The trace changes no result.
func TestNoSheetSameResult(t *testing.T) {
	y := lawOf(t, 2026)
	traced := throughDeductions(busyHousehold(), y, busyPay()...)
	c := &computation{h: busyHousehold(), pay: busyPay(), y: y}
	c.Year, c.Status = y.Year, c.h.Status
	c.totalIncome()
	c.adjustedGrossIncome()
	c.takeDeductions()
	want(t, "adjusted gross income", c.AdjustedGrossIncome, traced.AdjustedGrossIncome.ToCent().Text())
	want(t, "taxable income", c.TaxableIncome, traced.TaxableIncome.ToCent().Text())
}

// busyHousehold has something on every line.
func busyHousehold() household.Household {
	born := household.On(1958, 3, 9)
	return household.Household{
		Status: household.MarriedFilingJointly,
		Self:   household.Person{BirthDate: born, Blind: true, CanBeClaimed: true},
		Spouse: &household.Person{BirthDate: born},
		Jobs: []household.Job{
			{QualifiedTips: usd("3000"), QualifiedOvertime: usd("900")},
			{Kind: household.Pension},
			{Earner: household.OfSpouse, QualifiedTips: usd("100")},
		},
		Income: household.Income{
			Interest: usd("300"), OrdinaryDividends: usd("900"), QualifiedDividends: usd("700"),
			ShortTermGain: usd("-400"), LongTermGain: usd("2400"),
			SelfEmployment: household.ByEarner{Self: usd("9000"), Spouse: usd("5000")},
			Unemployment:   usd("1500"), Retirement: usd("4000"), SocialSecurity: usd("22000"), Other: usd("650"),
		},
		Adjustments: household.Adjustments{
			StudentLoanInterest: usd("800"), EducatorExpenses: household.ByEarner{Self: usd("500"), Spouse: usd("90")},
			HSAContribution: usd("5000"), IRADeduction: usd("2000"), Other: usd("120"),
		},
		Deductions: household.Deductions{
			Medical: usd("31000"), StateLocalTaxes: usd("9000"), MortgageInterest: usd("8000"), MortgageInsurance: usd("600"),
			CharityCash: usd("2500"), CharityOther: usd("700"), CarLoanInterest: usd("1200"), OtherItemized: usd("300"),
		},
	}
}

func busyPay() []household.YearPay {
	pension := household.YearPay{Job: 1, Kind: household.Pension, TaxableWages: usd("8000")}
	second := paid(household.OfSpouse, "30000")
	second.Job = 2
	return []household.YearPay{paid(household.OfSelf, "41000"), pension, second}
}
