//go:build !linux && !darwin

package main

// hideTyping does nothing here: the terminal stops showing what is typed when
// the passphrase is read, a moment after the prompt.
func hideTyping(int) (restore func()) { return func() {} }
