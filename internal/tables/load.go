package tables

import (
	"cmp"
	"errors"
	"fmt"
	"io/fs"
	"slices"
	"strconv"
	"strings"

	"example.com/plumbline/internal/yamldoc"
)

// ErrNoTable is the error of Load for a year that has no file.
var ErrNoTable = errors.New("no tax table")

// Load reads the figures of one year from fsys, and no other file. The error
// wraps ErrNoTable when the year has none, and is of type yamldoc.Problems,
// every mistake with its line, when the file is not in order.
func Load(fsys fs.FS, year int) (*Year, error) {
	name := fileName(year)
	data, err := fs.ReadFile(fsys, name)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, fmt.Errorf("%w for %d; %s", ErrNoTable, year, available(fsys))
	}
	if err != nil {
		return nil, fmt.Errorf("tax table of %d: %w", year, err)
	}
	y, problems := read(name, data)
	if err := problems.Err(); err != nil {
		return nil, err
	}
	return y, nil
}

// Years are the years that fsys has a file for, rising.
func Years(fsys fs.FS) []int {
	names, _ := fs.Glob(fsys, "[0-9][0-9][0-9][0-9].yaml")
	years := make([]int, 0, len(names))
	for _, name := range names {
		if year, err := strconv.Atoi(strings.TrimSuffix(name, ".yaml")); err == nil && fileName(year) == name {
			years = append(years, year)
		}
	}
	slices.Sort(years)
	return years
}

func fileName(year int) string { return fmt.Sprintf("%04d.yaml", year) }

// available says which years there are, for an error.
func available(fsys fs.FS) string {
	var years []string
	for _, year := range Years(fsys) {
		years = append(years, strconv.Itoa(year))
	}
	switch n := len(years); n {
	case 0:
		return "there are no tables here"
	case 1:
		return "there is a table for " + years[0]
	default:
		return "there are tables for " + strings.Join(years[:n-1], ", ") + " and " + years[n-1]
	}
}

// read decodes the file of a year and collects its mistakes. The figures are
// looked at one by one only where that can find something, for the sake of a
// quick start.
func read(name string, data []byte) (*Year, yamldoc.Problems) {
	doc, problems := parse(name, data)
	if doc == nil {
		return nil, problems
	}
	y := &Year{doc: doc}
	problems = append(problems, doc.Decode(y)...)
	if y.Year != 0 && name != fileName(y.Year) {
		problems = append(problems, doc.Problem("year", yamldoc.Said(fmt.Sprintf("%d contradicts the name of the file, %s; correct one of them", y.Year, name))))
	}
	if len(problems) > 0 || mayBeNegative(data) || mayBeOpen(data) {
		problems = withFigures(doc, problems)
	}
	if len(problems) == 0 {
		y.derive()
	}
	return y, sorted(problems)
}

func parse(name string, data []byte) (*yamldoc.Document, yamldoc.Problems) {
	doc, err := yamldoc.Parse(name, data)
	var problems yamldoc.Problems
	if err != nil && !errors.As(err, &problems) {
		problems = yamldoc.Problems{{File: name, What: yamldoc.Said(err.Error())}}
	}
	return doc, problems
}

// sorted is the problems in the order of the text.
func sorted(problems yamldoc.Problems) yamldoc.Problems {
	slices.SortStableFunc(problems, func(a, b yamldoc.Problem) int {
		return cmp.Or(cmp.Compare(a.Line, b.Line), cmp.Compare(a.Column, b.Column))
	})
	return problems
}
