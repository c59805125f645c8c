package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"os/signal"
	"path/filepath"
	"strings"
	"syscall"

	"github.com/spf13/cobra"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/interview"
	"example.com/plumbline/internal/report"
	"example.com/plumbline/internal/store"
	"example.com/plumbline/internal/terminal"
	"example.com/plumbline/internal/words"
	"example.com/plumbline/internal/yamldoc"
)

// interviewFlags say how the interview is carried on.
type interviewFlags struct {
	plain, encrypt bool
	visitor        bool
	theme          string
	year           int // the tax year; 0: that of today
}

// taxYear is the year that the interview is for.
func (f *interviewFlags) taxYear(today household.Date) int {
	if f.year == 0 {
		return today.Year
	}
	return f.year
}

func (f *interviewFlags) add(cmd *cobra.Command) {
	fl := cmd.Flags()
	fl.BoolVar(&f.plain, "plain", false, "ask line by line, for screen readers and simple terminals")
	fl.BoolVar(&f.visitor, "visitor", false, "for helpers: keep nothing on disk, and start over for the next visitor")
	fl.StringVar(&f.theme, "theme", "auto", "colors for a `THEME`: light, dark or plain (none)")
	fl.IntVar(&f.year, "year", 0, "the tax `YEAR` to answer for; today's if left out")
	fl.BoolVar(&f.encrypt, "encrypt", false, "keep the answers encrypted with a passphrase")
}

func (p *program) interviewCommand() *cobra.Command {
	var f interviewFlags
	cmd := &cobra.Command{
		Use:   "interview [FILE]",
		Short: "The interview: questions, then what to write on each certificate",
		Long: `Asks what is needed to fill in Form W-4, one question at a time, with the form
as it stands beside it, and shows what to write, why, and what to do next.

The answers are kept in FILE after every question. When FILE exists the
interview goes on where it was left; answers that were complete on an earlier
day are asked for what has changed since. Without FILE it asks where to keep
them.

Where standard input or output is no terminal, or the terminal is a simple one,
it asks line by line.`,
		Args: atMostOneFile,
		RunE: func(cmd *cobra.Command, args []string) error {
			name := ""
			if len(args) == 1 {
				name = args[0]
			}
			return p.interview(name, f)
		},
	}
	f.add(cmd)
	return cmd
}

// atMostOneFile refuses more than one file, and standard input.
func atMostOneFile(cmd *cobra.Command, args []string) error {
	switch {
	case len(args) > 1:
		return wrongUsage(fmt.Errorf("%s takes one answers file; see plumbline %s --help", cmd.Name(), cmd.Name()))
	case len(args) == 1 && args[0] == "-":
		return wrongUsage(errors.New("the interview writes the answers down after every question, so it needs the name of a file"))
	}
	return nil
}

// interview carries the interview on with the answers in the named file, or
// asks for one.
func (p *program) interview(name string, f interviewFlags) error {
	theme, err := terminal.ThemeNamed(f.theme)
	if err != nil {
		return wrongUsage(fmt.Errorf("--theme: %w", err))
	}
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM, syscall.SIGHUP)
	defer stop()
	front := terminal.New(p.stdin, p.stdout, terminal.Options{Plain: f.plain, Theme: theme, Words: p.language})
	if f.visitor {
		return p.visitors(ctx, front, name, f)
	}
	open := store.Options{Passphrase: p.passphrase, Encrypt: f.encrypt}
	a, err := p.openAnswers(ctx, front, name, open)
	if err != nil {
		return p.afterwards(err, nil, name)
	}
	if a, err = p.inYear(a, f.taxYear(p.today), open); err != nil {
		return openFailed(err)
	}
	defer a.close()
	if a.file != nil && a.file.NewlyEncrypted() {
		p.tell("files.encrypted", "file", a.name)
	}
	session, err := interview.Start(a.document(), interview.Env{Today: p.today, Year: f.taxYear(p.today), Tables: p.year})
	if err != nil {
		return wrongAnswers(err)
	}
	if a.from != nil { // carried over: what is said to be saved is there from the beginning
		if err := a.save(session.Document()); err != nil {
			return systemFailed(err)
		}
	}
	err = front.Run(ctx, p.sitting(session, a))
	return p.afterwards(err, a, name)
}

// answersFile is where the answers are kept; with no file, nowhere.
type answersFile struct {
	name string // as to be shown
	file *store.File
	from *yamldoc.Document // the answers of an earlier year to begin with; nil: those in the file
}

func (a *answersFile) document() *yamldoc.Document {
	if a.file == nil {
		return nil
	}
	if a.from != nil {
		return a.from
	}
	return a.file.Document()
}

func (a *answersFile) save(doc *yamldoc.Document) error {
	if a.file == nil {
		return nil
	}
	return a.file.Save(doc)
}

func (a *answersFile) close() {
	if a.file != nil {
		a.file.Close() // nothing is left to lose; the system lifts the lock anyhow
	}
}

// openAnswers opens the named answers file, or the one that the person chooses;
// a choice that cannot be opened is asked for again.
func (p *program) openAnswers(ctx context.Context, front terminal.Front, name string, o store.Options) (*answersFile, error) {
	if name != "" {
		file, err := store.Open(name, o)
		if err != nil {
			return nil, openFailed(err)
		}
		return &answersFile{name: name, file: file}, nil
	}
	place := terminal.Place{Default: "plumbline-answers.yaml"}
	if usual, err := store.DefaultPath(); err == nil {
		place.Default = usual
	}
	for {
		_, err := os.Stat(place.Default)
		place.There = err == nil
		path, err := front.Where(ctx, place)
		if err != nil {
			return nil, err
		}
		if path == "" {
			return new(answersFile), nil
		}
		path = homePath(path)
		file, err := store.Open(path, o)
		if err == nil {
			return &answersFile{name: path, file: file}, nil
		}
		if errors.Is(err, terminal.ErrInterrupted) || errors.Is(err, terminal.ErrEndOfInput) {
			return nil, openFailed(err)
		}
		if place.Problem == err.Error() {
			return nil, openFailed(err) // asked twice for the same
		}
		place.Problem = err.Error()
	}
}

// homePath is a path in which a leading ~ stands for the home folder.
func homePath(path string) string {
	rest, ok := strings.CutPrefix(path, "~/")
	home, err := os.UserHomeDir()
	if !ok || err != nil {
		return path
	}
	return filepath.Join(home, rest)
}

// openFailed gives the error of opening an answers file its exit status.
func openFailed(err error) error {
	var mistakes yamldoc.Problems
	if errors.As(err, &mistakes) {
		return wrongAnswers(err)
	}
	return unread(err)
}

// sitting is what the front end needs to carry the interview on.
func (p *program) sitting(s *interview.Session, a *answersFile) terminal.Sitting {
	written := make(map[string]bool)
	return terminal.Sitting{
		Session: s,
		File:    a.name,
		Save:    func() error { return a.save(s.Document()) },
		WriteTo: freeName("withholding", ".pdf"),
		Write: func(path string) error {
			path = homePath(path)
			if _, err := os.Lstat(path); !errors.Is(err, fs.ErrNotExist) && !written[path] {
				return fmt.Errorf("%s is there already; give another name", path)
			}
			if err := p.writeResults(s, path); err != nil {
				return err
			}
			written[path] = true
			return nil
		},
		Fill: func(blank string) (files, notes []string, err error) { return fillResults(s, homePath(blank)) },
	}
}

// freeName is a name for a file that is not there yet.
func freeName(stem, ending string) string {
	name := stem + ending
	for n := 2; ; n++ {
		if _, err := os.Lstat(name); errors.Is(err, fs.ErrNotExist) || n > 99 {
			return name
		}
		name = fmt.Sprintf("%s-%d%s", stem, n, ending)
	}
}

// writeResults writes the result pages in the form that the path's ending asks
// for.
func (p *program) writeResults(s *interview.Session, path string) error {
	r, err := s.Result()
	if err != nil {
		return err
	}
	pages := p.pages().BlankPages(r)
	if !s.Blank() {
		pages = p.pages().Handover(r)
	}
	var b bytes.Buffer
	switch strings.ToLower(filepath.Ext(path)) {
	case ".pdf":
		err = p.pages().PDF(&b, pages)
	case ".md", ".markdown":
		for _, page := range pages {
			err = errors.Join(err, p.pages().Markdown(&b, page))
			b.WriteString("\n")
		}
	default:
		for _, page := range pages {
			err = errors.Join(err, report.Text(&b, page, report.Style{Width: report.Width, Unicode: true}))
			b.WriteString("\n\n")
		}
	}
	if err != nil {
		return err
	}
	return writeFile(path, b.Bytes(), true) // whether it may be replaced was asked before
}

// fillResults fills copies of the official form, beside the blank one.
func fillResults(s *interview.Session, blankPath string) (files, notes []string, err error) {
	r, err := s.Result()
	if err != nil {
		return nil, nil, err
	}
	blank, err := readBlank(blankPath)
	if err != nil {
		return nil, nil, err
	}
	ending := filepath.Ext(blankPath)
	filled, err := fillForms(r, blank, freeName(strings.TrimSuffix(blankPath, ending)+"-filled", ending), false)
	for _, f := range filled {
		files = append(files, f.path)
		for _, note := range f.notes {
			notes = append(notes, words.English().Say(note))
		}
	}
	return files, notes, err
}

// afterwards says where the answers are and how to go on, and gives the way in
// which the interview ended its exit status. Before a file was chosen a is nil.
func (p *program) afterwards(err error, a *answersFile, named string) error {
	again := "plumbline"
	if a != nil && (named != "" || !isDefault(a.name)) {
		again += " interview " + yamldoc.Printable(a.name)
	}
	kept := a != nil && a.file != nil
	if kept && a.file.Kept() != "" {
		p.tell("files.kept_other", "file", a.name, "kept", a.file.Kept())
	}
	var classified statusError
	switch {
	case errors.As(err, &classified):
		return err
	case err == nil && kept:
		fmt.Fprintf(p.stderr, "Your answers are in %s. Come back with a newer pay stub, or when something changes: %s\n", yamldoc.Printable(a.name), again)
		return nil
	case err == nil:
		return nil
	case errors.Is(err, terminal.ErrLeft) && kept:
		fmt.Fprintf(p.stderr, "Your answers are saved in %s. Go on with: %s\n", yamldoc.Printable(a.name), again)
		return nil
	case errors.Is(err, terminal.ErrLeft):
		return nil
	case errors.Is(err, terminal.ErrEndOfInput), errors.Is(err, terminal.ErrInterrupted):
		if kept {
			err = fmt.Errorf("%w; the answers so far are saved in %s, go on with: %s", err, yamldoc.Printable(a.name), again)
		}
		return wrongAnswers(err)
	}
	return systemFailed(err)
}

func isDefault(path string) bool {
	usual, err := store.DefaultPath()
	return err == nil && path == usual
}
