package main

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strconv"
	"strings"

	"example.com/plumbline/internal/interview"
	"example.com/plumbline/internal/store"
)

// inYear are the answers of a year, where the file opened holds those of an
// earlier one: they are carried into a file of the new year beside it, which is
// gone on with where it is there already. The old file stays as it is.
func (p *program) inYear(a *answersFile, year int, o store.Options) (*answersFile, error) {
	if a.file == nil {
		return a, nil
	}
	was := a.year()
	for next := was + 1; was != 0 && next <= year; next++ {
		name := nameInYear(a.name, next)
		_, err := os.Lstat(name)
		there := !errors.Is(err, fs.ErrNotExist)
		if !there && next != year {
			continue
		}
		o.Encrypt = o.Encrypt || a.file.Encrypted()
		file, err := store.Open(name, o)
		if err != nil {
			a.close()
			return nil, err
		}
		old := a
		a = &answersFile{name: name, file: file}
		if !there {
			a.from = old.document().Clone()
			p.tell("carry.new_file", "was", was, "old", old.name, "year", year, "new", name)
		} else {
			interview.TakeUp(a.document(), old.document())
		}
		old.close()
	}
	return a, nil
}

// year is the tax year of the answers; 0 where there is none yet.
func (a *answersFile) year() int {
	text, _ := a.document().Get("tax_year")
	year, _ := strconv.Atoi(text)
	return year
}

// nameInYear is the name of an answers file for another year: answers.yaml and
// answers-2026.yaml are answers-2027.yaml in 2027.
func nameInYear(name string, year int) string {
	ending := filepath.Ext(name)
	stem := strings.TrimSuffix(name, ending)
	if before, after, ok := cutLast(stem, "-"); ok && len(after) == len("2026") {
		if _, err := strconv.Atoi(after); err == nil {
			stem = before
		}
	}
	return stem + "-" + strconv.Itoa(year) + ending
}

func cutLast(s, sep string) (before, after string, found bool) {
	i := strings.LastIndex(s, sep)
	if i < 0 {
		return s, "", false
	}
	return s[:i], s[i+len(sep):], true
}
