package yamldoc

import (
	"strconv"
	"strings"

	"example.com/plumbline/internal/words"
)

// A step leads from a mapping or list to one of its values: a name, or an
// index when name is empty. (No document has an empty name: Parse and Set
// refuse it.)
type step struct {
	name  string
	index int
}

// child is the full key of the value called name under key. A name that could
// be mistaken for several steps is written in brackets: rates["0.22"].
func child(key, name string) string {
	switch {
	case strings.ContainsAny(name, ".[]\""):
		return key + "[" + strconv.Quote(name) + "]"
	case key == "":
		return name
	}
	return key + "." + name
}

// element is the full key of the list element at index i.
func element(key string, i int) string { return key + "[" + strconv.Itoa(i) + "]" }

// under is the full key that the step leads to from key.
func (s step) under(key string) string {
	if s.name == "" {
		return element(key, s.index)
	}
	return child(key, s.name)
}

// join puts a key relative to a value behind the value's own full key.
func join(key, relative string) string {
	if key == "" || relative == "" || relative[0] == '[' {
		return key + relative
	}
	return key + "." + relative
}

// split takes a full key apart.
func split(key string) ([]step, error) {
	steps := make([]step, 0, 1+strings.Count(key, ".")+strings.Count(key, "["))
	malformed := func() ([]step, error) {
		return nil, words.Fail("yaml.not_a_key", "key", key)
	}
	rest := key
	for rest != "" {
		if rest[0] != '[' {
			if len(steps) > 0 {
				if rest[0] != '.' {
					return malformed()
				}
				rest = rest[1:]
			}
			end := nameEnd(rest)
			if end == 0 || end < len(rest) && rest[end] != '.' && rest[end] != '[' {
				return malformed()
			}
			steps = append(steps, step{name: rest[:end]})
			rest = rest[end:]
			continue
		}
		rest = rest[1:]
		if quoted, err := strconv.QuotedPrefix(rest); err == nil {
			name, err := strconv.Unquote(quoted)
			rest = rest[len(quoted):]
			if err != nil || name == "" || quoted[0] != '"' || rest == "" || rest[0] != ']' {
				return malformed()
			}
			steps = append(steps, step{name: name})
			rest = rest[1:]
			continue
		}
		digits, after, closed := strings.Cut(rest, "]")
		index, ok := wholeNumber(digits)
		if !closed || !ok || index < 0 {
			return malformed()
		}
		steps = append(steps, step{index: int(index)})
		rest = after
	}
	return steps, nil
}

// nameEnd is how far a plain name at the beginning of a key goes: to a sign that
// is none of its letters, or to the end.
func nameEnd(key string) int {
	for i := range len(key) {
		switch key[i] {
		case '.', '[', ']', '"':
			return i
		}
	}
	return len(key)
}

// wholeNumber reads plain decimal digits, with a minus sign before them if
// need be; no plus sign, no leading zeros, no separators.
func wholeNumber(s string) (int64, bool) {
	digits := strings.TrimPrefix(s, "-")
	if digits == "" || digits[0] == '0' && s != "0" {
		return 0, false
	}
	for i := range len(digits) {
		if digits[i] < '0' || digits[i] > '9' {
			return 0, false
		}
	}
	n, err := strconv.ParseInt(s, 10, 64)
	return n, err == nil
}
