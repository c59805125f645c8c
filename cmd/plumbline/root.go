package main

import (
	"errors"
	"io/fs"
	"os"
	"strings"

	"github.com/spf13/cobra"

	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/tables"
	"example.com/plumbline/internal/words"
)

// root is the command line: every command with its flags.
func (p *program) root() *cobra.Command {
	var f interviewFlags
	root := &cobra.Command{
		Use: "plumbline",
		// Args stays nil: then the library holds what follows against the names of
		// the commands, and suggests one for a slip of the finger.
		RunE:          func(cmd *cobra.Command, args []string) error { return p.interview("", f) },
		Version:       versionText(),
		SilenceErrors: true,
		SilenceUsage:  true,
	}
	root.SetIn(p.stdin)
	root.SetOut(p.stdout)
	root.SetErr(p.stderr)
	root.PersistentFlags().StringVar(&p.tablesDir, "tables", "", "")
	root.PersistentFlags().Var(&p.rise, "rise", "")
	root.PersistentFlags().String("lang", "", "") // read before, see chooseLanguage
	root.SetVersionTemplate("plumbline {{.Version}}\n")
	root.SetHelpFunc(func(c *cobra.Command, _ []string) { p.help(c) })
	root.SetHelpCommand(p.helpCommand(root))
	root.SetFlagErrorFunc(usageMistake)
	f.add(root)
	root.AddCommand(
		p.interviewCommand(),
		p.certificateCommand(),
		p.taxCommand(),
		p.paycheckCommand(),
		p.stubCommand(),
		p.explainCommand(),
		p.compareCommand(),
		p.batchCommand(),
		p.tablesCommand(),
		p.forgetCommand(),
		p.versionCommand(),
		p.manualCommand(),
	)
	// Before the command is looked for: a flag that is not known then is taken to
	// have the next argument for its value.
	root.InitDefaultHelpFlag()
	root.InitDefaultVersionFlag()
	return root
}

// say words a text by its code, with its values by name.
func (p *program) say(code string, namesAndValues ...any) string {
	return p.language.Say(words.T(code, namesAndValues...))
}

// tables are the yearly tables inside the program, under those of --tables.
func (p *program) tables() (fs.FS, error) {
	if p.tablesDir == "" {
		return p.inside, nil
	}
	info, err := os.Stat(p.tablesDir)
	if err != nil {
		return nil, systemFailed(words.Fail("command.of_flag", "flag", "tables", "what", p.errorText(err)))
	}
	if !info.IsDir() {
		return nil, wrongUsage(words.Fail("command.of_flag", "flag", "tables", "what", words.T("command.not_a_folder", "file", p.tablesDir)))
	}
	return tables.Overlay(os.DirFS(p.tablesDir), p.inside), nil
}

// year is one year's tables: loaded or, for a year after the last one, projected
// for the rise of --rise. Each is made once.
func (p *program) year(year int) (*tables.Year, error) {
	if y := p.years[year]; y != nil {
		return y, nil
	}
	fsys, err := p.tables()
	if err != nil {
		return nil, err
	}
	var y *tables.Year
	if before := p.years[year-1]; before != nil {
		y, err = tables.After(fsys, before, p.rise.chosen)
	} else {
		y, err = tables.ForYear(fsys, year, p.rise.chosen)
	}
	if err != nil {
		return nil, wrongAnswers(err)
	}
	if p.years == nil {
		p.years = map[int]*tables.Year{}
	}
	p.years[year] = y
	return y, nil
}

// nextYear is the tables of the year after; nil where there can be none.
func (p *program) nextYear(year int) (*tables.Year, error) {
	y, err := p.year(year + 1)
	if errors.Is(err, tables.ErrNoTable) {
		return nil, nil
	}
	return y, err
}

// riseFlag is --rise: a rise of prices, like 2.6%.
type riseFlag struct{ chosen *money.Rate }

// Set reads what was typed.
func (f *riseFlag) Set(typed string) error {
	var r money.Rate
	percent, isPercent := strings.CutSuffix(strings.TrimSpace(typed), "%")
	a, err := money.Parse(percent)
	if err == nil {
		r = a.DividedBy(100).Over(money.Dollars(1))
	}
	const most = 20 // percent a year; anything above is a slip of the pen
	if err != nil || !isPercent || a.IsNegative() || a.More(money.Dollars(most)) {
		return words.Fail("tables.not_a_rise", "typed", typed)
	}
	f.chosen = &r
	return nil
}

// String is the rise that was chosen.
func (f *riseFlag) String() string {
	if f.chosen == nil {
		return ""
	}
	return f.chosen.String()
}

// Type names the value in help.
func (f *riseFlag) Type() string { return "PERCENT" }
