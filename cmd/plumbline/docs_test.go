package main

import (
	"bytes"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/published"
	"example.com/plumbline/internal/words"
	"example.com/plumbline/taxtables"
)

// docsToday is the day on which the documents' examples are run.
var docsToday = household.Date{Year: 2026, Month: 6, Day: 15}

// TestDocExamples runs every command that the README and the documents show,
// and holds what it prints against what they show. A document's examples run
// in one folder, after each other, with the demo households beside them.
//
//   - A fence marked console holds commands after "$ ", each followed by all
//     that it prints; the output may go through head or sed, as typed, and
//     plumbline may be run as go run ./cmd/plumbline.
//   - A fence marked yaml FILE, or json FILE, is that file, for the commands after it.
//   - A comment before a console fence, <!-- typed: 1 | 2 | -->, is what a
//     person types at its last command, an answer between bars;
//     <!-- status: 1 --> is the exit status when it is not 0; with
//     <!-- tables: 2026 --> the program has no tables of years after that.
func TestDocExamples(t *testing.T) {
	documents := []string{"../../README.md", "../../DEVELOPERS.md"}
	for _, folder := range []string{"../../docs/*.md", "../../docs/es/*.md"} {
		more, err := filepath.Glob(folder)
		if err != nil || len(more) == 0 {
			t.Fatal("no documents in ", folder, err)
		}
		documents = append(documents, more...)
	}
	for _, name := range documents {
		path, err := filepath.Abs(name)
		if err != nil {
			t.Fatal(err)
		}
		t.Run(filepath.Base(path), func(t *testing.T) { runDocument(t, path) })
	}
}

func runDocument(t *testing.T, path string) {
	before, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	households, err := filepath.Abs("../../testdata")
	if err != nil {
		t.Fatal(err)
	}
	folder := t.TempDir()
	if err := os.Symlink(households, filepath.Join(folder, "testdata")); err != nil {
		t.Skip(err)
	}
	t.Chdir(folder)
	t.Setenv("HOME", folder)
	t.Setenv("XDG_DATA_HOME", filepath.Join(folder, "data"))
	after := runExamples(t, string(before))
	if *update {
		if after != string(before) {
			if err := os.WriteFile(path, []byte(after), 0o666); err != nil {
				t.Fatal(err)
			}
		}
		return
	}
	if after != string(before) {
		t.Errorf("an example does not show what the program prints (rewrite with -update, and review the difference):\n%s", firstDifference(string(before), after))
	}
}

var (
	fence  = regexp.MustCompile("(?ms)((?:^<!-- (?:typed|status|tables): [^\n]* -->\n\n?)*)^```(console|(?:yaml|json|csv) [^\n ]+)\n(.*?)^```$")
	typed  = regexp.MustCompile(`<!-- typed: (.*) -->`)
	status = regexp.MustCompile(`<!-- status: (\d) -->`)
	last   = regexp.MustCompile(`<!-- tables: (\d+) -->`)
)

// runExamples is a document with every example's output as the program prints
// it.
func runExamples(t *testing.T, document string) string {
	return fence.ReplaceAllStringFunc(document, func(found string) string {
		part := fence.FindStringSubmatch(found)
		comments, mark, body := part[1], part[2], part[3]
		if _, file, ok := strings.Cut(mark, " "); ok {
			if err := os.WriteFile(file, []byte(body), 0o600); err != nil {
				t.Fatal(err)
			}
			return found
		}
		var out strings.Builder
		out.WriteString(comments + "```console\n")
		commands := 0
		for line := range strings.Lines(body) {
			command, ok := strings.CutPrefix(strings.TrimSuffix(line, "\n"), "$ ")
			if !ok {
				continue
			}
			commands++
			out.WriteString(line)
			var answers []string
			if m := typed.FindStringSubmatch(comments); m != nil {
				for answer := range strings.SplitSeq(m[1], "|") {
					answers = append(answers, strings.TrimSpace(answer))
				}
			}
			want := exitDone
			if m := status.FindStringSubmatch(comments); m != nil {
				want, _ = strconv.Atoi(m[1])
			}
			var inside fs.FS = taxtables.Files
			if m := last.FindStringSubmatch(comments); m != nil {
				year, _ := strconv.Atoi(m[1])
				inside = published.Through(inside, year)
			}
			text, got := runExample(t, command, answers, inside)
			if got != want {
				t.Errorf("%s\nended with status %d, want %d:\n%s", command, got, want, text)
			}
			if text != "" && !strings.HasSuffix(text, "\n") {
				text += "\n"
			}
			out.WriteString(text)
		}
		if commands == 0 {
			t.Errorf("an example has no command:\n%s", body)
		}
		return out.String() + "```"
	})
}

// runExample runs one command line and returns all that it prints, with what
// was typed in its place.
func runExample(t *testing.T, line string, answers []string, inside fs.FS) (printed string, status int) {
	stages := strings.Split(line, " | ")
	args := argumentsOf(strings.Replace(stages[0], "go run ./cmd/plumbline", "plumbline", 1))
	input := io.Reader(strings.NewReader(""))
	var out, aside bytes.Buffer
	stdout, kept := &out, ""
	for len(args) > 2 && strings.Contains("<>", args[len(args)-2]) {
		sign, file := args[len(args)-2], args[len(args)-1]
		args = args[:len(args)-2]
		if sign == ">" {
			stdout, kept = &aside, file
			continue
		}
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		input = bytes.NewReader(data)
	}
	if answers != nil {
		input = &typist{answers, &out}
	}
	switch {
	case len(args) == 0:
		t.Fatalf("%q: no command", line)
	case args[0] == "plumbline":
		p := &program{stdin: input, stdout: stdout, stderr: &out, today: docsToday, language: words.English(), inside: inside}
		status = p.run(args[1:])
		if kept != "" {
			if err := os.WriteFile(kept, aside.Bytes(), 0o600); err != nil {
				t.Fatal(err)
			}
		}
	case args[0] == "cat":
		data, err := os.ReadFile(args[1])
		if err != nil {
			t.Fatal(err)
		}
		out.Write(data)
	default:
		t.Fatalf("%q: documents show only plumbline and cat", line)
	}
	folder, err := os.Getwd()
	if err != nil {
		t.Fatal(err)
	}
	printed = strings.ReplaceAll(out.String(), folder, "/home/you")
	for _, stage := range stages[1:] {
		printed = filtered(t, argumentsOf(stage), printed)
	}
	return printed, status
}

// filtered is text after head -n N, or sed -n '/FROM/,/TO/p' with the line TO
// left in as sed does.
func filtered(t *testing.T, filter []string, text string) string {
	lines := strings.SplitAfter(text, "\n")
	if len(filter) == 3 && filter[0] == "head" && filter[1] == "-n" {
		n, err := strconv.Atoi(filter[2])
		if err != nil {
			t.Fatal(err)
		}
		return strings.Join(lines[:min(n, len(lines))], "")
	}
	if len(filter) == 3 && filter[0] == "sed" && filter[1] == "-n" {
		bounds := regexp.MustCompile(`^/(.*)/,/(.*)/p$`).FindStringSubmatch(filter[2])
		if bounds != nil {
			from, to := regexp.MustCompile(bounds[1]), regexp.MustCompile(bounds[2])
			var kept strings.Builder
			in := false
			for _, l := range lines {
				bare := strings.TrimSuffix(l, "\n")
				if !in && !from.MatchString(bare) {
					continue
				}
				kept.WriteString(l)
				in = !in || !to.MatchString(bare)
			}
			if kept.Len() == 0 {
				t.Errorf("%q leaves nothing", filter)
			}
			return kept.String()
		}
	}
	t.Fatalf("%q: documents show only head -n N and sed -n '/FROM/,/TO/p'", filter)
	return ""
}

// argumentsOf are the words of a command line, with single quotes.
func argumentsOf(line string) []string {
	var list []string
	for i, part := range strings.Split(line, "'") {
		if i%2 == 1 {
			list = append(list, part)
			continue
		}
		list = append(list, strings.Fields(part)...)
	}
	return list
}

// typist types an answer whenever input is waited for, and shows it.
type typist struct {
	answers []string
	screen  io.Writer
}

func (ty *typist) Read(b []byte) (int, error) {
	if len(ty.answers) == 0 {
		return 0, io.EOF
	}
	line := ty.answers[0] + "\n"
	ty.answers = ty.answers[1:]
	fmt.Fprint(ty.screen, line)
	return copy(b, line), nil
}

// TestDocLinksLead holds every link between the documents: its file is there.
func TestDocLinksLead(t *testing.T) {
	link := regexp.MustCompile(`\]\(([^)#\s]+)(?:#[^)]*)?\)`)
	var documents []string
	for _, pattern := range []string{"../../*.md", "../../docs/*.md", "../../docs/es/*.md", "../../docs/decisions/*.md"} {
		found, err := filepath.Glob(pattern)
		if err != nil {
			t.Fatal(err)
		}
		documents = append(documents, found...)
	}
	if len(documents) < 5 {
		t.Fatalf("only %d documents found", len(documents))
	}
	for _, name := range documents {
		data, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		for _, m := range link.FindAllStringSubmatch(string(data), -1) {
			if strings.Contains(m[1], "://") {
				continue
			}
			if _, err := os.Stat(filepath.Join(filepath.Dir(name), m[1])); err != nil {
				t.Errorf("%s links to %s: %v", name, m[1], err)
			}
		}
	}
}
