package main

import (
	"errors"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/interview"
	"example.com/plumbline/internal/tables"
	"example.com/plumbline/internal/yamldoc"
	"example.com/plumbline/taxtables"
)

// person is someone who goes through the whole interview, by keys and by
// lines. The people, firms and figures are invented.
type person struct {
	name, today string
	screens     int // at most, on the whole screen
	keys        int // pressed there, at most
	book        book
	before      *person // as whom they came to the results of an earlier day; nil for newcomers
}

// book is a person's answers by the key of the question. Which are asked for,
// and in what order, is for the interview to say.
type book map[string]answer

// step is one question, by its key, with its answer.
type step struct {
	key    string
	answer answer
	// begins reports the first question of a page, and page is the whole page as
	// the answers so far make it.
	begins bool
	page   []interview.Question
}

// walk calls do for each question that the person is asked, with its wording,
// and returns the lines that answer them.
func (p person) walk(t testing.TB, do func(n int, s step, words string)) (lines string) {
	t.Helper()
	w := startShadow(t, p.file(t), p.today)
	before := ""
	for n := 1; ; n++ {
		q, more := w.s.Question()
		if !more {
			return lines
		}
		a, known := p.book[q.Key]
		if !known && q.Again {
			a, known = same{}, true
		}
		if !known {
			t.Fatalf("%s is asked %s (%s), and has no answer in the book", p.name, q.Key, q.Text)
		}
		page := w.s.Page()
		begins := !slices.ContainsFunc(page, func(on interview.Question) bool { return on.Key == before })
		before = q.Key
		do(n, step{q.Key, a, begins, page}, strings.Join(strings.Fields(q.Text), " "))
		w.give(a)
		lines += a.line() + "\n"
	}
}

// file is the answers file that a person comes back to; nil for newcomers.
func (p person) file(t testing.TB) *yamldoc.Document {
	t.Helper()
	if p.before == nil {
		return nil
	}
	w := startShadow(t, p.before.file(t), p.before.today)
	for {
		q, more := w.s.Question()
		if !more {
			break
		}
		a, known := p.before.book[q.Key]
		if !known && q.Again {
			a, known = same{}, true
		}
		if !known {
			t.Fatalf("%s is asked %s, and has no answer in the book", p.before.name, q.Key)
		}
		w.give(a)
	}
	if err := w.s.Finish(); err != nil {
		t.Fatal(err)
	}
	return w.s.Document()
}

// home is a folder with the answers file that the person comes back to.
func (p person) home(t testing.TB) string {
	t.Helper()
	home := t.TempDir()
	if doc := p.file(t); doc != nil {
		if err := os.WriteFile(filepath.Join(home, "answers.yaml"), doc.Bytes(), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	return home
}

// answer is an answer, to be given either way.
type answer interface {
	line() string // typed at the line-by-line front end
	keys() string // pressed at the full-screen one
}

// shadow is an interview that is carried on beside the program's, to tell which
// question is due and how it is worded.
type shadow struct {
	t testing.TB
	s *interview.Session
}

// startShadow begins with the answers of a document.
func startShadow(t testing.TB, doc *yamldoc.Document, today string) *shadow {
	t.Helper()
	var day household.Date
	if err := day.UnmarshalText([]byte(today)); err != nil {
		t.Fatal(err)
	}
	s, err := interview.Start(doc, interview.Env{Today: day, Tables: shippedYear})
	if err != nil {
		t.Fatal(err)
	}
	return &shadow{t, s}
}

func shippedYear(year int) (*tables.Year, error) { return tables.Load(taxtables.Files, year) }

// give gives the answer to the question that is due.
func (w *shadow) give(a answer) {
	w.t.Helper()
	q, _ := w.s.Question()
	value, err := a.line(), error(nil)
	switch a := a.(type) {
	case same:
		value = q.Prefill()
	case pick:
		if int(a) > len(q.Options) {
			err = errors.New("there is no such option")
			break
		}
		value = q.Options[a-1].Value
	case more:
		w.give(a.all)
		return
	case picks:
		var values []string
		for _, n := range a {
			values = append(values, q.Options[n-1].Value)
		}
		if len(values) > 0 {
			value = strings.Join(values, ", ")
		}
	}
	if err = errors.Join(err, w.s.Answer(value)); err != nil {
		w.t.Fatalf("%s: %v", q.Key, err)
	}
}

// pick is the number of an option, from 1.
type pick int

func (p pick) line() string { return fmt.Sprint(int(p)) }
func (p pick) keys() string { return "<home>" + strings.Repeat("<down>", int(p)-1) + "<enter>" }

// picks are the numbers of several options, in order; none of them is none.
type picks []int

func (p picks) line() string {
	if len(p) == 0 {
		return "none"
	}
	return strings.Trim(strings.ReplaceAll(fmt.Sprint([]int(p)), " ", ", "), "[]")
}

func (p picks) keys() string {
	keys, at := "<home>", 0 // where "None of these" stands
	for _, n := range p {
		keys += strings.Repeat("<down>", n-at) + "<space>"
		at = n
	}
	return keys + "<enter>"
}

// yes is an answer of yes or no.
type yes bool

func (y yes) line() string {
	if y {
		return "yes"
	}
	return "no"
}

func (y yes) keys() string { return y.line()[:1] }

// more marks some options of a list on which others are marked already.
type more struct{ all, press picks }

func (m more) line() string { return m.all.line() }
func (m more) keys() string { return m.press.keys() }

// text is typed.
type text string

func (t text) line() string { return string(t) }
func (t text) keys() string { return string(t) + "<enter>" }

// same takes what is suggested.
type same struct{}

func (same) line() string { return "" }
func (same) keys() string { return "<enter>" }

// The places of options in questions that more than one person is asked.
const (
	everyTwoWeeks, twiceAMonth = pick(2), pick(3)
	currentForm                = pick(1)
)

// with is a book with some answers given otherwise.
func with(b, otherwise book) book {
	b = maps.Clone(b)
	maps.Copy(b, otherwise)
	return b
}

// juneStub is a couple with a job and a stub each, and some interest.
var juneStub = book{
	"interview.way_in":                  pick(3),
	"interview.married":                 pick(2),
	"interview.file_jointly":            same{},
	"interview.jobs":                    text("1"),
	"interview.spouse_jobs":             text("1"),
	"interview.people":                  text("0"),
	"interview.income":                  picks{1},
	"interview.reductions":              picks{},
	"self.can_be_claimed":               yes(false),
	"jobs[0].name":                      text("Tern & Daughters"),
	"interview.job_1_special":           picks{},
	"jobs[0].pay_frequency":             everyTwoWeeks,
	"jobs[0].year_to_date.payday":       text("2026-06-12"),
	"jobs[0].year_to_date.taxable_pay":  text("28800"),
	"jobs[0].year_to_date.federal_tax":  text("2471.04"),
	"interview.job_1_pay_known":         pick(2),
	"jobs[0].taxable_pay":               text("2400"),
	"interview.job_1_on_file":           currentForm,
	"jobs[0].certificate.filing_status": same{},
	"interview.job_1_lines":             picks{},
	"jobs[1].name":                      text("Mill Lane Bakery"),
	"interview.spouse_job_1_special":    picks{},
	"jobs[1].pay_frequency":             pick(1),
	"interview.spouse_job_1_stub":       yes(true),
	"jobs[1].year_to_date.payday":       text("6/11/2026"),
	"jobs[1].year_to_date.taxable_pay":  text("17,250"),
	"jobs[1].year_to_date.federal_tax":  text("391"),
	"interview.spouse_job_1_pay_known":  pick(2),
	"jobs[1].taxable_pay":               text("750"),
	"interview.spouse_job_1_on_file":    currentForm,
	"jobs[1].certificate.filing_status": same{},
	"interview.spouse_job_1_lines":      picks{},
	"income.interest":                   text("640"),
	"payments.other_withholding":        same{},
	"payments.estimated_tax":            same{},
	"interview.last_year":               yes(true),
	"last_year.total_tax":               text("8120"),
	"last_year.adjusted_gross_income":   text("97200"),
	"wish.refund":                       same{},
	"wish.tell_employer":                same{},
	"wish.spread":                       same{},
}

var people = []person{
	{name: "new-hire", today: "2026-06-15", screens: 7, keys: 12, book: book{
		"interview.way_in":     pick(1),
		"interview.married":    pick(1),
		"interview.jobs":       same{},
		"interview.people":     same{},
		"interview.income":     picks{},
		"interview.reductions": picks{},
		"interview.fit":        yes(false),
	}},
	{name: "marriage", today: "2026-06-15", screens: 23, keys: 160, book: book{
		"interview.way_in":                  pick(2),
		"interview.changes":                 picks{1},
		"interview.change_date":             text("6/6/2026"),
		"interview.married":                 pick(2),
		"interview.file_jointly":            same{},
		"interview.jobs":                    text("1"),
		"interview.spouse_jobs":             text("1"),
		"interview.people":                  same{},
		"interview.income":                  picks{},
		"interview.reductions":              picks{},
		"jobs[0].name":                      text("Larkfield Books"),
		"interview.job_1_special":           picks{},
		"jobs[0].pay_frequency":             everyTwoWeeks,
		"interview.job_1_stub":              yes(true),
		"jobs[0].year_to_date.payday":       text("6/12/2026"),
		"jobs[0].year_to_date.taxable_pay":  text("18200"),
		"jobs[0].year_to_date.federal_tax":  text("1520"),
		"interview.job_1_pay_known":         pick(2),
		"jobs[0].taxable_pay":               text("1550"),
		"interview.job_1_on_file":           currentForm,
		"jobs[0].certificate.filing_status": pick(1),
		"interview.job_1_lines":             picks{},
		"jobs[1].name":                      text("Quarry Street School"),
		"interview.spouse_job_1_special":    picks{},
		"jobs[1].pay_frequency":             pick(4),
		"interview.spouse_job_1_stub":       yes(false),
		"jobs[1].first_payday":              text("1/30/2026"),
		"interview.spouse_job_1_pay_known":  pick(2),
		"interview.spouse_job_1_salary":     text("41,400"),
		"interview.spouse_job_1_pretax":     picks{1},
		"jobs[1].pretax.retirement":         text("120"),
		"interview.spouse_job_1_on_file":    pick(4),
		"interview.last_year":               yes(false),
		"wish.refund":                       same{},
		"wish.tell_employer":                same{},
		"wish.spread":                       same{},
	}},
	{name: "birth", today: "2026-06-15", screens: 20, keys: 110, book: book{
		"interview.way_in":                  pick(2),
		"interview.changes":                 picks{4},
		"interview.change_date":             text("5/20/2026"),
		"interview.married":                 pick(2),
		"interview.file_jointly":            same{},
		"interview.jobs":                    text("1"),
		"interview.spouse_jobs":             text("0"),
		"interview.people":                  same{},
		"self.can_be_claimed":               yes(false),
		"dependents[0].relationship":        pick(1),
		"dependents[0].birth_date":          text("5/20/2026"),
		"dependents[0].ssn_valid_for_work":  same{},
		"interview.income":                  picks{},
		"interview.reductions":              picks{},
		"interview.job_1_special":           picks{},
		"jobs[0].pay_frequency":             twiceAMonth,
		"interview.job_1_stub":              yes(true),
		"jobs[0].year_to_date.payday":       text("6/15/2026"),
		"jobs[0].year_to_date.taxable_pay":  text("28600"),
		"jobs[0].year_to_date.federal_tax":  text("1177"),
		"interview.job_1_pay_known":         pick(1),
		"jobs[0].gross_pay":                 text("2750"),
		"interview.job_1_pretax":            picks{1, 2},
		"jobs[0].pretax.retirement":         text("110"),
		"jobs[0].pretax.health":             text("40"),
		"interview.job_1_on_file":           currentForm,
		"jobs[0].certificate.filing_status": pick(2),
		"interview.job_1_lines":             picks{},
		"self.ssn_valid_for_work":           same{},
		"spouse.ssn_valid_for_work":         same{},
		"wish.refund":                       same{},
		"wish.tell_employer":                same{},
	}},
	{name: "june-stub", today: "2026-06-15", screens: 21, keys: 160, book: juneStub},
	twoEarners,
	{name: "parent", today: "2026-06-15", screens: 20, keys: 120, book: book{
		"interview.way_in":                       pick(3),
		"interview.married":                      pick(1),
		"interview.jobs":                         text("1"),
		"interview.people":                       text("1"),
		"self.can_be_claimed":                    yes(false),
		"dependents[0].relationship":             pick(1),
		"dependents[0].birth_date":               text("2020"),
		"dependents[0].months_with_you":          text("12"),
		"interview.person_1_claimed":             pick(1),
		"dependents[0].ssn_valid_for_work":       same{},
		"interview.home":                         yes(true),
		"interview.income":                       picks{1},
		"interview.reductions":                   picks{12},
		"interview.job_1_special":                picks{},
		"jobs[0].pay_frequency":                  everyTwoWeeks,
		"jobs[0].year_to_date.payday":            text("6/12/2026"),
		"jobs[0].year_to_date.taxable_pay":       text("28800"),
		"jobs[0].year_to_date.federal_tax":       text("2400"),
		"interview.job_1_pay_known":              pick(2),
		"jobs[0].taxable_pay":                    text("2400"),
		"interview.job_1_on_file":                currentForm,
		"jobs[0].certificate.filing_status":      pick(1),
		"interview.job_1_lines":                  picks{2},
		"jobs[0].certificate.credits":            text("2200"),
		"income.interest":                        text("300"),
		"payments.other_withholding":             same{},
		"payments.estimated_tax":                 same{},
		"dependents[0].care_monthly.amount":      text("2400/yr"),
		"dependents[0].care_monthly.first_month": text("1"),
		"dependents[0].care_monthly.last_month":  text("12"),
		"interview.last_year":                    yes(false),
		"self.ssn_valid_for_work":                same{},
		"wish.refund":                            same{},
		"wish.tell_employer":                     same{},
	}},
	{name: "retired", today: "2026-06-15", screens: 24, keys: 190, book: book{
		"interview.way_in":                           pick(3),
		"interview.married":                          pick(2),
		"interview.file_jointly":                     same{},
		"interview.jobs":                             text("0"),
		"interview.spouse_jobs":                      text("0"),
		"interview.people":                           text("0"),
		"self.can_be_claimed":                        yes(false),
		"interview.income":                           picks{1, 2, 7, 8, 10},
		"interview.reductions":                       picks{4, 6},
		"interview.pensions":                         same{},
		"jobs[0].name":                               text("State Plan"),
		"interview.pension_1_special":                picks{},
		"jobs[0].pay_frequency":                      pick(1),
		"interview.pension_1_stub":                   yes(true),
		"jobs[0].year_to_date.payday":                text("6/1/2026"),
		"jobs[0].year_to_date.taxable_pay":           text("12000"),
		"jobs[0].year_to_date.federal_tax":           text("900"),
		"jobs[0].taxable_pay":                        text("2000"),
		"interview.pension_1_on_file":                currentForm,
		"jobs[0].certificate.filing_status":          pick(2),
		"interview.pension_1_lines":                  picks{},
		"interview.spouse_pensions":                  same{},
		"jobs[1].name":                               text("Mill Fund"),
		"interview.spouse_pension_1_special":         picks{},
		"jobs[1].pay_frequency":                      pick(1),
		"interview.spouse_pension_1_stub":            yes(true),
		"jobs[1].year_to_date.payday":                text("6/1/2026"),
		"jobs[1].year_to_date.taxable_pay":           text("6000"),
		"jobs[1].year_to_date.federal_tax":           text("0"),
		"jobs[1].taxable_pay":                        text("1000"),
		"interview.spouse_pension_1_on_file":         pick(4),
		"income.interest":                            text("1800"),
		"income.ordinary_dividends":                  text("900"),
		"income.qualified_dividends":                 text("700"),
		"income.social_security_monthly.amount":      text("38000/yr"),
		"income.social_security_monthly.first_month": text("1"),
		"income.social_security_monthly.last_month":  text("12"),
		"self.birth_date":                            text("1956"),
		"spouse.birth_date":                          text("1958"),
		"deductions.charity_cash":                    text("1200"),
		"self.ssn_valid_for_work":                    same{},
		"spouse.ssn_valid_for_work":                  same{},
		"payments.other_withholding":                 same{},
		"payments.estimated_tax":                     same{},
		"interview.last_year":                        yes(false),
		"wish.refund":                                same{},
		"wish.tell_employer":                         same{},
		"wish.spread":                                same{},
	}},
	{name: "two-jobs-and-side-work", today: "2026-06-15", screens: 22, keys: 130, book: book{
		"interview.way_in":            pick(1),
		"interview.married":           pick(1),
		"interview.jobs":              text("2"),
		"interview.people":            same{},
		"interview.income":            picks{4},
		"interview.reductions":        picks{},
		"self.can_be_claimed":         yes(false),
		"jobs[0].name":                text("Corner Cafe"),
		"interview.job_1_special":     picks{},
		"jobs[0].pay_frequency":       everyTwoWeeks,
		"jobs[0].first_payday":        text("7/3"),
		"interview.job_1_pay_known":   pick(3),
		"interview.job_1_hourly":      text("17.25"),
		"interview.job_1_hours":       text("18"),
		"interview.job_1_pretax":      picks{},
		"jobs[1].name":                text("Loading Dock"),
		"interview.job_2_special":     picks{},
		"jobs[1].pay_frequency":       pick(1),
		"interview.job_2_stub":        yes(false),
		"jobs[1].first_payday":        text("unknown"),
		"interview.job_2_pay_known":   pick(3),
		"interview.job_2_hourly":      text("19.80"),
		"interview.job_2_hours":       text("20"),
		"interview.job_2_pretax":      picks{},
		"interview.job_2_on_file":     pick(4),
		"income.self_employment.self": text("650/month"),
		"payments.estimated_tax":      same{},
		"self.birth_date":             text("1998"),
		"interview.last_year":         yes(false),
		"wish.refund":                 same{},
		"wish.tell_employer":          same{},
	}},
	{name: "overtime-and-a-house", today: "2026-06-15", screens: 21, keys: 150, book: book{
		"interview.way_in":                  pick(2),
		"interview.changes":                 picks{16},
		"interview.change_date":             text("5/4"),
		"interview.married":                 pick(1),
		"interview.jobs":                    text("1"),
		"interview.people":                  same{},
		"interview.income":                  picks{},
		"interview.reductions":              more{picks{2, 3}, picks{2}}, // the house is marked
		"interview.job_1_special":           picks{},
		"jobs[0].pay_frequency":             pick(1),
		"interview.job_1_stub":              yes(true),
		"jobs[0].year_to_date.payday":       text("6/12"),
		"jobs[0].year_to_date.taxable_pay":  text("40,800"),
		"jobs[0].year_to_date.federal_tax":  text("4612"),
		"interview.job_1_pay_known":         pick(2),
		"jobs[0].taxable_pay":               text("1700"),
		"interview.job_1_on_file":           currentForm,
		"jobs[0].certificate.filing_status": pick(1),
		"interview.job_1_lines":             picks{},
		"interview.job_1_overtime_rate":     pick(1),
		"interview.job_1_overtime_pay":      text("9000"),
		"interview.rough_itemized":          text("unknown"),
		"self.ssn_valid_for_work":           same{},
		"wish.refund":                       same{},
		"wish.tell_employer":                same{},
	}},
}

var twoEarners = person{
	name: "two-earners", today: "2026-06-15", screens: 20, keys: 150,
	book: with(juneStub, book{
		"interview.income": picks{}, "interview.last_year": yes(false), "jobs[0].year_to_date.federal_tax": text("1443.72"),
	}),
}

// newerStubs are the stubs of both jobs in fall, at the pay of June.
var newerStubs = book{
	"interview.job_1_newer_stub":        yes(true),
	"jobs[0].year_to_date.payday":       text("9/18"),
	"jobs[0].year_to_date.taxable_pay":  text("45600"),
	"jobs[0].year_to_date.federal_tax":  text("2285.89"),
	"interview.spouse_job_1_newer_stub": yes(true),
	"jobs[1].year_to_date.payday":       text("9/17"),
	"jobs[1].year_to_date.taxable_pay":  text("27750"),
	"jobs[1].year_to_date.federal_tax":  text("629"),
	"interview.job_1_handed_in":         yes(false),
	"interview.spouse_job_1_handed_in":  yes(false),
}

// noStubs are no newer stubs, and what was advised handed in.
var noStubs = book{
	"interview.job_1_newer_stub":        yes(false),
	"interview.spouse_job_1_newer_stub": yes(false),
	"interview.job_1_handed_in":         yes(true),
	"interview.spouse_job_1_handed_in":  yes(true),
}

// reruns are people who come back in fall.
var reruns = []person{
	{name: "two-newer-stubs", today: "2026-09-21", screens: 6, keys: 40, before: &twoEarners, book: with(newerStubs, book{
		"interview.changes": picks{},
	})},
	{name: "handed-in", today: "2026-09-21", screens: 5, keys: 10, before: &twoEarners, book: with(noStubs, book{
		"interview.changes": picks{},
	})},
	{name: "a-raise", today: "2026-09-21", screens: 9, keys: 50, before: &twoEarners, book: with(noStubs, book{
		"interview.changes":         picks{11},
		"interview.change_date":     text("9/1"),
		"interview.job_1_pay_known": same{},
		"jobs[0].taxable_pay":       text("2550"),
	})},
	{name: "a-birth", today: "2026-09-21", screens: 11, keys: 60, before: &twoEarners, book: with(noStubs, book{
		"interview.changes":                picks{4},
		"interview.change_date":            text("8/30"),
		"interview.people":                 same{},
		"dependents[0].relationship":       pick(1),
		"dependents[0].birth_date":         same{},
		"dependents[0].months_with_you":    same{},
		"dependents[0].ssn_valid_for_work": same{},
		"self.ssn_valid_for_work":          same{},
		"spouse.ssn_valid_for_work":        same{},
	})},
	{name: "a-job-ended", today: "2026-09-21", screens: 9, keys: 60, before: &twoEarners, book: with(newerStubs, book{
		"interview.changes":              picks{8},
		"interview.change_date":          text("9/17"),
		"interview.spouse_job_1_special": same{},
		"jobs[1].last_payday":            same{},
		"interview.spouse_job_1_stub":    yes(true),
	})},
}
