package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strconv"

	"github.com/spf13/cobra"

	"example.com/plumbline/internal/layout"
	"example.com/plumbline/internal/tables"
	"example.com/plumbline/internal/words"
	"example.com/plumbline/internal/yamldoc"
)

func (p *program) tablesCommand() *cobra.Command {
	cmd := &cobra.Command{
		Use: "tables",
		Args: func(cmd *cobra.Command, args []string) error {
			if len(args) == 0 {
				return nil
			}
			return unknownCommand(cmd, args[0])
		},
		RunE: func(cmd *cobra.Command, args []string) error { return cmd.Help() },
	}
	cmd.AddCommand(
		&cobra.Command{
			Use:  "list",
			Args: exactly(0, "nothing"),
			RunE: func(cmd *cobra.Command, args []string) error { return p.tablesList() },
		},
		&cobra.Command{
			Use:  "show",
			Args: exactly(1, "year"),
			RunE: func(cmd *cobra.Command, args []string) error { return p.tablesShow(args[0]) },
		},
		&cobra.Command{
			Use:  "check",
			Args: between(0, 1, "one_folder"),
			RunE: func(cmd *cobra.Command, args []string) error { return p.tablesCheck(args) },
		},
		p.tablesCompareCommand(),
		p.tablesStartCommand(),
	)
	return cmd
}

func (p *program) tablesList() error {
	fsys, err := p.tables()
	if err != nil {
		return err
	}
	for _, year := range tables.Years(fsys) {
		fmt.Fprintln(p.stdout, year)
	}
	return nil
}

// yearNamed loads the tables of a year given on the command line.
func (p *program) yearNamed(text string) (*tables.Year, error) {
	year, err := yearNumber(text)
	if err != nil {
		return nil, err
	}
	return p.year(year)
}

func yearNumber(text string) (int, error) {
	year, err := strconv.Atoi(text)
	if err != nil || year < 1913 || year > 9999 {
		return 0, wrongUsage(words.Fail("tables.not_a_year", "typed", text))
	}
	return year, nil
}

func (p *program) tablesShow(text string) error {
	y, err := p.yearNamed(text)
	if err != nil {
		return err
	}
	return p.print(p.pages().Figures(y))
}

func (p *program) tablesCompareCommand() *cobra.Command {
	var projected bool
	cmd := &cobra.Command{
		Use:  "compare",
		Args: exactly(2, "two_years"),
		RunE: func(cmd *cobra.Command, args []string) error {
			if projected {
				return p.tablesMissed(args[0], args[1])
			}
			return p.tablesCompare(args[0], args[1])
		},
	}
	cmd.Flags().BoolVar(&projected, "projected", false, "")
	return cmd
}

func (p *program) tablesCompare(a, b string) error {
	before, err := p.yearNamed(a)
	if err != nil {
		return err
	}
	after, err := p.yearNamed(b)
	if err != nil {
		return err
	}
	return p.print(p.pages().Changes(before, after))
}

// tablesMissed compares a published year with its projection.
func (p *program) tablesMissed(from, to string) error {
	before, err := p.yearNamed(from)
	if err != nil {
		return err
	}
	published, err := p.yearNamed(to)
	if err != nil {
		return err
	}
	if published.Projected != nil {
		return wrongUsage(words.Fail("tables.not_published", "year", published.Year))
	}
	rise := before.AssumedRise()
	if p.rise.chosen != nil {
		rise = *p.rise.chosen
	}
	projected, err := tables.Project(before, published.Year, rise)
	if err != nil {
		return wrongUsage(err)
	}
	return p.print(p.pages().Missed(projected, published))
}

func (p *program) tablesCheck(args []string) error {
	fsys := p.inside
	if len(args) == 1 {
		if info, err := os.Stat(args[0]); err != nil {
			return systemFailed(err)
		} else if !info.IsDir() {
			return wrongUsage(words.Fail("tables.not_a_folder", "file", args[0]))
		}
		fsys = os.DirFS(args[0])
	}
	if problems := tables.Check(fsys); len(problems) > 0 {
		return wrongAnswers(problems)
	}
	for _, year := range tables.Years(fsys) {
		y, err := tables.Load(fsys, year)
		if err != nil {
			return wrongAnswers(err)
		}
		proof := y.Prove()
		l := proof.Levels[0] // the index of the twelve months to August, on which almost all depend
		text := words.T("tables.proved", "year", year, "figures", proof.Figures,
			"amounts", l.Amounts, "least", l.AtLeast.FloatString(3), "below", l.Below.FloatString(3))
		for _, line := range layout.Wrap(p.language.Say(text), p.width()) {
			fmt.Fprintln(p.stdout, line)
		}
	}
	return nil
}

func (p *program) tablesStartCommand() *cobra.Command {
	var dir string
	cmd := &cobra.Command{
		Use:  "start",
		Args: exactly(1, "year"),
		RunE: func(cmd *cobra.Command, args []string) error { return p.tablesStart(args[0], dir) },
	}
	cmd.Flags().StringVar(&dir, "dir", ".", "")
	return cmd
}

func (p *program) tablesStart(text, dir string) error {
	year, err := yearNumber(text)
	if err != nil {
		return err
	}
	fsys, err := p.tables()
	if err != nil {
		return err
	}
	name := filepath.Join(dir, fmt.Sprintf("%d.yaml", year))
	if _, err := os.Stat(name); err == nil {
		return p.tablesUpdate(name, dir, year)
	}
	if slices.Contains(tables.Years(fsys), year) {
		return wrongUsage(words.Fail("tables.there", "year", year))
	}
	begun, err := tables.Start(fsys, year-1, p.rise.chosen)
	if err != nil {
		return wrongAnswers(err)
	}
	f, err := os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if errors.Is(err, fs.ErrExist) {
		return wrongUsage(words.Fail("tables.file_there", "file", name))
	}
	if err != nil {
		return systemFailed(err)
	}
	_, err = f.Write(begun)
	if err := errors.Join(err, f.Close()); err != nil {
		return systemFailed(err)
	}
	y, err := p.year(year)
	if err != nil {
		return err
	}
	fmt.Fprintln(p.stdout, yamldoc.Printable(p.say("tables.started", "file", name, "rise", y.Projected.Rise, "dir", dir)))
	return nil
}

// tablesUpdate brings a started file up to date.
func (p *program) tablesUpdate(name, dir string, year int) error {
	updated, err := tables.Update(os.DirFS(dir), year)
	if errors.Is(err, tables.ErrFinished) {
		return wrongUsage(words.Fail("tables.file_there", "file", name))
	}
	if err != nil {
		return wrongAnswers(err)
	}
	if err := os.WriteFile(name, updated, 0o644); err != nil {
		return systemFailed(err)
	}
	fmt.Fprintln(p.stdout, yamldoc.Printable(p.say("tables.updated", "file", name)))
	return nil
}
