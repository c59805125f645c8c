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
	"runtime/debug"
	"strings"
	"time"

	"github.com/spf13/cobra"

	// First of all packages that draw: see its doc comment.
	_ "example.com/plumbline/internal/backdrop"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/tables"
	"example.com/plumbline/internal/terminal"
	"example.com/plumbline/internal/words"
	"example.com/plumbline/internal/yamldoc"
	"example.com/plumbline/taxtables"
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
	return fromProcess(stdin, stdout, stderr).run(args)
}

// fromProcess is the program with the clock and the tables of the process.
func fromProcess(stdin io.Reader, stdout, stderr io.Writer) *program {
	return &program{stdin: stdin, stdout: stdout, stderr: stderr, today: household.DateOf(time.Now()), inside: taxtables.Files}
}

// gcPercent lets a command that is over in milliseconds be over before it has
// collected its garbage: all of it is some tens of megabytes, and collecting took a
// quarter of its time.
const gcPercent = 400

// run carries out one command line and returns the exit status.
func (p *program) run(args []string) int {
	defer debug.SetGCPercent(debug.SetGCPercent(gcPercent))
	err := p.chooseLanguage(args)
	if err == nil {
		err = p.execute(args)
	}
	if err == nil {
		return exitDone
	}
	var silent silentError
	if !errors.As(err, &silent) {
		for line := range strings.SplitSeq(p.errorText(err), "\n") {
			fmt.Fprintln(p.stderr, "plumbline:", p.say("command.error"), yamldoc.Printable(line)) // a path may hold what steers a terminal
		}
		var hinted hintedError
		if errors.As(err, &hinted) {
			fmt.Fprintln(p.stderr, "plumbline:", p.say("command.hint"), yamldoc.Printable(p.language.Say(hinted.hint)))
		}
	}
	return statusOf(err)
}

// execute carries out a command line whose language is chosen.
func (p *program) execute(args []string) error {
	root := p.root()
	root.SetArgs(args)
	if len(args) > 0 && strings.HasPrefix(args[0], cobra.ShellCompRequestCmd) {
		p.wordCompletions(root)
	}
	err := root.Execute()
	var classified statusError
	var silent silentError
	if err == nil || errors.As(err, &classified) || errors.As(err, &silent) {
		return err
	}
	return unknownIn(root, err)
}

// errorText is an error as people read it, a problem a line, in the language of
// the program. What is wrapped is worded where it is, and what the system says of
// a file begins with the file.
func (p *program) errorText(err error) string {
	if problems, ok := err.(yamldoc.Problems); ok {
		return problems.In(p.language)
	}
	if t := words.Of(err); !t.IsZero() && words.English().Say(t) == err.Error() {
		return p.language.Say(t)
	}
	if e, ok := err.(*fs.PathError); ok {
		return p.say("command.of_file", "file", e.Path, "what", p.language.Error(e.Err))
	}
	for ended, code := range endings {
		if err == ended {
			return p.say(code)
		}
	}
	text := err.Error()
	var inner []error
	switch e := err.(type) {
	case interface{ Unwrap() []error }:
		inner = e.Unwrap()
	case interface{ Unwrap() error }:
		inner = []error{e.Unwrap()}
	}
	for _, e := range inner {
		if e != nil {
			text = strings.Replace(text, e.Error(), p.errorText(e), 1)
		}
	}
	return text
}

// endings are the words of how an interview can end before its results.
var endings = map[error]string{
	terminal.ErrEndOfInput:  "command.ended.input",
	terminal.ErrLeft:        "command.ended.left",
	terminal.ErrInterrupted: "command.ended.interrupted",
}

// chooseLanguage takes the language of --lang, else that of the environment.
// --lang is looked for before the command line is read, since the words of that
// are in the language.
func (p *program) chooseLanguage(args []string) error {
	if p.language == nil {
		p.language = words.OfEnvironment(os.Getenv)
	}
	for i, arg := range args {
		tag, ok := strings.CutPrefix(arg, "--lang=")
		switch {
		case arg == "--":
			return nil
		case arg == "--lang" && i+1 < len(args):
			tag = args[i+1]
		case !ok:
			continue
		}
		l, ok := words.OfLocale(tag)
		if !ok {
			return wrongUsage(words.Fail("command.of_flag", "flag", "lang", "what", words.T("command.not_a_language", "tag", tag, "known", words.Tags())))
		}
		p.language, p.languageGiven = l, true
	}
	return nil
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
	languageGiven  bool  // by --lang
	inside         fs.FS // the yearly tables inside the program
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
