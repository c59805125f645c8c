package tax

import (
	"testing"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/sample"
	"example.com/plumbline/internal/worksheet"
)

// Money taken out of a retirement plan early: IRC 72(t)(1), 10%.
func TestEarlyWithdrawal(t *testing.T) {
	tests := []struct {
		source  string
		born    household.Date
		early   string
		tax     string
		caution bool
	}{
		{"Form 5329 line 4: 10% of 5,000", household.On(1990, 5, 5), "5000", "500", false},
		{"to the cent", household.On(1990, 5, 5), "1234.56", "123.46", false},
		{"nothing said to be early", household.On(1990, 5, 5), "0", "0", true},
		{"IRC 72(t)(2)(A)(i): 59 and a half on January 1", household.On(1966, 7, 1), "0", "0", false},
		{"IRC 72(t)(2)(A)(i): on January 2", household.On(1966, 7, 2), "0", "0", true},
		{"no birth date", household.Date{}, "0", "0", true},
	}
	for _, tt := range tests {
		h := household.Household{
			Self:   household.Person{BirthDate: tt.born},
			Income: household.Income{Retirement: usd("40000"), EarlyWithdrawal: usd(tt.early)},
		}
		s := new(worksheet.Sheet)
		r := Compute(h, nil, lawOf(t, 2026), ByReturn, s)
		want(t, tt.source, r.EarlyWithdrawalTax, tt.tax)
		want(t, tt.source+": total tax", r.TotalTax, r.IncomeTax.Add(usd(tt.tax)).Text())
		if noted(s, "early_distribution") != tt.caution {
			t.Errorf("%s: cautioned: %v", tt.source, !tt.caution)
		}
	}
}

// Household employment taxes are added as they are given.
func TestHouseholdWorkers(t *testing.T) {
	h := household.Household{OtherTaxes: household.OtherTaxes{HouseholdWorkers: usd("1836")}}
	want(t, "Schedule 2 line 9", Compute(h, nil, lawOf(t, 2026), ByReturn, nil).TotalTax, "1836")
}

// Interest of large home loans: IRC 163(h)(3)(B)(ii), (F).
func TestMortgageDebt(t *testing.T) {
	const joint, separate = household.MarriedFilingJointly, household.MarriedFilingSeparately
	tests := []struct {
		source  string
		status  household.Status
		balance string
		before  bool
		want    string
	}{
		{"no balance given", joint, "0", false, "60000"},
		{"Publication 936, Table 1: at the limit", joint, "750000", false, "60000"},
		{"Table 1 line 14: 750,000 ÷ 750,100", joint, "750100", false, "59992.00"},
		{"Table 1 line 14: 750,000 ÷ 1,000,000", joint, "1000000", false, "45000"},
		{"IRC 163(h)(3)(F)(iii): an older loan at its limit", joint, "1000000", true, "60000"},
		{"IRC 163(h)(3)(F)(iii): 1,000,000 ÷ 1,200,000", joint, "1200000", true, "50000"},
		{"half for separate filers: 375,000 ÷ 500,000", separate, "500000", false, "45000"},
		{"half for separate filers: an older loan", separate, "500000", true, "60000"},
	}
	for _, year := range sample.Years() {
		for _, tt := range tests {
			h := household.Household{Status: tt.status, Income: household.Income{Unemployment: usd("200000")}, Deductions: household.Deductions{
				MortgageInterest: usd("60000"), MortgageBalance: usd(tt.balance), MortgageBefore: tt.before,
			}}
			c := throughDeductions(h, lawOf(t, year))
			want(t, tt.source, c.StandardOrItemized, tt.want)
			if hasNote(c, "mortgage_debt_limit") != (tt.balance == "0") {
				t.Errorf("%s: noted: %v", tt.source, tt.balance != "0")
			}
		}
	}
}

// Gambling losses: IRC 165(d), within the winnings, 90% of them from 2026.
func TestGamblingLosses(t *testing.T) {
	tests := []struct {
		source    string
		year      int
		won, lost string
		want      string
	}{
		{"IRC 165(d), 2025: within the winnings", 2025, "30000", "29999", "29999"},
		{"IRC 165(d), 2025: the winnings", 2025, "30000", "30001", "30000"},
		{"IRC 165(d)(1)(A), 2026: 90% of 30,000", 2026, "30000", "30000", "27000"},
		{"IRC 165(d)(1)(A), 2026: 90% of 33,333.30", 2026, "30000", "33333.30", "29999.97"},
		{"IRC 165(d)(1)(B), 2026: the winnings", 2026, "30000", "34000", "30000"},
		{"no winnings", 2026, "0", "5000", "0"},
	}
	for _, tt := range tests {
		h := household.Household{
			Income: household.Income{Unemployment: usd("90000"), GamblingWinnings: usd(tt.won)}, Deductions: household.Deductions{GamblingLosses: usd(tt.lost)},
		}
		c := throughDeductions(h, lawOf(t, tt.year))
		want(t, tt.source, c.deductions.Itemized, tt.want)
		want(t, tt.source+": total income", c.TotalIncome, usd("90000").Add(usd(tt.won)).Text())
	}
}

// Credits against an income tax of 5,800 (a single person of 66,100 in 2026:
// 1,240 + 12% × 38,000), or 2025's of 50,000 without rows.
func TestForeignTax(t *testing.T) {
	tests := []struct {
		source string
		status household.Status
		income string
		paid   string
		want   string
		above  bool
	}{
		{"IRC 904(j)(2)(B): the limit", household.Single, "66100", "300", "300", false},
		{"IRC 904(j)(2)(B): above it", household.Single, "66100", "300.01", "300", true},
		{"IRC 904(j)(2)(B): twice on a joint return", household.MarriedFilingJointly, "80000", "600", "600", false},
		{"IRC 904(j)(2)(B): above that", household.MarriedFilingJointly, "80000", "601", "600", true},
		{"no more than the tax: 10% of 1,000", household.Single, "17100", "250", "100", false},
	}
	for _, tt := range tests {
		h := household.Household{Status: tt.status, Income: household.Income{Unemployment: usd(tt.income)}, Credits: household.Credits{ForeignTax: usd(tt.paid)}}
		s := new(worksheet.Sheet)
		r := Compute(h, nil, lawOf(t, 2026), BySchedule, s)
		want(t, tt.source, r.NonrefundableCredits, tt.want)
		want(t, tt.source+": total tax", r.TotalTax, r.IncomeTax.Sub(usd(tt.want)).ToCent().Text())
		if noted(s, "foreign_tax_above_limit") != tt.above {
			t.Errorf("%s: noted: %v", tt.source, !tt.above)
		}
	}
}

// The foreign tax credit meets the regular tax, not the minimum tax.
//
// IRC 55(c)(1), 904(j); Form 6251 lines 8 to 11.
func TestForeignTaxAndMinimumTax(t *testing.T) {
	h := household.Household{Income: household.Income{LongTermGain: usd("2400000")}}
	y := lawOf(t, 2026)
	before := Compute(h, nil, y, BySchedule, nil)
	if !before.AlternativeMinimumTax.IsPositive() {
		t.Fatal("no minimum tax to test by")
	}
	h.Credits.ForeignTax = usd("250")
	after := Compute(h, nil, y, BySchedule, nil)
	want(t, "minimum tax", after.AlternativeMinimumTax, before.AlternativeMinimumTax.Text())
	want(t, "total tax", before.TotalTax.Sub(after.TotalTax), "250")
}

func TestAdoption(t *testing.T) {
	one := func(expenses string) []household.Adoption { return []household.Adoption{{Expenses: usd(expenses)}} }
	tests := []struct {
		source     string
		year       int
		income     string
		children   []household.Adoption
		refundable string
		rest       string // before the tax left
	}{
		{"IRC 23(a)(4): small expenses are all refundable", 2025, "200000", one("4000"), "4000", "0"},
		{"IRC 23(a)(4): up to 5,000", 2025, "200000", one("5001"), "5000", "1"},
		{"IRC 23(b)(1), 2025: the cap", 2025, "200000", one("17280"), "5000", "12280"},
		{"IRC 23(b)(1), 2025: above the cap", 2025, "200000", one("17281"), "5000", "12280"},
		{"IRC 23(b)(1), 2026: 17,670, of which 5,120", 2026, "200000", one("20000"), "5120", "12550"},
		{"IRC 23(a)(3): special needs", 2025, "200000", []household.Adoption{{SpecialNeeds: true}}, "5000", "12280"},
		{"two children", 2025, "200000", append(one("6000"), household.Adoption{Expenses: usd("3000")}), "8000", "1000"},
		{"IRC 23(b)(2)(A), 2025: where the phase-out begins", 2025, "259190", one("17280"), "5000", "12280"},
		{"IRC 23(b)(2)(A), 2025: a dollar, 17,280 ÷ 40,000 lost", 2025, "259191", one("17280"), "5000", "12279.57"},
		{"IRC 23(b)(2)(A), 2025: half of the range", 2025, "279190", one("17280"), "5000", "3640"},
		{"IRC 23(b)(2)(A), 2025: a dollar before its end", 2025, "299189", one("17280"), "0.43", "0"},
		{"IRC 23(b)(2)(A), 2025: the end", 2025, "299190", one("17280"), "0", "0"},
		{"IRC 23(b)(2)(A), 2026: half of the range", 2026, "285080", one("17670"), "5120", "3715"},
	}
	for _, tt := range tests {
		h := household.Household{Income: household.Income{Unemployment: usd(tt.income)}, Credits: household.Credits{Adoption: tt.children}}
		r := Compute(h, nil, lawOf(t, tt.year), BySchedule, nil)
		want(t, tt.source+": refundable", r.RefundableCredits, tt.refundable)
		want(t, tt.source+": nonrefundable", r.NonrefundableCredits, tt.rest)
	}
	// 20,000 single, 2025: 10% of 4,250 is 425 of tax for 12,280.
	h := household.Household{Income: household.Income{Unemployment: usd("20000")}, Credits: household.Credits{Adoption: one("17280")}}
	s := new(worksheet.Sheet)
	r := Compute(h, nil, lawOf(t, 2025), BySchedule, s)
	want(t, "within the tax", r.NonrefundableCredits, "425")
	if !noted(s, "adoption_carryover") {
		t.Error("no carryover noted")
	}
	h.Status = household.MarriedFilingSeparately
	want(t, "IRC 23(f)(1): separate", Compute(h, nil, lawOf(t, 2025), BySchedule, nil).RefundableCredits, "0")
	h.LivedApart = true
	want(t, "IRC 23(f)(1): lived apart", Compute(h, nil, lawOf(t, 2025), BySchedule, nil).RefundableCredits, "5000")
}

// The child tax credit comes before the adoption credit and clean energy, and
// after the credit for home improvements: Schedule 8812, Credit Limit Worksheets
// A and B.
func TestAdoptionAndEnergyComeLast(t *testing.T) {
	h := household.Household{
		Status: household.HeadOfHousehold, Dependents: children(1), Income: household.Income{Unemployment: usd("53625")},
		Credits: household.Credits{Energy: household.EnergyOf[money.Amount]{Improvements: usd("4000"), Clean: usd("10000")}, Adoption: []household.Adoption{{Expenses: usd("6000")}}},
	}
	// 2025: 53,625 - 23,625 = 30,000: 1,700 + 12% × 13,000 = 3,260. 1,200 of
	// improvements; 2,060 of the child's 2,200; nothing left for the rest.
	s := new(worksheet.Sheet)
	r := Compute(h, nil, lawOf(t, 2025), BySchedule, s)
	want(t, "child tax credit", r.ChildTaxCredit, "2060")
	want(t, "nonrefundable", r.NonrefundableCredits, "3260")
	want(t, "refundable", r.RefundableCredits, "5000")
	for _, code := range []string{"adoption_carryover", "clean_energy_carryover", "energy_item_limits"} {
		if !noted(s, code) {
			t.Errorf("no note %s", code)
		}
	}
}

// Home energy: IRC 25C and 25D, through 2025.
func TestEnergy(t *testing.T) {
	tests := []struct {
		source                     string
		year                       int
		clean, improvements, pumps string
		want                       string
		ended                      bool
	}{
		{"IRC 25D(a): 30%", 2025, "10000", "0", "0", "3000", false},
		{"IRC 25C(b)(1): to the cap", 2025, "0", "4000", "0", "1200", false},
		{"IRC 25C(b)(1): above it", 2025, "0", "4001", "0", "1200", false},
		{"IRC 25C(b)(5): heat pumps", 2025, "0", "0", "6666", "1999.80", false},
		{"IRC 25C(b)(5): their cap", 2025, "0", "0", "6667", "2000", false},
		{"both", 2025, "0", "5000", "9000", "3200", false},
		{"P.L. 119-21 sec. 70505: ended", 2026, "0", "5000", "0", "0", true},
		{"P.L. 119-21 sec. 70506: ended", 2026, "5000", "0", "0", "0", true},
		{"nothing paid, nothing said", 2026, "0", "0", "0", "0", false},
	}
	for _, tt := range tests {
		h := household.Household{Income: household.Income{Unemployment: usd("90000")}, Credits: household.Credits{
			Energy: household.EnergyOf[money.Amount]{Clean: usd(tt.clean), Improvements: usd(tt.improvements), HeatPumps: usd(tt.pumps)},
		}}
		s := new(worksheet.Sheet)
		want(t, tt.source, Compute(h, nil, lawOf(t, tt.year), BySchedule, s).NonrefundableCredits, tt.want)
		if noted(s, "energy_credits_ended") != tt.ended {
			t.Errorf("%s: said to have ended: %v", tt.source, !tt.ended)
		}
	}
}

// Losses carried from last year, and to the next.
//
// IRC 1212(b); Instructions for Schedule D, Capital Loss Carryover Worksheet.
func TestCapitalLossCarryover(t *testing.T) {
	tests := []struct {
		source              string
		income              string
		short, long         string // this year's
		fromShort, fromLong string // last year's
		gain, own           string
		toShort, toLong     string
	}{
		{"Schedule D line 14: off a long-term gain", "90000", "0", "5000", "0", "2000", "3000", "3000", "0", "0"},
		{"Schedule D line 6: off a long-term gain", "90000", "0", "5000", "2000", "0", "3000", "3000", "0", "0"},
		{"Schedule D line 21: 3,000 of 10,000", "90000", "0", "0", "0", "10000", "-3000", "0", "0", "7000"},
		// 3,000 uses up 1,000 of short-term loss, then 2,000 of 5,000.
		{"worksheet lines 8 and 13: short-term first", "90000", "-1000", "-5000", "0", "0", "-3000", "0", "0", "3000"},
		{"worksheet line 8: 8,000 - 3,000 - a gain of 1,000", "90000", "-8000", "1000", "0", "0", "-3000", "0", "4000", "0"},
		{"worksheet line 13: 8,000 - a gain of 1,000 - 3,000", "90000", "1000", "-8000", "0", "0", "-3000", "0", "0", "4000"},
		{"within the limit", "90000", "-1000", "-500", "0", "0", "-1500", "0", "0", "0"},
		// 17,100 - 3,000 - 16,100 = -2,000: only 1,000 of the 3,000 was used.
		{"worksheet line 4: no income to deduct it from", "17100", "-5000", "0", "0", "0", "-3000", "0", "4000", "0"},
		{"worksheet line 4: none at all", "1000", "-5000", "0", "0", "0", "-3000", "0", "5000", "0"},
	}
	y := lawOf(t, 2026)
	for _, tt := range tests {
		h := household.Household{Income: household.Income{
			Unemployment: usd(tt.income), ShortTermGain: usd(tt.short), LongTermGain: usd(tt.long),
			CapitalLossCarryover: household.Losses{ShortTerm: usd(tt.fromShort), LongTerm: usd(tt.fromLong)},
		}}
		c := throughDeductions(h, y)
		c.carryLosses()
		want(t, tt.source+": gain", c.income.CapitalGain, tt.gain)
		want(t, tt.source+": net capital gain", c.income.NetCapitalGain, tt.own)
		want(t, tt.source+": short-term, to next year", c.CarriedLosses.ShortTerm, tt.toShort)
		want(t, tt.source+": long-term, to next year", c.CarriedLosses.LongTerm, tt.toLong)
	}
}

// What benefits withhold: Form W-4V.
func TestVoluntaryWithholding(t *testing.T) {
	for _, tt := range []struct {
		source              string
		benefits            string
		percent, months, of int
		want                string
	}{
		{"7% of 2,000 a month", "24000", 7, 12, 12, "1680"},
		{"10% in six months", "24000", 10, 6, 12, "1200"},
		{"12% of 1,666.67 a month: 200.00", "20000", 12, 12, 12, "2400"},
		{"benefits of six months", "12000", 22, 12, 6, "2640"},
		{"no month", "12000", 22, 12, 0, "0"},
	} {
		want(t, tt.source, VoluntaryWithholding(usd(tt.benefits), tt.percent, tt.months, tt.of), tt.want)
	}
	y := lawOf(t, 2026)
	six := 6
	h := household.Household{Income: household.Income{SocialSecurity: usd("24000"), Unemployment: usd("6000")}}
	h.Payments.SocialSecurity, h.Payments.Unemployment = &household.Voluntary{Percent: 10, Months: &six}, &household.Voluntary{Percent: 10}
	s := new(worksheet.Sheet)
	// 2,000 × 10% × 6 + 500 × 10% × 12
	want(t, "a return's benefits", Compute(h, nil, y, ByReturn, s).BenefitsWithheld, "1800")
	h.Payments.SocialSecurity.Percent = 15
	s = new(worksheet.Sheet)
	want(t, "a percentage that the form does not have", Compute(h, nil, y, ByReturn, s).BenefitsWithheld, "600")
	if !noted(s, "voluntary_percent") {
		t.Error("not noted")
	}
	h.Income.SocialSecurity, h.Income.SocialSecurityMonthly = money.Zero, &household.EachMonth{Amount: usd("2000"), FirstMonth: 7}
	h.Payments.SocialSecurity = &household.Voluntary{Percent: 22}
	want(t, "six months of benefits", Compute(h, nil, y, ByReturn, nil).BenefitsWithheld, "3240") // 440 × 6 + 600
}

// What a withdrawal withholds: IRC 3405(b), (c); Form W-4R.
func TestWithdrawalWithholding(t *testing.T) {
	y := lawOf(t, 2026)
	percent := func(n int) *int { return &n }
	for _, tt := range []struct {
		source string
		w      household.Withdrawal
		want   string
	}{
		{"10% by default", household.Withdrawal{}, "500"},
		{"none", household.Withdrawal{Percent: percent(0)}, "0"},
		{"35% asked for", household.Withdrawal{Percent: percent(35)}, "1750"},
		{"20% of what could be rolled over", household.Withdrawal{Kind: household.CouldBeRolledOver}, "1000"},
		{"and no less", household.Withdrawal{Kind: household.CouldBeRolledOver, Percent: percent(15)}, "1000"},
		{"but more", household.Withdrawal{Kind: household.CouldBeRolledOver, Percent: percent(30)}, "1500"},
	} {
		tt.w.Amount = usd("5000")
		want(t, tt.source, WithdrawalWithholding(tt.w, y), tt.want)
	}
	h := household.Household{Payments: household.Payments{Withdrawals: []household.Withdrawal{{Amount: usd("5000")}, {Amount: usd("1000"), Kind: household.CouldBeRolledOver}}}}
	want(t, "on a return", Compute(h, nil, y, ByReturn, nil).BenefitsWithheld, "700")
}
