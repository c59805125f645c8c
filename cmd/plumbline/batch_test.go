package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"

	"example.com/plumbline/internal/certificate"
	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/roster"
	"example.com/plumbline/internal/store"
	"example.com/plumbline/internal/words"
	"example.com/plumbline/taxtables"
)

// demoLines are the demonstration households of testdata as JSON, a line each.
func demoLines(t testing.TB) []string {
	t.Helper()
	files, err := filepath.Glob("../../testdata/*/household.yaml")
	if err != nil || len(files) == 0 {
		t.Fatalf("no demonstration households: %v", err)
	}
	var lines []string
	for _, file := range files {
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		_, doc, err := store.Decode(file, data, household.On(2026, 6, 15))
		if err != nil {
			t.Fatal(err)
		}
		line, err := json.Marshal(tree(doc.Keys(), doc.Get))
		if err != nil {
			t.Fatal(err)
		}
		lines = append(lines, string(line))
	}
	return lines
}

// tree makes nested objects and lists of full keys and their texts.
func tree(keys []string, get func(string) (string, bool)) map[string]any {
	root := map[string]any{}
	for _, key := range keys {
		text, _ := get(key)
		var value any = text
		switch {
		case text == "true" || text == "false":
			value = text == "true"
		case json.Valid([]byte(text)):
			value = json.Number(text)
		}
		parts := strings.Split(strings.NewReplacer("[", ".", "]", "").Replace(key), ".")
		put(root, parts, value)
	}
	return root
}

func put(at map[string]any, parts []string, value any) {
	name := parts[0]
	switch {
	case len(parts) == 1:
		at[name] = value
	case parts[1] >= "0" && parts[1] <= "9":
		list, _ := at[name].([]any)
		var i int
		fmt.Sscan(parts[1], &i)
		for len(list) <= i {
			list = append(list, map[string]any{})
		}
		at[name] = list
		if len(parts) == 2 {
			list[i] = value
			return
		}
		put(list[i].(map[string]any), parts[2:], value)
	default:
		if at[name] == nil {
			at[name] = map[string]any{}
		}
		put(at[name].(map[string]any), parts[1:], value)
	}
}

func TestBatch(t *testing.T) {
	lines := demoLines(t)
	input := strings.Join([]string{
		lines[0],
		`{"format": 1, "tax_year": 2026, "filing_status": "maried"}`,
		"",
		lines[1],
		`{"format": 1`,
		strings.Repeat(" ", roster.MaxBytes) + "x",
		lines[2],
	}, "\n")
	var out, errs bytes.Buffer
	if status := run([]string{"batch"}, strings.NewReader(input), &out, &errs); status != exitAnswers {
		t.Errorf("exit status %d, want %d; standard error: %s", status, exitAnswers, &errs)
	}
	results := strings.Split(strings.TrimSpace(out.String()), "\n")
	if len(results) != 6 {
		t.Fatalf("%d results, want one for each line that is not blank, 6:\n%s", len(results), &out)
	}
	for i, want := range []string{`"recommended"`, `{"error":{"line":2,`, `"recommended"`, `{"error":{"line":5,`, `{"error":{"line":6,`, `"recommended"`} {
		if !strings.Contains(results[i], want) {
			t.Errorf("result %d is %.200s; want one that holds %s", i+1, results[i], want)
		}
	}
	// Each result is the one that the certificate command gives.
	for i, at := range []int{0, 2, 5} {
		var alone bytes.Buffer
		if status := run([]string{"certificate", "-", "--json"}, strings.NewReader(lines[i]), &alone, &errs); status != exitDone {
			t.Fatalf("certificate: exit status %d: %s", status, &errs)
		}
		var compact bytes.Buffer
		if err := json.Compact(&compact, alone.Bytes()); err != nil {
			t.Fatal(err)
		}
		number := []int{1, 0, 4, 0, 0, 7}[at]
		if want := fmt.Sprintf(`{"line":%d,`, number) + compact.String()[1:]; results[at] != want {
			t.Errorf("batch and certificate differ:\n%s\n%s", results[at], want)
		}
	}
}

// BenchmarkBatch is the demonstration households, one after another; its
// figure is for one household, all cores working.
func BenchmarkBatch(b *testing.B) {
	lines := demoLines(b)
	input := &repeated{lines: lines, left: b.N}
	b.ReportAllocs()
	if status := run([]string{"batch"}, input, io.Discard, io.Discard); status != exitDone {
		b.Fatalf("exit status %d", status)
	}
}

// repeated is a stream of lines, over and over, as many as are left.
type repeated struct {
	lines []string
	next  int
	left  int
	rest  []byte
}

func (r *repeated) Read(p []byte) (int, error) {
	if len(r.rest) == 0 {
		if r.left == 0 {
			return 0, io.EOF
		}
		r.rest = append([]byte(r.lines[r.next]), '\n')
		r.next = (r.next + 1) % len(r.lines)
		r.left--
	}
	n := copy(p, r.rest)
	r.rest = r.rest[n:]
	return n, nil
}

// BenchmarkBatchSpreadsheet is rows of the template, as BenchmarkBatch is lines.
func BenchmarkBatchSpreadsheet(b *testing.B) {
	var template bytes.Buffer
	if status := run([]string{"batch", "template", "--jobs", "2", "--dependents", "2"}, nil, &template, io.Discard); status != exitDone {
		b.Fatalf("exit status %d", status)
	}
	rows := strings.Split(strings.TrimSpace(template.String()), "\n")
	input := io.MultiReader(strings.NewReader(rows[0]+"\n"), &repeated{lines: rows[1:], left: b.N})
	b.ReportAllocs()
	if status := run([]string{"batch", "--csv"}, input, io.Discard, io.Discard); status != exitDone {
		b.Fatalf("exit status %d", status)
	}
}

// TestBatchSurvivesAPanic: a mistake of the program's own becomes the error of
// the household that met it.
func TestBatchSurvivesAPanic(t *testing.T) {
	p := &program{language: words.English(), inside: taxtables.Files}
	solver := &batchSolver{p: p, years: map[int]*yearTables{}, failure: p.jsonFailure(nil)}
	solver.view = func(int, string, certificate.Result) ([]byte, error) { panic("lost the plot") }
	solver.p.today = household.On(2026, 6, 15)
	r := solver.solve(roster.Row{Number: 3, Text: []byte(demoLines(t)[0])})
	if r.mistake == "" || !strings.Contains(string(r.line), "lost the plot") || !strings.Contains(string(r.line), `"line":3`) {
		t.Errorf("a panic gave %s", r.line)
	}
}

// TestBatchKeepsNothing: the memory that a batch takes does not grow with its
// length. Counted when the last row is written: of 600 rows more, not one object in
// two is left.
func TestBatchKeepsNothing(t *testing.T) {
	lines := demoLines(t)
	const few, many = 200, 800
	left := func(rows int) uint64 {
		end := &atEnd{rows: rows}
		if status := run([]string{"batch"}, &repeated{lines: lines, left: rows}, end, io.Discard); status != exitDone {
			t.Fatalf("exit status %d", status)
		}
		return end.objects
	}
	left(few) // what is read once, tables and words, is there before anything is counted
	before, after := left(few), left(many)
	if before == 0 || after > before+(many-few)/2 {
		t.Errorf("%d objects are left after %d rows, %d after %d", before, few, after, many)
	}
}

// atEnd counts the objects in memory when the last of so many lines is written.
type atEnd struct {
	rows    int
	objects uint64
}

func (w *atEnd) Write(p []byte) (int, error) {
	if w.rows -= bytes.Count(p, []byte("\n")); w.rows == 0 {
		runtime.GC()
		runtime.GC() // what the first made ready to go is gone after the second
		var m runtime.MemStats
		runtime.ReadMemStats(&m)
		w.objects = m.HeapObjects
	}
	return len(p), nil
}
