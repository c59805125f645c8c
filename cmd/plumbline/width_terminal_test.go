package main

import (
	"path/filepath"
	"strings"
	"testing"

	"example.com/plumbline/internal/layout"
)

// TestCommandsKeepToTheWidth prints pages on terminals of several widths: no
// line is broken by the terminal, and no word by the program.
func TestCommandsKeepToTheWidth(t *testing.T) {
	file, err := filepath.Abs("../../testdata/two-earners/household.yaml")
	if err != nil {
		t.Fatal(err)
	}
	const wide = 400 // lines are kept as they are printed
	for _, args := range [][]string{
		{"certificate", file},
		{"tax", "--why", file},
		{"stub", file},
		{"compare", file, file},
		{"explain", file, "3"},
		{"tables", "check"},
		{"paycheck", "--pay", "2400", "--frequency", "biweekly"},
	} {
		words := map[string]bool{}
		for _, columns := range []int{120, 80, 60} {
			on := startScreen(t, programCommand(t, t.TempDir(), aDay, args...), columns, wide)
			on.exit()
			for line := range strings.SplitSeq(on.output(), "\n") {
				line = strings.TrimRight(line, "\r")
				if w := layout.Width(line); w > columns {
					t.Errorf("%v: %d columns on a terminal of %d: %q", args, w, columns, line)
				}
				for _, word := range strings.Fields(line) {
					if columns < 120 && !words[word] && layout.Width(word) < 12 && strings.Trim(word, "-#=.|█▓░│─┄") != "" {
						t.Errorf("%v: at %d columns there is %q, which is no word of the page at 120", args, columns, word)
					}
					if columns == 120 {
						words[word] = true
					}
				}
			}
		}
	}
}
