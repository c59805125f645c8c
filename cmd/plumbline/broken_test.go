package main

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"unicode"

	"example.com/plumbline/internal/words"
)

// slips are what goes wrong with one line of an answers file, under a pen, an
// editor or an enemy.
var slips = []struct {
	name string
	make func(line string) string
}{
	{"taken out", func(string) string { return "" }},
	{"written twice", func(l string) string { return l + "\n" + l }},
	{"cut in half", func(l string) string { return l[:len(l)/2] }},
	{"with no value", func(l string) string { k, _, _ := strings.Cut(l, ":"); return k + ":" }},
	{"a word for a value", valued("x")},
	{"a negative value", valued("-1")},
	{"a value without end", valued("1e400")},
	{"a long number", valued(strings.Repeat("9", 300))},
	{"an impossible day", valued("2026-13-45")},
	{"a list for a value", valued("[1, 2]")},
	{"a mapping for a value", valued("{a: 1}")},
	{"an alias", valued("*a")},
	{"a tag", valued("!!float 3")},
	{"nothing for a value", valued("~")},
	{"not a number", valued("NaN")},
	{"a steering value", valued("\x1b[2J")},
	{"a quoted steering value", valued(`"\e[2J\u202e"`)},
	{"a wrong key", func(l string) string { return strings.Replace(l, ":", "s:", 1) }},
	{"indented by a tab", func(l string) string { return "\t" + l }},
	{"indented too far", func(l string) string { return "   " + l }},
	{"with a zero byte", func(l string) string { return l + "\x00" }},
	{"with bytes that are no text", func(l string) string { return l + "\xff\xfe" }},
	{"with an open quotation mark", func(l string) string { return l + ` "` }},
	{"with a number that no file may hold", func(l string) string { return l + " # 123-45-6789" }},
}

func valued(value string) func(string) string {
	return func(line string) string {
		k, _, _ := strings.Cut(line, ":")
		return k + ": " + value
	}
}

// place is how a mistake in an answers file begins.
var place = regexp.MustCompile(`^plumbline: (error: )?standard input:\d+:\d+: `)

// TestBrokenAnswers: each line of each demonstration household, broken in each
// way. Whatever comes of it, nothing panics, the exit status is that of a result
// or of wrong answers, a mistake is named on standard error with its place, and
// nothing that could steer a terminal is printed.
func TestBrokenAnswers(t *testing.T) {
	files, err := filepath.Glob("../../testdata/*/household.yaml")
	if err != nil || len(files) == 0 {
		t.Fatalf("no demonstration households: %v", err)
	}
	tried, refused := 0, 0
	for _, file := range files {
		whole, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		lines := strings.Split(strings.TrimRight(string(whole), "\n"), "\n")
		for i, line := range lines {
			if !strings.Contains(line, ":") || strings.HasPrefix(strings.TrimSpace(line), "#") {
				continue
			}
			for _, slip := range slips {
				broken := append(append(append([]string{}, lines[:i]...), slip.make(line)), lines[i+1:]...)
				at := fmt.Sprintf("%s, line %d %s", file, i+1, slip.name)
				if bad := brokenRun(t, at, strings.Join(broken, "\n"), "tax", "-", "--json"); bad {
					refused++
				}
				tried++
			}
		}
	}
	t.Logf("%d broken files, %d refused", tried, refused)
	if tried < 1300 || refused < tried/2 {
		t.Errorf("%d broken files tried and %d refused; this test is to try 1,300 or more, most of which are wrong", tried, refused)
	}
}

// brokenRun carries out a command with a broken file on standard input, and
// reports whether it was refused.
func brokenRun(t *testing.T, at, text string, args ...string) (refused bool) {
	t.Helper()
	defer func() {
		if wrong := recover(); wrong != nil {
			t.Errorf("%s: panic: %v", at, wrong)
		}
	}()
	var out, errs bytes.Buffer
	p := &program{stdin: strings.NewReader(text), stdout: &out, stderr: &errs, today: docsToday, language: words.English(), inside: through2026(t), years: clockYears}
	status := p.run(args)
	switch status {
	case exitDone:
		if errs.Len() > 0 {
			t.Errorf("%s: done, with an error: %s", at, &errs)
		}
	case exitAnswers:
		if out.Len() > 0 {
			t.Errorf("%s: refused, with a result: %s", at, &out)
		}
		if !place.MatchString(errs.String()) {
			t.Errorf("%s: refused without a place: %q", at, &errs)
		}
	default:
		t.Errorf("%s: exit status %d: %s", at, status, &errs)
	}
	if r := steering(out.String() + errs.String()); r != 0 {
		t.Errorf("%s: %U is printed", at, r)
	}
	return status == exitAnswers
}

// steering is the first character of a text that could steer a terminal.
func steering(text string) rune {
	for _, r := range text {
		if r != '\n' && !unicode.IsGraphic(r) {
			return r
		}
	}
	return 0
}

// TestBrokenArguments: every command with arguments and flags that it has no use
// for. The exit status is that of wrong usage, wrong answers or a file that is
// not there, and never of a result.
func TestBrokenArguments(t *testing.T) {
	commands := []string{"interview", "certificate", "tax", "paycheck", "stub", "explain", "compare", "batch", "tables", "tables show", "tables check", "tables compare", "tables start", "forget", "version"}
	wrong := []string{
		"--nothing-of-the-kind", "--json=maybe", "--year x", "--tables", "--tables /nowhere/at/all", "-z", "--plan", "--plan \x1b[2J a",
		"/nowhere/at/all a b c d", "\x00", "\xff", "--pay 1e9999999", "--from -", "--", "-- -- --", "no\x1b[2Jwhere", strings.Repeat("a", 5000),
	}
	tried := 0
	for _, command := range commands {
		for _, w := range wrong {
			args := append(strings.Fields(command), strings.Fields(w)...)
			at := fmt.Sprintf("%q", args)
			var out, errs bytes.Buffer
			status := func() (status int) {
				defer func() {
					if wrong := recover(); wrong != nil {
						t.Errorf("%s: panic: %v", at, wrong)
					}
				}()
				return run(args, strings.NewReader(""), &out, &errs)
			}()
			if r := steering(errs.String()); r != 0 {
				t.Errorf("%s: %U is printed: %q", at, r, &errs)
			}
			if status != exitDone && errs.Len() == 0 {
				t.Errorf("%s: exit status %d without a word", at, status)
			}
			tried++
		}
	}
	t.Logf("%d broken command lines", tried)
}
