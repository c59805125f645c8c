package interview

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"example.com/plumbline/internal/words"
)

// parts are the words of a question, as they are put.
func parts(w *walk, q wording) (all []string) {
	at := &step{wording: &q, about: group{name: "your job"}, lang: w.lang}
	for _, part := range []string{"label", "text", "why", "where", "default_reason", "unknown"} {
		all = append(all, w.ofQuestion(at, part))
	}
	for _, o := range q.Options {
		all = append(all, w.ofQuestion(at, "option."+o), w.ofQuestion(at, "help."+o))
	}
	return all
}

// The two lists offer what has a gate, each gate leads to questions that there are,
// and every question about an income is behind a gate or named here.
func TestGatesLeadToQuestions(t *testing.T) {
	// Asked of an income that a gate leads to, or only where it decides something.
	elsewhere := []string{"income.business.", "income.social_security_monthly.", "income.early_withdrawal", "income.tax_exempt_interest"}
	asked, offered := map[string]bool{}, map[string]bool{}
	for _, q := range script().Questions {
		asked[q.Key] = true
		if q.Key == incomeList || q.Key == reductionsList {
			for _, o := range q.Options {
				offered[q.Key+" "+o] = true
			}
		}
	}
	leads := map[string]bool{}
	for _, g := range gates {
		if !offered[g.list+" "+g.option] {
			t.Errorf("%s does not offer %s", g.list, g.option)
		}
		delete(offered, g.list+" "+g.option)
		for _, key := range g.keys {
			leads[key] = true
			if !asked[key] {
				t.Errorf("the gate %s leads to %s, which is no question", g.option, key)
			}
		}
	}
	for o := range offered {
		t.Errorf("%s has no gate", o)
	}
	for key := range asked {
		of := func(prefix string) bool { return strings.HasPrefix(key, prefix) }
		if of("income.") && !leads[key] && !slices.ContainsFunc(elsewhere, of) {
			t.Errorf("nothing leads to %s", key)
		}
	}
}

// Every question has its words, every name in braces a value, and what is
// offered to choose from can be told apart.
func TestEveryQuestionIsWorded(t *testing.T) {
	w := begin(t, "2026-06-15", threeJobs).walk
	if n := len(script().Chapters); n != yourWish+1 {
		t.Fatalf("%d chapters are titled, want %d", n, yourWish+1)
	}
	for _, q := range append(script().Questions, script().WhatIfs...) {
		all := parts(w, q)
		for _, text := range all {
			if strings.ContainsAny(text, "{}[]") {
				t.Errorf("%s: %q is not filled in", q.Key, text)
			}
		}
		for i, part := range []string{"label", "text", "why"} {
			if all[i] == "" {
				t.Errorf("%s has no %s", q.Key, part)
			}
		}
		chosen := q.Kind == Choice || q.Kind == Several || q.Kind == Named
		if chosen != (len(q.Options) > 0) && q.Key != whatIfKeys+"job" { // the person's own jobs
			t.Errorf("%s: %d options do not go with its kind", q.Key, len(q.Options))
		}
		seen := map[string]bool{}
		for _, o := range q.Options {
			code := "question." + q.Key + ".option." + o
			if q.Kind == Named {
				code = "state." + o
			}
			if !w.lang.Has(code) {
				t.Errorf("%s: option %s has no words", q.Key, o)
			}
			if seen[o] || o == "" || o == None && q.Kind == Several || strings.ContainsAny(o, ", ") {
				t.Errorf("%s: option %q cannot be told apart", q.Key, o)
			}
			seen[o] = true
		}
		if reason := all[4]; q.Default == Unknown && all[5] == "" || q.Default != "" && q.Default != Unknown && reason == "" {
			t.Errorf("%s: the default has no reason", q.Key)
		}
	}
}

// Amounts of the law come from the yearly tables, so the words hold none; an
// example of how to type is no amount of the law.
func TestWordingHoldsNoAmounts(t *testing.T) {
	amount := regexp.MustCompile(`\$|\d+(\.\d+)?%|\d,\d{3}|\b\d{3,}\.\d\d\b`)
	codes, err := words.English().Codes()
	if err != nil {
		t.Fatal(err)
	}
	plain := words.English().Mapped("literals", func(s string) string { return s })
	for _, code := range codes {
		if !strings.HasPrefix(code, "question.") {
			continue
		}
		if text := plain.Say(words.T(code)); amount.MatchString(text) {
			t.Errorf("%s: %s", code, text)
		}
	}
}

// A fifteen-year-old reads along: no sentence of a question runs long, and
// everyday words are used for those of the trade.
func TestWordingIsPlain(t *testing.T) {
	const most = 26 // words in a sentence
	w := begin(t, "2026-06-15", threeJobs).walk
	for _, q := range script().Questions {
		all := parts(w, q)
		for _, text := range all[1:4] {
			for _, sentence := range regexp.MustCompile(`[.:?!] `).Split(text, -1) {
				if n := len(strings.Fields(sentence)); n > most {
					t.Errorf("%s: %d words: %s", q.Key, n, sentence)
				}
			}
		}
		said := strings.ToLower(strings.Join(all, " "))
		for _, word := range []string{
			"taxpayer", "remuneration", "pursuant", "congratulations", "great", "warning", "!",
			"shall", "anew", "as far as", "besides that", "the own ", "take back", "by your answer",
		} {
			if strings.Contains(said, word) {
				t.Errorf("%s says %q", q.Key, word)
			}
		}
		if strings.Contains(strings.ToLower(all[1]), "social security number") && !strings.Contains(all[2], "Do not type the number") {
			t.Errorf("%s could be taken as asking for the number", q.Key)
		}
	}
}
