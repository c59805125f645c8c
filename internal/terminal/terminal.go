// Package terminal carries the interview on with a person: on the whole screen,
// or line by line for screen readers, terminals without cursor movement and
// pipes. Both are thin readers of package interview. They show its questions,
// pass on what is typed, have every answer saved, and at the end show the pages
// of package report. Neither knows a figure of the law, and neither uses color
// to say that something is good or bad.
//
// Start at New. What the front ends themselves say is in words.go.
package terminal

import (
	"context"
	"errors"
	"io"
	"os"
	"strings"

	"golang.org/x/term"

	"example.com/plumbline/internal/interview"
	"example.com/plumbline/internal/words"
)

// Errors that say how an interview ended when it did not end with its results.
var (
	ErrEndOfInput  = errors.New("the input ended before the interview did")
	ErrLeft        = errors.New("the interview was left before its end")
	ErrInterrupted = errors.New("the interview was interrupted")
)

// Front is a front end.
type Front interface {
	// Where asks where the answers are to be kept, and returns the path of a
	// file, or "" when they are not to be kept.
	Where(ctx context.Context, p Place) (string, error)
	// Run carries the interview on to its results, and is done when the person
	// has seen enough of them. It fails with one of the errors above, with that
	// of Save when the answers could not be saved to the last, or with that of
	// the terminal.
	Run(ctx context.Context, s Sitting) error
	// Another asks a helper whether to start over for one more visitor, in the
	// language of the beginning, whichever the last visitor spoke. It names the files
	// that the last one had written.
	Another(ctx context.Context, written []string) (bool, error)
}

// Place is what to suggest as the file for the answers.
type Place struct {
	Default string // path suggested
	There   bool   // answers are there already
	Problem string // why the file chosen before cannot be used; empty at first
}

// Sitting is one interview with what the program around it does for it.
type Sitting struct {
	Session *interview.Session
	Visitor bool         // at a helper's desk: nothing is kept
	File    string       // where the answers are kept; empty when they are not
	Save    func() error // writes the answers down; called after every answer

	// Write writes the result pages to a file, in the form that its ending asks
	// for, and WriteTo is the file suggested.
	Write   func(path string) error
	WriteTo string
	// Fill fills copies of the blank official form at a path, one for each
	// certificate, and returns the files that it wrote and what is left to do by
	// hand.
	Fill func(blank string) (written, notes []string, err error)
}

// Options are how a front end is chosen.
type Options struct {
	Plain bool // line by line even where the whole screen could be used
	Theme Theme
	Words *words.Language
	// Languages are those that the person can change to, at any time.
	Languages []*words.Language
	// Spoke is told the language after such a change; it may be nil.
	Spoke func(*words.Language)
	// AskLanguage has a person who types line by line asked first which language
	// to speak. A pipe is not asked: its lines are answers.
	AskLanguage bool
}

func (o Options) voice() voice {
	return voice{&speech{language: o.Words, first: o.Words, all: o.Languages, changed: o.Spoke}}
}

// New is the front end that fits the streams: line by line when that is asked
// for, when one of them is no terminal, and in a terminal that calls itself
// dumb.
func New(in io.Reader, out io.Writer, o Options) Front {
	if o.Plain || os.Getenv("TERM") == "dumb" || !isTerminal(in) || !isTerminal(out) {
		p := newPlain(in, out, o.voice())
		p.askFirst = o.AskLanguage && p.terminal
		return p
	}
	return &fullScreen{in: in, out: out, theme: o.Theme, voice: o.voice()}
}

func isTerminal(stream any) bool {
	f, ok := stream.(*os.File)
	return ok && term.IsTerminal(int(f.Fd()))
}

// questions are questions to be asked in turn: the interview, or one of the
// front end's own.
type questions interface {
	Question() (interview.Question, bool)
	Answer(text string) error
	Back() bool
}

// Unicode reports whether the terminal is told to use an encoding that has block
// characters: UTF-8, by the variables that decide it (POSIX, "Environment
// Variables", 8.2).
func Unicode() bool {
	for _, name := range []string{"LC_ALL", "LC_CTYPE", "LANG"} {
		if locale := os.Getenv(name); locale != "" {
			locale = strings.ToLower(locale)
			return strings.Contains(locale, "utf-8") || strings.Contains(locale, "utf8")
		}
	}
	return false
}
