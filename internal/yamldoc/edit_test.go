package yamldoc

import (
	"slices"
	"testing"
)

func TestSet(t *testing.T) {
	tests := []struct{ name, before, key, text, want string }{
		{"replace", "a: 1 # one\nb: 2\n", "a", "3", "a: 3 # one\nb: 2\n"},
		{"append key", "a: 1\n# end\n", "b", "x", "a: 1\nb: x\n# end\n"},
		{"behind a comment that goes on", "a: 1 # one\n     # two\n# end\n", "b", "x", "a: 1 # one\n     # two\nb: x\n# end\n"},
		{"groups with a blank line between them", "a: 1\n\n# two\nb:\n  c: 2\n", "d.e", "x", "a: 1\n\n# two\nb:\n  c: 2\n\nd:\n  e: x\n"},
		{"no blank line within a group", "a: 1\n\nb:\n  c: 2\n\n  d: 3\n", "b.e", "x", "a: 1\n\nb:\n  c: 2\n\n  d: 3\n  e: x\n"},
		{"no blank line below a block of lines", "a: 1\n\nb: |+\n  one\n", "c", "x", "a: 1\n\nb: |+\n  one\nc: x\n"},
		{"without a line end", "a: 1", "b", "x", "a: 1\nb: x\n"},
		{"make parents", "a: 1\n", "jobs[0].year_to_date.pay", "1200.50", "a: 1\njobs:\n  - year_to_date:\n      pay: 1200.50\n"},
		{"append element", "jobs:\n  - name: x\n", "jobs[1].name", "y", "jobs:\n  - name: x\n  - name: \"y\"\n"},
		{"append element, lines of its own", "jobs:\n- name: x # a\n\nz: 1\n", "jobs[1].name", "b", "jobs:\n- name: x # a\n- name: b\n\nz: 1\n"},
		{"wide indentation", "a:\n    b:\n        c: 1\n", "a.b.d.e", "2", "a:\n    b:\n        c: 1\n        d:\n          e: 2\n"},
		{"in braces", "a: {b: 1}   # c\n", "a.d", "x, y", "a: {b: 1, d: \"x, y\"}   # c\n"},
		{"deep in braces", "a: {b: 1}\n", "a.d[0].e", "x", "a: {b: 1, d: [{e: x}]}\n"},
		{"a value in braces", "a: {b: , c: }\n", "a.b", "x", "a: {b: x , c: }\n"},
		{"braces of several lines", "a: {\n  b: 1, # one\n  c: 2 # two\n}\n", "a.d", "3", "a: {\n  b: 1, # one\n  c: 2,\n  d: 3 # two\n}\n"},
		{"give a value", "a: # none yet\nb:\n", "b.c", "1", "a: # none yet\nb:\n  c: 1\n"},
		{"give a value beside a comment", "a: # none yet\nb: 1\n", "a", "x", "a: x # none yet\nb: 1\n"},
		{"lines under a comment", "a: ~ # none yet\nb: 1\n", "a.c", "x", "a: # none yet\n  c: x\nb: 1\n"},
		{"behind a dash", "a:\n  -\n  - # c\n", "a[1].b", "x", "a:\n  -\n  - b: x # c\n"},
		{"into an empty list", "a: []\n", "a[0]", "x", "a:\n  - x\n"},
		{"into an empty mapping", "a:\n  - {} # c\n", "a[0].b", "x", "a:\n  - b: x # c\n"},
		{"into an empty list that touches a comment", "a: []# c\n", "a[0]", "x", "a: # c\n  - x\n"},
		{"into an empty file", "{}\n", "a", "x", "a: x\n"},
		{"into an empty file that touches a comment", "{}# c\n", "a.b", "x", "a: # c\n  b: x\n"},
		{"into an empty file behind a tab", "\t{}", "a.b", "x", "a:\n  b: x\n"},
		{"into an empty file below a line of a tab", "\t\n{}", "a.b", "x", "\na:\n  b: x\n"},
		{"into an empty file behind a mark", "# c\n--- {}\n", "a", "x", "# c\n--- \na: x\n"},
		{"drop quotes of a bool", "a: 'true'\n", "a", "true", "a: true\n"},
		{"odd name", "a: 1\n", `b["0.22"]`, "x", "a: 1\nb:\n  0.22: x\n"},
		{"name in quotes", "a: 1\n", `b["x: y"]`, "x", "a: 1\nb:\n  \"x: y\": x\n"},
		{"several lines", "a: 1\nb: 2\n", "a", "one\ntwo\n", "a: \"one\\ntwo\\n\"\nb: 2\n"},
		{"a block of lines", "a: |- # c\n  one\n  # no comment\n\nb: 2\n", "a", "x", "a: x # c\n\nb: 2\n"},
		{"behind a block of lines", "a: |+\n  one\n\n# c\n", "b", "x", "a: |+\n  one\n\nb: x\n# c\n"},
		{"a text of several lines", "a: one\n  two # c\nb: 2\n", "a", "x", "a: x # c\nb: 2\n"},
		{"carriage returns and a mark stay", "\ufeffa: 1\r\nb: 2\r\n", "c", "3", "\ufeffa: 1\r\nb: 2\r\nc: 3\r\n"},
		{"JSON stays JSON", "{\n  \"a\": 1,\n  \"b\": [\"x\"]\n}\n", "c.day", "2026-06-15", "{\n  \"a\": 1,\n  \"b\": [\"x\"],\n  \"c\": {\"day\": \"2026-06-15\"}\n}\n"},
		{"JSON on a line", `{"a": {}, "b": null}`, "a.c", "1.50", `{"a": {"c": 1.50}, "b": null}` + "\n"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			d := parse(t, tt.before)
			if err := d.Set(tt.key, tt.text); err != nil {
				t.Fatal(err)
			}
			if got := string(d.Bytes()); got != tt.want {
				t.Errorf("Set(%q, %q) made\n%s\nwant\n%s", tt.key, tt.text, got, tt.want)
			}
			sameAsText(t, d)
		})
	}
}

// sameAsText checks that a document knows its text: that reading it again gives
// the same values at the same places.
func sameAsText(t testing.TB, d *Document) {
	t.Helper()
	again, err := Parse("again.yaml", d.Bytes())
	if err != nil {
		t.Fatalf("what was written cannot be read: %v\n%s", err, d.Bytes())
	}
	var compare func(key string, a, b *node)
	compare = func(key string, a, b *node) {
		if a.kind != b.kind || a.flow != b.flow || a.null != b.null || a.quoted != b.quoted || a.text != b.text || len(a.items) != len(b.items) {
			t.Fatalf("%s is %+v, and %+v when read again from\n%s", key, a, b, d.text)
		}
		if (a.kind == scalar || a.flow) && (a.from != b.from || a.to != b.to) {
			t.Fatalf("%s is at %d to %d, and at %d to %d when read again from\n%s", key, a.from, a.to, b.from, b.to, d.text)
		}
		for i, it := range a.items {
			if twin := b.items[i]; it.name != twin.name || it.from != twin.from {
				t.Fatalf("%s: item %d is %+v, and %+v when read again from\n%s", key, i, it, twin, d.text)
			}
			compare(step{it.name, i}.under(key), it.value, b.items[i].value)
		}
	}
	compare("", d.root, again.root)
}

func TestReplace(t *testing.T) {
	tests := []struct{ name, before, key, text, want, fault string }{
		{"a scalar", "a: \"1\" # c\n", "a", "open", "a: open # c\n", ""},
		{"a list", "a: [1, \"2\"] # c\nb: 1\n", "a", "open", "a: open # c\nb: 1\n", ""},
		{"a mapping in a list", "a: [{b: 1}, {b: 2}]\n", "a[1]", "x", "a: [{b: 1}, x]\n", ""},
		{"lines", "a:\n  - 1\n", "a", "open", "", "a: its value is on lines of its own; delete it first"},
		{"nothing", "a: 1\n", "b", "open", "", "b: there is nothing to replace"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			d := parse(t, tt.before)
			err := d.Replace(tt.key, tt.text)
			if tt.fault != "" {
				if err == nil || err.Error() != tt.fault || string(d.Bytes()) != tt.before {
					t.Errorf("Replace: %v, and the text is\n%s", err, d.Bytes())
				}
				return
			}
			if got := string(d.Bytes()); err != nil || got != tt.want {
				t.Errorf("Replace: %v, and the text is\n%s\nwant\n%s", err, got, tt.want)
			}
			sameAsText(t, d)
		})
	}
}

func TestSetQuotes(t *testing.T) {
	for _, text := range []string{"true", "false", "0", "-12.50", "1200.50", "2026-06-15", "single", "Harbor Clinic", "O'Hara & Sons", "Zoë", "a#b"} {
		if got := written(t, text); got != text {
			t.Errorf("%s is written %s", text, got)
		}
	}
	for _, text := range []string{
		"", " a", "a ", "a: b", "a:", "a #b", "- a", "yes", "No", "ON", "y", "null", "~", "True", "0x1F", "010", "1e3", "1_000", "12:30", ".5", "+1",
		".inf", "2026-02-30", "2026-6-5", "#a", "&a", "*a", "!a", "|", ">", "%a", "@a", "`a", "'a", "[a", "{a", "a\tb", "=", "<<", "---",
	} {
		if got, want := written(t, text), quote(text); got != want {
			t.Errorf("%q is written %s, want %s", text, got, want)
		}
	}
}

// written is how a text is written as the value of a key.
func written(t *testing.T, text string) string {
	t.Helper()
	d := New("test.yaml")
	if err := d.Set("k", text); err != nil {
		t.Fatal(err)
	}
	line := string(d.Bytes())
	return line[len("k: ") : len(line)-1]
}

func TestSetErrors(t *testing.T) {
	const before = "a: 1\nb: {c: 1}\nd: [1]\n"
	tests := []struct{ key, text, want string }{
		{"", "x", `"" is not a key; write it like jobs[0].pay`},
		{"a..b", "x", `"a..b" is not a key; write it like jobs[0].pay`},
		{"d[", "x", `"d[" is not a key; write it like jobs[0].pay`},
		{"d[-1]", "x", `"d[-1]" is not a key; write it like jobs[0].pay`},
		{"d[00]", "x", `"d[00]" is not a key; write it like jobs[0].pay`},
		{"d[0]x", "x", `"d[0]x" is not a key; write it like jobs[0].pay`},
		{"[0]", "x", `"[0]" is not a key; write it like jobs[0].pay`},
		{"a.b", "x", `a.b: a holds one value; delete it first`},
		{"b", "x", `b: a list or mapping is here; delete it first`},
		{"b[0]", "x", `b[0]: b holds keys, not a list`},
		{"d.c", "x", `d.c: d is a list, not keys with values`},
		{"d[2]", "x", `d[2]: the next index of d is 1`},
		{"e[1].f", "x", `e[1].f: the next index of e is 0`},
		{"a", "x\x1b[0m", `a: contains a control character (U+001B); remove it`},
		{"a", "\xff", `a: this is not UTF-8; save the file as UTF-8`},
	}
	for _, tt := range tests {
		d := parse(t, before)
		if err := d.Set(tt.key, tt.text); err == nil || err.Error() != tt.want {
			t.Errorf("Set(%q, %q) = %v, want %s", tt.key, tt.text, err, tt.want)
		}
		if got := string(d.Bytes()); got != before {
			t.Errorf("Set(%q, %q) failed but made %s", tt.key, tt.text, got)
		}
	}
}

func TestDelete(t *testing.T) {
	tests := []struct{ name, before, key, want string }{
		{"with its comments", "# file\n\n# own\na: 1 # one\nb: 2\n", "a", "# file\n\nb: 2\n"},
		{"a comment that goes on", "a: 1  # one\n      # two\n# of b\nb: 2\n", "a", "# of b\nb: 2\n"},
		{"the comment of the key before stays", "a:\n  b: 1\n  # foot\nc: 2\nd: 3\n", "c", "a:\n  b: 1\n  # foot\nd: 3\n"},
		{"the last of all", "a: 1\n\n# b\nb: 2\n# end\n", "b", "a: 1\n\n# end\n"},
		{"the last line without end", "a: 1\nb: 2", "b", "a: 1\n"},
		{"the last of a mapping", "a:\n  b: 1\n\n  # c\n  c: 2\n# d\nd: 3\n", "a.c", "a:\n  b: 1\n\n# d\nd: 3\n"},
		{"a block of lines", "a: |\n  x\n  # no comment\n\n  y\nb: 1\n", "a", "b: 1\n"},
		{"below a block of lines", "a: |\n  x\n  # no comment\nb: 1\n", "b", "a: |\n  x\n  # no comment\n"},
		{"below a block of lines, with a comment below", "a: |\n  x\n\nb: >\n  y\n\n  # no comment above\nc: 1\n", "b", "a: |\n  x\n\nc: 1\n"},
		{"below a comment and a line of a tab", "# of all\n\t\n# of a\na: 1\nb: 2\n", "a", "# of all\n\nb: 2\n"},
		{"the last in brackets, behind a text that ends in a colon", "a: [b:, c]\n", "a[1]", "a: [b:,]\n"},
		{"empty parents", "a: 1\nb:\n  c:\n    d: 1\n", "b.c.d", "a: 1\n"},
		{"empty list", "a: 1\nb:\n  - 1\n", "b[0]", "a: 1\n"},
		{"an element keeps its place", "a:\n  - b: 1\n  - b: 2\n", "a[0].b", "a:\n  - {}\n  - b: 2\n"},
		{"an element keeps its place and comment", "a:\n  - # c\n    b: 1\n", "a[0].b", "a:\n  - {} # c\n"},
		{"a list keeps its place", "a:\n  - - 1\n  - - 2\n", "a[0][0]", "a:\n  - []\n  - - 2\n"},
		{"the first behind a dash", "a:\n  - b: 1 # one\n\n    # of c\n    c: 2\n", "a[0].b", "a:\n  - # of c\n    c: 2\n"},
		{"element", "a:\n  - 1\n  - 2\n", "a[0]", "a:\n  - 2\n"},
		{"first in brackets", "a: [1, 2, 3] # c\n", "a[0]", "a: [2, 3] # c\n"},
		{"last in brackets", "a: {b: 1, c: 2}\n", "a.c", "a: {b: 1}\n"},
		{"last in brackets with a comment", "a: [ 1, # one\n  2 # two\n  ]\n", "a[1]", "a: [ 1 # one\n   # two\n  ]\n"},
		{"only one in brackets", "a: {b: [1]}\nc: 2\n", "a.b[0]", "c: 2\n"},
		{"a line in brackets", "{\n  \"a\": 1,\n  \"b\": 2\n}\n", "a", "{\n  \"b\": 2\n}\n"},
		{"the last line in brackets", "{\n  \"a\": 1,\n  \"b\": 2\n}\n", "b", "{\n  \"a\": 1\n}\n"},
		{"everything", "# c\n\na: 1\n# d\n", "a", "# c\n\n{}\n# d\n"},
		{"absent", "a: 1\n", "b.c[3]", "a: 1\n"},
		{"malformed", "a: 1\n", "..", "a: 1\n"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			d := parse(t, tt.before)
			d.Delete(tt.key)
			if got := string(d.Bytes()); got != tt.want {
				t.Errorf("Delete(%q) made\n%s\nwant\n%s", tt.key, got, tt.want)
			}
			sameAsText(t, d)
		})
	}
}

func TestLookups(t *testing.T) {
	d := parse(t, "a: 1\nb:\n  - {c: x, d: }\n  - [y]\ne: {\"f.g\": ''}\n")
	if got, want := d.Keys(), []string{"a", "b[0].c", "b[1][0]", `e["f.g"]`}; !slices.Equal(got, want) {
		t.Errorf("Keys() = %q, want %q", got, want)
	}
	for _, tt := range []struct {
		key          string
		has          bool
		length       int
		line, column int
	}{
		{"", true, 0, 1, 1},
		{"a", true, 0, 1, 1},
		{"b", true, 2, 2, 1},
		{"b[0]", true, 0, 3, 5},
		{"b[0].c", true, 0, 3, 6},
		{"b[0].d", true, 0, 3, 12},
		{"b[0].x.y", false, 0, 3, 5},
		{"b[1]", true, 1, 4, 5},
		{"b[7]", false, 0, 2, 1},
		{`e["f.g"]`, true, 0, 5, 5},
		{"e.f.g", false, 0, 5, 1},
		{"..", false, 0, 1, 1},
	} {
		line, column := d.Position(tt.key)
		if d.Has(tt.key) != tt.has || d.Len(tt.key) != tt.length || line != tt.line || column != tt.column {
			t.Errorf("%q: has %v, length %d, at %d:%d; want %+v", tt.key, d.Has(tt.key), d.Len(tt.key), line, column, tt)
		}
	}
	if text, ok := d.Get("b[0].d"); ok {
		t.Errorf("Get of a key without value = %q", text)
	}
	if got, want := d.Problem("b[0].c", Said("is wrong")).Error(), "test.yaml:3:6: b[0].c: is wrong"; got != want {
		t.Errorf("Problem = %q, want %q", got, want)
	}
}

func TestCloneSharesNothing(t *testing.T) {
	d := parse(t, "# c\na: {b: 1}\nd: [1, 2]\n")
	before := string(d.Bytes())
	c := d.Clone()
	for _, key := range []string{"a.b", "d[2]", "e"} {
		if err := c.Set(key, "9"); err != nil {
			t.Fatal(err)
		}
	}
	c.Delete("d[0]")
	c.Delete("a")
	if got := string(d.Bytes()); got != before {
		t.Errorf("the original became\n%s", got)
	}
}
