// Package yamldoc reads, edits and writes the YAML files of the program: the
// yearly tables and the answers. JSON is YAML, and is read the same way. The
// package hides the YAML library.
//
// Start at Parse, then Decode into a struct: both collect every mistake with
// its line and column instead of stopping at the first. Get, Set and Delete
// work by full key ("jobs[0].pay"); comments, blank lines and the order of keys
// survive an edit.
//
// The YAML understood is the small part that people write by hand: mappings,
// lists and scalars. Anchors, aliases, merge keys, tags and several documents
// in one file are refused, and a scalar is never more than its text: what it
// means is decided by the type it is decoded into.
package yamldoc

import "slices"

// Limits on what is read and written. They stand far above any honest file.
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

type style uint8

const (
	plain style = iota
	single
	double
	literal
)

// A node is a value in the document.
type node struct {
	kind         kind
	style        style   // of a scalar
	flow         bool    // a mapping or list written in braces or brackets
	null         bool    // a plain scalar that stands for no value
	refused      bool    // by Parse, with a problem told: there is no value to decode
	text         string  // of a scalar
	items        []*item // of a mapping or list
	line, column int     // 0 when not read from a file
}

// An item is a value in a mapping or list, with the comments that belong to it.
type item struct {
	name         string // in a mapping
	value        *node
	above        []remark
	beside       remark
	line, column int // of the name, or of the value in a list
}

// A remark is a comment, from its # on, or a blank line when text is empty.
type remark struct {
	text string
	// column places the comment: for one beside a value, the column it stands
	// in; for one above, how far it is indented beyond the item.
	column int
}

// A Document is a YAML document whose root is a mapping.
type Document struct {
	name  string
	root  *node
	below []remark // comments after the last item
}

// New returns an empty document. The name is the file it is meant for.
func New(name string) *Document {
	return &Document{name: name, root: &node{kind: mapping}}
}

// Clone returns a copy that shares nothing with d.
func (d *Document) Clone() *Document {
	return &Document{name: d.name, root: d.root.clone(), below: slices.Clone(d.below)}
}

func (n *node) clone() *node {
	c := *n
	c.items = make([]*item, len(n.items))
	for i, it := range n.items {
		twin := *it
		twin.value = it.value.clone()
		twin.above = slices.Clone(it.above)
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
// when there is none, or when the key stands there with no value.
func (d *Document) Get(key string) (text string, ok bool) {
	n := d.at(key)
	if n == nil || n.kind != scalar || n.null {
		return "", false
	}
	return n.text, true
}

// Has reports whether anything stands at key: a scalar, a mapping or a list.
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
func (d *Document) Problem(key, message string) Problem {
	line, column := d.Position(key)
	return Problem{File: d.name, Line: line, Column: column, Key: key, Message: message}
}
