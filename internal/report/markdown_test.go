package report

import (
	"strings"
	"testing"
)

// What Markdown would act on is shown as it was written (CommonMark 0.31, 2.4
// and 4; tables as GitHub reads them, where a bar ends a cell).
func TestMarkdownText(t *testing.T) {
	tests := []struct{ in, want string }{
		{"plain, with 1,234.50 and W-4", "plain, with 1,234.50 and W-4"},
		{"a|b", `a\|b`},
		{"*x* _y_ `z`", "\\*x\\* \\_y\\_ \\`z\\`"},
		{"<script>&amp;", "&lt;script&gt;&amp;amp;"},
		{"[a](http://b)", `\[a\](http://b)`},
		{"# not a heading", `\# not a heading`},
		{"- not a list", `\- not a list`},
		{"1. not a list", `1\. not a list`},
		{`a\`, `a\\`},
	}
	for _, tt := range tests {
		if got := markdownText(tt.in); got != tt.want {
			t.Errorf("markdownText(%q) = %q, want %q", tt.in, got, tt.want)
		}
	}
}

// A name with bars keeps the columns of a table.
func TestMarkdownTable(t *testing.T) {
	p := Page{Title: "t", Blocks: []Block{Table{Head: []string{"a", "b"}, Rows: [][]string{{"x | y\n| z", "1"}}}}}
	lines := strings.Split(strings.TrimSpace(asMarkdown(t, p)), "\n")
	if got, want := lines[len(lines)-1], `| x \| y \| z | 1 |`; got != want {
		t.Errorf("row %q, want %q", got, want)
	}
}
