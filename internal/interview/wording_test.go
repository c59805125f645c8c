package interview

import (
	"regexp"
	"strings"
	"testing"
)

// Every question is worded whole, every name in braces has a value, and what is
// offered to choose from is there.
func TestEveryQuestionIsWorded(t *testing.T) {
	w := begin(t, "2026-06-15", threeJobs).walk
	check := func(key, text string) {
		t.Helper()
		if got := fill(text, func(name string) (string, bool) { return w.value(name, group{name: "your job"}) }); strings.ContainsAny(got, "{}") {
			t.Errorf("%s: %q is not filled in", key, got)
		}
	}
	if n := len(script().Chapters); n != yourWish+1 {
		t.Fatalf("%d chapters are titled, want %d", n, yourWish+1)
	}
	for _, q := range script().Questions {
		for _, text := range []string{q.Label, q.Text, q.Why, q.Where, q.Reason} {
			check(q.Key, text)
		}
		chosen := q.Kind == Choice || q.Kind == Several
		if chosen != (len(q.Options) > 0) {
			t.Errorf("%s: %d options do not go with its kind", q.Key, len(q.Options))
		}
		seen := map[string]bool{}
		for _, o := range q.Options {
			check(q.Key, o.Label)
			check(q.Key, o.Help)
			if seen[o.Value] || o.Value == "" || o.Value == None && q.Kind == Several || strings.ContainsAny(o.Value, ", ") {
				t.Errorf("%s: option %q cannot be told apart", q.Key, o.Value)
			}
			seen[o.Value] = true
		}
		if q.Reason == "" && q.Default != "" {
			t.Errorf("%s: the default has no reason", q.Key)
		}
	}
}

// Amounts of the law come from the yearly tables, so the wording holds none.
func TestWordingHoldsNoAmounts(t *testing.T) {
	amount := regexp.MustCompile(`\$|\d+(\.\d+)?%|\d,\d{3}|\b\d{3,}\.\d\d\b`)
	for i, line := range strings.Split(string(questionsFile), "\n") {
		if amount.MatchString(line) {
			t.Errorf("questions.yaml:%d: %s", i+1, strings.TrimSpace(line))
		}
	}
}

// A fifteen-year-old reads along: no sentence of a question runs long, and
// everyday words stand for those of the trade.
func TestWordingIsPlain(t *testing.T) {
	const most = 26 // words in a sentence
	for _, q := range script().Questions {
		for _, text := range []string{q.Text, q.Why, q.Where} {
			for _, sentence := range regexp.MustCompile(`[.:?!] `).Split(text, -1) {
				if n := len(strings.Fields(sentence)); n > most {
					t.Errorf("%s: %d words: %s", q.Key, n, sentence)
				}
			}
		}
		for _, word := range []string{"taxpayer", "remuneration", "pursuant", "congratulations", "great", "warning", "!"} {
			if strings.Contains(strings.ToLower(q.Text+q.Why), word) {
				t.Errorf("%s says %q", q.Key, word)
			}
		}
		if strings.Contains(strings.ToLower(q.Text), "social security number") && !strings.Contains(q.Why, "Do not type the number") {
			t.Errorf("%s could be taken as asking for the number", q.Key)
		}
	}
}

func TestCautions(t *testing.T) {
	all := map[string]bool{}
	for _, c := range Cautions() {
		if all[c.Code] || c.Message == "" {
			t.Errorf("caution %q", c.Code)
		}
		all[c.Code] = true
	}
	// DESIGN.md, Cautions.
	for _, code := range []string{"estimate", "state", "nonresident_alien", "foreign_income", "clergy", "household_employer", "lock_in", "volunteer", "private"} {
		if !all[code] {
			t.Errorf("no caution %s", code)
		}
	}
}
