package interview

import (
	"strings"
	"testing"
)

// inDecember is a sitting of December 2025 that advises a new form for 2026 alone:
// the form on file has credits of a child that does not count.
//
// 2025, from 2,400 every two weeks (Publication 15-T (2025), Worksheet 1A, single):
// (62,400 - 8,600 - 18,325) x 12% + 1,192.50 = 5,449.50; less 2,000 is 3,449.50, of
// which 132.67 comes out of each paycheck, 25 times through December 12: 3,316.75.
func inDecember(t *testing.T) *Session {
	t.Helper()
	s := begin(t, "2025-12-15", "")
	play(t, s, stubOfOneJob+`
		jobs[0].pay_frequency = biweekly
		jobs[0].year_to_date.payday = 2025-12-12
		jobs[0].year_to_date.taxable_pay = 60000
		jobs[0].year_to_date.federal_tax = 3316.75
		interview.job_1_pay_known = taxable
		jobs[0].taxable_pay = 2400
		interview.job_1_on_file = current
		jobs[0].certificate.filing_status = single
		interview.job_1_lines = 3
		jobs[0].certificate.credits = 2000
		interview.people = 0
		interview.income = none
		interview.reductions = none
		interview.last_year = no
		wish.refund = 0`)
	ended(t, s)
	if err := s.Finish(); err != nil {
		t.Fatal(err)
	}
	r, err := s.Result()
	if err != nil || !r.Recommended.NothingToHandIn() || r.January == nil || r.January.NothingToHandIn() {
		t.Fatalf("%v: not January's form alone: %+v", err, r.Verdict)
	}
	return s
}

// newYears are the questions of a return in 2026 up to the form that was advised
// for it, with the tax on the stub of January 9.
func newYears(tax string) string {
	return `
		interview.changes = none
		interview.income = none
		interview.reductions = none
		interview.job_1_stub = yes
		jobs[0].year_to_date.payday = 2026-01-09
		jobs[0].year_to_date.taxable_pay = 2400
		jobs[0].year_to_date.federal_tax = ` + tax
}

// In the new year the form that was advised for it is asked about, with its
// entries; where the stub tells, that is said. Yes puts it on file from its first
// payday, and there is nothing to do; no leaves the one before, and yes can be
// taken back.
//
// 2026, from 2,400 every two weeks (Publication 15-T (2026), Worksheet 1A, single):
// (62,400 - 8,600 - 19,900) x 12% + 1,240 = 5,308.00, 204.15 of each paycheck; with
// the credits of 2,000, 127.23.
func TestTheFormAdvisedForTheNewYear(t *testing.T) {
	for _, tt := range []struct{ tax, notice, answer, extra string }{
		{"204.15", "So payroll seems to use the one for 2026.", "yes", "0"},
		{"127.23", "So payroll seems to use the one from before.", "no", "2000"},
	} {
		t.Run(tt.answer, func(t *testing.T) {
			s := reopened(t, inDecember(t), "2026-01-12")
			play(t, s, newYears(tt.tax))
			q, _ := s.Question()
			if q.Key != "interview.job_1_handed_in_january" || !strings.Contains(q.Text, "On December 15, 2025 you were shown a Form W-4 for 2026, for your job: ") {
				t.Fatalf("asked %s: %s", q.Key, q.Text)
			}
			if !strings.Contains(q.Notice, tt.notice) || !strings.Contains(q.Notice, "The form for 2026 makes $204.15, the one from before $127.23.") {
				t.Errorf("said: %s", q.Notice)
			}
			play(t, s, "interview.job_1_handed_in_january = "+tt.answer)
			ended(t, s)
			h, err := s.Household()
			if err != nil {
				t.Fatal(err)
			}
			c := h.Jobs[0].Certificate
			if c.Credits.Text() != tt.extra || tt.answer == "yes" && c.CountsFrom.String() != "2026-01-09" {
				t.Errorf("on file: %+v", c)
			}
			r, err := s.Result()
			if err != nil || r.Recommended.NothingToHandIn() != (tt.answer == "yes") {
				t.Errorf("%v: %+v", err, r.Verdict)
			}
		})
	}
}

// A yes that was a slip can be taken back: the form from before is on file again.
func TestNotHandedInAfterAll(t *testing.T) {
	s := reopened(t, inDecember(t), "2026-01-12")
	before, err := s.Household()
	if err != nil {
		t.Fatal(err)
	}
	play(t, s, newYears("127.23")+`
		interview.job_1_handed_in_january = yes`)
	if !s.GoTo("interview.job_1_handed_in_january") {
		t.Fatal("cannot go back to the question")
	}
	play(t, s, "interview.job_1_handed_in_january = no")
	h, err := s.Household()
	if err != nil {
		t.Fatal(err)
	}
	if is := h.Jobs[0]; *is.Certificate != *before.Jobs[0].Certificate || len(is.EarlierCertificates) > 0 {
		t.Errorf("on file: %+v, after %+v", is.Certificate, is.EarlierCertificates)
	}
}

// The question waits: for somebody who comes only in February, or leaves in
// January before it; and it does not come again about the same form.
func TestTheFormOfTheNewYearIsAskedAboutOnce(t *testing.T) {
	s := reopened(t, inDecember(t), "2026-01-02")
	play(t, s, "interview.changes = none")
	s = reopened(t, s, "2026-02-09")
	play(t, s, `
		interview.income = none
		interview.reductions = none
		interview.job_1_stub = yes
		jobs[0].year_to_date.payday = 2026-02-06
		jobs[0].year_to_date.taxable_pay = 7200
		jobs[0].year_to_date.federal_tax = 612.45
		interview.job_1_handed_in_january = yes`)
	ended(t, s)
	if err := s.Finish(); err != nil {
		t.Fatal(err)
	}
	s = reopened(t, s, "2026-03-02")
	play(t, s, `
		interview.changes = none
		interview.job_1_newer_stub = no`)
	ended(t, s)
}

// Whether a form was handed in is asked of one that an earlier sitting showed,
// not of one shown a minute ago; what was answered about the earlier one stays.
func TestLastTimeIsAnEarlierSitting(t *testing.T) {
	s := begin(t, "2026-06-15", "")
	play(t, s, strings.Replace(twoJobs, "2471.04", "1443.72", 1))
	finish := func() {
		t.Helper()
		if err := s.Finish(); err != nil {
			t.Fatal(err)
		}
	}
	finish()
	asked := func() bool { return s.GoTo("interview.job_1_handed_in") }
	if asked() {
		t.Error("asked about a form of this sitting")
	}
	s = reopened(t, s, "2026-06-16")
	play(t, s, `
		interview.changes = none
		interview.job_1_newer_stub = no
		interview.job_1_handed_in = no
		interview.spouse_job_1_newer_stub = no`)
	finish()
	if !asked() {
		t.Error("the question about the form of June 15 is gone")
	}
	q, _ := s.Question()
	if !strings.Contains(q.Text, "On June 15, 2026 you were shown") {
		t.Errorf("asked: %s", q.Text)
	}
}

// Where a job is gone in the new year, the forms advised go with the others.
func TestFormsAdvisedGoWithTheirJobs(t *testing.T) {
	s := begin(t, "2026-06-15", `{format: 1, tax_year: 2026, interview: {forecast: {balance: 0, jobs: [{job: job_1}, {job: job_2, new: true}, {job: spouse_job_2}], january: {tax_year: 2027, certificates: [{job: job_1}, {job: job_3, first_payday: 2027-01-08}]}}}}`)
	s.relabelForecasts("job", 1)
	f := tolerant(s.doc).Interview.Forecast
	if f == nil || len(f.Jobs) != 2 || f.Jobs[0].Job != "job_1" || !f.Jobs[0].New || f.Jobs[1].Job != "spouse_job_2" {
		t.Fatalf("%+v", f)
	}
	if c, ok := f.ForYear(2027, "job_2"); !ok || c.FirstPayday.String() != "2027-01-08" || len(f.January.Certificates) != 1 {
		t.Errorf("%+v", f.January)
	}
}

// What was to be paid for the old year by days of the new one is said on its first
// screens, until the last of those days has passed, also in a later sitting.
func TestWhatIsStillToPayForTheOldYear(t *testing.T) {
	const both, rest = "For 2025, you were advised to pay directly to the IRS: about $1,000 by January 15, 2026 and about $410 by April 15, 2026.", "to the IRS: about $410 by April 15, 2026."
	s := inDecember(t)
	for key, text := range map[string]string{
		forecastKey + ".pay_directly[0].amount": "1000", forecastKey + ".pay_directly[0].by": "2026-01-15",
		forecastKey + ".pay_directly[1].amount": "410.35", forecastKey + ".pay_directly[1].by": "2026-04-15",
	} {
		s.set(key, text)
	}
	told := func(today string) string {
		t.Helper()
		q, _ := reopened(t, s, today).Question()
		return q.Notice
	}
	for _, tt := range []struct {
		today, want string
		said        bool
	}{
		{"2026-01-15", both, true},
		{"2026-01-16", rest, true},
		{"2026-04-15", rest, true},
		{"2026-04-16", "to the IRS", false},
	} {
		if got := told(tt.today); strings.Contains(got, tt.want) != tt.said {
			t.Errorf("on %s: %s", tt.today, got)
		}
	}
	s = reopened(t, s, "2026-01-12")
	play(t, s, newYears("204.15")+`
		interview.job_1_handed_in_january = yes`)
	ended(t, s)
	if err := s.Finish(); err != nil {
		t.Fatal(err)
	}
	if got := told("2026-02-09"); !strings.Contains(got, rest) {
		t.Errorf("a month later: %s", got)
	}
}

// The file of the new year is there when that of the old one is opened again: what
// is advised then is what the new one asks about. What it has seen is not taken up
// twice.
func TestAdviceAfterTheNewYearHasBegun(t *testing.T) {
	old := inDecember(t)
	s := reopened(t, old, "2026-01-12")
	play(t, s, newYears("127.23")+`
		interview.job_1_handed_in_january = no`)
	before := string(s.doc.Bytes())
	if TakeUp(s.doc, old.doc); string(s.doc.Bytes()) != before {
		t.Error("the advice of December was taken up twice")
	}
	if err := s.Finish(); err != nil {
		t.Fatal(err)
	}
	old.set(forecastKey+".day", "2026-01-14")
	old.set(forecastKey+".january.certificates[0].certificate.extra", "33")
	TakeUp(s.doc, old.doc)
	s = reopened(t, s, "2026-01-20")
	play(t, s, `
		interview.changes = none
		interview.job_1_newer_stub = no`)
	q, _ := s.Question()
	if q.Key != "interview.job_1_handed_in_january" || !strings.Contains(q.Text, "On January 14, 2026 you were shown") || !strings.Contains(q.Text, "with 33 in Step 4(c)") {
		t.Errorf("asked %s: %s", q.Key, q.Text)
	}
}

// A file in which a forecast did not note its day keeps it in its place: that of the
// sitting before the return as the last one, that of the return's own results as such.
func TestForecastsWithoutADay(t *testing.T) {
	for _, tt := range []struct {
		finished string
		last     bool
	}{{"2026-06-15", true}, {"2026-09-21", false}} {
		s := begin(t, "2026-09-21", "{format: 1, tax_year: 2026, as_of: 2026-09-21, interview: {way_in: stub, returned: 2026-06-15, finished: "+tt.finished+", forecast: {balance: -20, jobs: [{job: job_1, new: true}]}}}")
		log := s.walk.log()
		if got := log.LastForecast != nil; got != tt.last || (log.Forecast != nil) == tt.last {
			t.Errorf("finished %s: last %+v, this one %+v", tt.finished, log.LastForecast, log.Forecast)
		}
	}
}
