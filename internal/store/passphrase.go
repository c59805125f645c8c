package store

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"strings"

	"filippo.io/age"
	"filippo.io/age/armor"

	"example.com/plumbline/internal/yamldoc"
)

// Passphrase asks for a passphrase with a prompt and returns it as typed. Its
// error is passed on. It must not show what is typed.
type Passphrase func(prompt string) ([]byte, error)

// Errors about encrypted files, to be told apart by errors.Is.
var (
	ErrEncrypted  = errors.New("the file is encrypted, and its passphrase can only be typed at a terminal")
	ErrPassphrase = errors.New("the passphrase is not the one the file was encrypted with")
	errOtherKey   = errors.New("the file is encrypted, but not with a passphrase; decrypt it by the program it was encrypted with")
	errNoTerminal = errors.New("a passphrase can only be typed at a terminal")
	errEmpty      = errors.New("a passphrase cannot be empty")
	errUnlike     = errors.New("the two passphrases are not the same; nothing was changed")
)

// Work factors of scrypt, as powers of two. Each step up doubles the time and
// the memory that one guess at the passphrase takes. The default is paid for
// at every answer saved: about a third of a second.
const (
	workFactor    = 16
	maxWorkFactor = 20 // that is read: a gigabyte of memory
)

// sealed reports whether a text is encrypted in the age format, in letters or
// in bytes.
func sealed(data []byte) bool {
	return bytes.HasPrefix(bytes.TrimLeft(data, " \t\r\n"), []byte(armor.Header)) ||
		bytes.HasPrefix(data, []byte("age-encryption.org/"))
}

// seal encrypts a text so that the standard age tool opens it.
func seal(text []byte, passphrase string, factor int) ([]byte, error) {
	recipient, err := age.NewScryptRecipient(passphrase)
	if err != nil {
		return nil, err
	}
	if factor == 0 {
		factor = workFactor
	}
	recipient.SetWorkFactor(factor)
	var sealed bytes.Buffer
	letters := armor.NewWriter(&sealed)
	w, err := age.Encrypt(letters, recipient)
	if err != nil {
		return nil, err
	}
	if _, err := w.Write(text); err != nil {
		return nil, err
	}
	if err := errors.Join(w.Close(), letters.Close()); err != nil {
		return nil, err
	}
	return sealed.Bytes(), nil
}

// unseal asks for the passphrase of an encrypted text and opens it.
func unseal(path string, data []byte, ask Passphrase) (text []byte, passphrase string, err error) {
	path = yamldoc.Printable(path)
	if ask == nil {
		return nil, "", fmt.Errorf("%s: %w", path, ErrEncrypted)
	}
	if passphrase, err = typed(ask, "Passphrase of "+path+": "); err != nil {
		return nil, "", fmt.Errorf("%s: %w", path, err)
	}
	if text, err = open(data, passphrase); err != nil {
		return nil, "", fmt.Errorf("%s: %w", path, err)
	}
	return text, passphrase, nil
}

func open(data []byte, passphrase string) ([]byte, error) {
	identity, err := age.NewScryptIdentity(passphrase)
	if err != nil {
		return nil, err
	}
	identity.SetMaxWorkFactor(maxWorkFactor)
	var source io.Reader = bytes.NewReader(data)
	if !bytes.HasPrefix(data, []byte("age-")) {
		source = armor.NewReader(source)
	}
	r, err := age.Decrypt(source, identity)
	var unmatched *age.NoIdentityMatchError
	switch {
	case errors.As(err, &unmatched) && strings.Contains(err.Error(), "incorrect passphrase"):
		return nil, ErrPassphrase
	case unmatched != nil:
		return nil, errOtherKey
	case err != nil:
		return nil, fmt.Errorf("the file is encrypted, but damaged: %w", err)
	}
	text, err := ReadAll(r)
	if err != nil && err != errLarge {
		return nil, fmt.Errorf("the file is encrypted, but damaged: %w", err)
	}
	return text, err
}

// newPassphrase asks for a passphrase to encrypt with, twice.
func newPassphrase(path string, ask Passphrase) (string, error) {
	path = yamldoc.Printable(path)
	first, err := typed(ask, "New passphrase for "+path+": ")
	if err != nil {
		return "", fmt.Errorf("%s: %w", path, err)
	}
	again, err := typed(ask, "The same once more: ")
	if err == nil && first != again {
		err = errUnlike
	}
	if err != nil {
		return "", fmt.Errorf("%s: %w", path, err)
	}
	return first, nil
}

func typed(ask Passphrase, prompt string) (string, error) {
	passphrase, err := ask(prompt)
	if err == nil && len(passphrase) == 0 {
		err = errEmpty
	}
	return string(passphrase), err
}
