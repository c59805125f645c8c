package tables

import (
	"fmt"
	"io/fs"
	"slices"
	"strings"

	"example.com/plumbline/internal/yamldoc"
)

// Start is the file of a new year made from that of another, layout and
// comments kept. What the law fixes is carried over. Every indexed figure is
// left open, save zeros, which stand for none, and so are the source, basis and
// note of its group; the group's lists no longer say how well it is known. Load
// refuses the file until Check finds nothing open in it.
//
// The errors are those of Load, and one for a value that cannot be replaced
// where it stands.
func Start(fsys fs.FS, from, year int) ([]byte, error) {
	y, err := Load(fsys, from)
	if err != nil {
		return nil, err
	}
	data, err := fs.ReadFile(fsys, fileName(from))
	if err != nil {
		return nil, fmt.Errorf("tax table of %d: %w", from, err)
	}
	t := template{doc: y.doc, lines: strings.Split(string(data), "\n")}
	t.replace("year", fmt.Sprint(year))
	indexed := map[string][]Figure{} // by group
	for _, f := range y.Figures() {
		if f.Indexed {
			indexed[f.Group] = append(indexed[f.Group], f)
		}
	}
	for group, figures := range indexed {
		cited := figures[0].Citation
		for _, key := range []string{"source", "basis", "note"} {
			t.replace(group+"."+key, open)
		}
		t.forget(group, "memory", cited.Memory, figures)
		t.forget(group, "derived", cited.Derived, figures)
		for _, f := range figures {
			if f.Value != "0" {
				t.replace(f.Key, open)
			}
		}
	}
	return t.text()
}

// template is a table's text on its way to another year. Edits are collected by
// the places of the text as read, and made at the end.
type template struct {
	doc   *yamldoc.Document
	lines []string
	edits []edit
	err   error // the first
}

// edit puts a text in place of a part of a line; when drop is set, the whole
// line goes.
type edit struct {
	line, from, to int // the line from 0, bytes of it
	text           string
	drop           bool
}

// replace puts a text in place of the value at key: a scalar, a list in
// brackets, or each element of a list without them. A key that is not there is
// passed over.
func (t *template) replace(key, text string) {
	if !t.doc.Has(key) {
		return
	}
	e, ok := t.value(key)
	switch n := t.doc.Len(key); {
	case ok:
		e.text = text
		t.edits = append(t.edits, e)
	case n > 0:
		for i := range n {
			t.replace(fmt.Sprintf("%s[%d]", key, i), text)
		}
	case t.err == nil:
		t.err = t.doc.Problem(key, yamldoc.Said("cannot be replaced here; write the value behind its key, on the same line"))
	}
}

// forget takes the keys that name one of the figures out of a citation's list.
func (t *template) forget(group, list string, keys []string, figures []Figure) {
	forgotten := func(key string) bool {
		return slices.ContainsFunc(figures, func(f Figure) bool { return names([]string{key}, f.Key[len(group)+1:]) })
	}
	kept := slices.DeleteFunc(slices.Clone(keys), forgotten)
	if len(kept) == len(keys) {
		return
	}
	at := group + "." + list
	e, inline := t.value(at)
	e.drop = len(kept) == 0
	switch {
	case inline:
		e.text = fmt.Sprintf("[%s]", strings.Join(quoted(kept), ", "))
		t.edits = append(t.edits, e)
		return
	case e.drop:
		t.edits = append(t.edits, e)
	}
	for i, key := range keys {
		if forgotten(key) {
			element, _ := t.value(fmt.Sprintf("%s[%d]", at, i))
			element.drop = true
			t.edits = append(t.edits, element)
		}
	}
}

func quoted(keys []string) []string {
	for i, key := range keys {
		keys[i] = fmt.Sprintf("%q", key)
	}
	return keys
}

// value is where the value at key stands, when all of it stands on the line of
// its key or, in a list, on a line of its own.
func (t *template) value(key string) (e edit, ok bool) {
	line, column := t.doc.Position(key)
	e.line = line - 1
	text := t.lines[e.line]
	e.from = len(string([]rune(text)[:column-1]))
	if listOf(key) == key {
		name := key[strings.LastIndexByte(key, '.')+1:]
		after, named := strings.CutPrefix(text[e.from:], name+":")
		if !named {
			return e, false
		}
		e.from = len(text) - len(strings.TrimLeft(after, " "))
	}
	length := valueLength(text[e.from:])
	e.to = e.from + length
	return e, length > 0
}

// valueLength is the length of the scalar or the list in brackets with which a
// text begins, 0 when that is neither or does not end in the text.
func valueLength(text string) int {
	if text == "" || strings.IndexByte("|>{#", text[0]) >= 0 {
		return 0
	}
	list, quote := text[0] == '[', byte(0)
	for i := 0; i < len(text); i++ {
		c := text[i]
		switch {
		case quote == '"' && c == '\\':
			i++
		case quote != 0:
			if c != quote {
				continue
			}
			quote = 0
			if !list {
				return i + 1
			}
		case (c == '"' || c == '\'') && (list || i == 0):
			quote = c
		case list && c == ']':
			return i + 1
		case !list && (strings.IndexByte(",]}", c) >= 0 || strings.HasPrefix(text[i:], " #")):
			return i
		}
	}
	if list || quote != 0 {
		return 0
	}
	return len(text)
}

// text makes the edits, those later on a line first.
func (t *template) text() ([]byte, error) {
	if t.err != nil {
		return nil, t.err
	}
	slices.SortFunc(t.edits, func(a, b edit) int { return b.from - a.from })
	dropped := map[int]bool{}
	for _, e := range t.edits {
		line := t.lines[e.line]
		t.lines[e.line] = line[:e.from] + e.text + line[e.to:]
		dropped[e.line] = dropped[e.line] || e.drop
	}
	var b strings.Builder
	for i, line := range t.lines {
		if !dropped[i] {
			b.WriteString(line + "\n")
		}
	}
	return []byte(strings.TrimSuffix(b.String(), "\n")), nil
}
