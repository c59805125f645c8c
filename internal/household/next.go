package household

import (
	"fmt"
	"slices"

	"example.com/plumbline/internal/money"
)

// Apply puts what is said to differ next year into a household that has been
// moved there: amounts of income, adjustments, deductions, credits and
// payments, and what a job pays and a dependent's care costs, by name.
func (n NextYear) Apply(h *Household) {
	in := n.Income
	put(&h.Income.Interest, in.Interest)
	put(&h.Income.TaxExemptInterest, in.TaxExemptInterest)
	put(&h.Income.OrdinaryDividends, in.OrdinaryDividends)
	put(&h.Income.QualifiedDividends, in.QualifiedDividends)
	put(&h.Income.ShortTermGain, in.ShortTermGain)
	put(&h.Income.LongTermGain, in.LongTermGain)
	put(&h.Income.CapitalLossCarryover.ShortTerm, in.CapitalLossCarryover.ShortTerm)
	put(&h.Income.CapitalLossCarryover.LongTerm, in.CapitalLossCarryover.LongTerm)
	putEach(&h.Income.SelfEmployment, in.SelfEmployment)
	if in.Business.Self != nil {
		h.Income.Business.Self = in.Business.Self
	}
	if in.Business.Spouse != nil {
		h.Income.Business.Spouse = in.Business.Spouse
	}
	put(&h.Income.Unemployment, in.Unemployment)
	put(&h.Income.Retirement, in.Retirement)
	put(&h.Income.EarlyWithdrawal, in.EarlyWithdrawal)
	put(&h.Income.GamblingWinnings, in.GamblingWinnings)
	put(&h.Income.Other, in.Other)
	if in.SocialSecurity != nil || in.SocialSecurityMonthly != nil {
		h.Income.SocialSecurity, h.Income.SocialSecurityMonthly = money.Zero, in.SocialSecurityMonthly
		put(&h.Income.SocialSecurity, in.SocialSecurity)
	}
	ad := n.Adjustments
	put(&h.Adjustments.StudentLoanInterest, ad.StudentLoanInterest)
	putEach(&h.Adjustments.EducatorExpenses, ad.EducatorExpenses)
	put(&h.Adjustments.HSAContribution, ad.HSAContribution)
	put(&h.Adjustments.IRADeduction, ad.IRADeduction)
	putEach(&h.Adjustments.SelfEmployedHealth, ad.SelfEmployedHealth)
	putEach(&h.Adjustments.SelfEmployedRetirement, ad.SelfEmployedRetirement)
	put(&h.Adjustments.Other, ad.Other)
	de := n.Deductions
	put(&h.Deductions.Medical, de.Medical)
	put(&h.Deductions.StateLocalTaxes, de.StateLocalTaxes)
	put(&h.Deductions.MortgageInterest, de.MortgageInterest)
	put(&h.Deductions.MortgageBalance, de.MortgageBalance)
	put(&h.Deductions.MortgageBefore, de.MortgageBefore)
	put(&h.Deductions.MortgageInsurance, de.MortgageInsurance)
	put(&h.Deductions.CharityCash, de.CharityCash)
	put(&h.Deductions.CharityOther, de.CharityOther)
	put(&h.Deductions.CarLoanInterest, de.CarLoanInterest)
	put(&h.Deductions.GamblingLosses, de.GamblingLosses)
	put(&h.Deductions.OtherItemized, de.OtherItemized)
	put(&h.Deductions.SpouseItemizes, de.SpouseItemizes)
	if n.Credits.Education != nil {
		h.Credits.Education = n.Credits.Education
	}
	putEach(&h.Credits.RetirementSaving, n.Credits.RetirementSaving)
	put(&h.Credits.ForeignTax, n.Credits.ForeignTax)
	if n.Credits.Adoption != nil {
		h.Credits.Adoption = n.Credits.Adoption
	}
	put(&h.Credits.Energy.Clean, n.Credits.Energy.Clean)
	put(&h.Credits.Energy.Improvements, n.Credits.Energy.Improvements)
	put(&h.Credits.Energy.HeatPumps, n.Credits.Energy.HeatPumps)
	put(&h.Credits.OtherNonrefundable, n.Credits.OtherNonrefundable)
	put(&h.Credits.OtherRefundable, n.Credits.OtherRefundable)
	put(&h.Payments.EstimatedTax, n.Payments.EstimatedTax)
	put(&h.Payments.OtherWithholding, n.Payments.OtherWithholding)
	if n.Payments.SocialSecurity != nil {
		h.Payments.SocialSecurity = n.Payments.SocialSecurity
	}
	if n.Payments.Unemployment != nil {
		h.Payments.Unemployment = n.Payments.Unemployment
	}
	if n.Payments.Withdrawals != nil {
		h.Payments.Withdrawals = n.Payments.Withdrawals
	}
	if n.Marketplace != nil {
		h.Marketplace = n.Marketplace
	}
	n.applyToJobs(h)
	n.applyToDependents(h)
}

func (n NextYear) applyToJobs(h *Household) {
	h.Jobs = slices.Clone(h.Jobs)
	for _, next := range n.Jobs {
		for i := range h.Jobs {
			j := &h.Jobs[i]
			if j.Name != next.Name {
				continue
			}
			if next.TaxablePay != nil {
				j.TaxablePay, j.GrossPay = *next.TaxablePay, money.Zero
			}
			if !next.LastPayday.IsZero() {
				j.LastPayday = next.LastPayday
			}
			j.OneTimePay = next.OneTimePay
		}
	}
}

func (n NextYear) applyToDependents(h *Household) {
	h.Dependents = slices.Clone(h.Dependents)
	for _, next := range n.Dependents {
		if !next.BirthDate.IsZero() && !slices.ContainsFunc(h.Dependents, func(d Dependent) bool { return d.Name == next.Name }) {
			h.Dependents = append(h.Dependents, Dependent{Name: next.Name, BirthDate: next.BirthDate})
		}
		for i := range h.Dependents {
			if d := &h.Dependents[i]; d.Name == next.Name && next.CareExpenses != nil {
				d.CareExpenses, d.CareMonthly = *next.CareExpenses, nil
			}
		}
	}
}

// put puts a value that is given into the place of another.
func put[T any](into, given *T) {
	if given != nil {
		*into = *given
	}
}

func putEach(into *ByEarner, given ByEarnerOf[*money.Amount]) {
	put(&into.Self, given.Self)
	put(&into.Spouse, given.Spouse)
}

// checkNextYear checks what is said to differ next year as this year's own
// answers are checked, and that it speaks of jobs and people that there are.
func (h Household) checkNextYear(r reporter) {
	in := h.NextYear.Income
	var year money.Amount
	put(&year, in.SocialSecurity)
	r.monthly("income.social_security_monthly", in.SocialSecurityMonthly, "social_security", year)
	h.NextYear.Payments.checkBenefits(r.under("payments."))
	if m := h.NextYear.Marketplace; m != nil {
		m.check(r.under("health_marketplace."))
	}
	for i, j := range h.NextYear.Jobs {
		of := 0
		for _, job := range h.Jobs {
			if job.Name == j.Name {
				of++
			}
		}
		j.check(r.under(fmt.Sprintf("jobs[%d].", i)), of)
	}
	for i, d := range h.NextYear.Dependents {
		key, of := fmt.Sprintf("dependents[%d].", i), 0
		for _, person := range h.Dependents {
			if person.Name == d.Name {
				of++
			}
		}
		if !d.BirthDate.IsZero() && of == 0 {
			next := r
			if r.year != 0 {
				next.year++
			}
			next.inYear(key+"birth_date", d.BirthDate, "day_not_in_next_year")
			continue
		}
		r.oneOfThem(key+"name", d.Name, "dependent", of)
	}
}

// check checks what differs at a job next year; of is the number of jobs of its
// name.
func (j NextJob) check(r reporter, of int) {
	r.oneOfThem("name", j.Name, "job", of)
	next := r
	if r.year != 0 {
		next.year++
	}
	next.inYear("last_payday", j.LastPayday, "day_not_in_next_year")
	for k, o := range j.OneTimePay {
		next.inYear(fmt.Sprintf("one_time_pay[%d].payday", k), o.Payday, "day_not_in_next_year")
	}
}

// oneOfThem refuses a name that is not that of just one of the answers' own.
func (r reporter) oneOfThem(key, name, of string, n int) {
	switch {
	case n == 0:
		r.fault(key, "nobody_of_name", "of", of, "name", name)
	case n > 1:
		r.fault(key, "several_of_name", "n", n, "of", of, "name", name)
	}
}

// monthly refuses months that are none, and a monthly amount that does not come
// to the year's amount given beside it.
func (r reporter) monthly(key string, m *EachMonth, yearKey string, year money.Amount) {
	if m == nil {
		return
	}
	first, last := m.Months()
	for _, month := range []struct {
		key string
		n   int
	}{{".first_month", first}, {".last_month", last}} {
		if month.n < 1 || month.n > 12 {
			r.fault(key+month.key, "month", "month", month.n)
			return
		}
	}
	switch {
	case last < first:
		r.fault(key+".last_month", "last_month", "last", last, "first", first)
	case year.IsPositive() && !year.Equal(m.Total()):
		r.fault(key, "monthly_and_year", "amount", m.Amount, "first", first, "last", last, "total", m.Total(), "key", yearKey, "year", year)
	}
}
