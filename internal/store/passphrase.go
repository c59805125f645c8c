package store

import (
	"bytes"
	"errors"
	"io"
	"slices"
	"unicode/utf8"

	"filippo.io/age"
	"filippo.io/age/armor"

	"example.com/plumbline/internal/words"
	"example.com/plumbline/internal/yamldoc"
)

// Passphrase asks for a passphrase with a prompt and returns it as typed. Its
// error is passed on. It must not show what is typed.
type Passphrase func(prompt words.Text) ([]byte, error)

// Errors about encrypted files, to be told apart by errors.Is.
var (
	ErrEncrypted       = known("answers.passphrase.encrypted")
	ErrPassphrase      = known("answers.passphrase.wrong")
	ErrOtherKey        = known("answers.passphrase.other_key")
	errNoTerminal      = known("answers.passphrase.no_terminal")
	ErrEmptyPassphrase = known("answers.passphrase.empty")
	ErrUnlike          = known("answers.passphrase.unlike")
)

// tries is how often the passphrase of a file may be typed wrong.
const tries = 3

// shortest is the number of characters below which a new passphrase is called
// short: at a third of a second a guess, a word with a digit falls in hours.
const shortest = 12

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
	if _, err := decrypt(data, byPassphrase{}); errors.Is(err, ErrOtherKey) {
		return nil, "", about(path, err) // no passphrase could open it
	}
	if ask == nil {
		return nil, "", about(path, ErrEncrypted)
	}
	prompt := words.T("answers.passphrase.ask", "file", path)
	for try := 1; ; try++ {
		answer, err := ask(prompt)
		if err != nil {
			return nil, "", about(path, err)
		}
		text, err := open(data, string(answer))
		if err == nil {
			return text, string(answer), nil
		}
		if !errors.Is(err, ErrPassphrase) || try == tries {
			return nil, "", about(path, err)
		}
		prompt = words.T("answers.passphrase.ask_again", "file", path)
	}
}

func open(data []byte, passphrase string) ([]byte, error) {
	if passphrase == "" {
		return nil, ErrPassphrase // none can be made empty
	}
	identity, err := age.NewScryptIdentity(passphrase)
	if err != nil {
		return nil, err
	}
	identity.SetMaxWorkFactor(maxWorkFactor)
	r, err := decrypt(data, identity)
	var unmatched *age.NoIdentityMatchError
	switch {
	case errors.As(err, &unmatched):
		return nil, ErrPassphrase
	case err != nil:
		return nil, damaged(err)
	}
	text, err := ReadAll(r)
	if err != nil && err != ErrLarge {
		return nil, damaged(err)
	}
	return text, err
}

// decrypt opens an encrypted text, in letters or in bytes.
func decrypt(data []byte, with age.Identity) (io.Reader, error) {
	var source io.Reader = bytes.NewReader(data)
	if !bytes.HasPrefix(data, []byte("age-")) {
		source = armor.NewReader(source)
	}
	return age.Decrypt(source, with)
}

// byPassphrase opens nothing, and gives ErrOtherKey for a text that was encrypted
// with something else than a passphrase, which age calls scrypt.
type byPassphrase struct{}

func (byPassphrase) Unwrap(stanzas []*age.Stanza) ([]byte, error) {
	if !slices.ContainsFunc(stanzas, func(s *age.Stanza) bool { return s.Type == "scrypt" }) {
		return nil, ErrOtherKey
	}
	return nil, age.ErrIncorrectIdentity
}

// damaged is an encrypted text that cannot be opened, and why.
func damaged(err error) error {
	return wrapping{words.Problem{Text: words.T("answers.passphrase.damaged", "why", err)}, err}
}

// newPassphrase asks for a passphrase to encrypt with, twice.
func newPassphrase(path string, ask Passphrase) (string, error) {
	path = yamldoc.Printable(path)
	first, err := ask(words.T("answers.passphrase.new", "file", path))
	if err == nil && len(first) == 0 {
		err = ErrEmptyPassphrase
	}
	if err != nil {
		return "", about(path, err)
	}
	once := words.T("answers.passphrase.once_more")
	if utf8.RuneCount(first) < shortest {
		once = words.T("answers.passphrase.short_once_more", "characters", shortest)
	}
	again, err := ask(once)
	if err == nil && !bytes.Equal(first, again) {
		err = ErrUnlike
	}
	if err != nil {
		return "", about(path, err)
	}
	return string(first), nil
}
