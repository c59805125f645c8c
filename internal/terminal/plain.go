package terminal

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"slices"
	"strings"

	"golang.org/x/term"

	"example.com/plumbline/internal/interview"
	"example.com/plumbline/internal/report"
	"example.com/plumbline/internal/words"

	"example.com/plumbline/internal/layout"
)

// plain is the front end that reads and writes lines and nothing else: no
// cursor movement, no color, no drawing. What is typed is never echoed.
type plain struct {
	voice
	in       *bufio.Reader
	out      io.Writer
	onForm   string // the line of the form last spoken of in this part
	about    string // whom or which it was last said to be about
	terminal bool   // input is typed, so that a prompt stays open on its line
	width    int    // of a line, in columns
	ask      chan struct{}
	lines    chan line
	writeErr error

	toldLanguages bool // how to change the language
	askFirst      bool // each person which language to speak
	asked         bool // this person has been

	pages []report.Page // of the results
	heard int           // how many of them have been written
}

// errQuit is what the word quit leads to.
var errQuit = errors.New("quit")

func newPlain(in io.Reader, out io.Writer, v voice) *plain {
	p := &plain{voice: v, in: bufio.NewReader(in), out: out, terminal: isTerminal(in), width: report.Width}
	if f, ok := out.(*os.File); ok {
		if columns, _, err := term.GetSize(int(f.Fd())); err == nil && columns > 1 {
			p.width = min(p.width, columns-1)
		}
	}
	return p
}

// tell writes text, each line of it broken at the width of a page.
func (p *plain) tell(text string) {
	for paragraph := range strings.SplitSeq(ascii(layout.CleanLines(text)), "\n") {
		for _, l := range layout.Wrap(paragraph, p.width) {
			p.write(l + "\n")
		}
	}
}

// item writes an item of a list.
func (p *plain) item(mark, text string) {
	for _, l := range layout.Hang(mark, ascii(layout.CleanLines(text)), p.width) {
		p.write(l + "\n")
	}
}

func (p *plain) write(text string) {
	if _, err := io.WriteString(p.out, text); err != nil && p.writeErr == nil {
		p.writeErr = err
	}
}

// commands are what can be typed in place of an answer, by the names of the
// entries that hold the words for them.
var commands = []string{"back", "help", "review", "quit", "more", "change", "if", "plan", "write", "fill", "ahead"}

// command is the command that a text is, in the words of the language or in
// English; else the text itself in small letters.
func (p *plain) command(text string) string {
	typed := words.Fold(text)
	for _, c := range commands {
		if slices.Contains(p.language.Typed(c), typed) {
			return c
		}
	}
	return typed
}

// prompt writes what is to be typed.
func (p *plain) prompt(text string) {
	if p.terminal {
		p.write(text + ": ")
	} else {
		p.write(text + ":\n")
	}
}

// Where implements Front.
func (p *plain) Where(ctx context.Context, where Place) (string, error) {
	if err := p.chooseLanguage(ctx); err != nil {
		return "", left(err)
	}
	asked := &place{voice: p.voice, Place: where}
	if err := p.talk(ctx, asked, nil); err != nil {
		return "", left(err)
	}
	return asked.path, nil
}

// left is the error of an interview that was left before its end.
func left(err error) error {
	if errors.Is(err, errQuit) {
		return ErrLeft
	}
	return err
}

// Run implements Front.
func (p *plain) Run(ctx context.Context, s Sitting) error {
	if err := p.chooseLanguage(ctx); err != nil {
		return left(err)
	}
	s.Session.Speak(p.language)
	p.asked = false // the next visitor may read another
	p.tell(p.say("screen.plain.greeting"))
	if s.Visitor {
		p.tell(p.say("visitor.keeping"))
	}
	var saveErr error
	save := s.Save
	s.Save = func() error {
		if saveErr = save(); saveErr != nil {
			p.tell(p.say("screen.not_saved", "why", p.fault(saveErr)))
		}
		return saveErr
	}
	err := p.sitting(ctx, s)
	if saveErr != nil {
		return saveErr
	}
	return err
}

// sitting asks all questions, shows the results and offers what can be done
// with them, again after each change.
func (p *plain) sitting(ctx context.Context, s Sitting) error {
	for {
		if err := p.talk(ctx, s.Session, &s); err != nil {
			if p.stays(ctx, &s, err) {
				continue
			}
			return left(err)
		}
		if err := p.results(s); err != nil {
			p.tell(p.fault(err))
			if err := p.review(ctx, s); err != nil && !p.stays(ctx, &s, err) {
				return left(err)
			}
			continue
		}
		again, err := p.offers(ctx, s)
		if !again && !p.stays(ctx, &s, err) {
			return ended(err)
		}
	}
}

// talk asks questions until none is left. The sitting is nil for questions of
// the front end's own.
func (p *plain) talk(ctx context.Context, qs questions, s *Sitting) error {
	chapter, show := "", true
	for {
		q, more := qs.Question()
		if !more {
			return nil
		}
		if show {
			p.question(q, q.Chapter != chapter)
			chapter = q.Chapter
		}
		p.prompt(p.promptFor(q))
		text, err := p.read(ctx)
		if err != nil {
			return err
		}
		other := p.named(text)
		switch word := p.command(text); {
		case other != nil:
			p.speak(other)
			if s != nil {
				s.Session.Speak(other)
			}
			chapter, show = "", true
		case word == "quit":
			return errQuit
		case word == "back":
			show = qs.Back()
			switch {
			case !show:
				p.tell(p.say("screen.first_question"))
			case s != nil && s.Session.Behind():
				p.tell(p.say("screen.plain.ahead"))
			}
		case word == "ahead" && s != nil && s.Session.Behind():
			s.Session.Resume()
			show = true
		case word == "help":
			p.help(q)
			p.choices(q)
			show = false
		case word == "review" && s != nil:
			if err := p.review(ctx, *s); err != nil {
				return err
			}
			show = true
		default:
			if show = p.take(qs, q, text); !show {
				p.choices(q)
			}
		}
		if s != nil && show {
			_ = s.Save() // says so itself when it fails
		}
	}
}

// take gives an answer, or says what is wrong with it.
func (p *plain) take(qs questions, q interview.Question, text string) bool {
	if text == "" {
		text = q.Prefill()
	} else {
		text = choose(q, text)
	}
	if err := qs.Answer(text); err != nil {
		p.tell(p.fault(err))
		return false
	}
	return true
}

// question writes a question with its choices.
func (p *plain) question(q interview.Question, newChapter bool) {
	p.write("\n")
	if q.Notice != "" {
		p.tell(q.Notice)
		p.write("\n")
	}
	if newChapter && q.Chapter != "" {
		p.tell(q.Chapter)
	}
	if newChapter {
		p.onForm, p.about = "", ""
	}
	if q.About == p.about {
		q.About = "" // the page goes on
	} else {
		p.about = q.About
	}
	if q.FormLine == p.onForm {
		q.FormLine = "" // said already in this part
	} else if q.FormLine != "" {
		p.onForm = q.FormLine
	}
	if about := p.aboutLine(q); about != "" {
		p.tell(about)
	}
	p.choices(q)
	if len(q.Options) == 0 {
		p.tell(strings.TrimSpace(p.manner(q) + " " + p.origin(q)))
	} else {
		p.tell(p.origin(q))
	}
}

// choices writes the question itself and what can be chosen.
func (p *plain) choices(q interview.Question) {
	p.tell(q.Text)
	for i, o := range q.Options {
		text := o.Label
		if o.Help != "" {
			text += ". " + o.Help
		}
		p.item(fmt.Sprintf("%d. ", i+1), text)
	}
	if q.Kind == interview.Several {
		p.item("0. ", p.say("screen.none.label"))
	}
}

func (p *plain) help(q interview.Question) {
	p.tell(q.Why)
	if q.Where != "" {
		p.tell(p.say("screen.help.where") + ": " + q.Where)
	}
	p.tell(p.say("screen.plain.words"))
}

// promptFor says what is to be typed, and what Enter alone stands for.
func (v voice) promptFor(q interview.Question) string {
	prompt := v.say("screen.answer.prompt")
	switch {
	case q.Kind == interview.Several:
		prompt = v.say("screen.answer.numbers")
	case len(q.Options) > 0:
		prompt = v.say("screen.answer.number", "most", len(q.Options))
	}
	if fill := q.Prefill(); fill != "" {
		prompt = v.say("screen.answer.enter_for", "prompt", prompt, "answer", ascii(layout.CleanLines(shortAnswer(q, fill))))
	}
	return prompt
}

// shortAnswer is an answer as it can be typed.
func shortAnswer(q interview.Question, value string) string {
	if len(q.Options) == 0 {
		return value
	}
	var numbers []string
	for v := range strings.SplitSeq(value, ",") {
		for i, o := range q.Options {
			if o.Value == strings.TrimSpace(v) {
				numbers = append(numbers, fmt.Sprint(i+1))
			}
		}
	}
	if len(numbers) == 0 {
		return "0"
	}
	return strings.Join(numbers, ", ")
}

// review writes all answers and goes to the one to change.
func (p *plain) review(ctx context.Context, s Sitting) error {
	rows := s.Session.Review()
	p.write("\n" + p.say("screen.review.title") + "\n")
	chapter := ""
	for i, row := range rows {
		if row.Chapter != chapter {
			chapter = row.Chapter
			p.tell(chapter)
		}
		p.item(fmt.Sprintf("%3d. ", i+1), p.reviewText(row))
	}
	for {
		p.prompt(p.say("screen.review.prompt"))
		text, err := p.read(ctx)
		if err != nil {
			return err
		}
		switch p.command(text) {
		case "quit":
			return errQuit
		case "", "back":
			s.Session.Resume()
			return nil
		}
		i, ok := number(text, len(rows))
		switch {
		case !ok:
			p.tell(p.say("screen.review.number", "most", len(rows)))
		case !s.Session.GoTo(rows[i-1].Key):
			p.tell(p.say("screen.open_before"))
		default:
			return nil
		}
	}
}
