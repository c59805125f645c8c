package terminal

import (
	"example.com/plumbline/internal/interview"
	"example.com/plumbline/internal/report"
)

// What the front ends say of their own; the interview's words stand in its
// questions.yaml. Plain ASCII, since the line-by-line front end says it too.
const (
	greeting = "Plumbline asks about pay, family and income, and works out what to write on the federal withholding certificate, Form W-4. " +
		"Nothing goes over a network. You are never asked for a social security number, so never type one. " +
		"The results are estimates, not tax or legal advice; the official form and its instructions decide."

	amountHint = "Dollars, like 1200 or 1200.50."
	wholeHint  = "A whole number, like 2."
	dayHint    = "A date, like 2026-06-15 or 6/15/2026."
	yesNoHint  = "The keys y and n answer at once."
	manyHint   = "Space marks each one that applies. Enter goes on."

	noneOfThese = "None of these"
	markFirst   = "Mark each one that applies with the space bar, then press Enter. If none does, go to \"None of these\" and press Enter."
	noneOrSome  = "\"None of these\" is marked, and something else too. Take one of them back with the space bar."

	firstQuestion = "This is the first question."
	openBefore    = "A question before this one is still open. Answer that one first."
	keptBefore    = "You gave this answer before. Enter keeps it."
	againBefore   = "You gave this answer earlier. Please look whether it still holds; Enter keeps it."
	suggested     = "Suggested: "
	onTheForm     = "On the form: "
	notSaved      = "The last answers are not saved: "
	noMoreHelp    = "There is no more to say about this question."

	whyTitle   = "Why this is asked"
	whereTitle = "Where to find it"

	draftTitle   = "Draft of the certificate"
	finalTitle   = "The certificate"
	draftOpen    = "?"
	draftEmpty   = "empty"
	draftLegend  = "All other steps are empty so far. ? can still change."
	draftShared  = "What else goes on the forms for your %d jobs comes at the end."
	finalLegend  = "All other steps stay empty."
	statusAlone  = "the filing status alone"
	moreSheets   = "and %d more"
	draftExempt  = "Exempt from withholding"
	reviewTitle  = "Your answers"
	resultsTitle = "Results"
	noticeTitle  = "Before the next question"
	stillOpen    = "not answered yet"
	moreAbove    = "more above"
	moreBelow    = "more below"
	tooSmall     = "Make the window larger, please."

	plainGreeting = "Type an answer and press Enter. These words work at every question: back, help, review, quit."
	plainWords    = "Type back for the question before, review for all answers, quit to save and stop."
	enterToQuit   = "Enter to quit"
	enterForMore  = "Enter for: "
	plainOffers   = "Type the number of a page to read it, change to change an answer, if to see what something would change, plan to hand over another plan, write to write these pages to a file, fill to fill in the official form, or quit."
	blankOffers   = "Type the number of a page to read it, change to change an answer, write to write these pages to a file, fill to fill in the official form, or quit."
	planChosen    = "The pages, the file and the filled form are now those of the plan "
	asThingsAre   = "the year as things are"

	filledHeading = "The official form is filled in"
	writtenTo     = "The pages are written to "
)

// place asks where the answers are to be kept.
type place struct {
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
		Chapter: "Your answers",
		Text:    "Where shall your answers be kept?",
		Why:     "They are written down after every question, so that you can stop at any time and go on later, and come back with a pay stub during the year. The file is readable by you alone. It holds amounts and dates, and no social security number.",
		Kind:    interview.Choice,
		Options: []interview.Option{
			{Value: placeHere, Label: "In " + p.Default},
			{Value: placeElsewhere, Label: "In another file"},
			{Value: placeNowhere, Label: "Nowhere", Help: "When you quit, everything is forgotten."},
		},
		Notice: greeting,
	}
	if p.There {
		q.Text = "There are answers from an earlier time. Go on with them?"
		q.Options[0] = interview.Option{Value: placeHere, Label: "Go on with them", Help: "They are in " + p.Default}
		q.Options[1].Label = "Begin anew in another file"
		q.Options[2].Label = "Begin anew, and keep nothing"
	}
	if p.Problem != "" {
		q.Notice = p.Problem
	}
	if p.elsewhere {
		q.Kind, q.Options, q.Notice = interview.Words, nil, ""
		q.Text = "Which file shall hold your answers?"
	}
	return q, !p.chosen
}

// Answer implements questions.
func (p *place) Answer(text string) error {
	switch {
	case p.elsewhere:
		if text == "" {
			return errNoFile
		}
		p.path, p.chosen = text, true
	case text == placeHere:
		p.path, p.chosen = p.Default, true
	case text == placeNowhere:
		p.chosen = true
	default:
		p.elsewhere = true
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
	writer report.Writer
	found  func(report.Page)
}

func newWhatIf(s *interview.Session, w report.Writer, found func(report.Page)) (*whatIf, error) {
	asked, err := s.WhatIf()
	if err != nil {
		return nil, err
	}
	return &whatIf{asked, w, found}, nil
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
	w.found(w.writer.Comparison(c, asThingsAre, what))
	return nil
}

// request asks for a file to do something with.
type request struct {
	question interview.Question
	do       func(path string) error
	done     bool
}

// Question implements questions.
func (r *request) Question() (interview.Question, bool) { return r.question, !r.done }

// Answer implements questions.
func (r *request) Answer(text string) error {
	if text == "" {
		return errNoFile
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
func planRequest(s Sitting, chosen func(plan string)) (*request, error) {
	plans, now, err := s.Session.Plans()
	if err != nil {
		return nil, err
	}
	q := interview.Question{
		Chapter: resultsTitle,
		Text:    "Which plan do you want to hand over?",
		Why:     "Each plan is a form for every job. They differ in how near the year ends to your wish, and in what an employer can learn. The page \"The plans side by side\" has all of them.",
		Kind:    interview.Choice,
		Options: plans,
	}
	if now == plans[0].Value {
		q.Default = now
	} else {
		q.Answer = now
	}
	return &request{question: q, do: func(plan string) error {
		if err := s.Session.Choose(plan); err != nil {
			return err
		}
		chosen(plan)
		return nil
	}}, nil
}

// writeRequest asks for the file to write the pages to.
func writeRequest(s Sitting, told func(string)) *request {
	return &request{
		question: interview.Question{
			Chapter: resultsTitle,
			Text:    "Which file shall the pages be written to? Its name can end in .pdf, .md or .txt.",
			Why:     "The pages for the employers come first, then the one for you alone. A name that ends in .pdf gives pages to print, .md gives Markdown, any other plain text.",
			Kind:    interview.Words,
			Default: s.WriteTo,
		},
		do: func(path string) error {
			if err := s.Write(path); err != nil {
				return err
			}
			told(writtenTo + path + ".")
			return nil
		},
	}
}

// fillRequest asks for the blank official form.
func fillRequest(s Sitting, told func(string)) *request {
	return &request{
		question: interview.Question{
			Chapter: resultsTitle,
			Text:    "Where is the blank official form? Type the name of the PDF file.",
			Why:     "It is the fillable Form W-4 as a PDF, from your employer or from the tax agency. The entries are written into a copy, and the blank stays as it is. You then add your name, address and number by hand, and sign.",
			Kind:    interview.Words,
		},
		do: func(path string) error {
			written, notes, err := s.Fill(path)
			if err != nil {
				return err
			}
			text := filledHeading
			for i, file := range written {
				if i == 0 {
					text += ": "
				} else {
					text += ", "
				}
				text += file
			}
			text += "."
			for _, note := range notes {
				text += " " + note
			}
			told(text)
			return nil
		},
	}
}

// tabNames are the result pages in the head of the screen.
var tabNames = map[report.Kind]string{
	report.AnswerPage: "Answer", report.FormPage: "Form", report.StepsPage: "Steps", report.WhyPage: "Why",
	report.JanuaryPage: "January", report.NextForm: "Next form", report.PlansPage: "Plans", report.PaydaysPage: "Paydays",
	report.StubPage: "Stub", report.RestPage: "More", report.Other: "Change",
}
