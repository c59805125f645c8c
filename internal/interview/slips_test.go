package interview

import (
	"os"
	"slices"
	"strings"
	"testing"

	"example.com/plumbline/internal/money"
)

// A paycheck of 19.50, a salary of 40 and an hour of 900 are slips: their own
// question is put again at once, with the reason. Given twice they count.
// Ordinary pay is taken as it is.
func TestSlipsInPayAreQuestioned(t *testing.T) {
	const before = simpleHire + `
	interview.fit = yes
	interview.job_1_special = none
	jobs[0].pay_frequency = biweekly
	jobs[0].first_payday = 2026-06-26
	interview.job_1_pay_known = `
	for _, tt := range []struct{ way, key, pay, says string }{
		{"paycheck", "jobs[0].gross_pay", "19.50", "$507 a year"}, // 26 × 19.50
		{"taxable", "jobs[0].taxable_pay", "19.50", "$507 a year"},
		{"salary", "interview.job_1_salary", "40", "$40 a year"},
		{"hourly", "interview.job_1_hourly", "900", "$900.00 an hour"},
		{"paycheck", "jobs[0].gross_pay", "1950", ""},
		{"salary", "interview.job_1_salary", "40000", ""},
		{"hourly", "interview.job_1_hourly", "19.50", ""},
	} {
		s := begin(t, "2026-06-15", "")
		play(t, s, before+tt.way+"\n"+tt.key+" = "+tt.pay)
		q, _ := s.Question()
		if again := q.Key == tt.key && q.Again; again != (tt.says != "") || !strings.Contains(q.Notice, tt.says) {
			t.Errorf("%s of %s: asked %s, again %v, after %q; want %q", tt.way, tt.pay, q.Key, q.Again, q.Notice, tt.says)
			continue
		}
		if tt.says == "" {
			continue
		}
		play(t, s, tt.key+" = "+tt.pay)
		if q, _ = s.Question(); q.Key == tt.key {
			t.Errorf("%s of %s given twice is asked a third time", tt.way, tt.pay)
		}
		play(t, reopened(t, s, "2026-06-15"), "")
	}
}

// The tax and the pay of one paycheck, typed where the stub's totals for the year
// are wanted, are asked for again with what is likely; the totals are told to be
// right. A paycheck of 420 a week, single, has 11.04 (the hand calculation is
// beside the tests of the stub).
func TestOnePaycheckTypedAsTheYear(t *testing.T) {
	const before = `
		interview.way_in = stub
		interview.jobs = 1
		interview.married = no
		interview.job_1_special = began
		jobs[0].pay_frequency = weekly
		jobs[0].year_to_date.payday = 2026-11-20
		jobs[0].year_to_date.taxable_pay = `
	const pay, tax = "jobs[0].year_to_date.taxable_pay", "jobs[0].year_to_date.federal_tax"
	s := begin(t, "2026-11-27", "")
	again := func(key, says string) {
		t.Helper()
		q, _ := s.Question()
		if q.Key != key || !q.Again || !strings.Contains(q.Notice, says) {
			t.Fatalf("asked %s (again %v) after %q, want %s after %q", q.Key, q.Again, q.Notice, key, says)
		}
	}
	play(t, s, before+`420
		`+tax+` = 11.04
		jobs[0].first_payday = 2026-03-13
		interview.job_1_pay_known = taxable
		jobs[0].taxable_pay = 420`)
	again(pay, "37 paychecks would come to $15,540.00")
	play(t, s, pay+" = 16212\n"+`
		interview.job_1_on_file = current
		jobs[0].certificate.filing_status = single
		interview.job_1_lines = none`)
	again(tax, "37 paychecks should have about $408.")
	play(t, s, tax+" = 475.68")
	if q, _ := s.Question(); q.Key == tax || !strings.HasPrefix(q.Notice, "Yes, the ") {
		t.Errorf("asked %s after %q", q.Key, q.Notice)
	}
	play(t, reopened(t, s, "2026-11-27"), "")
}

// A year's pay and tax that are those of fewer paychecks than there were paydays are
// not called wrong, and gross pay typed as taxable pay is asked for again. Only those
// who came to have the stub checked are told yes or no. By hand: beside the tests of
// the stub.
func TestYearOfFewerPaychecks(t *testing.T) {
	const pay = "jobs[0].year_to_date.taxable_pay"
	for _, tt := range []struct {
		way, pay, says string
		again          bool
	}{
		{"interview.way_in = stub\ninterview.jobs = 1\ninterview.married = no", "40300", "Yes, the $3,908.43 of federal income tax on the stub from your job fits 21 paychecks of $1,920.00.", false},
		{"interview.way_in = changed\ninterview.changes = house\ninterview.change_date = 2026-11-01\ninterview.married = no\ninterview.jobs = 1\ninterview.people = 0\ninterview.income = none\ninterview.reductions = none", "40300", "The $3,908.43 of federal income tax", false},
		{"interview.way_in = stub\ninterview.jobs = 1\ninterview.married = no", "41665", "21 paychecks of $1,985.00, your pay before deductions", true},
	} {
		s := begin(t, "2026-11-27", "")
		stub := "\ninterview.job_1_stub = yes"
		if strings.Contains(tt.way, "stub") {
			stub = ""
		}
		play(t, s, tt.way+`
			interview.job_1_special = none
			jobs[0].pay_frequency = biweekly`+stub+`
			jobs[0].year_to_date.payday = 2026-11-20
			`+pay+" = "+tt.pay+`
			jobs[0].year_to_date.federal_tax = 3908.43
			interview.job_1_pay_known = paycheck
			jobs[0].gross_pay = 1985
			interview.job_1_pretax = health
			jobs[0].pretax.health = 65
			interview.job_1_on_file = before_2020
			jobs[0].certificate.marital = single
			jobs[0].certificate.allowances = 0
			jobs[0].certificate.extra = 0`)
		q, _ := s.Question()
		if again := q.Key == pay; again != tt.again || !strings.Contains(q.Notice, tt.says) {
			t.Errorf("pay of %s: asked %s after %q, want %q", tt.pay, q.Key, q.Notice, tt.says)
		}
		if tt.again {
			play(t, s, pay+" = 40300")
			if q, _ = s.Question(); q.Key == pay || !strings.Contains(q.Notice, "fits 21 paychecks") {
				t.Errorf("then asked %s after %q", q.Key, q.Notice)
			}
		}
	}
}

// What is doubted is asked for again once: the same answer then counts.
func TestTaxOfOnePaycheckGivenTwice(t *testing.T) {
	const tax = "jobs[0].year_to_date.federal_tax"
	s := begin(t, "2026-06-15", "")
	play(t, s, aloneWithStub+tax+` = 205.92
		interview.job_1_pay_known = taxable
		jobs[0].taxable_pay = 2400
		interview.job_1_on_file = current
		jobs[0].certificate.filing_status = single
		interview.job_1_lines = none`)
	play(t, s, tax+" = 205.92")
	if q, _ := s.Question(); q.Key == tax {
		t.Error("asked a third time")
	}
}

// Every second Friday from June 12, 2026 the paydays of November are the 13th and
// the 27th: a newer stub of Monday the 2nd is questioned, once. One of the 13th,
// and of the 12th (paid a day early), is taken.
func TestDayOfANewerStubIsQuestioned(t *testing.T) {
	const key = "jobs[0].year_to_date.payday"
	for day, questioned := range map[string]bool{"2026-11-02": true, "2026-11-13": false, "2026-11-12": false} {
		s := begin(t, "2026-06-15", "")
		play(t, s, twoJobs)
		s = reopened(t, s, "2026-11-20")
		play(t, s, "interview.changes = none\ninterview.job_1_newer_stub = yes\n"+key+" = "+day)
		q, _ := s.Question()
		if again := q.Key == key; again != questioned {
			t.Fatalf("%s: then asked %s, want it questioned: %v", day, q.Key, questioned)
		}
		if !questioned {
			continue
		}
		if !strings.Contains(q.Notice, "October 30") || !strings.Contains(q.Notice, "November 13") {
			t.Errorf("told %q", q.Notice)
		}
		play(t, s, key+" = "+day)
		if q, _ = s.Question(); q.Key == key {
			t.Error("given twice it is asked a third time")
		}
	}
}

// A payday on a weekend is asked for again at once: November 15, 2026 is a Sunday.
// One on a holiday in the week is due then and paid before.
func TestPaydayOnAWeekendIsQuestioned(t *testing.T) {
	const payday = "jobs[0].year_to_date.payday"
	for _, tt := range []struct{ day, says string }{{"2026-11-15", "is a Sunday"}, {"2026-11-14", "is a Saturday"}, {"2026-11-11", ""}, {"2026-11-13", ""}} {
		s := begin(t, "2026-11-27", "")
		play(t, s, strings.Split(aloneWithStub, payday)[0]+payday+" = "+tt.day)
		q, _ := s.Question()
		if again := q.Key == payday; again != (tt.says != "") || !strings.Contains(q.Notice, tt.says) {
			t.Errorf("%s: asked %s after %q, want %q", tt.day, q.Key, q.Notice, tt.says)
		}
		if tt.says == "" {
			continue
		}
		play(t, s, payday+" = "+tt.day)
		if q, _ := s.Question(); q.Key == payday {
			t.Errorf("%s given twice is asked a third time", tt.day)
		}
	}
	s := begin(t, "2026-06-06", "") // two weeks later is a Saturday
	play(t, s, simpleHire+`
		interview.fit = yes
		interview.job_1_special = none
		jobs[0].pay_frequency = weekly`)
	if q, _ := s.Question(); q.Key != "jobs[0].first_payday" || q.Default != "2026-06-18" { // June 19 is a holiday
		t.Errorf("%s suggests %s", q.Key, q.Default)
	}
}

// Care whose cost for the year is typed counts as that, whichever months it is in.
func TestCareByTheYear(t *testing.T) {
	const typed = "dependents[0].care_monthly.amount = 4800/yr"
	var s *Session
	for _, p := range persons {
		if before, _, has := strings.Cut(p.script, typed); has {
			s = begin(t, p.today, "")
			play(t, s, before+typed)
		}
	}
	h := s.walk.household()
	if d := h.Dependents[0]; !d.CareExpenses.Equal(money.Dollars(4800)) || d.CareMonthly != nil {
		t.Errorf("%+v", d)
	}
	if q, _ := s.Question(); strings.Contains(q.Key, "care") {
		t.Errorf("asked %s", q.Key)
	}
	if !slices.ContainsFunc(s.Review(), func(r Answered) bool { return r.Key == "dependents[0].care_expenses" && r.Answer == "$4,800" }) {
		t.Errorf("the year's cost is not among the answers: %+v", s.Review())
	}
}

// Tax on 2,000 gross where 200 of it come off before tax: 52,000 a year less 8,600
// is 43,400; 1,240 and 12% of what is above 19,900 make 4,060, or 156.15 a paycheck
// (Publication 15-T, Worksheet 1A, 2026). On 1,800 it is 3,436 and 132.15. Twelve
// paychecks show 1,873.80 in place of 1,585.80, and the cause is named.
func TestCauseOfAStubThatDiffers(t *testing.T) {
	s := begin(t, "2026-06-15", "")
	play(t, s, stubOfOneJob+`
		jobs[0].pay_frequency = biweekly
		jobs[0].year_to_date.payday = 2026-06-12
		jobs[0].year_to_date.taxable_pay = 21600
		jobs[0].year_to_date.federal_tax = 1873.80
		interview.job_1_pay_known = paycheck
		jobs[0].gross_pay = 2000
		interview.job_1_pretax = retirement
		jobs[0].pretax.retirement = 200
		interview.job_1_on_file = current
		jobs[0].certificate.filing_status = single
		interview.job_1_lines = none`)
	q, _ := s.Question()
	for _, want := range []string{"$1,585.80", "$1,873.80", "gross pay, before the pre-tax deductions"} {
		if !strings.Contains(q.Notice, want) {
			t.Errorf("%s is asked after %q, which does not say %s", q.Key, q.Notice, want)
		}
	}
}

// A first payday that was hard to believe, Saturday, August 15, and was kept, does
// not stand in the way of a stub of June 12: the stub is taken, and the first payday
// is asked for again.
func TestStubBeforeADoubtedFirstPayday(t *testing.T) {
	s := begin(t, "2026-06-15", "")
	play(t, s, `
		interview.way_in = changed
		interview.changes = none
		interview.married = no
		interview.jobs = 1
		interview.people = 0
		interview.income = none
		interview.reductions = none
		interview.job_1_special = began
		jobs[0].pay_frequency = monthly
		interview.job_1_stub = no
		jobs[0].first_payday = 2026-08-15
		jobs[0].first_payday = 2026-08-15`)
	s.GoTo("interview.job_1_stub")
	play(t, s, `
		interview.job_1_stub = yes
		jobs[0].year_to_date.payday = 2026-06-12
		jobs[0].year_to_date.taxable_pay = 5000
		jobs[0].year_to_date.federal_tax = 300`)
	if q, _ := s.Question(); q.Key != "jobs[0].first_payday" {
		t.Errorf("asked %s, want the first payday again", q.Key)
	}
}

// begunBiweekly is somebody with a stub of a job that began within the year and pays
// every two weeks.
const begunBiweekly = `
	interview.way_in = stub
	interview.jobs = 1
	interview.married = no
	interview.job_1_special = began
	jobs[0].pay_frequency = biweekly`

// A stub of pay that changes, whose first paycheck was for a part of the period, is
// not called wrong. By hand: beside the tests of the stub.
func TestStubOfPayThatChanges(t *testing.T) {
	s := begin(t, "2026-11-27", "")
	play(t, s, begunBiweekly+`
		jobs[0].year_to_date.payday = 2026-11-27
		jobs[0].year_to_date.taxable_pay = 6840
		jobs[0].year_to_date.federal_tax = 199.54
		jobs[0].first_payday = 2026-08-21
		interview.job_1_pay_known = year_to_date
		interview.job_1_on_file = current
		jobs[0].certificate.filing_status = single
		interview.job_1_lines = none`)
	q, _ := s.Question()
	for _, want := range []string{"Yes, the $199.54", "$188.64", "$250.53"} {
		if !strings.Contains(q.Notice, want) {
			t.Errorf("told %q, which does not say %s", q.Notice, want)
		}
	}
	if h := s.walk.household(); !h.Jobs[0].PayVaries {
		t.Error("the file does not say that the pay changes")
	}
	s.GoTo("interview.job_1_pay_known")
	play(t, s, "interview.job_1_pay_known = taxable")
	if h := s.walk.household(); h.Jobs[0].PayVaries {
		t.Error("the file still says that the pay changes")
	}
}

// A first payday that is not a whole number of pay periods before the stub's is asked
// for again at once. From Monday, August 10, every two weeks, the payday nearest to
// November 27 is the 30th (8 × 14 = 112 days later), where the stub of three days
// before could be one paid early. August 21 is 98 = 7 × 14 days before; August 20 and
// September 3 are not. Every two weeks from June 19, a holiday that is paid on the
// 18th, leads to November 20.
func TestFirstPaydayOffTheStubIsQuestioned(t *testing.T) {
	const key = "jobs[0].first_payday"
	for _, tt := range []struct{ stub, first, near string }{
		{"2026-11-27", "2026-08-10", "November 30"},
		{"2026-11-27", "2026-08-20", "November 25"}, // the 26th is Thanksgiving
		{"2026-11-27", "2026-08-21", ""},
		{"2026-11-20", "2026-06-18", ""},
		{"2026-11-20", "2026-06-19", ""},
	} {
		s := begin(t, "2026-11-27", "")
		play(t, s, begunBiweekly+`
			jobs[0].year_to_date.payday = `+tt.stub+`
			jobs[0].year_to_date.taxable_pay = 6840
			jobs[0].year_to_date.federal_tax = 199.54
			`+key+" = "+tt.first)
		q, _ := s.Question()
		if again := q.Key == key; again != (tt.near != "") || !strings.Contains(q.Notice, tt.near) {
			t.Errorf("from %s: asked %s after %q, want %q", tt.first, q.Key, q.Notice, tt.near)
			continue
		}
		if tt.near == "" {
			continue
		}
		play(t, s, key+" = "+tt.first)
		if q, _ = s.Question(); q.Key == key {
			t.Errorf("%s given twice is asked a third time", tt.first)
		}
	}
}

// That nothing of a list applies is doubted once where an amount in it was given
// before, and not otherwise.
func TestNoneOfTheseIsDoubtedOnce(t *testing.T) {
	file, err := os.ReadFile("../../testdata/two-earners/household.yaml")
	if err != nil {
		t.Fatal(err)
	}
	s := begin(t, "2026-06-15", string(file))
	if !s.GoTo("interview.income") {
		t.Fatal("the list is not asked")
	}
	if err := s.Answer(None); err != nil {
		t.Fatal(err)
	}
	q, _ := s.Question()
	if q.Key != "interview.income" || !q.Again || !strings.Contains(q.Notice, `"Interest from a bank or bonds"`) {
		t.Errorf("after none of these %s is asked, again %v, after %q", q.Key, q.Again, q.Notice)
	}
	if err := s.Answer(None); err != nil {
		t.Fatal(err)
	}
	if q, more := s.Question(); more && q.Key == "interview.income" {
		t.Error("none of these given twice is asked a third time")
	}
	hire := begin(t, "2026-06-15", "")
	play(t, hire, simpleHire)
	if q, _ := hire.Question(); q.Again {
		t.Errorf("%s is asked again of a person who never gave anything of a list", q.Key)
	}
}

// A first payday on Saturday, January 3 and a stub of January 2 are of no one day of
// the month, whichever way payments are moved: the interview does not ask which, since
// "after" could not be taken. With the first payday of the stub's day it asks.
func TestMovedPaydaysOfTwoDays(t *testing.T) {
	for first, asked := range map[string]bool{"2026-01-03": false, "2026-01-02": true} {
		s := begin(t, "2026-06-15", `format: 1
tax_year: 2026
as_of: 2026-06-15
interview: {way_in: changed, changes: house, change_date: 2026-01-15, married: "no", jobs: 0, people: 0, income: pension, reductions: none, pensions: 1, pension_1_special: began, pension_1_stub: true}
filing_status: single
jobs:
  - {earner: self, kind: pension, name: Fund, pay_frequency: monthly, year_to_date: {payday: 2026-01-02, taxable_pay: 6, federal_tax: 1}, first_payday: `+first+`, taxable_pay: 1}
self: {can_be_claimed: false}
`)
		if _, has := s.walk.place["pension_1.moved_paydays"]; has != asked {
			t.Errorf("first payday %s: asked %v, want %v", first, has, asked)
		}
	}
}
