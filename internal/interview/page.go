package interview

import (
	"maps"
	"strings"

	"example.com/plumbline/internal/words"
)

// A page is a few related questions that can be shown as one short form: a
// stub's payday, pay and tax. A front end that shows one question at a time
// passes the pages over; both ways lead to the same answers.

// mostOnPage is how many questions a page has at most, so that it fits the
// smallest terminal.
const mostOnPage = 6

// together has the questions that f puts belong to one page.
func (w *walk) together(page string, f func()) {
	was := w.page
	w.page = page
	f()
	w.page = was
}

// Page is the questions to show together: the one that Question gives and those
// around it that belong to the same page, answered ones with their answers. It
// is empty when every question is answered.
func (s *Session) Page() []Question {
	from, to := s.pageAt(s.position())
	var page []Question
	for i := from; i < to; i++ {
		page = append(page, s.question(&s.walk.steps[i]))
	}
	return page
}

// pageAt is the range of the steps on the page of a step.
func (s *Session) pageAt(i int) (from, to int) {
	steps := s.walk.steps
	if i >= len(steps) {
		return i, i
	}
	from, to = i, i+1
	if steps[i].page == "" {
		return from, to
	}
	for from > 0 && steps[from-1].page == steps[i].page {
		from--
	}
	for to < len(steps) && steps[to].page == steps[i].page {
		to++
	}
	from += (i - from) / mostOnPage * mostOnPage
	return from, min(to, from+mostOnPage)
}

// PageError is what is wrong with a page, by the key of the question.
type PageError map[string]error

// Error names every question's error, in no particular order.
func (e PageError) Error() string {
	var all []string
	for _, err := range e {
		all = append(all, err.Error())
	}
	return strings.Join(all, "\n")
}

// AnswerPage takes the answers to the page shown, by the keys of its questions,
// and moves on. A question that an answer of the same page makes needless is
// passed over; one left out keeps the answer that it has. The error is a
// PageError; nothing is changed then.
func (s *Session) AnswerPage(answers map[string]string) error {
	from, to := s.pageAt(s.position())
	if from == to {
		return errNothingToAnswer()
	}
	tried, last, err := s.tryPage(from, to, answers, true)
	switch {
	case err != nil:
		return err
	case last == "":
		s.Resume()
	default:
		s.take(tried, s.walk.steps[from:to], last)
	}
	return nil
}

// FillIn takes answers to some questions of the page shown, by their keys, and
// stays on the page while any of its questions is open. Page is then what the
// answers have made of it. The error is a PageError; nothing is changed then.
func (s *Session) FillIn(answers map[string]string) error {
	from, to := s.pageAt(s.position())
	if from == to {
		return errNothingToAnswer()
	}
	tried, last, err := s.tryPage(from, to, answers, false)
	if err != nil || last == "" {
		return err
	}
	s.replace(tried, s.walk.steps[from:to])
	return nil
}

// tryPage is the session with answers to the steps of a page, and the id of the
// last one answered. Where the whole page is wanted, an open question without an
// answer is a mistake.
func (s *Session) tryPage(from, to int, answers map[string]string, whole bool) (tried *Session, last string, err error) {
	t, wrong := s, PageError{}
	for _, at := range s.walk.steps[from:to] {
		i, asked := t.walk.place[at.id]
		if !asked {
			continue
		}
		now := &t.walk.steps[i]
		text, given := answers[at.key]
		if !given && (!whole || !now.open()) {
			continue
		}
		next, err := t.answered(now, text)
		if err != nil {
			wrong[at.key] = err
			continue
		}
		t, last = next, at.id
	}
	if len(wrong) > 0 {
		return nil, "", wrong
	}
	return t, last, nil
}

// BackPage goes to the page before the one shown, as Back goes to the question
// before. It reports false on the first page.
func (s *Session) BackPage() bool {
	from, _ := s.pageAt(s.position())
	if from == 0 {
		return false
	}
	from, _ = s.pageAt(s.stepBefore(from))
	s.goTo(from)
	_ = s.doc.Set(forwardKey, "true")
	return true
}

// answered is the session with a question answered by what was typed or chosen,
// or what is wrong with that.
func (s *Session) answered(at *step, text string) (*Session, error) {
	read, err := at.read(text, s.env.Today, s.walk.y.Year)
	if err != nil {
		return nil, err
	}
	switch {
	case read == Unknown && at.takesUnknown():
	case at.wording.Kind == Day:
		err = s.checkDay(at, answer(read).day())
	case at.wording.MonthDay:
		err = s.checkDaysOfMonth(at, read)
	case at.wording.Kind == Amount:
		err = s.checkAmount(at, answer(read).amount())
	}
	if err != nil {
		return nil, err
	}
	tried, err := s.with(at, read)
	if year, amount, typed := at.careOfYear(text); typed {
		tried, err = s.withYear(at, year, amount)
	}
	if err != nil {
		return nil, words.Fail("interview.error.not_written", "why", err)
	}
	if err := tried.disagreement(s, at); err != nil {
		return nil, err
	}
	return tried, nil
}

// take goes over to the session after answers to steps, the last of which is
// named, and moves on from it.
func (s *Session) take(tried *Session, steps []step, last string) {
	stepwise := s.doc.Has(forwardKey)
	s.replace(tried, steps)
	s.goOn(last, stepwise)
}

// replace goes over to the session after answers to steps.
func (s *Session) replace(tried *Session, steps []step) {
	if s.asked == nil {
		s.asked = make(map[string]bool)
	}
	for _, at := range steps {
		if at.open() {
			s.asked[at.id] = true
		}
	}
	for _, at := range steps {
		was, _ := s.doc.Get(at.key)
		if is, _ := tried.doc.Get(at.key); was != is || at.again {
			toTell := tried.passedOver(s.walk)
			if s.Behind() { // what is still to be told has not been seen there
				maps.Copy(toTell, idList(s.doc, toTellKey))
			}
			setIDList(tried.doc, toTellKey, toTell)
			break
		}
	}
	*s.doc = *tried.doc
	s.walk, s.result = tried.walk, cached{}
}

func errNothingToAnswer() error {
	return words.Fail("interview.error.nothing_to_answer")
}
