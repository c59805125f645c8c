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
	fl.BoolVar(&f.plain, "plain", false, "")
	fl.BoolVar(&f.visitor, "visitor", false, "")
	fl.StringVar(&f.theme, "theme", "auto", "")
	fl.IntVar(&f.year, "year", 0, "")
	fl.BoolVar(&f.encrypt, "encrypt", false, "")
}

func (p *program) interviewCommand() *cobra.Command {
	var f interviewFlags
	cmd := &cobra.Command{
		Use:  "interview",
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
		return takes(cmd, "one_answers")
	case len(args) == 1 && args[0] == "-":
		return wrongUsage(words.Fail("command.interview_needs_file"))
	}
	return nil
}

// interview carries the interview on with the answers in the named file, or
// asks for one.
func (p *program) interview(name string, f interviewFlags) error {
	theme, err := terminal.ThemeNamed(f.theme)
	if err != nil {
		return wrongUsage(words.Fail("command.of_flag", "flag", "theme", "what", err))
	}
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM, syscall.SIGHUP)
	defer stop()
	front := terminal.New(p.stdin, p.stdout, terminal.Options{Plain: f.plain, Theme: theme, Words: p.language, Languages: words.All(), Spoke: func(l *words.Language) { p.language = l }, AskLanguage: !p.languageGiven})
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
	session, err := interview.Start(a.document(), interview.Env{Today: p.today, Year: f.taxYear(p.today), Tables: p.year, Language: p.language})
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
		o.MakeFolder = path == place.Default // the screen has named it
		file, err := store.Open(path, o)
		if err == nil {
			return &answersFile{name: path, file: file}, nil
		}
		if errors.Is(err, terminal.ErrInterrupted) || errors.Is(err, terminal.ErrEndOfInput) {
			return nil, openFailed(err)
		}
		if place.Problem == p.errorText(err) {
			return nil, openFailed(err) // asked twice for the same
		}
		place.Problem = p.errorText(err)
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
				return words.Fail("command.taken", "file", path)
			}
			if err := p.writeResults(s, path); err != nil {
				return err
			}
			written[path] = true
			return nil
		},
		Fill: func(blank string) (files, notes []string, err error) { return p.fillResults(s, homePath(blank)) },
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
	switch ending := strings.ToLower(filepath.Ext(path)); ending {
	case ".pdf":
		err = p.pages().PDF(&b, pages)
	case ".md", ".markdown":
		for _, page := range pages {
			err = errors.Join(err, p.pages().Markdown(&b, page))
			b.WriteString("\n")
		}
	case ".txt", ".text", "":
		for _, page := range pages {
			err = errors.Join(err, report.Text(&b, page, report.Style{Width: report.Width, Unicode: true}))
			b.WriteString("\n\n")
		}
	default:
		return words.Fail("screen.write.ending", "ending", ending)
	}
	if err != nil {
		return err
	}
	return writeFile(path, b.Bytes(), true) // whether it may be replaced was asked before
}

// fillResults fills copies of the official form, beside the blank one.
func (p *program) fillResults(s *interview.Session, blankPath string) (files, notes []string, err error) {
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
			notes = append(notes, p.language.Say(note))
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
	saved := kept && a.file.Saved()
	var classified statusError
	switch {
	case errors.As(err, &classified):
		return err
	case err == nil && saved:
		p.tell("command.answers_in", "file", a.name, "again", again)
		return nil
	case err == nil:
		return nil
	case errors.Is(err, terminal.ErrLeft) && saved:
		p.tell("command.answers_saved", "file", a.name, "again", again)
		return nil
	case errors.Is(err, terminal.ErrLeft):
		return nil
	case errors.Is(err, terminal.ErrEndOfInput), errors.Is(err, terminal.ErrInterrupted):
		if saved {
			err = words.Fail("command.saved_so_far", "why", p.errorText(err), "file", a.name, "again", again)
		}
		return wrongAnswers(err)
	}
	return systemFailed(err)
}

func isDefault(path string) bool {
	usual, err := store.DefaultPath()
	return err == nil && path == usual
}
