package main

import (
	"fmt"
	"os"

	"golang.org/x/term"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/store"
	"example.com/plumbline/internal/yamldoc"
)

// answers reads an answers file; "-" is standard input.
func (p *program) answers(name string) (household.Household, *yamldoc.Document, error) {
	data, shown, err := p.read(name)
	if err != nil {
		return household.Household{}, nil, systemFailed(err)
	}
	h, doc, err := store.Decode(shown, data, p.today)
	if err != nil {
		return household.Household{}, nil, wrongAnswers(err)
	}
	return h, doc, nil
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

// passphrase asks for a passphrase at the terminal, without showing it.
func (p *program) passphrase(prompt string) ([]byte, error) {
	in, ok := p.stdin.(*os.File)
	if !ok || !term.IsTerminal(int(in.Fd())) {
		return nil, store.ErrEncrypted
	}
	defer hideTyping(int(in.Fd()))()
	fmt.Fprint(p.stderr, prompt)
	typed, err := term.ReadPassword(int(in.Fd()))
	fmt.Fprintln(p.stderr)
	return typed, err
}
