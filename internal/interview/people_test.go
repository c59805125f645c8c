package interview

import (
	"slices"
	"testing"
)

// The kinds of person of DESIGN.md, and others that bend the path: the exact
// questions that each is asked, in order.
var persons = []struct {
	name   string
	today  string
	script string
	status string
	blank  bool
}{
	{
		name: "new hire in January", today: "2026-01-12", status: "single", blank: true,
		script: `
			interview.way_in = new_job
			interview.married = no
			interview.jobs = 1
			interview.people = 0
			interview.income = none
			interview.reductions = none`,
	},
	{
		name: "new hire in June", today: "2026-06-15", status: "single", blank: true,
		script: simpleHire + `
			interview.fit = no`,
	},
	{
		name: "new hire in June who wants no refund", today: "2026-06-15", status: "single",
		script: simpleHire + `
			interview.fit = yes
			interview.job_1_special = none
			jobs[0].pay_frequency = biweekly
			jobs[0].first_payday = 2026-07-03
			interview.job_1_pay_known = salary
			interview.job_1_salary = 62,400
			interview.job_1_pretax = retirement
			jobs[0].pretax.retirement = 120
			wish.refund = 0`,
	},
	{
		name: "new hire, married, the spouse at home", today: "2026-03-02", status: "married_filing_jointly", blank: true,
		script: `
			interview.way_in = new_job
			interview.married = yes
			interview.file_jointly = jointly
			interview.jobs = 1
			interview.spouse_jobs = 0
			interview.people = 0
			interview.income = none
			interview.reductions = none
			interview.fit = no`,
	},
	{
		name: "student with a summer job", today: "2026-06-01", status: "single",
		script: simpleHire + summerJob + `
			interview.no_tax_last_year = yes
			interview.exempt = yes`,
	},
	{
		name: "newly married, both work", today: "2026-05-04", status: "married_filing_jointly",
		script: `
			interview.way_in = changed
			interview.changes = married
			interview.change_date = 2026-05-02
			interview.married = yes
			interview.file_jointly = jointly
			interview.jobs = 1
			interview.spouse_jobs = 1
			interview.people = 0
			interview.income = none
			interview.reductions = none
			jobs[0].name = Harbor Clinic
			interview.job_1_special = none
			jobs[0].pay_frequency = biweekly
			interview.job_1_stub = no
			jobs[0].first_payday = 2026-01-09
			interview.job_1_pay_known = taxable
			jobs[0].taxable_pay = 2400
			interview.job_1_on_file = current
			jobs[0].certificate.filing_status = single
			interview.job_1_lines = none
			jobs[1].name = Oak Street Bakery
			interview.spouse_job_1_special = none
			jobs[1].pay_frequency = weekly
			interview.spouse_job_1_stub = yes
			jobs[1].year_to_date.payday = 2026-05-01
			jobs[1].year_to_date.taxable_pay = 15300
			jobs[1].year_to_date.federal_tax = 1224
			interview.spouse_job_1_pay_known = taxable
			jobs[1].taxable_pay = 850
			interview.spouse_job_1_on_file = not_sure
			wish.refund = 0
			wish.tell_employer = all
			wish.spread = even`,
	},
	{
		name: "divorced, a child at home", today: "2026-09-14", status: "head_of_household",
		script: `
			interview.way_in = changed
			interview.changes = divorced
			interview.change_date = 2026-09-10
			interview.married = no
			interview.jobs = 1
			interview.people = 1
			self.can_be_claimed = no
			dependents[0].relationship = child
			dependents[0].birth_date = 2019-04-02
			dependents[0].months_with_you = 9
			interview.person_1_claimed = no
			dependents[0].ssn_valid_for_work = yes
			interview.home = yes
			interview.income = none
			interview.reductions = care
			interview.job_1_special = none
			jobs[0].pay_frequency = semimonthly
			interview.job_1_stub = yes
			jobs[0].year_to_date.payday = 2026-08-31
			jobs[0].year_to_date.taxable_pay = 36800
			jobs[0].year_to_date.federal_tax = 1900
			interview.job_1_pay_known = paycheck
			jobs[0].gross_pay = 2500
			interview.job_1_pretax = health, dependent_care
			jobs[0].pretax.health = 120
			jobs[0].pretax.dependent_care = 80
			interview.job_1_on_file = current
			jobs[0].certificate.filing_status = married_filing_jointly
			interview.job_1_lines = 3
			jobs[0].certificate.credits = 2200
			dependents[0].care_monthly.amount = 4800/yr
			self.ssn_valid_for_work = yes
			wish.refund = 300
			wish.tell_employer = all`,
	},
	{
		name: "separated parents: the child lives with the other", today: "2026-02-02", status: "single",
		script: hireWithAChild + `
			dependents[0].birth_date = 2017
			dependents[0].months_with_you = 4
			interview.person_1_released = yes
			dependents[0].ssn_valid_for_work = yes
			interview.income = none
			interview.reductions = none
			interview.job_1_special = none
			jobs[0].pay_frequency = weekly
			jobs[0].first_payday = 2026-02-13
			interview.job_1_pay_known = taxable
			jobs[0].taxable_pay = 980
			self.ssn_valid_for_work = yes
			wish.refund = 0
			wish.tell_employer = extra_only`,
	},
	{
		name: "a parent taken in", today: "2026-04-20", status: "head_of_household",
		script: `
			interview.way_in = changed
			interview.changes = parent
			interview.change_date = 2026-04-01
			interview.married = no
			interview.jobs = 1
			interview.people = 1
			self.can_be_claimed = no
			dependents[0].relationship = parent
			dependents[0].gross_income = 2400
			dependents[0].you_support = yes
			dependents[0].files_joint_return = no
			dependents[0].citizen_or_resident = yes
			interview.home = yes
			interview.income = none
			interview.reductions = none
			interview.job_1_special = none
			jobs[0].pay_frequency = monthly
			interview.job_1_stub = yes
			jobs[0].year_to_date.payday = 2026-03-31
			jobs[0].year_to_date.taxable_pay = 15600
			jobs[0].year_to_date.federal_tax = 1350
			interview.job_1_pay_known = year_to_date
			interview.job_1_on_file = current
			jobs[0].certificate.filing_status = single
			interview.job_1_lines = none
			wish.refund = 0
			wish.tell_employer = all`,
	},
	{
		name: "June, two earners with stubs, two children, a side business", today: "2026-06-15", status: "married_filing_jointly",
		script: `
			interview.way_in = stub
			interview.jobs = 1
			interview.married = yes
			interview.job_1_special = bonus
			jobs[0].pay_frequency = biweekly
			jobs[0].year_to_date.payday = 2026-06-12
			jobs[0].year_to_date.taxable_pay = 28800
			jobs[0].year_to_date.federal_tax = 2471.04
			interview.job_1_pay_known = taxable
			jobs[0].taxable_pay = 2400
			interview.file_jointly = jointly
			interview.job_1_on_file = current
			jobs[0].certificate.filing_status = married_filing_jointly
			interview.job_1_lines = 3, 4c
			jobs[0].certificate.credits = 2700
			jobs[0].certificate.extra = 20
			interview.spouse_jobs = 1
			interview.people = 2
			dependents[0].relationship = child
			dependents[0].birth_date = 2020-05-05
			dependents[0].months_with_you = 12
			dependents[0].ssn_valid_for_work = yes
			dependents[1].relationship = child
			dependents[1].birth_date = 2007
			dependents[1].months_with_you = 12
			dependents[1].full_time_student = yes
			dependents[1].supports_self = no
			dependents[1].files_joint_return = no
			dependents[1].citizen_or_resident = yes
			interview.income = self_employment, interest
			interview.reductions = house
			jobs[0].one_time_pay[0].payday = 2026-12-11
			jobs[0].one_time_pay[0].amount = 3000
			jobs[0].one_time_pay[0].withholding = flat
			jobs[0].name = Harbor Clinic
			jobs[1].name = Mill School
			interview.spouse_job_1_special = ended
			jobs[1].pay_frequency = monthly
			jobs[1].year_to_date.payday = 2026-05-29
			jobs[1].year_to_date.taxable_pay = 14000
			jobs[1].year_to_date.federal_tax = 900
			jobs[1].last_payday = 2026-05-29
			income.interest = 240
			income.self_employment.self = 19000
			interview.rough_itemized = 12000
			self.ssn_valid_for_work = yes
			spouse.ssn_valid_for_work = yes
			payments.other_withholding = 0
			payments.estimated_tax = 0
			interview.last_year = yes
			last_year.total_tax = 5200
			last_year.adjusted_gross_income = 98000
			wish.refund = 0
			wish.tell_employer = all
			interview.again = none`,
	},
	{
		name: "retiree with a pension and a part-time job", today: "2026-02-16", status: "single",
		script: `
			interview.way_in = new_job
			interview.married = widowed
			interview.spouse_died = 2019
			interview.jobs = 1
			interview.people = 0
			interview.income = pension, social_security
			interview.reductions = senior
			self.can_be_claimed = no
			jobs[0].name = Garden Center
			interview.job_1_special = none
			jobs[0].pay_frequency = weekly
			jobs[0].first_payday = 2026-02-27
			interview.job_1_pay_known = hourly
			interview.job_1_hourly = 18
			interview.job_1_hours = 20
			interview.job_1_pretax = none
			interview.pensions = 1
			jobs[1].name = Your pension
			interview.pension_1_special = none
			jobs[1].pay_frequency = monthly
			interview.pension_1_stub = yes
			jobs[1].year_to_date.payday = 2026-01-30
			jobs[1].year_to_date.taxable_pay = 1900
			jobs[1].year_to_date.federal_tax = 60
			jobs[1].taxable_pay = 1900
			interview.pension_1_on_file = none
			income.social_security_monthly.amount = 21000/yr
			income.social_security_monthly.first_month = 1
			income.social_security_monthly.last_month = 12
			self.birth_date = 1957-11-20
			self.ssn_valid_for_work = yes
			payments.other_withholding = 0
			interview.last_year = no
			wish.refund = 0
			wish.tell_employer = all`,
	},
	{
		name: "a house bought, tips and overtime", today: "2026-08-03", status: "single",
		script: `
			interview.way_in = changed
			interview.changes = house
			interview.change_date = 2026-07-31
			interview.married = no
			interview.jobs = 1
			interview.people = 0
			interview.income = none
			interview.reductions = tips, overtime, house, gifts
			interview.job_1_special = none
			jobs[0].pay_frequency = weekly
			interview.job_1_stub = no
			jobs[0].first_payday = 2026-01-02
			interview.job_1_pay_known = taxable
			jobs[0].taxable_pay = 1300
			interview.job_1_on_file = before_2020
			jobs[0].certificate.marital = single
			jobs[0].certificate.allowances = 2
			jobs[0].certificate.extra = 0
			jobs[0].qualified_tips = 6000
			interview.job_1_overtime_rate = time_and_a_half
			interview.job_1_overtime_pay = 9000
			interview.rough_itemized = 19000
			deductions.mortgage_interest = 14000
			deductions.mortgage_insurance = 600
			deductions.state_local_taxes = 5200
			deductions.medical = 0
			deductions.charity_cash = 400
			deductions.charity_other = 0
			deductions.other_itemized = 0
			self.ssn_valid_for_work = yes
			wish.refund = 0
			wish.tell_employer = all`,
	},
	{
		name: "widowed last year, a child at home", today: "2026-03-09", status: "qualifying_surviving_spouse",
		script: `
			interview.way_in = stub
			interview.jobs = 1
			interview.married = widowed
			interview.job_1_special = none
			jobs[0].pay_frequency = monthly
			jobs[0].year_to_date.payday = 2026-02-27
			jobs[0].year_to_date.taxable_pay = 9000
			jobs[0].year_to_date.federal_tax = 150
			interview.job_1_pay_known = taxable
			jobs[0].taxable_pay = 6100
			interview.spouse_died = 2025
			interview.job_1_on_file = not_sure
			interview.people = 1
			self.can_be_claimed = no
			dependents[0].relationship = child
			dependents[0].birth_date = 2015-08-08
			dependents[0].months_with_you = 12
			interview.person_1_claimed = no
			dependents[0].ssn_valid_for_work = yes
			interview.home = yes
			interview.income = none
			interview.reductions = none
			self.ssn_valid_for_work = yes
			wish.refund = 0
			wish.tell_employer = all`,
	},
	{
		name: "separate returns, apart since spring, a child at home", today: "2026-07-06", status: "head_of_household",
		script: `
			interview.way_in = new_job
			interview.married = yes
			interview.file_jointly = separately
			interview.jobs = 1
			interview.people = 1
			self.can_be_claimed = no
			dependents[0].relationship = child
			dependents[0].birth_date = 2012-02-02
			dependents[0].months_with_you = 12
			interview.person_1_claimed = no
			dependents[0].ssn_valid_for_work = yes
			interview.apart = yes
			interview.home = yes
			interview.income = none
			interview.reductions = none
			interview.job_1_special = none
			jobs[0].pay_frequency = biweekly
			jobs[0].first_payday = 2026-07-17
			interview.job_1_pay_known = taxable
			jobs[0].taxable_pay = 5200
			self.ssn_valid_for_work = yes
			wish.refund = 0
			wish.tell_employer = all`,
	},
}

func TestPersons(t *testing.T) {
	for _, p := range persons {
		t.Run(p.name, func(t *testing.T) {
			s := begin(t, p.today, "")
			play(t, s, p.script)
			ended(t, s)
			if got, _ := s.Document().Get("filing_status"); got != p.status {
				t.Errorf("filing status %s, want %s", got, p.status)
			}
			if s.Blank() != p.blank {
				t.Errorf("blank %v, want %v", s.Blank(), p.blank)
			}
			r, err := s.Result()
			if err != nil {
				t.Fatal(err)
			}
			if len(r.Recommended.Certificates) == 0 {
				t.Error("no certificate")
			}
		})
	}
}

// "Six or seven short questions are enough" for one job and nothing else
// (DESIGN.md, The people).
func TestSimpleNewHireIsAskedLittle(t *testing.T) {
	for _, p := range persons {
		if !p.blank {
			continue
		}
		s := begin(t, p.today, "")
		play(t, s, p.script)
		most := 7
		if p.status == "married_filing_jointly" {
			most = 9 // one return or two, and the spouse's jobs
		}
		asked := slices.DeleteFunc(s.Review(), func(a Answered) bool { return a.Key == "jobs[0].state" }) // on the page of the jobs; Enter passes over it
		if n := len(asked); n > most {
			t.Errorf("%s: %d questions", p.name, n)
		}
	}
}
