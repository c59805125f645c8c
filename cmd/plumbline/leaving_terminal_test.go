package main

import (
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"
)

func TestSignalSaves(t *testing.T) {
	for name, signal := range map[string]syscall.Signal{"terminate": syscall.SIGTERM, "interrupt": syscall.SIGINT, "hang up": syscall.SIGHUP} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			on, file := newScreen(t)
			on.see(wayIn)
			on.press("<enter>")
			on.see(married)
			if err := on.cmd.Process.Signal(signal); err != nil {
				t.Fatal(err)
			}
			if status := on.exit(); status != exitAnswers {
				t.Errorf("exit status %d, want %d", status, exitAnswers)
			}
			hasLine(t, file, "way_in: new_job")
			if out := on.output(); !strings.Contains(out, "\x1b[?1049l") || !strings.Contains(out, "the answers so far are saved in answers.yaml") {
				t.Errorf("the terminal is not given back, or the way back not told: %q", out)
			}
		})
	}
}

// TestTerminalGoesAway closes the window: the answers are saved, the program
// ends.
func TestTerminalGoesAway(t *testing.T) {
	t.Parallel()
	on, file := newScreen(t)
	on.see(wayIn)
	on.press("<enter>")
	on.see(married)
	on.pty.Close()
	done := make(chan struct{})
	go func() { on.cmd.Wait(); close(done) }()
	select {
	case <-done:
	case <-time.After(patience):
		t.Fatal("the program goes on without its terminal")
	}
	hasLine(t, file, "way_in: new_job")
}

func TestSecondInterviewOnTheSameFile(t *testing.T) {
	t.Parallel()
	on, file := newScreen(t)
	on.see(wayIn)
	on.press("<enter>")
	on.see(married)
	before := contents(t, file)
	_, stderr, status := piped(t, programCommand(t, filepath.Dir(file), aDay, "interview", "answers.yaml"), "1\n")
	if status != exitSystem || !strings.Contains(stderr, "another plumbline has this file open") {
		t.Errorf("exit status %d, want %d; standard error: %s", status, exitSystem, stderr)
	}
	if contents(t, file) != before {
		t.Error("the second interview has changed the file")
	}
	on.press("<enter>")
	on.due(file, aDay, "interview.jobs")
}

func TestEndOfInput(t *testing.T) {
	t.Parallel()
	home := t.TempDir()
	_, stderr, status := piped(t, programCommand(t, home, aDay, "interview", "answers.yaml"), "1\n1\n")
	if status != exitAnswers || !strings.Contains(stderr, "the input ended before the interview did; the answers so far are saved in answers.yaml") {
		t.Errorf("exit status %d, want %d; standard error: %s", status, exitAnswers, stderr)
	}
	hasLine(t, filepath.Join(home, "answers.yaml"), `married: "no"`)
	for _, input := range []string{"", "2\n"} { // before a file is chosen
		if _, stderr, status := piped(t, programCommand(t, home, aDay), input); status != exitAnswers {
			t.Errorf("%q: exit status %d, want %d; standard error: %s", input, status, exitAnswers, stderr)
		}
	}
}
