package interview

import (
	"slices"
	"strings"
	"testing"

	"example.com/plumbline/internal/household"
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

// The debt is asked for only where the interest on it may be on more than the
// limit, 750,000 in 2026: above 2% of it, 15,000.
func TestLargeMortgageIsAsked(t *testing.T) {
	begins := func(interest, rest string) {
		t.Helper()
		s := begin(t, "2026-01-05", "")
		play(t, s, strings.Replace(oneJobOf("none", "house", "9000", `
			interview.rough_itemized = 40000
			deductions.mortgage_interest = `+interest+`
			deductions.mortgage_insurance = 0
			deductions.state_local_taxes = 9000
			deductions.medical = 0
			deductions.other_itemized = 0`+rest), "self.can_be_claimed = no", "", 1))
	}
	begins("15000", `
		wish.refund = 0`)
	begins("15001", `
		deductions.mortgage_balance = 750000
		wish.refund = 0`)
	begins("40000", `
		deductions.mortgage_balance = 750001
		deductions.mortgage_before_december_16_2017 = no
		wish.refund = 0`)
}

// Gambling: winnings, and losses where listing deductions may be worth it.
func TestGamblingIsAsked(t *testing.T) {
	begins := func(winnings, rest string) {
		t.Helper()
		s := begin(t, "2026-01-05", "")
		play(t, s, oneJobOf("gambling", "none", "2000", `
			income.gambling_winnings = `+winnings+rest))
	}
	begins("0", `
		payments.other_withholding = 0`)
	begins("3000", `
		interview.rough_itemized = 3000
		payments.other_withholding = 0`)
	begins("30000", `
		interview.rough_itemized = 30000
		deductions.mortgage_interest = 0
		deductions.mortgage_insurance = 0
		deductions.state_local_taxes = 2000
		deductions.medical = 0
		deductions.gambling_losses = 28000
		deductions.other_itemized = 0
		payments.other_withholding = 0`)
}

// Foreign tax is asked of those who have other credits.
func TestForeignTaxIsAsked(t *testing.T) {
	s := begin(t, "2026-01-05", "")
	play(t, s, oneJobOf("dividends", "other_credit", "2000", `
		income.ordinary_dividends = 3000
		income.qualified_dividends = 3000
		credits.foreign_tax = 120
		interview.adoptions = 0
		credits.other_nonrefundable = 0
		payments.other_withholding = 0`))
	if got := s.walk.household().Credits.ForeignTax; !got.Equal(money.Dollars(120)) {
		t.Errorf("foreign tax of %v, want 120", got)
	}
}

// The parents' return is asked for of one who can be claimed, is under 24 at the
// end of the year, and has more than 2,700 that is not pay (2026): IRC 1(g).
func TestParentsReturnIsAsked(t *testing.T) {
	begins := func(claimed, interest, rest string) {
		t.Helper()
		s := begin(t, "2026-01-05", "")
		play(t, s, strings.Replace(oneJobOf("interest", "none", "2000", `
			income.interest = `+interest+rest), "can_be_claimed = no", "can_be_claimed = "+claimed, 1))
	}
	begins("no", "9000", `
		payments.other_withholding = 0`)
	begins("yes", "2700", `
		payments.other_withholding = 0`)
	begins("yes", "2701", `
		self.birth_date = 2002-05-05
		payments.other_withholding = 0`)
	begins("yes", "2701", `
		self.birth_date = 2003-05-05
		interview.parents_return = no
		payments.other_withholding = 0`)
	begins("yes", "9000", `
		self.birth_date = 2008-05-05
		interview.parents_return = yes
		parents.filing_status = married_filing_jointly
		parents.taxable_income = 150000
		parents.qualified_dividends = 0
		parents.net_capital_gain = 0
		payments.other_withholding = 0`)
}

// Care is asked about for everybody whose care can count: a child under 13, and
// one of any age, or a parent, who is disabled. IRC 21(b)(1).
func TestCareIsAskedAbout(t *testing.T) {
	const before = `
		interview.way_in = new_job
		interview.married = no
		interview.jobs = 1
		interview.people = 1
		self.can_be_claimed = no
		dependents[0].relationship = `
	const child = "child\ndependents[0].months_with_you = 12\ninterview.person_1_claimed = no\ndependents[0].ssn_valid_for_work = yes\n"
	const after = `
		interview.home = no
		interview.income = none
		interview.reductions = care
		interview.job_1_special = none
		jobs[0].pay_frequency = weekly
		jobs[0].first_payday = 2026-06-19
		interview.job_1_pay_known = taxable
		jobs[0].taxable_pay = 1200
`
	born := func(year string) string {
		return strings.Replace(child, "dependents[0].months", "dependents[0].birth_date = "+year+"\ndependents[0].months", 1)
	}
	const parent = "parent\ndependents[0].gross_income = 20000\n"
	for _, tt := range []struct{ who, script, want string }{
		{"a child of six", born("2020") + after, "dependents[0].care_monthly.amount"},
		{"15", born("2011") + after, "dependents[0].disabled"},
		{"15 and disabled", born("2011") + after + "dependents[0].disabled = yes", "dependents[0].care_monthly.amount"},
		{"15 and not disabled", born("2011") + after + "dependents[0].disabled = no", "self.ssn_valid_for_work"},
		{"a parent with income, disabled", parent + strings.Replace(after, "interview.home = no", "", 1) +
			"dependents[0].months_with_you = 12\ndependents[0].disabled = yes\ndependents[0].you_support = yes", "dependents[0].care_monthly.amount"},
	} {
		s := begin(t, "2026-06-15", "")
		play(t, s, before+tt.script)
		if q, _ := s.Question(); q.Key != tt.want {
			t.Errorf("%s: asked %s, want %s", tt.who, q.Key, tt.want)
		}
	}
}

// Care of a child born in the year begins with the birth: its month is suggested, an
// earlier one is refused with the reason, and the months may be named.
func TestCareBeginsWithTheBirth(t *testing.T) {
	s := begin(t, "2026-11-27", "")
	play(t, s, hireWithChild("2026-09-14", 4)+`
		interview.home = no
		interview.income = none
		interview.reductions = care
		interview.job_1_special = none
		jobs[0].pay_frequency = weekly
		jobs[0].first_payday = 2026-12-04
		interview.job_1_pay_known = taxable
		jobs[0].taxable_pay = 1200
		dependents[0].care_monthly.amount = 900`)
	q, _ := s.Question()
	if q.Key != "dependents[0].care_monthly.first_month" || q.Default != "9" || !q.Month {
		t.Fatalf("asked %s with %q, want the first month with 9", q.Key, q.Default)
	}
	for text, want := range map[string]string{"1": "before the birth", "August": "before the birth", "Thermidor": "is not a month", "13": "between 9 and 12"} {
		if err := s.Answer(text); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v, want %q", text, err, want)
		}
	}
	play(t, s, "dependents[0].care_monthly.first_month = Nov.\ndependents[0].care_monthly.last_month = december")
	if got := tolerant(s.Document()).Dependents[0].Care(2026); !got.Equal(money.Dollars(1800)) {
		t.Errorf("care of %v, want 2 x 900 = 1,800", got)
	}
}

// A couple with care costs is asked whether one of them needs the care, and what
// that costs: IRC 21(b)(1)(C).
func TestCareOfASpouseIsAsked(t *testing.T) {
	s := begin(t, "2026-06-15", "")
	play(t, s, `
		interview.way_in = new_job
		interview.married = yes
		interview.file_jointly = jointly
		interview.jobs = 1
		interview.spouse_jobs = 0
		interview.people = 0
		interview.income = none
		interview.reductions = care
		interview.job_1_special = none
		jobs[0].pay_frequency = weekly
		jobs[0].first_payday = 2026-06-19
		interview.job_1_pay_known = taxable
		jobs[0].taxable_pay = 1200
		self.disabled = no
		spouse.disabled = yes
		spouse.care_monthly.amount = 350
		spouse.care_monthly.first_month = 7
		spouse.care_monthly.last_month = 12`)
	h := tolerant(s.Document())
	if got := h.Spouse.Care(); !got.Equal(money.Dollars(2100)) {
		t.Errorf("care of %v, want 6 x 350 = 2,100", got)
	}
	if got := h.DisabledSpouses(); len(got) != 1 || got[0] != household.OfSpouse {
		t.Errorf("%v need care, want the spouse", got)
	}
}

// Each adoption is asked for: for a child with special needs no costs, IRC
// 23(a)(3).
func TestAdoptionsAreAsked(t *testing.T) {
	s := begin(t, "2026-01-05", "")
	play(t, s, oneJobOf("interest", "other_credit", "2000", `
		income.interest = 100
		credits.foreign_tax = 0
		interview.adoptions = 2
		credits.other_nonrefundable = 0
		credits.adoption[0].special_needs = no
		credits.adoption[0].expenses = 9000
		credits.adoption[1].special_needs = yes
		payments.other_withholding = 0`))
	want := []household.Adoption{{Expenses: money.Dollars(9000)}, {SpecialNeeds: true}}
	if got := s.walk.household().Credits.Adoption; !slices.Equal(got, want) {
		t.Errorf("adoptions %v, want %v", got, want)
	}
	// One taken back is kept aside, and comes back with its answers.
	s.GoTo("interview.adoptions")
	for _, n := range []string{"1", "2"} {
		if err := s.Answer(n); err != nil {
			t.Fatal(err)
		}
		s.GoTo("interview.adoptions")
		if got := len(s.walk.household().Credits.Adoption); n == "1" && got != 1 {
			t.Errorf("%d adoptions after one was taken back, want 1", got)
		}
	}
}

// A file that the interview did not write keeps its adoptions: also that of a
// child with special needs, of which no amount tells.
func TestAdoptionsOfAFileStay(t *testing.T) {
	s := begin(t, "2026-01-05", `
tax_year: 2026
filing_status: single
jobs:
  - {pay_frequency: biweekly, first_payday: 2026-01-09, taxable_pay: 2000}
credits:
  adoption:
    - {special_needs: true}
`)
	if got := s.walk.household().Credits.Adoption; len(got) != 1 || !got[0].SpecialNeeds {
		t.Errorf("adoptions %v, want one with special needs", got)
	}
}

// Interest that is not taxed is asked for where social security or the marketplace
// makes it count (IRC 86(b)(2)(B), 36B(d)(2)(B)(ii)), and of nobody else.
func TestExemptInterestIsAskedWhereItCounts(t *testing.T) {
	for _, tt := range []struct {
		income, reductions string
		want               bool
	}{
		{"interest", "none", false},
		{"interest, social_security", "none", true},
		{"dividends", "marketplace", true},
		{"social_security", "marketplace", false},
	} {
		s := begin(t, "2026-06-15", "")
		play(t, s, `
			interview.way_in = new_job
			interview.married = no
			interview.jobs = 1
			interview.people = 0
			interview.income = `+tt.income+`
			interview.reductions = `+tt.reductions)
		if _, asked := s.walk.place["income.tax_exempt_interest"]; asked != tt.want {
			t.Errorf("%s and %s: asked %v", tt.income, tt.reductions, asked)
		}
	}
}
