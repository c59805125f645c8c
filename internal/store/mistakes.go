package store

import (
	"bytes"
	"slices"
	"strings"
	"unicode/utf8"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/words"
	"example.com/plumbline/internal/yamldoc"
)

// disagreements are what a check of the facts reports, but for what may come
// from a mistake already known: one in the same job, dependent or part.
func disagreements(doc *yamldoc.Document, known yamldoc.Problems, check func(household.Report)) (problems yamldoc.Problems) {
	doubtful := make(map[string]bool, 2*len(known))
	for _, p := range known {
		doubtful[p.Key] = true
		if !p.Missing() && !p.Unknown() {
			doubtful[part(p.Key)] = true
		}
	}
	check(func(key string, what words.Text) {
		if !doubtful[key] && !doubtful[part(key)] {
			problems = append(problems, doc.Problem(key, what))
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

// mostNumbers is how many social security numbers are told one by one; of a
// text with more, nothing else is said.
const mostNumbers = 10

// withNumbers adds to the problems of a text the social security numbers in it,
// and takes out those that would repeat one.
func withNumbers(problems yamldoc.Problems, name string, data []byte) yamldoc.Problems {
	var found yamldoc.Problems
	starts := household.SSNs(data)
	if len(starts) > mostNumbers {
		starts, problems = starts[:mostNumbers], nil
	}
	for _, start := range starts {
		number := string(data[start : start+household.SSNLength])
		problems = slices.DeleteFunc(problems, func(p yamldoc.Problem) bool {
			return strings.Contains(p.Key, number) || strings.Contains(p.Message(), number)
		})
		before := data[:start]
		line := bytes.Count(before, []byte("\n")) + 1
		told := slices.ContainsFunc(problems, func(p yamldoc.Problem) bool {
			return p.Line == line && p.Says(household.NoSSN)
		})
		if !told {
			column := utf8.RuneCount(before[bytes.LastIndexByte(before, '\n')+1:]) + 1
			found = append(found, yamldoc.Problem{File: name, Line: line, Column: column, What: words.T(household.NoSSN)})
		}
	}
	return problems.Join(found)
}
