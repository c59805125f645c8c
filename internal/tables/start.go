package tables

import (
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"slices"
	"strings"

	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/yamldoc"
)

// mark ends a figure, a source or a note of a table that was started, until the
// published one is written over it.
const mark = " projected"

// Start is the file of a new year: last year's, its indexed figures as Project
// makes them, each marked as projected until the published one is written over
// it. A figure that follows from others of the year has no mark: Update brings it
// up to date. Layout and comments are kept. The file loads as it is; Check names
// every mark that is left.
//
// The errors are those of Load and Project.
func Start(fsys fs.FS, from int, rise *money.Rate) ([]byte, error) {
	last, err := Load(fsys, from)
	if err != nil {
		return nil, err
	}
	assumed := last.AssumedRise()
	if rise != nil {
		assumed = *rise
	}
	y, err := Project(last, from+1, assumed)
	if err != nil {
		return nil, err
	}
	doc := y.doc.Clone()
	s := starter{doc: doc}
	s.set("year", fmt.Sprint(y.Year))
	for _, key := range slices.Sorted(maps.Keys(y.edits)) {
		e := y.edits[key]
		if e.basis == Projecting && !e.follows {
			e.text += mark
		}
		s.set(key, e.text)
	}
	for _, g := range y.groups() {
		s.citation(g, y)
	}
	s.set("projected.from", fmt.Sprint(from))
	s.set("projected.rise", assumed.Text())
	if s.err != nil {
		return nil, s.err
	}
	return doc.Bytes(), nil
}

// Update is the file of a started year with every figure that follows from others
// as it follows from what is written there now.
//
// The errors are those of Load, and ErrFinished for a year in which nothing is
// projected.
func Update(fsys fs.FS, year int) ([]byte, error) {
	y, err := Load(fsys, year)
	if err != nil {
		return nil, err
	}
	if y.Projected == nil {
		return nil, ErrFinished
	}
	data, err := fs.ReadFile(fsys, fileName(year))
	if err != nil {
		return nil, err
	}
	doc, err := yamldoc.Parse(fileName(year), data)
	if err != nil {
		return nil, err
	}
	marked := y.edits
	y.edits = map[string]edit{}
	if err := errors.Join(y.follow(), y.compute()); err != nil {
		return nil, err
	}
	s := starter{doc: doc}
	for _, key := range slices.Sorted(maps.Keys(y.edits)) {
		_, isMarked := marked[key]
		if e := y.edits[key]; e.follows && !isMarked {
			if old, _ := doc.Get(key); old != e.text {
				s.set(key, e.text)
			}
		}
	}
	return doc.Bytes(), s.err
}

// ErrFinished is the error of Update for a year whose figures are all published.
var ErrFinished = errors.New("nothing in the table is projected")

// starter edits a document and keeps the first error.
type starter struct {
	doc *yamldoc.Document
	err error
}

// set writes a value where there is one, or where the document has room for it.
func (s *starter) set(key, text string) {
	if s.err == nil {
		s.err = s.doc.Set(key, text)
	}
}

// citation marks what a group says of the figures that are projected, and
// forgets how well last year's were known.
func (s *starter) citation(g citedGroup, y *Year) {
	if len(g.cited.Indexed) == 0 {
		return
	}
	s.set(g.key+".source", g.cited.Source)
	if !strings.HasSuffix(g.cited.Source, mark) { // set for this year already
		return
	}
	s.set(g.key+".basis", string(Projecting))
	if g.cited.Note != "" {
		s.set(g.key+".note", g.cited.Note+mark)
	}
	s.doc.Delete(g.key + ".memory")
	s.doc.Delete(g.key + ".derived")
}
