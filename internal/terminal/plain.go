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
	terminal bool   // input is typed, so that a prompt stays open on its line
	width    int    // of a line, in columns
	ask      chan struct{}
	lines    chan line
	writeErr error

	toldLanguages bool // how to change the language

	pages []report.Page // of the results
	heard int           // how many of them have been written
}

// line is a line of input, or why there is none.
type line struct {
	text    string
	tooLong bool
	err     error
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

// read is the next line of input. It does not read ahead, so that others can
// read from the same input between two interviews.
func (p *plain) read(ctx context.Context) (string, error) {
	if p.writeErr != nil {
		return "", p.writeErr
	}
	if p.ask == nil {
		p.ask, p.lines = make(chan struct{}), make(chan line)
		go func() {
			for range p.ask {
				p.lines <- readLine(p.in)
			}
		}()
	}
	for {
		p.ask <- struct{}{}
		select {
		case l := <-p.lines:
			if l.tooLong && l.err == nil {
				p.tell(p.say("screen.plain.too_long"))
				continue
			}
			return strings.TrimSpace(layout.CleanLines(l.text)), l.err
		case <-ctx.Done():
			return "", ErrInterrupted
		}
	}
}

// longestLine is the most bytes of a line that are read as an answer.
const longestLine = 16 << 10

// readLine reads a line of any length, and keeps none that is too long to be an
// answer.
func readLine(in *bufio.Reader) (l line) {
	var text []byte
	for {
		part, more, err := in.ReadLine()
		switch {
		case err == io.EOF && (len(text) > 0 || l.tooLong):
			// the last line, without an end
		case err == io.EOF:
			return line{err: ErrEndOfInput}
		case err != nil:
			return line{err: fmt.Errorf("%w: %w", ErrEndOfInput, err)}
		}
		if l.tooLong = l.tooLong || len(text)+len(part) > longestLine; !l.tooLong {
			text = append(text, part...)
		}
		if !more || err != nil {
			l.text = string(text)
			return l
		}
	}
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

// commands are what can be typed in place of an answer, by the names of the
// entries that hold the words for them.
var commands = []string{"back", "help", "review", "quit", "more", "change", "if", "plan", "write", "fill"}

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
	p.tellLanguages()
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
	p.tellLanguages()
	p.tell(p.say("screen.plain.greeting"))
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
			return left(err)
		}
		if err := p.results(s); err != nil {
			p.tell(p.fault(err))
			if err := p.review(ctx, s); err != nil {
				return left(err)
			}
			continue
		}
		again, err := p.offers(ctx, s)
		if !again {
			return err
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
			if show = qs.Back(); !show {
				p.tell(p.say("screen.first_question"))
			}
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
		p.onForm = ""
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
		p.tell(strings.TrimSpace(p.manner(q.Kind) + " " + p.origin(q)))
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
	for i, page := range p.pages {
		if i > 0 {
			p.item(fmt.Sprintf("%d. ", i+1), page.Title)
		}
	}
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
			next = p.say("screen.plain.enter_for_more", "page", p.pages[p.heard].Title)
		}
		p.prompt(p.say("screen.plain.choice", "enter", next))
		text, err := p.read(ctx)
		if errors.Is(err, ErrEndOfInput) {
			return false, nil
		}
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
				return false, nil
			}
			continue
		case "quit", "q":
			return false, nil
		case "change", "review":
			if err := p.review(ctx, s); err != nil {
				return false, ended(err)
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
					return false, ended(err)
				}
				if picked != "" {
					if err := p.results(s); err != nil {
						return false, err
					}
					p.write("\n")
					p.tell(p.say("screen.plan.chosen", "plan", picked))
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
			return false, ended(err)
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
