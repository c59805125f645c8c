package tables

import (
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

// read decodes the file of a year and collects its mistakes.
func read(name string, data []byte) (*Year, yamldoc.Problems) {
	doc, err := yamldoc.Parse(name, data)
	var problems yamldoc.Problems
	if err != nil && !errors.As(err, &problems) {
		problems = yamldoc.Problems{{File: name, Message: err.Error()}}
	}
	if doc == nil {
		return nil, problems
	}
	y := new(Year)
	problems = append(problems, doc.Decode(y)...)
	return y, problems
}
