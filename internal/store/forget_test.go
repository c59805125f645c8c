package store

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

func TestForget(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "answers.yaml")
	mine := []string{"answers.yaml", ".answers.yaml1234567890", "answers.yaml.bak-format-0", "answers.yaml.bak-format-0-2"}
	kept := []string{".answers.yaml1", "answers.yaml.bak", "answers.yaml.bak-format-x", "notes.txt"}
	for _, name := range slices.Concat(mine, kept) {
		write(t, filepath.Join(dir, name), head)
	}
	removed, err := Forget(path)
	for i := range removed {
		removed[i] = filepath.Base(removed[i])
	}
	if err != nil || !slices.Equal(removed, mine) {
		t.Errorf("Forget = %q, %v, want %q", removed, err, mine)
	}
	if got, want := files(t, dir), strings.Join(kept, " "); got != want {
		t.Errorf("left %s, want %s", got, want)
	}
	if removed, err := Forget(path, filepath.Join(dir, "no", "such.yaml")); err != nil || len(removed) > 0 {
		t.Errorf("Forget of nothing = %q, %v", removed, err)
	}
	for name, text := range map[string]string{"thesis.txt": "Chapter 1\n", "table.yaml": "year: 2026\n"} {
		path := filepath.Join(dir, name)
		write(t, path, text)
		write(t, path+".bak-format-0", text)
		if removed, err := Forget(path); len(removed) > 0 || err == nil || err.Error() != path+": holds no answers of this program, so it is not removed" {
			t.Errorf("Forget(%s) = %q, %v", name, removed, err)
		}
		if read(t, path) != text {
			t.Errorf("%s was changed", name)
		}
	}
	if _, err := Forget(dir); err == nil {
		t.Error("forgets a folder")
	}
}

// A link goes with the file that it leads to, so that none is left dangling.
func TestForgetLink(t *testing.T) {
	dir := t.TempDir()
	path, link := filepath.Join(dir, "answers.yaml"), filepath.Join(dir, "link.yaml")
	write(t, path, head)
	if err := os.Symlink(path, link); err != nil {
		t.Skip(err)
	}
	removed, err := Forget(link)
	if err != nil || len(removed) != 2 || files(t, dir) != "" {
		t.Errorf("Forget = %q, %v, left %s", removed, err, files(t, dir))
	}
}

func TestForgetAtDefaultPath(t *testing.T) {
	data := t.TempDir()
	t.Setenv("XDG_DATA_HOME", data)
	t.Setenv("HOME", data)
	t.Setenv("LocalAppData", data)
	path, err := DefaultPath()
	if err != nil {
		t.Fatal(err)
	}
	f := opened(t, path, Options{MakeFolder: true})
	set(t, f.Document(), "format", "1")
	save(t, f)
	f.Close()
	write(t, lockPath(path), "") // of a killed run
	removed, err := Forget()
	if want := []string{path, lockPath(path), filepath.Dir(path)}; err != nil || !slices.Equal(removed, want) {
		t.Errorf("Forget = %q, %v, want %q", removed, err, want)
	}
	if _, err := os.Stat(filepath.Dir(path)); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("its folder is still there: %v", err)
	}
	if removed, err := Forget(); err != nil || len(removed) > 0 {
		t.Errorf("Forget of nothing = %q, %v", removed, err)
	}
	// What cannot be read any more goes all the same, and others' files stay.
	write(t, path, "broken: [")
	other := filepath.Join(filepath.Dir(path), "note.txt")
	write(t, other, "x")
	if removed, err := Forget(); err != nil || !slices.Equal(removed, []string{path}) {
		t.Errorf("Forget = %q, %v", removed, err)
	}
	read(t, other)
}
