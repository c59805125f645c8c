package interview

import (
	"strconv"
	"strings"
	"testing"

	"example.com/plumbline/internal/certificate"
	"example.com/plumbline/internal/household"
)

const simpleHire = `
	interview.way_in = new_job
	interview.married = no
	interview.jobs = 1
	interview.people = 0
	interview.income = none
	interview.reductions = none`

// summerJob is a student's, after simpleHire.
const summerJob = `
	interview.fit = yes
	interview.job_1_special = ends
	jobs[0].pay_frequency = weekly
	jobs[0].first_payday = 2026-06-12
	interview.job_1_pay_known = hourly
	interview.job_1_hourly = 17.50
	interview.job_1_hours = 40
	interview.job_1_pretax = none
	jobs[0].last_payday = 2026-08-28
	self.birth_date = 2006`

// hireWithChild starts a job, unmarried, with a child of their own at home for some
// months of the year.
func hireWithChild(born string, months int) string {
	return `
	interview.way_in = new_job
	interview.married = no
	interview.jobs = 1
	interview.people = 1
	self.can_be_claimed = no
	dependents[0].relationship = child
	dependents[0].birth_date = ` + born + `
	dependents[0].months_with_you = ` + strconv.Itoa(months) + `
	interview.person_1_claimed = no
	dependents[0].ssn_valid_for_work = yes`
}

// stubOfOneJob is how one who is not married comes to check the stub of one job.
const stubOfOneJob = `
	interview.way_in = stub
	interview.jobs = 1
	interview.married = no
	interview.job_1_special = none`

// Every question of the simple new hire can change an entry: for each there is
// an answer that leads to a certificate other than the blank one for single.
func TestSimpleNewHireIsAskedOnlyWhatCounts(t *testing.T) {
	oneJob := `
		interview.job_1_special = none
		jobs[0].pay_frequency = biweekly
		jobs[0].first_payday = 2026-06-26
		interview.job_1_pay_known = taxable
		jobs[0].taxable_pay = 3100`
	refund := `
		wish.refund = 0`
	wish := refund + `
		wish.tell_employer = all`
	tests := []struct {
		question string
		script   string
	}{
		{"interview.married", `
			interview.way_in = new_job
			interview.married = yes
			interview.file_jointly = jointly
			interview.jobs = 1
			interview.spouse_jobs = 0
			interview.people = 0
			interview.income = none
			interview.reductions = none
			interview.fit = no`},
		{"interview.jobs", `
			interview.way_in = new_job
			interview.married = no
			interview.jobs = 2
			interview.people = 0
			interview.income = none
			interview.reductions = none
			jobs[0].name = Harbor Clinic` + oneJob + `
			jobs[1].name = Mill School
			interview.job_2_special = none
			jobs[1].pay_frequency = monthly
			interview.job_2_stub = no
			jobs[1].first_payday = 2026-01-30
			interview.job_2_pay_known = taxable
			jobs[1].taxable_pay = 3500
			interview.job_2_on_file = current
			jobs[1].certificate.filing_status = single
			interview.job_2_lines = none
			interview.last_year = no` + wish},
		{"interview.people", hireWithAChild + `
			dependents[0].birth_date = 2020
			dependents[0].months_with_you = 12
			interview.person_1_claimed = no
			dependents[0].ssn_valid_for_work = yes
			interview.home = yes
			interview.income = none
			interview.reductions = none` + oneJob + `
			self.ssn_valid_for_work = yes
			interview.no_tax_last_year = no` + wish},
		{"interview.income", `
			interview.way_in = new_job
			interview.married = no
			interview.jobs = 1
			interview.people = 0
			interview.income = interest
			interview.reductions = none
			self.can_be_claimed = no` + oneJob + `
			income.interest = 9000
			payments.other_withholding = 0
			payments.estimated_tax = 0` + wish},
		{"interview.reductions", `
			interview.way_in = new_job
			interview.married = no
			interview.jobs = 1
			interview.people = 0
			interview.income = none
			interview.reductions = student_loan` + oneJob + `
			adjustments.student_loan_interest = 2400` + wish},
		{"interview.fit", simpleHire + `
			interview.fit = yes` + oneJob + `
			interview.job_1_pretax = none` + refund},
	}
	for _, tt := range tests {
		t.Run(tt.question, func(t *testing.T) {
			script := strings.Replace(tt.script, "\n\t\t\tinterview.job_1_pretax = none", "", 1)
			s := begin(t, "2026-06-15", "")
			play(t, s, script)
			ended(t, s)
			r, err := s.Result()
			if err != nil {
				t.Fatal(err)
			}
			for _, c := range r.Recommended.Certificates {
				if c.Certificate != (household.Certificate{}) {
					return
				}
			}
			t.Errorf("the certificates are blank all the same: %+v", r.Recommended.Certificates)
		})
	}
}

// Amounts behind a list do not count once the list says no, stay in the file,
// and come back for confirmation.
func TestKeptAnswers(t *testing.T) {
	s := begin(t, "2026-06-15", "")
	play(t, s, aloneWithStub+`
		jobs[0].year_to_date.federal_tax = 2400
		interview.job_1_pay_known = taxable
		jobs[0].taxable_pay = 2400
		interview.job_1_on_file = not_sure
		interview.people = 0
		interview.income = interest
		interview.reductions = none
		self.can_be_claimed = no
		income.interest = 800
		payments.other_withholding = 0
		payments.estimated_tax = 0
		wish.refund = 0
		wish.tell_employer = all`)
	ended(t, s)

	s.GoTo("interview.income")
	play(t, s, "interview.income = none")
	play(t, s, "interview.income = none") // asked once more, since there was interest before
	ended(t, s)
	h, err := s.Household()
	if err != nil {
		t.Fatal(err)
	}
	if !h.Income.Interest.IsZero() {
		t.Errorf("interest of %v still counts", h.Income.Interest)
	}
	if got, _ := s.Document().Get(keptKey("income.interest")); got != "800" {
		t.Errorf("kept %q, want 800", got)
	}

	s.GoTo("interview.income")
	play(t, s, "interview.income = interest")
	q, more := s.Question()
	if !more || q.Key != "income.interest" || q.Answer != "800" || !q.Again {
		t.Fatalf("asked %s with answer %q, again %v; want income.interest, 800, true", q.Key, q.Answer, q.Again)
	}
	play(t, s, `
		income.interest = 800
		payments.other_withholding = 0
		payments.estimated_tax = 0`)
	ended(t, s)
	if s.Document().Has(keptKey("income.interest")) {
		t.Error("what counts again is still kept aside")
	}
}

// A file written by hand is complete: what it leaves out is zero. Nothing of
// it is lost, keys that no question covers included.
func TestHandWrittenFileIsComplete(t *testing.T) {
	const file = `
format: 1
tax_year: 2026
as_of: 2026-06-15
filing_status: married_filing_jointly
self: {birth_date: 1991-03-02}
jobs:
  - name: Harbor Clinic
    pay_frequency: biweekly
    gross_pay: 2650
    pretax: {retirement: 150, health: 100}
    year_to_date: {payday: 2026-06-12, taxable_pay: 28800, federal_tax: 2471.04}
    last_paycheck: {taxable_pay: 2400, federal_tax: 205.92}
    one_time_pay:
      - {payday: 2026-11-13, amount: 1000, withholding: with_paycheck}
      - {payday: 2026-12-11, amount: 3000, withholding: flat}
    certificate: {filing_status: married_filing_jointly, credits: 2700}
  - {name: Old Mill, earner: spouse, pay_frequency: monthly, taxable_pay: 3000, last_payday: 2026-05-29,
     year_to_date: {payday: 2026-05-29, taxable_pay: 15000, federal_tax: 800}}
dependents:
  - {name: first child, birth_date: 2020-05-05, care_expenses: 2400}
  - {relationship: descendant, birth_date: 2011-01-01, supports_self: true}
income: {interest: 120, long_term_gain: -500}
deductions: {charity_cash: 300}
credits: {other_refundable: 75}
wish: {first_payday: 2026-07-10}
`
	s := begin(t, "2026-06-15", file)
	before, err := s.Household()
	if err != nil {
		t.Fatal(err)
	}
	if q, more := s.Question(); more {
		t.Fatalf("asks %s of a complete file", q.Key)
	}
	for key, want := range map[string]string{
		"jobs[0].one_time_pay[1].amount": "3000", "jobs[0].last_paycheck.federal_tax": "205.92",
		"jobs[0].pretax.retirement": "150", "jobs[0].gross_pay": "2650", "dependents[1].supports_self": "true",
		"self.birth_date": "1991-03-02", "credits.other_refundable": "75", "wish.first_payday": "2026-07-10",
		"jobs[1].last_payday": "2026-05-29", "income.long_term_gain": "-500",
	} {
		if got, _ := s.Document().Get(key); got != want {
			t.Errorf("%s is %q, was %q", key, got, want)
		}
	}
	if n := len(before.CountedJobs()); n != 2 {
		t.Errorf("%d jobs", n)
	}
}

// What cannot be right is refused with a word of help, and changes nothing.
func TestRefusals(t *testing.T) {
	s := begin(t, "2026-06-15", "")
	refused := func(text, help string) {
		t.Helper()
		before := string(s.Document().Bytes())
		err := s.Answer(text)
		if err == nil || !strings.Contains(err.Error(), help) {
			t.Errorf("%q: %v, want a message with %q", text, err, help)
		}
		if string(s.Document().Bytes()) != before {
			t.Errorf("%q changed the file", text)
		}
	}
	refused("", "needs an answer")
	refused("a raise", "Choose one of those listed")
	play(t, s, `
		interview.way_in = stub`)
	refused("some", "digits")
	refused("12", "between 0 and 9")
	play(t, s, `
		interview.jobs = 1
		interview.married = No`)
	refused("ended, lottery", "Choose from the list")
	play(t, s, `
		interview.job_1_special = none
		jobs[0].pay_frequency = every two weeks`)
	refused("2026-02-30", "is not a day of that month")
	refused("2026-06-26", "has not come yet")
	refused("2025-12-26", "start again each January")
	play(t, s, "jobs[0].year_to_date.payday = June 12")
	refused("1.200,50", "Type it like 1200.50")
	refused("-5", "cannot be below zero")
	play(t, s, "jobs[0].year_to_date.taxable_pay = 9000")
	refused("9,001", "cannot have been withheld")
}

func TestProgressDoesNotLie(t *testing.T) {
	s := begin(t, "2026-06-15", "")
	left := 100
	for {
		p := s.Progress()
		if p.Left > left {
			t.Errorf("%d chapters left, were %d", p.Left, left)
		}
		left = p.Left
		q, more := s.Question()
		if !more {
			break
		}
		if err := s.Answer(map[string]string{
			"interview.way_in": "new_job", "interview.married": "no", "interview.jobs": "1", "jobs[0].state": Unknown, "interview.people": "0",
			"interview.income": "none", "interview.reductions": "none", "interview.fit": "no",
		}[q.Key]); err != nil {
			t.Fatal(err)
		}
	}
	if left != 0 {
		t.Errorf("%d chapters left at the end", left)
	}
}

// The draft is the paper as it is: the status at once, the children as soon
// as they count, and what can still change marked so.
func TestDraft(t *testing.T) {
	s := begin(t, "2026-03-02", "")
	line := func(name string) DraftLine {
		t.Helper()
		d := s.Draft()
		if len(d.Certificates) == 0 {
			t.Fatal("no certificate")
		}
		for _, l := range d.Certificates[0].Lines {
			if l.Line == name {
				return l
			}
		}
		t.Fatalf("no line %s", name)
		return DraftLine{}
	}
	if l := line("1(c)"); l.Text != "" || !l.Open {
		t.Errorf("before any answer: %+v", l)
	}
	play(t, s, `
		interview.way_in = new_job
		interview.married = yes
		interview.file_jointly = jointly
		interview.jobs = 1
		interview.spouse_jobs = 0
		interview.people = 1
		dependents[0].relationship = child
		dependents[0].birth_date = 2021
		dependents[0].months_with_you = 12
		dependents[0].ssn_valid_for_work = yes`)
	// Form W-4 (2026), Step 3(a): 2,200 for each child under 17.
	if l := line("3(a)"); l.Text != "$2,200" || l.Open {
		t.Errorf("a child counts: %+v", l)
	}
	if l := line("1(c)"); !strings.HasPrefix(l.Text, "Married filing jointly") || l.Open {
		t.Errorf("the status: %+v", l)
	}
	if l := line("4(b)"); l.Text != "" || !l.Open {
		t.Errorf("deductions are still to come: %+v", l)
	}
}

// Publication 505 (2025), ch. 1, p. 3: a change of status from joint asks for a
// certificate within ten days where too little would be withheld.
func TestDueAfterDivorce(t *testing.T) {
	for _, p := range persons {
		if p.name != "divorced, a child at home" {
			continue
		}
		s := begin(t, p.today, "")
		play(t, s, p.script)
		var status *certificate.Change
		for _, c := range s.Due() {
			if c.Code == "status" {
				status = &c
			}
		}
		if status == nil || !status.Must {
			t.Fatalf("due: %+v", s.Due())
		}
	}
}
