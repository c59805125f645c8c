package terminal

import (
	"context"

	"example.com/plumbline/internal/interview"
	"example.com/plumbline/internal/words"
)

// another asks a helper whether one more visitor comes.
type another struct {
	voice
	answered bool
	yes      bool
}

// Question implements questions.
func (a *another) Question() (interview.Question, bool) {
	say := func(code string) string { return a.say(code) }
	return interview.Question{
		Text: say("visitor.text"), Why: say("visitor.why"), Notice: say("visitor.gone"), Kind: interview.Choice,
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
func (p *plain) Another(ctx context.Context) (bool, error) {
	p.speak(p.first)
	asked := &another{voice: p.voice}
	err := p.talk(ctx, asked, nil)
	return asked.yes, left(err)
}

// Another implements Front.
func (f *fullScreen) Another(ctx context.Context) (bool, error) {
	f.speak(f.first)
	asked := &another{voice: f.voice}
	m := newModel(single{asked}, newStyle(f.theme), f.voice)
	if err := f.run(ctx, m); err != nil {
		return false, err
	}
	return asked.yes, m.ended
}
