package store

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"

	"golang.org/x/sys/windows"
)

// openFlags need hold nothing: pipes have no place in folders here.
const openFlags = 0

// permissionsCount is false: who may read a file follows from its folder, and
// the folder of the program lies in the person's own.
const permissionsCount = false

// errLocked is the error of tryLock when another has the lock.
const errLocked = windows.ERROR_LOCK_VIOLATION

func tryLock(f *os.File) error {
	const flags = windows.LOCKFILE_EXCLUSIVE_LOCK | windows.LOCKFILE_FAIL_IMMEDIATELY
	return windows.LockFileEx(windows.Handle(f.Fd()), flags, 0, 1, 0, new(windows.Overlapped))
}

// release closes the file of a lock and removes it; that fails, and may, when
// another has opened it since.
func release(f *os.File) error {
	err := f.Close()
	_ = os.Remove(f.Name())
	return err
}

// replace writes a file whole or not at all.
func replace(path string, data []byte) error {
	// Nine digits or more: removeLeftovers goes by them.
	pending, err := os.CreateTemp(filepath.Dir(path), fmt.Sprintf(".%s%09d*", filepath.Base(path), os.Getpid()))
	if err != nil {
		return err
	}
	defer os.Remove(pending.Name()) // fails once renamed
	_, err = pending.Write(data)
	if err == nil {
		err = pending.Sync()
	}
	if err := errors.Join(err, pending.Close()); err != nil {
		return err
	}
	return os.Rename(pending.Name(), path)
}
