package yamldoc

import (
	"cmp"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"example.com/plumbline/internal/layout"
)

// A Problem is one mistake in a document, with its place and what to do about
// it. Line and Column count from 1 (columns in characters); a Line of 0 means
// the place is not known. Key is the full key, like "jobs[0].pay", and empty
// when the mistake concerns the text as a whole.
type Problem struct {
	File         string
	Line, Column int
	Key          string
	Message      string
}

// Error gives the problem on one line: file:line:column: key: message. It is
// Printable, whatever the file holds.
func (p Problem) Error() string {
	var b strings.Builder
	b.WriteString(p.File)
	if p.Line > 0 {
		b.WriteString(":" + strconv.Itoa(p.Line) + ":" + strconv.Itoa(p.Column))
	}
	if b.Len() > 0 {
		b.WriteString(": ")
	}
	if p.Key != "" {
		b.WriteString(p.Key + ": ")
	}
	b.WriteString(p.Message)
	return Printable(b.String())
}

// Missing reports whether the mistake is that a required key is not there.
func (p Problem) Missing() bool { return p.Message == requiredKey }

// Unknown reports whether the mistake is a key that nobody knows.
func (p Problem) Unknown() bool { return strings.HasPrefix(p.Message, unknown) }

const (
	requiredKey = "this key is required; add it"
	unknown     = "unknown key; "
)

// Printable is a text with everything in it that could steer a terminal, or
// the direction of writing, written as an escape.
func Printable(text string) string {
	if strings.IndexFunc(text, layout.Steers) < 0 && utf8.ValidString(text) {
		return text
	}
	var b strings.Builder
	for _, r := range text {
		if layout.Steers(r) {
			quoted := strconv.QuoteRuneToASCII(r)
			b.WriteString(quoted[1 : len(quoted)-1])
		} else {
			b.WriteRune(r)
		}
	}
	return b.String()
}

// Problems are all the mistakes found in a document, in the order of the text.
type Problems []Problem

// Error gives one problem a line.
func (ps Problems) Error() string {
	lines := make([]string, len(ps))
	for i, p := range ps {
		lines[i] = p.Error()
	}
	return strings.Join(lines, "\n")
}

// Err returns ps as an error, or nil when there are none.
func (ps Problems) Err() error {
	if len(ps) == 0 {
		return nil
	}
	return ps
}

// Join puts problems of the same document together, in the order of the text,
// each told once.
func (ps Problems) Join(more Problems) Problems {
	return slices.Concat(ps, more).sorted()
}

// sorted returns the problems in the order of the text, each told once.
func (ps Problems) sorted() Problems {
	slices.SortStableFunc(ps, func(a, b Problem) int {
		return cmp.Or(cmp.Compare(a.Line, b.Line), cmp.Compare(a.Column, b.Column))
	})
	var told Problems
	for _, p := range ps {
		if !slices.Contains(told[max(0, len(told)-8):], p) {
			told = append(told, p)
		}
	}
	return told
}
