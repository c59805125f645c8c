package store

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"strings"

	"example.com/plumbline/internal/words"
	"example.com/plumbline/internal/yamldoc"
)

// backupMark is between the name of an answers file and the number of the
// older format that its backup is in.
const backupMark = ".bak-format-"

// otherMark ends the name of a version of an answers file that another program
// wrote while the interview had it open.
const otherMark = ".other"

var (
	backupEnd   = regexp.MustCompile(`^[0-9]+(-[0-9]+)?$`)
	otherEnd    = regexp.MustCompile(`^(-[0-9]+)?$`)
	leftoverEnd = regexp.MustCompile(`^[0-9]{9,}$`)
)

// Forget removes what the program has stored: each answers file, the one at
// DefaultPath when none is named, with its backups of older formats and what a
// killed run may have left beside it, and the program's own folder when nothing
// else is in it. It returns the paths removed, in order, also together with an
// error; none when nothing is stored.
//
// Nothing else is ever removed: a file elsewhere than at DefaultPath must hold
// answers, or be encrypted as this program encrypts: whoever has lost the
// passphrase must be able to remove the file. A link is removed with what it
// leads to. What the disk may still hold of a removed file is beyond the
// program's reach.
func Forget(paths ...string) (removed []string, err error) {
	own, ownErr := DefaultPath()
	if len(paths) == 0 {
		if ownErr != nil {
			return nil, ownErr
		}
		paths = []string{own}
	}
	for _, path := range paths {
		gone, err := forget(path, path == own)
		removed = append(removed, gone...)
		if err != nil {
			return removed, err
		}
	}
	return removed, nil
}

func forget(named string, own bool) (removed []string, err error) {
	path, err := followed(named)
	if err != nil {
		return nil, err
	}
	if _, err := os.Stat(filepath.Dir(path)); errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err := answersOnly(path, own); err != nil {
		return nil, err
	}
	_, lockErr := os.Lstat(lockPath(path))
	lock, err := acquire(path)
	if err != nil {
		return nil, err
	}
	for _, p := range stored(path) {
		if err := os.Remove(p); err != nil {
			release(lock)
			return removed, failed(p, "answers.file.not_removed", err)
		}
		removed = append(removed, p)
	}
	if info, err := os.Lstat(named); err == nil && info.Mode()&fs.ModeSymlink != 0 {
		if err := os.Remove(named); err != nil {
			release(lock)
			return removed, failed(named, "answers.file.not_removed", err)
		}
		removed = append(removed, named)
	}
	if err := release(lock); err != nil {
		return removed, failed(lock.Name(), "answers.file.not_removed", err)
	}
	if lockErr == nil {
		removed = append(removed, lock.Name())
	}
	if dir := filepath.Dir(path); own && os.Remove(dir) == nil {
		removed = append(removed, dir)
	}
	return removed, nil
}

// answersOnly refuses a file that is not one of this program. No file at all is
// in order: something may be beside it.
func answersOnly(path string, own bool) error {
	data, _, err := readPlain(path)
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	if err != nil || own {
		return err
	}
	if !answers(data) {
		return about(path, words.Fail("answers.file.stranger"))
	}
	return nil
}

// answers reports whether a file's bytes are answers of this program, or
// encrypted as they may be.
func answers(data []byte) bool {
	if sealed(data) {
		return true
	}
	doc, _ := yamldoc.Parse("", data)
	return doc != nil && doc.Has("format") && doc.Has("tax_year")
}

// HoldsAnswers reports whether answers are at a path, plain or encrypted.
func HoldsAnswers(path string) bool {
	data, _, err := readPlain(path)
	return err == nil && answers(data)
}

// stored are the files there are of those that belong to an answers file, itself
// first.
func stored(path string) []string {
	var found []string
	if _, err := os.Lstat(path); err == nil {
		found = append(found, path)
	}
	return append(found, beside(path, func(name, file string) bool {
		end, backup := strings.CutPrefix(file, name+backupMark)
		if backup && backupEnd.MatchString(end) || leftover(name, file) {
			return true
		}
		end, other := strings.CutPrefix(file, name+otherMark)
		return other && otherEnd.MatchString(end)
	})...)
}

// removeLeftovers removes what runs killed while saving have left. The lock
// must be held, or a file being written would be removed.
func removeLeftovers(path string) {
	for _, p := range beside(path, leftover) {
		_ = os.Remove(p)
	}
}

// leftover reports whether a file is one that replace was writing.
func leftover(name, file string) bool {
	end, begun := strings.CutPrefix(file, "."+name)
	return begun && leftoverEnd.MatchString(end)
}

// beside are the plain files in the folder of a path that are chosen by its
// name and theirs.
func beside(path string, choose func(name, file string) bool) []string {
	dir, name := filepath.Split(path)
	entries, err := os.ReadDir(dir)
	if err != nil {
		return nil
	}
	var found []string
	for _, e := range entries {
		if e.Type().IsRegular() && choose(name, e.Name()) {
			found = append(found, filepath.Join(dir, e.Name()))
		}
	}
	return found
}
