package terminal

import (
	"context"
	"fmt"
	"slices"

	"example.com/plumbline/internal/words"
)

// chooseLanguage asks a person at the beginning which language to speak, or says
// how to change it where nobody is to be asked.
func (p *plain) chooseLanguage(ctx context.Context) error {
	if !p.askFirst || len(p.all) < 2 {
		p.tellLanguages()
		return nil
	}
	if p.asked {
		return nil
	}
	p.asked = true
	return p.askLanguage(ctx)
}

// tellLanguages says once, in each other language, how to change to it.
func (p *plain) tellLanguages() {
	if p.toldLanguages {
		return
	}
	p.toldLanguages = true
	for _, l := range p.others() {
		p.tell(l.Say(words.T("screen.plain.language", "name", l.Name())))
	}
}

// askLanguage asks in every language which one to speak. Enter keeps the one
// spoken now.
func (p *plain) askLanguage(ctx context.Context) error {
	for {
		var prompts []string
		for _, l := range p.all {
			v := newVoice(l)
			p.tell(v.say("screen.plain.which_language"))
			prompts = append(prompts, v.say("screen.answer.enter_for",
				"prompt", v.say("screen.answer.number", "most", len(p.all)), "answer", p.language.Name()))
		}
		for i, l := range p.all {
			p.item(fmt.Sprintf("%d. ", i+1), l.Name())
		}
		last := len(prompts) - 1
		for _, prompt := range prompts[:last] {
			p.tell(prompt)
		}
		p.prompt(prompts[last])
		text, err := p.read(ctx)
		if err != nil {
			return err
		}
		if slices.ContainsFunc(p.all, func(l *words.Language) bool { return slices.Contains(l.Typed("quit"), words.Fold(text)) }) {
			return errQuit
		}
		chosen := p.named(text)
		if i, ok := number(text, len(p.all)); ok {
			chosen = p.all[i-1]
		}
		switch {
		case chosen != nil:
			p.speak(chosen)
			return nil
		case text == "", words.Fold(text) == words.Fold(p.language.Name()):
			return nil
		}
	}
}
