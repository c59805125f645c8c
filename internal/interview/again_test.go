package interview

import (
	"testing"

	"example.com/plumbline/internal/household"
)

// hire is a single person with one new job, what else there is in the income,
// and what is asked of it.
func hire(income, amounts, special, bonus string) string {
	then := "self.can_be_claimed = no"
	if income == None {
		then = "interview.fit = yes"
	}
	return `
	interview.way_in = new_job
	interview.married = no
	interview.jobs = 1
	interview.people = 0
	interview.income = ` + income + `
	interview.reductions = none
	` + then + `
	interview.job_1_special = ` + special + `
	jobs[0].pay_frequency = biweekly
	jobs[0].first_payday = 2026-06-26
	interview.job_1_pay_known = taxable
	jobs[0].taxable_pay = 3100` + bonus + amounts + `
	wish.refund = 0`
}

func unemployed(amount string) string {
	return hire("unemployment", `
	income.unemployment = `+amount+`
	payments.other_withholding = 0`, None, "") + `
	wish.tell_employer = all`
}

// january is what the person's January asks of payroll: the entries of the one
// certificate.
func january(t *testing.T, s *Session) household.Certificate {
	t.Helper()
	r, err := s.Result()
	if err != nil {
		t.Fatal(err)
	}
	return r.January.Certificates[0].Certificate
}

// Unemployment of 9,000 that comes again raises January's taxable income; whoever
// says so has it in January's certificate, and whoever takes it back has not.
func TestWhatComesAgainIsAsked(t *testing.T) {
	s := begin(t, "2026-06-15", "")
	play(t, s, unemployed("9000")+`
	interview.again = none`)
	ended(t, s)
	if without := january(t, s); without != (household.Certificate{}) {
		t.Errorf("January without it is %+v, want the status alone", without)
	}
	s.GoTo("interview.again")
	play(t, s, "interview.again = unemployment")
	ended(t, s)
	if got, _ := s.Document().Get("next_year.income.unemployment"); got != "9000" {
		t.Errorf("next year's unemployment is %q", got)
	}
	with := january(t, s)
	if with.OtherIncome.Add(with.Extra).IsZero() {
		t.Errorf("January with it is %+v, and has no entry for it", with)
	}
	if r, _ := s.Result(); len(r.January.Once) > 0 {
		t.Errorf("left out all the same: %v", r.January.Once)
	}
	s.GoTo("income.unemployment")
	play(t, s, "income.unemployment = 9500")
	ended(t, s)
	if got, _ := s.Document().Get("next_year.income.unemployment"); got != "9500" {
		t.Errorf("next year's unemployment is %q after a correction", got)
	}
	s.GoTo("interview.again")
	play(t, s, "interview.again = none")
	ended(t, s)
	if s.Document().Has("next_year.income.unemployment") {
		t.Error("taken back, and still in the file")
	}
}

// A bonus is told of next year by the name of its job; the only job has none of
// its own. The flat rate on supplemental wages is too little for one so large.
func TestBonusComesAgain(t *testing.T) {
	s := begin(t, "2026-06-15", "")
	play(t, s, hire(None, `
	interview.last_year = no`, "bonus", `
	jobs[0].one_time_pay[0].payday = 2026-12-11
	jobs[0].one_time_pay[0].amount = 300000
	jobs[0].one_time_pay[0].withholding = flat`)+`
	interview.again = bonus`)
	ended(t, s)
	h, err := s.Household()
	if err != nil {
		t.Fatal(err)
	}
	if len(h.NextYear.Jobs) != 1 || len(h.NextYear.Jobs[0].OneTimePay) != 1 || h.NextYear.Jobs[0].OneTimePay[0].Payday != on("2027-12-11") {
		t.Errorf("next year has %+v", h.NextYear.Jobs)
	}
	s.GoTo("interview.again")
	play(t, s, "interview.again = none")
	ended(t, s)
	if s.Document().Has("next_year.jobs") || s.Document().Has("jobs[0].name") {
		t.Errorf("taken back, and still in the file:\n%s", s.Document().Bytes())
	}
}

// Nobody is asked of what comes every year, nor of what changes no entry: $40
// more of income is about $5 of tax, far below what is near enough.
func TestWhatDoesNotMatterIsNotAskedAgain(t *testing.T) {
	for name, script := range map[string]string{
		"interest": hire("interest", `
	income.interest = 9000
	payments.other_withholding = 0
	payments.estimated_tax = 0`, None, "") + `
	wish.tell_employer = all`,
		"a little unemployment": unemployed("40"),
		// 80,600 of pay and the bonus end in the bracket of 22%, the flat rate on supplemental wages (Pub. 15 (2026), sec. 7).
		"a bonus withheld right": hire(None, "", "bonus", `
	jobs[0].one_time_pay[0].payday = 2026-12-11
	jobs[0].one_time_pay[0].amount = 3000
	jobs[0].one_time_pay[0].withholding = flat`),
	} {
		s := begin(t, "2026-06-15", "")
		play(t, s, script)
		if q, more := s.Question(); more {
			t.Errorf("%s: asked %s", name, q.Key)
		}
	}
}

// What a file says of next year in its own figures is not asked, and stays.
func TestOwnFiguresOfNextYearStay(t *testing.T) {
	s := begin(t, "2026-06-15", `
format: 1
tax_year: 2026
as_of: 2026-06-15
filing_status: single
jobs:
  - {name: Harbor Clinic, pay_frequency: biweekly, taxable_pay: 3100, first_payday: 2026-06-26}
income: {unemployment: 9000}
next_year: {income: {unemployment: 4000}}
`)
	ended(t, s)
	if got, _ := s.Document().Get("next_year.income.unemployment"); got != "4000" {
		t.Errorf("next year's unemployment is %q, was 4000", got)
	}
}

// From a file that has it this year, through the question, to January's
// certificate: each kind that may come again is in next year's facts with what the
// answers say, and no longer among what was left out; taken back, it is gone.
func TestEachKindComesAgain(t *testing.T) {
	const head = "format: 1\ntax_year: 2026\nas_of: 2026-06-15\nfiling_status: single\nself: {birth_date: 1980-06-01}\njobs:\n  - {name: Harbor Clinic, pay_frequency: biweekly, taxable_pay: 3100, first_payday: 2026-06-26}\n"
	const child = "dependents: [{name: Ada, birth_date: 2018-02-02, care_expenses: 3000}]\n"
	for _, tt := range []struct{ option, facts, key, want string }{
		{"gains", "income: {long_term_gain: 40000}\n", "next_year.income.long_term_gain", "40000"},
		{"retirement", "income: {retirement: 20000, early_withdrawal: 20000}\n", "next_year.income.early_withdrawal", "20000"},
		{"losses", "income: {interest: 20000, self_employment: {self: -12000}}\n", "next_year.income.self_employment.self", "-12000"},
		{"schooling", "credits: {education: [{kind: lifetime_learning, expenses: 10000}]}\n", "next_year.credits.education[0].expenses", "10000"},
		{"care", child, "next_year.dependents[0].care_expenses", "3000"},
	} {
		t.Run(tt.option, func(t *testing.T) {
			s := begin(t, "2026-06-15", head+tt.facts)
			ended(t, s)
			without := january(t, s)
			s.GoTo("interview.again")
			play(t, s, "interview.again = "+tt.option)
			ended(t, s)
			if got, _ := s.Document().Get(tt.key); got != tt.want {
				t.Errorf("%s is %q, want %q", tt.key, got, tt.want)
			}
			if with := january(t, s); with == without {
				t.Errorf("January is %+v with it and without", with)
			}
			r, err := s.Result()
			if err != nil {
				t.Fatal(err)
			}
			for _, what := range r.January.Once {
				if what.Code == againCodes+tt.option {
					t.Error("left out all the same")
				}
			}
			s.GoTo("interview.again")
			play(t, s, "interview.again = none")
			if s.Document().Has(tt.key) || january(t, s) != without {
				t.Error("taken back, and still there")
			}
		})
	}
}
