package store

import (
	"bytes"
	"slices"
	"strings"
	"unicode/utf8"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/yamldoc"
)

// disagreements are what a check of the facts reports, but for what may come
// from a mistake already known: one in the same job, dependent or part.
func disagreements(doc *yamldoc.Document, known yamldoc.Problems, check func(report func(key, message string))) (problems yamldoc.Problems) {
	doubtful := make(map[string]bool, 2*len(known))
	for _, p := range known {
		doubtful[p.Key] = true
		if !p.Missing() && !p.Unknown() {
			doubtful[part(p.Key)] = true
		}
	}
	check(func(key, message string) {
		if !doubtful[key] && !doubtful[part(key)] {
			problems = append(problems, doc.Problem(key, message))
		}
	})
	return problems
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

// mostNumbers is how many social security numbers are told one by one; of a
// text with more, nothing else is said.
const mostNumbers = 10

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
	starts := numbers(data)
	if len(starts) > mostNumbers {
		starts, problems = starts[:mostNumbers], nil
	}
	for _, start := range starts {
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
