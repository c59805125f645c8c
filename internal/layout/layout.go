// Package layout sets text in lines of terminal columns, and makes text that
// strangers wrote harmless before it is shown. It hides how wide a letter is
// and what a terminal would act on.
//
// It never breaks a word that has room on a line of its own, nor one at its
// hyphen: "W-4" stays whole.
package layout

import (
	"strings"
	"unicode"

	"github.com/charmbracelet/x/ansi"
)

// Steers reports whether a terminal or a page would act on a character instead
// of showing it: control characters, format characters (which turn the
// direction of writing or hide text), private and unassigned ones.
func Steers(r rune) bool { return !unicode.IsGraphic(r) }

// Clean is a text in one line without anything that steers, and without bytes
// that are no text. Line breaks and tabs become spaces.
func Clean(s string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case unicode.IsSpace(r):
			return ' '
		case r == unicode.ReplacementChar, Steers(r):
			return -1
		}
		return r
	}, s)
}

// CleanLines is a text without anything that steers, its line breaks kept.
func CleanLines(s string) string {
	lines := strings.Split(s, "\n")
	for i, l := range lines {
		lines[i] = Clean(l)
	}
	return strings.Join(lines, "\n")
}

// cut is written where a text goes on.
const cut = "..."

// Clip is a text cut to a number of columns, with dots where it goes on.
func Clip(s string, columns int) string { return ansi.Truncate(s, columns, cut) }

// ClipLeft is the same with the end of the text kept, which tells files apart.
func ClipLeft(s string, columns int) string {
	return ansi.TruncateLeft(s, max(Width(s)-columns, 0), cut)
}

// Width is how many columns a text takes up; escape sequences take none.
func Width(s string) int {
	if plain(s) {
		return len(s)
	}
	return ansi.StringWidth(s)
}

// plain reports a text of ASCII letters and signs alone, a column each.
func plain(s string) bool {
	for i := range len(s) {
		if s[i] < ' ' || s[i] > '~' {
			return false
		}
	}
	return true
}

// Pad is a text with spaces after it, to a width.
func Pad(s string, width int) string { return s + Spaces(width-Width(s)) }

// PadLeft is a text with spaces before it, to a width.
func PadLeft(s string, width int) string { return Spaces(width-Width(s)) + s }

// Spaces are n spaces; none where n is not positive.
func Spaces(n int) string { return strings.Repeat(" ", max(n, 0)) }

// Wrap is a text in lines no wider than width. An empty text has no lines; line
// breaks in the text are kept.
func Wrap(s string, width int) []string {
	if s == "" {
		return nil
	}
	var lines []string
	for paragraph := range strings.SplitSeq(s, "\n") {
		lines = append(lines, WrapBy(paragraph, max(width, 1), Width)...)
	}
	return lines
}

// Hang is a text in lines, its first one after a mark and the others set in as
// far.
func Hang(mark, s string, width int) []string {
	lines := Wrap(s, width-Width(mark))
	for i := range lines {
		lines[i] = mark + lines[i]
		mark = Spaces(Width(mark))
	}
	return lines
}

// Flow are items one after the other in lines, none broken that has room on a
// line of its own. The separator ends in a space, or holds none.
func Flow(items []string, separator string, width int) []string {
	var lines []string
	gap := separator[len(strings.TrimRight(separator, " ")):]
	for i, item := range items {
		if i < len(items)-1 {
			item += strings.TrimRight(separator, " ")
		}
		if last := len(lines) - 1; last >= 0 && Width(lines[last])+Width(gap)+Width(item) <= width {
			lines[last] += gap + item
			continue
		}
		lines = append(lines, Wrap(item, width)...)
	}
	return lines
}

// WrapBy breaks one paragraph into lines no wider than width by a measure: at
// spaces alone, and inside a word only where the word alone is too wide. It has
// at least one line.
func WrapBy[N int | float64](s string, width N, measure func(string) N) []string {
	var lines []string
	line := ""
	for _, word := range strings.Fields(s) {
		longer := word
		if line != "" {
			longer = line + " " + word
		}
		if measure(longer) <= width {
			line = longer
			continue
		}
		if line != "" {
			lines = append(lines, line)
		}
		for line = word; measure(line) > width; {
			head := leading(line, width, measure)
			if head == line {
				break // one letter, wider than the line
			}
			lines = append(lines, head)
			line = line[len(head):]
		}
	}
	return append(lines, line)
}

// leading is as much of a word as fits, at least one character; a key or a path
// is parted after a dot, a slash or an underscore where it has one.
func leading[N int | float64](word string, width N, measure func(string) N) string {
	end, joint := 0, 0
	for i, r := range word {
		if i > 0 && end > 0 && measure(word[:i]) > width {
			break
		}
		end = i
		if next := i + len(string(r)); strings.ContainsRune("._/", r) && next < len(word) && measure(word[:next]) <= width {
			joint = next
		}
	}
	switch {
	case joint > 0:
		return word[:joint]
	case end == 0:
		return word
	}
	return word[:end]
}
