package main

import (
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
)

func TestEncrypted(t *testing.T) {
	t.Parallel()
	home := t.TempDir()
	file := filepath.Join(home, "answers.yaml")
	on := startScreen(t, programCommand(t, home, aDay, "interview", "--encrypt", "answers.yaml"), 80, 24)
	on.see("New passphrase for")
	on.press("heron at dusk<enter>")
	on.see("The same once more")
	on.press("heron at dusk<enter>")
	on.see(wayIn)
	on.press("<enter>")
	on.see(married)
	on.press("<ctrl+c>")
	on.exit()
	if strings.Contains(on.output(), "heron") {
		t.Error("the passphrase is shown")
	}
	hasLine(t, file, "-----BEGIN AGE ENCRYPTED FILE-----")

	again := startScreen(t, programCommand(t, home, aDay, "interview", "answers.yaml"), 80, 24)
	again.see("Passphrase of")
	again.press("heron at dusk<enter>")
	again.see(married)

	_, stderr, status := piped(t, programCommand(t, t.TempDir(), aDay, "interview", "--encrypt", "x.yaml"), "1\n")
	if status != exitAnswers || !strings.Contains(stderr, "can only be typed at a terminal") {
		t.Errorf("exit status %d, want %d; standard error: %s", status, exitAnswers, stderr)
	}
}

// Whoever does not want to type a passphrase gets out, by keys and by signals.
func TestPassphraseLeft(t *testing.T) {
	t.Parallel()
	signalled := func(s os.Signal) func(*screen) {
		return func(on *screen) {
			if err := on.cmd.Process.Signal(s); err != nil {
				t.Error(err)
			}
		}
	}
	for name, leave := range map[string]func(*screen){
		"Ctrl-C":  func(on *screen) { on.press("<ctrl+c>") },
		"Ctrl-D":  func(on *screen) { on.press("<ctrl+d>") },
		"SIGTERM": signalled(syscall.SIGTERM),
		"SIGHUP":  signalled(syscall.SIGHUP),
	} {
		t.Run(name, func(t *testing.T) {
			on := startScreen(t, programCommand(t, t.TempDir(), aDay, "interview", "--encrypt", "answers.yaml"), 80, 24)
			on.see("New passphrase for")
			leave(on)
			if status := on.exit(); status != exitAnswers {
				t.Errorf("exit status %d, want %d: %q", status, exitAnswers, on.output())
			}
		})
	}
}

// A new passphrase that cannot be used is the fault of what was typed, as a wrong
// one is.
func TestPassphraseNotUsable(t *testing.T) {
	t.Parallel()
	for name, typed := range map[string][]string{
		"empty":  {"<enter>"},
		"unlike": {"heron at dusk<enter>", "heron at dawn<enter>"},
	} {
		t.Run(name, func(t *testing.T) {
			on := startScreen(t, programCommand(t, t.TempDir(), aDay, "interview", "--encrypt", "answers.yaml"), 80, 24)
			on.see("New passphrase for")
			on.press(typed[0])
			for _, again := range typed[1:] {
				on.see("once more")
				on.press(again)
			}
			if status := on.exit(); status != exitAnswers {
				t.Errorf("exit status %d, want %d: %q", status, exitAnswers, on.output())
			}
		})
	}
}
