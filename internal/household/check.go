package household

import (
	"fmt"
	"slices"

	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/words"
)

// Report tells what is wrong with the answer at a key of the answers file.
type Report = func(key string, what words.Text)

// Check reports every place where the facts do not agree with each other or
// with the calendar, by key in the answers file and with what to do. A fact
// that is not known is passed over, so that what is known of an unfinished
// household can be checked as well. The reader of the file calls it. What may
// be right but is unlikely, or is left out of account, is told by Doubts.
func (h Household) Check(report Report) {
	r := reporter{report: report, year: h.TaxYear}
	if !h.AsOf.IsZero() && h.AsOf.Year < h.TaxYear-1 {
		r.fault("as_of", "long_before", "day", h.AsOf, "year", h.TaxYear)
	}
	if len(h.Jobs) > mostListed || len(h.Dependents) > mostListed {
		for key, n := range map[string]int{"jobs": len(h.Jobs), "dependents": len(h.Dependents)} {
			if n > mostListed {
				r.fault(key, "too_many", "n", n, "most", mostListed)
			}
		}
		return
	}
	wrongAmounts(h, report)
	r.birth("self.birth_date", h.Self.BirthDate)
	r.birth("spouse.birth_date", h.Person(OfSpouse).BirthDate)
	r.monthly("self.care_monthly", h.Self.CareMonthly, "", money.Zero)
	r.monthly("spouse.care_monthly", h.Person(OfSpouse).CareMonthly, "", money.Zero)
	for i, j := range h.Jobs {
		j.check(r.under(fmt.Sprintf("jobs[%d].", i)))
		h.checkStubDay(r, fmt.Sprintf("jobs[%d].year_to_date.payday", i), j)
	}
	for i, d := range h.Dependents {
		d.check(r.under(fmt.Sprintf("dependents[%d].", i)))
	}
	h.Payments.checkBenefits(r.under("payments."))
	if h.Marketplace != nil {
		h.Marketplace.check(r.under("health_marketplace."))
	}
	r.monthly("income.social_security_monthly", h.Income.SocialSecurityMonthly, "social_security", h.Income.SocialSecurity)
	if in := h.Income; in.QualifiedDividends.More(in.OrdinaryDividends) {
		r.fault("income.qualified_dividends", "qualified_dividends", "ordinary", in.OrdinaryDividends)
	}
	if in := h.Income; in.EarlyWithdrawal.More(in.Retirement) {
		r.fault("income.early_withdrawal", "early_withdrawal", "retirement", in.Retirement)
	}
	h.checkNextYear(r.under("next_year."))
	r.inYear("wish.first_payday", h.Wish.FirstPayday, "day_not_in_year")
	h.CheckTexts(report)
}

// Agrees reports whether Check finds nothing.
func (h Household) Agrees() bool {
	agrees := true
	h.Check(func(string, words.Text) { agrees = false })
	return agrees
}

// mostListed is how many jobs or dependents a household has at most; honest ones
// have a handful.
const mostListed = 100

// CheckTexts is the part of Check that looks at texts written freely: whether
// they can be shown, and hold no number that no file may hold.
func (h Household) CheckTexts(report Report) {
	check := func(key string, fault words.Text) {
		if !fault.IsZero() {
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

// reporter tells problems by key; prefix leads to the part being checked.
type reporter struct {
	report Report
	year   int // the tax year; 0 while it is not known
}

// under is the reporter of a part whose keys all begin with prefix.
func (r reporter) under(prefix string) reporter {
	return reporter{func(key string, what words.Text) { r.report(prefix+key, what) }, r.year}
}

// fault reports what is wrong by its code among the answers' words.
func (r reporter) fault(key, code string, namesAndValues ...any) {
	r.report(key, words.T("answers."+code, namesAndValues...))
}

// inYear refuses a payday of another year.
func (r reporter) inYear(key string, d Date, code string) {
	if r.year != 0 && !d.IsZero() && d.Year != r.year {
		r.fault(key, code, "day", d, "year", r.year)
	}
}

func (r reporter) birth(key string, d Date) {
	const oldest = 130
	if r.year != 0 && !d.IsZero() && (d.Year > r.year || d.Year < r.year-oldest) {
		r.fault(key, "birth_date", "day", d, "year", r.year)
	}
}

func (d Dependent) check(r reporter) {
	r.birth("birth_date", d.BirthDate)
	if m := d.Months(); m < 0 || m > 12 {
		r.fault("months_with_you", "months", "months", m)
	}
	r.monthly("care_monthly", d.CareMonthly, "care_expenses", d.CareExpenses)
	if m := d.CareMonthly; m != nil && m.FirstMonth > 0 && m.FirstMonth < d.FirstMonthOf(r.year) {
		r.fault("care_monthly.first_month", "care_before_birth", "first", m.FirstMonth, "born", d.BirthDate)
	}
}

func (m Marketplace) check(r reporter) {
	if n := m.CoveredMonths(); n < 1 || n > 12 {
		r.fault("months", "months_covered", "months", n)
	}
	if m.Household != nil && *m.Household < 1 {
		r.fault("household", "tax_family", "people", *m.Household)
	}
	if m.Advance.IsPositive() && m.Advance.More(m.Premiums) {
		r.fault("advance", "advance_above_premiums", "premiums", m.Premiums)
	}
}

func (j Job) check(r reporter) {
	if j.Frequency == FrequencyUnknown {
		r.fault("pay_frequency", "no_frequency")
	}
	if j.GrossPay.IsPositive() {
		after := j.GrossPay.Sub(j.Pretax.Total())
		if after.IsNegative() {
			r.fault("pretax", "pretax_above_gross", "pretax", j.Pretax.Total(), "gross", j.GrossPay)
		} else if j.TaxablePay.IsPositive() && !j.TaxablePay.Equal(after) {
			r.fault("taxable_pay", "taxable_and_gross", "pay", j.TaxablePay, "after", after)
		}
	}
	if !j.LastPayday.IsZero() && j.LastPayday.Before(j.FirstPayday) {
		r.fault("last_payday", "last_before_first", "last", j.LastPayday, "first", j.FirstPayday)
	}
	if r.year != 0 && j.FirstPayday.Year > r.year {
		r.fault("first_payday", "first_after_year", "day", j.FirstPayday, "year", r.year)
	}
	j.checkNamedDays(r)
	if j.YearToDate != nil {
		j.YearToDate.check(r.under("year_to_date."), j)
	}
	if j.LastPaycheck != nil {
		j.LastPaycheck.check(r.under("last_paycheck."))
	}
	for i, o := range j.OneTimePay {
		r.inYear(fmt.Sprintf("one_time_pay[%d].payday", i), o.Payday, "day_not_in_year")
	}
	if j.Certificate != nil {
		j.Certificate.check(r.under("certificate."))
	}
	j.checkEarlier(r)
}

// checkEarlier refuses earlier certificates that do not come one after another
// and all before the one on file.
func (j Job) checkEarlier(r reporter) {
	for i, c := range j.EarlierCertificates {
		key := fmt.Sprintf("earlier_certificates[%d].", i)
		c.check(r.under(key))
		next := j.Certificate
		if i+1 < len(j.EarlierCertificates) {
			next = &j.EarlierCertificates[i+1]
		}
		if next == nil || !c.CountsFrom.Before(next.CountsFrom) {
			r.fault(key+"counts_from", "earlier_certificates")
		}
	}
}

// startsAfter reports whether the first payday is after a day, both as it is due
// and as it is paid.
func (j Job) startsAfter(d Date) bool {
	return d.Before(j.FirstPayday) && d.Before(j.PaidOn(j.FirstPayday))
}

// shownEarly is how many days before its payday a pay stub may be in hand:
// payrolls show it some days ahead. Common practice.
const shownEarly = 7

// checkStubDay refuses a stub of a payday that is not near yet on the day on
// which the answers are worked out, or on which the job was over.
func (h Household) checkStubDay(r reporter, key string, j Job) {
	day := j.StubPayday()
	switch {
	case day.IsZero():
	case h.AsOf.Year >= h.TaxYear && day.After(h.AsOf.AddDays(shownEarly)):
		r.fault(key, "stub_after_as_of", "day", day, "as_of", h.AsOf)
	case !j.LastPayday.Before(j.FirstPayday) && !j.LastPayday.IsZero() && day.After(j.LastPayday) && day.After(j.PaidOn(j.LastPayday)):
		r.fault(key, "stub_after_last", "day", day, "last", j.LastPayday)
	}
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
		r.fault(key, "one_day_of_month")
	case j.Frequency == Semimonthly && (len(days) != 2 || days[0] == days[1]):
		r.fault(key, "two_days_of_month")
	case j.Frequency != Monthly && j.Frequency != Semimonthly:
		r.fault(key, "no_days_of_month", "frequency", j.Frequency.String())
	case r.year != 0 && j.FirstPayday.Year == r.year && !j.MayPayOn(r.year, j.FirstPayday):
		r.fault("first_payday", "no_named_day", "day", j.FirstPayday)
	}
}

// named reports whether a day is one of the named days of its month, be banks
// open or not.
func (j Job) named(d Date) bool {
	return slices.ContainsFunc(j.PaydaysOfMonth, func(n DayOfMonth) bool { return d == inMonth(d.Year, int(d.Month), int(n)) })
}

// check questions running totals that cannot be right.
func (y YearToDate) check(r reporter, j Job) {
	r.inYear("payday", y.Payday, "stub_of_other_year")
	if y.Payday.Year == r.year && j.startsAfter(y.Payday) {
		r.fault("payday", "stub_before_first", "day", y.Payday, "first", j.FirstPayday)
	}
	r.withheld("federal_tax", y.FederalTax, y.TaxablePay)
}

func (p Paycheck) check(r reporter) {
	r.inYear("payday", p.Payday, "paycheck_of_other_year")
	if p.OneTimePay.More(p.TaxablePay) {
		r.fault("one_time_pay", "bonus_above_paycheck", "pay", p.TaxablePay)
	}
	r.withheld("federal_tax", p.FederalTax, p.TaxablePay)
}

// withheld refuses tax above the pay it came out of.
func (r reporter) withheld(key string, tax, pay money.Amount) {
	if tax.IsPositive() && tax.More(pay) {
		r.fault(key, "withheld_above_pay", "tax", tax, "pay", pay)
	}
}

// Check reports entries that cannot be on a certificate of its edition, by key
// relative to the certificate.
func (c Certificate) Check(report Report) {
	wrongAmounts(c, report)
	c.check(reporter{report: report})
}

func (c Certificate) check(r reporter) {
	if c.Allowances < 0 {
		r.fault("allowances", "negative", "amount", c.Allowances)
	}
	if c.Edition == Current {
		for _, f := range []struct {
			key string
			set bool
		}{{"allowances", c.Allowances > 0}, {"marital", c.Marital != MaritalSingle}} {
			if f.set {
				r.fault(f.key, "only_before_2020")
			}
		}
		return
	}
	for _, f := range []struct {
		key string
		set bool
	}{
		{"multiple_jobs", c.MultipleJobs},
		{"credits", c.Credits.IsPositive()},
		{"other_income", c.OtherIncome.IsPositive()},
		{"deductions", c.Deductions.IsPositive()},
	} {
		if f.set {
			r.fault(f.key, "only_current")
		}
	}
	if c.Status != CertificateSingle {
		r.fault("filing_status", "status_before_2020", "status", c.Status.String())
	}
}
