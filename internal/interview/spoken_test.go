package interview

import (
	"slices"
	"strings"
	"testing"
)

// A yes or no where a name is asked for is a slip, and would be the job's name
// on every page.
func TestNamesAreNames(t *testing.T) {
	s := begin(t, "2026-06-15", "")
	before, _, _ := strings.Cut(twoJobs, "jobs[0].name")
	play(t, s, before)
	for _, slip := range []string{"no", "No", "y", "yes", "none", "TRUE"} {
		if err := s.Answer(slip); err == nil || !strings.Contains(err.Error(), "name") {
			t.Errorf("%q was taken as the name of a job (%v)", slip, err)
		}
	}
	play(t, s, "jobs[0].name = Noah's Yard")
}

// A job that has no name of its own is spoken of in plain words, with a capital
// only where they are alone.
func TestUnnamedJobs(t *testing.T) {
	s := begin(t, "2026-06-15", "")
	before, _, _ := strings.Cut(twoJobs, "jobs[0].name")
	play(t, s, before)
	q, _ := s.Question()
	if q.Default != "your job" {
		t.Errorf("the name suggested is %q", q.Default)
	}
	rest := strings.NewReplacer("Harbor Clinic", "your job", "Mill School", "your spouse's job").Replace(twoJobs[len(before):])
	if err := s.Answer("your job"); err != nil {
		t.Fatal(err)
	}
	s.GoTo("interview.job_1_special")
	q, _ = s.Question()
	s.Resume()
	if q.About != "Your job" || !strings.Contains(q.Text, "for your job in") {
		t.Errorf("about %q: %q", q.About, q.Text)
	}
	_, rest, _ = strings.Cut(rest, "\n")
	play(t, s, rest)
	r, err := s.Result()
	if err != nil {
		t.Fatal(err)
	}
	if c := r.Recommended.Certificates[0]; c.Name != "your job" && c.Name != "your spouse's job" {
		t.Errorf("the certificate is for %q", c.Name)
	}
	if d := s.Draft(); d.Certificates[0].Job != "Your job" && d.Certificates[0].Job != "Your spouse's job" {
		t.Errorf("the draft is for %q", d.Certificates[0].Job)
	}
	if err := s.Finish(); err != nil {
		t.Fatal(err)
	}
	s = reopened(t, s, "2026-09-21")
	play(t, s, `
		interview.changes = none
		interview.job_1_newer_stub = yes
		jobs[0].year_to_date.payday = 2026-09-18
		jobs[0].year_to_date.taxable_pay = 45600
		jobs[0].year_to_date.federal_tax = 4100`)
	if met := s.LookBack(); len(met) != 1 || met[0].Job != "Your job" {
		t.Errorf("looking back on %+v", met)
	}
}

// Several jobs without names are told apart in words.
func TestSeveralUnnamedJobs(t *testing.T) {
	s := begin(t, "2026-06-15", "")
	play(t, s, `
		interview.way_in = stub
		interview.jobs = 5
		interview.married = no`)
	var spoken []string
	for _, g := range s.walk.own {
		spoken = append(spoken, g.name)
	}
	if want := []string{"your first job", "your second job", "your third job", "your job 4", "your job 5"}; !slices.Equal(spoken, want) {
		t.Errorf("spoken of as %q, want %q", spoken, want)
	}
}

// What an answer has led to is told though the question after it has an answer
// already, and once: with the next question that is asked, else at the end.
func TestNoticeIsToldPastAnsweredQuestions(t *testing.T) {
	const child = hireWithAChild + `
		dependents[0].birth_date = 2020
		dependents[0].months_with_you = 12
		interview.person_1_claimed = no
		dependents[0].ssn_valid_for_work = yes
		interview.home = yes
		interview.income = none`
	s := begin(t, "2026-06-15", "")
	play(t, s, child)
	s.GoTo("interview.home")
	play(t, s, "interview.home = no")
	q, _ := s.Question()
	if q.Key != "interview.reductions" || strings.Contains(q.Notice, "head of household") {
		t.Fatalf("asked %s after %q", q.Key, q.Notice)
	}
	s.GoTo("interview.home")
	play(t, s, "interview.home = yes")
	q, _ = s.Question()
	if q.Key != "interview.reductions" || strings.Count(q.Notice, "Your filing status is head of household") != 1 {
		t.Fatalf("asked %s after %q", q.Key, q.Notice)
	}
	play(t, s, "interview.reductions = none")
	if q, _ = s.Question(); strings.Contains(q.Notice, "head of household") {
		t.Errorf("it is told again: %q", q.Notice)
	}

	s = begin(t, "2026-06-15", "")
	play(t, s, twoJobs)
	s.GoTo("interview.spouse_job_1_on_file")
	play(t, s, "interview.spouse_job_1_on_file = not_sure")
	ended(t, s)
	if v := s.Verdict(); strings.Count(v, "Payroll can tell you") != 1 {
		t.Errorf("the verdict is %q", v)
	}
}

// A pension is spoken of in its own words: it pays by the month, and its form
// has no box for two jobs.
func TestPensionHasItsOwnWords(t *testing.T) {
	s := begin(t, "2026-06-15", "")
	play(t, s, `
		interview.way_in = stub
		interview.jobs = 0
		interview.married = no
		interview.people = 0
		interview.income = pension
		interview.reductions = none
		self.can_be_claimed = no
		interview.pensions = 1
		interview.pension_1_special = none`)
	q, _ := s.Question()
	if q.Key != "jobs[0].pay_frequency" || q.Options[0].Value != "monthly" {
		t.Fatalf("asked %s, with %v first", q.Key, q.Options[0])
	}
	seen := ""
	for range 30 {
		q, more := s.Question()
		if !more || !strings.HasPrefix(q.Key, "jobs[0]") && !strings.Contains(q.Key, "pension_1") {
			break
		}
		seen += q.Text + "\n"
		for _, o := range q.Options {
			seen += o.Label + "\n"
		}
		text := map[string]string{
			"jobs[0].pay_frequency": "monthly", "interview.pension_1_stub": "yes", "jobs[0].year_to_date.payday": "2026-06-01",
			"jobs[0].year_to_date.taxable_pay": "9000", "jobs[0].year_to_date.federal_tax": "600", "jobs[0].taxable_pay": "1500",
			"interview.pension_1_on_file": "current", "jobs[0].certificate.filing_status": "single", "interview.pension_1_lines": "none",
		}[q.Key]
		if err := s.Answer(text); err != nil {
			t.Fatalf("%s: %v", q.Key, err)
		}
	}
	for _, word := range []string{"pay stub", "paycheck", "payroll", "Form W-4 ", "two jobs"} {
		if strings.Contains(seen, word) {
			t.Errorf("a pension is asked about with %q:\n%s", word, seen)
		}
	}
	if !strings.Contains(seen, "Form W-4P") {
		t.Errorf("the form of a pension is not named:\n%s", seen)
	}
}

// The draft names the age that the yearly table has, and the review the words
// that were offered.
func TestFiguresInLabels(t *testing.T) {
	s := begin(t, "2026-06-15", "")
	play(t, s, `
		interview.way_in = changed
		interview.changes = child_17
		interview.married = no
		interview.jobs = 1
		interview.people = 0
		interview.income = none
		interview.reductions = senior`)
	y, err := yearly(2026)
	if err != nil {
		t.Fatal(err)
	}
	labels := ""
	for _, l := range s.Draft().Certificates[0].Lines {
		labels += l.Label + "\n"
	}
	if y.ChildCredit.ChildUnder != 17 || !strings.Contains(labels, "Children under 17\n") { // IRC 24(c)(1); Form W-4 (2026), Step 3
		t.Errorf("the lines are:\n%s", labels)
	}
	all := ""
	for _, row := range s.Review() {
		all += row.Answer + "\n"
	}
	if strings.ContainsAny(all, "{}") || !strings.Contains(all, "A child turns 17 this year\n") || !strings.Contains(all, "I will be 65 or older\n") {
		t.Errorf("the answers are:\n%s", all)
	}
	if q := s.question(&s.walk.steps[s.walk.place["interview.reductions"]]); slices.ContainsFunc(q.Options, func(o Option) bool { return strings.Contains(o.Label, "spouse") }) {
		t.Errorf("one who is alone is asked about a spouse: %v", q.Options)
	}
}

// Who is married may file jointly or not: until that is answered the draft has no box.
func TestDraftHasNoBoxBeforeTheReturnIsKnown(t *testing.T) {
	s := begin(t, "2026-11-27", "")
	play(t, s, "interview.way_in = new_job\ninterview.married = yes")
	for _, joint := range []string{"", "Married filing jointly"} {
		if joint != "" {
			play(t, s, "interview.file_jointly = jointly")
		}
		if got := s.Draft().Certificates[0].Lines[0].Text; !strings.HasPrefix(got, joint) || joint == "" && got != "" {
			t.Errorf("the draft has the box %q, want %q", got, joint)
		}
	}
}
