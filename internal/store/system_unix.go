//go:build unix

package store

import (
	"os"
	"path/filepath"

	"github.com/google/renameio/v2"
	"golang.org/x/sys/unix"
)

// openFlags keep opening from waiting for a pipe's other end.
const openFlags = unix.O_NONBLOCK

// permissionsCount tells systems where the permissions of a file say who may
// read it.
const permissionsCount = true

// errLocked is the error of tryLock when another has the lock.
const errLocked = unix.EWOULDBLOCK

func tryLock(f *os.File) error {
	for {
		if err := unix.Flock(int(f.Fd()), unix.LOCK_EX|unix.LOCK_NB); err != unix.EINTR {
			return err
		}
	}
}

// release removes the file of a lock while it is still held, so that nobody
// can be holding the file that is removed.
func release(f *os.File) error {
	err := os.Remove(f.Name())
	f.Close()
	return err
}

// replace writes a file whole or not at all.
func replace(path string, data []byte) error {
	dir := filepath.Dir(path)
	pending, err := renameio.NewPendingFile(path, renameio.WithTempDir(dir), renameio.WithStaticPermissions(0o600))
	if err != nil {
		return err
	}
	defer pending.Cleanup()
	if _, err := pending.Write(data); err != nil {
		return err
	}
	if err := pending.CloseAtomicallyReplace(); err != nil {
		return err
	}
	// The file is in its place; this has the folder outlive a loss of power.
	// Not every file system can do it, and nothing would be undone.
	if d, err := os.Open(dir); err == nil {
		_ = d.Sync()
		d.Close()
	}
	return nil
}
