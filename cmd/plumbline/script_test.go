package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strconv"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"

	"example.com/plumbline/internal/published"
	"example.com/plumbline/internal/sample"
)

func TestMain(m *testing.M) {
	testscript.Main(tests{m}, map[string]func(){"plumbline": func() {
		p := fromProcess(os.Stdin, os.Stdout, os.Stderr)
		p.inside = published.Through(p.inside, 2026)
		os.Exit(p.run(os.Args[1:]))
	}})
}

// tests are those of the package; a command that a script runs is none of them.
type tests struct{ *testing.M }

func (t tests) Run() int {
	sample.CollectLess()
	sample.Default("test.parallel", strconv.Itoa(2*runtime.GOMAXPROCS(0))) // terminals mostly wait
	return t.M.Run()
}

// TestScripts holds whole conversations with the program, one behavior a file. Its
// tables end with 2026, also once it has those of later years.
// Beside testscript's own commands they have:
//
//	status N COMMAND [ARG ...]   run a command and expect its exit status
//	jsonhas KEY ...              standard output is JSON that has these keys
//	jsonis KEY VALUE             standard output is JSON with this value there
//	permissions FILE OCTAL       a file's permissions
//
// and the condition strace, which holds where that tool can run.
//
// A key is a path with points between: january.certificates.0.lines.4c. The
// households are in $DEMO.
func TestScripts(t *testing.T) {
	demo, err := filepath.Abs("../../testdata")
	if err != nil {
		t.Fatal(err)
	}
	testscript.Run(t, testscript.Params{
		Dir:                 "../../testdata/script",
		UpdateScripts:       *update,
		RequireExplicitExec: true,
		RequireUniqueNames:  true,
		Setup: func(env *testscript.Env) error {
			env.Setenv("DEMO", demo)
			env.Setenv("HOME", env.WorkDir)
			env.Setenv("XDG_DATA_HOME", filepath.Join(env.WorkDir, "data"))
			env.Setenv("TERM", "dumb")
			return nil
		},
		Condition: func(name string) (bool, error) {
			if name != "strace" {
				return false, fmt.Errorf("no condition %q", name)
			}
			return exec.Command("strace", "-qq", "-e", "trace=network", "true").Run() == nil, nil
		},
		Cmds: map[string]func(*testscript.TestScript, bool, []string){
			"status":      scriptStatus,
			"jsonhas":     scriptJSONHas,
			"jsonis":      scriptJSONIs,
			"permissions": scriptPermissions,
		},
	})
}

func scriptStatus(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: status N COMMAND [ARG ...]")
	}
	want, err := strconv.Atoi(args[0])
	ts.Check(err)
	got := 0
	if err := ts.Exec(args[1], args[2:]...); err != nil {
		var exit *exec.ExitError
		if !errors.As(err, &exit) {
			ts.Fatalf("%v", err)
		}
		got = exit.ExitCode()
	}
	if got != want {
		ts.Fatalf("exit status %d, want %d", got, want)
	}
}

func scriptJSONHas(ts *testscript.TestScript, neg bool, args []string) {
	for _, key := range args {
		if _, ok := jsonAt(ts, key); ok == neg {
			ts.Fatalf("%s: there: %v, want %v", key, ok, !neg)
		}
	}
}

func scriptJSONIs(ts *testscript.TestScript, neg bool, args []string) {
	if len(args) != 2 {
		ts.Fatalf("usage: jsonis KEY VALUE")
	}
	value, ok := jsonAt(ts, args[0])
	if !ok {
		ts.Fatalf("no %s in the JSON", args[0])
	}
	if (value == args[1]) == neg {
		ts.Fatalf("%s is %s, want %s (negated: %v)", args[0], value, args[1], neg)
	}
}

// jsonAt is the value at a key of the last command's output, as it is there.
func jsonAt(ts *testscript.TestScript, key string) (string, bool) {
	dec := json.NewDecoder(strings.NewReader(ts.ReadFile("stdout")))
	dec.UseNumber()
	var value any
	ts.Check(dec.Decode(&value))
	if dec.More() {
		ts.Fatalf("standard output has more than one JSON value")
	}
	for step := range strings.SplitSeq(key, ".") {
		switch v := value.(type) {
		case map[string]any:
			inside, ok := v[step]
			if !ok {
				return "", false
			}
			value = inside
		case []any:
			i, err := strconv.Atoi(step)
			if err != nil || i < 0 || i >= len(v) {
				return "", false
			}
			value = v[i]
		default:
			return "", false
		}
	}
	if text, ok := value.(string); ok {
		return text, true
	}
	var b bytes.Buffer
	enc := json.NewEncoder(&b)
	enc.SetEscapeHTML(false)
	ts.Check(enc.Encode(value))
	return strings.TrimSpace(b.String()), true
}

func scriptPermissions(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 2 {
		ts.Fatalf("usage: permissions FILE OCTAL")
	}
	info, err := os.Stat(ts.MkAbs(args[0]))
	ts.Check(err)
	if got := strconv.FormatUint(uint64(info.Mode().Perm()), 8); got != args[1] {
		ts.Fatalf("%s has permissions %s, want %s", args[0], got, args[1])
	}
}
