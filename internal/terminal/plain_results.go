package terminal

import (
	"context"
	"errors"
	"fmt"

	"example.com/plumbline/internal/interview"
	"example.com/plumbline/internal/report"
	"example.com/plumbline/internal/words"
)

// results writes the result pages.
func (p *plain) results(s Sitting) error {
	pages, err := Pages(s.Session, p.language)
	if err != nil {
		return err
	}
	if verdict := s.Session.Verdict(); verdict != "" {
		p.write("\n")
		p.tell(verdict)
	}
	if err := s.Session.Finish(); err != nil {
		return err
	}
	_ = s.Save() // says so itself when it fails
	p.pages, p.heard = pages, 0
	p.more()
	return p.writeErr
}

// more writes the next page of the results; it reports false after the last.
func (p *plain) more() bool {
	if p.heard == len(p.pages) {
		return false
	}
	p.heard++
	p.page(p.pages[p.heard-1].WithFigures())
	return true
}

// contents writes which pages there are, but for the one that was heard first.
func (p *plain) contents() {
	for i := range p.pages {
		if i > 0 {
			p.item(fmt.Sprintf("%d. ", i+1), p.title(i))
		}
	}
}

// title is that of a page, with what it is about where another has the same.
func (p *plain) title(i int) string {
	page := p.pages[i]
	for j, other := range p.pages {
		if j != i && other.Title == page.Title && page.Subtitle != "" {
			return page.Title + ". " + page.Subtitle
		}
	}
	return page.Title
}

// page writes one page.
func (p *plain) page(page report.Page) {
	p.write("\n\n")
	if err := report.Text(p.out, page, report.Style{Width: p.width}); err != nil && p.writeErr == nil {
		p.writeErr = err
	}
}

// offers asks what to do with the results; it reports true when an answer is
// to be changed. The end of the input is the end of the interview.
func (p *plain) offers(ctx context.Context, s Sitting) (again bool, err error) {
	for {
		p.write("\n")
		p.contents()
		if s.Session.Blank() {
			p.tell(p.say("screen.plain.blank_offers"))
		} else {
			p.tell(p.say("screen.plain.offers"))
		}
		next := p.say("screen.plain.enter_to_quit")
		if p.heard < len(p.pages) {
			next = p.say("screen.plain.enter_for_more", "page", p.title(p.heard))
		}
		p.prompt(p.say("screen.plain.choice", "enter", next))
		text, err := p.read(ctx)
		if err != nil {
			return false, err
		}
		if n, ok := number(text, len(p.pages)); ok {
			p.heard = n - 1
			p.more()
			continue
		}
		var ask questions
		if l := p.named(text); l != nil {
			p.speak(l)
			s.Session.Speak(l)
			if err := p.results(s); err != nil {
				return false, err
			}
			continue
		}
		switch p.command(text) {
		case "", "more":
			if !p.more() {
				return false, errQuit
			}
			continue
		case "quit", "q":
			return false, errQuit
		case "change", "review":
			if err := p.review(ctx, s); err != nil {
				return false, err
			}
			return true, nil
		case "back":
			s.Session.Back()
			return true, nil
		case "if":
			if !s.Session.Blank() {
				ask, err = newWhatIf(s.Session, p.voice, p.page)
			}
		case "plan":
			if !s.Session.Blank() {
				picked := ""
				ask, err = p.planRequest(s, func(plan string) { picked = plan })
				if err != nil {
					return false, err
				}
				if err := p.talk(ctx, &backable{questions: ask}, nil); err != nil {
					return false, err
				}
				if picked != "" {
					if err := p.results(s); err != nil {
						return false, err
					}
					p.write("\n")
					p.tell(p.say("screen.plan.chosen", "plan", words.T("page.plan."+picked)))
				}
				continue
			}
		case "write":
			if s.Write != nil {
				ask = p.writeRequest(s, p.tell)
			}
		case "fill":
			if s.Fill != nil {
				ask = p.fillRequest(s, p.tell)
			}
		}
		if err != nil {
			return false, err
		}
		if ask == nil {
			continue
		}
		if err := p.talk(ctx, &backable{questions: ask}, nil); err != nil {
			return false, err
		}
	}
}

// ended is the error after the results have been shown: to quit is to be done.
func ended(err error) error {
	if errors.Is(err, errQuit) || errors.Is(err, ErrEndOfInput) {
		return nil
	}
	return err
}

// backable are the results' own questions, which back leaves at the first.
type backable struct {
	questions
	left bool
}

// Question implements questions.
func (b *backable) Question() (interview.Question, bool) {
	if b.left {
		return interview.Question{}, false
	}
	return b.questions.Question()
}

// Back implements questions.
func (b *backable) Back() bool {
	b.left = !b.questions.Back()
	return true
}
