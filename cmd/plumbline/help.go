package main

import (
	"errors"
	"fmt"
	"strconv"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"example.com/plumbline/internal/layout"
	"example.com/plumbline/internal/words"
)

// wordHelp gives a command and those below it the words of their help. They are
// looked up by the command's name: help.tables.check.short. That is done only
// where help is wanted, since reading them takes longer than starting up.
func (p *program) wordHelp(c *cobra.Command) {
	c.InitDefaultHelpFlag()
	c.InitDefaultVersionFlag()
	code := helpCode(c)
	c.DisableFlagsInUseLine = true
	c.Use = strings.TrimSpace(c.Name() + " " + p.say(code+".args"))
	c.Short, c.Long = p.say(code+".short"), ""
	if p.language.Has(code + ".long") {
		c.Long = p.say(code + ".long")
	}
	c.NonInheritedFlags().VisitAll(func(f *pflag.Flag) { f.Usage = p.say(p.flagCode(code, f.Name)) })
	for _, below := range c.Commands() {
		if !strings.HasPrefix(below.Name(), "__") {
			p.wordHelp(below)
		}
	}
}

// wordCompletions words what a shell shows beside the commands and flags that it
// completes: a line of text without marks, for the command of completions too.
func (p *program) wordCompletions(root *cobra.Command) {
	root.InitDefaultCompletionCmd()
	p.wordHelp(root)
	unmark := func(f *pflag.Flag) { f.Usage = strings.ReplaceAll(f.Usage, "`", "") }
	var visit func(c *cobra.Command)
	visit = func(c *cobra.Command) {
		c.NonInheritedFlags().VisitAll(unmark)
		for _, below := range c.Commands() {
			visit(below)
		}
	}
	visit(root)
}

// helpCode is where the words of a command's help are.
func helpCode(c *cobra.Command) string {
	if !c.HasParent() {
		return "help." + c.Name()
	}
	below := strings.TrimPrefix(c.CommandPath(), c.Root().Name()+" ")
	return "help." + strings.ReplaceAll(below, " ", ".")
}

// flagCode is where the words of a flag are: those of its command, or those that
// every command shares.
func (p *program) flagCode(command, flag string) string {
	if own := command + ".flag." + flag; p.language.Has(own) {
		return own
	}
	return "help.flag." + flag
}

// help prints the help of a command, as wide as pages are.
func (p *program) help(c *cobra.Command) {
	p.wordHelp(c.Root())
	width := p.width()
	line := func(s string) { fmt.Fprintln(p.stdout, s) }
	lines := func(all []string) {
		for _, s := range all {
			line(s)
		}
	}
	about := c.Long
	if about == "" {
		about = c.Short
	}
	lines(layout.Wrap(about, width))
	line("\n" + p.say("help.layout.usage"))
	lines(layout.Hang("  ", c.UseLine(), width))
	if c.HasAvailableSubCommands() {
		lines(layout.Hang("  ", c.CommandPath()+" "+p.say("help.layout.command"), width))
		line("\n" + p.say("help.layout.commands"))
		for _, below := range c.Commands() {
			if below.IsAvailableCommand() || below.Name() == "help" {
				lines(layout.Hang(layout.Pad("  "+below.Name(), 15), below.Short, width))
			}
		}
	}
	for _, set := range []struct {
		title string
		flags *pflag.FlagSet
	}{{"help.layout.flags", c.LocalFlags()}, {"help.layout.shared", c.InheritedFlags()}} {
		if set.flags.HasAvailableFlags() {
			line("\n" + p.say(set.title))
			set.flags.VisitAll(func(f *pflag.Flag) { lines(p.flagHelp(f, width)) })
		}
	}
	if c.HasAvailableSubCommands() {
		line("")
		lines(layout.Wrap(p.say("help.layout.more", "command", c.CommandPath()), width))
	}
}

// flagHelp is a flag with its value, what it does and what it is when left out.
func (p *program) flagHelp(f *pflag.Flag, width int) []string {
	const column = 24 // where the explanations begin
	if f.Hidden {
		return nil
	}
	value, usage := pflag.UnquoteUsage(f)
	mark := "      --" + f.Name
	if f.Shorthand != "" {
		mark = "  -" + f.Shorthand + ", --" + f.Name
	}
	if value != "" {
		mark += " " + value
	}
	if f.DefValue != "" && f.DefValue != "0" && f.DefValue != "false" && f.DefValue != "[]" {
		usage += " (" + p.say("help.layout.default", "value", f.DefValue) + ")"
	}
	if layout.Width(mark) > column-2 {
		return append([]string{mark}, layout.Hang(layout.Spaces(column), usage, width)...)
	}
	return layout.Hang(layout.Pad(mark, column), usage, width)
}

// helpCommand is "plumbline help COMMAND".
func (p *program) helpCommand(root *cobra.Command) *cobra.Command {
	return &cobra.Command{
		Use: "help",
		RunE: func(cmd *cobra.Command, args []string) error {
			of, rest, err := root.Find(args)
			if err != nil || len(rest) > 0 {
				return unknownCommand(root, strings.Join(args, " "))
			}
			p.help(of)
			return nil
		},
	}
}

// unknownCommand refuses a name that is no command, with the nearest that are.
func unknownCommand(in *cobra.Command, name string) error {
	err := wrongUsage(words.Fail("command.unknown", "name", name, "of", in.CommandPath()))
	if in.SuggestionsMinimumDistance <= 0 {
		in.SuggestionsMinimumDistance = 2
	}
	if near := in.SuggestionsFor(name); len(near) > 0 {
		return withHint(err, "files.did_you_mean", "names", near)
	}
	return err
}

// usageMistake is what the command line library says of a flag or a command, as
// we say it.
func usageMistake(c *cobra.Command, err error) error {
	var unknown *pflag.NotExistError
	var missing *pflag.ValueRequiredError
	var value *pflag.InvalidValueError
	var form *pflag.InvalidSyntaxError
	switch {
	case errors.As(err, &unknown):
		flag := "--" + unknown.GetSpecifiedName()
		if unknown.GetSpecifiedShortnames() != "" {
			flag = "-" + unknown.GetSpecifiedName()
		}
		return wrongUsage(words.Fail("command.unknown_flag", "flag", flag, "of", c.CommandPath()))
	case errors.As(err, &missing):
		return wrongUsage(words.Fail("command.flag_needs_value", "flag", missing.GetFlag().Name))
	case errors.As(err, &value):
		why := value.Unwrap()
		switch value.GetFlag().Value.Type() {
		case "int":
			why = words.Fail("command.not_whole")
		case "bool":
			why = words.Fail("command.not_yes_or_no")
		}
		return wrongUsage(words.Fail("command.flag_value", "flag", value.GetFlag().Name, "value", value.GetValue(), "why", why))
	case errors.As(err, &form):
		return wrongUsage(words.Fail("command.flag_form", "flag", form.GetSpecifiedFlag()))
	}
	return err
}

// unknownIn is the command line library's complaint of an unknown command, said
// by us; any other error as it is. The library has no type for it.
func unknownIn(root *cobra.Command, err error) error {
	rest, ok := strings.CutPrefix(err.Error(), "unknown command ")
	if !ok {
		return err
	}
	quoted, _ := strconv.QuotedPrefix(rest)
	name, unquoted := strconv.Unquote(quoted)
	if unquoted != nil {
		return err
	}
	return unknownCommand(root, name)
}
