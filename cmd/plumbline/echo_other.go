//go:build !linux && !darwin

package main

import (
	"os"

	"golang.org/x/term"
)

// hideTyping does nothing here: the terminal stops showing what is typed when
// the passphrase is read, a moment after the prompt.
func hideTyping(int) (restore func()) { return func() {} }

func readHidden(in *os.File) ([]byte, error) { return term.ReadPassword(int(in.Fd())) }
