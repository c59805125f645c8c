package store

import (
	"bytes"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"testing"

	"example.com/plumbline/internal/yamldoc"
)

// write makes a file, and its folder, with usual permissions.
func write(t testing.TB, path, text string) {
	t.Helper()
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
}

func read(t testing.TB, path string) string {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

// files are the names in a folder.
func files(t testing.TB, dir string) string {
	t.Helper()
	entries, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, e := range entries {
		names = append(names, e.Name())
	}
	return strings.Join(names, " ")
}

func opened(t testing.TB, path string, o Options) *File {
	t.Helper()
	f, err := Open(path, o)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { f.Close() })
	return f
}

func set(t testing.TB, doc *yamldoc.Document, key, text string) {
	t.Helper()
	if err := doc.Set(key, text); err != nil {
		t.Fatal(err)
	}
}

func save(t testing.TB, f *File) {
	t.Helper()
	if err := f.Save(f.Document()); err != nil {
		t.Fatal(err)
	}
}

func permissions(t testing.TB, path string, want fs.FileMode) {
	t.Helper()
	info, err := os.Stat(path)
	if err != nil {
		t.Fatal(err)
	}
	if got := info.Mode().Perm(); permissionsCount && got != want {
		t.Errorf("%s has permissions %o, want %o", filepath.Base(path), got, want)
	}
}

func TestNewFile(t *testing.T) {
	path := filepath.Join(t.TempDir(), "new", "answers.yaml")
	f := opened(t, path, Options{MakeFolder: true})
	permissions(t, filepath.Dir(path), 0o700)
	if _, err := os.Stat(path); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("the file is there before it is saved: %v", err)
	}
	set(t, f.Document(), "format", "1")
	save(t, f)
	permissions(t, path, 0o600)
	set(t, f.Document(), "tax_year", "2026")
	save(t, f)
	if got, want := read(t, path), "format: 1\ntax_year: 2026\n"; got != want {
		t.Errorf("saved %q, want %q", got, want)
	}
	if err := f.Close(); err != nil {
		t.Error(err)
	}
	if got := files(t, filepath.Dir(path)); got != "answers.yaml" {
		t.Errorf("left beside the file: %s", got)
	}
	if err := f.Save(f.Document()); err == nil {
		t.Error("saved after Close")
	}
}

// An unfinished file is resumed, comments and all, and one that others may
// read is kept from them by the first Save.
func TestResume(t *testing.T) {
	path := filepath.Join(t.TempDir(), "answers.yaml")
	text := "# mine\nformat: 1\njobs:\n  - name: Harbor # the clinic\n    year_to_date: {payday: 2026-06-12, federal_tax: 100}\n"
	write(t, path, text)
	f := opened(t, path, Options{})
	save(t, f)
	if got := read(t, path); got != text {
		t.Errorf("saved unchanged as %q, want %q", got, text)
	}
	permissions(t, path, 0o600)
	before, _ := os.Stat(path)
	save(t, f)
	if after, _ := os.Stat(path); !os.SameFile(before, after) {
		t.Error("saved again though nothing has changed")
	}
}

func TestInUse(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "answers.yaml")
	first := opened(t, path, Options{})
	if _, err := Open(path, Options{}); !errors.Is(err, ErrInUse) || err.Error() != path+": another plumbline has this file open; finish there first" {
		t.Errorf("Open of an open file: %v", err)
	}
	if _, err := Forget(path); !errors.Is(err, ErrInUse) {
		t.Errorf("Forget of an open file: %v", err)
	}
	opened(t, filepath.Join(dir, "other.yaml"), Options{})
	set(t, first.Document(), "format", "1")
	save(t, first) // replaces the file; the lock must stay
	if _, err := Open(path, Options{}); !errors.Is(err, ErrInUse) {
		t.Errorf("Open of an open file, once saved: %v", err)
	}
	first.Close()
	opened(t, path, Options{})
}

// However many race for it, one has the file at a time.
func TestInUseRace(t *testing.T) {
	path := filepath.Join(t.TempDir(), "answers.yaml")
	inside, done := make(chan bool, 1), make(chan int)
	for range 4 {
		go func() {
			got := 0
			for range 200 {
				f, err := Open(path, Options{})
				if errors.Is(err, ErrInUse) {
					runtime.Gosched()
					continue
				}
				if err != nil {
					t.Error(err)
					break
				}
				select {
				case inside <- true:
				default:
					t.Error("two have the file open")
				}
				got++
				<-inside
				if err := f.Close(); err != nil {
					t.Error(err)
				}
			}
			done <- got
		}()
	}
	total := 0
	for range 4 {
		total += <-done
	}
	if total == 0 {
		t.Error("nobody could open the file")
	}
}

func TestLink(t *testing.T) {
	dir := t.TempDir()
	target, link := filepath.Join(dir, "real", "mine.yaml"), filepath.Join(dir, "link.yaml")
	write(t, target, "format: 1\n")
	if err := os.Symlink(target, link); err != nil {
		t.Skip(err)
	}
	f := opened(t, link, Options{})
	if _, err := Open(target, Options{}); !errors.Is(err, ErrInUse) {
		t.Errorf("open through the link, and openable at its target: %v", err)
	}
	set(t, f.Document(), "tax_year", "2026")
	save(t, f)
	if info, err := os.Lstat(link); err != nil || info.Mode()&fs.ModeSymlink == 0 {
		t.Errorf("the link is gone: %v, %v", info, err)
	}
	if got, want := read(t, target), "format: 1\ntax_year: 2026\n"; got != want {
		t.Errorf("the link's target holds %q, want %q", got, want)
	}
	f.Close()
	if err := os.Remove(target); err != nil {
		t.Fatal(err)
	}
	if _, err := Open(link, Options{}); err == nil || err.Error() != link+": is a link to a file that is not there; remove the link or make the file" {
		t.Errorf("Open of a link that leads nowhere: %v", err)
	}
}

func TestOpenRefuses(t *testing.T) {
	dir := t.TempDir()
	tests := []struct {
		name, text string
		is         error
		want       string
	}{
		{"newer", "format: 2\nnew: 1\n", ErrNewerFormat, "1:1: format: the file has format 2 and this program reads up to 1; use the newer version of the program. The file is unchanged"},
		{"not in form", "format: 1\ntax_year: x\njobs: [{name: \"\\u202e\"}]\nspouse: [1]\n", nil, "2:11: tax_year: \"x\" is not a whole number; write it like 3\n3:9: jobs[0].name: contains an invisible character (U+202E); use plain text\n4:9: spouse: expected keys with values"},
		{"number", "format: 1\n# 123-45-6789\n", nil, "2:3: this program never keeps a social security number; take it out"},
		{"encrypted", "-----BEGIN AGE ENCRYPTED FILE-----\n", ErrEncrypted, ""},
	}
	for _, tt := range tests {
		path := filepath.Join(dir, tt.name+".yaml")
		write(t, path, tt.text)
		_, err := Open(path, Options{})
		if err == nil || tt.is != nil && !errors.Is(err, tt.is) {
			t.Errorf("%s: Open: %v", tt.name, err)
			continue
		}
		if got := strings.ReplaceAll("\n"+err.Error(), "\n"+path+":", "\n")[1:]; tt.want != "" && got != tt.want {
			t.Errorf("%s: Open:\n%s\nwant:\n%s", tt.name, got, tt.want)
		}
		if got := read(t, path); got != tt.text {
			t.Errorf("%s: the file was changed to %q", tt.name, got)
		}
		permissions(t, path, 0o644)
	}
	path := filepath.Join(dir, "marked.yaml")
	write(t, path, head)
	if err := os.Chmod(path, 0o400); err != nil {
		t.Fatal(err)
	}
	if _, err := Open(path, Options{}); err == nil || err.Error() != path+": is marked read-only; make it writable, or name another file" {
		t.Errorf("Open of a read-only file: %v", err)
	}
	if got := files(t, dir); strings.Contains(got, ".lock") {
		t.Errorf("a lock is left: %s", got)
	}
}

func TestSaveRefusesNumbers(t *testing.T) {
	path := filepath.Join(t.TempDir(), "answers.yaml")
	f := opened(t, path, Options{})
	set(t, f.Document(), "jobs[0].name", "123-45-6789")
	if err := f.Save(f.Document()); err == nil || err.Error() != path+":2:12: this program never keeps a social security number; take it out" {
		t.Errorf("Save of a social security number: %v", err)
	}
	if _, err := os.Stat(path); !errors.Is(err, fs.ErrNotExist) {
		t.Error("it is on the disk")
	}
}

// The first Save of an older file keeps the original, and never in the place
// of another.
func TestKeepOriginal(t *testing.T) {
	withUpgrade(t)
	dir := t.TempDir()
	path := filepath.Join(dir, "answers.yaml")
	older := "format: 0\ntax_year: 2026\nstatus: single\n"
	for _, backup := range []string{"answers.yaml.bak-format-0", "answers.yaml.bak-format-0-2"} {
		write(t, path, older)
		f := opened(t, path, Options{})
		if got := read(t, path); got != older {
			t.Errorf("changed by Open to %q", got)
		}
		save(t, f)
		save(t, f)
		f.Close()
		if got := read(t, path); got != head {
			t.Errorf("saved %q, want %q", got, head)
		}
		if got := read(t, filepath.Join(dir, backup)); got != older {
			t.Errorf("%s holds %q, want %q", backup, got, older)
		}
		permissions(t, filepath.Join(dir, backup), 0o600)
	}
	if got, want := files(t, dir), "answers.yaml answers.yaml.bak-format-0 answers.yaml.bak-format-0-2"; got != want {
		t.Errorf("files %s, want %s", got, want)
	}
}

// What a killed run has left is removed, and nothing that only looks like it.
func TestLeftovers(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "answers.yaml")
	kept := []string{".answers.yaml20260615", ".answers.yaml1234567890x", "answers.yaml1234567890", ".other.yaml1234567890"}
	for _, name := range append(slices.Clone(kept), ".answers.yaml1234567890", ".answers.yaml.lock") {
		write(t, filepath.Join(dir, name), "x")
	}
	if err := os.Mkdir(filepath.Join(dir, ".answers.yaml9876543210"), 0o755); err != nil {
		t.Fatal(err)
	}
	opened(t, path, Options{}).Close()
	slices.Sort(kept)
	want := strings.Join(slices.Insert(kept, 2, ".answers.yaml9876543210"), " ")
	if got := files(t, dir); got != want {
		t.Errorf("files %s, want %s", got, want)
	}
}

func TestOwnFolderIsKeptFromOthers(t *testing.T) {
	if !permissionsCount || runtime.GOOS == "darwin" {
		t.Skip("no permissions, or no XDG_DATA_HOME, here")
	}
	data := t.TempDir()
	t.Setenv("XDG_DATA_HOME", data)
	path, err := DefaultPath()
	if err != nil || path != filepath.Join(data, "plumbline", "answers.yaml") {
		t.Fatalf("DefaultPath = %s, %v", path, err)
	}
	write(t, path, head)
	opened(t, path, Options{MakeFolder: true})
	permissions(t, filepath.Dir(path), 0o700)
	other := filepath.Join(t.TempDir(), "shared", "answers.yaml")
	write(t, other, head)
	opened(t, other, Options{})
	permissions(t, filepath.Dir(other), 0o755)
}

func TestDefaultPath(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("paths of other systems")
	}
	tests := []struct{ source, system, home, xdg, local, want string }{
		{"XDG Base Directory Specification: default", "linux", "/home/a", "", "", "/home/a/.local/share/plumbline/answers.yaml"},
		{"the same: set", "freebsd", "/home/a", "/data", "", "/data/plumbline/answers.yaml"},
		{"the same: relative is passed over", "linux", "/home/a", "data", "", "/home/a/.local/share/plumbline/answers.yaml"},
		{"the same: set without a home", "linux", "", "/data", "", "/data/plumbline/answers.yaml"},
		{"Apple, File System Programming Guide: Application Support", "darwin", "/Users/a", "/data", "", "/Users/a/Library/Application Support/plumbline/answers.yaml"},
		{"Microsoft, Known Folders: LocalAppData", "windows", "", "", "/local", "/local/plumbline/answers.yaml"},
		{"no home", "linux", "", "", "", ""},
		{"no home", "darwin", "", "/data", "", ""},
		{"no home", "windows", "/home/a", "/data", "", ""},
	}
	for _, tt := range tests {
		got, err := defaultPath(tt.system, tt.home, func(name string) string {
			return map[string]string{"XDG_DATA_HOME": tt.xdg, "LocalAppData": tt.local}[name]
		})
		if got != tt.want || (err == nil) != (tt.want != "") {
			t.Errorf("%s (%s): %q, %v, want %q", tt.source, tt.system, got, err, tt.want)
		}
	}
}

func TestReadFile(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "answers.yaml")
	write(t, path, head)
	if data, err := ReadFile(path, nil); err != nil || string(data) != head {
		t.Errorf("ReadFile = %q, %v", data, err)
	}
	if _, err := ReadAll(bytes.NewReader(make([]byte, maxBytes+1))); err != ErrLarge {
		t.Errorf("ReadAll of a long stream: %v", err)
	}
	if data, err := ReadAll(bytes.NewReader(make([]byte, maxBytes))); err != nil || len(data) != maxBytes {
		t.Errorf("ReadAll of a stream as long as it may be: %v", err)
	}
	large := filepath.Join(dir, "large.yaml")
	write(t, large, head)
	if err := os.Truncate(large, 100<<20); err != nil {
		t.Fatal(err)
	}
	for path, want := range map[string]string{
		large:                       large + ": is larger than 1 MiB, so it is not an answers file",
		dir:                         dir + ": is a folder; name the answers file in it",
		filepath.Join(dir, "none"):  filepath.Join(dir, "none") + ": cannot be read: there is no such file or folder",
		path + "/in":                path + "/in: cannot be read: not a directory",
		filepath.Join(dir, "\x1b["): filepath.Join(dir, `\x1b[`) + ": cannot be read: there is no such file or folder",
	} {
		if runtime.GOOS == "windows" && strings.Contains(want, "cannot be read") {
			continue
		}
		if _, err := ReadFile(path, nil); err == nil || err.Error() != want {
			t.Errorf("ReadFile: %v, want %s", err, want)
		}
	}
}

// What another program has written meanwhile is kept beside the file, noticed by
// its content: here the time of the file is as it was.
func TestFileEditedElsewhere(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "answers.yaml")
	write(t, path, head)
	was, err := os.Stat(path)
	if err != nil {
		t.Fatal(err)
	}
	f := opened(t, path, Options{})
	set(t, f.Document(), "tax_year", "2025")
	save(t, f)
	if f.Kept() != "" {
		t.Errorf("kept %s though nobody wrote", f.Kept())
	}
	theirs := head + "self: {blind: true}\n"
	write(t, path, theirs)
	if err := os.Chtimes(path, was.ModTime(), was.ModTime()); err != nil {
		t.Fatal(err)
	}
	set(t, f.Document(), "filing_status", "head_of_household")
	save(t, f)
	if f.Kept() != path+".other" || read(t, f.Kept()) != theirs || !strings.Contains(read(t, path), "head_of_household") {
		t.Errorf("kept %q, files %s", f.Kept(), files(t, dir))
	}
	set(t, f.Document(), "tax_year", "2026")
	save(t, f)
	f.Close()
	if got := files(t, dir); got != "answers.yaml answers.yaml.other" {
		t.Errorf("files %s", got)
	}
	if removed, err := Forget(path); err != nil || len(removed) != 2 {
		t.Errorf("Forget = %q, %v", removed, err)
	}
}

// A folder is made only where the person has chosen it; a mistyped one is named.
func TestNoFolderIsMadeUnasked(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "taxs", "2026")
	path := filepath.Join(dir, "answers.yaml")
	if _, err := Open(path, Options{}); err == nil || err.Error() != path+": there is no folder "+dir+"; make it first, or name another place" {
		t.Errorf("Open without the folder: %v", err)
	}
	if _, err := os.Stat(filepath.Dir(dir)); !os.IsNotExist(err) {
		t.Errorf("a folder was made: %v", err)
	}
	f, err := Open(path, Options{MakeFolder: true})
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if f.Saved() {
		t.Error("said to be saved before anything was")
	}
	if err := f.Save(f.Document()); err != nil {
		t.Fatal(err)
	}
	if !f.Saved() {
		t.Error("not said to be saved")
	}
}
