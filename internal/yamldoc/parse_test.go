package yamldoc

import (
	"errors"
	"strings"
	"testing"
)

func TestParseProblems(t *testing.T) {
	deep := "a: " + strings.Repeat("[", 50) + strings.Repeat("]", 50)
	tests := []struct{ name, text, want string }{
		{"empty", "", `1:1: the file is empty; it needs keys with values, like tax_year: 2026`},
		{"only comments", "# a\n\n# b\n", `1:1: the file is empty; it needs keys with values, like tax_year: 2026`},
		{"only a start", "---\n", `1:1: the file is empty; it needs keys with values, like tax_year: 2026`},
		{"list", "- a\n", `1:1: the file needs keys with values at the top, like tax_year: 2026`},
		{"scalar", "\n  hello\n", `2:3: the file needs keys with values at the top, like tax_year: 2026`},
		{"two documents", "a: 1\n---\nb: 2\n", `2:1: a second document begins here; keep one document to a file`},
		{"anchor and alias", "a: &x 1\nb: *x\n", "1:4: a: an anchor (&x); leave it out\n2:4: b: an alias (*x); write the value out"},
		{"unknown alias", "a: 1\nb: *x\n", `2:4: an alias (*x); write the value out`},
		{"merge", "b: {x: 1}\na:\n  <<: {y: 1}\n", `3:3: a: a merge key (<<); write the keys out`},
		{"tags", "a: !!python/object:x y\nb: !!str 1\n", "1:4: a: a tag (!!python/object:x); leave it out\n2:4: b: a tag (!!str); leave it out"},
		{"bare tag", "a: ! 1\n", "1:4: a: a tag (!); leave it out"},
		{"duplicate", "a: 1\nb: {c: 1, c: 2}\n'a': 3\n", "2:11: b.c: this key is already on line 2; keep one\n3:1: a: this key is already on line 1; keep one"},
		{"key is a list", "? [a]\n: b\n", `1:3: a key must be a word, not a list, mapping or alias`},
		{"key without name", "'': b\n", `1:1: a key has no name`},
		{"long key", strings.Repeat("k", 201) + ": b\n", `1:1: a key is longer than 200 bytes`},
		{"deep", deep, `1:53: a` + strings.Repeat("[0]", 49) + `: lists and keys are nested more than 50 deep`},
		{"long text", "a: " + strings.Repeat("x", 10_001), `1:4: a: the text is longer than 10,000 bytes; shorten it`},
		{"escaped control character", `a: "\x07"`, `1:4: a: contains a control character (U+0007); remove it`},
		{"control characters", "a: \x07\nb: \u0085", "1:4: contains a control character (U+0007); remove it\n2:4: contains a control character (U+0085); remove it"},
		{"lone carriage return", "a: 1\rb: 2", "1:5: contains a control character (U+000D); remove it"},
		{"not UTF-8", "a: é\xff", `1:5: this is not UTF-8; save the file as UTF-8`},
		{"UTF-16", "\xff\xfea\x00:\x00", `1:1: the file is saved as UTF-16; save it as UTF-8`},
		{"UTF-16 without mark", "\x00a\x00:", `1:1: the file is saved as UTF-16; save it as UTF-8`},
		{"large", "a: 1 #" + strings.Repeat(" ", 1<<20), `1:1: the file is larger than 1 MiB, so it is not one of ours`},
		{"tabs", "a:\n\tb: 1\n\tc: 1\n", "2:1: a tab indents this line; use spaces\n3:1: a tab indents this line; use spaces"},
		{"two colons", "a: 1\nb: c: d\n", `2:1: a colon where none fits; put the text in quotes, or check the indentation`},
		{"indentation", "a: 1\n  b: 2\n", `2:3: a colon where none fits; put the text in quotes, or check the indentation`},
		{"dedent", "a:\n    b: 1\n  c: 2\n", `3:3: the lines from here on do not fit together; check the indentation and the quotes`},
		{"quote", "a: 1\nb: \"c\n", `2:1: a quote is opened and never closed`},
		{"bracket", "a: 1\nb: [1, 2\nc: 3\n", `2:1: a list or mapping in brackets is not closed, or lacks a comma`},
		{"no colon", "a: 1\nb\nc: 1\n", `2:1: this key has no colon; write it like tax_year: 2026`},
		{"reserved", "a: 1\nb: @c\n", `2:1: a value beginning with a character that YAML reserves; put the text in quotes`},
		{"percent", "a: 1\nb: %c\n", `2:1: a value beginning with a character that YAML reserves; put the text in quotes`},
		{"backslash", "a: 1\nb: \"\\w\"\n", `2:1: a backslash that means nothing in double quotes; use single quotes`},
		{"star", "a: 1\nb: * c\n", `2:1: a value beginning with & or *; put the text in quotes`},
		{"very deep", "a: " + strings.Repeat("[", 20_000), `1:1: lists and keys are nested too deep`},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			_, err := Parse("test.yaml", []byte(tt.text))
			var problems Problems
			if !errors.As(err, &problems) {
				t.Fatalf("Parse: %v, not Problems", err)
			}
			checkProblems(t, problems, tt.want)
		})
	}
}

func TestProblemError(t *testing.T) {
	tests := []struct {
		problem Problem
		want    string
	}{
		{Problem{"a.yaml", 4, 12, "x[0].y", Said("is wrong")}, "a.yaml:4:12: x[0].y: is wrong"},
		{Problem{File: "a.yaml", What: Said("is wrong")}, "a.yaml: is wrong"},
		{Problem{Key: "k", What: Said("is wrong")}, "k: is wrong"},
	}
	for _, tt := range tests {
		if got := tt.problem.Error(); got != tt.want {
			t.Errorf("Error() = %q, want %q", got, tt.want)
		}
	}
	if err := (Problems{}).Err(); err != nil {
		t.Errorf("no problems: Err() = %v", err)
	}
}

// TestReadingIsLinear doubles a text four times and counts the characters gone
// over to find the places of its nodes: twice the text is twice the work,
// however it is broken into lines.
func TestReadingIsLinear(t *testing.T) {
	shapes := map[string]struct{ head, item, tail string }{
		"a list on one line":    {"a: [", "{b: 1, c: 'é'}, ", "1]\n"},
		"a mapping on one line": {"a: {x: ", "[y, \"z\"], x: ", "1}\n"},
		"a list of lines":       {"a:\n", "  - b: 1 # one\n    c: |\n      two\n", ""},
		"broken JSON":           {`{"a": [`, `{"b": 1, "c": null}, `, "1,]}\n"},
	}
	for name, s := range shapes {
		t.Run(name, func(t *testing.T) {
			last := 0
			for n := 500; n <= 8000; n *= 2 {
				text := s.head + strings.Repeat(s.item, n) + s.tail
				p := &parser{doc: New("test.yaml")}
				if d, _ := p.readYAML([]byte(text)); d == nil {
					t.Fatal(p.problems)
				}
				if last > 0 && p.cursor.steps > 2*last+100 {
					t.Errorf("%d items take %d steps, and half of them took %d", n, p.cursor.steps, last)
				}
				if last = p.cursor.steps; last > len(text) {
					t.Errorf("%d items take %d steps over %d bytes", n, last, len(text))
				}
			}
		})
	}
}
