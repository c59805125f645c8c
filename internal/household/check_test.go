package household

import (
	"reflect"
	"strings"
	"testing"

	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/words"
)

// sound is a household in which everything agrees.
func sound() Household {
	amount := money.MustParse
	return Household{
		Format: Format, TaxYear: 2026, AsOf: On(2026, 6, 15), Status: MarriedFilingJointly,
		Self:   Person{BirthDate: On(1991, 3, 2)},
		Spouse: &Person{BirthDate: On(1990, 11, 20)},
		Jobs: []Job{{
			Name: "Harbor Clinic", Frequency: Biweekly, TaxablePay: amount("2400"), GrossPay: amount("2650"),
			Pretax:       Pretax{Retirement: amount("150"), Health: amount("100")},
			FirstPayday:  On(2026, 1, 9),
			LastPayday:   On(2026, 12, 25),
			YearToDate:   &YearToDate{Payday: On(2026, 6, 12), TaxablePay: amount("28800"), FederalTax: amount("2471.04")},
			LastPaycheck: &Paycheck{Payday: On(2026, 6, 12), TaxablePay: amount("2400"), FederalTax: amount("205.92")},
			OneTimePay:   []OneTimePay{{Payday: On(2026, 12, 11), Amount: amount("3000")}},
			Certificate:  &Certificate{Status: CertificateJoint},
		}},
		Dependents: []Dependent{{Name: "Zoë", BirthDate: On(2020, 5, 5)}},
		Income:     Income{OrdinaryDividends: amount("300"), QualifiedDividends: amount("250"), LongTermGain: amount("-400"), ShortTermGain: amount("-1"), SelfEmployment: ByEarner{Self: amount("-20")}, Other: amount("-5")},
		Credits:    Credits{Education: []Student{{}}},
		LastYear:   &LastYear{AdjustedGrossIncome: given("-100")},
		Wish:       Wish{FirstPayday: On(2026, 7, 10)},
		Interview:  InterviewLog{Gates: map[string]string{"spouse_works": "true"}},
	}
}

// mistakes are what Check reports, a line each.
func mistakes(h Household) string {
	var lines []string
	h.Check(func(key string, what words.Text) { lines = append(lines, key+": "+words.English().Say(what)) })
	return strings.Join(lines, "\n")
}

func TestCheckPassesWhatAgrees(t *testing.T) {
	if got := mistakes(sound()); got != "" {
		t.Errorf("sound household: %s", got)
	}
	if got := mistakes(Household{Jobs: []Job{{Frequency: Weekly}}, Dependents: []Dependent{{}}}); got != "" {
		t.Errorf("facts not known yet: %s", got)
	}
}

// A first payday on a named day is in order though banks are closed on it.
func TestANamedDayMayBeAHoliday(t *testing.T) {
	h := sound()
	h.TaxYear, h.AsOf, h.Wish.FirstPayday = 2027, On(2027, 2, 1), Date{}
	h.Jobs = []Job{{Name: "Mill", Frequency: Semimonthly, TaxablePay: money.Dollars(900), FirstPayday: On(2027, 1, 1), PaydaysOfMonth: []DayOfMonth{1, 15}}}
	if got := mistakes(h); got != "" {
		t.Errorf("first payday of January 1, 2027: %s", got)
	}
}

func TestCheck(t *testing.T) {
	amount, three := money.MustParse, 13
	minus := amount("-1")
	tests := []struct {
		name  string
		wrong func(h *Household)
		want  string
	}{
		{"monthly, two days", func(h *Household) { h.Jobs[0].Frequency, h.Jobs[0].PaydaysOfMonth = Monthly, []DayOfMonth{1, 9} }, "jobs[0].paydays_of_month: monthly pay has one day of the month; write one, like [last]"},
		{"twice a month, one day", func(h *Household) { h.Jobs[0].Frequency, h.Jobs[0].PaydaysOfMonth = Semimonthly, []DayOfMonth{9} }, "jobs[0].paydays_of_month: semimonthly pay has two days of the month; write both, like [15, last]"},
		{"twice a month, one day twice", func(h *Household) { h.Jobs[0].Frequency, h.Jobs[0].PaydaysOfMonth = Semimonthly, []DayOfMonth{9, 9} }, "jobs[0].paydays_of_month: semimonthly pay has two days of the month; write both, like [15, last]"},
		{"days of the month of biweekly pay", func(h *Household) { h.Jobs[0].PaydaysOfMonth = []DayOfMonth{15, LastDay} }, "jobs[0].paydays_of_month: biweekly pay follows no day of the month; leave this out, or write monthly or semimonthly for pay_frequency"},
		{"a first payday that is none of the days", func(h *Household) { h.Jobs[0].Frequency, h.Jobs[0].PaydaysOfMonth = Semimonthly, []DayOfMonth{1, 15} }, "jobs[0].first_payday: the job does not pay on 2026-01-09 if it pays on the days of the month that you gave; correct one of them"},
		{"earlier certificates out of order", func(h *Household) {
			h.Jobs[0].EarlierCertificates = []Certificate{{}}
		}, "jobs[0].earlier_certificates[0].counts_from: an earlier certificate counts from a day before that of the one after it; give each one after it a counts_from, oldest first"},
		{"worked out long before", func(h *Household) { h.AsOf = On(1926, 6, 15) }, "as_of: 1926-06-15 is more than a year before tax_year, 2026; correct one of them"},
		{"born after the year", func(h *Household) { h.Self.BirthDate = On(2027, 1, 1) }, "self.birth_date: 2027-01-01 is not a birth date of someone alive in 2026; correct the year"},
		{"born too long ago", func(h *Household) { h.Spouse.BirthDate = On(1895, 12, 31) }, "spouse.birth_date: 1895-12-31 is not a birth date of someone alive in 2026; correct the year"},
		{"dependent born after the year", func(h *Household) { h.Dependents[0].BirthDate = On(2027, 5, 5) }, "dependents[0].birth_date: 2027-05-05 is not a birth date of someone alive in 2026; correct the year"},
		{"13 months", func(h *Household) { h.Dependents[0].MonthsWithYou = &three }, "dependents[0].months_with_you: 13 is not a number of months of one year; write 0 to 12"},

		{"no frequency", func(h *Household) { h.Jobs[0].Frequency = FrequencyUnknown }, "jobs[0].pay_frequency: is missing; how often the job pays is needed for any figure. Write biweekly, monthly or the like"},
		{"pre-tax above gross", func(h *Household) { h.Jobs[0].Pretax.Other = amount("2400.01") }, "jobs[0].pretax: the pre-tax deductions of 2,650.01 are more than the gross pay, 2,650.00; correct one of them"},
		{"pay does not agree", func(h *Household) { h.Jobs[0].TaxablePay = amount("2400.01") }, "jobs[0].taxable_pay: 2,400.01 does not agree with gross_pay less pretax, 2,400.00; correct one or leave one out"},
		{"ends before it begins", func(h *Household) { h.Jobs[0].LastPayday = On(2026, 1, 8) }, "jobs[0].last_payday: 2026-01-08 is before the first payday, 2026-01-09; correct one of them"},
		{"begins after the year", func(h *Household) { h.Jobs[0].FirstPayday, h.Jobs[0].LastPayday = On(2027, 1, 1), Date{} }, "jobs[0].first_payday: 2027-01-01 is after tax_year, 2026; write the first payday of that year, or leave the job out\njobs[0].year_to_date.payday: 2026-06-12 is before the first payday, 2027-01-01; correct one of them"},
		{"last year's stub", func(h *Household) { h.Jobs[0].YearToDate.Payday = On(2025, 12, 26) }, "jobs[0].year_to_date.payday: 2025-12-26 is not in tax_year, 2026; year-to-date figures start over each January, so use a stub of that year"},
		{"stub before the job", func(h *Household) { h.Jobs[0].YearToDate.Payday = On(2026, 1, 8) }, "jobs[0].year_to_date.payday: 2026-01-08 is before the first payday, 2026-01-09; correct one of them"},
		{"more tax than pay", func(h *Household) { h.Jobs[0].YearToDate.FederalTax = amount("28800.01") }, "jobs[0].year_to_date.federal_tax: 28,800.01 of tax cannot have been withheld from 28,800.00 of pay; look at the stub again"},
		{"paycheck of another year", func(h *Household) { h.Jobs[0].LastPaycheck.Payday = On(2025, 6, 12) }, "jobs[0].last_paycheck.payday: 2025-06-12 is not in tax_year, 2026; use the newest stub of that year"},
		{"more tax than paycheck", func(h *Household) { h.Jobs[0].LastPaycheck.FederalTax = amount("2400.01") }, "jobs[0].last_paycheck.federal_tax: 2,400.01 of tax cannot have been withheld from 2,400.00 of pay; look at the stub again"},
		{"more early than at all", func(h *Household) { h.Income.Retirement, h.Income.EarlyWithdrawal = amount("500"), amount("500.01") }, "income.early_withdrawal: what is taken early is part of the money from retirement accounts, 500.00, and cannot be more; correct one of them"},
		{"percentage above all", func(h *Household) { h.Payments.SocialSecurity = &Voluntary{Percent: 101} }, "payments.social_security_withholding.percent: 101 is not a percentage; write 0 to 100"},
		{"percentage of a withdrawal", func(h *Household) {
			h.Payments.Withdrawals = []Withdrawal{{Percent: new(int)}}
			*h.Payments.Withdrawals[0].Percent = -1
		}, "payments.withdrawals[0].percent: -1 is not a percentage; write 0 to 100"},
		{"withheld in no month", func(h *Household) { h.Payments.Unemployment = &Voluntary{Percent: 10, Months: new(int)} }, "payments.unemployment_withholding.months: 0 is not a number of months of one year; write 1 to 12"},
		{"no month of coverage", func(h *Household) { h.Marketplace = &Marketplace{Months: new(int)} }, "health_marketplace.months: 0 is not a number of months with coverage; write 1 to 12"},
		{"13 months of coverage", func(h *Household) { h.Marketplace = &Marketplace{Months: &three} }, "health_marketplace.months: 13 is not a number of months with coverage; write 1 to 12"},
		{"nobody in the tax family", func(h *Household) { h.Marketplace = &Marketplace{Household: new(int)} }, "health_marketplace.household: 0 is not a number of people; write 1 or more"},
		{"advance above the premiums", func(h *Household) { h.Marketplace = &Marketplace{Premiums: amount("5000"), Advance: amount("5000.01")} }, "health_marketplace.advance: the advance payments go toward the premiums and cannot be more than those, 5,000.00; correct one of them"},
		{"bonus above the paycheck", func(h *Household) { h.Jobs[0].LastPaycheck.OneTimePay = amount("2400.01") }, "jobs[0].last_paycheck.one_time_pay: one-time pay is part of the paycheck and cannot be more than its pay, 2,400.00; correct one of them"},
		{"bonus of another year", func(h *Household) { h.Jobs[0].OneTimePay[0].Payday = On(2027, 1, 8) }, "jobs[0].one_time_pay[0].payday: 2027-01-08 is not in tax_year, 2026; write a day of that year"},
		{"qualified above ordinary", func(h *Household) { h.Income.QualifiedDividends = amount("300.01") }, "income.qualified_dividends: qualified dividends are part of the ordinary dividends, 300.00, and cannot be more; correct one of them"},
		{"wish for another year", func(h *Household) { h.Wish.FirstPayday = On(2027, 1, 8) }, "wish.first_payday: 2027-01-08 is not in tax_year, 2026; write a day of that year"},

		{"allowances on today's certificate", func(h *Household) { h.Jobs[0].Certificate.Allowances = 2 }, "jobs[0].certificate.allowances: only certificates from before 2020 have this entry; write edition: before_2020, or leave it out"},
		{"negative allowances", func(h *Household) { h.Jobs[0].Certificate.Allowances = -2 }, "jobs[0].certificate.allowances: -2 cannot be negative; leave the minus sign out"},
		{"old certificate with new entries", func(h *Household) {
			h.Jobs[0].Certificate = &Certificate{Edition: Before2020, MultipleJobs: true, Credits: amount("1"), OtherIncome: amount("1"), Deductions: amount("1"), Extra: amount("1")}
		}, `jobs[0].certificate.multiple_jobs: certificates from before 2020 have no such entry; write edition: current, or leave it out
jobs[0].certificate.credits: certificates from before 2020 have no such entry; write edition: current, or leave it out
jobs[0].certificate.other_income: certificates from before 2020 have no such entry; write edition: current, or leave it out
jobs[0].certificate.deductions: certificates from before 2020 have no such entry; write edition: current, or leave it out`},

		{"name too long", func(h *Household) { h.Jobs[0].Name = strings.Repeat("é", 61) }, "jobs[0].name: 61 characters are too many; write a short plain name of at most 60"},
		{"hidden mark", func(h *Household) { h.Dependents[0].Name = "a\u202eb" }, "dependents[0].name: contains an invisible character (U+202E); use plain text"},
		{"number in a name", func(h *Household) { h.Dependents[0].Name = "Zoë 123456789" }, "dependents[0].name: this program never keeps a social security number; take it out"},
		{"number in the interview's log", func(h *Household) { h.Interview.Gates["note"] = "123-45-6789" }, "interview: this program never keeps a social security number; take it out"},
		{"pay of 689.0625", func(h *Household) { h.Jobs[0].TaxablePay, h.Jobs[0].GrossPay = money.MustParse("689.0625"), money.Zero }, "jobs[0].taxable_pay: 689.0625 has parts of a cent; round it to the cent, like 1200.50"},
		{"a loss of a third decimal", func(h *Household) { h.Income.SelfEmployment.Self = money.MustParse("-20.005") }, "income.self_employment.self: -20.005 has parts of a cent; round it to the cent, like 1200.50"},
		{"two at once", func(h *Household) { h.Jobs[0].Name, h.Wish.Refund = "\x1b[31m", minus }, "wish.refund: -1.00 cannot be negative; leave the minus sign out\njobs[0].name: contains an invisible character (U+001B); use plain text"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			h := sound()
			tt.wrong(&h)
			if got := mistakes(h); got != tt.want {
				t.Errorf("Check reports\n%s\nwant\n%s", got, tt.want)
			}
		})
	}
}

// Every amount that cannot be negative, by its key.
func TestCheckSigns(t *testing.T) {
	minus := money.MustParse("-1")
	below := map[string]func(h *Household){
		"income.interest":                             func(h *Household) { h.Income.Interest = minus },
		"income.tax_exempt_interest":                  func(h *Household) { h.Income.TaxExemptInterest = minus },
		"adjustments.self_employed_health.self":       func(h *Household) { h.Adjustments.SelfEmployedHealth.Self = minus },
		"adjustments.self_employed_health.spouse":     func(h *Household) { h.Adjustments.SelfEmployedHealth.Spouse = minus },
		"adjustments.self_employed_retirement.self":   func(h *Household) { h.Adjustments.SelfEmployedRetirement.Self = minus },
		"adjustments.self_employed_retirement.spouse": func(h *Household) { h.Adjustments.SelfEmployedRetirement.Spouse = minus },
		"income.capital_loss_carryover.short_term":    func(h *Household) { h.Income.CapitalLossCarryover.ShortTerm = minus },
		"income.capital_loss_carryover.long_term":     func(h *Household) { h.Income.CapitalLossCarryover.LongTerm = minus },
		"income.business.self.wages":                  func(h *Household) { h.Income.Business.Self = &Business{Wages: minus} },
		"income.business.spouse.property":             func(h *Household) { h.Income.Business.Spouse = &Business{Property: minus} },
		"income.early_withdrawal":                     func(h *Household) { h.Income.EarlyWithdrawal = minus },
		"income.gambling_winnings":                    func(h *Household) { h.Income.GamblingWinnings = minus },
		"deductions.mortgage_balance":                 func(h *Household) { h.Deductions.MortgageBalance = minus },
		"deductions.gambling_losses":                  func(h *Household) { h.Deductions.GamblingLosses = minus },
		"credits.foreign_tax":                         func(h *Household) { h.Credits.ForeignTax = minus },
		"credits.adoption[0].expenses":                func(h *Household) { h.Credits.Adoption = []Adoption{{Expenses: minus}} },
		"credits.energy.clean":                        func(h *Household) { h.Credits.Energy.Clean = minus },
		"credits.energy.improvements":                 func(h *Household) { h.Credits.Energy.Improvements = minus },
		"credits.energy.heat_pumps":                   func(h *Household) { h.Credits.Energy.HeatPumps = minus },
		"other_taxes.household_workers":               func(h *Household) { h.OtherTaxes.HouseholdWorkers = minus },
		"parents.qualified_dividends":                 func(h *Household) { h.Parents = &Parents{QualifiedDividends: minus} },
		"parents.net_capital_gain":                    func(h *Household) { h.Parents = &Parents{NetCapitalGain: minus} },
		"payments.withdrawals[0].amount":              func(h *Household) { h.Payments.Withdrawals = []Withdrawal{{Amount: minus}} },
		"health_marketplace.premiums":                 func(h *Household) { h.Marketplace = &Marketplace{Premiums: minus} },
		"health_marketplace.benchmark":                func(h *Household) { h.Marketplace = &Marketplace{Benchmark: minus} },
		"health_marketplace.advance":                  func(h *Household) { h.Marketplace = &Marketplace{Advance: minus} },
		"income.ordinary_dividends":                   func(h *Household) { h.Income = Income{OrdinaryDividends: minus, QualifiedDividends: minus} },
		"income.qualified_dividends":                  func(h *Household) { h.Income.QualifiedDividends = minus },
		"income.unemployment":                         func(h *Household) { h.Income.Unemployment = minus },
		"income.retirement":                           func(h *Household) { h.Income.Retirement = minus },
		"income.social_security":                      func(h *Household) { h.Income.SocialSecurity = minus },
		"adjustments.student_loan_interest":           func(h *Household) { h.Adjustments.StudentLoanInterest = minus },
		"adjustments.educator_expenses.self":          func(h *Household) { h.Adjustments.EducatorExpenses.Self = minus },
		"adjustments.educator_expenses.spouse": func(h *Household) {
			h.Adjustments.EducatorExpenses.Spouse = minus
		},
		"adjustments.hsa_contribution":          func(h *Household) { h.Adjustments.HSAContribution = minus },
		"adjustments.ira_deduction":             func(h *Household) { h.Adjustments.IRADeduction = minus },
		"adjustments.other":                     func(h *Household) { h.Adjustments.Other = minus },
		"deductions.medical":                    func(h *Household) { h.Deductions.Medical = minus },
		"deductions.state_local_taxes":          func(h *Household) { h.Deductions.StateLocalTaxes = minus },
		"deductions.mortgage_interest":          func(h *Household) { h.Deductions.MortgageInterest = minus },
		"deductions.mortgage_insurance":         func(h *Household) { h.Deductions.MortgageInsurance = minus },
		"deductions.charity_cash":               func(h *Household) { h.Deductions.CharityCash = minus },
		"deductions.charity_other":              func(h *Household) { h.Deductions.CharityOther = minus },
		"deductions.car_loan_interest":          func(h *Household) { h.Deductions.CarLoanInterest = minus },
		"deductions.other_itemized":             func(h *Household) { h.Deductions.OtherItemized = minus },
		"credits.education[0].expenses":         func(h *Household) { h.Credits.Education[0].Expenses = minus },
		"credits.retirement_saving.self":        func(h *Household) { h.Credits.RetirementSaving.Self = minus },
		"credits.retirement_saving.spouse":      func(h *Household) { h.Credits.RetirementSaving.Spouse = minus },
		"credits.other_nonrefundable":           func(h *Household) { h.Credits.OtherNonrefundable = minus },
		"credits.other_refundable":              func(h *Household) { h.Credits.OtherRefundable = minus },
		"payments.estimated_tax":                func(h *Household) { h.Payments.EstimatedTax = minus },
		"payments.other_withholding":            func(h *Household) { h.Payments.OtherWithholding = minus },
		"last_year.total_tax":                   func(h *Household) { h.LastYear.TotalTax = &minus },
		"wish.refund":                           func(h *Household) { h.Wish.Refund = minus },
		"dependents[0].gross_income":            func(h *Household) { h.Dependents[0].GrossIncome = minus },
		"dependents[0].care_expenses":           func(h *Household) { h.Dependents[0].CareExpenses = minus },
		"jobs[0].taxable_pay":                   func(h *Household) { h.Jobs[0].TaxablePay = minus },
		"jobs[0].gross_pay":                     func(h *Household) { h.Jobs[0].GrossPay = minus },
		"jobs[0].pretax.retirement":             func(h *Household) { h.Jobs[0].Pretax.Retirement = minus },
		"jobs[0].pretax.health":                 func(h *Household) { h.Jobs[0].Pretax.Health = minus },
		"jobs[0].pretax.fsa":                    func(h *Household) { h.Jobs[0].Pretax.FSA = minus },
		"jobs[0].pretax.hsa":                    func(h *Household) { h.Jobs[0].Pretax.HSA = minus },
		"jobs[0].pretax.dependent_care":         func(h *Household) { h.Jobs[0].Pretax.DependentCare = minus },
		"jobs[0].pretax.other":                  func(h *Household) { h.Jobs[0].Pretax.Other = minus },
		"jobs[0].qualified_tips":                func(h *Household) { h.Jobs[0].QualifiedTips = minus },
		"jobs[0].qualified_overtime":            func(h *Household) { h.Jobs[0].QualifiedOvertime = minus },
		"jobs[0].one_time_pay[0].amount":        func(h *Household) { h.Jobs[0].OneTimePay[0].Amount = minus },
		"jobs[0].year_to_date.taxable_pay":      func(h *Household) { h.Jobs[0].YearToDate.TaxablePay = minus },
		"jobs[0].year_to_date.federal_tax":      func(h *Household) { h.Jobs[0].YearToDate.FederalTax = minus },
		"jobs[0].last_paycheck.taxable_pay":     func(h *Household) { h.Jobs[0].LastPaycheck.TaxablePay = minus },
		"jobs[0].last_paycheck.one_time_pay":    func(h *Household) { h.Jobs[0].LastPaycheck.OneTimePay = minus },
		"jobs[0].last_paycheck.federal_tax":     func(h *Household) { h.Jobs[0].LastPaycheck.FederalTax = minus },
		"jobs[0].last_paycheck.social_security": func(h *Household) { h.Jobs[0].LastPaycheck.SocialSecurity = &minus },
		"jobs[0].last_paycheck.medicare":        func(h *Household) { h.Jobs[0].LastPaycheck.Medicare = &minus },
		"jobs[0].certificate.credits":           func(h *Household) { h.Jobs[0].Certificate.Credits = minus },
		"jobs[0].certificate.other_income":      func(h *Household) { h.Jobs[0].Certificate.OtherIncome = minus },
		"jobs[0].certificate.deductions":        func(h *Household) { h.Jobs[0].Certificate.Deductions = minus },
		"jobs[0].certificate.extra":             func(h *Household) { h.Jobs[0].Certificate.Extra = minus },
	}
	for _, key := range unsignedAmounts("", reflect.TypeFor[Household]()) {
		if below[key] == nil {
			t.Errorf("%s has no row here", key)
		}
	}
	for key, set := range below {
		h := sound()
		set(&h)
		if want := key + ": -1.00 cannot be negative; leave the minus sign out"; !strings.Contains("\n"+mistakes(h)+"\n", "\n"+want+"\n") {
			t.Errorf("Check reports\n%s\nwant %s", mistakes(h), want)
		}
	}
}

// unsignedAmounts are the keys of a struct's amounts that may not be negative,
// lists and what may be left out apart.
func unsignedAmounts(under string, s reflect.Type) (keys []string) {
	for i := range s.NumField() {
		f := s.Field(i)
		name, option, _ := strings.Cut(f.Tag.Get("yaml"), ",")
		key := strings.TrimPrefix(under+"."+name, ".")
		switch {
		case option == "signed" || name == "" || name == "-":
		case f.Type == reflect.TypeFor[money.Amount]():
			keys = append(keys, key)
		case f.Type.Kind() == reflect.Struct:
			keys = append(keys, unsignedAmounts(key, f.Type)...)
		}
	}
	return keys
}

func TestNames(t *testing.T) {
	const hidden = "contains an invisible character (%s); use plain text"
	tests := []struct{ name, text, want string }{
		{"none", "", ""},
		{"plain", "O'Hara & Sons, Ltd. #3", ""},
		{"accents", "Société Générale Łódź", ""},
		{"right to left, as written", "מפעל", ""},
		{"joiners shape letters and emoji", "می\u200cخواهم 👩\u200d⚕", ""},
		{"60 characters", strings.Repeat("é", 60), ""},
		{"10,000 characters", strings.Repeat("x", 10_000), "10000 characters are too many; write a short plain name of at most 60"},
		{"terminal escape", "\x1b[2J", strings.ReplaceAll(hidden, "%s", "U+001B")},
		{"C1 escape", "\u009b2J", strings.ReplaceAll(hidden, "%s", "U+009B")},
		{"line end", "a\nb", strings.ReplaceAll(hidden, "%s", "U+000A")},
		{"tab", "a\tb", strings.ReplaceAll(hidden, "%s", "U+0009")},
		{"bell", "a\a", strings.ReplaceAll(hidden, "%s", "U+0007")},
		{"override", "\u202egnp.", strings.ReplaceAll(hidden, "%s", "U+202E")},
		{"isolate", "\u2067x\u2069", strings.ReplaceAll(hidden, "%s", "U+2067")},
		{"mark", "\u200fx", strings.ReplaceAll(hidden, "%s", "U+200F")},
		{"line separator", "a\u2028b", strings.ReplaceAll(hidden, "%s", "U+2028")},
		{"tag character", "a\U000e0041", strings.ReplaceAll(hidden, "%s", "U+E0041")},
		{"not UTF-8", "a\xff", "this is not UTF-8; write a short plain name"},
		{"dashes", "me 123-45-6789", NoSSN},
		{"spaces", "123 45 6789", NoSSN},
		{"no breaks", "a123456789b", NoSSN},
		{"other digits", "١٢٣-٤٥-٦٧٨٩", NoSSN},
		{"employer's number", "12-3456789", NoSSN},
		{"telephone", "555-123-4567", ""},
		{"ten digits", "5551234567", ""},
		{"eight digits", "12345678", ""},
		{"job and date", "job 1 2026-06-15", ""},
		{"many digits", "123-45-67890", ""},
	}
	for _, tt := range tests {
		got := words.English().Say(NameFault(tt.text))
		if NameFault(tt.text).Code == NoSSN {
			got = NoSSN
		}
		if got != tt.want {
			t.Errorf("%s: NameFault(%q) = %q, want %q", tt.name, tt.text, got, tt.want)
		}
	}
	h := Household{Jobs: []Job{{Name: " Harbor "}, {Name: "  "}}}
	for got, want := range map[string]string{h.JobName(0): "Harbor", h.JobName(1): "Job 2"} {
		if got != want {
			t.Errorf("shown as %q, want %q", got, want)
		}
	}
}

func given(text string) *money.Amount {
	a := money.MustParse(text)
	return &a
}

// What is said of next year is checked as this year is, and speaks of jobs and
// people that there are.
func TestCheckNextYear(t *testing.T) {
	for _, tt := range []struct {
		name string
		next NextYear
		want string
	}{
		{"nothing said", NextYear{}, ""},
		{"a loss", NextYear{Income: IncomeOf[*money.Amount]{LongTermGain: given("-500")}}, ""},
		{"qualified dividends alone", NextYear{Income: IncomeOf[*money.Amount]{QualifiedDividends: given("100")}}, ""},
		{"negative interest", NextYear{Income: IncomeOf[*money.Amount]{Interest: given("-1")}}, "next_year.income.interest: -1.00 cannot be negative; leave the minus sign out"},
		{"a raise and an end", NextYear{Jobs: []NextJob{{Name: "Harbor Clinic", TaxablePay: given("2500"), LastPayday: On(2027, 6, 11)}}}, ""},
		{"an end this year", NextYear{Jobs: []NextJob{{Name: "Harbor Clinic", LastPayday: On(2026, 6, 11)}}}, "next_year.jobs[0].last_payday: 2026-06-11 is not in 2027, the year after tax_year; write a day of that year"},
		{"a job that there is not", NextYear{Jobs: []NextJob{{Name: "Mill"}}}, `next_year.jobs[0].name: none of the jobs is named "Mill"; write its name as it is there`},
		{"a child's care", NextYear{Dependents: []NextDependent{{Name: "Zoë", CareExpenses: given("3000")}}}, ""},
		{"a child born next year", NextYear{Dependents: []NextDependent{{Name: "Mo", BirthDate: On(2027, 3, 1)}}}, ""},
		{"a child that there is not", NextYear{Dependents: []NextDependent{{Name: "Max"}}}, `next_year.dependents[0].name: none of the dependents is named "Max"; write its name as it is there`},
	} {
		t.Run(tt.name, func(t *testing.T) {
			h := sound()
			h.NextYear = tt.next
			if got := mistakes(h); got != tt.want {
				t.Errorf("got:\n%s\nwant:\n%s", got, tt.want)
			}
		})
	}
}

// A monthly amount comes to the year's own, where both are given.
func TestEachMonth(t *testing.T) {
	for _, tt := range []struct {
		months EachMonth
		year   string
		total  string
		want   string
	}{
		{EachMonth{Amount: money.MustParse("2100"), FirstMonth: 10}, "0", "6300.00", ""},
		{EachMonth{Amount: money.MustParse("2100"), FirstMonth: 10}, "6300", "6300.00", ""},
		{EachMonth{Amount: money.MustParse("2100")}, "0", "25200.00", ""},
		{EachMonth{Amount: money.MustParse("400"), FirstMonth: 3, LastMonth: 5}, "0", "1200.00", ""},
		{EachMonth{Amount: money.MustParse("2100"), FirstMonth: 10}, "25200", "25200.00", "income.social_security_monthly: 2,100.00 a month from month 10 to 12 is 6,300.00, and social_security says 25,200.00; correct one or leave one out"},
		{EachMonth{Amount: money.MustParse("1"), FirstMonth: 13}, "0", "0.00", "income.social_security_monthly.first_month: 13 is not a month; write 1 to 12"},
		{EachMonth{Amount: money.MustParse("1"), FirstMonth: 5, LastMonth: 4}, "0", "0.00", "income.social_security_monthly.last_month: 4 is before first_month, 5; correct one of them"},
	} {
		h := sound()
		h.Income.SocialSecurityMonthly, h.Income.SocialSecurity = &tt.months, money.MustParse(tt.year)
		if got := mistakes(h); got != tt.want {
			t.Errorf("%+v beside %s: got:\n%s\nwant:\n%s", tt.months, tt.year, got, tt.want)
		}
		if got := h.Benefits().String(); got != tt.total {
			t.Errorf("%+v beside %s comes to %s, want %s", tt.months, tt.year, got, tt.total)
		}
	}
}

// Care by the month counts from the birth on, in the year of the birth: from September
// to December 4 x 900, and twelve months the year after. An earlier month is a mistake.
func TestCareFromTheBirthOn(t *testing.T) {
	baby := Dependent{Relationship: Child, BirthDate: On(2026, 9, 14), CareMonthly: &EachMonth{Amount: money.MustParse("900")}}
	for year, want := range map[int]string{2026: "3600.00", 2027: "10800.00"} {
		if got := baby.Care(year).String(); got != want {
			t.Errorf("care in %d is %s, want %s", year, got, want)
		}
	}
	for first, want := range map[int]string{0: "", 9: "", 8: "dependents[0].care_monthly.first_month: 8 is before the birth, 2026-09-14; write the month in which the care began"} {
		h := sound()
		h.TaxYear = 2026
		baby.CareMonthly.FirstMonth = first
		h.Dependents = []Dependent{baby}
		if got := mistakes(h); got != want {
			t.Errorf("first month %d: got:\n%s\nwant:\n%s", first, got, want)
		}
	}
}

// A refund is aimed for where it is wished for, or no aim is said.
func TestGoal(t *testing.T) {
	for aim, want := range map[Aim]string{AimUnsaid: "900.00", AimRefund: "900.00", AimEven: "0.00", AimNoPenalty: "0.00"} {
		if got := (Wish{Aim: aim, Refund: money.MustParse("900")}).Goal().String(); got != want {
			t.Errorf("aim %v: the goal is %s, want %s", aim, got, want)
		}
	}
}
