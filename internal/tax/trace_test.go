package tax

import (
	"slices"
	"testing"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/worksheet"
)

// traced is the trace of a household with one job of 2,400 every two weeks, 14
// paydays to come after a stub that shows 28,800, and a bonus of 3,000.
func traced(t *testing.T, h household.Household) *worksheet.Sheet {
	t.Helper()
	var s worksheet.Sheet
	h.Jobs = []household.Job{{
		Name: "Harbor Clinic", Frequency: household.Biweekly, TaxablePay: usd("2400"),
		YearToDate: &household.YearToDate{TaxablePay: usd("28800")},
		OneTimePay: []household.OneTimePay{{Amount: usd("3000")}},
	}}
	pay := paid(household.OfSelf, "65400") // 28,800 + 14 × 2,400 + 3,000
	pay.Makeup = household.PayMakeup{SoFar: usd("28800"), Paydays: 14, Ordinary: usd("2400"), OneTime: usd("3000")}
	Compute(h, []household.YearPay{pay}, lawOf(t, 2026), ByReturn, &s)
	return &s
}

// answersOf are the answers that a line comes from in the end.
func answersOf(t *testing.T, s *worksheet.Sheet, id string) []string {
	t.Helper()
	r, ok := s.Explain(id)
	if !ok {
		t.Fatalf("no line %s", id)
	}
	var keys []string
	var walk func(worksheet.Reason)
	walk = func(r worksheet.Reason) {
		keys = append(keys, r.Answers...)
		for _, from := range r.From {
			walk(from)
		}
	}
	walk(r)
	return keys
}

func TestWagesAreShownAsTheyAddUp(t *testing.T) {
	s := traced(t, household.Household{})
	l, _ := s.Line("tax.wages")
	if got, want := l.How.String(), "28,800.00 + 14 × 2,400.00 + 3,000.00"; got != want {
		t.Errorf("wages are %s, want %s", got, want)
	}
	if want := []string{"jobs[0].year_to_date.taxable_pay", "jobs[0].taxable_pay", "jobs[0].one_time_pay"}; !slices.Equal(l.From, want) {
		t.Errorf("from %v, want %v", l.From, want)
	}
}

// The taxable part of benefits is explained down to every income and adjustment
// that decides it: IRC 86(b)(2).
func TestTaxableBenefitsAreExplainedToTheAnswers(t *testing.T) {
	s := traced(t, household.Household{
		Income: household.Income{
			SocialSecurity: usd("20000"), Interest: usd("100"), TaxExemptInterest: usd("50"), OrdinaryDividends: usd("200"),
			ShortTermGain: usd("300"), Retirement: usd("400"), SelfEmployment: household.ByEarner{Self: usd("900")},
			Unemployment: usd("600"), Other: usd("700"),
		},
		Adjustments: household.Adjustments{EducatorExpenses: household.ByEarner{Self: usd("80")}, HSAContribution: usd("90"), IRADeduction: usd("110"), Other: usd("120")},
	})
	keys := answersOf(t, s, "tax.taxable_benefits")
	for _, key := range []string{
		"income.social_security", "jobs[0].taxable_pay", "income.interest", "income.tax_exempt_interest", "income.ordinary_dividends",
		"income.short_term_gain", "income.retirement", "income.self_employment.self", "income.unemployment", "income.other",
		"adjustments.educator_expenses.self", "adjustments.hsa_contribution", "adjustments.ira_deduction", "adjustments.other",
	} {
		if !slices.Contains(keys, key) {
			t.Errorf("the trace of the taxable benefits does not lead to %s: %v", key, keys)
		}
	}
}

// No line with an amount is left without what it came from.
func TestEveryLineSaysWhereItCameFrom(t *testing.T) {
	for _, status := range []household.Status{household.Single, household.MarriedFilingJointly, household.MarriedFilingSeparately} {
		s := traced(t, household.Household{
			Status: status, Dependents: children(2),
			Income:     household.Income{SocialSecurity: usd("9000"), OrdinaryDividends: usd("300000"), QualifiedDividends: usd("200000"), SelfEmployment: household.ByEarner{Self: usd("250000")}},
			Deductions: household.Deductions{StateLocalTaxes: usd("9000"), MortgageInterest: usd("20000"), CharityCash: usd("5000")},
		})
		for _, l := range s.Lines {
			if len(l.From) == 0 && !l.Amount.IsZero() {
				t.Errorf("%v: %s, %v, comes from nowhere", status, l.ID, l.Amount)
			}
		}
	}
}

// A figure of the law is cited alone, not with its neighbors on the form.
func TestCitationIsOfTheFigure(t *testing.T) {
	s := traced(t, household.Household{Adjustments: household.Adjustments{EducatorExpenses: household.ByEarner{Self: usd("80")}}})
	l, _ := s.Line("tax.educator_expenses")
	if got, want := l.Source, "IRC 62(a)(2)(D), (d); Rev. Proc. 2025-32"; got != want {
		t.Errorf("the educator expenses cite %q, want %q", got, want)
	}
}
