package words_test

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// refused are words that nobody would say across a desk, each with what to say
// in their place.
var refused = []struct{ word, say string }{
	{`\banew\b`, "again"},
	{`\bshall\b`, "will or should"},
	{`\bas far as\b`, "how much of"},
	{`\bbesides that\b`, "also, or then only"},
	{`\bthe own\b`, "their own"},
	{`\bit is to count\b`, "it should take effect"},
	{`\bby your answers?\b`, "you said"},
	{`\bhold(?:s|ing)?\b[^.]* against\b`, "compare with"},
	{`\btake (?:it|one of them|them) back\b`, "uncheck, or undo"},
	{`\bstands? (?:at|in|on)\b`, "is"},
	{`\bas things stand\b`, "as it is"},
	{`\btake the middle\b`, "use the average"},
	{`\bby work\b`, "earnings"},
	{`\bGive [a-z_]+_[a-z_]+\b`, "what people call it, not the key of the file"},
}

// TestPlainWords refuses such words in every entry, in the README and in the
// documents for people.
func TestPlainWords(t *testing.T) {
	files, err := filepath.Glob("../../docs/*.md")
	if err != nil || len(files) == 0 {
		t.Fatal("no documents", err)
	}
	for _, file := range append(files, "en.yaml", "../../README.md") {
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		for _, r := range refused {
			pattern := regexp.MustCompile(`(?i)` + r.word)
			for n, line := range strings.Split(string(text), "\n") {
				if found := pattern.FindString(line); found != "" {
					t.Errorf("%s:%d: %q; say %s", filepath.Base(file), n+1, found, r.say)
				}
			}
		}
	}
}
