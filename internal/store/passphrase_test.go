package store

import (
	"bytes"
	"errors"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"filippo.io/age"
	"filippo.io/age/armor"

	"example.com/plumbline/internal/words"
)

// quick keeps scrypt from taking its time.
const quick = 4

// types returns a Passphrase that gives one answer after the other, and a
// record of its prompts.
func types(answers ...string) (Passphrase, *[]string) {
	prompts := new([]string)
	return func(prompt words.Text) ([]byte, error) {
		*prompts = append(*prompts, words.English().Say(prompt))
		if len(*prompts) > len(answers) {
			return nil, io.ErrUnexpectedEOF
		}
		return []byte(answers[len(*prompts)-1]), nil
	}, prompts
}

func TestEncrypted(t *testing.T) {
	path := filepath.Join(t.TempDir(), "answers.yaml")
	ask, prompts := types("long secret", "long secret")
	f := opened(t, path, Options{Passphrase: ask, Encrypt: true, WorkFactor: quick})
	if got, want := strings.Join(*prompts, "|"), "New passphrase for "+path+". Nobody can read the answers without it: |This is short and could be guessed; 12 characters or more are better. The same once more to use it: "; got != want {
		t.Errorf("asked %q, want %q", got, want)
	}
	set(t, f.Document(), "format", "1")
	save(t, f)
	first := read(t, path)
	save(t, f)
	if read(t, path) != first {
		t.Error("encrypted again though nothing has changed")
	}
	set(t, f.Document(), "tax_year", "2026")
	save(t, f)
	f.Close()
	permissions(t, path, 0o600)

	// The age library, as the standard tool uses it, opens the file.
	data := read(t, path)
	if strings.Contains(data, "format") || !strings.HasPrefix(data, armor.Header) {
		t.Fatalf("not encrypted: %s", data)
	}
	identity, err := age.NewScryptIdentity("long secret")
	if err != nil {
		t.Fatal(err)
	}
	r, err := age.Decrypt(armor.NewReader(strings.NewReader(data)), identity)
	if err != nil {
		t.Fatal(err)
	}
	const want = "format: 1\ntax_year: 2026\n"
	if text, err := io.ReadAll(r); err != nil || string(text) != want {
		t.Fatalf("opens as %q, %v", text, err)
	}

	ask, prompts = types("long secret")
	if text, err := ReadFile(path, ask); err != nil || string(text) != want {
		t.Errorf("ReadFile = %q, %v", text, err)
	}
	if got, want := strings.Join(*prompts, "|"), "Passphrase of "+path+": "; got != want {
		t.Errorf("asked %q, want %q", got, want)
	}
	ask, _ = types("long secret")
	f = opened(t, path, Options{Passphrase: ask, WorkFactor: quick})
	set(t, f.Document(), "tax_year", "2025")
	save(t, f)
	f.Close()
	if !sealed([]byte(read(t, path))) {
		t.Error("an encrypted file is saved in plain text")
	}

	// It may be typed three times, and is told apart from other errors.
	// An empty one is a slip like another.
	ask, prompts = types("long", "", "long secret")
	if text, err := ReadFile(path, ask); err != nil || !strings.Contains(string(text), "2025") || !strings.HasPrefix((*prompts)[2], "That is not the passphrase") {
		t.Errorf("ReadFile at the third try = %q, %v, asked %q", text, err, *prompts)
	}
	asked := 0
	wrong := func(words.Text) ([]byte, error) { asked++; return []byte("long secrets"), nil }
	for name, err := range map[string]error{
		"ReadFile": second(ReadFile(path, wrong)), "Open": second(Open(path, Options{Passphrase: wrong})),
	} {
		if !errors.Is(err, ErrPassphrase) || err.Error() != path+": this is not the passphrase that the file was encrypted with" {
			t.Errorf("%s with a wrong passphrase: %v", name, err)
		}
	}
	if asked != 2*tries {
		t.Errorf("asked %d times, want %d", asked, 2*tries)
	}
	for name, err := range map[string]error{
		"ReadFile": second(ReadFile(path, nil)), "Open": second(Open(path, Options{})),
	} {
		if !errors.Is(err, ErrEncrypted) {
			t.Errorf("%s without a passphrase: %v", name, err)
		}
	}
	// Whoever has lost the passphrase can still remove the file.
	if removed, err := Forget(path); err != nil || len(removed) != 1 {
		t.Errorf("Forget = %q, %v", removed, err)
	}
}

func second[T any](_ T, err error) error { return err }

// A plain file is encrypted at once, whether or not anything is answered, and
// others can no longer read it.
func TestEncryptExistingAtOnce(t *testing.T) {
	path := filepath.Join(t.TempDir(), "answers.yaml")
	write(t, path, head)
	if err := os.Chmod(path, 0o644); err != nil {
		t.Fatal(err)
	}
	ask, _ := types("a", "a")
	f := opened(t, path, Options{Passphrase: ask, Encrypt: true, WorkFactor: quick})
	if !f.NewlyEncrypted() || !sealed([]byte(read(t, path))) {
		t.Errorf("NewlyEncrypted() = %v, the file is\n%s", f.NewlyEncrypted(), read(t, path))
	}
	permissions(t, path, 0o600)
	f.Close()
	ask, _ = types("a")
	if f = opened(t, path, Options{Passphrase: ask, Encrypt: true, WorkFactor: quick}); f.NewlyEncrypted() {
		t.Error("says that it encrypts a file that is encrypted already")
	}
}

// The original of an older format is encrypted too.
func TestEncryptExisting(t *testing.T) {
	withUpgrade(t)
	dir := t.TempDir()
	path := filepath.Join(dir, "answers.yaml")
	write(t, path, "format: 0\ntax_year: 2026\nstatus: single\n")
	ask, _ := types("a", "a")
	f := opened(t, path, Options{Passphrase: ask, Encrypt: true, WorkFactor: quick})
	save(t, f)
	for file, want := range map[string]string{path: head, path + ".bak-format-0": "format: 0\ntax_year: 2026\nstatus: single\n"} {
		ask, _ := types("a")
		if text, err := ReadFile(file, ask); err != nil || string(text) != want || !sealed([]byte(read(t, file))) {
			t.Errorf("%s opens as %q, %v", filepath.Base(file), text, err)
		}
	}
}

func TestPassphrasesRefused(t *testing.T) {
	path := filepath.Join(t.TempDir(), "answers.yaml")
	write(t, path, head)
	for want, answers := range map[string][]string{
		"no passphrase was typed, so nothing was encrypted; start again and type one":                             {""},
		"the two passphrases are not the same, so nothing was encrypted; start again and type the same one twice": {"a", "b"},
		"unexpected EOF": {"a"},
	} {
		ask, _ := types(answers...)
		if _, err := Open(path, Options{Passphrase: ask, Encrypt: true}); err == nil || err.Error() != path+": "+want {
			t.Errorf("Open: %v, want %s", err, want)
		}
	}
	if _, err := Open(path, Options{Encrypt: true}); err == nil || err.Error() != path+": a passphrase can only be typed at a terminal" {
		t.Errorf("Open without a terminal: %v", err)
	}
	if read(t, path) != head {
		t.Error("the file was changed")
	}
}

func TestDamagedEncryption(t *testing.T) {
	path := filepath.Join(t.TempDir(), "answers.yaml")
	good, err := seal([]byte(head), "a", quick)
	if err != nil {
		t.Fatal(err)
	}
	key, err := age.GenerateX25519Identity()
	if err != nil {
		t.Fatal(err)
	}
	var other, costly bytes.Buffer
	w, err := age.Encrypt(&other, key.Recipient())
	if err != nil {
		t.Fatal(err)
	}
	w.Close()
	// A header that asks for four gigabytes of memory, made by hand.
	letters := armor.NewWriter(&costly)
	io.WriteString(letters, "age-encryption.org/v1\n-> scrypt bBnBZBLqyl9zNYkXzSUHzg 22\nbBnBZBLqyl9zNYkXzSUHzgbBnBZBLqyl9zNYkXzSUHw\n--- bBnBZBLqyl9zNYkXzSUHzgbBnBZBLqyl9zNYkXzSUHw\n")
	letters.Close()
	tests := []struct{ name, text, want string }{
		{"cut short", string(good[:len(good)/2]), "the file is encrypted, but damaged: "},
		{"a letter changed", strings.Replace(string(good), "\n--", "A\n--", 1), "the file is encrypted, but damaged: "},
		{"by a key", other.String(), "the file is encrypted, but not with a passphrase; "},
		{"costly", costly.String(), "the file is encrypted, but damaged: scrypt work factor too large: 22"},
		{"nothing in it", armor.Header + "\n" + armor.Footer + "\n", "the file is encrypted, but damaged: "},
	}
	for _, tt := range tests {
		if err := os.WriteFile(path, []byte(tt.text), 0o600); err != nil {
			t.Fatal(err)
		}
		ask, _ := types("a", "a", "a")
		if _, err := ReadFile(path, ask); err == nil || !strings.HasPrefix(err.Error(), path+": "+tt.want) {
			t.Errorf("%s: %v, want %s", tt.name, err, tt.want)
		}
	}
	// age in bytes, and in letters that Windows has ended its way, are read too.
	r, err := io.ReadAll(armor.NewReader(bytes.NewReader(good)))
	if err != nil {
		t.Fatal(err)
	}
	for _, text := range []string{string(r), "\n" + strings.ReplaceAll(string(good), "\n", "\r\n")} {
		write(t, path, text)
		ask, _ := types("a")
		if got, err := ReadFile(path, ask); err != nil || string(got) != head {
			t.Errorf("ReadFile = %q, %v", got, err)
		}
	}
}
