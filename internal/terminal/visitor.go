package terminal

import (
	"context"
	"errors"
	"slices"

	tea "github.com/charmbracelet/bubbletea"

	"example.com/plumbline/internal/interview"
	"example.com/plumbline/internal/layout"
	"example.com/plumbline/internal/words"
)

// another asks a helper whether one more visitor comes.
type another struct {
	voice
	written  []string // files of the last visitor
	answered bool
	yes      bool
}

// Question implements questions.
func (a *another) Question() (interview.Question, bool) {
	say := func(code string) string { return a.say(code) }
	return interview.Question{
		Text: say("visitor.text"), Why: say("visitor.why"), Notice: a.say("visitor.gone", "n", len(a.written), "files", a.written), Kind: interview.Choice,
		Options: []interview.Option{{Value: "next", Label: say("visitor.next")}, {Value: "stop", Label: say("visitor.stop")}},
	}, !a.answered
}

// Answer implements questions.
func (a *another) Answer(text string) error {
	if text != "next" && text != "stop" {
		return words.Fail("visitor.choose")
	}
	a.answered, a.yes = true, text == "next"
	return nil
}

// Back implements questions: there is nothing to go back to, since the last
// visitor's answers are gone.
func (a *another) Back() bool { return false }

// Another implements Front.
func (p *plain) Another(ctx context.Context, written []string) (bool, error) {
	p.speak(p.first)
	p.toldLanguages = false // the next visitor may read another
	asked := &another{voice: p.voice, written: written}
	err := p.talk(ctx, asked, nil)
	return asked.yes, left(err)
}

// Another implements Front.
func (f *fullScreen) Another(ctx context.Context, written []string) (bool, error) {
	f.speak(f.first)
	asked := &another{voice: f.voice, written: written}
	m := newModel(single{asked}, newStyle(f.theme), f.voice)
	if err := f.run(ctx, m); err != nil {
		return false, err
	}
	return asked.yes, m.ended
}

// atStake reports whether a visitor's answers would be lost by leaving.
func (s *Sitting) atStake() bool {
	return s != nil && s.Visitor && slices.ContainsFunc(s.Session.Review(), func(a interview.Answered) bool { return a.Answer != "" })
}

// stays asks a visitor who quits once whether to, and reports whether not.
func (p *plain) stays(ctx context.Context, s *Sitting, err error) bool {
	if !errors.Is(err, errQuit) || !s.atStake() {
		return false
	}
	p.tell(p.say("visitor.leave"))
	p.prompt(p.say("visitor.leave_prompt"))
	text, err := p.read(ctx)
	return err == nil && p.command(text) != "quit"
}

// leave ends the sitting as it is. A visitor, whose answers go, is asked first: the
// same key again ends it at once.
func (m *model) leave() tea.Cmd {
	if m.sitting.atStake() && !m.leaving {
		m.leaving = true
		return nil
	}
	if _, more := m.main.Question(); more {
		m.ended = ErrLeft
	}
	return tea.Quit
}

// leavingKey takes the key that says whether to leave.
func (m *model) leavingKey(pressed string) tea.Cmd {
	if slices.Contains([]string{"enter", "ctrl+c", "q"}, pressed) {
		return m.leave()
	}
	m.leaving = false
	return nil
}

// leavingLines ask whether to leave.
func (m *model) leavingLines() []string {
	return append([]string{""}, layout.Wrap(m.say("visitor.leave"), min(m.drawnWidth(), 80))...)
}
