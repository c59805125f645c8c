package main

import (
	"context"
	"errors"

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
	for {
		session, err := interview.Start(nil, interview.Env{Today: p.today, Year: f.taxYear(p.today), Tables: p.year, Language: p.language})
		if err != nil {
			return wrongAnswers(err)
		}
		err = front.Run(ctx, p.sitting(session, new(answersFile)))
		if err != nil && !errors.Is(err, terminal.ErrLeft) {
			return p.afterwards(err, nil, "")
		}
		if another, err := front.Another(ctx); err != nil || !another {
			return p.afterwards(err, nil, "")
		}
	}
}
