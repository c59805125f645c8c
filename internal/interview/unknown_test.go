package interview

import (
	"slices"
	"strings"
	"testing"

	"example.com/plumbline/internal/household"
)

// Who does not know the first payday or what can be itemized says so: what is then
// assumed is said at the question and with the results, and nothing counts as zero
// that is not known.
func TestUnknownIsAnAnswer(t *testing.T) {
	s := begin(t, "2026-06-15", "")
	play(t, s, `
		interview.way_in = changed
		interview.changes = raise
		interview.change_date = 2026-06-01
		interview.married = no
		interview.jobs = 1
		interview.people = 0
		interview.income = none
		interview.reductions = house
		interview.job_1_special = none
		jobs[0].pay_frequency = biweekly
		interview.job_1_stub = no`)
	if q, _ := s.Question(); q.IfUnknown == "" {
		t.Errorf("%s does not say that one may not know", q.Key)
	}
	play(t, s, `
		jobs[0].first_payday = unknown
		interview.job_1_pay_known = taxable
		jobs[0].taxable_pay = 2400
		interview.job_1_on_file = none
		interview.rough_itemized = unknown`)
	s = reopened(t, s, "2026-06-15")
	h := tolerant(s.Document())
	if !h.Jobs[0].FirstPayday.IsZero() {
		t.Errorf("the first payday is %v", h.Jobs[0].FirstPayday)
	}
	said := func() bool {
		return slices.ContainsFunc(tolerant(s.Document()).Doubts(), func(d household.Doubt) bool { return d.Code() == "itemized_unknown" })
	}
	if !said() {
		t.Error("what was assumed of the deductions is not said again")
	}
	s.GoTo("interview.rough_itemized")
	if q, _ := s.Question(); q.Prefill() != Unknown {
		t.Errorf("the answer from before is %q", q.Prefill())
	}
	play(t, s, "interview.rough_itemized = 4000")
	if said() {
		t.Error("it is still said after a figure was given")
	}
}

// Hours of a week need not be whole, and who does not know them is taken to work
// 40: 20 an hour is 52 x 37.5 x 20 / 26 = 1,500 every two weeks, or 1,600.
func TestHoursOfAWeek(t *testing.T) {
	for typed, want := range map[string]string{"37.5": "1500", "38": "1520", "unknown": "1600"} {
		s := begin(t, "2026-06-15", "")
		play(t, s, simpleHire+`
			interview.fit = yes
			interview.job_1_special = none
			jobs[0].pay_frequency = biweekly
			jobs[0].first_payday = 2026-07-03
			interview.job_1_pay_known = hourly
			interview.job_1_hourly = 20
			interview.job_1_hours = `+typed)
		h := tolerant(s.Document())
		if got := h.Jobs[0].GrossPay.Text(); got != want {
			t.Errorf("%s hours make %s, want %s", typed, got, want)
		}
		if got := doubted(h, "hours_unknown"); got != (typed == "unknown") {
			t.Errorf("%s hours: that they are a guess is said: %v", typed, got)
		}
	}
}

// Who does not know whether tax was owed last year makes no claim to be exempt, and
// reads so with the result.
func TestTaxOfLastYearNotKnown(t *testing.T) {
	for typed, claims := range map[string]bool{"unknown": false, "I do not know": false, "yes": true} {
		s := begin(t, "2026-06-01", "")
		play(t, s, simpleHire+summerJob+`
			interview.no_tax_last_year = `+typed)
		s = reopened(t, s, "2026-06-01")
		if q, _ := s.Question(); (q.Key == "interview.exempt") != claims {
			t.Errorf("%s: then asked %s", typed, q.Key)
		}
		if got := doubted(tolerant(s.Document()), "no_tax_unknown"); got == claims {
			t.Errorf("%s: that it is not known is said: %v", typed, got)
		}
		// An earlier answer that is open for a while leaves this one as it is.
		s.GoTo("interview.job_1_pay_known")
		play(t, s, "interview.job_1_pay_known = taxable\njobs[0].taxable_pay = 700")
		if q, _ := s.Question(); q.Key == "interview.no_tax_last_year" && !q.Again {
			t.Errorf("%s: asked again after another answer was changed", typed)
		}
	}
}

func doubted(h household.Household, code string) bool {
	return slices.ContainsFunc(h.Doubts(), func(d household.Doubt) bool { return d.Code() == code })
}

// A relative whose income is not known is not counted, and that is said; nothing is
// taken for zero. Once the income is known the tests decide: 3,000 is below the
// limit of 2026.
func TestIncomeOfARelativeNotKnown(t *testing.T) {
	s := begin(t, "2026-06-15", "")
	play(t, s, `
		interview.way_in = new_job
		interview.married = no
		interview.jobs = 1
		interview.people = 1
		self.can_be_claimed = no
		dependents[0].relationship = parent
		dependents[0].gross_income = unknown`)
	h := tolerant(s.Document())
	if got := h.Dependents[0].CountsAs; got != household.CountsAsNone {
		t.Errorf("counts as %v", got)
	}
	if !doubted(h, "income_unknown") {
		t.Error("that the person is not counted is not said with the results")
	}
	if q, _ := s.Question(); q.Key != "interview.income" || !strings.Contains(q.Notice, "not counted for now") {
		t.Errorf("then asked %s, told %q", q.Key, q.Notice)
	}
	s.GoTo("dependents[0].gross_income")
	play(t, s, `
		dependents[0].gross_income = 3000
		dependents[0].you_support = yes
		dependents[0].files_joint_return = no
		dependents[0].citizen_or_resident = yes`)
	h = tolerant(s.Document())
	if got := h.Dependents[0].CountsAs; got != household.ByTheTests || doubted(h, "income_unknown") {
		t.Errorf("counts as %v, still doubted %v", got, doubted(h, "income_unknown"))
	}
	// The home of a parent counts that is theirs all year: IRC 2(b)(1)(B).
	if q, _ := s.Question(); q.Key != "interview.home" || !strings.HasPrefix(q.Text, "All through 2026") {
		t.Errorf("asked %s: %s", q.Key, q.Text)
	}
}
