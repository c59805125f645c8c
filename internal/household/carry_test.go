package household

import (
	"fmt"
	"strings"
	"testing"

	"example.com/plumbline/internal/money"
)

// A household of 2026 in 2027, by hand. The biweekly paydays of 2026 end with
// December 31 (for January 1), so 2027 begins on January 15; the monthly ones
// with December 31, so it begins on January 29, the last business day.
func TestCarryOver(t *testing.T) {
	dollars := money.Dollars
	raise := dollars(2500)
	h := Household{
		TaxYear: 2026, Status: Single,
		Spouse: &Person{Disabled: true, CareMonthly: &EachMonth{Amount: dollars(400), FirstMonth: 5}},
		Jobs: []Job{
			{Name: "Ended", Frequency: Weekly, FirstPayday: day(t, "2026-01-09"), LastPayday: day(t, "2026-06-12")},
			{
				Name: "Clinic", Frequency: Biweekly, FirstPayday: day(t, "2026-01-02"), TaxablePay: dollars(2400),
				YearToDate: stubOf(t, "2026-12-18", "62400", "5000"), LastPaycheck: &Paycheck{Payday: day(t, "2026-12-18")},
				OneTimePay:          []OneTimePay{{Payday: day(t, "2026-12-18"), Amount: dollars(500)}},
				Certificate:         &Certificate{CountsFrom: day(t, "2026-07-10"), Extra: dollars(40)},
				EarlierCertificates: []Certificate{{}}, QualifiedTips: dollars(900),
			},
			{Name: "School", Frequency: Monthly, FirstPayday: day(t, "2026-01-30"), TaxablePay: dollars(3000)},
		},
		Dependents: []Dependent{
			{Name: "born in June", BirthDate: day(t, "2026-06-01")},
			{Name: "older", BirthDate: day(t, "2015-06-01"), CareExpenses: dollars(1200), CareMonthly: nil},
			{Name: "in care since May", BirthDate: day(t, "2022-06-01"), CareMonthly: &EachMonth{Amount: dollars(300), FirstMonth: 5}},
		},
		Income:   Income{Interest: dollars(340), SelfEmployment: ByEarner{Self: dollars(-20)}, SocialSecurityMonthly: &EachMonth{Amount: dollars(1500), FirstMonth: 3, LastMonth: 11}},
		Credits:  Credits{Education: []Student{{Expenses: dollars(4000)}}},
		NextYear: NextYear{Jobs: []NextJob{{Name: "Clinic", TaxablePay: &raise}}, Income: IncomeOf[*money.Amount]{LongTermGain: given("0")}},
		LastYear: &LastYear{TotalTax: given("1")},
	}
	forecast := &LastYear{TotalTax: given("5123.456"), AdjustedGrossIncome: given("70000")}
	c := h.CarryOver(forecast)
	list := func(all []Answer) string {
		var lines []string
		for _, a := range all {
			lines = append(lines, a.Key+" = "+a.Text)
		}
		return strings.Join(lines, "\n")
	}
	for _, tt := range []struct{ about, got, want string }{
		{"gone", fmt.Sprint(c.Gone), "[0]"},
		{"dropped", strings.Join(c.Drop, "\n"), `wish.first_payday
wish.exempt
last_year
next_year
jobs[1].year_to_date
jobs[1].last_paycheck
jobs[1].one_time_pay
jobs[1].earlier_certificates
jobs[2].year_to_date
jobs[2].last_paycheck
jobs[2].one_time_pay
dependents[0].months_with_you
dependents[2].care_monthly.first_month
dependents[2].care_monthly.last_month
spouse.care_monthly.first_month
spouse.care_monthly.last_month
income.social_security_monthly.first_month
income.social_security_monthly.last_month
jobs[1].gross_pay`},
		{"set", list(c.Set), `tax_year = 2027
jobs[1].first_payday = 2027-01-15
jobs[2].first_payday = 2027-01-29
income.long_term_gain = 0
jobs[1].taxable_pay = 2500
last_year.total_tax = 5123.46
last_year.adjusted_gross_income = 70000
last_year.forecast = true`},
		{"asked again", list(c.Again), `jobs[1].qualified_tips = 900
dependents[1].care_expenses = 1200
dependents[2].care_monthly.amount = 300
income.interest = 340
income.self_employment.self = -20
credits.education[0].expenses = 4000
spouse.care_monthly.amount = 400`},
	} {
		if tt.got != tt.want {
			t.Errorf("%s:\n%s\nwant\n%s", tt.about, tt.got, tt.want)
		}
	}
	if c := h.CarryOver(nil); strings.Contains(list(c.Set), "last_year") {
		t.Error("without a forecast there is a last year")
	}
}
