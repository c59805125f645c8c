//go:build linux || darwin

package main

import "golang.org/x/sys/unix"

// hideTyping keeps a terminal from showing what is typed, until restore is
// called. It is done before a passphrase is asked for, so that nothing typed
// between the prompt and the reading of it is shown.
func hideTyping(fd int) (restore func()) {
	was, err := unix.IoctlGetTermios(fd, getTermios)
	if err != nil {
		return func() {}
	}
	hidden := *was
	hidden.Lflag &^= unix.ECHO
	if unix.IoctlSetTermios(fd, setTermios, &hidden) != nil {
		return func() {}
	}
	return func() { _ = unix.IoctlSetTermios(fd, setTermios, was) }
}
