package main

import (
	"bytes"
	"os"
	"strings"
	"testing"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/words"
)

// Every command and every flag has its words, and every entry of the help is of a
// command or a flag that is there.
func TestHelpHasItsWordsAndNoOthers(t *testing.T) {
	p := &program{language: words.English(), today: household.On(2026, 6, 15), stdout: new(bytes.Buffer)}
	root := p.root()
	root.InitDefaultHelpCmd()
	root.InitDefaultCompletionCmd()
	used := map[string]bool{}
	var visit func(c *cobra.Command)
	visit = func(c *cobra.Command) {
		c.InitDefaultHelpFlag()
		c.InitDefaultVersionFlag()
		code := helpCode(c)
		used[code+".args"], used[code+".short"], used[code+".long"] = true, true, true
		c.NonInheritedFlags().VisitAll(func(f *pflag.Flag) { used[p.flagCode(code, f.Name)] = true })
		for _, below := range c.Commands() {
			visit(below)
		}
	}
	visit(root)
	for code := range used {
		if !p.language.Has(code) && !strings.HasSuffix(code, ".long") {
			t.Errorf("en.yaml has no entry %s", code)
		}
	}
	codes, err := p.language.Codes()
	if err != nil {
		t.Fatal(err)
	}
	for _, code := range codes {
		if strings.HasPrefix(code, "help.") && !strings.HasPrefix(code, "help.layout.") && !used[code] {
			t.Errorf("%s is the help of nothing", code)
		}
	}
}

// A flag with a value names it, so that help never shows the name of a Go type.
func TestFlagsNameTheirValues(t *testing.T) {
	p := &program{language: words.English(), today: household.On(2026, 6, 15)}
	root := p.root()
	p.wordHelp(root)
	var visit func(c *cobra.Command)
	visit = func(c *cobra.Command) {
		c.NonInheritedFlags().VisitAll(func(f *pflag.Flag) {
			if name, _ := pflag.UnquoteUsage(f); name != "" && name != strings.ToUpper(name) && name != "OUT.pdf" && name != "BLANK.pdf" {
				t.Errorf("%s --%s has a value called %q", c.CommandPath(), f.Name, name)
			}
		})
		for _, below := range c.Commands() {
			visit(below)
		}
	}
	visit(root)
}

// The language is that of --lang, else that of the environment, else English.
func TestLanguageIsChosen(t *testing.T) {
	t.Setenv("LC_ALL", "")
	t.Setenv("LC_MESSAGES", "")
	t.Setenv("LANG", "")
	for _, tt := range []struct {
		lang, args, want string
		fails            bool
	}{
		{lang: "en_US.UTF-8", want: "en"},
		{lang: "qq_QQ.UTF-8", want: "en"},
		{lang: "C", want: "en"},
		{args: "--lang en tables list", want: "en"},
		{args: "--lang=en_GB tables list", want: "en"},
		{args: "tables list --lang qq", want: "en", fails: true},
		{args: "tables list -- --lang qq", want: "en"},
	} {
		os.Setenv("LANG", tt.lang)
		var p program
		err := p.chooseLanguage(strings.Fields(tt.args))
		if p.language.Tag() != tt.want || (err != nil) != tt.fails {
			t.Errorf("%q %q: %s, %v", tt.lang, tt.args, p.language.Tag(), err)
		}
	}
}
