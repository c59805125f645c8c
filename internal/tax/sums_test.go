package tax

import (
	"strings"
	"testing"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/words"
	"example.com/plumbline/internal/worksheet"
)

// The sums of the return, each with every part different, so that a part left
// out shows. The parts are chosen for the sum: 1, 20, 300 and so on.

// IRC 61(a), Form 1040 line 9: every kind of income is in total income, and all
// but the benefits in the income that decides how much of those is taxed (IRC
// 86(b)(2), with tax-exempt interest).
func TestEveryIncomeCounts(t *testing.T) {
	h := household.Household{
		TaxYear: 2026,
		Income: household.Income{
			Interest: usd("20"), OrdinaryDividends: usd("300"), ShortTermGain: usd("4000"), Retirement: usd("7"),
			SelfEmployment: household.ByEarner{Self: usd("90")}, Unemployment: usd("600"), Other: usd("8000"), GamblingWinnings: usd("200000"),
			SocialSecurity: usd("10000"), TaxExemptInterest: usd("70000"),
		},
	}
	c := throughDeductions(h, lawOf(t, 2026), paid(household.OfSelf, "100000"))
	// 100,000 + 20 + 300 + 7 + 4,000 + 90 + 600 + 8,000 + 200,000, and 85% of 10,000
	want(t, "income beside benefits", c.income.beforeBenefits(), "313017")
	want(t, "taxable benefits", c.income.TaxableBenefits, "8500")
	want(t, "total income", c.TotalIncome, "321517")
	// 313,017 + 70,000 of tax-exempt interest + half of the benefits
	l, _ := c.s.Line("tax.benefits_income")
	want(t, "income for the benefits", l.Amount, "388017")
}

// IRC 86(b)(2): each kind of income alone makes benefits taxable. Half of 20,000
// is 10,000; 17,000 more is 2,000 above 25,000, of which half is taxed: 1,000.
func TestEachIncomeMakesBenefitsTaxable(t *testing.T) {
	for name, in := range map[string]household.Income{
		"interest":            {Interest: usd("17000")},
		"tax-exempt interest": {TaxExemptInterest: usd("17000")},
		"dividends":           {OrdinaryDividends: usd("17000")},
		"gains":               {LongTermGain: usd("17000")},
		"pensions":            {Retirement: usd("17000")},
		"unemployment":        {Unemployment: usd("17000")},
		"other":               {Other: usd("17000")},
	} {
		in.SocialSecurity = usd("20000")
		c := throughDeductions(household.Household{Income: in}, lawOf(t, 2026))
		want(t, name, c.income.TaxableBenefits, "1000")
	}
	c := throughDeductions(household.Household{Income: household.Income{SocialSecurity: usd("20000")}}, lawOf(t, 2026), paid(household.OfSelf, "17000"))
	want(t, "wages", c.income.TaxableBenefits, "1000")
}

// IRC 1411(c)(1)(A): interest, dividends and gains, 3.8% of each, the income being
// 100,000 and more above 200,000; a loss comes off.
func TestNetInvestmentIncome(t *testing.T) {
	for name, tt := range map[string]struct {
		in   household.Income
		want string
	}{
		"interest":        {household.Income{Interest: usd("1000")}, "38"},
		"dividends":       {household.Income{OrdinaryDividends: usd("2000")}, "76"},
		"gains":           {household.Income{LongTermGain: usd("4000")}, "152"},
		"all of them":     {household.Income{Interest: usd("1000"), OrdinaryDividends: usd("2000"), ShortTermGain: usd("4000")}, "266"},
		"less a loss":     {household.Income{Interest: usd("5000"), LongTermGain: usd("-1000")}, "152"},
		"unemployment no": {household.Income{Unemployment: usd("1000")}, "0"},
		"exempt no":       {household.Income{TaxExemptInterest: usd("1000")}, "0"},
	} {
		r := Compute(household.Household{Income: tt.in}, []household.YearPay{paid(household.OfSelf, "300000")}, lawOf(t, 2026), ByReturn, nil)
		want(t, name, r.NetInvestmentTax, tt.want)
	}
}

// IRC 32(i)(2): each kind of investment income alone, a dollar above the year's
// limit, takes the credit away; at the limit it does not.
func TestEachInvestmentIncomeEndsTheEarnedIncomeCredit(t *testing.T) {
	y := lawOf(t, 2026)
	for name, of := range map[string]func(money.Amount) household.Income{
		"interest":            func(a money.Amount) household.Income { return household.Income{Interest: a} },
		"tax-exempt interest": func(a money.Amount) household.Income { return household.Income{TaxExemptInterest: a} },
		"dividends":           func(a money.Amount) household.Income { return household.Income{OrdinaryDividends: a} },
		"gains":               func(a money.Amount) household.Income { return household.Income{LongTermGain: a} },
	} {
		credit := func(a money.Amount) money.Amount {
			h := household.Household{Status: household.HeadOfHousehold, Dependents: children(3), Income: of(a)}
			return Compute(h, []household.YearPay{paid(household.OfSelf, "12000")}, y, ByReturn, nil).EarnedIncomeCredit
		}
		limit := y.EarnedIncome.InvestmentLimit
		if at, above := credit(limit), credit(limit.Add(usd("1"))); !at.IsPositive() || !above.IsZero() {
			t.Errorf("%s: a credit of %v at the limit, %v above it", name, at, above)
		}
	}
}

// IRC 62(a), Schedule 1 line 26; IRC 221(b)(2)(C): student loan interest is limited
// by the income that all others leave.
func TestEveryAdjustmentCounts(t *testing.T) {
	a := adjustmentParts{
		Educator: usd("1"), HSA: usd("20"), HalfSelfEmployment: usd("300"), OwnRetirement: usd("4000"), OwnHealth: usd("50000"),
		IRA: usd("600000"), Other: usd("7000000"), StudentLoan: usd("80000000"),
	}
	want(t, "before student loan interest", a.beforeStudentLoan(), "7654321")
	c := onReturn(household.Household{Status: household.MarriedFilingJointly}, lawOf(t, 2026), "0", "0")
	c.s = nil
	c.adjustments = a
	c.work[household.OfSelf].RetirementDeduction, c.work[household.OfSpouse].RetirementDeduction = usd("1500"), usd("2500")
	c.work[household.OfSelf].HealthDeduction, c.work[household.OfSpouse].HealthDeduction = usd("20000"), usd("30000")
	sum, _ := c.sum(c.otherThanStudentLoan()...)
	want(t, "lines of the adjustments but student loan interest", sum, "7654321")
	c.TotalIncome = usd("100000000")
	c.adjustedGrossIncome()
	want(t, "adjustments", c.Adjustments, "87654321")
	want(t, "adjusted gross income", c.AdjustedGrossIncome, "12345679")
}

// Schedule 1-A line 38; Form 1040 line 13b.
func TestEveryExtraDeductionCounts(t *testing.T) {
	c := onReturn(household.Household{}, lawOf(t, 2026), "200000", "0")
	c.deductions = deductionParts{Tips: usd("1"), Overtime: usd("20"), CarLoan: usd("300"), Senior: usd("4000"), GiftsNotItemized: usd("50000")}
	want(t, "Schedule 1-A", c.scheduleOneA(), "4321")
	c.extraDeductions()
	want(t, "extra deductions", c.ExtraDeductions, "54321")
	c.StandardOrItemized, c.BusinessDeduction = usd("16000"), usd("700")
	c.taxableIncome() // 200,000 - 16,000 - 700 - 54,321
	want(t, "taxable income", c.TaxableIncome, "128979")
}

// Form 1040 line 24: what is left of the income tax, and every other tax.
func TestEveryTaxCounts(t *testing.T) {
	s := new(worksheet.Sheet)
	h := household.Household{
		Income:  household.Income{SelfEmployment: household.ByEarner{Self: usd("50000")}, Interest: usd("40000")},
		Credits: household.Credits{OtherNonrefundable: usd("100")},
	}
	r := Compute(h, []household.YearPay{paid(household.OfSelf, "300000")}, lawOf(t, 2026), ByReturn, s)
	others := money.Sum(r.SelfEmploymentTax, r.AdditionalMedicareTax, r.NetInvestmentTax)
	if r.SelfEmploymentTax.IsZero() || r.AdditionalMedicareTax.IsZero() || r.NetInvestmentTax.IsZero() || r.NonrefundableCredits.IsZero() {
		t.Fatalf("a tax is missing: %+v", r)
	}
	want(t, "total tax", r.TotalTax, money.Sum(r.IncomeTax, r.AlternativeMinimumTax, others).Sub(usd("100")).ToCent().Text())
}

// IRC 26(a), Schedule 3 lines 1 to 8 and Form 1040 line 19: on 70,000 of a joint
// return of 2025, whose tax is more than all of them: 50 of foreign tax, 20% × 500 of
// care, 20% × 1,000 of learning, 10% × 400 saved, 30% × 100 of improvements, 7 given,
// 2,200 for the child, 600 of an adoption beyond the 5,000 that is refundable, 30% ×
// 10 of clean energy. Refundable: those 5,000 and 11 given.
func TestEveryCreditCounts(t *testing.T) {
	child := children(1)
	child[0].CareExpenses = usd("500")
	h := household.Household{
		TaxYear: 2025, Status: household.MarriedFilingJointly, Spouse: &household.Person{}, Dependents: child,
		Credits: household.Credits{
			ForeignTax: usd("50"), Education: []household.Student{{Kind: household.LifetimeLearning, Expenses: usd("1000")}},
			RetirementSaving: household.ByEarner{Self: usd("400")}, Adoption: []household.Adoption{{Expenses: usd("5600")}},
			Energy:             household.EnergyOf[money.Amount]{Improvements: usd("100"), Clean: usd("10")},
			OtherNonrefundable: usd("7"), OtherRefundable: usd("11"),
		},
	}
	r := Compute(h, []household.YearPay{paid(household.OfSelf, "35000"), paid(household.OfSpouse, "35000")}, lawOf(t, 2025), ByReturn, nil)
	want(t, "nonrefundable credits", r.NonrefundableCredits, "3230") // 50 + 100 + 200 + 40 + 30 + 7 + 2,200 + 600 + 3
	want(t, "refundable credits", r.RefundableCredits, "5011")
}

// IRC 63(d), Schedule A line 17, and each of its parts alone: 7.5% of 100,000 is the
// floor of medical expenses, 0.5% that of gifts from 2026.
func TestEveryItemizedDeductionCounts(t *testing.T) {
	for name, tt := range map[string]struct {
		in   household.Deductions
		want string
	}{
		"medical":            {household.Deductions{Medical: usd("8000")}, "500"},
		"state and local":    {household.Deductions{StateLocalTaxes: usd("9000")}, "9000"},
		"mortgage":           {household.Deductions{MortgageInterest: usd("700")}, "700"},
		"mortgage insurance": {household.Deductions{MortgageInsurance: usd("60")}, "60"},
		"cash gifts":         {household.Deductions{CharityCash: usd("900")}, "400"},
		"other gifts":        {household.Deductions{CharityOther: usd("800")}, "300"},
		"other":              {household.Deductions{OtherItemized: usd("3")}, "3"},
		// 500 + 9,000 + 700 + 60 + (900 + 800 - 500) + 3
		"all": {household.Deductions{Medical: usd("8000"), StateLocalTaxes: usd("9000"), MortgageInterest: usd("700"), MortgageInsurance: usd("60"), CharityCash: usd("900"), CharityOther: usd("800"), OtherItemized: usd("3")}, "11463"},
	} {
		c := throughDeductions(household.Household{Deductions: tt.in}, lawOf(t, 2026), paid(household.OfSelf, "100000"))
		want(t, name, c.deductions.Itemized, tt.want)
	}
}

// IRC 165(d), from 2026 90% of the losses, within the winnings.
func TestGamblingLossesAreItemized(t *testing.T) {
	c := throughDeductions(household.Household{Income: household.Income{GamblingWinnings: usd("5000")}, Deductions: household.Deductions{GamblingLosses: usd("1000")}}, lawOf(t, 2026), paid(household.OfSelf, "100000"))
	want(t, "itemized", c.deductions.Itemized, "900")
}

// IRC 24(d)(1)(B)(ii): the payroll taxes of wages, half of those on self-employment,
// and the additional Medicare tax as owed: 0.9% of wages above 200,000, and half of
// 0.9% of net earnings.
func TestEveryPayrollTaxCounts(t *testing.T) {
	c := onReturn(household.Household{}, lawOf(t, 2026), "0", "0")
	p := paid(household.OfSelf, "210000")
	p.SocialSecurityTax, p.MedicareTax = usd("11000"), usd("3000")
	c.pay = []household.YearPay{p}
	c.work[household.OfSelf].MedicareWages, c.work[household.OfSelf].NetEarnings = usd("210000"), usd("2000")
	c.adjustments.HalfSelfEmployment = usd("140")
	want(t, "payroll taxes", c.payrollTaxes(), "14239") // 11,000 + 3,000 + 140 + 90 + 18 ÷ 2
}

// IRC 62(a)(2)(D): each spouse's expenses, on a joint return, within a cap for each.
func TestEducatorExpensesOfEverySpouse(t *testing.T) {
	h := household.Household{
		Status: household.MarriedFilingJointly, Spouse: &household.Person{},
		Adjustments: household.Adjustments{EducatorExpenses: household.ByEarner{Self: usd("100"), Spouse: usd("230")}},
	}
	c := throughDeductions(h, lawOf(t, 2026), paid(household.OfSelf, "50000"))
	l, _ := c.s.Line("tax.educator_expenses")
	want(t, "educator expenses", l.Amount, "330")
	want(t, "adjustments", c.Adjustments, "330")
}

// IRC 223(b)(2)(A), (b)(3): the self-only limit of 2026 with the addition at 55 is
// 4,400 + 1,000; only more than that shows family coverage.
func TestHSALimitBeforeFamilyCoverage(t *testing.T) {
	for paidIn, assumed := range map[string]bool{"5400": false, "5400.01": true} {
		h := household.Household{
			Self:        household.Person{BirthDate: household.On(1970, 6, 1)},
			Adjustments: household.Adjustments{HSAContribution: usd(paidIn)},
		}
		c := throughDeductions(h, lawOf(t, 2026), paid(household.OfSelf, "50000"))
		if hasNote(c, "hsa_family_assumed") != assumed {
			t.Errorf("%s: family coverage assumed: %v", paidIn, !assumed)
		}
		for _, n := range c.s.Notes {
			if said := n.Said(words.English()); n.Code == "hsa_family_assumed" && !strings.Contains(said, "5,400") {
				t.Errorf("the limit is 5,400: %s", said)
			}
		}
	}
}

// IRC 219(c): on a joint return the pay of both, 3,000 + 4,000, allows a
// contribution.
func TestIRAWithinThePayOfBoth(t *testing.T) {
	for given, above := range map[string]bool{"7000": false, "7000.01": true} {
		h := household.Household{
			Status: household.MarriedFilingJointly, Spouse: &household.Person{},
			Adjustments: household.Adjustments{IRADeduction: usd(given)},
		}
		c := throughDeductions(h, lawOf(t, 2026), paid(household.OfSelf, "3000"), paid(household.OfSpouse, "4000"))
		if hasNote(c, "ira_above_pay") != above {
			t.Errorf("%s: above the pay: %v", given, !above)
		}
	}
}

// IRC 63(c)(5): on a joint return what both earn, 3,000 + 4,000, and 450.
func TestDependentsDeductionByThePayOfBoth(t *testing.T) {
	h := household.Household{Status: household.MarriedFilingJointly, Self: household.Person{CanBeClaimed: true}, Spouse: &household.Person{}}
	c := throughDeductions(h, lawOf(t, 2025), paid(household.OfSelf, "3000"), paid(household.OfSpouse, "4000"))
	want(t, "standard deduction", c.StandardOrItemized, "7450")
}

// Form 6251 line 10 and IRC 26(a): the tax that the minimum tax is compared with,
// and the tax within which credits are allowed, have the advance payments of the
// premium tax credit that are paid back.
func TestAdvancePaidBackIsTax(t *testing.T) {
	// 59,800 × 26% = 15,548, as in TestMinimumTax; less 10,000 and 2,000
	c := onReturn(household.Household{Status: household.MarriedFilingJointly}, lawOf(t, 2026), "200000", "0")
	c.IncomeTax, c.ExcessAdvance = usd("10000"), usd("2000")
	c.minimumTax()
	want(t, "alternative minimum tax", c.AlternativeMinimumTax, "3548")

	// 100 + 20 + 300 of tax, of which a credit of 1,000 takes all
	h := household.Household{Credits: household.Credits{OtherNonrefundable: usd("1000")}}
	c = onReturn(h, lawOf(t, 2026), "0", "0")
	c.IncomeTax, c.ExcessAdvance, c.AlternativeMinimumTax = usd("100"), usd("20"), usd("300")
	c.nonrefundable()
	want(t, "nonrefundable credits", c.NonrefundableCredits, "420")
}

// IRC 129(a), 21(c): the plans of all jobs, 12 × 100 and 12 × 50.
func TestEveryCarePlanCounts(t *testing.T) {
	job := func(each string) household.Job {
		return household.Job{Frequency: household.Monthly, FirstPayday: household.On(2025, 1, 31), Pretax: household.Pretax{DependentCare: usd(each)}}
	}
	c := onReturn(household.Household{Jobs: []household.Job{job("100"), job("50")}}, lawOf(t, 2025), "0", "0")
	want(t, "care excluded", c.careExcluded(), "1800")
}

// Capital Loss Carryover Worksheet, lines 1 to 8: 10,000 - 8,000 - 1,000 - 2,500 is
// -1,500, and with the 3,000 deducted 1,500; that much of the loss of 5,000 is used.
func TestEveryDeductionCountsBeforeLosses(t *testing.T) {
	c := onReturn(household.Household{Income: household.Income{ShortTermGain: usd("-5000")}}, lawOf(t, 2026), "10000", "0")
	c.income.CapitalGain = usd("-3000")
	c.StandardOrItemized, c.BusinessDeduction, c.ExtraDeductions = usd("8000"), usd("1000"), usd("2500")
	c.carryLosses()
	want(t, "carried", c.CarriedLosses.ShortTerm, "3500")
}

// IRC 24(d)(2): the taxes of all jobs, 1,000 + 200 + 30 + 4.
func TestPayrollTaxesOfEveryJob(t *testing.T) {
	first, second := paid(household.OfSelf, "20000"), paid(household.OfSelf, "3000")
	first.SocialSecurityTax, first.MedicareTax = usd("1000"), usd("200")
	second.SocialSecurityTax, second.MedicareTax = usd("30"), usd("4")
	c := onReturn(household.Household{}, lawOf(t, 2026), "0", "0")
	c.pay = []household.YearPay{first, second}
	want(t, "payroll taxes", c.payrollTaxes(), "1234")
}

// IRC 25A(i): the refundable part of the American opportunity credit is one of the
// refundable credits, beside 30 given.
func TestOpportunityCreditIsRefundable(t *testing.T) {
	c := onReturn(household.Household{Credits: household.Credits{OtherRefundable: usd("30")}}, lawOf(t, 2026), "0", "0")
	c.credits.opportunityRefundable = usd("400")
	c.refundable()
	want(t, "refundable credits", c.RefundableCredits, "430")
}

// Each earner's wages are those of all their jobs, of each kind of wages.
func TestWagesOfEveryJob(t *testing.T) {
	c := onReturn(household.Household{}, lawOf(t, 2026), "0", "0")
	c.pay = []household.YearPay{
		{TaxableWages: usd("1"), SocialSecurityWages: usd("300"), MedicareWages: usd("50000")},
		{TaxableWages: usd("20"), SocialSecurityWages: usd("4000"), MedicareWages: usd("600000")},
	}
	c.wages()
	w := c.work[household.OfSelf]
	want(t, "wages of the return", c.Wages, "21")
	want(t, "taxable wages", w.Wages, "21")
	want(t, "social security wages", w.SocialSecurityWages, "4300")
	want(t, "Medicare wages", w.MedicareWages, "650000")
}

// IRC 904(a), 904(j): within the tax of 100 and the advance of 20 paid back.
func TestForeignTaxWithinTheTax(t *testing.T) {
	c := onReturn(household.Household{Credits: household.Credits{ForeignTax: usd("150")}}, lawOf(t, 2026), "0", "0")
	c.IncomeTax, c.ExcessAdvance, c.credits.taxLeft = usd("100"), usd("20"), usd("1000")
	want(t, "foreign tax credit", c.foreignTax(), "120")
}

// Schedule A line 8e, in a year whose law has mortgage insurance: 700 + 60.
func TestMortgageLineHasTheInsurance(t *testing.T) {
	in := household.Deductions{MortgageInterest: usd("700"), MortgageInsurance: usd("60")}
	c := throughDeductions(household.Household{Deductions: in}, lawOf(t, 2026), paid(household.OfSelf, "100000"))
	l, _ := c.s.Line("tax.itemized.mortgage")
	want(t, "line 8e", l.Amount, "760")
	want(t, "itemized", c.deductions.Itemized, "760")
}

// Form 1040 line 24: 1,000 + 20 + 300 of tax, less credits of 4.
func TestTotalTaxHasTheMinimumTax(t *testing.T) {
	c := onReturn(household.Household{}, lawOf(t, 2026), "0", "0")
	c.IncomeTax, c.ExcessAdvance, c.AlternativeMinimumTax, c.NonrefundableCredits = usd("1000"), usd("20"), usd("300"), usd("4")
	c.otherTaxes()
	want(t, "total tax", c.TotalTax, "1316")
}

// Schedule 1 line 16: what both put into plans of their own business.
func TestOwnRetirementOfBoth(t *testing.T) {
	h := household.Household{
		Status: household.MarriedFilingJointly, Spouse: &household.Person{},
		Income:      household.Income{SelfEmployment: household.ByEarner{Self: usd("50000"), Spouse: usd("40000")}},
		Adjustments: household.Adjustments{SelfEmployedRetirement: household.ByEarner{Self: usd("1000"), Spouse: usd("200")}},
	}
	c := throughDeductions(h, lawOf(t, 2026))
	want(t, "own retirement", c.adjustments.OwnRetirement, "1200")
}
