package main

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/creack/pty"

	"example.com/plumbline/internal/yamldoc"
)

const aDay = "2026-06-15"

// newScreen is the interview on a file of its own, on a terminal of 80 columns
// and 24 lines.
func newScreen(t *testing.T) (on *screen, file string) {
	t.Helper()
	home := t.TempDir()
	return startScreen(t, programCommand(t, home, aDay, "interview", "answers.yaml"), 80, 24), filepath.Join(home, "answers.yaml")
}

func contents(t *testing.T, file string) string {
	t.Helper()
	data, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

func hasLine(t *testing.T, file, line string) {
	t.Helper()
	if text := contents(t, file); !strings.Contains(text, line) {
		t.Errorf("%s has no %q:\n%s", filepath.Base(file), line, text)
	}
}

// hire answers as the new hire does, up to the results.
func (s *screen) hire() {
	s.t.Helper()
	people[0].walk(s.t, func(_ int, due step, words string) {
		s.see(words)
		s.press(due.answer.keys())
	})
	s.see("1 Answer")
}

// due waits until the question of a key is the one that is due by the answers
// file, and is on the screen.
func (s *screen) due(file, today, key string) {
	s.t.Helper()
	s.until("the question "+key, func(text string) bool {
		data, err := os.ReadFile(file)
		if err != nil {
			return false
		}
		doc, err := yamldoc.Parse(file, data)
		if err != nil {
			s.t.Fatal(err)
		}
		q, more := startShadow(s.t, doc, today).s.Question()
		return more && q.Key == key && strings.Contains(flat(text), strings.Join(strings.Fields(q.Text), " "))
	})
}

// Words of the first questions, which many tests go through.
const (
	wayIn   = "What brings you here"
	married = "Will you be married"
	jointly = "file one tax return together"
)

// TestSilentTerminal runs the program on a terminal that answers no question:
// it must ask none, and so not wait for an answer. A busy machine may be slow
// once, but the wait that this guards against (5 seconds) is never shorter.
func TestSilentTerminal(t *testing.T) {
	const enough = time.Second
	var took time.Duration
	for range 5 {
		cmd := programCommand(t, t.TempDir(), aDay, "version")
		begun := time.Now()
		f, err := pty.StartWithSize(cmd, &pty.Winsize{Cols: 80, Rows: 24})
		if err != nil {
			t.Fatal(err)
		}
		var output strings.Builder
		buf := make([]byte, 4096)
		for {
			n, err := f.Read(buf)
			output.Write(buf[:n])
			if err != nil {
				break
			}
		}
		cmd.Wait()
		f.Close()
		took = time.Since(begun)
		if strings.Contains(output.String(), "\x1b") {
			t.Fatalf("a command that draws nothing wrote escapes: %q", output.String())
		}
		if !strings.Contains(output.String(), "plumbline") {
			t.Fatalf("no version: %q", output.String())
		}
		if took < enough {
			return
		}
	}
	t.Errorf("took %v, want less than %v", took, enough)
}

func TestQuitAndResume(t *testing.T) {
	t.Parallel()
	on, file := newScreen(t)
	on.see(wayIn)
	on.press("<enter>")
	on.see(married)
	on.press("<down><enter>")
	on.see(jointly)
	on.press("<ctrl+c>")
	if status := on.exit(); status != exitDone {
		t.Errorf("exit status %d, want %d", status, exitDone)
	}
	if !strings.Contains(on.output(), "Go on with: plumbline interview answers.yaml") {
		t.Errorf("the way back is not told: %q", on.output())
	}
	hasLine(t, file, `married: "yes"`)

	again := startScreen(t, programCommand(t, filepath.Dir(file), aDay, "interview", "answers.yaml"), 60, 20)
	again.see(jointly)
	again.press("<esc>")
	again.see(married)
	again.see("You gave this answer before. Enter keeps it.")
	again.press("<esc>")
	again.see(wayIn)
	again.press("<ctrl+c>")
	again.exit()

	// The place that one went back to is the place where one goes on, a question
	// at a time.
	once := startScreen(t, programCommand(t, filepath.Dir(file), aDay, "interview", "answers.yaml"), 80, 24)
	once.see(wayIn)
	once.press("<enter>")
	once.see(married)
	once.press("<enter>")
	once.see(jointly)
}

func TestResize(t *testing.T) {
	t.Parallel()
	on, file := newScreen(t)
	on.see(wayIn)
	on.until("the draft beside the question", func(text string) bool { return strings.Contains(text, "│ Draft of the form") })
	on.press("<enter>")
	on.see(married)
	on.press("<down><enter>")
	on.see(jointly)
	on.resize(60, 20)
	on.until("no draft while the status is open", func(text string) bool {
		return !strings.Contains(text, "│") && !strings.Contains(text, "Single or married")
	})
	on.see("> Yes, one return together No, one each")
	on.resize(25, 6)
	on.see("Make the window larger")
	on.resize(100, 30)
	on.until("the draft beside the question again", func(text string) bool { return strings.Contains(text, "│ Draft of the form") })
	on.press("<down><enter>")
	on.resize(60, 20)
	on.until("the draft below the question", func(text string) bool {
		return !strings.Contains(text, "│") && strings.Contains(text, "\nDraft of the form\n1(c) Single or married filing separately *")
	})
	on.due(file, aDay, "interview.jobs")
}

func TestReviewAndChangeAtTheEnd(t *testing.T) {
	t.Parallel()
	on, file := newScreen(t)
	on.hire()
	on.press("c")
	on.see("Why you are here > Why you are here: I am starting a job")
	on.press("<down><down><down><down><enter>")
	on.due(file, aDay, "interview.people")
	on.press("1<enter>")
	on.due(file, aDay, "self.can_be_claimed")
	on.press("<ctrl+r>")
	on.see("People you support: 1")
	on.press("<up><enter>")
	on.due(file, aDay, "interview.people")
	on.press("0<enter>")
	on.due(file, aDay, "interview.fit") // it applies again, and is to be confirmed
	on.see("Please check that it is still true. Enter keeps it.")
	on.press("<enter>")
	on.see("1 Answer")
	on.press("q")
	if status := on.exit(); status != exitDone {
		t.Errorf("exit status %d, want %d", status, exitDone)
	}
	hasLine(t, file, "people: 0")
}

func TestWriteAndFill(t *testing.T) {
	t.Parallel()
	on, file := newScreen(t)
	blank, err := os.ReadFile("../../testdata/forms/w4_2026.pdf")
	if err != nil {
		t.Fatal(err)
	}
	home := filepath.Dir(file)
	if err := os.WriteFile(filepath.Join(home, "w4.pdf"), blank, 0o600); err != nil {
		t.Fatal(err)
	}
	on.hire()
	on.press("w")
	on.see("> withholding.pdf")
	on.press("answers.yaml<enter>")
	on.see("! answers.yaml is there already; give another name")
	on.press("<esc>")
	on.see("1 Answer")
	on.press("w")
	on.see("> withholding.pdf")
	on.press("<enter>")
	on.see("The pages are written to withholding.pdf.")
	on.press("f")
	on.see("Where is the blank official form, as a PDF")
	on.press("answers.yaml<enter>")
	on.see("! ")
	on.press("<esc>")
	on.see("1 Answer")
	on.press("f")
	on.see("Where is the blank official form, as a PDF")
	on.press("w4.pdf<enter>")
	on.see("The official form is filled in: w4-filled.pdf.")
	for _, name := range []string{"withholding.pdf", "w4-filled.pdf"} {
		if text := contents(t, filepath.Join(home, name)); !strings.HasPrefix(text, "%PDF-") {
			t.Errorf("%s is no PDF", name)
		}
	}
}

func TestPlaceIsAskedFor(t *testing.T) {
	t.Parallel()
	home := t.TempDir()
	on := startScreen(t, programCommand(t, home, aDay), 80, 24)
	on.see("Where should your answers be saved?")
	on.press("<enter>")
	on.see(wayIn)
	on.press("<enter>")
	on.see(married)
	on.press("<ctrl+c>")
	on.exit()
	if !strings.Contains(on.output(), "Go on with: plumbline\r\n") {
		t.Errorf("the way back is not told: %q", on.output())
	}
	usual := filepath.Join(home, "data", "plumbline", "answers.yaml")
	for path, want := range map[string]os.FileMode{usual: 0o600, filepath.Dir(usual): 0o700} {
		info, err := os.Stat(path)
		if err != nil {
			t.Fatal(err)
		}
		if got := info.Mode().Perm(); got != want {
			t.Errorf("%s has mode %o, want %o", path, got, want)
		}
	}

	left := startScreen(t, programCommand(t, home, aDay), 60, 24)
	left.see("There are answers from an earlier time. Go on with them?")
	left.press("<ctrl+c>")
	if status := left.exit(); status != exitDone {
		t.Errorf("exit status %d, want %d", status, exitDone)
	}
	again := startScreen(t, programCommand(t, home, aDay), 60, 24)
	again.see("There are answers from an earlier time. Go on with them?")
	again.press("<enter>")
	again.see(married)
}

func TestNothingIsKeptWhenSoWished(t *testing.T) {
	t.Parallel()
	home := t.TempDir()
	_, stderr, status := piped(t, programCommand(t, home, aDay), "3\n"+people[0].lines(t))
	if status != exitDone {
		t.Errorf("exit status %d, want %d:\n%s", status, exitDone, stderr)
	}
	if left, err := os.ReadDir(home); err != nil || len(left) > 0 {
		t.Errorf("left behind: %v %v", left, err)
	}
}

func TestFileThatCannotBeUsedIsAskedAgain(t *testing.T) {
	t.Parallel()
	home := t.TempDir()
	if err := os.WriteFile(filepath.Join(home, "old.yaml"), []byte("format: 99\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	stdout, _, _ := piped(t, programCommand(t, home, aDay), "2\nold.yaml\n2\nnew.yaml\n1\n")
	if !strings.Contains(flat(stdout), "the file has format 99") || !strings.Contains(stdout, married) {
		t.Errorf("the output is:\n%s", stdout)
	}
}

// escapes finds anything but letters, plain signs and line ends. A question in
// Spanish opens with a mark of its own.
var escapes = regexp.MustCompile(`[^ -~\r\n\p{L}¿]`)

// TestSimpleTerminal holds the interview on a terminal without cursor movement,
// and with --plain on one that has it.
func TestSimpleTerminal(t *testing.T) {
	tests := []struct {
		name string
		term string
		args []string
	}{
		{"dumb", "dumb", []string{"interview", "answers.yaml"}},
		{"asked for", "xterm-256color", []string{"interview", "--plain", "answers.yaml"}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			t.Parallel()
			cmd := programCommand(t, t.TempDir(), aDay, tt.args...)
			cmd.Env = append(cmd.Env, "TERM="+tt.term)
			on := startScreen(t, cmd, 80, 200)
			on.see("¿En qué idioma seguimos?")
			on.press("<enter>")
			people[0].walk(t, func(_ int, due step, words string) {
				on.see(words)
				on.press(due.answer.line() + "<enter>")
			})
			on.see("Your choice (Enter for: ")
			on.press("quit<enter>")
			if status := on.exit(); status != exitDone {
				t.Errorf("exit status %d, want %d", status, exitDone)
			}
			if found := escapes.FindString(on.output()); found != "" {
				t.Errorf("the output has %q", found)
			}
		})
	}
}

// colors finds the escapes that set a color.
var colors = regexp.MustCompile(`\x1b\[(?:[0-9;]*;)?(?:3[0-8]|4[0-8]|9[0-7]|10[0-7])(?:;[0-9;:]*)?m`)

func TestColorsAreByChoice(t *testing.T) {
	tests := []struct {
		name, env, theme string
		want             string // a pattern that must be there; empty when there may be no color
	}{
		{"dark", "COLORTERM=truecolor", "dark", "38;2;140;200;255"},
		{"light", "COLORTERM=truecolor", "light", "38;2;0;(89|90);156"},
		{"dark, 256 colors", "COLORTERM=", "dark", "38;5;117"},
		{"the environment says it is light, the terminal that it is dark", "COLORFGBG=0;15", "auto", "38;5;117"},
		{"NO_COLOR", "NO_COLOR=1", "dark", ""},
		{"plain", "COLORTERM=truecolor", "plain", ""},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			t.Parallel()
			cmd := programCommand(t, t.TempDir(), aDay, "interview", "answers.yaml", "--theme", tt.theme)
			cmd.Env = append(cmd.Env, tt.env)
			on := startScreen(t, cmd, 80, 24)
			on.see(wayIn)
			on.until("the color", func(string) bool { return tt.want == "" || regexp.MustCompile(tt.want).MatchString(on.output()) })
			out := on.output()
			if tt.want == "" && colors.MatchString(out) {
				t.Errorf("there is color: %q", colors.FindString(out))
			}
			if !regexp.MustCompile(tt.want).MatchString(out) {
				t.Errorf("there is no %s in %q", tt.want, out)
			}
			asked := strings.Contains(out, "\x1b]11;?")
			if want := tt.theme == "auto" && tt.env != "NO_COLOR=1"; asked != want || strings.Contains(out, "\x1b[6n") {
				t.Errorf("the terminal is asked for its background: %v, want %v: %q", asked, want, out)
			}
		})
	}
}

func TestWrongUse(t *testing.T) {
	tests := []struct {
		args []string
		want string
	}{
		{[]string{"intervew"}, "Did you mean interview?"},
		{[]string{"interview", "a.yaml", "b.yaml"}, "takes one answers file"},
		{[]string{"interview", "-"}, "needs the name of a file"},
		{[]string{"--theme", "pink"}, `"pink" is not a theme. Write light, dark or plain.`},
		{[]string{"interview", "--colour"}, "unknown flag"},
	}
	for _, tt := range tests {
		_, stderr, status := piped(t, programCommand(t, t.TempDir(), aDay, tt.args...), "")
		if status != exitUsage || !strings.Contains(stderr, tt.want) {
			t.Errorf("%v: exit status %d, want %d; standard error: %s", tt.args, status, exitUsage, stderr)
		}
	}
}

// TestReturnDuringTheYear comes back in fall to answers that were complete in
// June: what changed is asked first, then the newest stub, and the forecast
// is beside what has happened.
func TestReturnDuringTheYear(t *testing.T) {
	t.Parallel()
	home := t.TempDir()
	const fall = "2026-09-21"
	stub := people[3]
	if _, stderr, status := piped(t, programCommand(t, home, stub.today, "interview", "answers.yaml"), stub.lines(t)); status != exitDone {
		t.Fatalf("exit status %d in June:\n%s", status, stderr)
	}
	on := startScreen(t, programCommand(t, home, fall, "interview", "answers.yaml"), 80, 24)
	on.see("On June 15, 2026 we expected")
	file := filepath.Join(home, "answers.yaml")
	for _, s := range []step{
		{key: "interview.changes", answer: picks{}},
		{key: "interview.job_1_newer_stub", answer: yes(true)},
		{key: "jobs[0].year_to_date.payday", answer: text("9/18/2026")},
		{key: "jobs[0].year_to_date.taxable_pay", answer: text("45600")},
		{key: "jobs[0].year_to_date.federal_tax", answer: text("4700")},
		{key: "interview.job_1_handed_in", answer: yes(true)},
		{key: "interview.spouse_job_1_newer_stub", answer: yes(false)},
	} {
		on.due(file, fall, s.key)
		on.press(s.answer.keys())
	}
	for !strings.Contains(on.text(), "1 Answer") {
		before := on.text()
		on.press("<enter>")
		on.until("the next screen", func(text string) bool { return text != before })
	}
	for !strings.Contains(on.text(), "Since last time") && !strings.Contains(on.text(), "What has changed") {
		before := on.text()
		on.press("<right>")
		on.until("the next page", func(text string) bool { return text != before })
	}
	on.see("forecast stub")
	on.see("September 18, 2026")
	on.see("4,700.00")
}

// A paste that never ends does not take Ctrl-C with it.
func TestCtrlCInAnOpenPaste(t *testing.T) {
	on, _ := newScreen(t)
	on.see(wayIn)
	on.press("\x1b[200~12")
	on.press("<ctrl+c>")
	if status := on.exit(); status != exitDone {
		t.Errorf("exit status %d, want %d", status, exitDone)
	}
}
