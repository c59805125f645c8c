package yamldoc

import (
	"bytes"
	"slices"
	"strings"
	"testing"
)

// seeds are texts whose comments, quotes and layout are easy to get wrong.
var seeds = []string{
	"a: 1\n",
	"# top\n\n# own\na: 1 # beside\n\n\nb:\n  # inner\n  - x\n  # foot\n# end\n",
	"{\"a\": [1, 2, {\"b\": \"c # d\"}], \"e\": {}}",
	"a: | # header\n  text # not a comment\n\n   more\n # comment\nb: >2-\n    folded\n  text\nc: |+\n  kept\n\nd: 1\n",
	"a:\n        b: |\n               x\n           # foo\nc: 1\n",
	"- a\n", "a: [ # one\n  # two\n  1, # three\n  {x: y} # four\n] # five\nb: 2\n",
	"a:\n-\n  # c\n  - - 1 # d\n    # e\n    - 2\n- # f\n  x: 1\n- [1, 2 # c\n  ]  # d\n",
	"a: 'it''s # no' # yes\nb: \"x\\\" # no\"# glued\nc: it's # yes\n",
	"? a # c\n: b\n", "--- # c\na: 1\n... # d\n", "a: &x 1\nb: *x\n", "<<: {a: 1}\n", "a: !!str 1\n", "a: ! 1\n",
	"a: x\n\n  y # z\nb:\n# c\n", "a: ~\nb: null\nc:\nd: [~, null]\n", "a: 1\na: 2\n", "\ta: 1\n", "a: \"b\n", "",
	"\ufeffa: 1\r\nb: 2\r\n", "'a b': 1\n\"c: d\": 2\n\"0.22\": 3\n", "a: {b: {c: [d, [e, {f: g}]]}}\n",
	"a: [x: 1, y]\n", "a: \"\\u2028\"\n", "%YAML 1.1\n---\na: 1\n", "a: 1\n---\nb: 2\n", "a: -\n", "a: [,]\n", "a: - 1\n",
	"a:\n  b: 1\n \t\nc: 1\n",
}

// comments lists the lines of a text that are comments and nothing else, and
// blank lines, in order.
func comments(text []byte) []string {
	var lines []string
	for line := range strings.Lines(string(text)) {
		if line = strings.TrimSpace(line); line == "" || line[0] == '#' {
			lines = append(lines, line)
		}
	}
	return lines
}

func FuzzParse(f *testing.F) {
	for _, s := range seeds {
		f.Add([]byte(s))
	}
	f.Add(sample(f))
	f.Fuzz(func(t *testing.T, data []byte) {
		d, err := Parse("fuzz.yaml", data)
		if d != nil {
			d.Decode(&struct {
				A []string `yaml:"a"`
			}{})
		}
		if err != nil {
			return
		}
		sameAsText(t, d)
		// One value more, and away with it again: what was there is there.
		const added = "zz_added.list[0].key"
		if d.Has("zz_added") || d.Set(added, "x: y") != nil {
			return
		}
		sameAsText(t, d)
		if got, ok := d.Get(added); got != "x: y" || !ok {
			t.Fatalf("Set made of %q\n%s", data, d.Bytes())
		}
		if len(d.Keys()) > 20 {
			return
		}
		// Each value in turn is replaced, and deleted.
		for _, key := range d.Keys() {
			edited, before := d.Clone(), comments(d.text)
			if err := edited.Set(key, "new"); err != nil {
				t.Fatalf("Set(%q) in %q: %v", key, data, err)
			}
			sameAsText(t, edited)
			for _, other := range d.Keys() {
				was, _ := d.Get(other)
				if now, _ := edited.Get(other); other != key && now != was {
					t.Fatalf("Set(%q) in %q changed %s to %q", key, data, other, now)
				}
			}
			if at := d.at(key); !at.quoted && !bytes.Contains(d.text[at.from:at.to], []byte("\n")) && !slices.Equal(comments(edited.text), before) {
				t.Fatalf("Set(%q) in %q touched a comment:\n%s", key, data, edited.text)
			}
			edited = d.Clone()
			edited.Delete(key)
			sameAsText(t, edited)
			if n := len(edited.Keys()); n != len(d.Keys())-1 {
				t.Fatalf("Delete(%q) in %q left %d keys:\n%s", key, data, n, edited.text)
			}
		}
	})
}

func FuzzSetGet(f *testing.F) {
	for _, text := range []string{"", "x", "no", "1200.50", "2026-06-15", " a", "a ", "a: b", "a #b", "- a", "-5", "|", "a\nb", "a\n", "\na", "a\n\n", "'", "\"", "\\", "\t", "---", "~", "null", "[", "a,b", "é", "=", "?", "a:"} {
		f.Add("jobs[1].pay", text)
		f.Add("new."+text, text)
		f.Add("flow.x", text)
	}
	f.Add("jobs[2].a[0][0].b", "x")
	f.Add(`map["0.22"]`, "x")
	f.Fuzz(func(t *testing.T, key, text string) {
		d := parse(t, "# top\njobs:\n  - pay: 1 # one\n  # two\n  - pay: 2\nflow: {x: 1, y: [1]} # three\n# end\n")
		before := d.Bytes()
		if err := d.Set(key, text); err != nil {
			if !bytes.Equal(d.Bytes(), before) {
				t.Fatalf("Set(%q, %q) failed but changed the document", key, text)
			}
			return
		}
		if got, ok := d.Get(key); got != text || !ok {
			t.Fatalf("Get(%q) = %q, %v; want %q", key, got, ok, text)
		}
		once := d.Bytes()
		again, err := Parse("fuzz.yaml", once)
		if err != nil {
			t.Fatalf("after Set(%q, %q): %v\n%s", key, text, err, once)
		}
		if got, ok := again.Get(key); got != text || !ok {
			t.Fatalf("Get(%q) = %q, %v; want %q in\n%s", key, got, ok, text, once)
		}
		sameAsText(t, d)
		for _, comment := range []string{"# top", "# one", "# two", "# three", "# end"} {
			if !bytes.Contains(once, []byte(comment)) {
				t.Fatalf("comment %q lost by Set(%q, %q):\n%s", comment, key, text, once)
			}
		}
		before = again.Bytes()
		values := len(again.Keys())
		again.Delete(key)
		if bytes.Equal(again.Bytes(), before) || len(again.Keys()) != values-1 {
			t.Fatalf("Delete(%q) left\n%s", key, again.Bytes())
		}
		if _, err := Parse("fuzz.yaml", again.Bytes()); err != nil {
			t.Fatalf("after Delete(%q): %v\n%s", key, err, again.Bytes())
		}
	})
}
