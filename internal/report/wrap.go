package report

import (
	"strings"

	"github.com/charmbracelet/x/ansi"
)

// wrap breaks running text into lines no wider than width by the measure: at
// spaces alone, so that "W-4" stays whole, and inside a word only where the word
// alone is too wide.
func wrap[N int | float64](s string, width N, measure func(string) N) []string {
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
			lines = append(lines, head)
			line = line[len(head):]
		}
	}
	return append(lines, line)
}

// leading is as much of a word as fits, at least one character.
func leading[N int | float64](word string, width N, measure func(string) N) string {
	end := 0
	for i := range word {
		if i > 0 && measure(word[:i]) > width {
			break
		}
		end = i
	}
	if end == 0 {
		for i := range word {
			if i > 0 {
				return word[:i]
			}
		}
		return word
	}
	return word[:end]
}

// columns wraps text to a number of terminal columns.
func columns(s string, width int) []string { return wrap(s, max(width, 1), ansi.StringWidth) }
