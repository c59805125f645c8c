package interview

import (
	"strings"
	"testing"

	"example.com/plumbline/internal/money"
	texts "example.com/plumbline/internal/words"
)

// The guide to overtime: only the half that the law adds counts.
func TestOvertimePremium(t *testing.T) {
	tests := []struct{ source, rate, pay, want string }{
		{"Instructions for Form 1040 (2025), p. 107, example 1", "time_and_a_half", "15000", "5000"},
		{"Instructions for Form 1040 (2025), p. 107, example 3", "double_time", "20000", "5000"},
		{"Instructions for Form 1040 (2025), p. 108, example 5", "time_and_a_half", "4500", "1500"},
	}
	for _, tt := range tests {
		s := begin(t, "2026-06-15", "")
		play(t, s, `
			interview.way_in = new_job
			interview.married = no
			interview.jobs = 1
			interview.people = 0
			interview.income = none
			interview.reductions = overtime
			interview.job_1_special = none
			jobs[0].pay_frequency = weekly
			jobs[0].first_payday = 2026-06-19
			interview.job_1_pay_known = taxable
			jobs[0].taxable_pay = 1500
			interview.job_1_overtime_rate = `+tt.rate+`
			interview.job_1_overtime_pay = `+tt.pay)
		h, _ := s.Household()
		if got := h.Jobs[0].QualifiedOvertime; !got.Equal(money.MustParse(tt.want)) {
			t.Errorf("%s: %v, want %s", tt.source, got, tt.want)
		}
	}
}

// The guide to taxable pay: gross pay less what comes off before tax, or the
// year so far over its paydays.
func TestTaxablePay(t *testing.T) {
	tests := []struct {
		name, script, want string
	}{
		// 2,650 - 150 - 100 = 2,400
		{"from the stub's paycheck", `
			interview.job_1_pay_known = paycheck
			jobs[0].gross_pay = 2,650.00
			interview.job_1_pretax = retirement, health
			jobs[0].pretax.retirement = 150
			jobs[0].pretax.health = 100`, "2400"},
		// January 9 to June 12, every two weeks: 12 paydays; 28,800 / 12 = 2,400
		{"from the year so far", `
			interview.job_1_pay_known = year_to_date`, "2400"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			s := begin(t, "2026-06-15", "")
			play(t, s, stubOfOneJob+`
				jobs[0].pay_frequency = biweekly
				jobs[0].year_to_date.payday = 6/12/2026
				jobs[0].year_to_date.taxable_pay = $28,800
				jobs[0].year_to_date.federal_tax = 2471.04`+tt.script)
			h, _ := s.Household()
			if got := h.Jobs[0].OrdinaryPay(); !got.Equal(money.MustParse(tt.want)) {
				t.Errorf("%v, want %s", got, tt.want)
			}
		})
	}
}

// The pay of each payday is the year so far over the paydays that payroll too
// takes the stub to cover: of 15th-of-the-month pay, a stub of Friday, August 14,
// 2026 is that of Saturday the 15th. 40,000 / 8 paydays = 5,000.
func TestPayFromTheYearSoFarPaidEarly(t *testing.T) {
	s := begin(t, "2026-08-20", "")
	play(t, s, stubOfOneJob+`
		jobs[0].pay_frequency = monthly
		jobs[0].year_to_date.payday = 2026-08-14
		jobs[0].year_to_date.taxable_pay = 40,000
		jobs[0].year_to_date.federal_tax = 4,000
		interview.job_1_pay_known = year_to_date`)
	h, _ := s.Household()
	if got := h.Jobs[0].OrdinaryPay(); !got.Equal(money.Dollars(5000)) {
		t.Errorf("pay of a payday = %v, want 5,000", got)
	}
}

// The rough figure decides whether the exact ones are asked. The standard
// deduction of 2026 for single is 16,100 (Rev. Proc. 2025-32).
func TestItemizingFromARoughFigure(t *testing.T) {
	for _, tt := range []struct {
		rough string
		want  string
	}{
		{"9000", "wish.refund"},
		{"14489", "wish.refund"},
		{"14490", "deductions.mortgage_interest"}, // nine tenths of 16,100
		{"20000", "deductions.mortgage_interest"},
	} {
		s := begin(t, "2026-01-12", "")
		play(t, s, `
			interview.way_in = new_job
			interview.married = no
			interview.jobs = 1
			interview.people = 0
			interview.income = none
			interview.reductions = house
			interview.job_1_special = none
			jobs[0].pay_frequency = biweekly
			jobs[0].first_payday = 2026-01-23
			interview.job_1_pay_known = taxable
			jobs[0].taxable_pay = 4000
			interview.rough_itemized = `+tt.rough)
		q, _ := s.Question()
		if q.Key != tt.want {
			t.Errorf("rough figure %s: asked %s, want %s", tt.rough, q.Key, tt.want)
		}
		if !strings.Contains(q.Notice, "$16,100") {
			t.Errorf("rough figure %s: the notice is %q", tt.rough, q.Notice)
		}
	}
}

// A claim to be exempt needs both conditions, and its certificate has the claim
// and nothing else.
func TestExempt(t *testing.T) {
	for _, p := range persons {
		if p.name != "student with a summer job" {
			continue
		}
		s := begin(t, p.today, "")
		play(t, s, p.script)
		r, err := s.Result()
		if err != nil {
			t.Fatal(err)
		}
		c := r.Recommended.Certificates[0]
		if !c.Certificate.Exempt || !c.Certificate.Extra.IsZero() || !c.Certificate.Credits.IsZero() {
			t.Errorf("the certificate is %+v", c.Certificate)
		}
		if !r.Recommended.WithholdingToCome.IsZero() {
			t.Errorf("%v is still withheld", r.Recommended.WithholdingToCome)
		}
		// Form W-4 (2026): a new one is due by February 16, 2027.
		if !strings.Contains(texts.English().Say(r.Recommended.Reason), "February 16, 2027") {
			t.Errorf("the reason is %q", r.Recommended.Reason)
		}
		if d := s.Draft(); !d.Certificates[0].Exempt {
			t.Error("the draft is not exempt")
		}
	}
}

// Separated parents and other cases that turn on more than the interview knows
// are named, with the publication to read.
func TestSharedCustodyNamesThePublication(t *testing.T) {
	s := begin(t, "2026-06-15", "")
	play(t, s, hireWithAChild+`
		dependents[0].birth_date = 2016
		dependents[0].months_with_you = 5
		interview.person_1_released = not_sure`)
	q, _ := s.Question()
	if !strings.Contains(q.Notice, "Publication 501") {
		t.Errorf("the notice is %q", q.Notice)
	}
}

// The reason for each dependent is told right after the last question about it.
func TestStandingIsTold(t *testing.T) {
	s := begin(t, "2026-06-15", "")
	play(t, s, hireWithAChild+`
		dependents[0].birth_date = 2020
		dependents[0].months_with_you = 12
		interview.person_1_claimed = no
		dependents[0].ssn_valid_for_work = yes`)
	q, _ := s.Question()
	if !strings.Contains(q.Notice, "Your child: Counts") || !strings.Contains(q.Notice, "child tax credit") {
		t.Errorf("the notice is %q", q.Notice)
	}
}

// Those who came to have a stub checked hear what comes of it before anything is
// asked about the household.
func TestTheStubIsComparedFirst(t *testing.T) {
	s := begin(t, "2026-06-15", "")
	play(t, s, aloneWithStub+`
		jobs[0].year_to_date.federal_tax = 2422.08
		interview.job_1_pay_known = taxable
		jobs[0].taxable_pay = 2400
		interview.job_1_on_file = current
		jobs[0].certificate.filing_status = single
		interview.job_1_lines = none`)
	q, _ := s.Question()
	if q.Key != "interview.people" && q.Key != "interview.job_1_fits" || !strings.Contains(q.Notice, "the stub") && !strings.Contains(q.Notice, "The stub") {
		t.Errorf("asked %s after %q, want the comparison before the household", q.Key, q.Notice)
	}
}

// The two days of twice-a-month pay are asked for where a single day does not
// tell them; the 15th, the last day, and a Friday to which the 15th is moved do.
func TestDaysOfTheMonth(t *testing.T) {
	for _, tt := range []struct {
		stub  string
		asked bool
	}{
		{"2026-05-15", false},
		{"2026-05-29", false}, // Friday, for Sunday the 31st
		{"2026-02-13", false}, // Friday, for Sunday the 15th
		{"2026-06-05", true},
		{"2026-05-20", true},
	} {
		s := begin(t, "2026-06-15", "")
		play(t, s, stubOfOneJob+`
			jobs[0].pay_frequency = semimonthly
			jobs[0].year_to_date.payday = `+tt.stub+`
			jobs[0].year_to_date.taxable_pay = 22000
			jobs[0].year_to_date.federal_tax = 1800`)
		q, _ := s.Question()
		if asked := q.Key == "interview.job_1_early_day"; asked != tt.asked {
			t.Errorf("a stub of %s: asked %s", tt.stub, q.Key)
		}
		if !tt.asked {
			continue
		}
		if q.Prefill() != "5" {
			t.Errorf("a stub of %s suggests %s and 15 days later", tt.stub, q.Prefill())
		}
		play(t, s, "interview.job_1_early_day = 5\ninterview.job_1_late_day = 20")
		h := tolerant(s.Document())
		if days := h.Jobs[0].PaydaysOfMonth; len(days) != 2 || days[0] != 5 || days[1] != 20 {
			t.Errorf("a stub of %s: pays on %v", tt.stub, days)
		}
		s.GoTo("jobs[0].pay_frequency")
		play(t, s, "jobs[0].pay_frequency = biweekly")
		if h = tolerant(s.Document()); len(h.Jobs[0].PaydaysOfMonth) > 0 {
			t.Errorf("pay every two weeks keeps days of the month: %v\n%s", h.Jobs[0].PaydaysOfMonth, s.Document().Bytes())
		}
	}
}

// The last day of a month is typed and shown in the language, and understood in
// English too, since the file has it so.
func TestLastDayInTheLanguage(t *testing.T) {
	spanish, ok := texts.OfLocale("es")
	if !ok {
		t.Fatal("no Spanish")
	}
	for _, tt := range []struct {
		lang  *texts.Language
		text  string
		fails bool
	}{
		{texts.English(), "Last", false},
		{texts.English(), "último", true},
		{spanish, "Último", false},
		{spanish, "ultimo", false},
		{spanish, "last", false},
	} {
		at := &step{wording: script().question("interview.job.late_day"), lang: tt.lang, least: 1, most: 31}
		got, err := at.readWhole(tt.text)
		if tt.fails != (err != nil) || !tt.fails && got != "last" {
			t.Errorf("in %s %q is %q (%v)", tt.lang.Tag(), tt.text, got, err)
		}
	}
	at := &step{wording: script().question("interview.job.late_day"), lang: spanish}
	if got := at.shown("last", nil); got != "último" {
		t.Errorf("the last day is shown as %q", got)
	}
}
