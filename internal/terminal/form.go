package terminal

import (
	"errors"
	"slices"

	tea "github.com/charmbracelet/bubbletea"

	"example.com/plumbline/internal/interview"
)

// form are questions to be asked by the page: the interview, or one of the front
// end's own.
type form interface {
	// Question is the question that is due; its page is shown.
	Question() (interview.Question, bool)
	Page() []interview.Question
	// FillIn takes the answers to a page that are there, AnswerPage those to
	// the rest of it; the error is an interview.PageError where it belongs to one
	// of the questions.
	FillIn(answers map[string]string) error
	AnswerPage(answers map[string]string) error
	BackPage() bool
}

// single are questions of which each has a page of its own.
type single struct{ questions }

// Page implements form.
func (s single) Page() []interview.Question {
	q, more := s.Question()
	if !more {
		return nil
	}
	return []interview.Question{q}
}

// FillIn implements form. A page of one question is filled in when it is
// answered.
func (s single) FillIn(answers map[string]string) error { return s.AnswerPage(answers) }

// AnswerPage implements form.
func (s single) AnswerPage(answers map[string]string) error {
	q, _ := s.Question()
	return s.Answer(answers[q.Key])
}

// BackPage implements form.
func (s single) BackPage() bool { return s.Back() }

// setPage shows a page of questions, with the cursor at the one of a key. What
// has been typed and not been answered yet stays in its field.
func (m *model) setPage(page []interview.Question, key string) {
	was := m.fields
	m.fields = nil
	for _, q := range page {
		f := newField(q, m.style, m.voice, m.questionWidth())
		if i := slices.IndexFunc(was, func(w *field) bool { return w.touched && w.question.Key == q.Key }); i >= 0 {
			f.takeOver(was[i])
		}
		m.fields = append(m.fields, f)
	}
	m.field = m.fields[max(slices.IndexFunc(page, func(q interview.Question) bool { return q.Key == key }), 0)]
}

// at is the place of the cursor's field on the page.
func (m *model) at() int { return slices.Index(m.fields, m.field) }

// move goes to another field of the page, and reports whether there is one.
func (m *model) move(by int) bool {
	to := m.at() + by
	if to < 0 || to >= len(m.fields) {
		return false
	}
	m.field, m.message, m.helping, m.scroll = m.fields[to], "", false, 0
	return true
}

// up goes one question back: to the field above; above the first one is the last
// of the page before.
func (m *model) up() {
	if m.move(-1) {
		return
	}
	beside := m.aside != nil || m.opened
	m.back()
	left := beside && m.aside == nil && !m.opened // for where the person was
	if m.message == "" && m.view == asking && !left {
		m.field = m.fields[len(m.fields)-1]
	}
}

// enter takes what is in the field, and all that is above it on the page.
// The next field follows; after the last one, the next page.
func (m *model) enter() tea.Cmd {
	m.message, m.unmarked = "", ""
	if m.field.nothingMarked() {
		m.unmarked = m.field.question.Key
	}
	if err := m.field.confirm(); err != nil {
		m.field.wrong = m.fault(err)
		return nil
	}
	if m.opened {
		return m.answered(m.answerOpened())
	}
	at, key := m.at(), m.field.question.Key
	answers := given(m.fields[:at+1])
	if at == len(m.fields)-1 {
		return m.answered(m.current().AnswerPage(answers))
	}
	if err := m.current().FillIn(answers); err != nil {
		return m.answered(err)
	}
	for _, f := range m.fields[:at+1] {
		f.touched = false
	}
	page := m.current().Page()
	next := slices.IndexFunc(page, func(q interview.Question) bool { return q.Key == key }) + 1
	switch {
	case next == 0: // the page is done
		return m.answered(nil)
	case next == len(page) && !page[next-1].Again: // the rest of it has become needless
		return m.answered(m.current().AnswerPage(map[string]string{key: answers[key]}))
	}
	if page[next-1].Again { // it is hard to believe, and asked for again
		next--
	}
	m.save()
	m.refresh()
	m.field = m.fields[next]
	return nil
}

// given are the answers in fields, by the keys of their questions.
func given(fields []*field) map[string]string {
	answers := make(map[string]string)
	for _, f := range fields {
		if text, ok := f.answer(); ok {
			answers[f.question.Key] = text
		}
	}
	return answers
}

// answerOpened answers the one question that was opened by itself.
func (m *model) answerOpened() error {
	text, _ := m.field.answer()
	err := m.sitting.Session.Answer(text)
	m.opened = err != nil
	return err
}

// answered goes on after a page has been answered, or tells what is wrong at its
// fields.
func (m *model) answered(err error) tea.Cmd {
	if err != nil {
		m.tellMistakes(err)
		return nil
	}
	if m.aside != nil {
		if _, more := m.aside.Question(); !more {
			m.aside = nil
		}
	}
	m.fields = nil
	m.save()
	m.refresh()
	if _, more := m.main.Question(); !more && m.sitting == nil {
		return tea.Quit
	}
	return nil
}

// tellMistakes notes what is wrong at each field and goes to the first of them.
func (m *model) tellMistakes(err error) {
	var wrong interview.PageError
	if !errors.As(err, &wrong) {
		m.field.wrong = m.fault(err)
		return
	}
	var first *field
	for _, f := range m.fields {
		if why := wrong[f.question.Key]; why != nil {
			f.wrong = m.fault(why)
			if first == nil {
				first = f
			}
		}
	}
	if first != nil {
		m.field = first
	} else {
		m.message = m.fault(err)
	}
}
