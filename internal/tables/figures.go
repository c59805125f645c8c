package tables

import (
	"fmt"
	"strings"

	"example.com/plumbline/internal/yamldoc"
)

// Figure is one figure of a year as it stands in the file, or a list of them,
// as the cells of a table's row.
type Figure struct {
	Group    string    // the key of the group that cites it
	Key      string    // the full key, group included
	Value    string    // dollars, a share, a number, a date; a list with commas
	Basis    Basis     // of this figure; Mixed only where the file does not say more
	Indexed  bool      // set anew each year
	Citation *Citation // of the group
}

// Figures are all figures of the year, in the order of the file.
func (y *Year) Figures() []Figure { return figuresOf(y.doc) }

// figuresOf walks a document: what holds a source is a group, and every scalar
// under it that is no part of the citation is a figure of the innermost group.
func figuresOf(doc *yamldoc.Document) []Figure {
	groups := map[string]*Citation{}
	var figures []Figure
	for _, key := range doc.Keys() {
		group := innermost(doc, key, groups)
		if group == "" || names(citationKeys, key[len(group)+1:]) {
			continue
		}
		value, _ := doc.Get(key)
		key := listOf(key)
		if n := len(figures); n > 0 && figures[n-1].Key == key {
			figures[n-1].Value += ", " + value
			continue
		}
		cited, inner := groups[group], key[len(group)+1:]
		figures = append(figures, Figure{
			Group: group, Key: key, Value: value,
			Basis: cited.basisOf(inner), Indexed: names(cited.Indexed, inner), Citation: cited,
		})
	}
	return figures
}

// listOf is the key of the list of which key is an element, else key.
func listOf(key string) string {
	if strings.HasSuffix(key, "]") {
		return key[:strings.LastIndexByte(key, '[')]
	}
	return key
}

// innermost is the key of the innermost group that holds a key, entered into
// groups when it is met for the first time.
func innermost(doc *yamldoc.Document, key string, groups map[string]*Citation) string {
	for outer := key; ; {
		outer = outer[:max(0, strings.LastIndexByte(outer, '.'))]
		switch {
		case outer == "" || groups[outer] != nil:
			return outer
		case doc.Has(outer + ".source"):
			groups[outer] = citationAt(doc, outer)
			return outer
		}
	}
}

// citationAt reads a group's citation from the text.
func citationAt(doc *yamldoc.Document, group string) *Citation {
	text := func(key string) string {
		value, _ := doc.Get(group + "." + key)
		return value
	}
	list := func(key string) []string {
		values := make([]string, doc.Len(group+"."+key))
		for i := range values {
			values[i] = text(fmt.Sprintf("%s[%d]", key, i))
		}
		return values
	}
	return &Citation{
		Source: text("source"), Basis: Basis(text("basis")), Note: text("note"),
		Memory: list("memory"), Derived: list("derived"), Indexed: list("indexed"),
	}
}
