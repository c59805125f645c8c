package terminal

import (
	"strconv"
	"strings"

	"example.com/plumbline/internal/interview"
	"example.com/plumbline/internal/words"
)

// choose turns what was typed at a list into what Session.Answer takes: numbers
// into the values of the options, and the beginning of one label into that
// option. Everything else is left to the interview to judge.
func choose(q interview.Question, text string) string {
	switch q.Kind {
	case interview.Several:
		if text == "0" {
			return interview.None
		}
		parts := strings.Split(text, ",")
		if fields := strings.Fields(text); len(parts) == 1 && allNumbers(fields) {
			parts = fields
		}
		for i, part := range parts {
			parts[i] = option(q, strings.TrimSpace(part))
		}
		return strings.Join(parts, ", ")
	case interview.Choice, interview.YesNo:
		return option(q, text)
	}
	return text
}

func allNumbers(fields []string) bool {
	for _, f := range fields {
		if _, err := strconv.Atoi(f); err != nil {
			return false
		}
	}
	return len(fields) > 0
}

// option is the value of the option that a text names: by its number, or by the
// beginning of its label if only one begins so.
func option(q interview.Question, text string) string {
	if i, ok := number(text, len(q.Options)); ok {
		return q.Options[i-1].Value
	}
	found := ""
	for _, o := range q.Options {
		label, begin := words.Fold(o.Label), words.Fold(text)
		if label == begin {
			return o.Value
		}
		if begin != "" && strings.HasPrefix(label, begin) {
			if found != "" {
				return text
			}
			found = o.Value
		}
	}
	if found != "" {
		return found
	}
	return text
}

// number reads a number from 1 to most.
func number(text string, most int) (int, bool) {
	i, err := strconv.Atoi(strings.TrimSuffix(text, "."))
	return i, err == nil && i >= 1 && i <= most
}
