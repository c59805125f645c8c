package interview

import (
	"maps"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// answersOf are the answers of a script, by key.
func answersOf(script string) map[string]string {
	answers := make(map[string]string)
	for line := range strings.Lines(script) {
		if key, text, ok := strings.Cut(strings.TrimSpace(line), " = "); ok {
			answers[key] = text
		}
	}
	return answers
}

// scripted is the answer that a script gives to a question. A state that it leaves
// out is passed over.
func scripted(answers map[string]string, q Question) (text string, ok bool) {
	if text, ok = answers[q.Key]; !ok && q.Kind == Named {
		return q.Prefill(), true
	}
	return text, ok
}

// playPages answers a script page by page, and returns the number of pages.
func playPages(t testing.TB, s *Session, script string) int {
	t.Helper()
	answers, pages := answersOf(script), 0
	for {
		page := s.Page()
		if len(page) == 0 {
			return pages
		}
		given := make(map[string]string)
		for _, q := range page {
			text, ok := scripted(answers, q)
			if !ok && q.Answer == "" {
				continue // an answer on this page may make it needless
			}
			if ok {
				given[q.Key] = text
			}
		}
		if err := s.AnswerPage(given); err != nil {
			t.Fatalf("page of %s with %v: %v\nfile:\n%s", page[0].Key, given, err, s.Document().Bytes())
		}
		if pages++; pages > longest {
			t.Fatal("no end")
		}
	}
}

// Page by page the answers lead to the same facts as one by one.
func TestPagesLeadToTheSameFacts(t *testing.T) {
	for _, p := range persons {
		t.Run(p.name, func(t *testing.T) {
			one, paged := begin(t, p.today, ""), begin(t, p.today, "")
			play(t, one, p.script)
			n := playPages(t, paged, p.script)
			if want := counting(one); !maps.Equal(counting(paged), want) {
				t.Errorf("page by page:\n%s\none by one:\n%s", paged.Document().Bytes(), one.Document().Bytes())
			}
			if asked := len(one.Review()); n > asked {
				t.Errorf("%d pages for %d questions", n, asked)
			}
		})
	}
}

// A page filled in field by field stays until its last question is answered, and
// leads to the same facts.
func TestPagesFilledInByField(t *testing.T) {
	for _, p := range persons {
		t.Run(p.name, func(t *testing.T) {
			one, filled := begin(t, p.today, ""), begin(t, p.today, "")
			play(t, one, p.script)
			answers, pages := answersOf(p.script), 0
			for page := filled.Page(); len(page) > 0; page = filled.Page() {
				for i := 0; i < len(page); i++ {
					key := page[i].Key
					text, ok := scripted(answers, page[i])
					if !ok { // it has come into the place of one that the script answers
						text = page[i].Answer
					}
					if err := filled.FillIn(map[string]string{key: text}); err != nil {
						t.Fatalf("%s: %v", key, err)
					}
					now := filled.Page()
					if i+1 < len(now) && now[i].Key == key {
						page = now // it stays, as the answer has made it
						continue
					}
					if len(now) > 0 && now[0].Key == page[0].Key {
						if err := filled.AnswerPage(map[string]string{key: text}); err != nil {
							t.Fatalf("%s: %v", key, err)
						}
					}
					break
				}
				if pages++; pages > longest {
					t.Fatal("no end")
				}
			}
			if want := counting(one); !maps.Equal(counting(filled), want) {
				t.Errorf("filled in:\n%s\none by one:\n%s", filled.Document().Bytes(), one.Document().Bytes())
			}
			// A page answered at once comes again when its answers lead to more of it.
			if most := playPages(t, begin(t, p.today, ""), p.script); pages > most {
				t.Errorf("%d pages, and %d when each is answered at once", pages, most)
			}
		})
	}
}

// A page that holds a mistake changes nothing, and says at which question.
func TestMistakesOfAPage(t *testing.T) {
	s := begin(t, "2026-06-15", "")
	before, _, _ := strings.Cut(twoJobs, "jobs[0].year_to_date.payday")
	play(t, s, before)
	file := string(s.Document().Bytes())
	err := s.AnswerPage(map[string]string{
		"jobs[0].year_to_date.payday":      "2025-12-26",
		"jobs[0].year_to_date.taxable_pay": "28800",
		"jobs[0].year_to_date.federal_tax": "a lot",
	})
	wrong, ok := err.(PageError)
	if !ok || len(wrong) != 2 || wrong["jobs[0].year_to_date.payday"] == nil || wrong["jobs[0].year_to_date.federal_tax"] == nil {
		t.Errorf("the page has %v", err)
	}
	if after := string(s.Document().Bytes()); after != file {
		t.Errorf("the file is now\n%s", after)
	}
}

// Going back by pages ends at the first one, and forward again at the same
// place.
func TestBackByPages(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := beginAny(t)
		for range rapid.IntRange(1, 60).Draw(t, "answers") {
			if _, more := s.Question(); more {
				answerSomehow(t, s)
			}
		}
		before := string(s.Document().Bytes())
		back := 0
		for range rapid.IntRange(1, 20).Draw(t, "pages") {
			if s.BackPage() {
				back++
			}
		}
		for range back {
			if !s.Behind() {
				break
			}
			if err := s.AnswerPage(nil); err != nil {
				t.Fatal(err)
			}
		}
		if after := string(s.Document().Bytes()); after != before {
			t.Fatalf("%d pages back and forward changed the file from\n%s\nto\n%s", back, before, after)
		}
	})
}

// screens are the most pages that a kind of person passes.
func TestScreens(t *testing.T) {
	const parent = aloneWithStub + `
		jobs[0].year_to_date.federal_tax = 2400
		interview.job_1_pay_known = taxable
		jobs[0].taxable_pay = 2400
		interview.job_1_on_file = current
		jobs[0].certificate.filing_status = single
		interview.job_1_lines = 3
		jobs[0].certificate.credits = 2200
		interview.people = 1
		self.can_be_claimed = no
		dependents[0].relationship = child
		dependents[0].birth_date = 2020
		dependents[0].months_with_you = 12
		interview.person_1_claimed = no
		dependents[0].ssn_valid_for_work = yes
		interview.home = yes
		interview.income = interest
		interview.reductions = care
		income.interest = 300
		payments.other_withholding = 0
		payments.estimated_tax = 0
		dependents[0].care_monthly.amount = 2400/yr
		interview.last_year = no
		self.ssn_valid_for_work = yes
		wish.refund = 0
		wish.tell_employer = all`
	const retired = `
		interview.way_in = stub
		interview.file_jointly = jointly
		interview.jobs = 0
		interview.married = yes
		interview.spouse_jobs = 0
		interview.people = 0
		interview.income = interest, dividends, pension, spouse_pension, social_security
		interview.reductions = senior, gifts
		interview.pensions = 1
		jobs[0].name = State Plan
		interview.pension_1_special = none
		jobs[0].pay_frequency = monthly
		interview.pension_1_stub = yes
		jobs[0].year_to_date.payday = 2026-06-01
		jobs[0].year_to_date.taxable_pay = 12000
		jobs[0].year_to_date.federal_tax = 900
		jobs[0].taxable_pay = 2000
		interview.pension_1_on_file = current
		jobs[0].certificate.filing_status = married_filing_jointly
		interview.pension_1_lines = none
		interview.spouse_pensions = 1
		jobs[1].name = Mill Fund
		interview.spouse_pension_1_special = none
		jobs[1].pay_frequency = monthly
		interview.spouse_pension_1_stub = yes
		jobs[1].year_to_date.payday = 2026-06-01
		jobs[1].year_to_date.taxable_pay = 6000
		jobs[1].year_to_date.federal_tax = 0
		jobs[1].taxable_pay = 1000
		interview.spouse_pension_1_on_file = not_sure
		income.interest = 1800
		income.ordinary_dividends = 900
		income.qualified_dividends = 700
		income.tax_exempt_interest = 0
		income.social_security_monthly.amount = 38000/yr
		income.social_security_monthly.first_month = 1
		income.social_security_monthly.last_month = 12
		self.birth_date = 1956
		spouse.birth_date = 1958
		deductions.charity_cash = 1200
		self.ssn_valid_for_work = yes
		spouse.ssn_valid_for_work = yes
		payments.other_withholding = 0
		payments.estimated_tax = 0
		interview.last_year = no
		wish.refund = 0
		wish.tell_employer = all
		wish.spread = best_paid`
	for _, tt := range []struct {
		name   string
		script string
		most   int
	}{
		{"a plain new hire", simpleHire + "\n\t\tinterview.fit = no", 7},
		{"two earners with stubs", twoJobs, 24},
		{"a parent with one job and a stub", parent, 20},
		{"a retired couple", retired, 24},
	} {
		t.Run(tt.name, func(t *testing.T) {
			s := begin(t, "2026-06-15", "")
			n := playPages(t, s, tt.script)
			t.Logf("%d pages", n)
			if n > tt.most {
				t.Errorf("%d pages, at most %d", n, tt.most)
			}
		})
	}
}

// keystrokes are what is typed for a page: Enter for each answer kept, an
// answer and Enter for each other one.
func keystrokes(page []Question, answers map[string]string) (n int) {
	for _, q := range page {
		n++
		text, given := answers[q.Key]
		switch {
		case !given || text == q.Prefill() || q.Kind == YesNo && q.Prefill() == "true" && text == "yes", q.Kind == YesNo && q.Prefill() == "false" && text == "no":
		case q.Kind == YesNo, q.Kind == Choice, q.Kind == Several:
			n++ // a number
		default:
			n += len(text)
		}
	}
	return n
}

// A person who comes back with two newer stubs and nothing else changed passes
// at most six pages, with at most forty keystrokes.
func TestRerunIsShort(t *testing.T) {
	s := begin(t, "2026-06-15", "")
	play(t, s, twoJobs)
	if err := s.Finish(); err != nil {
		t.Fatal(err)
	}
	s = reopened(t, s, "2026-09-21")
	answers := answersOf(`
		interview.changes = none
		interview.job_1_newer_stub = yes
		jobs[0].year_to_date.payday = 9/18
		jobs[0].year_to_date.taxable_pay = 45600
		jobs[0].year_to_date.federal_tax = 4100
		interview.job_1_handed_in = no
		interview.spouse_job_1_newer_stub = yes
		jobs[1].year_to_date.payday = 8/31
		jobs[1].year_to_date.taxable_pay = 22400
		jobs[1].year_to_date.federal_tax = 1440
		interview.spouse_job_1_handed_in = no`)
	pages, keys := 0, 0
	for page := s.Page(); len(page) > 0; page = s.Page() {
		given := make(map[string]string)
		for _, q := range page {
			if text, ok := answers[q.Key]; ok {
				given[q.Key] = text
			} else if q.Prefill() != "" {
				given[q.Key] = q.Prefill()
			}
		}
		keys += keystrokes(page, given)
		t.Logf("%s: %v", page[0].Key, given)
		if err := s.AnswerPage(given); err != nil {
			t.Fatal(err)
		}
		if pages++; pages > 20 {
			t.Fatal("no end")
		}
	}
	t.Logf("%d pages, %d keystrokes", pages, keys)
	if pages > 6 || keys > 40 {
		t.Errorf("%d pages and %d keystrokes, want at most 6 and 40", pages, keys)
	}
}

// A newer stub is later, and what was paid and withheld since January is not
// less than before.
func TestNewerStubIsNewer(t *testing.T) {
	s := begin(t, "2026-06-15", "")
	play(t, s, twoJobs)
	if err := s.Finish(); err != nil {
		t.Fatal(err)
	}
	s = reopened(t, s, "2026-09-21")
	play(t, s, `
		interview.changes = none
		interview.job_1_newer_stub = yes`)
	for _, tt := range []struct{ wrong, says, right string }{
		{"5/29/2026", "not later than June 12, 2026", "9/18/2026"},
		{"28000", "$28,800.00", "45600"},
		{"2000", "$2,471.04", "4100"},
	} {
		if err := s.Answer(tt.wrong); err == nil || !strings.Contains(err.Error(), tt.says) {
			t.Errorf("%s: %v, want a message with %q", tt.wrong, err, tt.says)
		}
		if err := s.Answer(tt.right); err != nil {
			t.Fatal(err)
		}
	}
}

// A newer stub is asked for until its date is later, also where no results were
// shown last time; the older one's figures are not offered.
func TestNewerStubIsAskedForUntilGiven(t *testing.T) {
	s := begin(t, "2026-06-15", "")
	play(t, s, twoJobs)
	s = reopened(t, s, "2026-09-21")
	play(t, s, `
		interview.changes = none
		interview.job_1_newer_stub = yes`)
	for range stubFields {
		q, _ := s.Question()
		if q.Prefill() != "" {
			t.Errorf("%s begins with %s", q.Key, q.Prefill())
		}
		if err := s.Answer(q.Prefill()); err == nil {
			t.Errorf("%s takes Enter", q.Key)
		}
		answers := map[string]string{stubFields[0]: "9/18", stubFields[1]: "45600", stubFields[2]: "4100"}
		if q.Key == "jobs[0]."+stubFields[0] && s.Answer("2026-06-12") == nil {
			t.Error("the old date is taken for a newer one")
		}
		if err := s.Answer(answers[strings.TrimPrefix(q.Key, "jobs[0].")]); err != nil {
			t.Fatal(err)
		}
	}
}

// A stub with more pay than expected asks why, and a raise leads to the new pay.
func TestPayThatGrewIsAskedAbout(t *testing.T) {
	s := begin(t, "2026-06-15", "")
	play(t, s, twoJobs)
	if err := s.Finish(); err != nil {
		t.Fatal(err)
	}
	s = reopened(t, s, "2026-09-21")
	// June 26 to September 18 are seven paydays; 28,800 + 7 × 2,600 = 47,000.
	play(t, s, `
		interview.changes = none
		interview.job_1_newer_stub = yes
		jobs[0].year_to_date.payday = 2026-09-18
		jobs[0].year_to_date.taxable_pay = 47000
		jobs[0].year_to_date.federal_tax = 4200`)
	q, _ := s.Question()
	for q.Key == "interview.job_1_handed_in" {
		play(t, s, "interview.job_1_handed_in = no")
		q, _ = s.Question()
	}
	if q.Key != "interview.job_1_pay_grew" || !strings.Contains(q.Notice, "$2,600.00") {
		t.Fatalf("asked %s after %q", q.Key, q.Notice)
	}
	play(t, s, "interview.job_1_pay_grew = raise")
	// The seven paychecks come to 18,200. If three of them were still 2,400, the
	// four since August 7 are 11,000 / 4 = 2,750.
	for _, tt := range []struct{ day, want string }{{"unknown", "2600"}, {"2026-06-26", "2600"}, {"2026-08-07", "2750"}} {
		play(t, s, "interview.job_1_raise_day = "+tt.day)
		if q, _ = s.Question(); q.Key != "jobs[0].taxable_pay" || q.Default != tt.want || q.Answer != "" {
			t.Errorf("since %s: asked %s with %q and %q, want the new pay of %s suggested", tt.day, q.Key, q.Answer, q.Default, tt.want)
		}
		s.GoTo("interview.job_1_raise_day")
	}
}
