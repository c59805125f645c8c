package store

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strconv"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/yamldoc"
)

// Options are how an answers file is opened for writing.
type Options struct {
	Passphrase Passphrase // asked when the file is encrypted or is to be
	Encrypt    bool       // encrypt the file from the next Save on, even if it is not yet
	WorkFactor int        // of scrypt, a power of two; 0 for the usual one
}

// A File is an answers file under edit. Nobody else can edit it before Close.
// One goroutine at a time may use it.
type File struct {
	name       string // as it was given
	path       string // where it is, links followed
	lock       *os.File
	doc        *yamldoc.Document
	saved      []byte // the text that stands in the file in due form
	original   []byte // to be kept beside the file, when of an older format
	format     int    // of original
	passphrase string // to encrypt with; empty to leave it plain
	factor     int
}

// Open opens an answers file for writing, or makes ready for a new one: its
// folder is made if need be, readable by its owner alone. A link is followed,
// so that it stays a link when the file is saved.
//
// A file that is not in form is refused with all its mistakes, but one that is
// unfinished, or whose facts do not agree with each other, is not. Further errors wrap ErrInUse, ErrNewerFormat,
// ErrEncrypted, ErrPassphrase or that of the system. Whatever the error, the
// file is left as it was.
func Open(path string, o Options) (*File, error) {
	f := &File{name: path, factor: o.WorkFactor}
	var err error
	if f.path, err = followed(path); err != nil {
		return nil, err
	}
	if err := makeFolder(filepath.Dir(f.path)); err != nil {
		return nil, err
	}
	if f.lock, err = acquire(f.path); err != nil {
		return nil, err
	}
	removeLeftovers(f.path)
	if err := f.read(o); err != nil {
		return nil, errors.Join(err, f.Close())
	}
	return f, nil
}

// read reads the file as it stands, and asks for the passphrases it needs.
func (f *File) read(o Options) error {
	data, info, err := readPlain(f.path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		f.doc = yamldoc.New(f.name)
	case err != nil:
		return err
	case info.Mode().Perm()&0o200 == 0:
		return fmt.Errorf("%s: is marked read-only; make it writable, or give another file", yamldoc.Printable(f.name))
	default:
		if err := f.decode(data, o); err != nil {
			return err
		}
		if info.Mode().Perm()&0o077 != 0 && permissionsCount {
			f.saved = nil // the next Save sets this right
		}
	}
	if !o.Encrypt || f.passphrase != "" {
		return nil
	}
	if o.Passphrase == nil {
		return fmt.Errorf("%s: %w", yamldoc.Printable(f.name), errNoTerminal)
	}
	f.saved = nil
	f.passphrase, err = newPassphrase(f.name, o.Passphrase)
	return err
}

// decode takes over the answers that stand in the file.
func (f *File) decode(data []byte, o Options) (err error) {
	text := data
	if sealed(data) {
		if text, f.passphrase, err = unseal(f.name, data, o.Passphrase); err != nil {
			return err
		}
	}
	l, err := load(f.name, text)
	if err != nil {
		return err
	}
	if problems := unfit(l, f.name, text); len(problems) > 0 {
		return problems
	}
	f.doc, f.saved = l.doc, text
	if l.format < household.Format {
		f.original, f.format = data, l.format
	}
	return nil
}

// unfit are the mistakes for which answers cannot be edited further: an
// interview fills in what is missing, and settles what does not go together,
// but cannot show or read what is not in form.
func unfit(l loaded, name string, text []byte) yamldoc.Problems {
	var h household.Household
	problems := slices.DeleteFunc(l.doc.Fill(&h), yamldoc.Problem.Missing)
	problems = problems.Join(disagreements(l.doc, problems, h.CheckTexts))
	return withNumbers(problems.Join(l.problems), name, text)
}

// Document is the answers as they stand in the file, brought up to today's
// format; empty when there is no file yet. It may be changed, and given to
// Save.
func (f *File) Document() *yamldoc.Document { return f.doc }

// Encrypted reports whether the answers are kept encrypted.
func (f *File) Encrypted() bool { return f.passphrase != "" }

// Path is where the file is, links followed.
func (f *File) Path() string { return f.path }

// Save writes the answers, readable by their owner alone. However it ends, and
// if the program is killed meanwhile, the file holds either these answers or
// those of before, whole. The first Save of a file that was of an older format
// keeps the original beside it, as NAME.bak-format-N.
func (f *File) Save(doc *yamldoc.Document) error {
	if f.lock == nil {
		return fmt.Errorf("%s: is closed, so nothing can be saved", yamldoc.Printable(f.name))
	}
	text := doc.Bytes()
	if f.saved != nil && bytes.Equal(text, f.saved) && f.original == nil {
		return nil
	}
	if problems := withNumbers(nil, f.name, text); len(problems) > 0 {
		return problems
	}
	data := text
	if f.passphrase != "" {
		var err error
		if data, err = seal(text, f.passphrase, f.factor); err != nil {
			return failed(f.name, notSaved, err)
		}
	}
	if len(data) > maxBytes {
		return failed(f.name, notSaved, errLarge)
	}
	if err := f.keepOriginal(); err != nil {
		return err
	}
	if err := replace(f.path, data); err != nil {
		return failed(f.name, notSaved, err)
	}
	f.saved = text
	return nil
}

const notSaved = "cannot be saved and is as it was before"

// keepOriginal writes a file of an older format beside itself, where no file
// is yet.
func (f *File) keepOriginal() error {
	if f.original == nil {
		return nil
	}
	backup := f.path + backupMark + strconv.Itoa(f.format)
	for n := 2; ; n++ {
		if _, err := os.Lstat(backup); errors.Is(err, fs.ErrNotExist) {
			break
		}
		backup = f.path + backupMark + strconv.Itoa(f.format) + "-" + strconv.Itoa(n)
	}
	original := f.original
	if f.passphrase != "" && !sealed(original) {
		var err error
		if original, err = seal(original, f.passphrase, f.factor); err != nil {
			return failed(backup, "the original cannot be kept, so nothing is saved", err)
		}
	}
	if err := replace(backup, original); err != nil {
		return failed(backup, "the original cannot be kept, so nothing is saved", err)
	}
	f.original = nil
	return nil
}

// Close lets others edit the file. What was not saved is lost.
func (f *File) Close() error {
	if f.lock == nil {
		return nil
	}
	err := release(f.lock)
	f.lock = nil
	if err != nil {
		return failed(f.name, "its lock cannot be removed", err)
	}
	return nil
}

// followed is the path of the file that a path leads to.
func followed(path string) (string, error) {
	full, err := filepath.Abs(path)
	if err != nil {
		return "", failed(path, "cannot be found", err)
	}
	path = full
	real, err := filepath.EvalSymlinks(path)
	if err == nil {
		return real, nil
	}
	if info, lstatErr := os.Lstat(path); lstatErr == nil && info.Mode()&fs.ModeSymlink != 0 {
		return "", fmt.Errorf("%s: is a link that leads to no file; remove it or make the file", yamldoc.Printable(path))
	}
	if errors.Is(err, fs.ErrNotExist) {
		return path, nil
	}
	return "", failed(path, "cannot be found", err)
}

// WriteFile writes a result, such as a page, whole or not at all and readable
// by its owner alone.
func WriteFile(path string, data []byte) error {
	if err := replace(path, data); err != nil {
		return failed(path, "cannot be written", err)
	}
	return nil
}

// makeFolder makes a folder readable by its owner alone. One that is there
// already keeps its permissions, unless it is the program's own.
func makeFolder(dir string) error {
	if err := os.MkdirAll(dir, 0o700); err != nil {
		return failed(dir, "this folder cannot be made", err)
	}
	if own, err := DefaultPath(); err != nil || dir != filepath.Dir(own) || !permissionsCount {
		return nil
	}
	if info, err := os.Stat(dir); err == nil && info.Mode().Perm() != 0o700 {
		if err := os.Chmod(dir, 0o700); err != nil {
			return failed(dir, "this folder cannot be kept from others", err)
		}
	}
	return nil
}
