package tax

import (
	"fmt"
	"strconv"
	"testing"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/published"
	"example.com/plumbline/internal/sample"
)

// Instructions for Form 1040 (2025), EIC Table, pp. 50-56: a sample of 512
// cells, each at the first and the last cent of its row.
func TestEarnedIncomeTable2025(t *testing.T) {
	y := lawOf(t, 2025)
	cells := 0
	for _, row := range published.Rows(t, "published/eic_table_2025_sample.csv") {
		for i := range 8 {
			status, children, column := household.Single, i%4, "single_hoh_qss"
			if i >= 4 {
				status, column = household.MarriedFilingJointly, "mfj"
			}
			cell := row[fmt.Sprintf("%s_%d_children", column, children)]
			for _, earned := range []money.Amount{usd(row["at_least"]), usd(row["less_than"]).Sub(money.Cents(1))} {
				c := onReturn(household.Household{Status: status}, y, earned.Text(), "0")
				got := c.earnedIncomeFromTable(y.EarnedIncome.ByChildren[children], earned)
				if !got.Equal(usd(cell)) {
					t.Errorf("%v, %d children, %v: credit %v, want %s", status, children, earned, got, cell)
				}
			}
			cells++
		}
	}
	if cells != 512 {
		t.Errorf("checked %d cells of 512", cells)
	}
}

// children are so many young children at home.
func children(n int) []household.Dependent {
	all := make([]household.Dependent, n)
	for i := range all {
		all[i] = household.Dependent{Name: "child " + strconv.Itoa(i+1), BirthDate: household.On(2018, 4, 5)}
	}
	return all
}

func TestEarnedIncomeCredit(t *testing.T) {
	tests := []struct {
		source       string
		year         int
		method       Method
		status       household.Status
		children     int
		earned, agi  string
		wantedCredit string
	}{
		// 34% × 10,000
		{"IRC 32(a)(1): growing", 2026, BySchedule, household.HeadOfHousehold, 1, "10000", "10000", "3400"},
		// 34% × 13,020 = 4,426.80
		{"IRC 32(a)(1): the earned income amount", 2026, BySchedule, household.HeadOfHousehold, 1, "20000", "20000", "4426.80"},
		// 4,426.80 - 15.98% × (30,000 - 23,890) = 4,426.80 - 976.378
		{"IRC 32(a)(2): falling with earned income", 2026, BySchedule, household.HeadOfHousehold, 1, "30000", "28000", "3450.42"},
		{"IRC 32(a)(2): falling with adjusted gross income when that is more", 2026, BySchedule, household.HeadOfHousehold, 1, "20000", "30000", "3450.42"},
		{"IRC 32(b)(2)(B): a joint return's start is higher", 2026, BySchedule, household.MarriedFilingJointly, 1, "30000", "30000", "4426.80"},
		// 40% × 18,290 - 21.06% × (40,000 - 31,160) = 7,316 - 1,861.704
		{"IRC 32(b)(1): two children, joint", 2026, BySchedule, household.MarriedFilingJointly, 2, "40000", "40000", "5454.30"},
		// 45% × 18,290 - 21.06% × (40,000 - 31,160) = 8,230.50 - 1,861.704
		{"IRC 32(b)(1): four children count as three", 2026, BySchedule, household.MarriedFilingJointly, 4, "40000", "40000", "6368.80"},
		// 7.65% × 8,000
		{"IRC 32(b)(1): none", 2026, BySchedule, household.Single, 0, "8000", "8000", "612"},
		// row 30,000 to 30,050: 4,427 - 15.98% × (30,025 - 23,890) = 4,427 - 980.373 = 3,446.63
		{"IRC 32(f): the table on adjusted gross income", 2026, ByReturn, household.HeadOfHousehold, 1, "20000", "30010", "3447"},
		// below the start of the phase-out adjusted gross income is not looked up:
		// row 10,000 to 10,050, 34% × 10,025 = 3,408.50
		{"EIC Worksheet A, line 5", 2026, ByReturn, household.HeadOfHousehold, 1, "10000", "5000", "3409"},
		{"nothing earned", 2026, ByReturn, household.HeadOfHousehold, 1, "0", "9000", "0"},
	}
	for _, tt := range tests {
		t.Run(tt.source, func(t *testing.T) {
			c := onReturn(household.Household{Status: tt.status, Dependents: children(tt.children)}, lawOf(t, tt.year), tt.agi, "0")
			c.m = tt.method
			c.work[household.OfSelf].EarnedIncome = usd(tt.earned)
			want(t, "credit", c.earnedIncomeCredit(), tt.wantedCredit)
		})
	}
}

// Who may have the credit: one fact changed from a case that gives it.
func TestWhoHasEarnedIncomeCredit(t *testing.T) {
	no := false
	y := lawOf(t, 2025)
	limit := y.EarnedIncome.InvestmentLimit
	tests := []struct {
		source   string
		status   household.Status
		children int
		change   func(h *household.Household, c *computation)
		has      bool
	}{
		{"with a child", household.Single, 1, func(*household.Household, *computation) {}, true},
		{"IRC 32(m): no number", household.Single, 1, func(h *household.Household, _ *computation) { h.Self.SSNValidForWork = &no }, false},
		{"IRC 32(m): the spouse has no number", household.MarriedFilingJointly, 1, func(h *household.Household, _ *computation) {
			h.Spouse = &household.Person{SSNValidForWork: &no}
		}, false},
		{"IRC 32(c)(1)(B): can be claimed", household.Single, 1, func(h *household.Household, _ *computation) { h.Self.CanBeClaimed = true }, false},
		{"IRC 32(d)(1): a separate return", household.MarriedFilingSeparately, 1, func(*household.Household, *computation) {}, false},
		{"IRC 32(d)(2): lived apart with a child", household.MarriedFilingSeparately, 1, func(h *household.Household, _ *computation) { h.LivedApart = true }, true},
		{"IRC 32(d)(2): lived apart without a child", household.MarriedFilingSeparately, 0, func(h *household.Household, _ *computation) { h.LivedApart = true }, false},
		{"IRC 32(i): investment income at the limit", household.Single, 1, func(_ *household.Household, c *computation) { c.income.Interest = limit }, true},
		{"IRC 32(i): a dollar above", household.Single, 1, func(_ *household.Household, c *computation) { c.income.Interest = limit.Add(money.Dollars(1)) }, false},
		{"IRC 32(i)(2)(D): a capital loss does not lower it", household.Single, 1, func(_ *household.Household, c *computation) {
			c.income.OrdinaryDividends, c.income.CapitalGain = limit.Add(money.Dollars(1)), money.Dollars(-500)
		}, false},
		{"IRC 32(c)(3)(D): the child has no number, so the age counts", household.Single, 1, func(h *household.Household, _ *computation) {
			h.Dependents[0].SSNValidForWork, h.Self.BirthDate = &no, household.On(2005, 1, 1)
		}, false},
		// Instructions for Form 1040 (2025), line 27: born after December 31, 1960, and before January 2, 2001.
		{"25 on the day before the birthday", household.Single, 0, func(h *household.Household, _ *computation) { h.Self.BirthDate = household.On(2001, 1, 1) }, true},
		{"not yet 25", household.Single, 0, func(h *household.Household, _ *computation) { h.Self.BirthDate = household.On(2001, 1, 2) }, false},
		{"still under 65", household.Single, 0, func(h *household.Household, _ *computation) { h.Self.BirthDate = household.On(1961, 1, 1) }, true},
		{"65", household.Single, 0, func(h *household.Household, _ *computation) { h.Self.BirthDate = household.On(1960, 12, 31) }, false},
		{"one spouse of age is enough", household.MarriedFilingJointly, 0, func(h *household.Household, _ *computation) {
			h.Self.BirthDate, h.Spouse = household.On(1950, 5, 5), &household.Person{BirthDate: household.On(1970, 5, 5)}
		}, true},
		{"neither spouse of age", household.MarriedFilingJointly, 0, func(h *household.Household, _ *computation) {
			h.Self.BirthDate, h.Spouse = household.On(1950, 5, 5), &household.Person{BirthDate: household.On(1951, 5, 5)}
		}, false},
	}
	for _, tt := range tests {
		t.Run(tt.source, func(t *testing.T) {
			h := household.Household{Status: tt.status, Dependents: children(tt.children)}
			var scratch computation
			tt.change(&h, &scratch)
			c := onReturn(h, y, "9000", "0")
			c.income = scratch.income
			c.work[household.OfSelf].EarnedIncome = usd("9000")
			if got := c.earnedIncomeCredit(); got.IsPositive() != tt.has {
				t.Errorf("credit %v, want one: %v", got, tt.has)
			}
		})
	}
}

// Rev. Proc. 2024-40 and 2025-32 print where the phase-out is complete, worked
// from a maximum rounded to the dollar: there the formula leaves at most half a
// dollar, ten dollars below it leaves something, and the table has none.
func TestEarnedIncomeCreditEnds(t *testing.T) {
	for _, year := range sample.Years() {
		y := lawOf(t, year)
		for n, column := range y.EarnedIncome.ByChildren {
			for _, status := range []household.Status{household.Single, household.MarriedFilingJointly} {
				c := onReturn(household.Household{Status: status}, y, "0", "0")
				_, end := c.phaseOutOf(column)
				before, at := c.earnedIncomeFormula(column, end.Sub(money.Dollars(10))), c.earnedIncomeFormula(column, end)
				if !before.IsPositive() || at.More(usd("0.50")) {
					t.Errorf("%d, %v, %d children: by formula %v ten dollars below %v, and %v there", year, status, n, before, end, at)
				}
				if at := c.earnedIncomeFromTable(column, end); !at.IsZero() {
					t.Errorf("%d, %v, %d children: the table gives %v at %v", year, status, n, at, end)
				}
			}
		}
	}
}
