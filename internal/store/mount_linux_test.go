package store

import "golang.org/x/sys/unix"

func mountSmall(dir string) error {
	return unix.Mount("tmpfs", dir, "tmpfs", 0, "size=64k")
}

func remountReadOnly(dir string) error {
	return unix.Mount("tmpfs", dir, "tmpfs", unix.MS_REMOUNT|unix.MS_RDONLY, "size=64k")
}
