package yamldoc

import (
	"bytes"
	"encoding/json"
	"errors"
	"os"
	"reflect"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// byLibrary reads a text the slow way.
func byLibrary(t testing.TB, data []byte) (*Document, error) {
	t.Helper()
	p := &parser{doc: New("test.yaml")}
	return p.readYAML(data)
}

// byFastPath reads a text that is JSON.
func byFastPath(t testing.TB, data []byte) (*Document, error) {
	t.Helper()
	p := &parser{doc: New("test.yaml")}
	if !p.readJSON(data) {
		t.Fatalf("not read as JSON: %q", data)
	}
	return p.read()
}

// The YAML library is the outside check of the JSON reader: both give the same
// document, with the same places, blank lines and problems.
func TestJSONReadsAsYAML(t *testing.T) {
	tests := []string{
		`{}`,
		"\n  {\n\n  \"a\" : 1 ,\n\n\n  \"b\": [ ] , \"c\": [1,-2.50,\"x\", {\"d\": null}],\n \"e\": true}\n\n",
		`{"é": "ü", "x": "\"\\A\u00e9\n\t", "y": {"z": 1e5}}`,
		"{\"a\": 1,\n \"b\": {\"a\": 1, \"a\": 2},\n \"a\": [], \"\": 1, \"" + strings.Repeat("k", 201) + "\": {}}",
		`{"a": "\u0007", "\u001b": 1, "b": "` + strings.Repeat("x", 10_001) + `"}`,
		`{"a": ` + strings.Repeat("[", 49) + strings.Repeat("]", 49) + `}`,
		`{"a": "é", "b": "# no", "c": "x"}`,
	}
	for _, text := range tests {
		sameAsLibrary(t, []byte(text))
	}
}

func sameAsLibrary(t testing.TB, data []byte) {
	t.Helper()
	want, wantErr := byLibrary(t, data)
	got, gotErr := byFastPath(t, data)
	if !reflect.DeepEqual(gotErr, wantErr) {
		t.Errorf("%q:\nproblems %v\nwant     %v", data, gotErr, wantErr)
	}
	if want.json = true; !reflect.DeepEqual(got, want) {
		t.Errorf("%q becomes\n%s\nwant\n%s", data, got.Bytes(), want.Bytes())
	}
}

// A text that only looks like JSON, or is nested too deep, is left to the
// library, which knows what to say.
func TestNotReadAsJSON(t *testing.T) {
	for _, text := range []string{
		"", "a: 1", "[1]", `{a: 1}`, `{"a": 1,}`, `{"a": 010}`, `{"a": NaN}`, `{'a': 1}`, `{"a": 1} # c`, `{"a": 1}{}`,
		`{"a": "\ud83d"}`, `{"a": "\ufffd"}`, `{"a": "�"}`, `{"a": ` + strings.Repeat("[", 50) + strings.Repeat("]", 50) + `}`,
	} {
		p := &parser{doc: New("test.yaml")}
		if p.readJSON([]byte(text)) || len(p.problems) > 0 {
			t.Errorf("%q is read as JSON", text)
		}
	}
}

// RFC 8259, section 7: a character beyond 16 bits is two escapes, and a slash
// may be escaped. The YAML library knows neither.
func TestJSONEscapes(t *testing.T) {
	d := parse(t, `{"a": "\ud83d\ude00\/", "b": 1}`)
	if got, _ := d.Get("a"); got != "😀/" {
		t.Errorf("a = %q, want 😀/", got)
	}
	_, err := Parse("test.yaml", []byte(`{"a": "\ud83d\ude00", "a": 1}`))
	var problems Problems
	if !errors.As(err, &problems) {
		t.Fatalf("Parse: %v, not Problems", err)
	}
	checkProblems(t, problems, `1:23: a: this key is already on line 1; keep one`)
}

func TestJSONProperty(t *testing.T) {
	leaf := rapid.OneOf(
		rapid.Just[any](nil), rapid.Map(rapid.Bool(), func(b bool) any { return b }),
		rapid.Map(rapid.Int(), func(n int) any { return n }),
		rapid.Map(rapid.StringMatching(`[ -~é\n\t]{0,12}`), func(s string) any { return s }),
	)
	keys := rapid.StringMatching(`[a-zé "#.:\\]{1,6}`)
	var value func(depth int) *rapid.Generator[any]
	value = func(depth int) *rapid.Generator[any] {
		if depth == 0 {
			return leaf
		}
		inner := rapid.Deferred(func() *rapid.Generator[any] { return value(depth - 1) })
		return rapid.OneOf(leaf,
			rapid.Map(rapid.SliceOfN(inner, 0, 4), func(l []any) any { return l }),
			rapid.Map(rapid.MapOfN(keys, inner, 0, 4), func(m map[string]any) any { return m }))
	}
	rapid.Check(t, func(rt *rapid.T) {
		v := rapid.MapOfN(keys, value(3), 0, 5).Draw(rt, "value")
		data, err := json.Marshal(v)
		if rapid.Bool().Draw(rt, "indented") {
			data, err = json.MarshalIndent(v, "", " ")
		}
		if err != nil {
			rt.Fatal(err)
		}
		sameAsLibrary(t, data)
	})
}

// answersJSON is the sample answers file, as programs send it: JSON on a line.
func answersJSON(t testing.TB) []byte {
	t.Helper()
	data, err := os.ReadFile("testdata/answers.json")
	if err != nil {
		t.Fatal(err)
	}
	return bytes.TrimSpace(data)
}

func BenchmarkParseJSON(b *testing.B) {
	data := answersJSON(b)
	for name, read := range map[string]func(testing.TB, []byte) (*Document, error){"fast": byFastPath, "library": byLibrary} {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := read(b, data); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
