package terminal

import (
	"path/filepath"
	"strings"

	"example.com/plumbline/internal/interview"
	"example.com/plumbline/internal/report"
	"example.com/plumbline/internal/words"
)

// place asks where the answers are to be kept.
type place struct {
	voice
	Place
	elsewhere bool // another file than the suggested one
	chosen    bool
	path      string
}

// Values of the first question of a place.
const (
	placeHere      = "here"
	placeElsewhere = "elsewhere"
	placeNowhere   = "nowhere"
)

// Question implements questions.
func (p *place) Question() (interview.Question, bool) {
	q := interview.Question{
		Chapter: p.say("screen.where.chapter"),
		Text:    p.say("screen.where.question"),
		Why:     p.say("screen.where.why"),
		Kind:    interview.Choice,
		Options: []interview.Option{
			{Value: placeHere, Label: p.say("screen.where.here", "file", p.Default)},
			{Value: placeElsewhere, Label: p.say("screen.where.elsewhere")},
			{Value: placeNowhere, Label: p.say("screen.where.nowhere"), Help: p.say("screen.where.nowhere_help")},
		},
		Default: placeHere,
		Notice:  p.say("screen.greeting"),
	}
	if p.There {
		q.Text = p.say("screen.where.again")
		q.Options[0] = interview.Option{Value: placeHere, Label: p.say("screen.where.go_on"), Help: p.say("screen.where.they_are", "file", p.Default)}
		q.Options[1].Label = p.say("screen.where.over")
		q.Options[2].Label = p.say("screen.where.over_nowhere")
	}
	if p.Problem != "" {
		q.Notice = p.Problem
	}
	if p.elsewhere {
		q.Kind, q.Options, q.Default, q.Notice = interview.Words, nil, "", ""
		q.Text = p.say("screen.where.which")
	}
	return q, !p.chosen
}

// Answer implements questions.
func (p *place) Answer(text string) error {
	switch {
	case p.elsewhere:
		if text == "" {
			return words.Fail("screen.no_file")
		}
		p.path, p.chosen = text, true
	case text == placeHere:
		p.path, p.chosen = p.Default, true
	case text == placeNowhere:
		p.chosen = true
	case text == placeElsewhere:
		p.elsewhere = true
	default:
		return words.Fail("interview.error.no_choice", "text", text)
	}
	return nil
}

// Back implements questions.
func (p *place) Back() bool {
	was := p.elsewhere
	p.elsewhere = false
	return was
}

// whatIf asks what may happen, and hands over the page that shows what it would
// change.
type whatIf struct {
	*interview.WhatIf
	voice
	found func(report.Page)
}

func newWhatIf(s *interview.Session, v voice, found func(report.Page)) (*whatIf, error) {
	asked, err := s.WhatIf()
	if err != nil {
		return nil, err
	}
	return &whatIf{asked, v, found}, nil
}

// Answer implements questions.
func (w *whatIf) Answer(text string) error {
	if err := w.WhatIf.Answer(text); err != nil {
		return err
	}
	if _, more := w.Question(); more {
		return nil
	}
	c, what, err := w.Comparison()
	if err != nil {
		w.Back()
		return err
	}
	w.found(report.In(w.language).Comparison(c, w.say("screen.what_if.now"), what))
	return nil
}

// request asks for a file to do something with.
type request struct {
	question func() interview.Question // as asked in the language of the moment
	do       func(path string) error
	done     bool
}

// Question implements questions.
func (r *request) Question() (interview.Question, bool) { return r.question(), !r.done }

// Answer implements questions.
func (r *request) Answer(text string) error {
	if text == "" {
		return words.Fail("screen.no_file")
	}
	if err := r.do(text); err != nil {
		return err
	}
	r.done = true
	return nil
}

// Back implements questions; there is nothing before.
func (r *request) Back() bool { return false }

// planRequest asks which plan to hand over.
func (v voice) planRequest(s Sitting, chosen func(plan string)) (*request, error) {
	if _, _, err := s.Session.Plans(); err != nil {
		return nil, err
	}
	ask := func() interview.Question {
		plans, now, _ := s.Session.Plans()
		q := interview.Question{
			Chapter: v.say("screen.results.title"),
			Text:    v.say("screen.plan.question"),
			Why:     v.say("screen.plan.why"),
			Kind:    interview.Choice,
			Options: plans,
		}
		if now == plans[0].Value {
			q.Default = now
		} else {
			q.Answer = now
		}
		return q
	}
	return &request{question: ask, do: func(plan string) error {
		if err := s.Session.Choose(plan); err != nil {
			return err
		}
		chosen(plan)
		return nil
	}}, nil
}

// writeRequest asks for the file to write the pages to.
func (v voice) writeRequest(s Sitting, told func(string)) *request {
	return &request{
		question: func() interview.Question {
			return interview.Question{
				Chapter: v.say("screen.results.title"),
				Text:    v.say("screen.write.question"),
				Why:     v.say("screen.write.why"),
				Kind:    interview.Words,
				Default: s.WriteTo,
			}
		},
		do: func(path string) error {
			if err := s.Write(path); err != nil {
				return err
			}
			done := v.say("screen.write.done", "file", path)
			if whole, err := filepath.Abs(path); err == nil && whole != path {
				done += " " + v.say("screen.write.folder", "folder", filepath.Dir(whole))
			}
			told(done)
			return nil
		},
	}
}

// fillRequest asks for the blank official form.
func (v voice) fillRequest(s Sitting, told func(string)) *request {
	return &request{
		question: func() interview.Question {
			return interview.Question{
				Chapter: v.say("screen.results.title"),
				Text:    v.say("screen.fill_form.question"),
				Why:     v.say("screen.fill_form.why"),
				Kind:    interview.Words,
			}
		},
		do: func(path string) error {
			written, notes, err := s.Fill(path)
			if err != nil {
				return err
			}
			done := append([]string{v.say("screen.fill_form.done", "files", written)}, notes...)
			told(strings.Join(done, " "))
			return nil
		},
	}
}

// tabs are the codes of the result pages' names in the head of the screen.
var tabs = map[report.Kind]string{
	report.AnswerPage: "answer", report.FormPage: "form", report.StepsPage: "steps", report.WhyPage: "why",
	report.JanuaryPage: "january", report.NextForm: "next_form", report.PlansPage: "plans", report.PaydaysPage: "paydays",
	report.StubPage: "stub", report.RestPage: "rest", report.Other: "other",
}
