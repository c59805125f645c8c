package terminal

import (
	"errors"
	"strings"
	"unicode"

	"github.com/charmbracelet/x/ansi"
)

// clean is a text without anything that a terminal would act on. Names come
// from answers files that anybody may have written. Line breaks stay.
func clean(s string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r == '\n':
			return r
		case unicode.IsSpace(r):
			return ' '
		case r == unicode.ReplacementChar, !unicode.IsGraphic(r):
			return -1
		}
		return r
	}, s)
}

// wrapped is a text in lines no wider than width, broken at spaces where
// possible. An empty text has no lines.
func wrapped(s string, width int) []string {
	if s == "" {
		return nil
	}
	// The library breaks lines at hyphens too; "W-4" must stay whole.
	const hyphen = "\u2011"
	broken := ansi.Wrap(strings.ReplaceAll(s, "-", hyphen), max(width, 1), "")
	lines := strings.Split(strings.ReplaceAll(broken, hyphen, "-"), "\n")
	for i := range lines {
		lines[i] = strings.TrimRight(lines[i], " ")
	}
	return lines
}

// hung is a text in lines, its first one after a mark and the others set in as
// far.
func hung(mark, s string, width int) []string {
	lines := wrapped(s, width-ansi.StringWidth(mark))
	for i := range lines {
		if i == 0 {
			lines[i] = mark + lines[i]
		} else {
			lines[i] = strings.Repeat(" ", ansi.StringWidth(mark)) + lines[i]
		}
	}
	return lines
}

// flowed are items one after the other in lines, none broken that has room on a
// line of its own.
func flowed(items []string, separator string, width int) []string {
	var lines []string
	for i, item := range items {
		if i < len(items)-1 {
			item += separator
		}
		last := len(lines) - 1
		if last >= 0 && ansi.StringWidth(lines[last])+ansi.StringWidth(strings.TrimRight(item, " ")) <= width {
			lines[last] += item
			continue
		}
		lines = append(lines, wrapped(item, width)...)
		lines[len(lines)-1] += strings.Repeat(" ", len(item)-len(strings.TrimRight(item, " ")))
	}
	return lines
}

// errNoFile is what an empty file name gets.
var errNoFile = errors.New("Type the name of a file.")

// ascii is a text of the program's own in signs that every terminal and screen
// reader has.
var ascii = strings.NewReplacer("…", "...", "’", "'", "‘", "'", "“", `"`, "”", `"`, "–", "-", "—", "-", "×", "x", "−", "-", "§", "section ").Replace
