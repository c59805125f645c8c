package terminal

import (
	"context"
	"errors"
	"io"
	"os"

	tea "github.com/charmbracelet/bubbletea"
)

// fullScreen is the front end on the whole screen.
type fullScreen struct {
	voice
	in    io.Reader
	out   io.Writer
	theme Theme // Auto until the terminal has said what it is
}

// Where implements Front.
func (f *fullScreen) Where(ctx context.Context, p Place) (string, error) {
	asked := &place{voice: f.voice, Place: p}
	m := newModel(single{asked}, newStyle(f.theme), f.voice)
	if err := f.run(ctx, m); err != nil {
		return "", err
	}
	return asked.path, m.ended
}

// Run implements Front.
func (f *fullScreen) Run(ctx context.Context, s Sitting) error {
	m := newModel(s.Session, newStyle(f.theme), f.voice)
	m.sitting = &s
	m.refresh()
	if err := f.run(ctx, m); err != nil {
		return err
	}
	if m.saveErr != nil {
		return m.saveErr
	}
	return m.ended
}

// interrupted is sent when the program is asked from outside to end.
type interrupted struct{}

func (f *fullScreen) run(ctx context.Context, m *model) error {
	m.theme = f.theme
	in := f.in
	var p *tea.Program
	if file, ok := in.(*os.File); ok {
		in = keyboard{file}
		if f.theme == Auto && !noColor() {
			in = &answerReader{File: file, told: func(b backgroundTold) { go p.Send(b) }}
			m.start = ask(f.out)
		}
	}
	p = tea.NewProgram(m, tea.WithInput(in), tea.WithOutput(f.out), tea.WithAltScreen(), tea.WithoutSignalHandler())
	over := make(chan struct{})
	defer close(over)
	go func() {
		select {
		case <-ctx.Done():
			p.Send(interrupted{})
		case <-over:
		}
	}()
	_, err := p.Run()
	f.theme = m.theme
	if err != nil && ctx.Err() != nil {
		return errors.Join(ErrInterrupted, err) // the terminal has gone
	}
	return err
}
