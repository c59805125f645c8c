package interview

import (
	"slices"
	"strconv"

	"example.com/plumbline/internal/certificate"
	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/scenario"
	"example.com/plumbline/internal/words"
)

// WhatIf is a short conversation about one thing that may happen: a raise, other
// hours, a job that ends or begins, a baby, a wedding, more for retirement.
// Nothing of it is kept among the answers. When it has no question left,
// Comparison has what would change.
type WhatIf struct {
	s       *Session
	base    certificate.Result
	answers []string // to the questions so far, in order
}

// WhatIf begins a conversation about what may happen. It fails while the
// answers have no result of their own.
func (s *Session) WhatIf() (*WhatIf, error) {
	base, err := s.Result()
	if err != nil {
		return nil, err
	}
	return &WhatIf{s: s, base: base}, nil
}

// What may happen, by the values of the first question.
const (
	aRaise         = "raise"
	otherHours     = "hours"
	jobEnds        = "ends"
	jobBegins      = "begins"
	aBaby          = "baby"
	aWedding       = "marriage"
	moreRetirement = "retirement"
)

// Question is the question to ask next; false when there is none left.
func (w *WhatIf) Question() (Question, bool) {
	at, ok := w.step()
	if !ok {
		return Question{}, false
	}
	q := w.s.question(at)
	q.Chapter = w.s.walk.phrase("what_if")
	return q, true
}

// Answer takes the answer to the question asked, or says how to give it.
func (w *WhatIf) Answer(text string) error {
	at, ok := w.step()
	if !ok {
		return nil
	}
	read, err := at.read(text, w.s.env.Today, w.base.TaxYear)
	if err != nil {
		return err
	}
	switch {
	case at.key == whatIfKeys+"last_day" || at.key == whatIfKeys+"first_day":
		if day := answer(read).day(); day.Before(w.s.env.Today) || day.Year > w.base.TaxYear+1 {
			return words.Fail("interview.error.what_if_day", "day", day, "today", w.s.env.Today, "year", w.base.TaxYear+1)
		}
	case at.wording.Per == perWeekHours && !answer(read).amount().IsPositive():
		return words.Fail("interview.error.what_if_hours")
	}
	w.answers = append(w.answers, read)
	return nil
}

// Back takes the last answer back; false when there is none.
func (w *WhatIf) Back() bool {
	if len(w.answers) == 0 {
		return false
	}
	w.answers = w.answers[:len(w.answers)-1]
	return true
}

// step is the question to ask next, by the answers so far.
func (w *WhatIf) step() (*step, bool) {
	names := w.questions()
	if len(w.answers) >= len(names) {
		return nil, false
	}
	name := names[len(w.answers)]
	key := whatIfKeys + name
	at := &step{id: key, key: key, lang: w.s.walk.lang, wording: script().whatIf(name), chapter: yourWish, least: 1, most: 100}
	switch {
	case name == "kind":
		at.offer = w.possible()
	case name == "job":
		at.wording, at.labels = w.listing(at.wording, nil)
	case name == "which":
		at.wording, at.labels = w.listing(at.wording, w.earnersOfSeveral())
	case at.wording.Per == perWeekHours:
		at.most = hoursInAWeek
		if label := w.s.walk.groups["jobs["+strconv.Itoa(w.picked()[0])+"]"]; name == "hours_now" {
			at.suggest, _ = w.s.doc.Get("interview." + label + "_hours")
		}
	}
	return at, true
}

// listing is the wording of a question whose options are the person's own jobs,
// before those of its own that apply, with what each is called.
func (w *WhatIf) listing(asked *wording, own []string) (*wording, map[string]string) {
	with, labels := *asked, make(map[string]string)
	with.Options = nil
	for _, i := range w.wageJobs() {
		value := strconv.Itoa(i + 1)
		with.Options = append(with.Options, value)
		labels[value] = words.Capital(w.base.Household.JobName(i))
	}
	with.Options = append(with.Options, own...)
	return &with, labels
}

// questions are the questions of the conversation, up to where the answers so far
// decide them.
func (w *WhatIf) questions() []string {
	names := []string{"kind"}
	if len(w.answers) == 0 {
		return names
	}
	several := len(w.wageJobs()) > 1
	add := func(when bool, name string) {
		if when {
			names = append(names, name)
		}
	}
	switch w.answers[0] {
	case jobEnds:
		add(several, "which")
		return append(names, "last_day")
	case jobBegins:
		add(w.base.Household.Joint(), "whose")
		return append(names, "new_pay", "frequency", "first_day")
	case aBaby:
		return append(names, "birth")
	case aWedding:
		return append(names, "spouse_pay")
	}
	add(several, "job")
	switch w.answers[0] {
	case aRaise:
		return append(names, "raise")
	case otherHours:
		return append(names, "hours_now", "hours_then")
	}
	return append(names, "share")
}

// possible are the things that may happen to this household.
func (w *WhatIf) possible() []string {
	var all []string
	if len(w.wageJobs()) > 0 {
		all = append(all, jobEnds, jobBegins, otherHours, aRaise, moreRetirement)
	} else {
		all = append(all, jobBegins)
	}
	all = append(all, aBaby)
	switch w.base.Household.Status {
	case household.Single, household.HeadOfHousehold, household.QualifyingSurvivingSpouse:
		all = append(all, aWedding)
	}
	return all
}

// wageJobs are the jobs with paychecks still to come, as indexes.
func (w *WhatIf) wageJobs() []int {
	h := w.base.Household
	return slices.DeleteFunc(h.CountedJobs(), func(i int) bool {
		j := h.Jobs[i]
		return j.Kind != household.Wages || len(j.PaydaysAfter(h.TaxYear, h.AsOf)) == 0
	})
}

// jobsOf are such jobs of one earner.
func (w *WhatIf) jobsOf(who household.Earner) []int {
	return slices.DeleteFunc(w.wageJobs(), func(i int) bool { return w.base.Household.Jobs[i].Earner != who })
}

// earnersOfSeveral are the earners who have several such jobs, as options.
func (w *WhatIf) earnersOfSeveral() []string {
	var all []string
	for _, who := range []household.Earner{household.OfSelf, household.OfSpouse} {
		if len(w.jobsOf(who)) > 1 {
			all = append(all, who.String())
		}
	}
	return all
}

// given is the answer to one of the conversation's questions.
func (w *WhatIf) given(name string) answer {
	if i := slices.Index(w.questions(), name); i >= 0 && i < len(w.answers) {
		return answer(w.answers[i])
	}
	return ""
}

// Comparison is what would change, once every question is answered: the result
// as things are beside the result then, and what would happen in a few words.
func (w *WhatIf) Comparison() (c scenario.Comparison, what string, err error) {
	then, err := certificate.Solve(w.household(), w.s.y.now, w.s.y.next)
	if err != nil {
		return c, "", err
	}
	_ = then.Choose(w.base.Recommended.Name) // the plan chosen, where there is one then
	return scenario.Compare(w.base, then), w.said(), nil
}

// said is what would happen in a few words.
func (w *WhatIf) said() string {
	names := w.questions()
	last := step{wording: script().whatIf(names[len(names)-1]), lang: w.s.walk.lang}
	shown := last.shown(w.answers[len(names)-1], nil)
	var jobs []string
	for _, i := range w.picked() {
		jobs = append(jobs, w.base.Household.JobName(i))
	}
	values := []any{"answer", shown}
	switch w.answers[0] {
	case jobEnds:
		values = append(values, "jobs", jobs, "n", len(jobs))
	case jobBegins:
		values = append(values, "pay", w.given("new_pay").amount())
	case otherHours:
		values = append(values, "job", jobs[0], "now", string(w.given("hours_now")))
	case aRaise, moreRetirement:
		values = append(values, "job", jobs[0])
	}
	return w.s.walk.phrase("what_if_"+w.answers[0], values...)
}

// picked are the jobs that it happens to, as indexes: the only one where no job
// was asked for.
func (w *WhatIf) picked() []int {
	picked := w.given("job")
	if !picked.given() {
		picked = w.given("which")
	}
	switch who, n := string(picked), picked.whole(); {
	case n > 0:
		return []int{n - 1}
	case who == household.OfSelf.String():
		return w.jobsOf(household.OfSelf)
	case who == household.OfSpouse.String():
		return w.jobsOf(household.OfSpouse)
	}
	return w.wageJobs()
}

// household is the household if it happens.
func (w *WhatIf) household() household.Household {
	h := w.base.Household
	percent := func(name string) money.Rate { return money.Percent(int64(w.given(name).whole())) }
	switch w.answers[0] {
	case aRaise:
		return scenario.WithRaise(h, w.picked()[0], percent("raise"))
	case otherHours:
		return scenario.WithHours(h, w.picked()[0], w.given("hours_now").amount(), w.given("hours_then").amount())
	case jobEnds:
		return scenario.WithJobsEnded(h, w.given("last_day").day(), w.picked()...)
	case jobBegins:
		return scenario.WithNewJob(h, w.newJob())
	case aBaby:
		return scenario.WithBaby(h, w.given("birth").day())
	case aWedding:
		return scenario.WithMarriage(h, household.Person{}, w.spouseJobs()...)
	}
	return scenario.WithMoreRetirement(h, w.picked()[0], percent("share"))
}

// newJob is the job that begins, whose payroll has no form yet.
func (w *WhatIf) newJob() household.Job {
	j := household.Job{
		Name:        words.Capital(w.s.walk.phrase("new_job")),
		TaxablePay:  w.given("new_pay").amount(),
		FirstPayday: w.given("first_day").day(),
	}
	if w.given("whose").is(household.OfSpouse.String()) {
		j.Earner, j.Name = household.OfSpouse, words.Capital(w.s.walk.phrase("spouse_new_job"))
	}
	_ = j.Frequency.UnmarshalText([]byte(w.given("frequency"))) // one of those offered
	return j
}

// spouseJobs is the job that a spouse would bring, paid by the month the whole
// year with the filing status alone on its certificate; none without pay.
func (w *WhatIf) spouseJobs() []household.Job {
	pay, err := money.Parse(string(w.given("spouse_pay")))
	if err != nil || !pay.IsPositive() {
		return nil
	}
	return []household.Job{{
		Name:        words.Capital(w.s.walk.phrase("spouse_job")),
		Frequency:   household.Monthly,
		TaxablePay:  pay,
		FirstPayday: household.On(w.base.TaxYear, 1, 31),
		Certificate: &household.Certificate{},
	}}
}
