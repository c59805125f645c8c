package yamldoc

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"regexp"
	"strconv"
	"strings"
	"unicode/utf8"

	"gopkg.in/yaml.v3"
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
	root, err := readNodes(data)
	if err != nil {
		p.explain(data, err)
		return nil, p.problems.sorted()
	}
	if root == nil || root.Kind == yaml.ScalarNode && root.Style == 0 && root.Value == "" {
		p.report(1, 1, "", "the file is empty; it needs a mapping of keys, like year: 2031")
		return nil, p.problems.sorted()
	}
	if root.Kind == yaml.AliasNode || root.Kind != yaml.MappingNode {
		p.report(root.Line, root.Column, "", "expected a mapping of keys at the top, like year: 2031")
		return nil, p.problems.sorted()
	}
	p.source = data
	p.special = make(map[place]token)
	p.doc.root = p.convert(root, "", 1, 0, 0)
	p.placeComments()
	if problems := p.problems.sorted(); len(problems) > 0 {
		return p.doc, problems
	}
	return p.doc, nil
}

// A parser turns the library's nodes into a Document.
type parser struct {
	doc      *Document
	problems Problems
	source   []byte
	special  map[place]token // where a # need not begin a comment
	starts   []start         // of the items, in the order of the text
}

func (p *parser) report(line, column int, key, message string) {
	p.problems = append(p.problems, Problem{File: p.doc.name, Line: line, Column: column, Key: key, Message: message})
}

// clean checks the bytes and returns them without byte order mark and with
// plain line ends.
func (p *parser) clean(data []byte) ([]byte, bool) {
	if len(data) > maxBytes {
		p.report(1, 1, "", "the file is larger than 1 MiB; it is not one of ours")
		return nil, false
	}
	if bytes.HasPrefix(data, []byte("\xfe\xff")) || bytes.HasPrefix(data, []byte("\xff\xfe")) ||
		len(data) > 1 && (data[0] == 0) != (data[1] == 0) {
		p.report(1, 1, "", "the file is written in UTF-16; save it as UTF-8")
		return nil, false
	}
	data = bytes.TrimPrefix(data, []byte("\ufeff"))
	if bytes.IndexByte(data, '\r') >= 0 {
		data = bytes.ReplaceAll(data, []byte("\r\n"), []byte("\n"))
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
			p.report(line, column, "", "a byte that is not UTF-8; save the file as UTF-8")
		case !allowed(r):
			p.report(line, column, "", fmt.Sprintf("a control character (%U); remove it", r))
		}
		if len(p.problems) == 10 {
			break // a binary file needs no longer list
		}
		i += size
	}
	return data, len(p.problems) == 0
}

// allowed reports whether a character may stand in a document. Line separators
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
func textFault(text string) string {
	if len(text) > maxText {
		return "the text is longer than 10,000 bytes; shorten it"
	}
	if !utf8.ValidString(text) {
		return "the text is not UTF-8"
	}
	for _, r := range text {
		if !allowed(r) {
			return fmt.Sprintf("the text holds a control character (%U); remove it", r)
		}
	}
	return ""
}

// nameFault says what forbids a name as a key, or nothing.
func nameFault(name string) string {
	switch {
	case name == "":
		return "a key has no name"
	case len(name) > maxKey:
		return "a key is longer than 200 bytes"
	case strings.Contains(name, "\n"):
		return "a key must stand on one line"
	}
	return textFault(name)
}

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

var libraryError = regexp.MustCompile(`^yaml: (?:line (\d+): )?(.*)$`)

// wordings replaces the library's terms by what to do. The first that the
// library's text contains is taken.
var wordings = []struct{ theirs, ours string }{
	{"several documents", "a second document begins here; keep one document to a file"},
	{"mapping values are not allowed", "a colon where none fits; put the text in quotes, or check the indentation"},
	{"did not find expected key", "this line does not fit those above it; check the indentation and the quotes"},
	{"did not find expected '-' indicator", "expected another list element beginning with \"- \"; check the indentation"},
	{"block sequence entries are not allowed", "a list element (\"- \") where none fits; begin the list on a line of its own"},
	{"could not find expected ':'", "a key without its colon; write it like year: 2031"},
	{"did not find expected ',' or", "a list or mapping in brackets is not closed, or lacks a comma"},
	{"found unexpected end of stream", "a quote is opened and never closed"},
	{"found unexpected document indicator", "a quote is opened and never closed"},
	{"found unknown escape character", "a backslash that means nothing in double quotes; use single quotes"},
	{"invalid Unicode character escape", "an escape that stands for no character; write the character itself"},
	{"found character that cannot start any token", "a value beginning with a character YAML reserves; put the text in quotes"},
	{"unknown anchor", "an alias (*name); write the value out"},
	{"alphabetic or numeric character", "a value beginning with & or *; put the text in quotes"},
	{"did not find expected node content", "a value is missing, or begins with a character YAML reserves"},
	{"did not find expected <document start>", "this line does not fit those above it; check the indentation"},
	{"exceeded max depth", "lists and mappings are nested too deep"},
	{"tag", "a tag (!name); leave it out"},
}

// explain reports a text that the library cannot read.
func (p *parser) explain(data []byte, err error) {
	lines := strings.Split(string(data), "\n")
	indent := func(line string) string { return line[:len(line)-len(strings.TrimLeft(line, " \t"))] }
	// A tab that indents a line is the usual cause, and the library names it
	// for a character it is not.
	for i, line := range lines {
		if in := indent(line); len(in) < len(line) && strings.Contains(in, "\t") {
			p.report(i+1, strings.Index(in, "\t")+1, "", "a tab indents this line; use spaces")
		}
		if len(p.problems) == 10 {
			return
		}
	}
	if len(p.problems) > 0 {
		return
	}
	line, message := 1, "this is not YAML"
	if m := libraryError.FindStringSubmatch(err.Error()); m != nil {
		if n, err := strconv.Atoi(m[1]); err == nil && n >= 1 {
			line = min(n, len(lines))
		}
		message = "this is not YAML: " + m[2]
		for _, w := range wordings {
			if strings.Contains(m[2], w.theirs) {
				message = w.ours
				break
			}
		}
	}
	p.report(line, len(indent(lines[line-1]))+1, "", message)
}

// convert turns a node of the library into ours and notes its places. column
// is that of the block holding it, flow the number of braces and brackets.
func (p *parser) convert(y *yaml.Node, key string, depth, column, flow int) *node {
	n := &node{line: y.Line, column: y.Column}
	switch {
	case y.Kind == yaml.AliasNode:
		p.report(y.Line, y.Column, key, "an alias (*"+y.Value+"); write the value out")
		n.null = true
		return n
	case y.Anchor != "":
		p.report(y.Line, y.Column, key, "an anchor (&"+y.Anchor+"); leave it out")
	case y.Style&yaml.TaggedStyle != 0:
		p.report(y.Line, y.Column, key, "a tag ("+y.Tag+"); leave it out")
	}
	if y.Kind == yaml.ScalarNode {
		p.scalar(n, y, key, column)
		return n
	}
	if depth > maxDepth {
		p.report(y.Line, y.Column, key, "lists and mappings are nested deeper than 50")
		n.null = true
		return n
	}
	n.flow = y.Style&yaml.FlowStyle != 0
	if n.flow {
		flow++
		p.special[place{y.Line, y.Column}] = token{kind: flowToken}
	}
	if y.Kind == yaml.SequenceNode {
		n.kind = list
		n.items = make([]*item, len(y.Content))
		for i, v := range y.Content {
			it := &item{line: v.Line, column: v.Column}
			p.starts = append(p.starts, start{place{v.Line, v.Column}, it, y.Column, flow})
			it.value = p.convert(v, element(key, i), depth+1, y.Column, flow)
			n.items[i] = it
		}
		return n
	}
	n.kind = mapping
	n.items = make([]*item, 0, len(y.Content)/2)
	lines := make(map[string]int, len(y.Content)/2)
	for i := 0; i+1 < len(y.Content); i += 2 {
		k, v := y.Content[i], y.Content[i+1]
		it := &item{name: k.Value, line: k.Line, column: k.Column}
		p.starts = append(p.starts, start{place{k.Line, k.Column}, it, k.Column, flow})
		under := child(key, k.Value)
		good := p.name(k, key)
		it.value = p.convert(v, under, depth+1, y.Column, flow)
		if first, twice := lines[k.Value]; good && twice {
			p.report(k.Line, k.Column, under, fmt.Sprintf("this key is already on line %d; keep one", first))
			continue
		}
		lines[k.Value] = k.Line
		if good {
			n.items = append(n.items, it)
		}
	}
	return n
}

// name checks the node of a key.
func (p *parser) name(k *yaml.Node, key string) bool {
	fault := ""
	switch {
	case k.Kind != yaml.ScalarNode:
		fault = "a key must be a word, not a list, mapping or alias"
	case k.Anchor != "":
		fault = "an anchor (&" + k.Anchor + "); leave it out"
	case k.Value == "<<" && k.Style == 0:
		fault = "a merge key (<<); write the keys out"
	case k.Style&yaml.TaggedStyle != 0:
		fault = "a tag (" + k.Tag + "); leave it out"
	default:
		fault = nameFault(k.Value)
	}
	if fault != "" {
		p.report(k.Line, k.Column, key, fault)
		return false
	}
	switch {
	case k.Style&yaml.DoubleQuotedStyle != 0:
		p.special[place{k.Line, k.Column}] = token{kind: doubleToken}
	case k.Style&yaml.SingleQuotedStyle != 0:
		p.special[place{k.Line, k.Column}] = token{kind: singleToken}
	}
	return true
}

func (p *parser) scalar(n *node, y *yaml.Node, key string, column int) {
	n.text = y.Value
	at := place{y.Line, y.Column}
	switch {
	case y.Style&yaml.DoubleQuotedStyle != 0:
		n.style = double
		p.special[at] = token{kind: doubleToken}
	case y.Style&yaml.SingleQuotedStyle != 0:
		n.style = single
		p.special[at] = token{kind: singleToken}
	case y.Style&(yaml.LiteralStyle|yaml.FoldedStyle) != 0:
		n.style = literal
		p.special[at] = token{kind: blockToken, indent: column - 1}
	default:
		switch y.Value {
		case "", "~", "null", "Null", "NULL":
			n.null = true
		}
	}
	if fault := textFault(n.text); fault != "" {
		p.report(y.Line, y.Column, key, fault)
	}
}
