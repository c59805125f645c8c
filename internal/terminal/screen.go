package terminal

import (
	"context"
	"errors"
	"io"

	tea "github.com/charmbracelet/bubbletea"
)

// fullScreen is the front end on the whole screen.
type fullScreen struct {
	in    io.Reader
	out   io.Writer
	style style
}

// Where implements Front.
func (f *fullScreen) Where(ctx context.Context, p Place) (string, error) {
	asked := &place{Place: p}
	m := newModel(asked, f.style)
	if err := f.run(ctx, m); err != nil {
		return "", err
	}
	return asked.path, m.ended
}

// Run implements Front.
func (f *fullScreen) Run(ctx context.Context, s Sitting) error {
	m := newModel(s.Session, f.style)
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
	p := tea.NewProgram(m, tea.WithInput(f.in), tea.WithOutput(f.out), tea.WithAltScreen(), tea.WithoutSignalHandler())
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
	if err != nil && ctx.Err() != nil {
		return errors.Join(ErrInterrupted, err) // the terminal has gone
	}
	return err
}
