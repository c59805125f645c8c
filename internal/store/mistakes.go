package store

import (
	"bytes"
	"slices"
	"strings"
	"unicode/utf8"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/yamldoc"
)

// doubtful reports whether a disagreement between facts at a key may itself
// come from a mistake already known: one in the same job, dependent or part.
func doubtful(known yamldoc.Problems, key string) bool {
	return slices.ContainsFunc(known, func(p yamldoc.Problem) bool {
		return p.Key == key || !p.Missing() && !p.Unknown() && part(p.Key) == part(key)
	})
}

// part is the first step of a key, "jobs[0]", or leads to a certificate, which
// agrees with nothing but itself: "jobs[0].certificate".
func part(key string) string {
	const certificate = ".certificate"
	if job, _, found := strings.Cut(key, certificate); found {
		return job + certificate
	}
	first, _, _ := strings.Cut(key, ".")
	return first
}

// numberLength is that of 123-45-6789.
const numberLength = 11

// numbers are the places in a text of every social security number written with
// its dashes, in comments as well.
func numbers(data []byte) (starts []int) {
	for from := 0; ; {
		i := bytes.IndexByte(data[from:], '-')
		if i < 0 {
			return starts
		}
		start := from + i - 3
		from += i + 1
		if numberAt(data, start) {
			starts = append(starts, start)
			from = start + numberLength
		}
	}
}

// numberAt reports whether ddd-dd-dddd, and no longer number, stands at a
// place of the text.
func numberAt(data []byte, start int) bool {
	end := start + numberLength
	if start < 0 || end > len(data) || start > 0 && digit(data[start-1]) || end < len(data) && digit(data[end]) {
		return false
	}
	for i, c := range data[start:end] {
		if dash := i == 3 || i == 6; dash != (c == '-') || !dash && !digit(c) {
			return false
		}
	}
	return true
}

func digit(c byte) bool { return c >= '0' && c <= '9' }

// withNumbers adds to the problems of a text the social security numbers in it,
// and takes out those that would repeat one.
func withNumbers(problems yamldoc.Problems, name string, data []byte) yamldoc.Problems {
	var found yamldoc.Problems
	for _, start := range numbers(data) {
		number := string(data[start : start+numberLength])
		problems = slices.DeleteFunc(problems, func(p yamldoc.Problem) bool {
			return strings.Contains(p.Key, number) || strings.Contains(p.Message, number)
		})
		before := data[:start]
		line := bytes.Count(before, []byte("\n")) + 1
		told := slices.ContainsFunc(problems, func(p yamldoc.Problem) bool {
			return p.Line == line && p.Message == household.NoSSN
		})
		if !told {
			column := utf8.RuneCount(before[bytes.LastIndexByte(before, '\n')+1:]) + 1
			found = append(found, yamldoc.Problem{File: name, Line: line, Column: column, Message: household.NoSSN})
		}
	}
	return problems.Join(found)
}
