package household

import (
	"fmt"

	"example.com/plumbline/internal/money"
)

// Check reports every place where the facts do not agree with each other or
// with the calendar, by key in the answers file and with what to do. The
// reader of the file calls it once the file has the right shape.
func (h Household) Check(report func(key, message string)) {
	if h.Format != Format {
		report("format", fmt.Sprintf("this program reads format %d; the file says %d", Format, h.Format))
	}
	h.checkBirth(report, "self.birth_date", h.Self.BirthDate)
	h.checkBirth(report, "spouse.birth_date", h.Person(OfSpouse).BirthDate)
	h.checkSigns(report)
	for i, j := range h.Jobs {
		h.checkJob(func(key, message string) { report(fmt.Sprintf("jobs[%d].%s", i, key), message) }, j)
	}
	for i, d := range h.Dependents {
		h.checkBirth(report, fmt.Sprintf("dependents[%d].birth_date", i), d.BirthDate)
		if m := d.Months(); m < 0 || m > 12 {
			report(fmt.Sprintf("dependents[%d].months_with_you", i), fmt.Sprintf("%d is not a number of months of one year; write 0 to 12", m))
		}
	}
	if h.Income.QualifiedDividends.More(h.Income.OrdinaryDividends) {
		report("income.qualified_dividends", "qualified dividends are part of the ordinary dividends and cannot be more than them")
	}
	if !h.Wish.FirstPayday.IsZero() && h.Wish.FirstPayday.Year != h.TaxYear {
		report("wish.first_payday", fmt.Sprintf("%v is not in tax year %d", h.Wish.FirstPayday, h.TaxYear))
	}
}

func (h Household) checkBirth(report func(key, message string), key string, d Date) {
	const oldest = 130
	if !d.IsZero() && (d.Year > h.TaxYear || d.Year < h.TaxYear-oldest) {
		report(key, fmt.Sprintf("%v is not a birth date of someone alive in %d", d, h.TaxYear))
	}
}

// checkSigns refuses negatives where none makes sense. Gains, business profit
// and other income may be losses.
func (h Household) checkSigns(report func(key, message string)) {
	notNegative := func(key string, a money.Amount) {
		if a.IsNegative() {
			report(key, fmt.Sprintf("%s cannot be negative", a.Grouped()))
		}
	}
	in, ad, de, cr, pa := h.Income, h.Adjustments, h.Deductions, h.Credits, h.Payments
	for _, f := range []struct {
		key    string
		amount money.Amount
	}{
		{"income.interest", in.Interest},
		{"income.ordinary_dividends", in.OrdinaryDividends},
		{"income.qualified_dividends", in.QualifiedDividends},
		{"income.unemployment", in.Unemployment},
		{"income.retirement", in.Retirement},
		{"income.social_security", in.SocialSecurity},
		{"adjustments.student_loan_interest", ad.StudentLoanInterest},
		{"adjustments.educator_expenses.self", ad.EducatorExpenses.Self},
		{"adjustments.educator_expenses.spouse", ad.EducatorExpenses.Spouse},
		{"adjustments.hsa_contribution", ad.HSAContribution},
		{"adjustments.ira_deduction", ad.IRADeduction},
		{"adjustments.other", ad.Other},
		{"deductions.medical", de.Medical},
		{"deductions.state_local_taxes", de.StateLocalTaxes},
		{"deductions.mortgage_interest", de.MortgageInterest},
		{"deductions.mortgage_insurance", de.MortgageInsurance},
		{"deductions.charity_cash", de.CharityCash},
		{"deductions.charity_other", de.CharityOther},
		{"deductions.car_loan_interest", de.CarLoanInterest},
		{"deductions.other_itemized", de.OtherItemized},
		{"credits.retirement_saving.self", cr.RetirementSaving.Self},
		{"credits.retirement_saving.spouse", cr.RetirementSaving.Spouse},
		{"credits.other_nonrefundable", cr.OtherNonrefundable},
		{"credits.other_refundable", cr.OtherRefundable},
		{"payments.estimated_tax", pa.EstimatedTax},
		{"payments.other_withholding", pa.OtherWithholding},
		{"wish.refund", h.Wish.Refund},
	} {
		notNegative(f.key, f.amount)
	}
	for i, s := range cr.Education {
		notNegative(fmt.Sprintf("credits.education[%d].expenses", i), s.Expenses)
	}
	for i, d := range h.Dependents {
		notNegative(fmt.Sprintf("dependents[%d].care_expenses", i), d.CareExpenses)
		notNegative(fmt.Sprintf("dependents[%d].gross_income", i), d.GrossIncome)
	}
	if h.LastYear != nil {
		notNegative("last_year.total_tax", h.LastYear.TotalTax)
	}
}

func (h Household) checkJob(report func(key, message string), j Job) {
	if j.Frequency == FrequencyUnknown {
		report("pay_frequency", "is missing: how often the job pays is needed for any figure; write biweekly, monthly or the like")
	}
	for _, f := range []struct {
		key    string
		amount money.Amount
	}{
		{"taxable_pay", j.TaxablePay}, {"gross_pay", j.GrossPay},
		{"pretax.retirement", j.Pretax.Retirement}, {"pretax.health", j.Pretax.Health}, {"pretax.fsa", j.Pretax.FSA},
		{"pretax.hsa", j.Pretax.HSA}, {"pretax.dependent_care", j.Pretax.DependentCare}, {"pretax.other", j.Pretax.Other},
		{"qualified_tips", j.QualifiedTips}, {"qualified_overtime", j.QualifiedOvertime},
	} {
		if f.amount.IsNegative() {
			report(f.key, fmt.Sprintf("%s cannot be negative", f.amount.Grouped()))
		}
	}
	if j.GrossPay.IsPositive() {
		after := j.GrossPay.Sub(j.Pretax.Total())
		if after.IsNegative() {
			report("pretax", fmt.Sprintf("the pre-tax deductions of %s are more than the gross pay of %s", j.Pretax.Total().Grouped(), j.GrossPay.Grouped()))
		} else if j.TaxablePay.IsPositive() && !j.TaxablePay.Equal(after) {
			report("taxable_pay", fmt.Sprintf("%s does not agree with gross pay less pre-tax deductions, %s; correct one or leave one out", j.TaxablePay.Grouped(), after.Grouped()))
		}
	}
	if !j.LastPayday.IsZero() && !j.FirstPayday.IsZero() && j.LastPayday.Before(j.FirstPayday) {
		report("last_payday", fmt.Sprintf("%v is before the first payday, %v", j.LastPayday, j.FirstPayday))
	}
	if j.FirstPayday.Year > h.TaxYear {
		report("first_payday", fmt.Sprintf("%v is after tax year %d", j.FirstPayday, h.TaxYear))
	}
	h.checkStub(report, j)
	for i, o := range j.OneTimePay {
		if o.Payday.Year != h.TaxYear {
			report(fmt.Sprintf("one_time_pay[%d].payday", i), fmt.Sprintf("%v is not in tax year %d", o.Payday, h.TaxYear))
		}
		if o.Amount.IsNegative() {
			report(fmt.Sprintf("one_time_pay[%d].amount", i), fmt.Sprintf("%s cannot be negative", o.Amount.Grouped()))
		}
	}
	if c := j.Certificate; c != nil {
		c.check(func(key, message string) { report("certificate."+key, message) })
	}
}

// checkStub questions year-to-date figures that cannot be right.
func (h Household) checkStub(report func(key, message string), j Job) {
	y := j.YearToDate
	if y == nil {
		return
	}
	switch {
	case y.Payday.Year != h.TaxYear:
		report("year_to_date.payday", fmt.Sprintf("%v is not in tax year %d; year-to-date figures begin anew each January", y.Payday, h.TaxYear))
	case !j.FirstPayday.IsZero() && y.Payday.Before(j.FirstPayday):
		report("year_to_date.payday", fmt.Sprintf("%v is before the first payday, %v", y.Payday, j.FirstPayday))
	}
	if y.TaxablePay.IsNegative() {
		report("year_to_date.taxable_pay", fmt.Sprintf("%s cannot be negative", y.TaxablePay.Grouped()))
	}
	if y.FederalTax.IsNegative() {
		report("year_to_date.federal_tax", fmt.Sprintf("%s cannot be negative", y.FederalTax.Grouped()))
	}
	if y.FederalTax.More(y.TaxablePay) {
		report("year_to_date.federal_tax", fmt.Sprintf("%s of tax cannot have been withheld from %s of pay; look at the stub again", y.FederalTax.Grouped(), y.TaxablePay.Grouped()))
	}
}

func (c Certificate) check(report func(key, message string)) {
	for _, f := range []struct {
		key    string
		amount money.Amount
	}{{"credits", c.Credits}, {"other_income", c.OtherIncome}, {"deductions", c.Deductions}, {"extra", c.Extra}} {
		if f.amount.IsNegative() {
			report(f.key, fmt.Sprintf("%s cannot be negative on a certificate", f.amount.Grouped()))
		}
	}
	if c.Allowances < 0 {
		report("allowances", fmt.Sprintf("%d allowances cannot be negative", c.Allowances))
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
