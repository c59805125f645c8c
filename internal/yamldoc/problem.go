package yamldoc

import (
	"cmp"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"example.com/plumbline/internal/layout"
	"example.com/plumbline/internal/words"
)

// A Problem is one mistake in a document, with its place and what to do about
// it. Line and Column count from 1 (columns in characters); a Line of 0 means
// the place is not known. Key is the full key, like "jobs[0].pay", and empty
// when the mistake concerns the text as a whole.
type Problem struct {
	File         string
	Line, Column int
	Key          string
	What         words.Text
}

// Error is the problem in English.
func (p Problem) Error() string { return p.In(words.English()) }

// Message is what is wrong, in English, without the place.
func (p Problem) Message() string { return words.English().Say(p.What) }

// Says reports whether the problem is the one of a code, like "yaml.required".
func (p Problem) Says(code string) bool { return p.What.Code == code }

// In gives the problem on one line: file:line:column: key: message. It is
// Printable, whatever the file holds.
func (p Problem) In(l *words.Language) string {
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
	b.WriteString(l.Say(p.What))
	return Printable(b.String())
}

// Missing reports whether the mistake is that a required key is not there.
func (p Problem) Missing() bool { return p.Says(requiredKey) }

// Unknown reports whether the mistake is a key that nobody knows.
func (p Problem) Unknown() bool { return strings.HasPrefix(p.What.Code, unknown) }

// same reports whether two problems say the same of the same place.
func (p Problem) same(q Problem) bool {
	return p.File == q.File && p.Line == q.Line && p.Column == q.Column && p.Key == q.Key && p.What.Equal(q.What)
}

// Codes that Missing and Unknown look for.
const (
	requiredKey = "yaml.required"
	unknown     = "yaml.unknown"
)

// Said is what a package says that has no codes of its own for it.
func Said(message string) words.Text { return words.T("yaml.said", "what", message) }

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

// mostTold is how many problems are told one by one.
const mostTold = 1000

// Error gives the problems in English.
func (ps Problems) Error() string { return ps.In(words.English()) }

// In gives one problem a line, and how many more there are when they are very
// many.
func (ps Problems) In(l *words.Language) string {
	var lines []string
	for _, p := range ps[:min(len(ps), mostTold)] {
		lines = append(lines, p.In(l))
	}
	if more := len(ps) - mostTold; more > 0 {
		lines = append(lines, l.Say(words.T("yaml.more", "more", more)))
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
	byPlace := func(a, b Problem) int {
		return cmp.Or(cmp.Compare(a.Line, b.Line), cmp.Compare(a.Column, b.Column))
	}
	if !slices.IsSortedFunc(ps, byPlace) { // they mostly are, and sorting many takes long
		slices.SortStableFunc(ps, byPlace)
	}
	var told Problems
	for _, p := range ps {
		if !slices.ContainsFunc(told[max(0, len(told)-8):], p.same) {
			told = append(told, p)
		}
	}
	return told
}
