package tax

import (
	"slices"
	"strings"
	"testing"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/words"
	"example.com/plumbline/internal/worksheet"
)

// plain is a household that brings up nothing.
func plain() household.Household {
	return household.Household{TaxYear: 2026, Self: household.Person{BirthDate: household.On(1980, 6, 6)}, Jobs: []household.Job{{}}}
}

// Each caution is brought up by its answers, and by nothing less.
func TestCautions(t *testing.T) {
	no := false
	cared := children(1)
	cared[0].CareExpenses = usd("3000")
	student := household.Credits{Education: []household.Student{{Expenses: usd("1000")}}}
	tests := map[string]struct {
		wages string
		set   func(h *household.Household)
	}{
		"head_of_household_person":    {"50000", func(h *household.Household) { h.Status = household.HeadOfHousehold }},
		"head_of_household_possible":  {"50000", func(h *household.Household) { h.Dependents = children(1) }},
		"surviving_spouse_child":      {"50000", func(h *household.Household) { h.Status = household.QualifyingSurvivingSpouse }},
		"separate_community_property": {"50000", func(h *household.Household) { h.Status = household.MarriedFilingSeparately }},
		"child_unearned_income": {"4000", func(h *household.Household) {
			// 2 × 1,350 = 2,700
			h.Self, h.Income.Interest = household.Person{BirthDate: household.On(2009, 6, 6), CanBeClaimed: true}, usd("2701")
		}},
		"parents_rate_siblings": {"4000", func(h *household.Household) {
			h.Self, h.Income.Interest = household.Person{BirthDate: household.On(2009, 6, 6), CanBeClaimed: true}, usd("2701")
			h.Parents = &household.Parents{Status: household.MarriedFilingJointly}
		}},
		"parents_rate_itemized": {"4000", func(h *household.Household) {
			h.Self, h.Income.Interest = household.Person{BirthDate: household.On(2009, 6, 6), CanBeClaimed: true}, usd("2701")
			h.Parents = &household.Parents{Status: household.MarriedFilingJointly}
			h.Deductions.OtherItemized = usd("9000")
		}},
		"care_lived_apart": {"50000", func(h *household.Household) {
			h.Status, h.LivedApart, h.Dependents = household.MarriedFilingSeparately, true, cared
		}},
		"care_separate": {"50000", func(h *household.Household) { h.Status, h.Dependents = household.MarriedFilingSeparately, cared }},
		"care_student": {"50000", func(h *household.Household) {
			h.Status, h.Spouse, h.Dependents = household.MarriedFilingJointly, &household.Person{FullTimeStudent: true}, cared
		}},
		"care_account": {"50000", func(h *household.Household) {
			h.Dependents = cared
			h.Jobs[0] = household.Job{Frequency: household.Monthly, Pretax: household.Pretax{DependentCare: usd("100")}}
		}},
		"education_separate": {"50000", func(h *household.Household) { h.Status, h.Credits = household.MarriedFilingSeparately, student }},
		"education_claimed":  {"50000", func(h *household.Household) { h.Self.CanBeClaimed, h.Credits = true, student }},
		"education_number":   {"50000", func(h *household.Household) { h.Self.SSNValidForWork, h.Credits = &no, student }},
		"early_distribution": {"50000", func(h *household.Household) { h.Income.Retirement = usd("5000") }},
		"early_simple_plan": {"50000", func(h *household.Household) {
			h.Income.Retirement, h.Income.EarlyWithdrawal = usd("5000"), usd("1000")
		}},
		"premium_months": {"50000", func(h *household.Household) { h.Marketplace = covered("6000", "6000", "0") }},
		// Two people: above 400% of the poverty line there is no credit, so all of
		// the advance is paid back (IRC 36B(c)(1)(A)).
		"premium_marriage": {"200000", func(h *household.Household) {
			h.Status, h.Spouse = household.MarriedFilingJointly, &household.Person{BirthDate: household.On(1981, 6, 6)}
			h.Marketplace = covered("6000", "6000", "3000")
		}},
		"premium_dependents": {"50000", func(h *household.Household) {
			h.Marketplace, h.Dependents = covered("6000", "6000", "0"), children(1)
			h.Dependents[0].BirthDate = household.On(2008, 6, 6) // 18, so no child tax credit
		}},
		"mortgage_mixed": {"200000", func(h *household.Household) {
			h.Deductions.MortgageInterest, h.Deductions.MortgageBalance = usd("40000"), usd("750001")
		}},
		// 200,000 + 50,000 less the standard deduction and half of the tax on the business
		// is above 201,750.
		"business_several": {"200000", func(h *household.Household) {
			h.Income.SelfEmployment.Self, h.Income.Business.Self = usd("50000"), &household.Business{SpecifiedService: &no, Wages: usd("50000")}
		}},
		"gain_kinds": {"50000", func(h *household.Household) { h.Income.LongTermGain = usd("5000") }},
		"investment_tax_deductions": {"300000", func(h *household.Household) {
			h.Income.Interest, h.Deductions.StateLocalTaxes, h.Deductions.MortgageInterest = usd("5000"), usd("20000"), usd("9000")
		}},
		"minimum_tax_items": {"0", func(h *household.Household) { h.Income.LongTermGain = usd("1000000") }},
		"gambling_losses": {"50000", func(h *household.Household) {
			h.Income.Other, h.Deductions.OtherItemized = usd("30000"), usd("20000")
		}},
		"benefits_lump_sum":        {"50000", func(h *household.Household) { h.Income.SocialSecurity = usd("20000") }},
		"net_operating_loss":       {"5000", func(h *household.Household) { h.Income.SelfEmployment.Self = usd("-9000") }},
		"self_employed_health":     {"50000", func(h *household.Household) { h.Income.SelfEmployment.Self = usd("9000") }},
		"earned_income_credit_age": {"9000", func(h *household.Household) { h.Self.BirthDate = household.Date{} }},
		"earned_income_credit_separate": {"20000", func(h *household.Household) {
			h.Status, h.LivedApart, h.Dependents = household.MarriedFilingSeparately, true, children(1)
		}},
	}
	y := lawOf(t, 2026)
	notes := func(h household.Household, wages string) map[string]bool {
		sheet := new(worksheet.Sheet)
		Compute(h, []household.YearPay{jobPay(y, 0, household.OfSelf, usd(wages))}, y, ByReturn, sheet)
		codes := map[string]bool{}
		for _, n := range sheet.Notes {
			codes[n.Code] = true
		}
		return codes
	}
	for _, wages := range []string{"9000", "50000", "300000"} {
		if got := notes(plain(), wages); len(got) > 0 {
			t.Errorf("a plain household with wages of %s is warned of %v", wages, got)
		}
	}
	for _, w := range warnings {
		tt, ok := tests[w.code]
		if !ok {
			t.Errorf("%s: no answers here bring it up", w.code)
			continue
		}
		h := plain()
		tt.set(&h)
		if got := notes(h, tt.wages); !got[w.code] {
			t.Errorf("%s is not brought up; only %v", w.code, got)
		}
	}
}

// What points to no doubt brings up none: young children have no return of their
// own, an advance that is not paid back is none of the year of a marriage, and a
// child without itemized deductions has none tied to unearned income.
func TestCautionsThatDoNotApply(t *testing.T) {
	y, sheet := lawOf(t, 2026), new(worksheet.Sheet)
	h := plain()
	h.Status, h.Spouse = household.MarriedFilingJointly, &household.Person{BirthDate: household.On(1981, 6, 6)}
	h.Marketplace, h.Dependents = covered("9000", "9000", "1000"), children(2)
	Compute(h, []household.YearPay{jobPay(y, 0, household.OfSelf, usd("60000"))}, y, ByReturn, sheet)
	child := plain()
	child.Self, child.Income.Interest = household.Person{BirthDate: household.On(2009, 6, 6), CanBeClaimed: true}, usd("2701")
	child.Parents = &household.Parents{Status: household.MarriedFilingJointly}
	Compute(child, nil, y, ByReturn, sheet)
	if !noted(sheet, "premium_months") || !noted(sheet, "parents_rate_siblings") {
		t.Fatalf("what applies is not named: %v", sheet.Notes)
	}
	for _, code := range []string{"premium_marriage", "premium_dependents", "parents_rate_itemized"} {
		if noted(sheet, code) {
			t.Errorf("%s is brought up", code)
		}
	}
}

// Where the saver's match has taken the credit's place (SECURE 2.0 sec. 103), those
// who save are told; before, and without savings, nobody is.
func TestSaversMatchIsNamed(t *testing.T) {
	for _, tt := range []struct {
		saved, most string
		want        bool
	}{{"1000", "0", true}, {"0", "0", false}, {"1000", "2000", false}} {
		y, sheet, h := *lawOf(t, 2026), new(worksheet.Sheet), plain()
		y.Savers.Cap, h.Credits.RetirementSaving.Self = usd(tt.most), usd(tt.saved)
		Compute(h, []household.YearPay{jobPay(&y, 0, household.OfSelf, usd("20000"))}, &y, ByReturn, sheet)
		if noted(sheet, "savers_match") != tt.want {
			t.Errorf("%s saved where %s counts: %v", tt.saved, tt.most, sheet.Notes)
		}
	}
}

// At the limit of the least deduction, doubled, a child's unearned income is
// not taxed at the parents' rate; nor is that of one who has turned 24.
//
// IRC 1(g)(2), (4)(A)(ii).
func TestParentsRate(t *testing.T) {
	for _, tt := range []struct {
		born     household.Date
		interest string
		applies  bool
	}{
		{household.On(2009, 6, 6), "2700", false},
		{household.On(2009, 6, 6), "2700.01", true},
		{household.On(2003, 1, 2), "9000", true},
		{household.On(2003, 1, 1), "9000", false},
		{household.Date{}, "9000", true},
	} {
		h := household.Household{Self: household.Person{BirthDate: tt.born, CanBeClaimed: true}, Income: household.Income{Interest: usd(tt.interest)}}
		c := throughDeductions(h, lawOf(t, 2026), paid(household.OfSelf, "4000"))
		if c.parentsRateApplies() != tt.applies {
			t.Errorf("born %v, interest %s: applies %v, want %v", tt.born, tt.interest, !tt.applies, tt.applies)
		}
	}
}

// A married parent who files separately is told of IRC 7703(b), unless the
// answers say already that they lived apart, or the child is not at home for
// more than half the year.
func TestMarriedParentMayBeHeadOfHousehold(t *testing.T) {
	six, seven := 6, 7
	y := lawOf(t, 2026)
	for _, tt := range []struct {
		apart  bool
		months *int
		hinted bool
	}{
		{false, &seven, true},
		{false, nil, true},
		{false, &six, false},
		{true, &seven, false},
	} {
		h := plain()
		h.Status, h.LivedApart, h.Dependents = household.MarriedFilingSeparately, tt.apart, children(1)
		h.Dependents[0].MonthsWithYou = tt.months
		sheet := new(worksheet.Sheet)
		Compute(h, []household.YearPay{jobPay(y, 0, household.OfSelf, usd("50000"))}, y, ByReturn, sheet)
		got := slices.ContainsFunc(sheet.Notes, func(n worksheet.Note) bool {
			return n.Code == "head_of_household_possible" && strings.Contains(n.Said(words.English()), "7703(b)")
		})
		if got != tt.hinted {
			t.Errorf("lived apart %v, months %v: hinted %v", tt.apart, tt.months, got)
		}
	}
}

// Wages come from the answers that the file really has.
func TestWagesNameTheirAnswers(t *testing.T) {
	y := lawOf(t, 2026)
	for want, j := range map[string]household.Job{
		"jobs[0].taxable_pay":                                  {TaxablePay: usd("2000")},
		"jobs[0].gross_pay":                                    {GrossPay: usd("2000")},
		"jobs[0].gross_pay jobs[0].pretax":                     {GrossPay: usd("2000"), Pretax: household.Pretax{Health: usd("50")}},
		"jobs[0].taxable_pay jobs[0].one_time_pay":             {TaxablePay: usd("2000"), OneTimePay: []household.OneTimePay{{Amount: usd("500")}}},
		"jobs[0].year_to_date.taxable_pay jobs[0].taxable_pay": {TaxablePay: usd("2000"), GrossPay: usd("2100"), YearToDate: &household.YearToDate{}},
	} {
		h, sheet := plain(), new(worksheet.Sheet)
		h.Jobs[0] = j
		Compute(h, []household.YearPay{jobPay(y, 0, household.OfSelf, usd("50000"))}, y, ByReturn, sheet)
		if l, _ := sheet.Line("tax.wages"); strings.Join(l.From, " ") != want {
			t.Errorf("wages come from %v, want %s", l.From, want)
		}
	}
}
