package main

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"
	"unicode"
)

// golden holds a text against a file of testdata/terminal, or writes it there.
func golden(t *testing.T, name, got string) {
	t.Helper()
	file := filepath.Join("testdata", "terminal", name)
	if *update {
		if err := os.MkdirAll(filepath.Dir(file), 0o777); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(file, []byte(got), 0o666); err != nil {
			t.Fatal(err)
		}
		return
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if got != string(want) {
		t.Errorf("%s differs from what the program shows (rewrite it with -update, and review the difference):\n%s", file, firstDifference(string(want), got))
	}
}

// firstDifference is the surroundings of the first line that differs.
func firstDifference(want, got string) string {
	w, g := strings.Split(want, "\n"), strings.Split(got, "\n")
	at := 0
	for at < len(w) && at < len(g) && w[at] == g[at] {
		at++
	}
	from := max(at-3, 0)
	part := func(lines []string) string {
		return strings.Join(lines[min(from, len(lines)):min(at+8, len(lines))], "\n")
	}
	return fmt.Sprintf("line %d, want:\n%s\ngot:\n%s", at+1, part(w), part(g))
}

// screens are the screens of one run, to be kept as golden text.
type screens struct {
	b    strings.Builder
	want []string // as kept, in order; nil while they are rewritten
	n    int
}

const screenMark = "@@@ "

func openScreens(t *testing.T, name string) *screens {
	t.Helper()
	s := new(screens)
	if *update {
		return s
	}
	data, err := os.ReadFile(filepath.Join("testdata", "terminal", name))
	if err != nil {
		t.Fatal(err)
	}
	s.want = strings.Split(string(data), screenMark)[1:]
	return s
}

// keep waits for words on the screen and keeps the screen. A screen is drawn in
// pieces, so that it is given time to become the one that is wanted.
func (s *screens) keep(t *testing.T, on *screen, title, words string) {
	t.Helper()
	text := on.see(words)
	block := func(text string) string { return title + "\n" + text + "\n" }
	if s.n < len(s.want) {
		want := s.want[s.n]
		for begun := time.Now(); block(text) != want && time.Since(begun) < patience/10; time.Sleep(2 * time.Millisecond) {
			text = on.text()
		}
	}
	s.n++
	s.b.WriteString(screenMark + block(text))
}

// The conversations that are kept as golden text, one for each front end; all
// others are held by the questions that they come to.
const keptOnScreen, keptInLines = "new-hire-80x24", "new-hire"

// sizes are the terminals on which whole interviews are held.
var sizes = []struct{ columns, rows int }{{80, 24}, {60, 20}}

func TestWholeInterviewByKeys(t *testing.T) {
	for _, who := range slices.Concat(people, reruns) {
		for _, size := range sizes {
			name := fmt.Sprintf("%s-%dx%d", who.name, size.columns, size.rows)
			t.Run(name, func(t *testing.T) {
				t.Parallel()
				home := who.home(t)
				on := startScreen(t, programCommand(t, home, who.today, "interview", "answers.yaml"), size.columns, size.rows)
				var kept *screens // of the one conversation that is kept whole
				if name == keptOnScreen {
					kept = openScreens(t, name+".txt")
				}
				screens, keys := 0, 0
				who.walk(t, func(n int, s step, words string) {
					if on.asked(words) {
						screens, keys = screens+1, keys+1 // what was on a page of its own
					}
					if s.begins {
						screens++
					}
					keys += pressed(s.answer.keys())
					on.hasPage(s)
					if kept != nil {
						kept.keep(t, on, fmt.Sprintf("%d. %s", n, s.key), words)
					}
					on.press(s.answer.keys())
				})
				on.see("1 Answer")
				t.Logf("%d screens, %d keys", screens, keys)
				if size == sizes[0] && (screens > who.screens || keys > who.keys) {
					t.Errorf("%d screens and %d keys, want at most %d and %d", screens, keys, who.screens, who.keys)
				}
				if kept != nil {
					kept.keep(t, on, "the first page of the results", "1 Answer")
					golden(t, name+".txt", kept.b.String())
				}
				on.press("q")
				if status := on.exit(); status != exitDone {
					t.Errorf("exit status %d, want %d", status, exitDone)
				}
				info, err := os.Stat(filepath.Join(home, "answers.yaml"))
				if err != nil {
					t.Fatal(err)
				}
				if mode := info.Mode().Perm(); mode != 0o600 {
					t.Errorf("the answers have mode %o, want 600", mode)
				}
			})
		}
	}
}

// asked waits until a question is on the screen, past a notice that is on a
// page of its own, and reports whether there was one.
func (s *screen) asked(words string) (notice bool) {
	s.t.Helper()
	const before = "Before the next question"
	text := s.until("\""+words+"\"", func(text string) bool {
		return strings.Contains(flat(text), words) || strings.Contains(text, before)
	})
	if notice = !strings.Contains(flat(text), words); notice {
		s.press("<enter>")
		s.see(words)
	}
	return notice
}

// hasPage waits until all questions of the page are on the screen, in full or in
// a few words, or a mark says that there are more.
func (s *screen) hasPage(due step) {
	s.t.Helper()
	mark := regexp.MustCompile(`\d+ more questions?`)
	s.until("all questions of the page", func(text string) bool {
		text = flat(text)
		for _, q := range due.page {
			if !strings.Contains(text, strings.Join(strings.Fields(q.Text), " ")) && !strings.Contains(text, q.Label+":") && !strings.Contains(text, q.Label+" (") && !mark.MatchString(text) {
				return false
			}
		}
		return true
	})
}

// pressed is how many keys it takes to press keys.
func pressed(keys string) int {
	return len([]rune(regexp.MustCompile("<[^>]+>").ReplaceAllString(keys, ".")))
}

// piped runs the program with lines on a pipe.
func piped(t *testing.T, cmd *exec.Cmd, input string) (stdout, stderr string, status int) {
	t.Helper()
	var out, errs bytes.Buffer
	cmd.Stdin, cmd.Stdout, cmd.Stderr = strings.NewReader(input), &out, &errs
	if err := cmd.Run(); err != nil {
		if _, exited := err.(*exec.ExitError); !exited {
			t.Fatal(err)
		}
	}
	return out.String(), errs.String(), cmd.ProcessState.ExitCode()
}

// lines are a person's answers, a line each.
func (p person) lines(t testing.TB) string {
	t.Helper()
	return p.walk(t, func(int, step, string) {})
}

func TestWholeInterviewThroughAPipe(t *testing.T) {
	for _, who := range slices.Concat(people, reruns) {
		t.Run(who.name, func(t *testing.T) {
			t.Parallel()
			stdout, stderr, status := piped(t, programCommand(t, who.home(t), who.today, "interview", "answers.yaml"), who.lines(t))
			if status != exitDone {
				t.Errorf("exit status %d, want %d; standard error:\n%s", status, exitDone, stderr)
			}
			rest := flat(stdout)
			who.walk(t, func(_ int, s step, words string) {
				_, after, asked := strings.Cut(rest, words)
				if !asked {
					t.Fatalf("%s is not asked in its place; the output goes on:\n%.500s", s.key, rest)
				}
				rest = after
			})
			if who.name == keptInLines {
				golden(t, who.name+"-plain.txt", stdout)
			}
			for _, r := range stdout {
				if r > '~' && !unicode.IsLetter(r) || r < ' ' && r != '\n' {
					t.Fatalf("the output has %q, want letters and plain signs", r)
				}
			}
		})
	}
}
