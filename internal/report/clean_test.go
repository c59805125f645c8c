package report

import (
	"bytes"
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"pgregory.net/rapid"

	"example.com/plumbline/internal/layout"
)

// hostile are names that try to reach beyond their place on the page.
var hostile = map[string]string{
	"escape sequence":  "Acme\x1b[31m\x1b]0;owned\x07\x1b[2J",
	"eight-bit escape": "Acme\u009b31m",
	"right-to-left":    "Acme \u202egnp.exe\u2066\u200f",
	"line breaks":      "Acme\n\nNothing to hand in\r\vat\u2028all\u2029",
	"not UTF-8":        "Acme \xff\xfe",
	"zero width":       "Ac\u200b\ufeffme",
	"sixty letters":    strings.Repeat("Acme", 15),
	"thirty words":     strings.Repeat("a ", 30),
	"wide letters":     strings.Repeat("社", 60),
	"Markdown":         "|Acme| `x` <script> [a](b) *b* _c_ # ",
	"formatting verbs": "%s %d %!",
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
			if err := en.PDF(new(bytes.Buffer), pages); err != nil {
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
