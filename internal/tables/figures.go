package tables

import "strings"

// Figure is one figure of a year as the file has it, or a list of them,
// as the cells of a table's row.
type Figure struct {
	Group    string    // the key of the group that cites it
	Key      string    // the full key, group included
	Value    string    // dollars, a share, a number, a date; a list with commas
	Basis    Basis     // of this figure; Mixed only where the file does not say more
	Indexed  bool      // set again each year
	Citation *Citation // of the group
}

// Figures are all figures of the year, in the order of the file: every scalar
// under a citation that is no part of it is a figure of the innermost group.
func (y *Year) Figures() []Figure {
	cited := map[string]*Citation{}
	for _, g := range y.groups() {
		cited[g.key] = g.cited
	}
	var figures []Figure
	for _, key := range y.doc.Keys() {
		group := innermost(key, cited)
		if group == "" || names(citationKeys, key[len(group)+1:]) {
			continue
		}
		value, _ := y.doc.Get(key)
		e, edited := y.edits[key]
		if edited {
			value = e.text
		}
		key := listOf(key)
		if n := len(figures); n > 0 && figures[n-1].Key == key {
			figures[n-1].Value += ", " + value
			continue
		}
		c, inner := cited[group], key[len(group)+1:]
		f := Figure{Group: group, Key: key, Value: value, Basis: c.basisOf(inner), Indexed: c.indexes(inner), Citation: c}
		if edited {
			f.Basis = e.basis
		}
		figures = append(figures, f)
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

// innermost is the key of the innermost group that holds a key.
func innermost(key string, cited map[string]*Citation) string {
	for outer := key; outer != ""; {
		outer = outer[:max(0, strings.LastIndexByte(outer, '.'))]
		if cited[outer] != nil {
			return outer
		}
	}
	return ""
}
