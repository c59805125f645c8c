package report

import (
	"bytes"
	"slices"
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"pgregory.net/rapid"

	"example.com/plumbline/internal/household"

	"example.com/plumbline/internal/layout"
)

// hostile are names that try to reach beyond their place on the page.
var hostile = map[string]string{
	"escape sequence":      "Acme\x1b[31m\x1b]0;owned\x07\x1b[2J",
	"eight-bit escape":     "Acme\u009b31m",
	"right-to-left":        "Acme \u202egnp.exe\u2066\u200f",
	"line breaks":          "Acme\n\nNothing to hand in\r\vat\u2028all\u2029",
	"not UTF-8":            "Acme \xff\xfe",
	"zero width":           "Ac\u200b\ufeffme",
	"ten thousand letters": strings.Repeat("Acme", 2500),
	"ten thousand words":   strings.Repeat("a ", 5000),
	"wide letters":         strings.Repeat("社", 200),
	"Markdown":             "|Acme| `x` <script> [a](b) *b* _c_ # ",
	"formatting verbs":     "%s %d %!",
}

func TestHostileNames(t *testing.T) {
	for what, name := range hostile {
		t.Run(what, func(t *testing.T) {
			h := demo(t, "two-earners")
			h.Jobs[0].Name = name
			h.Dependents[0].Name = name
			pages := pagesOf(t, solved(t, h))
			for _, width := range []int{40, 80} {
				text := asText(t, width, pages...)
				harmless(t, text)
				for line := range strings.Lines(text) {
					if layout.Width(strings.TrimSuffix(line, "\n")) > width {
						t.Errorf("wider than %d: %q", width, line)
					}
				}
				if len(text) > 120_000 {
					t.Errorf("%d bytes: the name is not cut", len(text))
				}
			}
			harmless(t, asMarkdown(t, pages...))
			if err := PDF(new(bytes.Buffer), pages); err != nil {
				t.Error(err)
			}
		})
	}
}

// harmless fails on what a terminal would act on.
func harmless(t *testing.T, s string) {
	t.Helper()
	if !utf8.ValidString(s) {
		t.Error("not UTF-8")
	}
	for _, r := range s {
		if r != '\n' && (unicode.IsControl(r) || unicode.In(r, unicode.Cf, unicode.Zl, unicode.Zp)) {
			t.Errorf("%U on the page", r)
			return
		}
	}
}

// A name keeps its own letters and cannot add a line to the page.
func TestClean(t *testing.T) {
	tests := []struct{ in, want string }{
		{"Núñez & Łódź", "Núñez & Łódź"},
		{"a\x1b[31mb", "a[31mb"},
		{"a\nb\tc", "a b c"},
		{"\u202eabc\u202c", "abc"},
		{"a\u0301", "a\u0301"},
		{"\xff", ""},
	}
	for _, tt := range tests {
		if got := layout.Clean(tt.in); got != tt.want {
			t.Errorf("layout.Clean(%q) = %q, want %q", tt.in, got, tt.want)
		}
	}
}

// Where one long name begins like another, each is cut as itself.
func TestShortNames(t *testing.T) {
	h := demo(t, "two-earners")
	long := strings.Repeat("Long name of a firm ", 3)
	h.Jobs[0].Name, h.Jobs[1].Name = long, long+"and sons"
	p := Page{Blocks: []Block{Paragraph(h.Jobs[1].Name + "! " + h.Jobs[0].Name + "!")}}
	got := string(p.shortNames(h).Blocks[0].(Paragraph))
	if strings.Contains(got, "sons") || len(got) > 2*longestName+3 {
		t.Errorf("shortNames = %q", got)
	}
}

// Wrapped text is the same words in the same order, and no line is too wide.
func TestWrap(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		words := rapid.SliceOfN(rapid.StringMatching(`[a-z0-9é社-]{1,30}`), 1, 30).Draw(t, "words")
		width := rapid.IntRange(2, 50).Draw(t, "width")
		lines := layout.Wrap(strings.Join(words, " "), width)
		for _, l := range lines {
			if layout.Width(l) > width {
				t.Fatalf("%q is wider than %d", l, width)
			}
		}
		if got := strings.ReplaceAll(strings.Join(lines, ""), " ", ""); got != strings.Join(words, "") {
			t.Fatalf("%v wraps to %v", words, lines)
		}
	})
}

// A job without a name of its own is spoken of in plain words, which begin a
// text with a capital; a name keeps its letters.
func TestNamesBeginWithACapital(t *testing.T) {
	h := household.Household{Jobs: []household.Job{{Name: "your second job"}, {Name: "eMart"}}}
	p := Page{Blocks: []Block{List{Items: []string{"your second job: each paycheck", "a form to your second job", "eMart: each paycheck"}}}}
	got := p.shortNames(h).Blocks[0].(List).Items
	want := []string{"Your second job: each paycheck", "a form to your second job", "eMart: each paycheck"}
	if !slices.Equal(got, want) {
		t.Errorf("%q, want %q", got, want)
	}
}
