package main

import (
	"context"
	"errors"
	"slices"

	"example.com/plumbline/internal/interview"
	"example.com/plumbline/internal/terminal"
	"example.com/plumbline/internal/words"
)

// visitors carries the interview on with one visitor after another at a
// helper's desk. No answer is written to disk, and each visitor begins with none:
// what there is to take along is printed or written from the results.
func (p *program) visitors(ctx context.Context, front terminal.Front, name string, f interviewFlags) error {
	if name != "" || f.encrypt {
		return wrongUsage(words.Fail("visitor.keeps_nothing"))
	}
	var files []string // of all visitors
	for {
		session, err := interview.Start(nil, interview.Env{Today: p.today, Year: f.taxYear(p.today), Tables: p.year, Language: p.language})
		if err != nil {
			return wrongAnswers(err)
		}
		s, written := p.sitting(session, new(answersFile)), []string(nil)
		s.Visitor = true
		write, fill := s.Write, s.Fill
		s.Write = func(path string) error {
			err := write(path)
			if err == nil && !slices.Contains(written, path) {
				written = append(written, path)
			}
			return err
		}
		s.Fill = func(blank string) (files, notes []string, err error) {
			files, notes, err = fill(blank)
			written = append(written, files...)
			return files, notes, err
		}
		err = front.Run(ctx, s)
		files = append(files, written...)
		if err != nil && !errors.Is(err, terminal.ErrLeft) {
			return p.afterwards(err, nil, "")
		}
		if another, err := front.Another(ctx, written); err != nil || !another {
			if len(files) > 0 {
				p.tell("visitor.files", "files", files)
			}
			return p.afterwards(err, nil, "")
		}
	}
}
