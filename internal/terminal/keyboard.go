package terminal

import (
	"bytes"
	"os"
)

// keyboard is a terminal on which Ctrl-C always counts. A terminal marks where
// pasted text begins and ends; when the end never comes, what reads the keys
// waits for it, and would take Ctrl-C for a part of the text.
type keyboard struct{ *os.File }

const (
	ctrlC    = '\x03'
	pasteEnd = "\x1b[201~" // "Bracketed Paste Mode" of xterm's control sequences
)

// Read implements io.Reader.
func (k keyboard) Read(p []byte) (int, error) {
	n, err := k.File.Read(p)
	return endPaste(p, n), err
}

// endPaste puts the end of a paste before the first Ctrl-C among the n bytes at
// the beginning of p. Where there was no paste, it means nothing. Where there is
// no room for all, what was typed before and after Ctrl-C is dropped. It returns
// how many bytes there are now.
func endPaste(p []byte, n int) int {
	at := bytes.IndexByte(p[:n], ctrlC)
	switch {
	case at < 0 || len(p) <= len(pasteEnd):
		return n
	case n+len(pasteEnd) > len(p):
		return copy(p, pasteEnd+string(ctrlC))
	}
	copy(p[at+len(pasteEnd):], p[at:n])
	copy(p[at:], pasteEnd)
	return n + len(pasteEnd)
}
