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
	"example.com/plumbline/taxtables"
)

func (p *program) tablesCommand() *cobra.Command {
	cmd := &cobra.Command{
		Use:   "tables",
		Short: "List, show, check, compare and start the yearly tables",
		Long: `The figures of the law stand in one file a year, each group with its source
and how well it is known: found, derived, mixed or memory.`,
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
			Args:  cobra.MaximumNArgs(1),
			RunE:  func(cmd *cobra.Command, args []string) error { return p.tablesCheck(args) },
		},
		&cobra.Command{
			Use:   "compare YEAR YEAR",
			Short: "The figures that differ between two years",
			Args:  exactly(2, "two years"),
			RunE:  func(cmd *cobra.Command, args []string) error { return p.tablesCompare(args[0], args[1]) },
		},
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
		return 0, wrongUsage(fmt.Errorf("%q is not a tax year; write it like 2026", text))
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

func (p *program) tablesCheck(args []string) error {
	var fsys fs.FS = taxtables.Files
	if len(args) == 1 {
		if info, err := os.Stat(args[0]); err != nil {
			return systemFailed(err)
		} else if !info.IsDir() {
			return wrongUsage(fmt.Errorf("%s is a file; name the folder that holds the yearly tables", args[0]))
		}
		fsys = os.DirFS(args[0])
	}
	if problems := tables.Check(fsys); len(problems) > 0 {
		return wrongAnswers(problems)
	}
	for _, year := range tables.Years(fsys) {
		fmt.Fprintf(p.stdout, "%d: every figure stands, with its source\n", year)
	}
	return nil
}

func (p *program) tablesStartCommand() *cobra.Command {
	var dir string
	cmd := &cobra.Command{
		Use:   "start YEAR",
		Short: "Begin a new year's file from the year before",
		Long: `Writes YEAR.yaml from the tables of the year before, with every figure that is
set anew each year left open. plumbline tables check names each one still open.`,
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
	if slices.Contains(tables.Years(fsys), year) {
		return wrongUsage(fmt.Errorf("there is a table for %d already; begin the year after the last one", year))
	}
	begun, err := tables.Start(fsys, year-1, year)
	if err != nil {
		return wrongAnswers(err)
	}
	name := filepath.Join(dir, fmt.Sprintf("%d.yaml", year))
	f, err := os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if errors.Is(err, fs.ErrExist) {
		return wrongUsage(fmt.Errorf("%s is there already; it is left as it is", name))
	}
	if err != nil {
		return systemFailed(err)
	}
	_, err = f.Write(begun)
	if err := errors.Join(err, f.Close()); err != nil {
		return systemFailed(err)
	}
	fmt.Fprintf(p.stdout, "Wrote %s. Fill in what is open, then run: plumbline tables check %s\n", name, dir)
	return nil
}
