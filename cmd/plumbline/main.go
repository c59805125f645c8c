// Plumbline interviews an employee about the federal withholding certificate,
// Form W-4, computes the year's income tax and what payroll will withhold, and
// gives the entries that make the two meet.
//
// This package reads flags and files, calls the packages under internal, and
// prints what they return; it computes nothing itself.
package main

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"strings"
	"time"

	// First of all packages that draw: see its doc comment.
	_ "example.com/plumbline/internal/backdrop"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/tables"
	"example.com/plumbline/internal/words"
	"example.com/plumbline/internal/yamldoc"
)

// Exit statuses, as the manual promises them.
const (
	exitDone    = 0
	exitAnswers = 1 // the answers are wrong or incomplete
	exitUsage   = 2 // the command line is wrong
	exitSystem  = 3 // the file system or the terminal failed
)

func main() {
	os.Exit(run(os.Args[1:], os.Stdin, os.Stdout, os.Stderr))
}

// run is the whole program, apart from the process it runs in.
func run(args []string, stdin io.Reader, stdout, stderr io.Writer) int {
	p := &program{stdin: stdin, stdout: stdout, stderr: stderr, today: household.DateOf(time.Now()), language: words.English()}
	return p.run(args)
}

// run carries out one command line and returns the exit status.
func (p *program) run(args []string) int {
	root := p.root()
	root.SetArgs(args)
	err := root.Execute()
	if err == nil {
		return exitDone
	}
	var silent silentError
	if !errors.As(err, &silent) {
		text, hint := message(err)
		for line := range strings.SplitSeq(text, "\n") {
			fmt.Fprintln(p.stderr, "plumbline: error:", yamldoc.Printable(line)) // a path may hold what steers a terminal
		}
		if !hint.IsZero() {
			fmt.Fprintln(p.stderr, "plumbline: hint:", yamldoc.Printable(p.language.Say(hint)))
		}
	}
	return statusOf(err)
}

// message is an error as people read it, a problem a line, and what to do about
// it where that is said apart. What the system says of a file begins with the
// file.
func message(err error) (text string, hint words.Text) {
	var hinted hintedError
	if errors.As(err, &hinted) {
		hint = hinted.hint
	}
	var path *fs.PathError
	if errors.As(err, &path) {
		return strings.Replace(err.Error(), path.Error(), path.Path+": "+path.Err.Error(), 1), hint
	}
	text = err.Error()
	if said, meant, ok := strings.Cut(text, "Did you mean this?"); ok {
		return strings.TrimSpace(said), words.T("files.did_you_mean", "names", strings.Fields(meant))
	}
	return text, hint
}

// tell says something on the side, to standard error, with nothing in it that
// steers a terminal.
func (p *program) tell(code string, namesAndValues ...any) {
	p.tellText(words.T(code, namesAndValues...))
}

func (p *program) tellText(t words.Text) {
	fmt.Fprintln(p.stderr, yamldoc.Printable(p.language.Say(t)))
}

// program is one run: its streams, its day and the flags that every command
// shares.
type program struct {
	stdin          io.Reader
	stdout, stderr io.Writer
	today          household.Date
	language       *words.Language
	tablesDir      string
	rise           riseFlag
	years          map[int]*tables.Year // made so far
}

// hintedError is an error with what to do about it, which is said on a line of
// its own.
type hintedError struct {
	error
	hint words.Text
}

func (e hintedError) Unwrap() error { return e.error }

func withHint(err error, code string, namesAndValues ...any) error {
	return hintedError{err, words.T(code, namesAndValues...)}
}

// statusError is an error that decides the exit status.
type statusError struct {
	status int
	err    error
}

func (e statusError) Error() string { return e.err.Error() }
func (e statusError) Unwrap() error { return e.err }

// silentError ends the program with a status when all has been said already.
type silentError struct{ status int }

func (e silentError) Error() string { return fmt.Sprintf("exit status %d", e.status) }

func wrongAnswers(err error) error { return statusError{exitAnswers, err} }
func wrongUsage(err error) error   { return statusError{exitUsage, err} }
func systemFailed(err error) error { return statusError{exitSystem, err} }

// statusOf is the exit status for an error; what no command has classified is
// wrong usage, since only the command line library reports it.
func statusOf(err error) int {
	var silent silentError
	if errors.As(err, &silent) {
		return silent.status
	}
	var s statusError
	if errors.As(err, &s) {
		return s.status
	}
	return exitUsage
}
