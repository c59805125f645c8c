package yamldoc

import (
	"bytes"
	"encoding/json"
	"fmt"
	"strings"
	"unicode/utf8"
)

// JSON is YAML, but can be read many times faster when it is known to be
// JSON. Only texts in good form are read here; all others are left to the
// YAML library, so that every text gets the same document and the same
// problems either way.

// readJSON reads a text that is a JSON object into the document. It reports
// false for any other text, and for one nested too deep.
func (p *parser) readJSON(data []byte) bool {
	if text := bytes.TrimLeft(data, " \t\n"); len(text) == 0 || text[0] != '{' || !json.Valid(data) {
		return false
	}
	r := jsonReader{parser: p, text: data, line: 1, column: 1}
	r.space()
	root, ok := r.value(1)
	if !ok {
		p.problems = nil
		return false
	}
	r.space()
	p.doc.root, p.doc.below = root, r.blank
	return true
}

// A jsonReader goes through a text that is known to be JSON.
type jsonReader struct {
	*parser
	text         []byte
	at           int
	line, column int      // of at, both counted from 1, the column in characters
	path         []step   // to the item at hand
	blank        []remark // blank lines passed since the last item began
}

// skip moves over n bytes on one line.
func (r *jsonReader) skip(n int) {
	r.column += utf8.RuneCount(r.text[r.at : r.at+n])
	r.at += n
}

// space moves over white space.
func (r *jsonReader) space() {
	empty := r.column == 1 // nothing stands on this line so far
	for ; r.at < len(r.text); r.at++ {
		switch r.text[r.at] {
		case ' ', '\t':
			r.column++
		case '\n':
			if empty {
				r.blank = append(r.blank, remark{})
			}
			empty = true
			r.line, r.column = r.line+1, 1
		default:
			return
		}
	}
}

// value reads the value at hand. It reports false when the value holds
// something that only the library can tell apart.
func (r *jsonReader) value(depth int) (*node, bool) {
	n := &node{line: r.line, column: r.column}
	switch r.text[r.at] {
	case '{':
		n.kind, n.flow = mapping, true
		return n, depth <= maxDepth && r.mapping(n, depth)
	case '[':
		n.kind, n.flow = list, true
		return n, depth <= maxDepth && r.list(n, depth)
	case '"':
		text, ok := r.quoted()
		n.style, n.text = double, text
		if fault := textFault(text); fault != "" {
			n.refused = true
			r.report(n.line, n.column, r.key(), fault)
		}
		return n, ok
	}
	end := r.at
	for end < len(r.text) && strings.IndexByte(",]} \t\n", r.text[end]) < 0 {
		end++
	}
	n.text = string(r.text[r.at:end])
	n.null = n.text == "null"
	r.skip(end - r.at)
	return n, true
}

// quoted reads the text in quotes at hand. It reports false for escapes that
// stand for half a character.
func (r *jsonReader) quoted() (string, bool) {
	raw := r.text[r.at : r.at+quotedLength(r.text[r.at:], '"')]
	r.skip(len(raw))
	if bytes.IndexByte(raw, '\\') < 0 {
		return string(raw[1 : len(raw)-1]), true
	}
	var text string
	err := json.Unmarshal(raw, &text)
	return text, err == nil && !strings.ContainsRune(text, utf8.RuneError)
}

// next moves behind the bracket or comma at hand, and reports whether another
// item follows.
func (r *jsonReader) next(closing byte) bool {
	r.space()
	switch r.text[r.at] {
	case closing:
		r.skip(1)
		return false
	case ',':
		r.skip(1)
		r.space()
	}
	return true // or the first item, right behind the opening bracket
}

// item begins an item at hand, with the blank lines above it.
func (r *jsonReader) item() *item {
	it := &item{line: r.line, column: r.column, above: r.blank}
	r.blank = nil
	return it
}

func (r *jsonReader) list(n *node, depth int) bool {
	n.items = []*item{}
	r.skip(1)
	for r.next(']') {
		it := r.item()
		if !r.under(step{index: len(n.items)}, it, depth) {
			return false
		}
		n.items = append(n.items, it)
	}
	return true
}

func (r *jsonReader) mapping(n *node, depth int) bool {
	n.items = []*item{}
	lines := make(map[string]int)
	r.skip(1)
	for r.next('}') {
		it := r.item()
		name, ok := r.quoted()
		if !ok {
			return false
		}
		it.name = name
		r.space()
		r.skip(1) // the colon
		r.space()
		if !r.under(step{name: name}, it, depth) {
			return false
		}
		if fault := nameFault(name); fault != "" {
			r.report(it.line, it.column, r.key(), fault)
			continue
		}
		if first, twice := lines[name]; twice {
			r.report(it.line, it.column, child(r.key(), name), fmt.Sprintf("this key is already on line %d; keep one", first))
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
