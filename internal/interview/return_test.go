package interview

import (
	"strings"
	"testing"

	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/paystub"
	"example.com/plumbline/internal/sample"
	"example.com/plumbline/internal/yamldoc"
)

// reopened is the session that another day brings, on the file as saved.
func reopened(t *testing.T, s *Session, today string) *Session {
	t.Helper()
	doc, err := yamldoc.Parse("answers.yaml", s.Document().Bytes())
	if err != nil {
		t.Fatal(err)
	}
	return start(t, doc, today)
}

const twoJobs = `
	interview.way_in = stub
	interview.jobs = 1
	interview.married = yes
	interview.job_1_special = none
	jobs[0].pay_frequency = biweekly
	jobs[0].year_to_date.payday = 2026-06-12
	jobs[0].year_to_date.taxable_pay = 28800
	jobs[0].year_to_date.federal_tax = 2471.04
	interview.job_1_pay_known = taxable
	jobs[0].taxable_pay = 2400
	interview.file_jointly = jointly
	interview.job_1_on_file = current
	jobs[0].certificate.filing_status = married_filing_jointly
	interview.job_1_lines = none
	interview.spouse_jobs = 1
	interview.people = 0
	interview.income = none
	interview.reductions = none
	jobs[0].name = Harbor Clinic
	jobs[1].name = Mill School
	interview.spouse_job_1_special = none
	jobs[1].pay_frequency = monthly
	interview.spouse_job_1_stub = yes
	jobs[1].year_to_date.payday = 2026-05-29
	jobs[1].year_to_date.taxable_pay = 14000
	jobs[1].year_to_date.federal_tax = 900
	interview.spouse_job_1_pay_known = taxable
	jobs[1].taxable_pay = 2800
	interview.spouse_job_1_on_file = current
	jobs[1].certificate.filing_status = married_filing_jointly
	interview.spouse_job_1_lines = none
	interview.last_year = no
	wish.refund = 0
	wish.tell_employer = all
	wish.spread = best_paid`

// The pay-stub return: what changed comes first, then the newest stub of each
// job; all else is kept.
func TestReturnWithNewStubs(t *testing.T) {
	s := begin(t, "2026-06-15", "")
	play(t, s, twoJobs)
	ended(t, s)
	first, err := s.Result()
	if err != nil {
		t.Fatal(err)
	}
	if err := s.Finish(); err != nil {
		t.Fatal(err)
	}

	s = reopened(t, s, "2026-06-15")
	ended(t, s) // the same day: nothing is asked again

	s = reopened(t, s, "2026-09-21")
	q, _ := s.Question()
	if !strings.Contains(q.Text, "since June 15, 2026") || !strings.Contains(q.Notice, "On June 15, 2026 we expected") {
		t.Errorf("asked %q after %q", q.Text, q.Notice)
	}
	play(t, s, `
		interview.changes = none
		interview.job_1_newer_stub = yes
		jobs[0].year_to_date.payday = 2026-09-18
		jobs[0].year_to_date.taxable_pay = 45600`)
	q, _ = s.Question()
	if q.Key != "jobs[0].year_to_date.federal_tax" || q.Prefill() != "" {
		t.Errorf("asked %s with %q, which is the older stub's", q.Key, q.Prefill())
	}
	play(t, s, `
		jobs[0].year_to_date.federal_tax = 4100
		interview.job_1_handed_in = yes
		interview.spouse_job_1_newer_stub = no`) // nothing new was to be handed in there
	ended(t, s)

	h, err := s.Household()
	if err != nil {
		t.Fatal(err)
	}
	handed := first.Recommended.Certificates[0].Certificate
	if c := h.Jobs[0].Certificate; c == nil || !c.Extra.Equal(handed.Extra) || !c.Credits.Equal(handed.Credits) || c.Status != handed.Status {
		t.Errorf("on file is %+v, handed in was %+v", c, handed)
	}
	if c := h.Jobs[1].Certificate; c == nil || !c.Extra.IsZero() {
		t.Errorf("the second certificate was not handed in, on file is %+v", c)
	}

	// Seven paydays from June 26 to September 18. The first two paydays after
	// June 15 are June 26 and July 10; the new certificate counts from the second.
	look := s.LookBack()
	if len(look) != 1 {
		t.Fatalf("%d jobs to look back on, want 1", len(look))
	}
	c := first.Recommended.Certificates[0]
	was := c.Withholding.Add(c.Change)
	want := money.MustParse("2471.04").Add(was).Add(c.Withholding.Times(6))
	if got := look[0]; !got.Forecast.Equal(want) || !got.Actual.Equal(money.Dollars(4100)) {
		t.Errorf("forecast %v and actual %v, want %v and 4100", got.Forecast, got.Actual, want)
	}
}

// A person who handed in what they were told, and whose payroll obeyed, is told
// so: the stub is as expected, each payday by the certificate of its day. Before,
// joint withheld 120.31 from 2,400 every two weeks (payroll's tests), 12 times.
func TestAStubAfterTheAdviceIsAsExpected(t *testing.T) {
	s := begin(t, "2026-06-15", "")
	play(t, s, strings.Replace(twoJobs, "2471.04", "1443.72", 1))
	first, err := s.Result()
	if err != nil {
		t.Fatal(err)
	}
	if err := s.Finish(); err != nil {
		t.Fatal(err)
	}
	c := first.Recommended.Certificates[0]
	if c.Change.IsZero() {
		t.Fatal("nothing was advised")
	}
	// Seven paydays from June 26 to September 18, the first still by the old one.
	paid := money.MustParse("120.31").Times(13).Add(c.Withholding.Times(6))
	s = reopened(t, s, "2026-09-21")
	play(t, s, `
		interview.changes = none
		interview.job_1_newer_stub = yes
		jobs[0].year_to_date.payday = 2026-09-18
		jobs[0].year_to_date.taxable_pay = 45600
		jobs[0].year_to_date.federal_tax = `+paid.Text()+`
		interview.job_1_handed_in = yes
		interview.spouse_job_1_newer_stub = no`)
	h, err := s.Household()
	if err != nil {
		t.Fatal(err)
	}
	read, ok := paystub.Read(h, 0, sample.Year(t, 2026))
	if !ok || !read.FederalTax.Right || len(read.Ask) > 0 {
		t.Errorf("%+v, certificate %+v after %+v", read, h.Jobs[0].Certificate, h.Jobs[0].EarlierCertificates)
	}
}

// A birth reopens only what it touches: the number of people, and the new one.
func TestReturnWithABirth(t *testing.T) {
	s := begin(t, "2026-06-15", "")
	play(t, s, twoJobs)
	s = reopened(t, s, "2026-10-12")
	play(t, s, `
		interview.changes = birth
		interview.change_date = 2026-10-03
		interview.people = 1
		dependents[0].relationship = child
		dependents[0].birth_date = 2026-10-03
		dependents[0].ssn_valid_for_work = yes
		interview.job_1_newer_stub = no
		interview.spouse_job_1_newer_stub = no
		self.ssn_valid_for_work = yes
		spouse.ssn_valid_for_work = yes`)
	ended(t, s)
}

func TestReturnWithAMarriageAndADivorce(t *testing.T) {
	s := begin(t, "2026-06-15", "")
	play(t, s, twoJobs)
	s = reopened(t, s, "2026-08-10")
	play(t, s, `
		interview.changes = divorced
		interview.change_date = 2026-08-03
		interview.married = no
		interview.people = 0
		interview.job_1_newer_stub = no`)
	ended(t, s)
	h, err := s.Household()
	if err != nil {
		t.Fatal(err)
	}
	if n := len(h.Jobs); n != 1 {
		t.Errorf("%d jobs count, want one's own alone", n)
	}
	due := s.Due()
	if len(due) == 0 || due[0].Code != "status" || !due[0].Must || due[0].By.IsZero() {
		t.Errorf("due: %+v", due)
	}

	s = reopened(t, s, "2026-11-02") // and together again
	play(t, s, `
		interview.changes = married
		interview.change_date = 2026-11-01
		interview.married = yes
		interview.file_jointly = jointly
		interview.spouse_jobs = 1`)
	q, _ := s.Question()
	if q.Key != "jobs[0].name" && q.Key != "interview.job_1_newer_stub" && q.Key != "jobs[1].name" && q.Key != "jobs[1].state" {
		t.Errorf("asked %s", q.Key)
	}
	for {
		q, more := s.Question()
		if !more {
			break
		}
		text := q.Prefill()
		if strings.HasSuffix(q.Key, "_newer_stub") {
			text = "no"
		}
		if err := s.Answer(text); err != nil {
			t.Fatalf("%s = %q: %v", q.Key, text, err)
		}
	}
	h, err = s.Household()
	if err != nil {
		t.Fatal(err)
	}
	if len(h.Jobs) != 2 || h.Jobs[1].Name != "Mill School" || !h.Jobs[1].YearToDate.FederalTax.Equal(money.Dollars(900)) {
		t.Errorf("the spouse's job has not come back: %+v", h.Jobs)
	}
}

// A raise reopens the pay, a job's end its special things.
func TestReturnWithARaiseAndAnEnd(t *testing.T) {
	s := begin(t, "2026-06-15", "")
	play(t, s, twoJobs)
	s = reopened(t, s, "2026-08-10")
	play(t, s, `
		interview.changes = spouse_stops, raise
		interview.change_spouse_stops_date = 2026-08-03
		interview.change_raise_date = 2026-08-03
		interview.job_1_newer_stub = no
		interview.job_1_pay_known = taxable
		jobs[0].taxable_pay = 2600
		interview.spouse_job_1_special = ended
		jobs[1].year_to_date.payday = 2026-07-31
		jobs[1].year_to_date.taxable_pay = 19600
		jobs[1].year_to_date.federal_tax = 923
		jobs[1].last_payday = 2026-07-31`)
	ended(t, s)
}

// Each change leads only to the questions that it touches; all else is kept.
func TestEachChangeAsksWhatItTouches(t *testing.T) {
	newStubs := `
		interview.job_1_newer_stub = no
		interview.spouse_job_1_newer_stub = no`
	tests := []struct{ change, script string }{
		{"none", `
			interview.changes = none` + newStubs},
		{"child_17", `
			interview.changes = child_17` + newStubs},
		{"spouse_starts", `
			interview.changes = spouse_starts
			interview.change_date = 2026-08-03
			interview.spouse_jobs = 2
			interview.job_1_newer_stub = no
			interview.spouse_job_1_newer_stub = no
			jobs[2].name = Tutoring
			interview.spouse_job_2_special = none
			jobs[2].pay_frequency = monthly
			interview.spouse_job_2_stub = no
			jobs[2].first_payday = 2026-08-31
			interview.spouse_job_2_pay_known = taxable
			jobs[2].taxable_pay = 700
			interview.spouse_job_2_on_file = none`},
		{"job_begins", `
			interview.changes = job_begins
			interview.change_date = 2026-08-03
			interview.jobs = 2
			interview.job_1_newer_stub = no
			jobs[2].name = Night Desk
			interview.job_2_special = none
			jobs[2].pay_frequency = weekly
			interview.job_2_stub = no
			jobs[2].first_payday = 2026-08-14
			interview.job_2_pay_known = hourly
			interview.job_2_hourly = 21
			interview.job_2_hours = 10
			interview.job_2_pretax = none
			interview.job_2_on_file = none
			interview.spouse_job_1_newer_stub = no`},
		{"job_ends", `
			interview.changes = job_ends
			interview.change_date = 2026-08-03
			interview.job_1_special = ends
			interview.job_1_newer_stub = no
			jobs[0].last_payday = 2026-08-21
			interview.spouse_job_1_newer_stub = no`},
		{"house", `
			interview.changes = house
			interview.change_date = 2026-08-03
			interview.reductions = house` + newStubs + `
			interview.rough_itemized = 15000`},
		{"parent", `
			interview.changes = parent
			interview.change_date = 2026-08-03
			interview.people = 1
			dependents[0].relationship = parent
			dependents[0].gross_income = 20000` + newStubs},
		{"other", `
			interview.changes = other
			interview.change_date = 2026-08-03
			interview.income = unemployment
			interview.reductions = none` + newStubs + `
			income.unemployment = 1800
			payments.other_withholding = 180
			interview.again = none`},
	}
	for _, tt := range tests {
		t.Run(tt.change, func(t *testing.T) {
			s := begin(t, "2026-06-15", "")
			play(t, s, twoJobs)
			s = reopened(t, s, "2026-08-10")
			play(t, s, tt.script)
			ended(t, s)
			if _, err := s.Result(); err != nil {
				t.Error(err)
			}
		})
	}
}

// The new hire comes back with the first stub.
func TestNewHireReturns(t *testing.T) {
	s := begin(t, "2026-06-15", "")
	play(t, s, simpleHire+`
		interview.fit = no`)
	ended(t, s)
	if err := s.Finish(); err != nil {
		t.Fatal(err)
	}
	s = reopened(t, s, "2026-07-20")
	play(t, s, `
		interview.changes = none
		interview.job_1_special = none
		jobs[0].pay_frequency = biweekly
		interview.job_1_stub = yes
		jobs[0].year_to_date.payday = 2026-07-17
		jobs[0].year_to_date.taxable_pay = 4800
		jobs[0].year_to_date.federal_tax = 391.84
		interview.job_1_pay_known = taxable
		jobs[0].taxable_pay = 2400
		interview.job_1_special = none
		interview.job_1_on_file = current
		jobs[0].certificate.filing_status = single
		interview.job_1_lines = none
		wish.refund = 0`)
	ended(t, s)
}

// Last year's answers are carried over: what belongs to the old year is put
// aside, the rest counts for the new one.
func TestNewYear(t *testing.T) {
	s := begin(t, "2025-11-03", "")
	play(t, s, stubOfOneJob+`
		jobs[0].pay_frequency = biweekly
		jobs[0].year_to_date.payday = 2025-10-31
		jobs[0].year_to_date.taxable_pay = 52800
		jobs[0].year_to_date.federal_tax = 4700
		interview.job_1_pay_known = taxable
		jobs[0].taxable_pay = 2400
		interview.job_1_on_file = not_sure
		interview.people = 0
		interview.income = none
		interview.reductions = none
		wish.refund = 0`)
	ended(t, s)
	s = reopened(t, s, "2026-02-09")
	q, _ := s.Question()
	if !strings.Contains(q.Notice, "Your answers were for 2025. They now count for 2026.") {
		t.Errorf("the notice is %q", q.Notice)
	}
	play(t, s, `
		interview.changes = none
		interview.income = none
		interview.reductions = none
		interview.job_1_stub = yes
		jobs[0].year_to_date.payday = 2026-02-06
		jobs[0].year_to_date.taxable_pay = 7200
		jobs[0].year_to_date.federal_tax = 640`)
	ended(t, s)
	h, err := s.Household()
	if err != nil {
		t.Fatal(err)
	}
	if h.TaxYear != 2026 || h.AsOf.String() != "2026-02-09" {
		t.Errorf("for %d as of %v", h.TaxYear, h.AsOf)
	}
}

// In the new year jobs that ended are gone, and what was forecast for the old
// year is last year's until the return is there; amounts are asked again.
func TestNewYearCarriesOver(t *testing.T) {
	s := begin(t, "2025-11-03", "")
	play(t, s, `
		interview.way_in = stub
		interview.jobs = 2
		interview.married = no
		jobs[0].name = Ended Mill
		interview.job_1_special = ended
		jobs[0].pay_frequency = weekly
		jobs[0].year_to_date.payday = 2025-06-06
		jobs[0].year_to_date.taxable_pay = 20000
		jobs[0].year_to_date.federal_tax = 1500
		jobs[0].last_payday = 2025-06-06
		interview.people = 0
		interview.income = interest
		interview.reductions = none
		self.can_be_claimed = no
		jobs[1].name = Harbor Clinic
		interview.job_2_special = none
		jobs[1].pay_frequency = biweekly
		interview.job_2_stub = yes
		jobs[1].year_to_date.payday = 2025-10-31
		jobs[1].year_to_date.taxable_pay = 19200
		jobs[1].year_to_date.federal_tax = 1500
		interview.job_2_pay_known = taxable
		jobs[1].taxable_pay = 2400
		interview.job_2_special = none
		interview.job_2_on_file = not_sure
		income.interest = 340
		payments.other_withholding = 0
		payments.estimated_tax = 0
		wish.refund = 0
		wish.tell_employer = all`)
	ended(t, s)
	old, err := s.Result()
	if err != nil {
		t.Fatal(err)
	}
	s = reopened(t, s, "2026-02-09")
	play(t, s, `
		interview.changes = none
		interview.jobs = 1
		interview.income = interest
		interview.reductions = none
		interview.job_1_stub = yes
		jobs[0].year_to_date.payday = 2026-02-06
		jobs[0].year_to_date.taxable_pay = 7200
		jobs[0].year_to_date.federal_tax = 640`)
	q, _ := s.Question()
	if q.Key != "income.interest" || q.Answer != "340" || !q.Again {
		t.Errorf("asked %s with %q, again %v; want last year's interest", q.Key, q.Answer, q.Again)
	}
	play(t, s, `income.interest = 350`)
	h, err := s.Household()
	if err != nil {
		t.Fatal(err)
	}
	if len(h.Jobs) != 1 || h.Jobs[0].Name != "Harbor Clinic" || h.Jobs[0].FirstPayday.String() != "2026-01-09" {
		t.Errorf("jobs of the new year: %+v", h.Jobs)
	}
	tax, _ := s.doc.Get("last_year.total_tax")
	if forecast, _ := s.doc.Get("last_year.forecast"); tax != old.Return.TotalTax.ToCent().Text() || forecast != "true" {
		t.Errorf("last year's tax is %s, forecast %q; want %v as forecast", tax, forecast, old.Return.TotalTax)
	}
}
