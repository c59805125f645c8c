package interview

import (
	"testing"

	"example.com/plumbline/internal/money"
)

// oneJobOf is a single person with one job, what counts beside it, and the
// questions that follow.
func oneJobOf(income, reductions, pay, rest string) string {
	return `
		interview.way_in = new_job
		interview.married = no
		interview.jobs = 1
		interview.people = 0
		interview.income = ` + income + `
		interview.reductions = ` + reductions + `
		self.can_be_claimed = no
		interview.job_1_special = none
		jobs[0].pay_frequency = biweekly
		jobs[0].first_payday = 2026-01-09
		interview.job_1_pay_known = taxable
		jobs[0].taxable_pay = ` + pay + rest
}

// Money from a retirement account: what is taken early is asked of those younger
// than 59 and a half when the year begins, IRC 72(t)(2)(A)(i), and of nobody else.
func TestEarlyWithdrawalIsAskedOfTheYounger(t *testing.T) {
	for _, tt := range []struct{ born, rest string }{
		{"1966-07-02", "income.early_withdrawal = 3000"},
		{"1966-07-01", "payments.other_withholding = 0"},
	} {
		s := begin(t, "2026-01-05", "")
		play(t, s, oneJobOf("retirement", "none", "2000", `
			income.retirement = 8000
			self.birth_date = `+tt.born+`
			`+tt.rest))
	}
	s := begin(t, "2026-01-05", "")
	play(t, s, oneJobOf("retirement", "none", "2000", `
		income.retirement = 0
		payments.other_withholding = 0`))
}

// Insurance from the marketplace: the figures of Form 1095-A.
func TestMarketplaceIsAsked(t *testing.T) {
	s := begin(t, "2026-01-05", "")
	play(t, s, `
		interview.way_in = new_job
		interview.married = no
		interview.jobs = 1
		interview.people = 0
		interview.income = none
		interview.reductions = marketplace
		interview.job_1_special = none
		jobs[0].pay_frequency = biweekly
		jobs[0].first_payday = 2026-01-09
		interview.job_1_pay_known = taxable
		jobs[0].taxable_pay = 1500
		health_marketplace.months = 12
		health_marketplace.premiums = 6100
		health_marketplace.benchmark = 6300
		health_marketplace.advance = 4200
		health_marketplace.place = states
		interview.last_year = no
		wish.refund = 0
		wish.tell_employer = all`)
	ended(t, s)
	r, err := s.Result()
	if err != nil {
		t.Fatal(err)
	}
	// 26 × 1,500 = 39,000: 249% of 15,650, 8.40%: 3,276; 6,300 - 3,276 = 3,024 of
	// credit, 1,176 less than was paid in advance.
	if got := r.Return.ExcessAdvance; !got.Equal(money.Dollars(1176)) {
		t.Errorf("%v is to be paid back, want 1,176", got)
	}
}

// The business is asked about only where taxable income is above the threshold
// of IRC 199A(e)(2), 201,750 for a single person in 2026; a service trade above
// the whole range, 276,750, is asked nothing more.
func TestBusinessIsAskedAboveTheThreshold(t *testing.T) {
	begins := func(pay, rest string) {
		t.Helper()
		s := begin(t, "2026-01-05", "")
		play(t, s, oneJobOf("self_employment", "own_plan", pay, `
			income.self_employment.self = 20000
			adjustments.self_employed_retirement.self = 1000`+rest))
	}
	// 26 × 7,000 + 20,000 - 1,000 - some 270 of self-employment tax - 16,100 is
	// below 201,750; 26 × 8,000 brings it above.
	begins("7000", `
		payments.estimated_tax = 0`)
	begins("8000", `
		income.business.self.specified_service = no
		income.business.self.wages = 0
		income.business.self.property = 0
		payments.estimated_tax = 0`)
	begins("8000", `
		income.business.self.specified_service = yes
		income.business.self.wages = 0
		income.business.self.property = 0
		payments.estimated_tax = 0`)
	begins("12000", `
		income.business.self.specified_service = yes
		payments.estimated_tax = 0`)
}
