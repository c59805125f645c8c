package main

import (
	"bytes"
	"flag"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"

	"github.com/charmbracelet/x/vt"
	"github.com/creack/pty"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/words"
	"example.com/plumbline/taxtables"
)

var update = flag.Bool("update", false, "rewrite golden files")

// asProgram is the variable that makes the test binary the program itself, on
// the day that it names.
const asProgram = "PLUMBLINE_AS_PROGRAM"

// TestAsProgram is no test: it is the program, run by other tests on a terminal
// or a pipe of its own, on a day that does not change.
func TestAsProgram(t *testing.T) {
	var today household.Date
	if err := today.UnmarshalText([]byte(os.Getenv(asProgram))); err != nil || today.IsZero() {
		t.Skip("run by other tests, as the program")
	}
	p := &program{stdin: os.Stdin, stdout: os.Stdout, stderr: os.Stderr, today: today, language: words.English(), inside: taxtables.Files}
	os.Exit(p.run(flag.Args()))
}

// programCommand is the program as a command, in an empty folder and with no
// environment but what it needs.
func programCommand(t testing.TB, home, today string, args ...string) *exec.Cmd {
	t.Helper()
	cmd := exec.Command(os.Args[0], append([]string{"-test.run=^TestAsProgram$", "--"}, args...)...)
	cmd.Dir = home
	cmd.Env = []string{
		asProgram + "=" + today, "HOME=" + home, "XDG_DATA_HOME=" + filepath.Join(home, "data"),
		"TERM=xterm-256color", "LC_CTYPE=C.UTF-8", "PATH=" + os.Getenv("PATH"), "TMPDIR=" + os.TempDir(),
	}
	return cmd
}

// patience is how long to wait for what must come. It is only ever used up by
// a failure.
const patience = 30 * time.Second

// screen is the program on a terminal.
type screen struct {
	t    testing.TB
	cmd  *exec.Cmd
	pty  *os.File
	mu   sync.Mutex
	emu  *vt.Emulator
	raw  bytes.Buffer
	news chan struct{} // holds one when something has been written since it was last taken
	gone chan struct{} // closed when the program's output has ended
}

// startScreen starts a command on a terminal of a size.
func startScreen(t testing.TB, cmd *exec.Cmd, columns, rows int) *screen {
	t.Helper()
	f, err := pty.StartWithSize(cmd, &pty.Winsize{Cols: uint16(columns), Rows: uint16(rows)})
	if err == nil {
		f, err = closable(f)
	}
	if err != nil {
		t.Fatal(err)
	}
	s := &screen{t: t, cmd: cmd, pty: f, emu: vt.NewEmulator(columns, rows), news: make(chan struct{}, 1), gone: make(chan struct{})}
	go func() {
		defer close(s.gone)
		buf := make([]byte, 32<<10)
		for {
			n, err := f.Read(buf)
			s.mu.Lock()
			s.emu.Write(buf[:n])
			s.raw.Write(buf[:n])
			s.mu.Unlock()
			select {
			case s.news <- struct{}{}:
			default:
			}
			if err != nil {
				return
			}
		}
	}()
	go func() { // what the terminal answers to questions about itself
		buf := make([]byte, 1<<10)
		for {
			n, err := s.emu.Read(buf)
			if err != nil {
				return
			}
			f.Write(buf[:n])
		}
	}()
	t.Cleanup(func() {
		cmd.Process.Kill()
		cmd.Wait()
		f.Close()
		<-s.gone
		s.emu.Close()
	})
	return s
}

// closable is a terminal that closes even while it is being read.
func closable(f *os.File) (*os.File, error) {
	defer f.Close()
	fd, err := syscall.Dup(int(f.Fd()))
	if err != nil {
		return nil, err
	}
	if err := syscall.SetNonblock(fd, true); err != nil {
		return nil, err
	}
	return os.NewFile(uintptr(fd), f.Name()), nil
}

// text is what is on the screen, without the spaces at the ends of lines.
func (s *screen) text() string {
	s.mu.Lock()
	defer s.mu.Unlock()
	lines := strings.Split(s.emu.String(), "\n")
	for i := range lines {
		lines[i] = strings.TrimRight(lines[i], " \r")
	}
	return strings.Join(lines, "\n")
}

// until waits until a condition holds.
func (s *screen) until(what string, holds func(text string) bool) string {
	s.t.Helper()
	deadline := time.After(patience)
	for {
		text := s.text()
		if holds(text) {
			return text
		}
		select {
		case <-s.news:
		case <-deadline:
			s.t.Fatalf("waited for %s; the screen is:\n%s", what, text)
		}
	}
}

// see waits until all the words are on the screen, wherever lines break, and
// returns it once it does not change any more.
func (s *screen) see(words string) string {
	s.t.Helper()
	s.until("\""+words+"\"", func(text string) bool { return strings.Contains(flat(text), words) })
	if !*update {
		return s.text()
	}
	for last, since := s.text(), time.Now(); ; time.Sleep(5 * time.Millisecond) {
		if now := s.text(); now != last {
			last, since = now, time.Now()
		} else if time.Since(since) > 200*time.Millisecond {
			return last
		}
	}
}

// flat is the left part of a screen in one line: of what is beside the bar
// in the middle, only the question.
func flat(text string) string {
	var words []string
	for line := range strings.SplitSeq(text, "\n") {
		left, _, _ := strings.Cut(line, "│")
		words = append(words, strings.Fields(strings.TrimPrefix(left, "| "))...)
	}
	return strings.Join(words, " ")
}

// press types keys: text as it is, and names of keys in angle brackets.
func (s *screen) press(keys string) {
	s.t.Helper()
	if _, err := s.pty.WriteString(keyNames.Replace(keys)); err != nil {
		s.t.Fatal(err)
	}
}

var keyNames = strings.NewReplacer(
	"<enter>", "\r", "<esc>", "\x1b", "<up>", "\x1b[A", "<down>", "\x1b[B", "<right>", "\x1b[C", "<left>", "\x1b[D",
	"<ctrl+c>", "\x03", "<ctrl+d>", "\x04", "<ctrl+l>", "\x0c", "<ctrl+r>", "\x12", "<shift+tab>", "\x1b[Z", "<f1>", "\x1bOP", "<space>", " ", "<home>", "\x1b[H", "<pgdown>", "\x1b[6~",
)

// resize gives the terminal another size.
func (s *screen) resize(columns, rows int) {
	s.t.Helper()
	s.mu.Lock()
	s.emu.Resize(columns, rows)
	s.mu.Unlock()
	if err := pty.Setsize(s.pty, &pty.Winsize{Cols: uint16(columns), Rows: uint16(rows)}); err != nil {
		s.t.Fatal(err)
	}
}

// exit waits for the program to end and returns its exit status.
func (s *screen) exit() int {
	s.t.Helper()
	select {
	case <-s.gone:
	case <-time.After(patience):
		s.t.Fatalf("the program does not end; the screen is:\n%s", s.text())
	}
	s.cmd.Wait()
	return s.cmd.ProcessState.ExitCode()
}

// output is everything that the program has written, escapes and all.
func (s *screen) output() string {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.raw.String()
}
