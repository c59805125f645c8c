package tax

import (
	"fmt"
	"testing"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/sample"
	"example.com/plumbline/internal/tables"
)

// TestEdgesOfTaxAndCredits goes over every threshold of the figures from
// taxable income to the payments, for both years and each status that has one.
func TestEdgesOfTaxAndCredits(t *testing.T) {
	groups := []string{
		"rate_schedules", "tax_table", "capital_gains", "social_security_tax", "additional_medicare_tax", "net_investment_income_tax",
		"alternative_minimum_tax", "child_tax_credit", "dependent_tests", "dependent_care_credit", "education_credits", "savers_credit",
		"earned_income_credit", "underpayment",
	}
	elsewhere := []string{
		// rates and amounts, tested by hand
		"rate_schedules.by_status[0].over",
		"capital_gains.middle_rate", "capital_gains.top_rate", "capital_losses.limit",
		"social_security_tax.rate", "social_security_tax.medicare_rate",
		"additional_medicare_tax.rate", "additional_medicare_tax.employer_withholds_over",
		"net_investment_income_tax.rate",
		"alternative_minimum_tax.lower_rate", "alternative_minimum_tax.upper_rate", "alternative_minimum_tax.phase_out_rate",
		"child_tax_credit.phase_out.lost_each_step", "child_tax_credit.refundable_rate",
		"child_tax_credit.payroll_tax_rule_from_children", "child_tax_credit.taxpayer_ssn_required",
		"dependent_care_credit.top_rate", "dependent_care_credit.lost_each_step", "dependent_care_credit.first_phase_at_least", "dependent_care_credit.second_phase.at_least",
		"education_credits.opportunity_part_rate", "education_credits.opportunity_refundable_rate", "education_credits.lifetime_rate",
		"education_credits.taxpayer_ssn_required",
		"underpayment.share_of_this_year", "underpayment.share_of_last_year", "underpayment.high_income_extra_share", "underpayment.due_less_than",
		"underpayment.installments.due", "underpayment.installments.day_of_month",
		"dependent_care_credit.student.earns_a_month_one", "dependent_care_credit.student.earns_a_month_two_or_more", "dependent_care_credit.student.months",
		// the Tax Table and the EIC Table, compared with print
		"tax_table.below", "earned_income_credit.table_row_width",
		// ages and months, in the tests of dependents and of who has a credit
		"child_tax_credit.child_under", "dependent_tests.qualifying_child.under", "dependent_tests.qualifying_child.student_under", "dependent_care_credit.child_under",
		"dependent_tests.qualifying_child.residence_months_over", "dependent_tests.qualifying_relative.member_months",
		"education_credits.refundable_from_age", "savers_credit.minimum_age",
		"earned_income_credit.childless_from_age", "earned_income_credit.childless_under_age",
	}
	for i := range 4 {
		elsewhere = append(elsewhere, fmt.Sprintf("tax_table.rows[%d].below", i), fmt.Sprintf("tax_table.rows[%d].width", i),
			fmt.Sprintf("savers_credit.tiers[%d].rate", i))
		for _, of := range []string{"maximum_credit", "phase_in_rate", "phase_out_rate", "completed_phase_out", "completed_phase_out_joint"} {
			elsewhere = append(elsewhere, fmt.Sprintf("earned_income_credit.by_children[%d].%s", i, of))
		}
	}
	for i := range 7 {
		elsewhere = append(elsewhere, fmt.Sprintf("rate_schedules.by_status[%d].rate", i))
	}
	for i := range 12 {
		for _, of := range []string{"from", "rate", "basis"} {
			elsewhere = append(elsewhere, fmt.Sprintf("underpayment.interest.rates[%d].%s", i, of))
		}
	}
	for _, year := range sample.Years() {
		y := lawOf(t, year)
		edges := append(taxEdges(year), creditEdges()...)
		edges = append(edges, earnedIncomeEdges()...)
		checkEdges(t, y, edges)
		edgesAreComplete(t, y, edges, groups, elsewhere)
	}
}

// bySchedule is a return of whole-cent tax whose income is worked out already.
func bySchedule(h household.Household, y *tables.Year, adjustedGross, taxable money.Amount) *computation {
	c := &computation{h: h, y: y, m: BySchedule}
	c.Year, c.Status = y.Year, h.Status
	c.dependents = Standings(h, y)
	c.AdjustedGrossIncome, c.TaxableIncome = adjustedGross, taxable
	c.credits.taxLeft = usd("1000000")
	return c
}

func taxEdges(year int) []edge {
	type (
		law    = *tables.Year
		status = household.Status
		amount = money.Amount
	)
	same := func(f func(law) amount) func(law, status) amount {
		return func(y law, _ status) amount { return f(y) }
	}
	var edges []edge
	// IRC 1(j)(2): 10, 12, 22, 24, 32, 35 and 37 percent.
	rates := []string{"0.10", "0.12", "0.22", "0.24", "0.32", "0.35", "0.37"}
	for i := 1; i < len(rates); i++ {
		edges = append(edges, edge{
			fmt.Sprintf("rate_schedules.by_status[%d].over", i), "IRC 1(j)(2)",
			func(y law, s status) amount { return y.Schedules.Rates.Of(s)[i].Over },
			func(y law, s status, taxable amount) amount {
				return bySchedule(household.Household{Status: s}, y, taxable, taxable).tax(taxable)
			}, rates[i-1], rates[i],
		})
	}
	gains := func(y law, s status, taxable amount) amount {
		c := bySchedule(household.Household{Status: s}, y, taxable, taxable)
		c.income.NetCapitalGain = taxable
		c.incomeTax()
		return c.IncomeTax
	}
	exemption := func(y law, s status, income amount) amount {
		return bySchedule(household.Household{Status: s}, y, money.Zero, money.Zero).minimumTaxExemption(income)
	}
	// IRC 55(d)(3); 55(d)(4)(A)(ii) as amended by P.L. 119-21 sec. 70107, from 2026.
	lost := "-0.50"
	if year < 2026 {
		lost = "-0.25"
	}
	return append(edges,
		edge{"capital_gains.zero_rate_up_to", "IRC 1(h)(1)(B)", func(y law, s status) amount { return y.CapitalGains.ZeroTop.Of(s) }, gains, "0", "0.15"},
		edge{"capital_gains.middle_rate_up_to", "IRC 1(h)(1)(C)", func(y law, s status) amount { return y.CapitalGains.MiddleTop.Of(s) }, gains, "0.15", "0.20"},
		edge{
			"alternative_minimum_tax.exemption", "IRC 55(d)(1)", func(y law, s status) amount { return y.AMT.Exemption.Of(s) },
			func(y law, s status, income amount) amount {
				c := bySchedule(household.Household{Status: s}, y, income, money.Zero)
				c.minimumTax()
				return c.AlternativeMinimumTax
			}, "0", "0.26",
		},
		edge{"alternative_minimum_tax.phase_out_from", "IRC 55(d)(3)", func(y law, s status) amount { return y.AMT.PhaseOutFrom.Of(s) }, exemption, "0", lost},
		edge{"alternative_minimum_tax.phase_out_from", "IRC 55(d)(3): gone", func(y law, s status) amount {
			return y.AMT.PhaseOutFrom.Of(s).Add(quotient(y.AMT.Exemption.Of(s), y.AMT.PhaseOutRate))
		}, exemption, lost, "0"},
		edge{
			"alternative_minimum_tax.upper_rate_over", "IRC 55(b)(1)(A)", func(y law, s status) amount { return y.AMT.UpperOver.Of(s) },
			func(y law, s status, base amount) amount {
				return bySchedule(household.Household{Status: s}, y, money.Zero, money.Zero).tentativeTax(base)
			}, "0.26", "0.28",
		},
		edge{
			"additional_medicare_tax.over", "IRC 3101(b)(2): 0.9%, rounded to the cent", func(y law, s status) amount { return y.AdditionalMedicare.Over.Of(s) },
			func(y law, s status, wages amount) amount {
				c := bySchedule(household.Household{Status: s}, y, wages, wages)
				c.work[household.OfSelf].MedicareWages = wages
				c.additionalMedicare()
				return c.AdditionalMedicareTax
			}, "0", "0.01",
		},
		edge{
			"net_investment_income_tax.over", "IRC 1411(b): 3.8%, rounded to the cent", func(y law, s status) amount { return y.NetInvestment.Over.Of(s) },
			func(y law, s status, income amount) amount {
				c := bySchedule(household.Household{Status: s}, y, income, income)
				c.income.Interest = usd("1000")
				c.netInvestment()
				return c.NetInvestmentTax
			}, "0", "0.04",
		},
		edge{
			"social_security_tax.wage_base.amount", "IRC 6413(c)(1)", same(func(y law) amount { return y.SocialSecurityTax.WageBase.Amount.At(y.SocialSecurityTax.Rate) }),
			func(y law, s status, withheld amount) amount {
				c := bySchedule(household.Household{Status: s}, y, money.Zero, money.Zero)
				c.pay = []household.YearPay{{SocialSecurityTax: usd("500")}, {SocialSecurityTax: withheld.Sub(usd("500"))}}
				c.payments()
				return c.ExcessSocialSecurity
			}, "0", "1",
		},
		edge{
			"underpayment.high_income_over", "IRC 6654(d)(1)(C): 10% of 1,000", func(y law, s status) amount { return y.Underpayment.HighIncome.Of(s) },
			func(y law, s status, income amount) amount {
				total := usd("1000")
				h := household.Household{Status: s, LastYear: &household.LastYear{TotalTax: &total, AdjustedGrossIncome: &income}}
				return SafeHarbor(Return{Status: s, TotalTax: usd("9000")}, h, money.Zero, y).Required
			}, "0", "100",
		},
	)
}

func creditEdges() []edge {
	type (
		law    = *tables.Year
		status = household.Status
		amount = money.Amount
		facts  = household.Household
	)
	same := func(f func(law) amount) func(law, status) amount {
		return func(y law, _ status) amount { return f(y) }
	}
	fifty := usd("50000")
	parent := household.Dependent{Relationship: household.Parent, BirthDate: household.On(1950, 1, 1)}
	child := func(y law, s status, income amount) amount {
		return bySchedule(facts{Status: s, Dependents: children(1)}, y, income, income).childTaxCredit()
	}
	taken := func(d ...household.Dependent) func(law, status, amount) amount { // by the tax left
		return func(y law, s status, tax amount) amount {
			c := bySchedule(facts{Status: s, Dependents: d}, y, fifty, fifty)
			c.credits.taxLeft = tax
			return c.childTaxCredit()
		}
	}
	additional := func(unused, earned func(amount) amount) func(law, status, amount) amount {
		return func(y law, s status, a amount) amount {
			c := bySchedule(facts{Status: s, Dependents: children(1)}, y, fifty, fifty)
			c.credits.children, c.credits.childUnused = 1, unused(a)
			c.work[household.OfSelf].EarnedIncome = earned(a)
			return c.additionalChildTaxCredit()
		}
	}
	itself := func(a amount) amount { return a }
	always := func(text string) func(amount) amount { return func(amount) amount { return usd(text) } }
	care := func(n int, income func(amount) amount, expenses func(amount) amount) func(law, status, amount) amount {
		return func(y law, s status, a amount) amount {
			h := facts{Status: s, LivedApart: true, Dependents: children(n)}
			h.Dependents[0].CareExpenses = expenses(a)
			c := bySchedule(h, y, income(a), fifty)
			c.work[household.OfSelf].EarnedIncome, c.work[household.OfSpouse].EarnedIncome = fifty, fifty
			return c.dependentCare()
		}
	}
	careAt := care(1, itself, always("3000")) // by adjusted gross income: a point is 30
	second := func(f func(*tables.SecondCarePhase, status) amount) func(law, status) amount {
		return func(y law, s status) amount {
			if y.DependentCare.Second == nil {
				return money.Zero
			}
			return f(y.DependentCare.Second, s)
		}
	}
	study := func(kind household.EducationCredit, income, expenses func(amount) amount) func(law, status, amount) amount {
		return func(y law, s status, a amount) amount {
			students := []household.Student{{Kind: kind, Expenses: expenses(a)}}
			if s == household.MarriedFilingJointly { // twice the range, twice the credit
				students = append(students, students...)
			}
			c := bySchedule(facts{Status: s, Credits: household.Credits{Education: students}}, y, income(a), fifty)
			return c.education().Add(c.credits.opportunityRefundable)
		}
	}
	notSeparate := func(f func(law, status) amount) func(law, status) amount {
		return func(y law, s status) amount {
			if s == household.MarriedFilingSeparately {
				return money.Zero
			}
			return f(y, s)
		}
	}
	notMarried := func(f func(law) amount) func(law, status) amount { // one student only
		return func(y law, s status) amount {
			if s == household.MarriedFilingSeparately || s == household.MarriedFilingJointly {
				return money.Zero
			}
			return f(y)
		}
	}
	savings := func(income, saved func(amount) amount) func(law, status, amount) amount {
		return func(y law, s status, a amount) amount {
			h := facts{Status: s, Credits: household.Credits{RetirementSaving: household.ByEarner{Self: saved(a)}}}
			return bySchedule(h, y, income(a), fifty).savers()
		}
	}
	edges := []edge{
		{"child_tax_credit.phase_out.from", "IRC 24(b)(1): a thousand begun", func(y law, s status) amount { return y.ChildCredit.PhaseOut.From.Of(s) }, child, "0", "-50"},
		{"child_tax_credit.phase_out.step", "IRC 24(b)(1): the next begun", func(y law, s status) amount {
			return y.ChildCredit.PhaseOut.From.Of(s).Add(y.ChildCredit.PhaseOut.Step)
		}, child, "0", "-50"},
		{"child_tax_credit.per_child", "IRC 24(h)(2), 26(a)", same(func(y law) amount { return y.ChildCredit.PerChild }), taken(children(1)...), "1", "0"},
		{"child_tax_credit.per_other_dependent", "IRC 24(h)(4), 26(a)", same(func(y law) amount { return y.ChildCredit.PerOther }), taken(parent), "1", "0"},
		{"child_tax_credit.refundable_cap_per_child", "IRC 24(h)(5)", same(func(y law) amount { return y.ChildCredit.RefundableCap }), additional(itself, always("50000")), "1", "0"},
		{"child_tax_credit.refundable_earned_income_over", "IRC 24(d)(1)(B)(i), (h)(6)", same(func(y law) amount { return y.ChildCredit.EarnedFloor }), additional(always("2000"), itself), "0", "0.15"},
		{
			"dependent_tests.qualifying_relative.gross_income_under", "IRC 152(d)(1)(B): at the limit no dependent", same(func(y law) amount { return y.DependentTests.Relative.IncomeUnder }),
			func(y law, s status, income amount) amount {
				d := parent
				d.GrossIncome = income
				return bySchedule(facts{Status: s, Dependents: []household.Dependent{d}}, y, fifty, fifty).childTaxCredit()
			}, "-500", "0",
		},

		{"dependent_care_credit.expense_cap_one", "IRC 21(c)(1): at 20%", same(func(y law) amount { return y.DependentCare.CapOne }), care(1, always("250000"), itself), "0.20", "0"},
		{"dependent_care_credit.expense_cap_two_or_more", "IRC 21(c)(2): at 20%", same(func(y law) amount { return y.DependentCare.CapMore }), care(2, always("250000"), itself), "0.20", "0"},
		{"dependent_care_credit.first_phase_from", "IRC 21(a)(2): a step begun", same(func(y law) amount { return y.DependentCare.FirstFrom }), careAt, "0", "-30"},
		{"dependent_care_credit.first_phase_step", "IRC 21(a)(2): the next begun", same(func(y law) amount { return y.DependentCare.FirstFrom.Add(y.DependentCare.FirstStep) }), careAt, "0", "-30"},
		{"dependent_care_credit.second_phase.from", "IRC 21(a)(2) from 2026: a step begun", second(func(p *tables.SecondCarePhase, s status) amount { return p.From.Of(s) }), careAt, "0", "-30"},
		{"dependent_care_credit.second_phase.step", "IRC 21(a)(2) from 2026: the next begun", second(func(p *tables.SecondCarePhase, s status) amount { return p.From.Of(s).Add(p.Step.Of(s)) }), careAt, "0", "-30"},

		{"education_credits.opportunity_full_up_to", "IRC 25A(b)(1)", notMarried(func(y law) amount { return y.Education.FullUpTo }), study(household.AmericanOpportunity, always("50000"), itself), "1", "0.25"},
		{"education_credits.opportunity_part_up_to", "IRC 25A(b)(1)", notMarried(func(y law) amount { return y.Education.FullUpTo.Add(y.Education.PartUpTo) }), study(household.AmericanOpportunity, always("50000"), itself), "0.25", "0"},
		{"education_credits.lifetime_expense_cap", "IRC 25A(c)(1)", notMarried(func(y law) amount { return y.Education.LifetimeCap }), study(household.LifetimeLearning, always("50000"), itself), "0.20", "0"},
		{"education_credits.phase_out.from", "IRC 25A(d): 2,500 over 10,000", notSeparate(func(y law, s status) amount { return y.Education.PhaseOut.Of(s).From }), study(household.AmericanOpportunity, itself, always("4000")), "0", "-0.25"},
		{"education_credits.phase_out.to", "IRC 25A(d): 2,500 over 10,000", notSeparate(func(y law, s status) amount { return y.Education.PhaseOut.Of(s).To }), study(household.AmericanOpportunity, itself, always("4000")), "-0.25", "0"},

		{"savers_credit.contribution_cap", "IRC 25B(a): at 50%", same(func(y law) amount { return y.Savers.Cap }), savings(always("0"), itself), "0.50", "0"},
	}
	for i, falls := range []string{"-300", "-100", "-100"} { // 1,000 at 50%, 20%, 10% and nothing
		edges = append(edges, edge{
			fmt.Sprintf("savers_credit.tiers[%d].up_to", i), "IRC 25B(b)",
			func(y law, s status) amount {
				if y.Savers.Cap.IsZero() {
					return money.Zero // no credit for these savings from 2027 on: IRC 6433
				}
				return y.Savers.Tiers[i].UpTo.Of(s)
			}, savings(itself, always("1000")), "0", falls,
		})
	}
	return edges
}

func earnedIncomeEdges() []edge {
	type (
		law    = *tables.Year
		status = household.Status
		amount = money.Amount
	)
	credit := func(n int) func(law, status, amount) amount {
		return func(y law, s status, income amount) amount {
			h := household.Household{Status: s, LivedApart: true, Dependents: children(n)}
			c := bySchedule(h, y, income, income)
			c.work[household.OfSelf].EarnedIncome = income
			return c.earnedIncomeCredit()
		}
	}
	having := func(n int, s status, at amount) amount { // a separate filer needs a child
		if n == 0 && s == household.MarriedFilingSeparately {
			return money.Zero
		}
		return at
	}
	edges := []edge{{
		"earned_income_credit.investment_income_limit", "IRC 32(i): all of 34% × 9,000", func(y law, _ status) amount { return y.EarnedIncome.InvestmentLimit },
		func(y law, s status, invested amount) amount {
			c := bySchedule(household.Household{Status: s, LivedApart: true, Dependents: children(1)}, y, usd("9000"), money.Zero)
			c.work[household.OfSelf].EarnedIncome, c.income.Interest = usd("9000"), invested
			return c.earnedIncomeCredit()
		}, "0", "-3060",
	}}
	// IRC 32(b)(1): 7.65%, 34%, 40% and 45% in, 7.65%, 15.98% and twice 21.06% out.
	for n, rates := range [][2]string{{"0.08", "-0.08"}, {"0.34", "-0.16"}, {"0.40", "-0.21"}, {"0.45", "-0.21"}} {
		key := fmt.Sprintf("earned_income_credit.by_children[%d].", n)
		column := func(y law) tables.EarnedColumn { return y.EarnedIncome.ByChildren[n] }
		joint := func(of func(tables.EarnedColumn) amount) func(law, status) amount {
			return func(y law, s status) amount {
				if s != household.MarriedFilingJointly {
					return money.Zero
				}
				return of(column(y))
			}
		}
		other := func(of func(tables.EarnedColumn) amount) func(law, status) amount {
			return func(y law, s status) amount {
				if s == household.MarriedFilingJointly {
					return money.Zero
				}
				return having(n, s, of(column(y)))
			}
		}
		edges = append(edges,
			edge{key + "earned_income_amount", "IRC 32(a)(1)", func(y law, s status) amount { return having(n, s, column(y).EarnedAmount) }, credit(n), rates[0], "0"},
			edge{key + "phase_out_from", "IRC 32(a)(2)(B)", other(func(c tables.EarnedColumn) amount { return c.PhaseOutFrom }), credit(n), "0", rates[1]},
			edge{key + "phase_out_from_joint", "IRC 32(a)(2)(B), (b)(2)(B)", joint(func(c tables.EarnedColumn) amount { return c.PhaseOutFromJoint }), credit(n), "0", rates[1]},
		)
	}
	return edges
}
