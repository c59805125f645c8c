package tables

import (
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"regexp"
	"slices"
	"strings"

	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/yamldoc"
)

// mark ends a figure, a source or a note of a table that was started, until the
// published one is written over it.
const mark = " projected"

// withMark is a source or a note with one mark at its end.
func withMark(text string) string { return strings.TrimSuffix(text, mark) + mark }

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
	unindexed := map[string][]Figure{} // by group
	for _, f := range y.Figures() {
		if !f.Indexed {
			unindexed[f.Group] = append(unindexed[f.Group], f)
		}
	}
	for _, g := range y.groups() {
		s.citation(g, unindexed[g.key])
	}
	if y.Later != nil {
		s.later(y)
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

// ofAYear is a year in a source or a note, which the next year may make wrong.
var ofAYear = regexp.MustCompile(`\b20\d\d\b`)

// citation marks what a group says of the figures that are projected, and of any
// year. How well last year's figures were known is kept for those that stay.
func (s *starter) citation(g citedGroup, stay []Figure) {
	source := g.key + ".source"
	if len(g.cited.Indexed) == 0 {
		if ofAYear.MatchString(g.cited.Source) {
			s.set(source, withMark(g.cited.Source))
		}
		if ofAYear.MatchString(g.cited.Note) {
			s.markNote(g.key, g.cited.Note)
		}
		return
	}
	s.set(source, g.cited.Source)
	if !strings.HasSuffix(g.cited.Source, mark) { // set for this year already
		return
	}
	s.set(g.key+".basis", string(Projecting))
	s.markNote(g.key, g.cited.Note)
	s.list(g.key+".memory", g.cited.Memory, Memory, g, stay)
	s.list(g.key+".derived", g.cited.Derived, Derived, g, stay)
}

// markNote marks the note of a group, if it has one. What it was in other languages
// goes: it is written again with the note.
func (s *starter) markNote(group, text string) {
	if text == "" || strings.HasSuffix(text, mark) {
		return
	}
	s.set(group+".note", withMark(text))
	s.doc.Delete(group + ".notes")
}

// list leaves in a list of figures that are known in a way only those that stay
// as they are, and adds those that were known in this way with all of the group.
func (s *starter) list(at string, listed []string, known Basis, g citedGroup, stay []Figure) {
	left := 0
	for i := len(listed) - 1; i >= 0; i-- {
		one := listed[i : i+1]
		if !slices.ContainsFunc(stay, func(f Figure) bool { return names(one, f.Key[len(g.key)+1:]) }) {
			s.doc.Delete(fmt.Sprintf("%s[%d]", at, i))
		} else {
			left++
		}
	}
	for _, f := range stay {
		if inner := f.Key[len(g.key)+1:]; f.Basis == known && !names(listed, inner) {
			s.set(fmt.Sprintf("%s[%d]", at, left), inner)
			left++
		}
	}
}

// later deletes what has come true of what was known of later years, and marks the
// rise that this year assumes.
func (s *starter) later(y *Year) {
	rise := y.Later.Rise
	s.set("later_years.rise.share", rise.Share.Text()+mark)
	s.set("later_years.rise.basis", string(Projecting))
	s.markNote("later_years.rise", rise.Note)
	for i := len(y.Later.Changes) - 1; i >= 0; i-- {
		if y.Later.Changes[i].From <= y.Year {
			s.doc.Delete(fmt.Sprintf("later_years.changes[%d]", i))
		}
	}
}
