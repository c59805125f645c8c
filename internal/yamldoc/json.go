package yamldoc

import (
	"bytes"
	"encoding/json"
	"strings"
	"unicode/utf8"

	"example.com/plumbline/internal/words"
)

// JSON is YAML, but is read several times faster when it is known to be JSON,
// which a batch of households is. Only texts in good form are read here; all
// others are left to the YAML library, so that every text gets the same document
// and the same problems either way.

// readJSON reads a text that is a JSON object into the document. It reports
// false for any other text, and for one nested too deep.
func (p *parser) readJSON(data []byte) bool {
	if text := bytes.TrimLeft(data, " \t\n"); len(text) == 0 || text[0] != '{' || !json.Valid(data) {
		return false
	}
	r := jsonReader{parser: p, text: data, line: 1, column: 1}
	r.next()
	root, ok := r.value(1)
	if !ok {
		p.problems = nil
		return false
	}
	p.doc.root, p.doc.text, p.doc.json = root, data, true
	return true
}

// jsonReader goes through a text that is known to be JSON.
type jsonReader struct {
	*parser
	text         []byte
	from, to     int    // of the token at hand
	line, column int    // of from, both counted from 1, the column in characters
	path         []step // to the item at hand
}

// next takes the next token in hand.
func (r *jsonReader) next() {
	before := r.from
	for r.from = r.to; r.from < len(r.text) && strings.IndexByte(" \t\r\n,:", r.text[r.from]) >= 0; {
		r.from++
	}
	r.to = r.from + tokenLength(r.text[r.from:])
	passed := r.text[before:r.from]
	if i := bytes.LastIndexByte(passed, '\n'); i >= 0 {
		r.line, r.column = r.line+bytes.Count(passed, []byte("\n")), 1
		passed = passed[i+1:]
	}
	r.column += utf8.RuneCount(passed)
}

// tokenLength is the length of the bracket, the text in quotes, the number or the
// word that a rest of JSON begins with.
func tokenLength(rest []byte) int {
	switch {
	case len(rest) == 0:
		return 0
	case strings.IndexByte("[]{}", rest[0]) >= 0:
		return 1
	case rest[0] == '"':
		i := 1
		for rest[i] != '"' {
			if rest[i] == '\\' {
				i++
			}
			i++
		}
		return i + 1
	}
	if end := bytes.IndexAny(rest, " \t\r\n,:[]{}"); end >= 0 {
		return end
	}
	return len(rest)
}

// is reports whether the token at hand begins with a byte.
func (r *jsonReader) is(b byte) bool { return r.text[r.from] == b }

// quoted is the text in quotes at hand.
func (r *jsonReader) quoted() string {
	text := r.text[r.from+1 : r.to-1]
	if bytes.IndexByte(text, '\\') < 0 {
		return string(text)
	}
	var s string
	_ = json.Unmarshal(r.text[r.from:r.to], &s) // known to be JSON
	return s
}

// value reads the value at hand. It reports false when the value holds
// something that only the library can tell apart.
func (r *jsonReader) value(depth int) (n *node, ok bool) {
	n = &node{line: r.line, column: r.column, from: r.from, to: r.to}
	switch {
	case r.is('{'), r.is('['):
		n.flow, n.items = true, []*item{}
		if depth > maxDepth {
			return n, false
		}
		if n.kind = list; r.is('{') {
			n.kind = mapping
			ok = r.entries(n, depth)
		} else {
			ok = r.elements(n, depth)
		}
		n.to = r.to
		return n, ok
	case r.is('"'):
		n.quoted, n.text = true, r.quoted()
		if fault := textFault(n.text); !fault.IsZero() {
			n.refused = true
			r.report(n.line, n.column, r.key(), fault)
		}
		return n, whole(n.text)
	}
	n.text = string(r.text[r.from:r.to])
	n.null = n.text == "null"
	return n, true
}

// whole reports whether no escape of a text in quotes was half a character.
func whole(text string) bool { return !strings.ContainsRune(text, utf8.RuneError) }

func (r *jsonReader) elements(n *node, depth int) bool {
	for r.next(); !r.is(']'); r.next() {
		it := &item{from: r.from, line: r.line, column: r.column}
		if !r.under(step{index: len(n.items)}, it, depth) {
			return false
		}
		n.items = append(n.items, it)
	}
	return true
}

func (r *jsonReader) entries(n *node, depth int) bool {
	lines := make(map[string]int)
	for r.next(); !r.is('}'); r.next() {
		name := r.quoted()
		it := &item{name: name, from: r.from, line: r.line, column: r.column}
		r.next()
		if !whole(name) || !r.under(step{name: name}, it, depth) {
			return false
		}
		if fault := nameFault(name); !fault.IsZero() {
			r.report(it.line, it.column, r.key(), fault)
			continue
		}
		if first, twice := lines[name]; twice {
			r.report(it.line, it.column, child(r.key(), name), words.T("yaml.twice", "line", first))
			continue
		}
		lines[name] = it.line
		n.items = append(n.items, it)
	}
	return true
}

// under reads the value of an item, which a step leads to.
func (r *jsonReader) under(s step, it *item, depth int) (ok bool) {
	r.path = append(r.path, s)
	it.value, ok = r.value(depth + 1)
	r.path = r.path[:len(r.path)-1]
	return ok
}

// key is the full key of the item at hand.
func (r *jsonReader) key() string {
	key := ""
	for _, s := range r.path {
		key = s.under(key)
	}
	return key
}
