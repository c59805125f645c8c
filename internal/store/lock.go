package store

import (
	"errors"
	"os"
	"path/filepath"
)

// ErrInUse is wrapped by the error for a file that another interview has open.
var ErrInUse = known("answers.file.in_use")

// lockPath is the file whose lock stands for the answers file's: the answers
// file itself is replaced at every Save, and a lock would go with it.
func lockPath(path string) string {
	dir, name := filepath.Split(path)
	return dir + "." + name + ".lock"
}

// acquire locks an answers file against others. The system lifts the lock when
// the program ends, however it ends.
func acquire(path string) (*os.File, error) {
	for {
		f, err := os.OpenFile(lockPath(path), os.O_RDWR|os.O_CREATE|openFlags, 0o600)
		if err != nil {
			return nil, failed(path, "answers.file.folder_closed", err)
		}
		if err := tryLock(f); err != nil {
			f.Close()
			if errors.Is(err, errLocked) {
				return nil, about(path, ErrInUse)
			}
			return nil, failed(path, "answers.file.not_locked", err)
		}
		// Whoever held the lock before may have removed its file just now.
		held, err := f.Stat()
		if err != nil {
			f.Close()
			return nil, failed(path, "answers.file.not_locked", err)
		}
		if there, err := os.Stat(f.Name()); err == nil && os.SameFile(held, there) {
			return f, nil
		}
		f.Close()
	}
}
