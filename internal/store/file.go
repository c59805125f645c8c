package store

import (
	"bytes"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strconv"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/words"
	"example.com/plumbline/internal/yamldoc"
)

// Options are how an answers file is opened for writing.
type Options struct {
	Passphrase Passphrase // asked when the file is encrypted or is to be
	Encrypt    bool       // encrypt the file at once if it is not yet, or from the first Save on
	MakeFolder bool       // make the file's folder where there is none; the person has chosen it
	WorkFactor int        // of scrypt, a power of two; 0 for the usual one
}

// A File is an answers file under edit. Nobody else can edit it before Close.
// One goroutine at a time may use it.
type File struct {
	name       string // as it was given
	path       string // where it is, links followed
	lock       *os.File
	doc        *yamldoc.Document
	onDisk     []byte // the file's bytes as this program read or wrote them last; nil when there was none
	kept       string // where a version is kept that another program wrote meanwhile
	encrypted  bool   // by Open, from a file that was plain
	saved      []byte // the text that is in the file in due form
	original   []byte // to be kept beside the file, when of an older format
	format     int    // of original
	passphrase string // to encrypt with; empty to leave it plain
	factor     int
}

// Open opens an answers file for writing, or makes ready for a new one. Its folder
// must be there, unless it may be made, readable by its owner alone. A link is followed,
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
	if err := f.ensureFolder(o.MakeFolder); err != nil {
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

// read reads the file as it is, and asks for the passphrases it needs.
func (f *File) read(o Options) error {
	data, info, err := readPlain(f.path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		f.doc = yamldoc.New(f.name)
	case err != nil:
		return err
	case info.Mode().Perm()&0o200 == 0:
		return about(f.name, words.Fail("answers.file.read_only"))
	default:
		f.onDisk = data
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
		return about(f.name, errNoTerminal)
	}
	f.saved = nil
	if f.passphrase, err = newPassphrase(f.name, o.Passphrase); err != nil || f.onDisk == nil {
		return err
	}
	f.encrypted = true
	return f.Save(f.doc)
}

// Saved reports whether the file is there: that it was when it was opened, or has
// been written since.
func (f *File) Saved() bool { return f.onDisk != nil }

// NewlyEncrypted reports whether Open has encrypted a file that was plain before.
func (f *File) NewlyEncrypted() bool { return f.encrypted }

// Kept is where a Save has kept a version of the file that another program wrote
// after this one had read or written it; empty when none was found.
func (f *File) Kept() string { return f.kept }

// decode takes over the answers that are in the file.
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

// Document is the answers as they are in the file, brought up to today's
// format; empty when there is no file yet. It may be changed, and given to
// Save.
func (f *File) Document() *yamldoc.Document { return f.doc }

// Encrypted reports whether the answers are kept encrypted.
func (f *File) Encrypted() bool { return f.passphrase != "" }

// Save writes the answers, readable by their owner alone. However it ends, and
// if the program is killed meanwhile, the file holds either these answers or
// those of before, whole. The first Save of a file that was of an older format
// keeps the original beside it, as NAME.bak-format-N. A version that another
// program has written meanwhile is kept too, as NAME.other: see Kept.
func (f *File) Save(doc *yamldoc.Document) error {
	if f.lock == nil {
		return about(f.name, words.Fail("answers.file.closed"))
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
		return failed(f.name, notSaved, ErrLarge)
	}
	if err := f.keepOriginal(); err != nil {
		return err
	}
	if err := f.keepOther(); err != nil {
		return err
	}
	if err := replace(f.path, data); err != nil {
		return failed(f.name, notSaved, err)
	}
	f.saved, f.onDisk = text, data
	return nil
}

const notSaved = "answers.file.not_saved"

// keepOriginal writes a file of an older format beside itself, where no file
// is yet.
func (f *File) keepOriginal() error {
	if f.original == nil {
		return nil
	}
	_, err := f.keep(backupMark+strconv.Itoa(f.format), f.original)
	if err == nil {
		f.original = nil
	}
	return err
}

// keepOther keeps what another program has written into the file since it was
// read or written here. It is noticed by its content: an editor may keep the
// time.
func (f *File) keepOther() error {
	now, _, err := readPlain(f.path)
	if err != nil || bytes.Equal(now, f.onDisk) {
		return nil // gone, or not to be read: there is nothing to lose
	}
	f.kept, err = f.keep(otherMark, now)
	return err
}

// keep writes a version of the file beside it under a name that is free, and
// encrypted when the file is.
func (f *File) keep(mark string, data []byte) (path string, err error) {
	path = f.path + mark
	for n := 2; ; n++ {
		if _, err := os.Lstat(path); errors.Is(err, fs.ErrNotExist) {
			break
		}
		path = f.path + mark + "-" + strconv.Itoa(n)
	}
	if f.passphrase != "" && !sealed(data) {
		if data, err = seal(data, f.passphrase, f.factor); err != nil {
			return "", failed(path, "answers.file.not_kept", err)
		}
	}
	if err := replace(path, data); err != nil {
		return "", failed(path, "answers.file.not_kept", err)
	}
	return path, nil
}

// Close lets others edit the file. What was not saved is lost.
func (f *File) Close() error {
	if f.lock == nil {
		return nil
	}
	err := release(f.lock)
	f.lock = nil
	if err != nil {
		return failed(f.name, "answers.file.lock_stays", err)
	}
	return nil
}

// followed is the path of the file that a path leads to.
func followed(path string) (string, error) {
	full, err := filepath.Abs(path)
	if err != nil {
		return "", failed(path, "answers.file.not_found", err)
	}
	path = full
	real, err := filepath.EvalSymlinks(path)
	if err == nil {
		return real, nil
	}
	if info, lstatErr := os.Lstat(path); lstatErr == nil && info.Mode()&fs.ModeSymlink != 0 {
		return "", about(path, words.Fail("answers.file.dangling"))
	}
	if errors.Is(err, fs.ErrNotExist) {
		return path, nil
	}
	return "", failed(path, "answers.file.not_found", err)
}

// WriteFile writes a result, such as a page, whole or not at all and readable
// by its owner alone.
func WriteFile(path string, data []byte) error {
	if err := replace(path, data); err != nil {
		return failed(path, "answers.file.not_written", err)
	}
	return nil
}

// ensureFolder makes the file's folder if it may, and fails where there is none.
func (f *File) ensureFolder(mayMake bool) error {
	dir := filepath.Dir(f.path)
	if _, err := os.Stat(dir); !mayMake && errors.Is(err, fs.ErrNotExist) {
		return about(f.name, words.Fail("answers.file.no_folder", "folder", dir))
	}
	return makeFolder(dir)
}

// makeFolder makes a folder readable by its owner alone. One that is there
// already keeps its permissions, unless it is the program's own.
func makeFolder(dir string) error {
	if err := os.MkdirAll(dir, 0o700); err != nil {
		return failed(dir, "answers.file.folder_not_made", err)
	}
	if own, err := DefaultPath(); err != nil || dir != filepath.Dir(own) || !permissionsCount {
		return nil
	}
	if info, err := os.Stat(dir); err == nil && info.Mode().Perm() != 0o700 {
		if err := os.Chmod(dir, 0o700); err != nil {
			return failed(dir, "answers.file.folder_open", err)
		}
	}
	return nil
}
