package main

import (
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// At a helper's desk nothing is on disk but what a visitor had written, and each
// begins where the first one did: after an interview, after Ctrl-C in the middle
// of one, and after one in another language.
func TestVisitors(t *testing.T) {
	t.Parallel()
	home := t.TempDir()
	blank, err := os.ReadFile(official2026)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(home, "w4.pdf"), blank, 0o600); err != nil {
		t.Fatal(err)
	}
	cmd := programCommand(t, home, aDay, "interview", "--visitor")
	cmd.Env = append(cmd.Env, "TMPDIR="+home)
	on := startScreen(t, cmd, 80, 24)
	onDisk := func(want ...string) {
		t.Helper()
		var got []string
		err := filepath.WalkDir(home, func(path string, d fs.DirEntry, err error) error {
			if err == nil && d.IsDir() && strings.HasPrefix(d.Name(), "testscript-main") {
				return fs.SkipDir // of the test binary
			}
			if err == nil && path != home {
				got = append(got, strings.TrimPrefix(path, home+"/"))
			}
			return err
		})
		if err != nil || !slices.Equal(got, want) {
			t.Errorf("on disk are %q (%v), want %q", got, err, want)
		}
	}
	const another, gone, leave = "Is there another visitor?", "The last visitor's answers are gone.", "End this visit?"
	clean := on.until("the first screen to its last line", func(text string) bool {
		return strings.Contains(flat(text), wayIn) && strings.HasSuffix(strings.TrimSpace(text), "ctrl+c end this visit")
	})
	next := func(files string) {
		t.Helper()
		if text := flat(on.see(another)); !strings.Contains(text, gone) || !strings.Contains(text, files) {
			t.Errorf("the helper is not told that the answers are gone, and %q: %s", files, text)
		}
		on.press("<enter>")
		on.see(wayIn)
		on.until("the screen that the first visitor began with", func(text string) bool { return text == clean })
	}

	on.hire()
	on.press("w")
	on.see("> withholding.pdf")
	on.press("<enter>")
	on.see("The pages are written to withholding.pdf.")
	on.press("f")
	on.see("Where is the blank official form, as a PDF")
	on.press("w4.pdf<enter>")
	on.see("The official form is filled in: w4-filled.pdf.")
	on.press("q")
	on.see(leave)
	on.press("<esc>")
	on.see("The official form is filled in: w4-filled.pdf.")
	on.press("q")
	on.see(leave)
	on.press("<enter>")
	next("until you delete them: withholding.pdf and w4-filled.pdf.")
	onDisk("w4-filled.pdf", "w4.pdf", "withholding.pdf")

	on.press("<enter>")
	on.see(married)
	on.press("<down><enter>")
	on.see(jointly)
	on.see("visitor mode")
	on.press("<ctrl+c>")
	on.see(leave)
	on.press("<ctrl+c>")
	next("Nothing of them is on this computer.")

	on.press("<ctrl+l>")
	on.see("¿Qué le trae por aquí hoy?")
	on.press("<enter><ctrl+c><ctrl+c>")
	next("Nothing of them is on this computer.")

	on.hire()
	on.press("w")
	on.see("> withholding-2.pdf")
	on.press("<ctrl+c><ctrl+c>")
	on.see(another)
	on.press("<down><enter>")
	if status := on.exit(); status != exitDone {
		t.Errorf("exit status %d, want %d", status, exitDone)
	}
	onDisk("w4-filled.pdf", "w4.pdf", "withholding.pdf")
}
