package yamldoc

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"unicode/utf8"

	"gopkg.in/yaml.v3"

	"example.com/plumbline/internal/words"
)

// Parse reads a document. The name is the file's, for messages.
//
// The error is of type Problems and holds every mistake of form. When the text
// could be read in spite of them, the document is returned as well, so that
// Decode can add the mistakes of content; otherwise it is nil.
func Parse(name string, data []byte) (*Document, error) {
	p := &parser{doc: New(name)}
	data, ok := p.clean(data)
	if !ok {
		return nil, p.problems.sorted()
	}
	if p.readJSON(data) {
		return p.read()
	}
	return p.readYAML(data)
}

// readYAML reads a text by the YAML library.
func (p *parser) readYAML(data []byte) (*Document, error) {
	root, err := readNodes(data)
	if err != nil {
		p.explain(data, err)
		return nil, p.problems.sorted()
	}
	if root == nil || root.Kind == yaml.ScalarNode && root.Style == 0 && root.Value == "" {
		p.report(1, 1, "", words.T("yaml.empty"))
		return nil, p.problems.sorted()
	}
	if root.Kind == yaml.AliasNode || root.Kind != yaml.MappingNode {
		p.report(root.Line, root.Column, "", words.T("yaml.no_mapping"))
		return nil, p.problems.sorted()
	}
	p.cursor = newCursor(data)
	p.doc.text = data
	p.doc.root = p.convert(root, "", 1, 0, -1)
	return p.read()
}

// read is the document read, with its mistakes of form.
func (p *parser) read() (*Document, error) {
	return p.doc, p.problems.sorted().Err()
}

// A parser turns the library's nodes into a Document.
type parser struct {
	doc      *Document
	problems Problems
	cursor   cursor
}

func (p *parser) report(line, column int, key string, what words.Text) {
	p.problems = append(p.problems, Problem{p.doc.name, line, column, key, what})
}

// clean checks the bytes and returns them without byte order mark and with
// plain line ends.
func (p *parser) clean(data []byte) ([]byte, bool) {
	if len(data) > maxBytes {
		p.report(1, 1, "", words.T("yaml.too_large"))
		return nil, false
	}
	if bytes.HasPrefix(data, []byte("\xfe\xff")) || bytes.HasPrefix(data, []byte("\xff\xfe")) ||
		len(data) > 1 && (data[0] == 0) != (data[1] == 0) {
		p.report(1, 1, "", words.T("yaml.utf16"))
		return nil, false
	}
	data, p.doc.mark = bytes.CutPrefix(data, []byte(byteOrderMark))
	if bytes.IndexByte(data, '\r') >= 0 {
		p.doc.crlf = bytes.Count(data, []byte("\r\n")) == bytes.Count(data, []byte("\n"))
		data = bytes.ReplaceAll(data, []byte("\r\n"), []byte("\n"))
	}
	if n := len(data); n > 0 && data[n-1] != '\n' {
		data = append(slices.Clip(data), '\n') // or a block of lines would change by a line added below it
	}
	line, column := 1, 0
	for i := 0; i < len(data); {
		r, size := rune(data[i]), 1
		if r >= utf8.RuneSelf {
			r, size = utf8.DecodeRune(data[i:])
		}
		column++
		switch {
		case r == '\n':
			line, column = line+1, 0
		case r == utf8.RuneError && size == 1:
			p.report(line, column, "", words.T("yaml.not_utf8"))
		case !allowed(r):
			p.report(line, column, "", words.T("yaml.control", "character", fmt.Sprintf("%U", r)))
		}
		if len(p.problems) == 10 {
			break // a binary file needs no longer list
		}
		i += size
	}
	return data, len(p.problems) == 0
}

// allowed reports whether a character may be in a document. Line separators
// other than the line feed are left out with the control characters: programs
// differ on whether they end a line.
func allowed(r rune) bool {
	switch {
	case r == '\n' || r == '\t':
		return true
	case r < 0x20 || r >= 0x7f && r < 0xa0:
		return false
	case r == 0x2028 || r == 0x2029 || r == 0xfeff || r == 0xfffe || r == 0xffff:
		return false
	}
	return true
}

// textFault says what forbids a text in a scalar, or nothing.
func textFault(text string) words.Text {
	if len(text) > maxText {
		return words.T("yaml.text_too_long")
	}
	if !utf8.ValidString(text) {
		return words.T("yaml.not_utf8")
	}
	for _, r := range text {
		if !allowed(r) {
			return words.T("yaml.control", "character", fmt.Sprintf("%U", r))
		}
	}
	return words.Text{}
}

// nameFault says what forbids a name as a key, or nothing.
func nameFault(name string) words.Text {
	switch {
	case name == "":
		return words.T("yaml.key_no_name")
	case len(name) > maxKey:
		return words.T("yaml.key_too_long")
	case strings.Contains(name, "\n"):
		return words.T("yaml.key_lines")
	}
	return textFault(name)
}

const byteOrderMark = "\ufeff"

var errSeveral = errors.New("several documents")

// readNodes has the library parse the text. The result is nil for a text
// without content.
func readNodes(data []byte) (root *yaml.Node, err error) {
	defer func() {
		if r := recover(); r != nil {
			root, err = nil, errors.New("unreadable")
		}
	}()
	decoder := yaml.NewDecoder(bytes.NewReader(data))
	var document, second yaml.Node
	if err := decoder.Decode(&document); err == io.EOF {
		return nil, nil
	} else if err != nil {
		return nil, err
	}
	switch err := decoder.Decode(&second); {
	case err == nil:
		return nil, fmt.Errorf("yaml: line %d: %w", second.Line, errSeveral)
	case err != io.EOF:
		return nil, err
	}
	if document.Kind == yaml.DocumentNode && len(document.Content) == 1 {
		return document.Content[0], nil
	}
	return &document, nil
}

// convert turns a node of the library into ours. slot is where its value is to
// be written when there is none, indent that of the mapping or list holding it.
func (p *parser) convert(y *yaml.Node, key string, depth, slot, indent int) *node {
	n := &node{line: y.Line, column: y.Column}
	n.from = p.cursor.place(y.Line, y.Column)
	n.to = n.from
	switch {
	case y.Kind == yaml.AliasNode:
		p.report(y.Line, y.Column, key, words.T("yaml.alias", "name", y.Value))
		n.null, n.refused = true, true
		return n
	case y.Anchor != "":
		p.report(y.Line, y.Column, key, words.T("yaml.anchor", "name", y.Anchor))
	case p.tagged(y, n.from):
		p.report(y.Line, y.Column, key, tagFault(y))
	}
	if y.Kind == yaml.ScalarNode {
		p.scalar(n, y, key, slot, indent)
		return n
	}
	if depth > maxDepth {
		p.report(y.Line, y.Column, key, words.T("yaml.too_deep"))
		n.null, n.refused = true, true
		return n
	}
	n.flow = y.Style&yaml.FlowStyle != 0
	if y.Kind == yaml.SequenceNode {
		n.kind = list
		p.elements(n, y, key, depth)
	} else {
		n.kind = mapping
		p.entries(n, y, key, depth)
	}
	if n.flow {
		n.to = min(p.behind(p.behind(n.to, ','), closing[n.kind]), len(p.doc.text))
	}
	return n
}

var closing = [...]byte{mapping: '}', list: ']'}

// behind is the place behind a character, when that is the next.
func (p *parser) behind(at int, c byte) int {
	if next := gapEnd(p.doc.text, at); next < len(p.doc.text) && p.doc.text[next] == c {
		return next + 1
	}
	return at
}

func (p *parser) elements(n *node, y *yaml.Node, key string, depth int) {
	n.items = make([]*item, len(y.Content))
	n.to = p.behind(n.from, '[')
	for i, v := range y.Content {
		it := &item{line: v.Line, column: v.Column}
		slot := 0
		if !n.flow {
			slot = p.behind(n.to, '-')
		}
		it.value = p.convert(v, element(key, i), depth+1, slot, y.Column-1)
		it.from = it.value.from
		if !n.flow {
			it.from = max(slot-1, 0)
		}
		n.to = p.behind(it.value.end(), ',')
		n.items[i] = it
	}
}

func (p *parser) entries(n *node, y *yaml.Node, key string, depth int) {
	n.items = make([]*item, 0, len(y.Content)/2)
	lines := make(map[string]int, len(y.Content)/2)
	n.to = p.behind(n.from, '{')
	if n.flow && n.to == n.from && y.Anchor == "" && !p.tagged(y, n.from) {
		p.report(y.Line, y.Column, key, words.T("yaml.no_braces"))
	}
	for i := 0; i+1 < len(y.Content); i += 2 {
		k, v := y.Content[i], y.Content[i+1]
		it := &item{name: k.Value, line: k.Line, column: k.Column}
		explicit := p.behind(n.to, '?') > n.to
		it.from = p.cursor.place(k.Line, k.Column)
		good := p.name(k, key, it.from)
		slot := it.from
		if k.Kind == yaml.ScalarNode {
			slot = scalarEnd(p.doc.text, it.from, k, y.Column-1)
		}
		colon := p.behind(slot, ':')
		if good && (explicit || colon == slot) {
			p.report(k.Line, k.Column, key, words.T("yaml.no_colon"))
			good = false
		}
		under := child(key, k.Value)
		it.value = p.convert(v, under, depth+1, colon, y.Column-1)
		n.to = p.behind(it.value.end(), ',')
		if first, twice := lines[k.Value]; good && twice {
			p.report(k.Line, k.Column, under, words.T("yaml.twice", "line", first))
			continue
		}
		lines[k.Value] = k.Line
		if good {
			n.items = append(n.items, it)
		}
	}
}

// tagged reports whether a tag is before the node at a place. The library passes
// over the tag "!" in silence.
func (p *parser) tagged(y *yaml.Node, at int) bool {
	return y.Style&yaml.TaggedStyle != 0 || at < len(p.doc.text) && p.doc.text[at] == '!'
}

func tagFault(y *yaml.Node) words.Text {
	name := "!"
	if y.Style&yaml.TaggedStyle != 0 {
		name = y.Tag
	}
	return words.T("yaml.tag", "name", name)
}

// name checks the node of a key, which is at a place.
func (p *parser) name(k *yaml.Node, key string, at int) bool {
	var fault words.Text
	switch {
	case k.Kind != yaml.ScalarNode:
		fault = words.T("yaml.key_no_word")
	case k.Anchor != "":
		fault = words.T("yaml.anchor", "name", k.Anchor)
	case k.Value == "<<" && k.Style == 0:
		fault = words.T("yaml.merge_key")
	case p.tagged(k, at):
		fault = tagFault(k)
	default:
		fault = nameFault(k.Value)
	}
	if !fault.IsZero() {
		p.report(k.Line, k.Column, key, fault)
		return false
	}
	return true
}

func (p *parser) scalar(n *node, y *yaml.Node, key string, slot, indent int) {
	n.text = y.Value
	n.quoted = y.Style&(yaml.DoubleQuotedStyle|yaml.SingleQuotedStyle|yaml.LiteralStyle|yaml.FoldedStyle) != 0
	if !n.quoted {
		switch y.Value {
		case "", "~", "null", "Null", "NULL":
			n.null = true
		}
	}
	if y.Value == "" && !n.quoted {
		n.from = slot
	}
	n.to = scalarEnd(p.doc.text, n.from, y, indent)
	if fault := textFault(n.text); !fault.IsZero() {
		n.refused = true
		p.report(y.Line, y.Column, key, fault)
	}
}
