package tax

import (
	"strconv"
	"testing"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/sample"
	"example.com/plumbline/internal/tables"
)

// withTax is a return with income tax to meet and earned income.
func withTax(h household.Household, y *tables.Year, adjustedGross, tax string, earned ...string) *computation {
	c := onReturn(h, y, adjustedGross, "0")
	c.IncomeTax, c.credits.taxLeft = usd(tax), usd(tax)
	for i, e := range earned {
		c.work[i].EarnedIncome = usd(e)
	}
	return c
}

func TestDependentCareCredit(t *testing.T) {
	cared := func(expenses ...string) []household.Dependent {
		all := children(len(expenses))
		for i := range all {
			all[i].CareExpenses = usd(expenses[i])
		}
		return all
	}
	tests := []struct {
		source     string
		year       int
		status     household.Status
		dependents []household.Dependent
		agi, tax   string
		self, spou string
		want       string
	}{
		// 3,000 × 35%; 3,000 × (35% - 1 point): 15,000.01 begins a step
		{"IRC 21(a)(2): at 15,000", 2025, household.Single, cared("4000"), "15000", "9000", "15000", "0", "1050"},
		{"IRC 21(a)(2): a cent above", 2025, household.Single, cared("4000"), "15000.01", "9000", "15000", "0", "1020"},
		{"IRC 21(a)(2): 43,000 is 14 steps", 2025, household.Single, cared("4000"), "43000", "9000", "43000", "0", "630"},
		{"IRC 21(a)(2): above 43,000 the least, 20%", 2025, household.Single, cared("4000"), "43000.01", "9000", "43000", "0", "600"},
		// the limit is by persons, not by expenses: 6,000 for two, one with expenses
		{"IRC 21(c): two persons, expenses of one", 2025, household.Single, cared("7000", "0"), "50000", "9000", "50000", "0", "1200"},
		{"IRC 21(c): one person", 2025, household.Single, cared("7000"), "50000", "9000", "50000", "0", "600"},
		// 2026: 50% - 3 points for 80,000 - 75,000 begun after 15 off down to 35%
		{"IRC 21(a)(2) from 2026: 80,000 single, 32%", 2026, household.Single, cared("3000"), "80000", "9000", "80000", "0", "960"},
		{"IRC 21(a)(2) from 2026: 15,000, 50%", 2026, household.Single, cared("3000"), "15000", "9000", "15000", "0", "1500"},
		// (43,000 - 15,000) ÷ 2,000 = 14 → 36%; a dollar more: 15 → 35%, the first floor
		{"IRC 21(a)(2) from 2026: 43,000, 36%", 2026, household.Single, cared("3000"), "43000", "9000", "43000", "0", "1080"},
		{"IRC 21(a)(2) from 2026: 60,000, 35%", 2026, household.Single, cared("3000"), "60000", "9000", "60000", "0", "1050"},
		{"IRC 21(a)(2) from 2026: 75,000.01, 34%", 2026, household.Single, cared("3000"), "75000.01", "9000", "80000", "0", "1020"},
		// joint: (160,000 - 150,000) ÷ 4,000 begun 3 → 32%
		{"IRC 21(a)(2) from 2026: joint, steps of 4,000", 2026, household.MarriedFilingJointly, cared("3000"), "160000", "9000", "80000", "80000", "960"},
		// 105,000 - 75,000 = 15 steps → 20%
		{"IRC 21(a)(2) from 2026: the second floor", 2026, household.Single, cared("3000"), "200000", "9000", "200000", "0", "600"},
		{"IRC 21(d)(1)(B): the spouse earns less than was paid", 2025, household.MarriedFilingJointly, cared("3000"), "60000", "9000", "60000", "1000", "200"},
		{"IRC 21(d)(1)(B): the spouse earns nothing", 2025, household.MarriedFilingJointly, cared("3000"), "60000", "9000", "60000", "0", "0"},
		{"IRC 21(e)(2): a separate return", 2025, household.MarriedFilingSeparately, cared("3000"), "60000", "9000", "60000", "0", "0"},
		{"IRC 26(a): no more than the tax", 2025, household.Single, cared("3000"), "50000", "250", "50000", "0", "250"},
	}
	for _, tt := range tests {
		t.Run(tt.source, func(t *testing.T) {
			h := household.Household{Status: tt.status, Dependents: tt.dependents}
			c := withTax(h, lawOf(t, tt.year), tt.agi, tt.tax, tt.self, tt.spou)
			want(t, "credit", c.dependentCare(), tt.want)
		})
	}
}

// IRC 21(e)(4): a separate filer who lived apart, with the assumption named.
func TestDependentCareLivedApart(t *testing.T) {
	dependents := children(1)
	dependents[0].CareExpenses = usd("3000")
	h := household.Household{Status: household.MarriedFilingSeparately, LivedApart: true, Dependents: dependents}
	c := withTax(h, lawOf(t, 2025), "60000", "9000", "60000")
	want(t, "credit", c.dependentCare(), "600") // 3,000 × 20%
	c.cautions()
	if !hasNote(c, "care_lived_apart") {
		t.Error("the assumption is not named")
	}
}

// IRC 21(c), last sentence: what the employer's plan excludes lowers the limit.
func TestDependentCarePlan(t *testing.T) {
	dependents := children(2)
	dependents[0].CareExpenses = usd("9000")
	job := household.Job{Frequency: household.Monthly, FirstPayday: household.On(2025, 1, 31), Pretax: household.Pretax{DependentCare: usd("100")}}
	h := household.Household{Dependents: dependents, Jobs: []household.Job{job}}
	c := withTax(h, lawOf(t, 2025), "60000", "9000", "60000")
	want(t, "credit", c.dependentCare(), "960") // (6,000 - 12 × 100) × 20%
	h.Jobs[0].Pretax.DependentCare = usd("500")
	c = withTax(h, lawOf(t, 2025), "60000", "9000", "60000")
	want(t, "credit, all of the limit used", c.dependentCare(), "0")
}

// IRC 21(d)(2), Instructions for Form 2441, p. 4: a spouse who is a full-time
// student, which takes five months, is treated as earning 250 in each of them,
// 500 with two or more qualifying persons.
func TestDependentCareOfAStudent(t *testing.T) {
	tests := []struct {
		source       string
		persons      int
		self, spouse string
		selfStudies  bool
		want         string
	}{
		{"one person: 5 × 250 = 1,250 × 20%", 1, "60000", "0", false, "250"},
		{"two persons: 5 × 500 = 2,500 × 20%", 2, "60000", "0", false, "500"},
		{"the student earns more than that: 2,000 × 20%", 1, "60000", "2000", false, "400"},
		{"the other spouse earns less: 1,000 × 20%", 1, "1000", "0", false, "200"},
		{"either spouse may study", 1, "0", "60000", true, "250"},
	}
	for _, tt := range tests {
		dependents := children(tt.persons)
		dependents[0].CareExpenses = usd("6000")
		h := household.Household{Status: household.MarriedFilingJointly, Dependents: dependents, Spouse: &household.Person{FullTimeStudent: !tt.selfStudies}}
		h.Self.FullTimeStudent = tt.selfStudies
		c := withTax(h, lawOf(t, 2025), "60000", "9000", tt.self, tt.spouse)
		want(t, tt.source, c.dependentCare(), tt.want)
	}
}

// IRC 21(b)(1)(C): a spouse not able to care for themselves is a qualifying person.
// IRC 21(d)(2)(B): that spouse is treated as earning 250 a month, 500 with two or
// more qualifying persons, the other one not. At 60,000 the rate of 2025 is 20%.
func TestDependentCareOfASpouse(t *testing.T) {
	monthly := func(amount string, first int) *household.EachMonth {
		return &household.EachMonth{Amount: usd(amount), FirstMonth: first}
	}
	disabled := household.Person{Disabled: true, CareMonthly: monthly("400", 0)}
	tests := []struct {
		source     string
		status     household.Status
		self       household.Person
		spouse     household.Person
		ofChild    string // "": no child
		own, other string // earned
		want       string
	}{
		{"paid 4,800, the limit 3,000, treated as earning 12 x 250 = 3,000", household.MarriedFilingJointly, household.Person{}, disabled, "", "60000", "0", "600"},
		{"either spouse", household.MarriedFilingJointly, disabled, household.Person{}, "", "0", "60000", "600"},
		{"a student too: 12 months, not 17", household.MarriedFilingJointly, household.Person{}, household.Person{Disabled: true, FullTimeStudent: true, CareMonthly: monthly("400", 0)}, "", "60000", "0", "600"},
		{"July to December: 6 x 300 = 1,800", household.MarriedFilingJointly, household.Person{}, household.Person{Disabled: true, CareMonthly: monthly("300", 7)}, "", "60000", "0", "360"},
		{"two persons, 5,000 for the child: the limit 6,000, 12 x 500 = 6,000", household.MarriedFilingJointly, household.Person{}, household.Person{Disabled: true}, "5000", "60000", "0", "1000"},
		{"two persons, 5,000 and 4,800: 6,000", household.MarriedFilingJointly, household.Person{}, disabled, "5000", "60000", "0", "1200"},
		{"the child alone, the spouse at home and able: no earned income", household.MarriedFilingJointly, household.Person{}, household.Person{}, "5000", "60000", "0", "0"},
		{"both unable and neither earns: only one is treated as earning", household.MarriedFilingJointly, disabled, disabled, "", "0", "0", "0"},
		{"cared for, but able", household.MarriedFilingJointly, household.Person{}, household.Person{CareMonthly: monthly("400", 0)}, "", "60000", "0", "0"},
		{"IRC 21(e)(2): a separate return", household.MarriedFilingSeparately, household.Person{}, disabled, "", "60000", "0", "0"},
		{"oneself is no qualifying person of one's own", household.Single, disabled, household.Person{}, "", "60000", "0", "0"},
	}
	for _, tt := range tests {
		h := household.Household{Status: tt.status, Self: tt.self, Spouse: &tt.spouse}
		if tt.ofChild != "" {
			h.Dependents = children(1)
			h.Dependents[0].CareExpenses = usd(tt.ofChild)
		}
		c := withTax(h, lawOf(t, 2025), "60000", "9000", tt.own, tt.other)
		want(t, tt.source, c.dependentCare(), tt.want)
	}
}

func TestEducationCredits(t *testing.T) {
	opportunity := func(expenses ...string) []household.Student {
		var all []household.Student
		for _, e := range expenses {
			all = append(all, household.Student{Expenses: usd(e)})
		}
		return all
	}
	lifetime := func(expenses ...string) []household.Student {
		all := opportunity(expenses...)
		for i := range all {
			all[i].Kind = household.LifetimeLearning
		}
		return all
	}
	tests := []struct {
		source              string
		status              household.Status
		students            []household.Student
		agi, tax            string
		nonrefundable, cash string
	}{
		// 2,000 + 25% × 2,000 = 2,500; 40% refundable
		{"IRC 25A(b)(1), (i): full", household.Single, opportunity("5000"), "80000", "9000", "1500", "1000"},
		// 1,500 × 60% and 40%
		{"IRC 25A(b)(1)(A)", household.Single, opportunity("1500"), "50000", "9000", "900", "600"},
		// 2,000 + 25% × 1,000 = 2,250
		{"IRC 25A(b)(1)(B)", household.Single, opportunity("3000"), "50000", "9000", "1350", "900"},
		{"IRC 25A(b)(1): each student", household.Single, opportunity("4000", "4000"), "50000", "9000", "3000", "2000"},
		// 2,500 × (90,000 - 86,000) ÷ 10,000 = 1,000
		{"IRC 25A(d): phase-out", household.Single, opportunity("4000"), "86000", "9000", "600", "400"},
		{"IRC 25A(d): gone", household.Single, opportunity("4000"), "90000", "9000", "0", "0"},
		// 2,500 × (180,000 - 165,000) ÷ 20,000 = 1,875
		{"IRC 25A(d): joint", household.MarriedFilingJointly, opportunity("4000"), "165000", "9000", "1125", "750"},
		{"IRC 25A(i): paid out without tax", household.Single, opportunity("4000"), "20000", "0", "0", "1000"},
		// 20% × 10,000 for the return
		{"IRC 25A(c): students together", household.Single, lifetime("8000", "7000"), "50000", "9000", "2000", "0"},
		{"IRC 25A(c), (d)", household.Single, lifetime("8000"), "85000", "9000", "800", "0"},
		{"IRC 25A(g)(6): a separate return", household.MarriedFilingSeparately, opportunity("4000"), "20000", "9000", "0", "0"},
		{"IRC 26(a): no more than the tax", household.Single, lifetime("8000"), "50000", "700", "700", "0"},
	}
	for _, tt := range tests {
		for _, year := range sample.Years() {
			h := household.Household{Status: tt.status, Credits: household.Credits{Education: tt.students}}
			c := withTax(h, lawOf(t, year), tt.agi, tt.tax)
			want(t, tt.source, c.education(), tt.nonrefundable)
			want(t, tt.source+", refundable", c.credits.opportunityRefundable, tt.cash)
		}
	}
	h := household.Household{Self: household.Person{CanBeClaimed: true}, Credits: household.Credits{Education: opportunity("4000")}}
	c := withTax(h, lawOf(t, 2026), "20000", "9000")
	want(t, "IRC 25A(g)(3): can be claimed", c.education().Add(c.credits.opportunityRefundable), "0")
}

// IRC 25A(g)(1), P.L. 119-21 sec. 70606: from 2026 a taxpayer needs a number.
func TestEducationNeedsNumber(t *testing.T) {
	no := false
	h := household.Household{Self: household.Person{SSNValidForWork: &no}, Credits: household.Credits{Education: []household.Student{{Expenses: usd("4000")}}}}
	for year, text := range map[int]string{2025: "1500", 2026: "0"} {
		want(t, strconv.Itoa(year), withTax(h, lawOf(t, year), "20000", "9000").education(), text)
	}
	h.Status, h.Spouse = household.MarriedFilingJointly, &household.Person{}
	want(t, "one of two spouses", withTax(h, lawOf(t, 2026), "20000", "9000").education(), "1500")
}

// IRC 25A(i)(6): under 24 the refundable part may be barred, which is named.
func TestOpportunityUnderAge(t *testing.T) {
	for _, tt := range []struct {
		born  household.Date
		noted bool
	}{{household.On(2003, 1, 2), true}, {household.On(2003, 1, 1), false}, {household.Date{}, false}} {
		h := household.Household{Self: household.Person{BirthDate: tt.born}, Credits: household.Credits{Education: []household.Student{{Expenses: usd("4000")}}}}
		c := withTax(h, lawOf(t, 2026), "20000", "0")
		c.education()
		if hasNote(c, "opportunity_under_age") != tt.noted {
			t.Errorf("born %v: noted %v, want %v", tt.born, !tt.noted, tt.noted)
		}
	}
}

func TestSaversCredit(t *testing.T) {
	both := household.ByEarner{Self: usd("3000"), Spouse: usd("1000")}
	one := household.ByEarner{Self: usd("1000")}
	tests := []struct {
		source string
		year   int
		status household.Status
		saved  household.ByEarner
		agi    string
		want   string
	}{
		// Notice 2024-80: 23,750; 25,500; 39,500
		{"IRC 25B(b): 50%", 2025, household.Single, one, "23750", "500"},
		{"IRC 25B(b): 20%", 2025, household.Single, one, "23750.01", "200"},
		{"IRC 25B(b): 20%, its end", 2025, household.Single, one, "25500", "200"},
		{"IRC 25B(b): 10%", 2025, household.Single, one, "25500.01", "100"},
		{"IRC 25B(b): 10%, its end", 2025, household.Single, one, "39500", "100"},
		{"IRC 25B(b): none", 2025, household.Single, one, "39500.01", "0"},
		{"a surviving spouse has the column of others", 2025, household.QualifyingSurvivingSpouse, one, "39500.01", "0"},
		// Notice 2025-67: joint 80,500; (2,000 + 1,000) × 10%
		{"IRC 25B(a): 2,000 each", 2026, household.MarriedFilingJointly, both, "80500", "300"},
		{"IRC 25B(a): only one's own on a separate return", 2026, household.MarriedFilingSeparately, both, "30000", "200"},
	}
	for _, tt := range tests {
		h := household.Household{Status: tt.status, Credits: household.Credits{RetirementSaving: tt.saved}}
		c := withTax(h, lawOf(t, tt.year), tt.agi, "9000")
		want(t, tt.source, c.savers(), tt.want)
	}
}

// IRC 25B(c): of age, no student, nobody's dependent. Form 8880 (2025): born
// after January 1, 2008, is too young.
func TestWhoHasSaversCredit(t *testing.T) {
	tests := []struct {
		source string
		person household.Person
		want   string
	}{
		{"18 on the day before the birthday", household.Person{BirthDate: household.On(2008, 1, 1)}, "500"},
		{"17", household.Person{BirthDate: household.On(2008, 1, 2)}, "0"},
		{"student", household.Person{FullTimeStudent: true}, "0"},
		{"can be claimed", household.Person{CanBeClaimed: true}, "0"},
	}
	for _, tt := range tests {
		h := household.Household{Self: tt.person, Credits: household.Credits{RetirementSaving: household.ByEarner{Self: usd("1000")}}}
		want(t, tt.source, withTax(h, lawOf(t, 2025), "20000", "9000").savers(), tt.want)
	}
}

func TestChildTaxCredit(t *testing.T) {
	tests := []struct {
		source             string
		year               int
		status             household.Status
		children           int
		agi, tax, earned   string
		credit, additional string
	}{
		{"IRC 24(a), (h)(2)", 2026, household.HeadOfHousehold, 2, "90000", "9000", "90000", "4400", "0"},
		{"IRC 24(b)(1): at the start", 2026, household.HeadOfHousehold, 2, "200000", "40000", "200000", "4400", "0"},
		// a step begun takes 50
		{"IRC 24(b)(1): a cent above", 2026, household.HeadOfHousehold, 2, "200000.01", "40000", "200000", "4350", "0"},
		{"IRC 24(h)(3): joint", 2026, household.MarriedFilingJointly, 2, "401000.01", "90000", "200000", "4300", "0"},
		{"IRC 24(h)(3): a surviving spouse starts at 200,000", 2026, household.QualifyingSurvivingSpouse, 2, "201000", "90000", "200000", "4350", "0"},
		// 15% × (20,000 - 2,500) = 2,625, of 3,900 left and 1,700 a child
		{"IRC 24(d)(1)(B)(i): 15% of earned income", 2026, household.HeadOfHousehold, 2, "20000", "500", "20000", "500", "2625"},
		{"IRC 24(h)(5): at most 1,700 a child", 2026, household.HeadOfHousehold, 2, "40000", "500", "40000", "500", "3400"},
		{"IRC 24(d)(1): at most what is left of the credit", 2026, household.HeadOfHousehold, 2, "40000", "4000", "40000", "4000", "400"},
		{"IRC 24(h)(6): earned income of 2,500", 2025, household.HeadOfHousehold, 2, "2500", "0", "2500", "0", "0"},
		{"IRC 24(h)(6): a dollar more", 2025, household.HeadOfHousehold, 2, "2501", "0", "2501", "0", "0.15"},
	}
	for _, tt := range tests {
		h := household.Household{Status: tt.status, Dependents: children(tt.children)}
		c := withTax(h, lawOf(t, tt.year), tt.agi, tt.tax, tt.earned)
		want(t, tt.source, c.childTaxCredit(), tt.credit)
		want(t, tt.source+", additional", c.additionalChildTaxCredit(), tt.additional)
	}
}

// IRC 24(h)(4): 500 for another dependent, which is never refundable.
func TestOtherDependentCredit(t *testing.T) {
	parent := household.Dependent{Relationship: household.Parent, BirthDate: household.On(1950, 1, 1)}
	h := household.Household{Dependents: append(children(1), parent)}
	c := withTax(h, lawOf(t, 2026), "60000", "100", "60000")
	want(t, "credit", c.childTaxCredit(), "100")
	want(t, "additional: 1,700 for the one child, of 2,600 left", c.additionalChildTaxCredit(), "1700")
	h.Dependents = h.Dependents[1:]
	c = withTax(h, lawOf(t, 2026), "60000", "100", "60000")
	want(t, "credit", c.childTaxCredit(), "100")
	want(t, "additional", c.additionalChildTaxCredit(), "0")
}

// IRC 24(d)(1)(B)(ii): for three or more children, payroll taxes less the
// earned income credit, where that is more than 15% of earned income above
// 2,500.
func TestAdditionalChildTaxCreditOfThree(t *testing.T) {
	tests := []struct {
		source   string
		children int
		credit   string // earned income credit
		want     string
	}{
		// 15% × (4,000 - 2,500) = 225; 4,000 × 7.65% = 306
		{"three children, no earned income credit", 3, "0", "306"},
		{"two children", 2, "0", "225"},
		{"three children, the earned income credit is taken off", 3, "50", "256"},
		{"three children, 15% is more", 3, "100", "225"},
	}
	for _, tt := range tests {
		c := withTax(household.Household{Dependents: children(tt.children)}, lawOf(t, 2026), "4000", "0", "4000")
		c.pay = []household.YearPay{{SocialSecurityTax: usd("248"), MedicareTax: usd("58")}}
		c.EarnedIncomeCredit = usd(tt.credit)
		c.childTaxCredit()
		want(t, tt.source, c.additionalChildTaxCredit(), tt.want)
	}
	// half of the self-employment tax: 4,000 of net profit pay 565.18, half 282.59
	c := withTax(household.Household{Dependents: children(3)}, lawOf(t, 2026), "4000", "0", "3717.41")
	c.adjustments.HalfSelfEmployment = usd("282.59")
	c.childTaxCredit()
	want(t, "IRC 24(d)(2)(A)(ii): half of the self-employment tax, more than 15% × 1,217.41 = 182.61", c.additionalChildTaxCredit(), "282.59")
}

// The credits meet the tax in the order of Schedule 3 and Form 1040, line 19;
// each has only what those before it left.
func TestOrderOfCredits(t *testing.T) {
	dependents := children(1)
	dependents[0].CareExpenses = usd("3000")
	h := household.Household{
		Status: household.HeadOfHousehold, Dependents: dependents,
		Credits: household.Credits{
			Education:        []household.Student{{Kind: household.LifetimeLearning, Expenses: usd("1000")}},
			RetirementSaving: household.ByEarner{Self: usd("1000")}, OtherNonrefundable: usd("150"),
		},
	}
	tests := []struct {
		tax                                   string
		care, education, savers, other, child string
	}{
		// 2025, 45,000: care 3,000 × 20%; education 1,000 × 20%; saver's 1,000 × 10%
		{"5000", "600", "200", "100", "150", "2200"},
		{"2000", "600", "200", "100", "150", "950"},
		{"1000", "600", "200", "100", "100", "0"},
		{"850", "600", "200", "50", "0", "0"},
		{"700", "600", "100", "0", "0", "0"},
		{"400", "400", "0", "0", "0", "0"},
		{"0", "0", "0", "0", "0", "0"},
	}
	for _, tt := range tests {
		c := withTax(h, lawOf(t, 2025), "45000", tt.tax, "45000")
		c.nonrefundable()
		amount := func(id string) money.Amount { l, _ := c.s.Line(id); return l.Amount }
		want(t, tt.tax+": care", amount("tax.dependent_care_credit"), tt.care)
		want(t, tt.tax+": education", amount("tax.education_credits"), tt.education)
		want(t, tt.tax+": saver's", amount("tax.savers_credit"), tt.savers)
		want(t, tt.tax+": other", amount("tax.other_nonrefundable_credits"), tt.other)
		want(t, tt.tax+": child", c.ChildTaxCredit, tt.child)
		sum := money.Sum(usd(tt.care), usd(tt.education), usd(tt.savers), usd(tt.other), usd(tt.child))
		want(t, tt.tax+": all", c.NonrefundableCredits, sum.Text())
	}
}
