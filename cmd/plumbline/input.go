package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"os/signal"
	"strings"
	"syscall"

	"golang.org/x/term"

	"example.com/plumbline/internal/certificate"
	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/interview"
	"example.com/plumbline/internal/store"
	"example.com/plumbline/internal/terminal"
	"example.com/plumbline/internal/words"
	"example.com/plumbline/internal/yamldoc"
)

// answers reads an answers file; "-" is standard input.
func (p *program) answers(name string) (household.Household, *yamldoc.Document, error) {
	data, shown, err := p.read(name)
	if err != nil {
		return household.Household{}, nil, unread(err)
	}
	h, doc, err := store.Decode(shown, data, p.today)
	if err != nil {
		return household.Household{}, doc, wrongAnswers(err)
	}
	return h, doc, nil
}

// withoutPay is what can be said of answers that the interview calls finished
// though they say nothing of pay: which boxes to check on a form that is else
// left blank. It reports false where the answers lack something else.
func (p *program) withoutPay(doc *yamldoc.Document, err error) (certificate.Result, bool) {
	var problems yamldoc.Problems
	if doc == nil || !errors.As(err, &problems) {
		return certificate.Result{}, false
	}
	for _, problem := range problems {
		if !problem.Missing() || !strings.HasSuffix(problem.Key, ".pay_frequency") {
			return certificate.Result{}, false
		}
	}
	day := p.today
	if text, ok := doc.Get("as_of"); ok { // that of the sitting, or the interview would ask what has changed since
		_ = day.UnmarshalText([]byte(text))
	}
	s, err := interview.Start(doc, interview.Env{Today: day, Tables: p.year})
	if err != nil || !s.Blank() {
		return certificate.Result{}, false
	}
	r, err := s.Result()
	return r, err == nil
}

// read is the text of an answers file, and the name to show for it.
func (p *program) read(name string) (data []byte, shown string, err error) {
	if name == "-" {
		data, err = store.ReadAll(p.stdin)
		if err != nil {
			return nil, "", fmt.Errorf("standard input: %w", err)
		}
		return data, "standard input", nil
	}
	data, err = store.ReadFile(name, p.passphrase)
	return data, name, err
}

// unread gives the error of reading an answers file its exit status, the same in
// every command: what the file holds is the answers' fault, what the system says
// is the system's.
func unread(err error) error {
	for _, known := range []error{store.ErrEncrypted, store.ErrPassphrase, store.ErrLarge, store.ErrNewerFormat, terminal.ErrInterrupted, terminal.ErrEndOfInput} {
		if errors.Is(err, known) {
			return wrongAnswers(err)
		}
	}
	return systemFailed(err)
}

// passphrase asks for a passphrase at the terminal, without showing it. Ctrl-C,
// Ctrl-D and the signals that end a program end the question, with the terminal
// as it was.
func (p *program) passphrase(prompt words.Text) ([]byte, error) {
	in, ok := p.stdin.(*os.File)
	if !ok || !term.IsTerminal(int(in.Fd())) {
		return nil, store.ErrEncrypted
	}
	signals := make(chan os.Signal, 1)
	signal.Notify(signals, os.Interrupt, syscall.SIGTERM, syscall.SIGHUP)
	defer signal.Stop(signals)
	defer fmt.Fprintln(p.stderr)
	defer hideTyping(int(in.Fd()))()
	fmt.Fprint(p.stderr, words.English().Say(prompt))
	type answer struct {
		typed []byte
		err   error
	}
	answered := make(chan answer, 1)
	go func() { // goes on waiting after a signal, which ends the program
		typed, err := readHidden(in)
		answered <- answer{typed, err}
	}()
	select {
	case <-signals:
		return nil, terminal.ErrInterrupted
	case a := <-answered:
		if errors.Is(a.err, io.EOF) {
			return nil, terminal.ErrEndOfInput
		}
		return a.typed, a.err
	}
}
