// Package store is the answers file: reading it into a household with every
// mistake named by line and column, and keeping it safe while it is written.
// It hides the file system, the lock and the encryption. It never holds a
// social security number: no answer asks for one, and a text that shows one is
// refused.
//
// Start at Decode for a text, ReadFile for a file that is only read, Open for
// one that will be written, Forget to remove all that was written.
package store

import (
	"errors"
	"io"
	"io/fs"
	"os"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/words"
	"example.com/plumbline/internal/yamldoc"
)

// maxBytes is the most that an answers file may hold; real ones hold a few
// thousand bytes.
const maxBytes = 1 << 20

// ErrLarge is wrapped by the error for a file that is too large to hold answers.
var ErrLarge = known("answers.file_too_large")

// Decode reads an answers file, YAML or JSON, given as text; the name is for
// messages. A day of working out that the file leaves open becomes today. A
// file of an older format is read as if it were of today's. The error is a
// yamldoc.Problems, all mistakes together, or wraps ErrNewerFormat or
// ErrEncrypted.
func Decode(name string, data []byte, today household.Date) (household.Household, *yamldoc.Document, error) {
	l, err := load(name, data)
	if err != nil {
		return household.Household{}, nil, err
	}
	h, problems := facts(l.doc)
	if problems = withNumbers(problems.Join(l.problems), name, data); len(problems) > 0 {
		return household.Household{}, l.doc, problems
	}
	return dated(h, today), l.doc, nil
}

func dated(h household.Household, today household.Date) household.Household {
	if h.AsOf.IsZero() {
		h.AsOf = today
	}
	return h
}

// A loaded text has been read where its form allows it.
type loaded struct {
	doc      *yamldoc.Document
	problems yamldoc.Problems // of form
	format   int              // that the text is written in
}

// load reads a text without looking at what it says, and brings it up to
// today's format.
func load(name string, data []byte) (l loaded, err error) {
	if sealed(data) {
		return l, about(name, ErrEncrypted)
	}
	l.doc, err = yamldoc.Parse(name, data)
	if l.doc == nil {
		return l, err
	}
	errors.As(err, &l.problems)
	l.format, err = bringUp(l.doc, upgrades)
	return l, err
}

// facts decodes a document, with every mistake it can find in one go: where
// some values are not in order, the others are compared with each other all the
// same.
func facts(doc *yamldoc.Document) (household.Household, yamldoc.Problems) {
	var h household.Household
	problems := doc.Fill(&h)
	return h, problems.Join(disagreements(doc, problems, h.Check))
}

// ReadAll reads a stream of answers to its end, and refuses one larger than
// any honest file. The error does not name the stream.
func ReadAll(r io.Reader) ([]byte, error) {
	data, err := io.ReadAll(io.LimitReader(r, maxBytes+1))
	if err != nil {
		return nil, err
	}
	if len(data) > maxBytes {
		return nil, ErrLarge
	}
	return data, nil
}

// ReadFile reads the text of an answers file that is not going to be written.
// It never waits for a pipe or a device: whatever is not a plain file is
// refused. For an encrypted file the passphrase is asked for; a nil ask refuses
// it. Errors name the path, and wrap that of the system, ErrEncrypted or
// ErrPassphrase.
func ReadFile(path string, ask Passphrase) ([]byte, error) {
	data, _, err := readPlain(path)
	if err != nil {
		return nil, err
	}
	if !sealed(data) {
		return data, nil
	}
	data, _, err = unseal(path, data, ask)
	return data, err
}

// readPlain reads a plain file as it is on the disk.
func readPlain(path string) ([]byte, fs.FileInfo, error) {
	// Looked at before it is opened: opening a device may set it going.
	info, err := os.Stat(path)
	if err != nil {
		return nil, nil, failed(path, "answers.file.not_read", err)
	}
	if err := plainFile(path, info); err != nil {
		return nil, nil, err
	}
	f, err := os.OpenFile(path, os.O_RDONLY|openFlags, 0)
	if err != nil {
		return nil, nil, failed(path, "answers.file.not_read", err)
	}
	defer f.Close()
	// Looked at again: another file may have taken its place meanwhile.
	if info, err = f.Stat(); err != nil {
		return nil, nil, failed(path, "answers.file.not_read", err)
	}
	if err := plainFile(path, info); err != nil {
		return nil, nil, err
	}
	data, err := ReadAll(f)
	if err == ErrLarge {
		return nil, nil, about(path, err)
	}
	if err != nil {
		return nil, nil, failed(path, "answers.file.not_read", err)
	}
	return data, info, nil
}

// plainFile refuses what is no file of a size that answers have.
func plainFile(path string, info fs.FileInfo) error {
	kind := ""
	switch mode := info.Mode(); {
	case mode.IsDir():
		kind = "answers.file.folder"
	case mode&fs.ModeNamedPipe != 0:
		kind = "answers.file.pipe"
	case mode&fs.ModeSocket != 0:
		kind = "answers.file.socket"
	case !mode.IsRegular():
		kind = "answers.file.device"
	case info.Size() > maxBytes:
		return about(path, ErrLarge)
	default:
		return nil
	}
	return about(path, words.Fail(kind))
}

// knownError is an error that callers tell apart, worded late.
type knownError struct{ error }

func (e *knownError) Unwrap() error { return e.error }

func known(code string) error { return &knownError{words.Fail(code)} }

// wrapping is what is said of an error, worded late, around the error itself.
type wrapping struct {
	words.Problem
	cause error
}

func (w wrapping) Unwrap() []error { return []error{w.Problem, w.cause} }

// about is what is wrong with the file at a path.
func about(path string, err error) error {
	return wrapping{words.Problem{Text: words.T("answers.file.wrong", "file", yamldoc.Printable(path), "what", err)}, err}
}

// failed tells what could not be done with a path, and why. The system's own
// error is wrapped without the operation and the path that it repeats.
func failed(path, code string, err error) error {
	var pathError *fs.PathError
	var linkError *os.LinkError
	switch {
	case errors.As(err, &pathError):
		err = pathError.Err
	case errors.As(err, &linkError):
		err = linkError.Err
	}
	return wrapping{words.Problem{Text: words.T("answers.file.failed", "file", yamldoc.Printable(path), "what", words.T(code), "why", err)}, err}
}
