package yamldoc

import (
	"bytes"
	"unicode/utf8"

	"gopkg.in/yaml.v3"
)

// cursor turns the library's lines and columns, the column in characters, into
// places in the text. Nodes come in the order of the text, so that it goes over
// each line once.
type cursor struct {
	text         []byte
	lines        []int // where each begins
	line, column int   // of at
	at           int
	steps        int // characters gone over, for a test
}

func newCursor(text []byte) cursor {
	lines := []int{0}
	for i, c := range text {
		if c == '\n' {
			lines = append(lines, i+1)
		}
	}
	return cursor{text: text, lines: lines, line: 1, column: 1}
}

func (c *cursor) place(line, column int) int {
	if line < 1 || line > len(c.lines) {
		return len(c.text)
	}
	if line != c.line || column < c.column {
		c.line, c.column, c.at = line, 1, c.lines[line-1]
	}
	for c.column < column && c.at < len(c.text) {
		_, size := utf8.DecodeRune(c.text[c.at:])
		c.at += size
		c.column++
		c.steps++
	}
	return c.at
}

// gapEnd is where the blanks, line ends and comments from a place on are over.
func gapEnd(text []byte, at int) int {
	for at < len(text) {
		switch text[at] {
		case ' ', '\t', '\n':
			at++
		case '#':
			at = lineEnd(text, at)
		default:
			return at
		}
	}
	return at
}

// scalarEnd is where a scalar ends that begins at a place. indent is that of the
// mapping or list that holds it.
func scalarEnd(text []byte, at int, y *yaml.Node, indent int) int {
	switch {
	case y.Style&yaml.DoubleQuotedStyle != 0:
		return at + quotedLength(text[at:], '"')
	case y.Style&yaml.SingleQuotedStyle != 0:
		return at + quotedLength(text[at:], '\'')
	case y.Style&(yaml.LiteralStyle|yaml.FoldedStyle) != 0:
		return blockEnd(text, at, indent)
	}
	// A plain scalar has no escapes: but for its white space, it is its text.
	for i := range len(y.Value) {
		c := y.Value[i]
		if c == ' ' || c == '\t' || c == '\n' {
			continue
		}
		for at < len(text) && text[at] != c {
			at++
		}
		at = min(at+1, len(text))
	}
	return at
}

// quotedLength is the number of bytes of the quoted scalar that text begins
// with.
func quotedLength(text []byte, quote byte) int {
	for i := 1; i < len(text); i++ {
		switch {
		case text[i] == '\\' && quote == '"':
			i++
		case text[i] == quote && quote == '\'' && i+1 < len(text) && text[i+1] == quote:
			i++
		case text[i] == quote:
			return i + 1
		}
	}
	return len(text)
}

// blockEnd is where a block scalar ends: behind its last line, without the line
// end. Blank lines behind that belong to it when its header says so with a plus.
func blockEnd(text []byte, at, indent int) int {
	end := lineEnd(text, at)
	explicit, keep := 0, false
	for _, c := range text[at+1 : end] {
		switch {
		case c == '+':
			keep = true
		case c >= '1' && c <= '9':
			explicit = int(c - '0')
		case c != '-':
			goto header
		}
	}
header:
	indent = max(indent, 0)
	if explicit > 0 {
		indent += explicit
	} else {
		indent = max(indent+1, deepest(text[min(end+1, len(text)):]))
	}
	for next := end + 1; next < len(text); {
		lineTo := lineEnd(text, next)
		line := text[next:lineTo]
		spaces := indentation(line)
		if spaces < indent && spaces < len(line) {
			break
		}
		if len(line) > indent || keep && lineTo < len(text) {
			end = lineTo
		}
		next = lineTo + 1
	}
	return end
}

// deepest is the indentation that a block scalar takes from its first lines:
// the widest of those up to the first that is not blank.
func deepest(text []byte) int {
	widest := 0
	for len(text) > 0 {
		line, rest, _ := bytes.Cut(text, []byte("\n"))
		spaces := indentation(line)
		widest = max(widest, spaces)
		if spaces < len(line) {
			break
		}
		text = rest
	}
	return widest
}
