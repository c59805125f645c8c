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

// WhatIf is a short conversation about one thing that may happen: a raise, a
// spouse who stops working, a baby, a wedding, more for retirement. Nothing of
// it is kept among the answers. When it has no question left, Comparison has
// what would change.
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
	workStops      = "stops"
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
	at := &step{id: "what_if." + name, key: "what_if." + name, lang: w.s.walk.lang, wording: script().whatIf(name), chapter: yourWish, least: 1, most: 100}
	switch name {
	case "kind":
		at.offer = w.possible()
		if !w.base.Household.Joint() {
			at.labels = map[string]string{workStops: w.s.walk.phrase("what_if_i_stop")}
		}
	case "job":
		// The jobs are no options of the wording: they are the person's own.
		asked := *at.wording
		at.labels = make(map[string]string)
		for _, i := range w.wageJobs() {
			value := strconv.Itoa(i + 1)
			asked.Options = append(asked.Options, value)
			at.labels[value] = words.Capital(w.base.Household.JobName(i))
		}
		at.wording = &asked
	}
	return at, true
}

// questions are the questions of the conversation, up to where the answers so far
// decide them.
func (w *WhatIf) questions() []string {
	names := []string{"kind"}
	if len(w.answers) == 0 {
		return names
	}
	job := func() {
		if len(w.wageJobs()) > 1 {
			names = append(names, "job")
		}
	}
	switch w.answers[0] {
	case aRaise:
		job()
		return append(names, "raise")
	case workStops:
		if len(w.workers()) > 1 {
			names = append(names, "who")
		}
		return append(names, "last_day")
	case aBaby:
		return append(names, "birth")
	case aWedding:
		return append(names, "spouse_pay")
	}
	job()
	return append(names, "share")
}

// possible are the things that may happen to this household.
func (w *WhatIf) possible() []string {
	var all []string
	if len(w.wageJobs()) > 0 {
		all = append(all, aRaise, moreRetirement, workStops)
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

// workers are the earners who have such jobs.
func (w *WhatIf) workers() []household.Earner {
	var all []household.Earner
	for _, i := range w.wageJobs() {
		if e := w.base.Household.Jobs[i].Earner; !slices.Contains(all, e) {
			all = append(all, e)
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
	last := step{wording: script().whatIf(w.questions()[len(w.answers)-1]), lang: w.s.walk.lang}
	what = w.s.walk.phrase("what_if_"+w.answers[0], "answer", last.shown(w.answers[len(w.answers)-1], nil))
	return scenario.Compare(w.base, then), what, nil
}

// household is the household if it happens.
func (w *WhatIf) household() household.Household {
	h := w.base.Household
	job := 0
	if jobs := w.wageJobs(); len(jobs) > 0 {
		job = jobs[0]
	}
	if picked, err := strconv.Atoi(string(w.given("job"))); err == nil {
		job = picked - 1
	}
	percent := func(name string) money.Rate {
		n, _ := strconv.Atoi(string(w.given(name)))
		return money.Percent(int64(n))
	}
	switch w.answers[0] {
	case aRaise:
		return scenario.WithRaise(h, job, percent("raise"))
	case workStops:
		who := w.workers()[0]
		if w.given("who") == "spouse" {
			who = household.OfSpouse
		} else if w.given("who") == "self" {
			who = household.OfSelf
		}
		return scenario.WithWorkStopped(h, who, w.given("last_day").day())
	case aBaby:
		return scenario.WithBaby(h, w.given("birth").day())
	case aWedding:
		return scenario.WithMarriage(h, household.Person{}, w.spouseJobs()...)
	}
	return scenario.WithMoreRetirement(h, job, percent("share"))
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
