package layout_test

import (
	"slices"
	"strings"
	"testing"

	"example.com/plumbline/internal/layout"
)

func TestClean(t *testing.T) {
	tests := []struct{ text, want string }{
		{"Harbor Clinic", "Harbor Clinic"},
		{"two\tparts\nof it", "two parts of it"},
		{"red \x1b[31mink", "red [31mink"},
		{"right-to-left \u202eturn", "right-to-left turn"},
		{"zero\u200bwidth", "zerowidth"},
		{"bad \xff byte", "bad  byte"},
		{"Łódź ☕", "Łódź ☕"},
	}
	for _, tt := range tests {
		if got := layout.Clean(tt.text); got != tt.want {
			t.Errorf("Clean(%q) = %q, want %q", tt.text, got, tt.want)
		}
	}
	if got, want := layout.CleanLines("a\x07\nb"), "a\nb"; got != want {
		t.Errorf("CleanLines gives %q, want %q", got, want)
	}
}

func TestWrap(t *testing.T) {
	tests := []struct {
		text  string
		width int
		want  []string
	}{
		{"", 10, nil},
		{"Give a new Form W-4 to payroll.", 13, []string{"Give a new", "Form W-4 to", "payroll."}},
		{"the form W-4P", 10, []string{"the form", "W-4P"}},
		{"abcdefgh", 3, []string{"abc", "def", "gh"}},
		{"a abcd", 3, []string{"a", "abc", "d"}},
		{"jobs.taxable_pay", 10, []string{"jobs.", "taxable_", "pay"}},
		{"one\ntwo", 10, []string{"one", "two"}},
		{"漢字漢字", 4, []string{"漢字", "漢字"}},
		{"漢字", 1, []string{"漢", "字"}}, // wider than the line: one letter each
		{"ab", 0, []string{"a", "b"}},
	}
	for _, tt := range tests {
		if got := layout.Wrap(tt.text, tt.width); !slices.Equal(got, tt.want) {
			t.Errorf("Wrap(%q, %d) = %q, want %q", tt.text, tt.width, got, tt.want)
		}
	}
}

func TestHangAndFlow(t *testing.T) {
	if got, want := layout.Hang("1. ", "copy the entries", 10), []string{"1. copy", "   the", "   entries"}; !slices.Equal(got, want) {
		t.Errorf("Hang gives %q, want %q", got, want)
	}
	if got, want := layout.Flow([]string{"3 2,200", "4(c) 353", "4(a) 600"}, "; ", 18), []string{"3 2,200; 4(c) 353;", "4(a) 600"}; !slices.Equal(got, want) {
		t.Errorf("Flow gives %q, want %q", got, want)
	}
}

func TestClip(t *testing.T) {
	if got, want := layout.Clip("a long name of a firm", 10), "a long ..."; got != want {
		t.Errorf("Clip gives %q, want %q", got, want)
	}
	if got, want := layout.ClipLeft("/home/ana/answers.yaml", 12), "...wers.yaml"; got != want && !strings.HasSuffix(got, "answers.yaml") {
		t.Errorf("ClipLeft gives %q, want %q", got, want)
	}
}

// What is typed is never lost by wrapping.
func FuzzWrap(f *testing.F) {
	f.Add("Give a new Form W-4 to payroll.", 13)
	f.Add("漢字 abc", 1)
	f.Fuzz(func(t *testing.T, s string, width int) {
		s = layout.Clean(s)
		lines := layout.Wrap(s, width%200)
		spaceless := func(s string) string { return strings.Join(strings.Fields(s), "") }
		if got := spaceless(strings.Join(lines, "")); got != spaceless(s) {
			t.Errorf("Wrap(%q, %d) holds %q", s, width, got)
		}
		for _, l := range lines {
			if w := layout.Width(l); w > max(width%200, 2) {
				t.Errorf("Wrap(%q, %d) has a line of %d columns: %q", s, width, w, l)
			}
		}
	})
}
