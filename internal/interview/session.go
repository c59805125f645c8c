// Package interview is the conversation that fills an answers file: what to
// ask next, what an answer changes, which earlier answers stop counting, and
// the certificate as it is meanwhile. It knows no terminal; a front end
// shows Question, passes what was typed to Answer, and saves Document. It holds
// no figure of the law and no wording: figures come from the yearly tables,
// every word from questions.yaml.
//
// The state of the interview is the answers file itself, nothing else, so that
// it can be left after any answer and resumed. Start at Start.
package interview

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/paystub"
	"example.com/plumbline/internal/tables"
	"example.com/plumbline/internal/words"
	"example.com/plumbline/internal/yamldoc"
)

// Env is what the interview needs of the world around it.
type Env struct {
	Today  household.Date
	Year   int // the tax year to answer for; 0: that of Today
	Tables func(year int) (*tables.Year, error)
	// Language is what people are spoken to in; nil is English.
	Language *words.Language
}

func (e Env) language() *words.Language {
	if e.Language == nil {
		return words.English()
	}
	return e.Language
}

// forYear are the tables of the answers' year, and of the next where known.
type forYear struct {
	now, next *tables.Year
	fits      map[string][]paystub.Fit // found so far, by the figures of the stub
}

// Session is one sitting at an answers file.
type Session struct {
	env    Env
	doc    *yamldoc.Document
	y      *forYear
	walk   *walk
	result cached
	asked  map[string]bool // ids of the questions answered in this sitting that were open
}

// Start begins an interview, or goes on with one: at the place the person went
// back to, else at the first question without an answer. Answers that were
// complete on an earlier day are asked for what has changed since. The document
// is changed in place; nil begins a new one.
//
// It fails when there are no tables for the year.
func Start(doc *yamldoc.Document, env Env) (*Session, error) {
	if doc == nil {
		doc = yamldoc.New("answers")
	}
	if env.Year == 0 {
		env.Year = env.Today.Year
	}
	s := &Session{env: env, doc: doc}
	if _, ok := doc.Get("format"); !ok {
		_ = doc.Set("format", strconv.Itoa(household.Format))
	}
	if _, ok := doc.Get("tax_year"); !ok {
		_ = doc.Set("tax_year", strconv.Itoa(env.Year))
	}
	if err := s.openYear(); err != nil {
		return nil, err
	}
	s.upgradeLog()
	if doc.Has("filing_status") && !doc.Has(logName) {
		s.infer()
	}
	s.upgradeAnswers()
	s.settle()
	if s.lacksOnlyStates() {
		s.passOverStates()
	}
	s.returnIfLater()
	return s, nil
}

// openYear reads the tables of the answers' year.
func (s *Session) openYear() error {
	text, _ := s.doc.Get("tax_year")
	year, err := strconv.Atoi(text)
	if err != nil {
		return fmt.Errorf("tax_year: %q is not a year; write it like %d", clip(text), s.env.Today.Year)
	}
	now, err := s.env.Tables(year)
	if err != nil {
		return err
	}
	s.y = &forYear{now: now, fits: make(map[string][]paystub.Fit)}
	if next, err := s.env.Tables(year + 1); err == nil {
		s.y.next = next
	}
	return nil
}

// Speak goes on in another language; no answer changes.
func (s *Session) Speak(l *words.Language) {
	s.env.Language = l
	s.changed()
}

// Document is the answers file as it is; save it after every answer.
func (s *Session) Document() *yamldoc.Document { return s.doc }

// Household is the household that the answers describe. While questions are
// open it may lack what a computation needs; the error then names all of it.
func (s *Session) Household() (household.Household, error) {
	var h household.Household
	if problems := s.doc.Decode(&h); len(problems) > 0 {
		return household.Household{}, problems
	}
	return h, nil
}

// position is the index of the question to show; the number of questions when
// all are answered.
func (s *Session) position() int {
	if at, ok := s.doc.Get(atKey); ok {
		if i, asked := s.walk.place[at]; asked {
			return i
		}
	}
	return s.firstOpen()
}

// firstOpen is the index of the first question without an answer; the number of
// questions when all are answered.
func (s *Session) firstOpen() int {
	for i := range s.walk.steps {
		if s.walk.steps[i].open() {
			return i
		}
	}
	return len(s.walk.steps)
}

// Question is the question to show. It reports false when everything that
// matters is answered: then the results are due.
func (s *Session) Question() (Question, bool) {
	i := s.position()
	if i == len(s.walk.steps) {
		return Question{}, false
	}
	return s.question(&s.walk.steps[i]), true
}

// Verdict is what the last answers led to, when no question is left to show it
// with; empty when there is nothing to say.
func (s *Session) Verdict() string { return s.told(nil, s.walk.notices) }

// told are the notices to show before a question, the first open one where it
// is nil: those of its own, after those that an answer brought and that belong
// to questions answered already.
func (s *Session) told(at *step, own []notice) string {
	var texts []string
	if open := s.firstOpen(); at == nil || open < len(s.walk.steps) && at.id == s.walk.steps[open].id {
		pending := idList(s.doc, toTellKey)
		for i := range s.walk.steps {
			for _, n := range s.walk.steps[i].notices {
				if pending[n.id] && !slices.Contains(own, n) {
					texts = append(texts, n.text)
				}
			}
		}
	}
	for _, n := range own {
		texts = append(texts, n.text)
	}
	return strings.Join(texts, "\n")
}

// passedOver are the ids of the notices that an answer brought and that are
// with questions answered already, so that the next open question must tell
// them.
func (s *Session) passedOver(before *walk) map[string]bool {
	next, said, ids := s.firstOpen(), before.said(), make(map[string]bool)
	for i := range s.walk.steps {
		if i == next || s.walk.steps[i].open() {
			continue
		}
		for _, n := range s.walk.steps[i].notices {
			if !slices.Contains(said, n) {
				ids[n.id] = true
			}
		}
	}
	return ids
}

// question puts a step into words.
func (s *Session) question(at *step) Question {
	w := at.wording
	text := func(part string) string { return s.walk.ofQuestion(at, part) }
	q := Question{
		Key: at.key, Chapter: s.chapterTitle(at.chapter), About: words.Capital(at.about.name),
		Label: text("label"), Text: text("text"), Why: text("why"), Where: text("where"), FormLine: s.formLine(w.Line),
		Kind: w.Kind, Hours: w.Per == perWeekHours, Month: w.Month, Default: w.Default, DefaultReason: text("default_reason"),
		Notice: s.told(at, at.notices),
	}
	if at.takesUnknown() {
		q.IfUnknown = text("unknown")
	}
	for _, o := range at.listed() {
		label := at.labels[o]
		if label == "" {
			label = text("option." + o)
		}
		q.Options = append(q.Options, Option{o, label, text("help." + o)})
	}
	if w.Kind == YesNo {
		q.Options = []Option{{"true", s.walk.phrase("yes"), ""}, {"false", s.walk.phrase("no"), ""}}
		if at.takesUnknown() {
			q.Options = append(q.Options, Option{Unknown, s.walk.phrase("not_known"), ""})
		}
	}
	if at.suggest != "" {
		q.Default = at.suggest
	}
	switch {
	case q.Default == "":
		q.DefaultReason = ""
	case at.follows && q.DefaultReason != "":
		q.DefaultReason = s.walk.phrase("follows") // not the reason of the usual default
	}
	if !at.follows && !at.stale {
		q.Answer, q.Again = s.earlier(at)
	}
	q.Default, q.Answer = at.asTyped(q.Default), at.asTyped(q.Answer)
	return q
}

// formLine is the line of the form that a question bears on, as people read it.
func (s *Session) formLine(line string) string {
	steps, ok := strings.CutPrefix(line, "Step ")
	switch {
	case line == "":
		return ""
	case !ok:
		return s.walk.phrase("form_exempt") // the one line that is no step
	}
	list := strings.Split(steps, ", ")
	return s.walk.phrase("form_step", "n", len(list), "steps", list)
}

func (s *Session) chapterTitle(n int) string {
	return s.walk.word("interview.chapter."+script().Chapters[n], group{})
}

// earlier is the answer given earlier to a question, and whether it must be
// confirmed: the one in the file, else one kept while it did not apply.
func (s *Session) earlier(at *step) (text string, again bool) {
	if at.set {
		return string(s.walk.answered(at)), at.again
	}
	if text, kept := s.doc.Get(s.walk.keptAt(at.id)); kept && at.accepts(text) {
		return string(at.offered(text)), true
	}
	return "", false
}

// Answer takes what was typed or chosen as the answer to the question shown,
// and moves on to the next one without an answer. The error says what is wrong
// and how to answer; nothing is changed then.
func (s *Session) Answer(text string) error {
	i := s.position()
	if i == len(s.walk.steps) {
		return errNothingToAnswer()
	}
	at := s.walk.steps[i]
	tried, err := s.answered(&at, text)
	if err != nil {
		return err
	}
	s.take(tried, []step{at}, at.id)
	return nil
}

// goOn moves on from a question just answered: to the first open one, or, where
// the person went back step by step, to the one after it.
func (s *Session) goOn(id string, stepwise bool) {
	s.Resume()
	i, asked := s.walk.place[id]
	i++
	for i < s.firstOpen() && !s.walkedBack(i) {
		i++
	}
	if asked && stepwise && i < s.firstOpen() {
		_ = s.doc.Set(atKey, s.walk.steps[i].id)
		_ = s.doc.Set(forwardKey, "true")
	}
}

// with is the session with a question answered, as a copy.
func (s *Session) with(at *step, text string) (*Session, error) {
	t := &Session{env: s.env, y: s.y, doc: s.doc.Clone(), walk: s.walk}
	was, _ := t.doc.Get(at.key)
	text = at.withHidden(text, was)
	if at.takesUnknown() && text == Unknown {
		t.doc.Delete(at.key)
	} else if err := t.doc.Set(at.key, text); err != nil {
		return nil, err
	}
	t.setNotKnown(at.id, text == Unknown && at.takesUnknown())
	t.doc.Delete(t.walk.keptAt(at.id))
	if text != was {
		t.doc.Delete(planKey) // it was chosen for other answers
	}
	t.reopen(false, at.id)
	t.follow(at, was, text)
	t.settle()
	if doubted := t.newlyDoubted(s, at.id, text != was); len(doubted) > 0 {
		t.reopen(true, doubted...)
		t.settle()
	}
	return t, nil
}

// newlyDoubted are the ids of the questions whose answers are hard to believe
// since a question was answered: its own where its answer is another one, and
// those that were not doubted before.
func (s *Session) newlyDoubted(before *Session, answered string, changed bool) []string {
	var ids []string
	for id := range s.walk.doubted {
		if id == answered && changed || id != answered && !before.walk.doubted[id] {
			ids = append(ids, id)
		}
	}
	return ids
}

// setNotKnown notes whether a question was answered by Unknown.
func (s *Session) setNotKnown(id string, yes bool) {
	ids := idList(s.doc, notKnownKey)
	if ids[id] == yes {
		return
	}
	delete(ids, id)
	if yes {
		ids[id] = true
	}
	setIDList(s.doc, notKnownKey, ids)
}

// changed settles the file after a change and forgets what was worked out.
func (s *Session) changed() {
	s.settle()
	s.result = cached{}
}

// Back goes to the question before the one shown; where the person has come back on
// a later day, to the one before that was asked since. Its answer stays until
// another is given; from there Answer goes forward one question at a time, and
// Resume skips to the end. It reports false at the first question.
func (s *Session) Back() bool {
	i := s.position()
	if i == 0 {
		return false
	}
	s.goTo(s.stepBefore(i))
	_ = s.doc.Set(forwardKey, "true")
	return true
}

// stepBefore is the index of the step to which one goes back from another: the one
// before it, of those that a person who came back has been asked, if any.
func (s *Session) stepBefore(i int) int {
	for before := i - 1; before >= 0; before-- {
		if s.walkedBack(before) {
			return before
		}
	}
	return i - 1
}

// walkedBack reports a step that going back and forward stops at: in a sitting on a
// later day, only what that day has asked.
func (s *Session) walkedBack(i int) bool {
	return s.walk.returned().IsZero() || s.asked[s.walk.steps[i].id]
}

// Behind reports that the question shown is one that the person went back to,
// so that Resume has something to skip.
func (s *Session) Behind() bool { return s.position() < s.firstOpen() }

// GoTo goes to a question, by the key that Review gives; once it is answered the
// interview is where it was before. It reports false when
// the question does not apply or comes after one that is still open.
func (s *Session) GoTo(key string) bool {
	for i := range s.walk.steps {
		if s.walk.steps[i].key == key {
			s.goTo(i)
			return true
		}
		if s.walk.steps[i].missing() {
			return false
		}
	}
	return false
}

func (s *Session) goTo(i int) {
	s.Resume()
	if s.position() != i {
		_ = s.doc.Set(atKey, s.walk.steps[i].id)
	}
}

// Resume goes on with the first question without an answer, when the person
// went back or to the review and changes nothing.
func (s *Session) Resume() {
	s.doc.Delete(atKey)
	s.doc.Delete(forwardKey)
}

// Review is every question that applies with its answer, in order.
func (s *Session) Review() []Answered {
	all := make([]Answered, len(s.walk.steps))
	for i := range s.walk.steps {
		at := &s.walk.steps[i]
		q := s.question(at)
		all[i] = Answered{Key: at.key, Chapter: q.Chapter, About: q.About, Label: q.Label, Open: at.open()}
		if q.Answer != "" {
			all[i].Answer = at.shown(q.Answer, q.Options)
		}
	}
	return all
}

// Progress is how far the interview is.
func (s *Session) Progress() Progress {
	here := len(script().Chapters)
	if i := s.position(); i < len(s.walk.steps) {
		here = s.walk.steps[i].chapter
	}
	var p Progress
	for n := range script().Chapters {
		c := Chapter{Title: s.chapterTitle(n)}
		for i := range s.walk.steps {
			if at := &s.walk.steps[i]; at.chapter == n && at.open() {
				c.Open++
			} else if at.chapter == n {
				c.Answered++
			}
		}
		switch {
		case n == here:
			c.State = Current
		case n < here && c.Open == 0, s.walk.blank && c.Open == 0 && n > whatElse:
			c.State = Done
		}
		if c.State == Done && c.Answered == 0 {
			continue // nothing was to be asked there
		}
		if c.State == Done {
			p.Done++
		} else {
			p.Left++
		}
		p.Chapters = append(p.Chapters, c)
	}
	return p
}
