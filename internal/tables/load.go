package tables

import (
	"errors"
	"fmt"
	"io/fs"
	"slices"
	"strconv"
	"strings"
	"sync"

	"example.com/plumbline/internal/words"
	"example.com/plumbline/internal/yamldoc"
)

// ErrNoTable is the error of Load for a year that has no file.
var ErrNoTable = errors.New("no tax table")

// Load reads the figures of one year from fsys, and no other file but the table of
// the states once States is called. The error
// wraps ErrNoTable when the year has none, and is of type yamldoc.Problems,
// every mistake with its line, when the file is not in order.
func Load(fsys fs.FS, year int) (*Year, error) {
	name := fileName(year)
	data, err := fs.ReadFile(fsys, name)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, noTable(fsys, year)
	}
	if err != nil {
		return nil, fmt.Errorf("tax table of %d: %w", year, err)
	}
	y, problems := read(name, data)
	if err := problems.Err(); err != nil {
		return nil, err
	}
	y.states = sync.OnceValues(func() (*States, error) { return LoadStates(fsys) })
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

// missing is the error of a year without a table; it is ErrNoTable.
type missing struct{ words.Problem }

// Is reports whether an error asked for is the one that missing is.
func (missing) Is(target error) bool { return target == ErrNoTable }

func (m missing) Unwrap() error { return m.Problem }

func noTable(fsys fs.FS, year int) error {
	var years []string
	for _, y := range Years(fsys) {
		years = append(years, strconv.Itoa(y))
	}
	return missing{words.Problem{Text: words.T("tables.none", "year", year, "n", len(years), "years", years)}}
}

// read decodes the file of a year and collects its mistakes; the year is nil where
// it is no document at all.
func read(name string, data []byte) (*Year, yamldoc.Problems) {
	doc, problems := parse(name, data)
	if doc == nil {
		return nil, problems
	}
	y := &Year{doc: doc}
	problems = append(problems, y.scan()...)
	problems = append(problems, doc.Decode(y)...)
	if y.Year != 0 && name != fileName(y.Year) {
		problems = append(problems, doc.Problem("year", words.T("tables.other_year", "year", y.Year, "file", name)))
	}
	if len(problems) == 0 {
		y.derive()
	}
	return y, problems.Join(nil)
}

// scan takes the marks of a started table off its figures and remembers them;
// the problems are figures below zero, as none is.
func (y *Year) scan() yamldoc.Problems {
	var problems yamldoc.Problems
	for _, key := range y.doc.Keys() {
		text, _ := y.doc.Get(key)
		switch bare, marked := strings.CutSuffix(text, mark); {
		case strings.HasPrefix(text, "-"):
			problems = append(problems, y.doc.Problem(key, words.T("tables.negative")))
		case marked:
			if y.edits == nil {
				y.edits, y.open = map[string]edit{}, map[string]bool{}
			}
			y.open[key] = true
			y.edits[key] = edit{text: bare, basis: Projecting}
			if !strings.HasSuffix(key, ".source") && !strings.HasSuffix(key, ".note") {
				_ = y.doc.Set(key, bare) // a shorter text in place of one that is there
			}
		}
	}
	return problems
}

func parse(name string, data []byte) (*yamldoc.Document, yamldoc.Problems) {
	doc, err := yamldoc.Parse(name, data)
	var problems yamldoc.Problems
	if err != nil && !errors.As(err, &problems) {
		problems = yamldoc.Problems{{File: name, What: yamldoc.Said(err.Error())}}
	}
	return doc, problems
}
