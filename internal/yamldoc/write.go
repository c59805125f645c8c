package yamldoc

import (
	"bytes"
	"strings"
	"unicode/utf8"
)

// maxInline is the width up to which a mapping or list in braces or brackets
// stays on its line.
const maxInline = 100

// Bytes writes the document: two spaces of indentation, comments and order
// kept, at most one blank line in a row. Reading the result and writing it
// again gives the same bytes.
func (d *Document) Bytes() []byte {
	w := &writer{limit: maxText}
	if len(d.root.items) == 0 {
		w.remarks(d.below, 0)
		w.WriteString("{}\n")
		return w.Bytes()
	}
	w.block(d.root, 0, false)
	w.remarks(d.below, 0)
	return append(bytes.TrimRight(w.Bytes(), "\n"), '\n')
}

type writer struct {
	bytes.Buffer
	line  int // where the line being written begins
	limit int // how far comments may be indented here
}

func (w *writer) pad(n int) {
	for range n {
		w.WriteByte(' ')
	}
}

func (w *writer) end() {
	w.WriteByte('\n')
	w.line = w.Len()
}

// remarks writes comments and blank lines above an item that is indented by
// indent.
func (w *writer) remarks(remarks []remark, indent int) {
	for _, r := range remarks {
		if r.text == "" {
			if w.Len() > 0 && !bytes.HasSuffix(w.Bytes(), []byte("\n\n")) {
				w.end()
			}
			continue
		}
		w.pad(min(indent+r.column, max(indent, w.limit)))
		w.WriteString(r.text)
		w.end()
	}
}

// block writes the items of a mapping or list, each on lines of its own. When
// begun, the first stands on a line already begun by "- ", and its remarks are
// written.
func (w *writer) block(n *node, indent int, begun bool) {
	for i, it := range n.items {
		if i > 0 || !begun {
			w.remarks(w.remarksAbove(n, it, indent), indent)
			w.pad(indent)
		}
		w.limit = maxText
		if n.kind == list {
			w.WriteByte('-')
		} else {
			w.WriteString(nameText(it.name, false) + ":")
		}
		w.value(n, it, indent)
	}
}

// value writes the value of an item behind its name or dash.
func (w *writer) value(in *node, it *item, indent int) {
	n := it.value
	if n.kind == scalar && n.style == literal && literalSafe(n.text) {
		lines, newline := strings.CutSuffix(n.text, "\n")
		w.WriteString(" |")
		if !newline {
			w.WriteByte('-')
		}
		w.beside(it)
		for line := range strings.SplitSeq(lines, "\n") {
			if line != "" {
				w.pad(indent + 2)
				w.WriteString(line)
			}
			w.end()
		}
		w.limit = indent // a comment farther in would be part of the text
		return
	}
	if text, ok := w.inline(n, indent+nameWidth(in, it)); ok {
		if text != "" || in.kind == list {
			w.WriteByte(' ')
			w.WriteString(orNull(text))
		}
		w.beside(it)
		return
	}
	if in.kind == list {
		w.WriteByte(' ')
		w.block(n, indent+2, true)
		return
	}
	w.beside(it)
	w.block(n, indent+2, false)
}

// beside ends the line, with the comment of the item.
func (w *writer) beside(it *item) {
	if r := it.beside; r.text != "" {
		width := utf8.RuneCount(w.Bytes()[w.line:])
		w.pad(max(1, r.column-1-width))
		w.WriteString(r.text)
	}
	w.end()
}

// remarksAbove are the remarks to write above an item. Inside a list, those of
// a block that begins behind the dash have no other place.
func (w *writer) remarksAbove(in *node, it *item, indent int) []remark {
	if in.kind != list || it.value.kind == scalar {
		return it.above
	}
	if _, ok := w.inline(it.value, indent+1); ok {
		return it.above
	}
	remarks := it.above[:len(it.above):len(it.above)]
	if it.beside.text != "" {
		remarks = append(remarks, remark{text: it.beside.text})
	}
	return append(remarks, w.remarksAbove(it.value, it.value.items[0], indent+2)...)
}

func nameWidth(in *node, it *item) int {
	if in.kind == list {
		return 1
	}
	return utf8.RuneCountInString(nameText(it.name, false)) + 1
}

// inline is a value as written on one line, if it should be. The width is what
// stands before it on the line.
func (w *writer) inline(n *node, width int) (string, bool) {
	if n.kind == scalar {
		return scalarText(n, false), true
	}
	if len(n.items) > 0 && (!n.flow || n.remarked()) {
		return "", false
	}
	var b strings.Builder
	writeFlow(&b, n)
	return b.String(), len(n.items) == 0 || width+1+utf8.RuneCountInString(b.String()) <= maxInline
}

// remarked reports whether a comment stands inside a mapping or list.
func (n *node) remarked() bool {
	for _, it := range n.items {
		if it.beside.text != "" || it.value.remarked() {
			return true
		}
		for _, r := range it.above {
			if r.text != "" {
				return true
			}
		}
	}
	return false
}

func writeFlow(b *strings.Builder, n *node) {
	if n.kind == scalar {
		b.WriteString(orNull(scalarText(n, true)))
		return
	}
	brackets := "{}"
	if n.kind == list {
		brackets = "[]"
	}
	b.WriteByte(brackets[0])
	for i, it := range n.items {
		if i > 0 {
			b.WriteString(", ")
		}
		if n.kind == mapping {
			b.WriteString(nameText(it.name, true) + ": ")
		}
		writeFlow(b, it.value)
	}
	b.WriteByte(brackets[1])
}

func orNull(text string) string {
	if text == "" {
		return "null"
	}
	return text
}
