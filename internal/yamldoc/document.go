// Package yamldoc reads and edits the YAML files of the program: the yearly
// tables, the answers and the forms. JSON is YAML, and is read the same way.
// The package hides the YAML library.
//
// Start at Parse, then Decode into a struct: both collect every mistake with
// its line and column instead of stopping at the first. Get, Set, Replace and
// Delete work by full key ("jobs[0].pay").
//
// An edit puts text in the place of text: the scalar that is replaced, the line
// that is added, the lines that are deleted. Every other byte of the file stays
// as it was written, so comments, blank lines, quotes, indentation and the order
// of keys need no model of their own. (A last line without its end gets one.) A key that is deleted takes the comment
// lines directly above it along, and those below that are indented deeper.
//
// The YAML understood is the small part that people write by hand: mappings,
// lists and scalars. Anchors, aliases, merge keys, tags, keys with a question
// mark and several documents in one file are refused, and a scalar is never
// more than its text: what it means is decided by the type it is decoded into.
//
// Reading takes time in proportion to the length of the text.
package yamldoc

import (
	"bytes"
	"slices"

	"example.com/plumbline/internal/words"
)

// Limits on what is read and written, far above any honest file.
const (
	maxBytes = 1 << 20 // of a file
	maxDepth = 50      // mappings and lists inside each other
	maxText  = 10_000  // bytes in one scalar
	maxKey   = 200     // bytes in one name of a key
)

type kind uint8

const (
	scalar kind = iota
	mapping
	list
)

// node is a value in the document.
type node struct {
	kind    kind
	flow    bool   // a mapping or list written in braces or brackets
	null    bool   // a plain scalar that means no value
	quoted  bool   // a scalar in quotes, or a block of lines
	refused bool   // by Parse, with a problem told: there is no value to decode
	text    string // of a scalar
	items   []*item

	// from and to are where a scalar, or a mapping or list in brackets, is in the
	// document's text. Both are where it would go when nothing is written: behind
	// the colon or the dash. A mapping or list of lines has the places of its
	// items instead.
	from, to int

	line, column int // as read; 0 when not read from a file
}

// item is a value in a mapping or list.
type item struct {
	name         string // in a mapping
	value        *node
	from         int // where the name begins, or the dash, or the value in brackets
	line, column int // as read: of the name, or of the value in a list
}

// end is where the text of a node ends.
func (n *node) end() int {
	if n.kind != scalar && !n.flow && len(n.items) > 0 {
		return n.items[len(n.items)-1].value.end()
	}
	return n.to
}

// Document is a YAML document whose root is a mapping.
type Document struct {
	name string
	text []byte // never changed in place: copies share it
	root *node
	json bool // read as JSON: edits keep it JSON
	mark bool // the file begins with a byte order mark
	crlf bool // its lines end in a carriage return and a line feed
}

// New returns an empty document. The name is the file it is meant for.
func New(name string) *Document {
	return &Document{name: name, text: []byte("{}\n"), root: &node{kind: mapping, flow: true, to: 2}}
}

// Bytes is the text of the document.
func (d *Document) Bytes() []byte {
	text := slices.Clone(d.text)
	if d.crlf {
		text = bytes.ReplaceAll(text, []byte("\n"), []byte("\r\n"))
	}
	if d.mark {
		text = slices.Concat([]byte(byteOrderMark), text)
	}
	return text
}

// Clone returns a copy; an edit of one does not show in the other.
func (d *Document) Clone() *Document {
	c := *d
	c.root = d.root.clone()
	return &c
}

func (n *node) clone() *node {
	c := *n
	c.items = make([]*item, len(n.items))
	for i, it := range n.items {
		twin := *it
		twin.value = it.value.clone()
		c.items[i] = &twin
	}
	return &c
}

// find returns the item that a step leads to and its place, or nil.
func (n *node) find(s step) (*item, int) {
	if s.name == "" {
		if n.kind == list && s.index < len(n.items) {
			return n.items[s.index], s.index
		}
		return nil, 0
	}
	if n.kind == mapping {
		for i, it := range n.items {
			if it.name == s.name {
				return it, i
			}
		}
	}
	return nil, 0
}

// at returns the value at a full key, or nil.
func (d *Document) at(key string) *node {
	steps, err := split(key)
	if err != nil {
		return nil
	}
	n := d.root
	for _, s := range steps {
		it, _ := n.find(s)
		if it == nil {
			return nil
		}
		n = it.value
	}
	return n
}

// Get returns the text of the scalar at key, without quotes. It reports false
// when there is none, or when the key has no value.
func (d *Document) Get(key string) (text string, ok bool) {
	n := d.at(key)
	if n == nil || n.kind != scalar || n.null {
		return "", false
	}
	return n.text, true
}

// Has reports whether anything is at key: a scalar, a mapping or a list.
func (d *Document) Has(key string) bool { return d.at(key) != nil }

// Len returns the length of the list at key, 0 when there is none.
func (d *Document) Len(key string) int {
	n := d.at(key)
	if n == nil || n.kind != list {
		return 0
	}
	return len(n.items)
}

// Keys returns the full key of every scalar that Get would return, in the
// order of the document.
func (d *Document) Keys() []string {
	var keys []string
	var walk func(key string, n *node)
	walk = func(key string, n *node) {
		if n.kind == scalar && !n.null {
			keys = append(keys, key)
		}
		for i, it := range n.items {
			if n.kind == list {
				walk(element(key, i), it.value)
			} else {
				walk(child(key, it.name), it.value)
			}
		}
	}
	walk("", d.root)
	return keys
}

// Position returns the line and column of key in the file as it was read. For
// a key that is not there, it is the place of the nearest key that would hold
// it, and the beginning of the file failing that.
func (d *Document) Position(key string) (line, column int) {
	line, column = 1, 1
	if d.root.line > 0 {
		line, column = d.root.line, d.root.column
	}
	steps, err := split(key)
	if err != nil {
		return line, column
	}
	n := d.root
	for _, s := range steps {
		it, _ := n.find(s)
		if it == nil {
			break
		}
		if it.line > 0 {
			line, column = it.line, it.column
		}
		n = it.value
	}
	return line, column
}

// Problem returns a problem with the value at key, at its Position.
func (d *Document) Problem(key string, what words.Text) Problem {
	line, column := d.Position(key)
	return Problem{File: d.name, Line: line, Column: column, Key: key, What: what}
}
