package household

import (
	"fmt"

	"example.com/plumbline/internal/money"
)

// Check reports every place where the facts do not agree with each other or
// with the calendar, by key in the answers file and with what to do. A fact
// that is not known is passed over, so that what is known of an unfinished
// household can be checked as well. The reader of the file calls it.
func (h Household) Check(report func(key, message string)) {
	r := reporter{report: report, year: h.TaxYear}
	if !h.AsOf.IsZero() && h.AsOf.Year < h.TaxYear-1 {
		r.report("as_of", fmt.Sprintf("%v is more than a year before tax year %d; correct one of them", h.AsOf, h.TaxYear))
	}
	r.birth("self.birth_date", h.Self.BirthDate)
	r.birth("spouse.birth_date", h.Person(OfSpouse).BirthDate)
	for i, j := range h.Jobs {
		j.check(r.under(fmt.Sprintf("jobs[%d].", i)))
	}
	for i, d := range h.Dependents {
		d.check(r.under(fmt.Sprintf("dependents[%d].", i)))
	}
	checkIncome(h.Income, r.under("income."))
	checkAdjustments(h.Adjustments, r.under("adjustments."))
	checkDeductions(h.Deductions, r.under("deductions."))
	checkCredits(h.Credits, r.under("credits."))
	r.notNegative("payments.estimated_tax", h.Payments.EstimatedTax)
	r.notNegative("payments.other_withholding", h.Payments.OtherWithholding)
	h.Payments.checkBenefits(r.under("payments."))
	r.notNegative("other_taxes.household_workers", h.OtherTaxes.HouseholdWorkers)
	if h.Parents != nil {
		h.Parents.check(r.under("parents."))
	}
	if h.Marketplace != nil {
		h.Marketplace.check(r.under("health_marketplace."))
	}
	if h.LastYear != nil {
		r.givenNotNegative("last_year.total_tax", h.LastYear.TotalTax)
	}
	h.checkNextYear(r.under("next_year."))
	r.notNegative("wish.refund", h.Wish.Refund)
	r.givenNotNegative("wish.within", h.Wish.Within)
	r.givenNotNegative("wish.most_less_per_paycheck", h.Wish.MostLess)
	r.inYear("wish.first_payday", h.Wish.FirstPayday, "")
	h.CheckTexts(report)
}

// CheckTexts is the part of Check that looks at texts written freely: whether
// they can be shown, and hold no number that no file may hold.
func (h Household) CheckTexts(report func(key, message string)) {
	check := func(key, fault string) {
		if fault != "" {
			report(key, fault)
		}
	}
	check("id", NameFault(h.ID))
	for i, j := range h.Jobs {
		check(fmt.Sprintf("jobs[%d].name", i), NameFault(j.Name))
	}
	for i, d := range h.Dependents {
		check(fmt.Sprintf("dependents[%d].name", i), NameFault(d.Name))
	}
	for _, texts := range []map[string]string{h.Interview.Gates, h.Interview.Kept} {
		for name, text := range texts {
			check("interview", textFault(name+" = "+text))
		}
	}
}

// A reporter tells problems by key; prefix leads to the part being checked.
type reporter struct {
	report func(key, message string)
	year   int // the tax year; 0 while it is not known
}

// under is the reporter of a part whose keys all begin with prefix.
func (r reporter) under(prefix string) reporter {
	return reporter{func(key, message string) { r.report(prefix+key, message) }, r.year}
}

func (r reporter) notNegative(key string, a money.Amount) {
	if a.IsNegative() {
		r.report(key, fmt.Sprintf("%s cannot be negative; leave the minus sign out", a.Grouped()))
	}
}

// givenNotNegative is notNegative for an amount that may not be given.
func (r reporter) givenNotNegative(key string, a *money.Amount) {
	if a != nil {
		r.notNegative(key, *a)
	}
}

// inYear refuses a payday of another year; why says what depends on it.
func (r reporter) inYear(key string, d Date, why string) {
	if r.year != 0 && !d.IsZero() && d.Year != r.year {
		r.report(key, fmt.Sprintf("%v is not in tax year %d%s", d, r.year, why))
	}
}

func (r reporter) birth(key string, d Date) {
	const oldest = 130
	if r.year != 0 && !d.IsZero() && (d.Year > r.year || d.Year < r.year-oldest) {
		r.report(key, fmt.Sprintf("%v is not a birth date of someone alive in %d", d, r.year))
	}
}

func (d Dependent) check(r reporter) {
	r.birth("birth_date", d.BirthDate)
	if m := d.Months(); m < 0 || m > 12 {
		r.report("months_with_you", fmt.Sprintf("%d is not a number of months of one year; write 0 to 12", m))
	}
	r.notNegative("gross_income", d.GrossIncome)
	r.notNegative("care_expenses", d.CareExpenses)
	r.monthly("care_monthly", d.CareMonthly, "care_expenses", d.CareExpenses)
}

// Gains, business profit and other income may be losses.
func checkIncome(in Income, r reporter) {
	r.notNegative("interest", in.Interest)
	r.notNegative("tax_exempt_interest", in.TaxExemptInterest)
	r.notNegative("ordinary_dividends", in.OrdinaryDividends)
	r.notNegative("qualified_dividends", in.QualifiedDividends)
	r.notNegative("capital_loss_carryover.short_term", in.CapitalLossCarryover.ShortTerm)
	r.notNegative("capital_loss_carryover.long_term", in.CapitalLossCarryover.LongTerm)
	in.Business.check(r.under("business."))
	r.notNegative("unemployment", in.Unemployment)
	r.notNegative("retirement", in.Retirement)
	r.notNegative("early_withdrawal", in.EarlyWithdrawal)
	r.notNegative("gambling_winnings", in.GamblingWinnings)
	r.notNegative("social_security", in.SocialSecurity)
	r.monthly("social_security_monthly", in.SocialSecurityMonthly, "social_security", in.SocialSecurity)
	if in.EarlyWithdrawal.IsPositive() && in.EarlyWithdrawal.More(in.Retirement) {
		r.report("early_withdrawal", fmt.Sprintf("what is taken early is part of the income from retirement and cannot be more than its %s", in.Retirement.Grouped()))
	}
	if in.QualifiedDividends.More(in.OrdinaryDividends) {
		r.report("qualified_dividends", fmt.Sprintf("qualified dividends are part of the ordinary dividends and cannot be more than their %s", in.OrdinaryDividends.Grouped()))
	}
}

func checkAdjustments(ad Adjustments, r reporter) {
	r.notNegative("student_loan_interest", ad.StudentLoanInterest)
	r.notNegative("educator_expenses.self", ad.EducatorExpenses.Self)
	r.notNegative("educator_expenses.spouse", ad.EducatorExpenses.Spouse)
	r.notNegative("hsa_contribution", ad.HSAContribution)
	r.notNegative("ira_deduction", ad.IRADeduction)
	r.notNegative("self_employed_health.self", ad.SelfEmployedHealth.Self)
	r.notNegative("self_employed_health.spouse", ad.SelfEmployedHealth.Spouse)
	r.notNegative("self_employed_retirement.self", ad.SelfEmployedRetirement.Self)
	r.notNegative("self_employed_retirement.spouse", ad.SelfEmployedRetirement.Spouse)
	r.notNegative("other", ad.Other)
}

func checkDeductions(de Deductions, r reporter) {
	r.notNegative("medical", de.Medical)
	r.notNegative("state_local_taxes", de.StateLocalTaxes)
	r.notNegative("mortgage_interest", de.MortgageInterest)
	r.notNegative("mortgage_balance", de.MortgageBalance)
	r.notNegative("mortgage_insurance", de.MortgageInsurance)
	r.notNegative("charity_cash", de.CharityCash)
	r.notNegative("charity_other", de.CharityOther)
	r.notNegative("car_loan_interest", de.CarLoanInterest)
	r.notNegative("gambling_losses", de.GamblingLosses)
	r.notNegative("other_itemized", de.OtherItemized)
}

func checkCredits(cr Credits, r reporter) {
	for i, s := range cr.Education {
		r.notNegative(fmt.Sprintf("education[%d].expenses", i), s.Expenses)
	}
	r.notNegative("retirement_saving.self", cr.RetirementSaving.Self)
	r.notNegative("retirement_saving.spouse", cr.RetirementSaving.Spouse)
	r.notNegative("foreign_tax", cr.ForeignTax)
	for i, a := range cr.Adoption {
		r.notNegative(fmt.Sprintf("adoption[%d].expenses", i), a.Expenses)
	}
	r.notNegative("energy.clean", cr.Energy.Clean)
	r.notNegative("energy.improvements", cr.Energy.Improvements)
	r.notNegative("energy.heat_pumps", cr.Energy.HeatPumps)
	r.notNegative("other_nonrefundable", cr.OtherNonrefundable)
	r.notNegative("other_refundable", cr.OtherRefundable)
}

func (m Marketplace) check(r reporter) {
	r.notNegative("premiums", m.Premiums)
	r.notNegative("benchmark", m.Benchmark)
	r.notNegative("advance", m.Advance)
	if n := m.CoveredMonths(); n < 1 || n > 12 {
		r.report("months", fmt.Sprintf("%d is not a number of months with coverage; write 1 to 12", n))
	}
	if m.Household != nil && *m.Household < 1 {
		r.report("household", fmt.Sprintf("%d is not a number of people; write 1 or more", *m.Household))
	}
	if m.Advance.IsPositive() && m.Advance.More(m.Premiums) {
		r.report("advance", fmt.Sprintf("the advance payments go toward the premiums and cannot be more than their %s", m.Premiums.Grouped()))
	}
}

func (j Job) check(r reporter) {
	if j.Frequency == FrequencyUnknown {
		r.report("pay_frequency", "is missing: how often the job pays is needed for any figure; write biweekly, monthly or the like")
	}
	r.notNegative("taxable_pay", j.TaxablePay)
	r.notNegative("gross_pay", j.GrossPay)
	r.notNegative("pretax.retirement", j.Pretax.Retirement)
	r.notNegative("pretax.health", j.Pretax.Health)
	r.notNegative("pretax.fsa", j.Pretax.FSA)
	r.notNegative("pretax.hsa", j.Pretax.HSA)
	r.notNegative("pretax.dependent_care", j.Pretax.DependentCare)
	r.notNegative("pretax.other", j.Pretax.Other)
	r.notNegative("qualified_tips", j.QualifiedTips)
	r.notNegative("qualified_overtime", j.QualifiedOvertime)
	if j.GrossPay.IsPositive() {
		after := j.GrossPay.Sub(j.Pretax.Total())
		if after.IsNegative() {
			r.report("pretax", fmt.Sprintf("the pre-tax deductions of %s are more than the gross pay of %s", j.Pretax.Total().Grouped(), j.GrossPay.Grouped()))
		} else if j.TaxablePay.IsPositive() && !j.TaxablePay.Equal(after) {
			r.report("taxable_pay", fmt.Sprintf("%s does not agree with gross pay less pre-tax deductions, %s; correct one or leave one out", j.TaxablePay.Grouped(), after.Grouped()))
		}
	}
	if !j.LastPayday.IsZero() && j.LastPayday.Before(j.FirstPayday) {
		r.report("last_payday", fmt.Sprintf("%v is before the first payday, %v", j.LastPayday, j.FirstPayday))
	}
	if r.year != 0 && j.FirstPayday.Year > r.year {
		r.report("first_payday", fmt.Sprintf("%v is after tax year %d", j.FirstPayday, r.year))
	}
	j.checkNamedDays(r)
	if j.YearToDate != nil {
		j.YearToDate.check(r.under("year_to_date."), j)
	}
	if j.LastPaycheck != nil {
		j.LastPaycheck.check(r.under("last_paycheck."))
	}
	for i, o := range j.OneTimePay {
		r.inYear(fmt.Sprintf("one_time_pay[%d].payday", i), o.Payday, "")
		r.notNegative(fmt.Sprintf("one_time_pay[%d].amount", i), o.Amount)
	}
	if j.Certificate != nil {
		j.Certificate.Check(r.under("certificate.").report)
	}
	j.checkEarlier(r)
}

// checkEarlier refuses earlier certificates that do not come one after another
// and all before the one on file.
func (j Job) checkEarlier(r reporter) {
	for i, c := range j.EarlierCertificates {
		key := fmt.Sprintf("earlier_certificates[%d].", i)
		c.Check(r.under(key).report)
		next := j.Certificate
		if i+1 < len(j.EarlierCertificates) {
			next = &j.EarlierCertificates[i+1]
		}
		if next == nil || !c.CountsFrom.Before(next.CountsFrom) {
			r.report(key+"counts_from", "an earlier certificate counts from a day before that of the one after it; give each one after it a counts_from, oldest first")
		}
	}
}

// startsAfter reports whether the first payday is after a day, both as it is due
// and as it is paid.
func (j Job) startsAfter(d Date) bool {
	return d.Before(j.FirstPayday) && d.Before(j.PaidOn(j.FirstPayday))
}

// checkNamedDays refuses named days of the month that the pay frequency does not
// have, and a first payday that is none of them.
func (j Job) checkNamedDays(r reporter) {
	const key = "paydays_of_month"
	days := j.PaydaysOfMonth
	switch {
	case len(days) == 0:
		return
	case j.Frequency == Monthly && len(days) != 1:
		r.report(key, "monthly pay has one day of the month; write one, like [last]")
	case j.Frequency == Semimonthly && len(days) != 2:
		r.report(key, "semimonthly pay has two days of the month; write both, like [15, last]")
	case j.Frequency == Semimonthly && days[0] == days[1]:
		r.report(key, "semimonthly pay has two different days of the month; write both, like [15, last]")
	case j.Frequency != Monthly && j.Frequency != Semimonthly:
		r.report(key, fmt.Sprintf("%s pay follows no day of the month; leave this out, or write monthly or semimonthly as the pay frequency", j.Frequency))
	case r.year != 0 && j.FirstPayday.Year == r.year && !j.IsPaydayStub(r.year, j.FirstPayday):
		r.report("first_payday", fmt.Sprintf("%v is not a payday by paydays_of_month; correct one of them", j.FirstPayday))
	}
}

// check questions running totals that cannot be right.
func (y YearToDate) check(r reporter, j Job) {
	r.inYear("payday", y.Payday, "; year-to-date figures begin anew each January")
	if y.Payday.Year == r.year && j.startsAfter(y.Payday) {
		r.report("payday", fmt.Sprintf("%v is before the first payday, %v", y.Payday, j.FirstPayday))
	}
	r.notNegative("taxable_pay", y.TaxablePay)
	r.withheld("federal_tax", y.FederalTax, y.TaxablePay)
}

func (p Paycheck) check(r reporter) {
	r.inYear("payday", p.Payday, "; give the newest stub of that year")
	r.notNegative("taxable_pay", p.TaxablePay)
	r.notNegative("one_time_pay", p.OneTimePay)
	if p.OneTimePay.More(p.TaxablePay) {
		r.report("one_time_pay", fmt.Sprintf("one-time pay is part of the paycheck and cannot be more than its taxable pay of %s", p.TaxablePay.Grouped()))
	}
	r.withheld("federal_tax", p.FederalTax, p.TaxablePay)
	if p.SocialSecurity != nil {
		r.notNegative("social_security", *p.SocialSecurity)
	}
	if p.Medicare != nil {
		r.notNegative("medicare", *p.Medicare)
	}
}

// withheld refuses tax below zero, or above the pay it came out of.
func (r reporter) withheld(key string, tax, pay money.Amount) {
	r.notNegative(key, tax)
	if tax.IsPositive() && tax.More(pay) {
		r.report(key, fmt.Sprintf("%s of tax cannot have been withheld from %s of pay; look at the stub again", tax.Grouped(), pay.Grouped()))
	}
}

// Check reports entries that cannot stand on a certificate of its edition, by
// key relative to the certificate.
func (c Certificate) Check(report func(key, message string)) {
	r := reporter{report: report}
	r.notNegative("credits", c.Credits)
	r.notNegative("other_income", c.OtherIncome)
	r.notNegative("deductions", c.Deductions)
	r.notNegative("extra", c.Extra)
	if c.Allowances < 0 {
		report("allowances", fmt.Sprintf("%d cannot be negative; leave the minus sign out", c.Allowances))
	}
	if c.Edition == Current && c.Allowances > 0 {
		report("allowances", "certificates of 2020 and later have no allowances; write edition: before_2020 or leave them out")
	}
	if c.Edition == Before2020 {
		for _, f := range []struct {
			key string
			set bool
		}{{"multiple_jobs", c.MultipleJobs}, {"credits", c.Credits.IsPositive()}, {"other_income", c.OtherIncome.IsPositive()}, {"deductions", c.Deductions.IsPositive()}} {
			if f.set {
				report(f.key, "certificates of before 2020 have no such entry; write edition: current or leave it out")
			}
		}
	}
}
