package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"github.com/spf13/cobra"

	"example.com/plumbline/internal/tables"
	"example.com/plumbline/internal/words"
	"example.com/plumbline/internal/yamldoc"
	"example.com/plumbline/taxtables"
)

func (p *program) tablesCommand() *cobra.Command {
	cmd := &cobra.Command{
		Use:   "tables",
		Short: "List, show, check, compare and start the yearly tables",
		Long: `The figures of the law are in one file a year, each with its source, how well
it is known, and the rule by which the law sets it anew. A year after the last
one is projected by those rules.`,
		Args: func(cmd *cobra.Command, args []string) error {
			if len(args) == 0 {
				return nil
			}
			meant := ""
			if s := cmd.SuggestionsFor(args[0]); len(s) > 0 {
				meant = "; did you mean " + strings.Join(s, " or ") + "?"
			}
			return wrongUsage(fmt.Errorf("unknown command %q for %q%s", args[0], cmd.CommandPath(), meant))
		},
		RunE: func(cmd *cobra.Command, args []string) error { return cmd.Help() },
	}
	cmd.AddCommand(
		&cobra.Command{
			Use:   "list",
			Short: "The years for which there are tables",
			Args:  exactly(0, "no arguments"),
			RunE:  func(cmd *cobra.Command, args []string) error { return p.tablesList() },
		},
		&cobra.Command{
			Use:   "show YEAR",
			Short: "A year's figures with their sources",
			Args:  exactly(1, "a year"),
			RunE:  func(cmd *cobra.Command, args []string) error { return p.tablesShow(args[0]) },
		},
		&cobra.Command{
			Use:   "check [DIR]",
			Short: "Check the tables in DIR, or those inside the program",
			Long: `Checks that every figure is there, with its source, and that the figures prove
each other: all amounts that rise with prices must follow, by their own base and
rounding, from one price level. A figure that does not is named with the one that
the law would give.`,
			Args: cobra.MaximumNArgs(1),
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
		Use:   "compare YEAR YEAR",
		Short: "The figures that differ between two years",
		Args:  exactly(2, "two years"),
		RunE: func(cmd *cobra.Command, args []string) error {
			if projected {
				return p.tablesMissed(args[0], args[1])
			}
			return p.tablesCompare(args[0], args[1])
		},
	}
	cmd.Flags().BoolVar(&projected, "projected", false, "how far off the second year was as projected from the first")
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
	var fsys fs.FS = taxtables.Files
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
		fmt.Fprintln(p.stdout, p.language.Say(text))
	}
	return nil
}

func (p *program) tablesStartCommand() *cobra.Command {
	var dir string
	cmd := &cobra.Command{
		Use:   "start YEAR",
		Short: "Start a new year's file, projected from the year before",
		Long: `Writes YEAR.yaml from the tables of the year before: every figure that is set
anew each year as it is projected, and marked so. Write the published figures over
them; plumbline tables check names each mark that is left. Run it again to bring
the figures up to date that follow from those you wrote.`,
		Args: exactly(1, "a year"),
		RunE: func(cmd *cobra.Command, args []string) error { return p.tablesStart(args[0], dir) },
	}
	cmd.Flags().StringVar(&dir, "dir", ".", "write the file into `DIR`")
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
