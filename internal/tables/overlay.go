package tables

import (
	"errors"
	"io/fs"
	"slices"
	"strings"
)

// Overlay is base with the files of dir added, each in place of the one of the
// same name: how a folder of tables adds a year or replaces one. Folders are to
// be listed with fs.ReadDir, or what uses it; a dir that does not exist adds
// nothing.
func Overlay(dir, base fs.FS) fs.FS { return overlay{dir, base} }

type overlay struct{ dir, base fs.FS }

// Open opens the file of dir, or where it has none the one of base.
func (o overlay) Open(name string) (fs.File, error) {
	f, err := o.dir.Open(name)
	if errors.Is(err, fs.ErrNotExist) {
		return o.base.Open(name)
	}
	return f, err
}

// ReadDir lists what is in either, by name.
func (o overlay) ReadDir(name string) ([]fs.DirEntry, error) {
	over, err := fs.ReadDir(o.dir, name)
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return nil, err
	}
	under, baseErr := fs.ReadDir(o.base, name)
	if baseErr != nil && err != nil {
		return nil, baseErr
	}
	all := append(over, under...)
	slices.SortStableFunc(all, func(a, b fs.DirEntry) int { return strings.Compare(a.Name(), b.Name()) })
	return slices.CompactFunc(all, func(a, b fs.DirEntry) bool { return a.Name() == b.Name() }), nil
}
