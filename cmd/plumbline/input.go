package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"os/signal"
	"strconv"
	"syscall"

	"golang.org/x/term"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/store"
	"example.com/plumbline/internal/tables"
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
	if _, err := p.year(h.TaxYear); errors.Is(err, tables.ErrNoTable) {
		at := yamldoc.Problems{doc.Problem("tax_year", words.Of(err))}
		return h, doc, withHint(wrongAnswers(at), "command.no_table", "year", strconv.Itoa(h.TaxYear))
	}
	return h.Named(p.language), doc, nil
}

// read is the text of an answers file, and the name to show for it.
func (p *program) read(name string) (data []byte, shown string, err error) {
	if name == "-" {
		data, err = store.ReadAll(p.stdin)
		if err != nil {
			return nil, "", fmt.Errorf("%s: %w", p.say("command.standard_input"), err)
		}
		return data, p.say("command.standard_input"), nil
	}
	data, err = store.ReadFile(name, p.passphrase)
	return data, name, err
}

// unread gives the error of reading an answers file its exit status, the same in
// every command: what the file holds is the answers' fault, what the system says
// is the system's.
func unread(err error) error {
	for _, known := range []error{
		store.ErrEncrypted, store.ErrPassphrase, store.ErrOtherKey, store.ErrEmptyPassphrase, store.ErrUnlike,
		store.ErrLarge, store.ErrNewerFormat, terminal.ErrInterrupted, terminal.ErrEndOfInput,
	} {
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
	fmt.Fprint(p.stderr, p.language.Say(prompt))
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
