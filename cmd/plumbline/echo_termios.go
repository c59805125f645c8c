//go:build linux || darwin

package main

import (
	"bytes"
	"io"
	"os"

	"golang.org/x/sys/unix"
)

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

// readHidden reads a line while typing is hidden. Ctrl-D at its beginning is
// io.EOF; the library's own reading of passwords would go on waiting.
func readHidden(in *os.File) ([]byte, error) {
	var line []byte
	for b := make([]byte, 1); ; {
		switch _, err := in.Read(b); {
		case err == io.EOF && len(line) > 0, err == nil && b[0] == '\n':
			return bytes.TrimSuffix(line, []byte("\r")), nil
		case err != nil:
			return nil, err
		}
		line = append(line, b[0])
	}
}
