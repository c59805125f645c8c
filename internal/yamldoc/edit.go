package yamldoc

import (
	"bytes"
	"slices"
	"strings"

	"example.com/plumbline/internal/words"
)

// Set writes a scalar at key, replacing the one there, and making the mappings
// and lists that lead to it; an index equal to a list's length appends. Text
// that YAML might read as something else is put in quotes. It is an error when
// the key is malformed, runs through a scalar, would replace a mapping or list,
// or skips an index, and when the text is too long or holds control characters;
// the document is then unchanged.
func (d *Document) Set(key, text string) error {
	if fault := textFault(text); !fault.IsZero() {
		return keyError(key, fault)
	}
	steps, err := split(key)
	if err != nil {
		return err
	}
	if len(steps) == 0 || steps[0].name == "" {
		return words.Fail("yaml.not_a_key", "key", key)
	}
	if len(steps) > maxDepth {
		return keyError(key, words.T("yaml.too_deep"))
	}
	for _, s := range steps {
		if s.name != "" {
			if fault := nameFault(s.name); !fault.IsZero() {
				return keyError(key, fault)
			}
		}
	}
	if err := d.reachable(steps, key); err != nil {
		return err
	}
	n, flow, indent := d.root, false, 0
	for _, s := range steps {
		if n.null || n.flow && len(n.items) == 0 && !flow {
			d.open(n, holder(s), flow)
		}
		flow = flow || n.flow
		it, _ := n.find(s)
		if it == nil {
			it = d.add(n, s.name, indent, n == d.root)
		}
		if !flow {
			indent = d.columnOf(it.from) + 2
		}
		n = it.value
	}
	if in := d.columnOf(n.from); !flow && in < indent && blank(d.text[lineStart(d.text, n.from):n.from]) {
		// A value on a line of its own, which only one in quotes may begin so far left.
		from, to := n.from+indent, n.to+indent
		d.splice(n.from-in, n.from-in, strings.Repeat(" ", indent))
		n.from, n.to = from, to
	}
	d.write(n, d.scalarText(text, flow))
	*n = node{text: text, quoted: d.text[n.from] == '"', from: n.from, to: n.to, line: n.line, column: n.column}
	return nil
}

// Replace puts a scalar in the place of what is at key: another scalar, or a
// mapping or list in brackets. It is an error when the key is not there or its
// value is on lines of its own, which Delete removes.
func (d *Document) Replace(key, text string) error {
	n := d.at(key)
	switch {
	case n == nil || n == d.root:
		return keyError(key, words.T("yaml.nothing_there"))
	case n.kind != scalar && !n.flow:
		return keyError(key, words.T("yaml.on_lines"))
	}
	if fault := textFault(text); !fault.IsZero() {
		return keyError(key, fault)
	}
	n.kind, n.items = scalar, nil
	return d.Set(key, text)
}

// keyError is what is wrong with an edit at a key.
func keyError(key string, what words.Text) error {
	return words.Fail("yaml.at_key", "key", key, "what", what)
}

// holder is the kind of node that a step starts from.
func holder(s step) kind {
	if s.name == "" {
		return list
	}
	return mapping
}

// reachable checks that a scalar can be set at the end of the steps.
func (d *Document) reachable(steps []step, key string) error {
	n, path := d.root, ""
	for _, s := range steps {
		switch {
		case n == nil || n.null:
			if s.name == "" && s.index > 0 {
				return keyError(key, words.T("yaml.next_index", "list", path, "next", 0))
			}
			n = nil
		case n.kind == scalar:
			return keyError(key, words.T("yaml.holds_value", "at", path))
		case n.kind == mapping && s.name == "":
			return keyError(key, words.T("yaml.is_mapping", "at", path))
		case n.kind == list && s.name != "":
			return keyError(key, words.T("yaml.is_list", "at", path))
		case n.kind == list && s.index > len(n.items):
			return keyError(key, words.T("yaml.next_index", "list", path, "next", len(n.items)))
		default:
			it, _ := n.find(s)
			n = nil
			if it != nil {
				n = it.value
			}
		}
		path = s.under(path)
	}
	if n != nil && n.kind != scalar {
		return keyError(key, words.T("yaml.holds_more"))
	}
	return nil
}

// Delete removes what is at key, with the comments that belong to it. A mapping
// or list that is left empty by it goes too, unless it is an element of a list,
// whose other elements would change their index. A key that is not there is no
// error.
func (d *Document) Delete(key string) {
	steps, err := split(key)
	if err != nil || len(steps) == 0 {
		return
	}
	holders := []*node{d.root}
	for _, s := range steps {
		it, _ := holders[len(holders)-1].find(s)
		if it == nil {
			return
		}
		holders = append(holders, it.value)
	}
	last := len(steps) - 1
	for last > 0 && len(holders[last].items) == 1 && steps[last-1].name != "" {
		last--
	}
	n := holders[last]
	_, i := n.find(steps[last])
	if n.flow {
		d.removeInBrackets(n, i)
		return
	}
	dash := -1 // of the element that n is, when it is one
	if last > 0 {
		it, _ := holders[last-1].find(steps[last-1])
		dash = it.from
	}
	d.removeLines(n, i, dash)
}

// splice puts text in place of the bytes from one place up to another. A node
// that begins or ends at a place where nothing is taken out does not move.
func (d *Document) splice(from, to int, text string) {
	d.text = slices.Concat(d.text[:from], []byte(text), d.text[to:])
	by := len(text) - (to - from)
	move := func(at *int) {
		if *at >= to && *at > from {
			*at += by
		}
	}
	var walk func(n *node)
	walk = func(n *node) {
		move(&n.from)
		move(&n.to)
		for _, it := range n.items {
			move(&it.from)
			walk(it.value)
		}
	}
	walk(d.root)
}

// write puts the text of a scalar or of brackets in the place of a node.
func (d *Document) write(n *node, text string) {
	if n.kind == scalar && d.isBlock(n) {
		// A block of lines: its header makes room, so that a comment beside it stays.
		header := lineEnd(d.text, n.from)
		d.splice(header, max(header, n.to), "")
		n.to = n.from + 1
		for n.to < len(d.text) && strings.IndexByte("+-0123456789", d.text[n.to]) >= 0 {
			n.to++
		}
	}
	if n.from == n.to && n.from > 0 && (d.text[n.from-1] == ':' || d.text[n.from-1] == '-') {
		d.splice(n.from, n.from, " ")
		n.from, n.to = n.from+1, n.from+1
	}
	d.keepApart(n.to)
	from := n.from
	d.splice(from, n.to, text)
	n.from, n.to = from, from+len(text)
}

// keepApart puts a space before a comment that only the end of a quote or bracket
// kept apart, where that goes.
func (d *Document) keepApart(at int) {
	if at < len(d.text) && d.text[at] == '#' {
		d.splice(at, at, " ")
	}
}

// open makes an empty mapping or list of a node without a value or with empty
// brackets. Inside brackets it gets its own; elsewhere it will have lines.
func (d *Document) open(n *node, k kind, flow bool) {
	if flow {
		d.write(n, brackets(k))
	} else {
		if n == d.root {
			d.clearTabs(d.gapAbove(n.from))
		}
		from := n.from
		for n != d.root && from > 0 && d.text[from-1] == ' ' {
			from--
		}
		if start := lineStart(d.text, from); n == d.root && blank(d.text[start:from]) {
			from = start // what indents brackets, a tab too, would indent lines
		}
		d.splice(from, n.to, "")
		n.from, n.to = from, from
		d.keepApart(from)
		if n == d.root {
			d.json = false
		}
	}
	*n = node{kind: k, flow: flow, from: n.from, to: n.to, line: n.line, column: n.column}
}

func brackets(k kind) string {
	if k == list {
		return "[]"
	}
	return "{}"
}

// add appends an item without a value to a mapping or list. indent is how far
// the lines of one that has no items yet are indented.
func (d *Document) add(n *node, name string, indent int, root bool) *item {
	head := "-"
	if n.flow {
		head = ""
	}
	if n.kind == mapping {
		head = d.nameText(name, n.flow) + ":"
	}
	at, before := 0, ""
	switch {
	case n.flow && len(n.items) > 0:
		last := n.items[len(n.items)-1]
		at, before = last.value.end(), ", "
		if start := lineStart(d.text, last.from); blank(d.text[start:last.from]) {
			before = ",\n" + string(d.text[start:last.from])
		}
		if last.value.null && d.text[at-1] == ':' {
			before = " " + before // or the comma were a part of the name
		}
	case n.flow:
		at = n.from + 1
	case len(n.items) > 0:
		last := n.items[len(n.items)-1]
		indent = d.columnOf(last.from)
		at = d.commentsBelow(lineEnd(d.text, last.value.end()), indent)
		before = "\n" + strings.Repeat(" ", indent)
		if root && d.spaced(n) {
			before = "\n" + before
		}
	case root:
		at = n.from
		if !blank(d.text[lineStart(d.text, at):at]) {
			before = "\n" // behind the mark of a document's start
		}
	case d.text[n.from-1] == '-':
		at, before = n.from, " "
	default:
		at, before = lineEnd(d.text, n.from), "\n"+strings.Repeat(" ", indent)
	}
	if strings.HasPrefix(before, "\n") {
		d.clearTabs(at)
	}
	d.splice(at, at, before+head)
	from := at + len(before)
	slot := from + len(head)
	it := &item{name: name, from: from, value: &node{null: true, from: slot, to: slot}}
	n.items = append(n.items, it)
	return it
}

// spaced reports whether a blank line is above the last item of a mapping or list
// of lines, and another may be put below it.
func (d *Document) spaced(n *node) bool {
	last := n.items[len(n.items)-1]
	if len(n.items) < 2 || d.isBlock(last.value) {
		return false // below a block of lines, a blank line might be a part of it
	}
	start := d.commentsAbove(lineStart(d.text, last.from), 0, d.columnOf(last.from))
	return start > 0 && blank(d.text[lineStart(d.text, start-1):start-1])
}

// clearTabs takes the tabs out of the blank lines and comments below a line's end:
// one that comes to be below another value, or first, is taken for indentation.
func (d *Document) clearTabs(end int) {
	var cleared strings.Builder
	at := end
	for line := range bytes.Lines(d.text[end:]) {
		rest := bytes.TrimLeft(line, " \t")
		switch {
		case len(rest) == 0 || rest[0] == '\n':
		case rest[0] == '#':
			cleared.Write(bytes.ReplaceAll(line[:len(line)-len(rest)], []byte("\t"), []byte(" ")))
		default:
			d.splice(end, at, cleared.String())
			return
		}
		cleared.Write(rest)
		at += len(line)
	}
	d.splice(end, at, cleared.String())
}

// removeInBrackets takes an item out of a mapping or list in brackets, with the
// comma behind it, or before it when it is the last.
func (d *Document) removeInBrackets(n *node, i int) {
	it, comma := n.items[i], -1
	if at := gapEnd(d.text, it.value.end()); at < len(d.text) && d.text[at] == ',' {
		d.splice(at, at+1, "")
	} else if i > 0 {
		comma = gapEnd(d.text, n.items[i-1].value.end())
	}
	from, to := it.from, it.value.end()
	start, end := lineStart(d.text, from), lineEnd(d.text, to)
	switch {
	case blank(d.text[start:from]) && blank(d.text[to:end]) && end < len(d.text):
		from, to = start, end+1
	case i < len(n.items)-1:
		for d.text[to] == ' ' {
			to++
		}
		if d.text[to] == '#' {
			to = it.value.end()
		}
	case strings.IndexByte("]}\n", d.text[to]) >= 0:
		for d.text[from-1] == ' ' {
			from--
		}
	}
	n.items = slices.Delete(n.items, i, i+1)
	d.splice(from, to, "")
	if comma >= 0 && d.text[comma] == ',' && d.text[comma-1] != ':' { // without it, a text that ends in a colon were a name
		apart := ""
		if comma+1 < len(d.text) && d.text[comma+1] == '#' {
			apart = " " // the comma kept the comment apart
		}
		d.splice(comma, comma+1, apart)
	}
}

// removeLines takes the lines of an item out of a mapping or list of lines. dash
// is where the element begins that this holder is, or -1.
func (d *Document) removeLines(n *node, i, dash int) {
	it := n.items[i]
	indent := d.columnOf(it.from)
	if blank(d.text[lineStart(d.text, it.from):it.from]) {
		if i > 0 {
			d.clearTabs(lineEnd(d.text, n.items[i-1].value.end()))
		} else {
			d.clearTabs(d.gapAbove(it.from))
		}
	}
	start := lineStart(d.text, it.from)
	end := d.commentsBelow(lineEnd(d.text, it.value.end()), indent)
	d.clearTabs(end)
	n.items = slices.Delete(n.items, i, i+1)
	switch {
	case blank(d.text[start:it.from]):
		above := 0
		if i > 0 {
			above = lineEnd(d.text, n.items[i-1].value.end()) + 1
		}
		start = d.commentsAbove(start, above, indent)
		if i > 0 && len(bytes.TrimSpace(d.text[above:start])) == 0 && d.isBlock(n.items[i-1].value) {
			// Blank lines, and comments deeper than the item, would become a part of the lines above.
			for end+1 < len(d.text) {
				next := lineEnd(d.text, end+1)
				below := d.commentsBelow(end, indent)
				if below == end && blank(d.text[end+1:next]) {
					below = next
				}
				if below == end {
					break
				}
				end = below
			}
		}
		d.splice(start, end+1, "")
	case len(n.items) > 0:
		// Behind a dash: what follows takes its place.
		for end < len(d.text) && (d.text[end] == '\n' || d.text[end] == ' ') {
			end++
		}
		d.splice(it.from, end, "")
	default:
		d.splice(dash+1, end, "")
	}
	if len(n.items) > 0 {
		return
	}
	n.flow = true
	if dash >= 0 {
		n.from, n.to = dash+1, dash+1
		d.write(n, brackets(n.kind))
		return
	}
	d.splice(start, start, brackets(n.kind)+"\n")
	n.from, n.to = start, start+2
}

// gapAbove is where the blank lines and comments above the first item of a mapping
// or list begin: at the end of the line of what is before it, or at the document's
// start.
func (d *Document) gapAbove(at int) int {
	at = lineStart(d.text, at)
	for at > 0 {
		line := d.text[lineStart(d.text, at-1) : at-1]
		if rest := bytes.TrimLeft(line, " \t"); len(rest) > 0 && rest[0] != '#' {
			return at - 1
		}
		at -= len(line) + 1
	}
	return 0
}

// isBlock reports whether a node ends with a block of lines behind | or >.
func (d *Document) isBlock(n *node) bool {
	for n.kind != scalar && !n.flow && len(n.items) > 0 {
		n = n.items[len(n.items)-1].value
	}
	return n.quoted && strings.IndexByte("|>", d.text[n.from]) >= 0
}

// commentsAbove is the start of the comment lines, indented like the item, that
// are directly above a line; none of them begins before least.
func (d *Document) commentsAbove(start, least, indent int) int {
	for start > least {
		line := d.text[lineStart(d.text, start-1):start]
		if in := indentation(line); in != indent || line[in] != '#' {
			break
		}
		start -= len(line)
	}
	return start
}

// commentsBelow is the end of the comment lines, indented deeper than the item,
// that are directly below a line's end.
func (d *Document) commentsBelow(end, indent int) int {
	for end < len(d.text) {
		line := d.text[end+1 : lineEnd(d.text, end+1)]
		if in := indentation(line); in <= indent || in == len(line) || line[in] != '#' {
			break
		}
		end += 1 + len(line)
	}
	return end
}

// columnOf is how many characters are before a place on its line.
func (d *Document) columnOf(at int) int {
	return len([]rune(string(d.text[lineStart(d.text, at):at])))
}

func lineStart(text []byte, at int) int { return bytes.LastIndexByte(text[:at], '\n') + 1 }

func lineEnd(text []byte, at int) int {
	if n := bytes.IndexByte(text[at:], '\n'); n >= 0 {
		return at + n
	}
	return len(text)
}

func indentation(line []byte) int { return len(line) - len(bytes.TrimLeft(line, " ")) }

func blank(text []byte) bool { return len(bytes.Trim(text, " \t")) == 0 }
