package tax

import (
	"slices"
	"strings"
	"testing"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/sample"
	"example.com/plumbline/internal/tables"
)

// edge is a threshold of the yearly table and how a result changes at it: over
// the dollar that leads up to the threshold, and over the dollar after it. The
// changes are the law's, in dollars; the threshold is the table's.
type edge struct {
	key          string // the figure
	source       string
	at           func(*tables.Year, household.Status) money.Amount
	value        func(*tables.Year, household.Status, money.Amount) money.Amount // the result where the amount that the threshold measures is this
	below, above string
}

// TestEdges goes over every threshold of the figures from wages to taxable
// income, for every year and each status that has one.
func TestEdges(t *testing.T) {
	groups := []string{
		"standard_deduction", "self_employment_tax", "social_security_benefits", "adjustments", "itemized_deductions",
		"charity", "tips_deduction", "overtime_deduction", "car_loan_deduction", "senior_deduction", "qualified_business_income",
	}
	elsewhere := []string{ // rates and amounts, tested by hand; ages, in TestAges
		"standard_deduction.aged_from", "standard_deduction.aged_or_blind",
		"self_employment_tax.net_earnings.factor", "self_employment_tax.social_security_rate", "self_employment_tax.medicare_rate",
		"self_employment_tax.deduction.share",
		"self_employment_tax.net_earnings.at_least", // by the cent, in TestSelfEmploymentTax
		"social_security_benefits.lower_rate", "social_security_benefits.upper_rate",
		"adjustments.health_savings.self_only", "adjustments.health_savings.catch_up_from", "adjustments.individual_retirement.catch_up_from",
		"itemized_deductions.medical.floor", "itemized_deductions.state_local_taxes.phase_down_rate", "itemized_deductions.mortgage_insurance.lost_each_step",
		"itemized_deductions.overall_limit.numerator", "itemized_deductions.overall_limit.denominator",
		"tips_deduction.phase_out.lost_each_step", "overtime_deduction.phase_out.lost_each_step", "car_loan_deduction.phase_out.lost_each_step",
		"senior_deduction.aged_from", "senior_deduction.phase_out_rate",
		"qualified_business_income.wages_share", "qualified_business_income.wages_share_with_property", "qualified_business_income.property_share", // in TestLimitedBusiness
		"qualified_business_income.rate", "qualified_business_income.phase_in_range",
		"qualified_business_income.threshold",                                                              // in TestBusinessThreshold
		"qualified_business_income.minimum_deduction", "qualified_business_income.minimum_requires_income", // in TestBusinessDeduction
	}
	edges := deductionEdges()
	for _, year := range sample.Years() {
		y := lawOf(t, year)
		checkEdges(t, y, edges)
		edgesAreComplete(t, y, edges, groups, elsewhere)
	}
}

// checkEdges looks a dollar to each side of every edge, in each status that
// has it.
func checkEdges(t *testing.T, y *tables.Year, edges []edge) {
	t.Helper()
	for _, e := range edges {
		for _, status := range household.Statuses() {
			at := e.at(y, status)
			if !at.IsPositive() {
				continue // the year or the status has none
			}
			before, here, after := e.value(y, status, at.Sub(money.Dollars(1))), e.value(y, status, at), e.value(y, status, at.Add(money.Dollars(1)))
			if got := here.Sub(before).ToCent(); !got.Equal(usd(e.below)) {
				t.Errorf("%d %v: %s: %v over the dollar up to %v, want %s (%s)", y.Year, status, e.key, got, at, e.below, e.source)
			}
			if got := after.Sub(here).ToCent(); !got.Equal(usd(e.above)) {
				t.Errorf("%d %v: %s: %v over the dollar after %v, want %s (%s)", y.Year, status, e.key, got, at, e.above, e.source)
			}
		}
	}
}

// edgesAreComplete asks that each figure of some groups is an edge, or named as
// tested elsewhere.
func edgesAreComplete(t *testing.T, y *tables.Year, edges []edge, groups, elsewhere []string) {
	t.Helper()
	for _, f := range y.Figures() {
		group, _, _ := strings.Cut(f.Key, ".")
		if !slices.Contains(groups, group) {
			continue
		}
		key := f.Key
		for _, status := range household.Statuses() {
			key = strings.Replace(key, "."+status.String(), "", 1)
		}
		isEdge := slices.ContainsFunc(edges, func(e edge) bool { return e.key == key })
		if !isEdge && !slices.Contains(elsewhere, key) {
			t.Errorf("%d: %s has no edge", y.Year, key)
		}
	}
}

// quotient is a ÷ r.
func quotient(a money.Amount, r money.Rate) money.Amount {
	return usd(a.Over(usd(r.Text())).ToPlaces(9).Text())
}

// withWages figures a household whose wages are its income.
func withWages(y *tables.Year, h household.Household, wages money.Amount) *computation {
	return throughDeductions(h, y, household.YearPay{TaxableWages: wages, SocialSecurityWages: wages, MedicareWages: wages})
}

func deductionEdges() []edge {
	type (
		year   = *tables.Year
		status = household.Status
		amount = money.Amount
		facts  = household.Household
		in     = household.Deductions
		ad     = household.Adjustments
	)
	one := func(f func(year) amount) func(year, status) amount {
		return func(y year, _ status) amount { return f(y) }
	}
	fifty := usd("50000")
	old := household.Person{BirthDate: household.On(1960, 5, 5)}
	people := func(s status) int {
		if s == household.MarriedFilingJointly {
			return 2
		}
		return 1
	}

	standard := func(y year, s status, earned amount) amount {
		return withWages(y, facts{Status: s, Self: household.Person{CanBeClaimed: true}}, earned).StandardOrItemized
	}
	selfEmployed := func(y year, s status, wages amount) amount { // net earnings of 9,235
		return withWages(y, facts{Status: s, Income: household.Income{SelfEmployment: household.ByEarner{Self: usd("10000")}}}, wages).SelfEmploymentTax
	}
	benefits := func(apart bool) func(y year, s status, income amount) amount {
		return func(y year, s status, income amount) amount { // half of the benefits is 10,000
			h := facts{Status: s, LivedApart: apart, Income: household.Income{SocialSecurity: usd("20000"), Other: income.Sub(usd("10000"))}}
			return throughDeductions(h, y).income.TaxableBenefits
		}
	}
	separateOnly := func(f func(year) amount) func(year, status) amount {
		return func(y year, s status) amount {
			if s != household.MarriedFilingSeparately {
				return money.Zero
			}
			return f(y)
		}
	}
	studentLoan := func(y year, s status, income amount) amount { // a twentieth of the range: 5 cents lost a dollar
		phase := y.Adjustments.StudentLoan.PhaseOut.Of(s)
		h := facts{Status: s, Adjustments: ad{StudentLoanInterest: phase.To.Sub(phase.From).DividedBy(20)}}
		return withWages(y, h, income).Adjustments
	}
	adjusted := func(person household.Person, given func(amount) ad) func(year, status, amount) amount {
		return func(y year, s status, a amount) amount {
			return withWages(y, facts{Status: s, Self: person, Spouse: &person, Adjustments: given(a)}, fifty).Adjustments
		}
	}
	itemizedAt := func(given in) func(year, status, amount) amount { // by income
		return func(y year, s status, income amount) amount {
			return withWages(y, facts{Status: s, Deductions: given}, income).deductions.Itemized
		}
	}
	itemizedOf := func(given func(amount) in) func(year, status, amount) amount { // on an income of 50,000
		return func(y year, s status, a amount) amount {
			return withWages(y, facts{Status: s, Deductions: given(a)}, fifty).deductions.Itemized
		}
	}
	premiums := func(f func(*tables.MortgageInsurance, status) amount) func(year, status) amount {
		return func(y year, s status) amount {
			if y.Itemized.MortgageInsurance == nil {
				return money.Zero
			}
			return f(y.Itemized.MortgageInsurance, s)
		}
	}
	job := func(s status, tips, overtime amount) facts {
		return facts{Status: s, Jobs: []household.Job{{QualifiedTips: tips, QualifiedOvertime: overtime}}}
	}
	extraAt := func(h func(status) facts) func(year, status, amount) amount { // by income
		return func(y year, s status, income amount) amount { return withWages(y, h(s), income).ExtraDeductions }
	}
	extraOf := func(h func(status, amount) facts) func(year, status, amount) amount { // on an income of 50,000
		return func(y year, s status, a amount) amount { return withWages(y, h(s, a), fifty).ExtraDeductions }
	}
	allowed := func(most tables.Amounts, s status, at amount) amount { // none where the status may deduct nothing
		if most.Of(s).IsZero() {
			return money.Zero
		}
		return at
	}
	tips := extraAt(func(s status) facts { return job(s, usd("5000"), money.Zero) })
	overtime := extraAt(func(s status) facts { return job(s, money.Zero, usd("5000")) })
	carLoan := extraAt(func(s status) facts { return facts{Status: s, Deductions: in{CarLoanInterest: usd("5000")}} })
	senior := extraAt(func(s status) facts { return facts{Status: s, Self: old} })

	return []edge{
		{"standard_deduction.dependent_at_least", "IRC 63(c)(5)(A)", one(func(y year) amount {
			return y.StandardDeduction.DependentLeast.Sub(y.StandardDeduction.DependentEarnedPlus)
		}), standard, "0", "1"},
		{"standard_deduction.dependent_earned_income_plus", "IRC 63(c)(5)(B)", func(y year, s status) amount {
			return y.StandardDeduction.Basic.Of(s).Sub(y.StandardDeduction.DependentEarnedPlus)
		}, standard, "1", "0"},
		{
			"standard_deduction.basic", "IRC 63(e): itemized above it", func(y year, s status) amount { return y.StandardDeduction.Basic.Of(s) },
			func(y year, s status, a amount) amount {
				return withWages(y, facts{Status: s, Deductions: in{OtherItemized: a}}, fifty).StandardOrItemized
			}, "0", "1",
		},

		{
			"capital_losses.limit", "IRC 1211(b)", func(y year, s status) amount { return y.CapitalLosses.Limit.Of(s) },
			func(y year, s status, loss amount) amount {
				return throughDeductions(facts{Status: s, Income: household.Income{LongTermGain: loss.Neg()}}, y).income.CapitalGain
			}, "-1", "0",
		},

		{
			"social_security_tax.wage_base.amount", "IRC 1402(b)(1): 12.4% less once wages leave too little", one(func(y year) amount { return y.SocialSecurityTax.WageBase.Amount.Sub(usd("9235")) }),
			selfEmployed, "0", "-0.12",
		},
		{
			"social_security_tax.wage_base.amount", "IRC 1402(b)(1): nothing left of it", one(func(y year) amount { return y.SocialSecurityTax.WageBase.Amount }),
			selfEmployed, "-0.12", "0",
		},

		{"social_security_benefits.base_amount", "IRC 86(a)(1), (c)(1)", func(y year, s status) amount { return y.Benefits.Base.Of(s) }, benefits(false), "0", "0.50"},
		{"social_security_benefits.adjusted_base_amount", "IRC 86(a)(2), (c)(2)", func(y year, s status) amount { return y.Benefits.AdjustedBase.Of(s) }, benefits(false), "0.50", "0.85"},
		{"social_security_benefits.lived_apart_base_amount", "IRC 86(c)(1)", separateOnly(func(y year) amount { return y.Benefits.ApartBase }), benefits(true), "0", "0.50"},
		{"social_security_benefits.lived_apart_adjusted_base_amount", "IRC 86(c)(2)", separateOnly(func(y year) amount { return y.Benefits.ApartAdjustedBase }), benefits(true), "0.50", "0.85"},

		{"adjustments.student_loan_interest.cap", "IRC 221(b)(1)", func(y year, s status) amount {
			if y.Adjustments.StudentLoan.PhaseOut.Of(s).To.IsZero() {
				return money.Zero
			}
			return y.Adjustments.StudentLoan.Cap
		}, adjusted(household.Person{}, func(a amount) ad { return ad{StudentLoanInterest: a} }), "1", "0"},
		{"adjustments.student_loan_interest.phase_out.from", "IRC 221(b)(2)", func(y year, s status) amount { return y.Adjustments.StudentLoan.PhaseOut.Of(s).From }, studentLoan, "0", "-0.05"},
		{"adjustments.student_loan_interest.phase_out.to", "IRC 221(b)(2)", func(y year, s status) amount { return y.Adjustments.StudentLoan.PhaseOut.Of(s).To }, studentLoan, "-0.05", "0"},
		{
			"adjustments.educator_expenses.cap", "IRC 62(a)(2)(D)", one(func(y year) amount { return y.Adjustments.Educator.Cap }),
			adjusted(household.Person{}, func(a amount) ad { return ad{EducatorExpenses: household.ByEarner{Self: a}} }), "1", "0",
		},
		{
			"adjustments.health_savings.family", "IRC 223(b)(2)(B)", one(func(y year) amount { return y.Adjustments.HealthSavings.Family }),
			adjusted(household.Person{}, func(a amount) ad { return ad{HSAContribution: a} }), "1", "0",
		},
		{"adjustments.health_savings.catch_up", "IRC 223(b)(3)", func(y year, s status) amount {
			return y.Adjustments.HealthSavings.Family.Add(y.Adjustments.HealthSavings.CatchUp.Times(people(s)))
		}, adjusted(old, func(a amount) ad { return ad{HSAContribution: a} }), "1", "0"},
		{
			"adjustments.individual_retirement.limit", "IRC 219(b)(5)(A)", func(y year, s status) amount { return y.Adjustments.IndividualRetirement.Limit.Times(people(s)) },
			adjusted(household.Person{}, func(a amount) ad { return ad{IRADeduction: a} }), "1", "0",
		},
		{"adjustments.individual_retirement.catch_up", "IRC 219(b)(5)(B)", func(y year, s status) amount {
			return y.Adjustments.IndividualRetirement.Limit.Add(y.Adjustments.IndividualRetirement.CatchUp).Times(people(s))
		}, adjusted(old, func(a amount) ad { return ad{IRADeduction: a} }), "1", "0"},

		{
			"itemized_deductions.state_local_taxes.cap", "IRC 164(b)(6)", func(y year, s status) amount { return y.Itemized.StateLocal.Cap.Of(s) },
			itemizedOf(func(a amount) in { return in{StateLocalTaxes: a} }), "1", "0",
		},
		{
			"itemized_deductions.state_local_taxes.phase_down_from", "IRC 164(b)(7)(B)", func(y year, s status) amount { return y.Itemized.StateLocal.PhaseFrom.Of(s) },
			itemizedAt(in{StateLocalTaxes: usd("60000")}), "0", "-0.30",
		},
		{"itemized_deductions.state_local_taxes.at_least", "IRC 164(b)(7)(B)", func(y year, s status) amount {
			t := &y.Itemized.StateLocal
			return t.PhaseFrom.Of(s).Add(quotient(t.Cap.Of(s).Sub(t.AtLeast.Of(s)), t.PhaseRate))
		}, itemizedAt(in{StateLocalTaxes: usd("60000")}), "-0.30", "0"},
		{
			"itemized_deductions.mortgage_insurance.phase_out_from", "IRC 163(h)(3)(E)(ii)", premiums(func(m *tables.MortgageInsurance, s status) amount { return m.PhaseFrom.Of(s) }),
			itemizedAt(in{MortgageInsurance: usd("1000")}), "0", "-100",
		},
		{
			"itemized_deductions.mortgage_insurance.step", "IRC 163(h)(3)(E)(ii)", premiums(func(m *tables.MortgageInsurance, s status) amount { return m.PhaseFrom.Of(s).Add(m.Step.Of(s)) }),
			itemizedAt(in{MortgageInsurance: usd("1000")}), "0", "-100",
		},
		{"itemized_deductions.overall_limit.over", "IRC 68(a)(2): 2/37 of a dollar", func(y year, s status) amount {
			if y.Itemized.Overall == nil {
				return money.Zero
			}
			return y.Itemized.Overall.Over.Of(s)
		}, itemizedAt(in{OtherItemized: usd("37000")}), "0", "-0.05"},

		{
			"charity.cash_limit", "IRC 170(b)(1)(G)", one(func(y year) amount { return fifty.At(y.Charity.CashLimit) }),
			itemizedOf(func(a amount) in { return in{CharityCash: a} }), "1", "0",
		},
		{
			"charity.other_limit", "IRC 170(b)(1)(A)", one(func(y year) amount { return fifty.At(y.Charity.OtherLimit) }),
			itemizedOf(func(a amount) in { return in{CharityOther: a} }), "1", "0",
		},
		{
			"charity.floor", "IRC 170(b)(1)(I)", one(func(y year) amount { return fifty.At(y.Charity.Floor) }),
			itemizedOf(func(a amount) in { return in{CharityOther: a} }), "0", "1",
		},
		{
			"gifts_without_itemizing.cap", "IRC 170(p)", func(y year, s status) amount { return y.PlainGifts.Cap.Of(s) },
			extraOf(func(s status, a amount) facts { return facts{Status: s, Deductions: in{CharityCash: a}} }), "1", "0",
		},

		{
			"tips_deduction.cap", "IRC 224(b)(1)", func(y year, s status) amount { return y.Tips.Cap.Of(s) },
			extraOf(func(s status, a amount) facts { return job(s, a, money.Zero) }), "1", "0",
		},
		{"tips_deduction.phase_out.from", "IRC 224(b)(2)", func(y year, s status) amount { return allowed(y.Tips.Cap, s, y.Tips.PhaseOut.From.Of(s)) }, tips, "0", "0"},
		{"tips_deduction.phase_out.step", "IRC 224(b)(2): a full thousand", func(y year, s status) amount {
			return allowed(y.Tips.Cap, s, y.Tips.PhaseOut.From.Of(s).Add(y.Tips.PhaseOut.Step))
		}, tips, "-100", "0"},
		{
			"overtime_deduction.cap", "IRC 225(b)(1)", func(y year, s status) amount { return y.Overtime.Cap.Of(s) },
			extraOf(func(s status, a amount) facts { return job(s, money.Zero, a) }), "1", "0",
		},
		{"overtime_deduction.phase_out.from", "IRC 225(b)(2)", func(y year, s status) amount { return allowed(y.Overtime.Cap, s, y.Overtime.PhaseOut.From.Of(s)) }, overtime, "0", "0"},
		{"overtime_deduction.phase_out.step", "IRC 225(b)(2): a full thousand", func(y year, s status) amount {
			return allowed(y.Overtime.Cap, s, y.Overtime.PhaseOut.From.Of(s).Add(y.Overtime.PhaseOut.Step))
		}, overtime, "-100", "0"},
		{
			"car_loan_deduction.cap", "IRC 163(h)(4)(C)(i)", func(y year, s status) amount { return y.CarLoan.Cap.Of(s) },
			extraOf(func(s status, a amount) facts { return facts{Status: s, Deductions: in{CarLoanInterest: a}} }), "1", "0",
		},
		{"car_loan_deduction.phase_out.from", "IRC 163(h)(4)(C)(ii): a thousand begun", func(y year, s status) amount { return y.CarLoan.PhaseOut.From.Of(s) }, carLoan, "0", "-200"},
		{"car_loan_deduction.phase_out.step", "IRC 163(h)(4)(C)(ii): the next begun", func(y year, s status) amount {
			return y.CarLoan.PhaseOut.From.Of(s).Add(y.CarLoan.PhaseOut.Step)
		}, carLoan, "0", "-200"},
		{"senior_deduction.phase_out_from", "IRC 151(d)(5)(C)(iii)", func(y year, s status) amount { return allowed(y.Senior.Each, s, y.Senior.From.Of(s)) }, senior, "0", "-0.06"},
		{"senior_deduction.each", "IRC 151(d)(5)(C)(iii): gone", func(y year, s status) amount {
			return allowed(y.Senior.Each, s, y.Senior.From.Of(s).Add(quotient(y.Senior.Each.Of(s), y.Senior.Rate)))
		}, senior, "-0.06", "0"},
	}
}

// TestAges goes over the ages: reached on the last day of the year, and not
// yet by one born later. Where the law holds a person to be of an age on the
// day before the birthday, one born on January 1 counts.
func TestAges(t *testing.T) {
	for _, year := range sample.Years() {
		y := lawOf(t, year)
		of := func(h household.Household, born household.Date) *computation {
			h.Self.BirthDate = born
			return throughDeductions(h, y, paid(household.OfSelf, "50000"))
		}
		tests := []struct {
			source    string
			age       int
			dayBefore bool
			counts    func(born household.Date) money.Amount // more where the age is reached
			more      money.Amount
		}{
			{"IRC 63(f)(1); Instructions for Form 1040 (2025), p. 110", y.StandardDeduction.AgedFrom, true, func(born household.Date) money.Amount {
				return of(household.Household{}, born).StandardOrItemized
			}, y.StandardDeduction.AgedOrBlind.Single},
			{"IRC 151(d)(5)(C)(ii); Instructions for Form 1040 (2025), p. 110", y.Senior.AgedFrom, true, func(born household.Date) money.Amount {
				return of(household.Household{}, born).ExtraDeductions
			}, y.Senior.Each.Single},
			{"IRC 223(b)(3)", y.Adjustments.HealthSavings.CatchUpFrom, false, func(born household.Date) money.Amount {
				return of(household.Household{Adjustments: household.Adjustments{HSAContribution: usd("20000")}}, born).Adjustments
			}, y.Adjustments.HealthSavings.CatchUp},
			{"IRC 219(b)(5)(B)", y.Adjustments.IndividualRetirement.CatchUpFrom, false, func(born household.Date) money.Amount {
				return of(household.Household{Adjustments: household.Adjustments{IRADeduction: usd("20000")}}, born).Adjustments
			}, y.Adjustments.IndividualRetirement.CatchUp},
		}
		for _, tt := range tests {
			none := tt.counts(household.Date{})
			reached := func(d household.Date) bool {
				more := tt.counts(d).Sub(none)
				if !more.IsZero() && !more.Equal(tt.more) {
					t.Errorf("%d: %s: %v more for one born %v, want %v", year, tt.source, more, d, tt.more)
				}
				return more.IsPositive()
			}
			next := year - tt.age + 1
			for _, d := range []struct {
				born household.Date
				want bool
			}{
				{household.On(year-tt.age, 12, 31), true},
				{household.On(next, 1, 1), tt.dayBefore},
				{household.On(next, 1, 2), false},
				{household.Date{}, false},
			} {
				if got := reached(d.born); got != d.want {
					t.Errorf("%d: %s: born %v, counts %v, want %v", year, tt.source, d.born, got, d.want)
				}
			}
		}
	}
}
