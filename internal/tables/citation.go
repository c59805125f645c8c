package tables

import (
	"strings"

	"example.com/plumbline/internal/words"
	"example.com/plumbline/internal/yamldoc"
)

// Citation says where a group's figures are published and how well each is
// known. A key in its lists names a figure of the group, or a mapping or list
// with all that it holds; a list's index may be left out for all its elements.
type Citation struct {
	Source  string            `yaml:"source,required"`
	Basis   Basis             `yaml:"basis,required"`
	Memory  []string          `yaml:"memory"`  // of a mixed group: the figures that are from memory
	Derived []string          `yaml:"derived"` // of a mixed group: the figures that are derived
	Note    string            `yaml:"note"`    // rules of derivation, readings, cautions
	Notes   map[string]string `yaml:"notes"`   // the note in other languages, by their tags
	Indexed []Rule            `yaml:"indexed"` // the figures that are set again each year, and how
}

// Check asks for a source, and that the lists of a mixed group say what is not
// found. A projected group has them for the figures that are not projected.
func (c *Citation) Check(report yamldoc.Report) {
	if c.Source == "" {
		report("source", words.T("tables.no_source"))
	}
	if c.Basis != Mixed && c.Basis != Projecting {
		if len(c.Memory) > 0 {
			report("memory", words.T("tables.not_mixed", "basis", string(c.Basis)))
		}
		if len(c.Derived) > 0 {
			report("derived", words.T("tables.not_mixed", "basis", string(c.Basis)))
		}
		return
	}
	if c.Basis == Mixed && len(c.Memory)+len(c.Derived) == 0 && c.Note == "" {
		report("basis", words.T("tables.mixed_unsaid"))
	}
}

// NoteIn is the note in a language, or in English where it is not in that one.
func (c *Citation) NoteIn(l *words.Language) string {
	if own := c.Notes[l.Tag()]; own != "" {
		return own
	}
	return c.Note
}

// citationKeys are the keys of a Citation.
var citationKeys = []string{"source", "basis", "memory", "derived", "note", "notes", "indexed"}

// basisOf is how well a figure of the group is known, by its key within the
// group.
func (c *Citation) basisOf(key string) Basis {
	switch {
	case c.Basis != Mixed && c.Basis != Projecting:
		return c.Basis
	case names(c.Memory, key):
		return Memory
	case names(c.Derived, key):
		return Derived
	case c.Basis == Projecting && c.indexes(key):
		return Projecting
	case c.Basis == Mixed && len(c.Memory)+len(c.Derived) == 0:
		return Mixed
	}
	return Found
}

// indexes reports whether a figure of the group, by its key within it, is set
// again each year.
func (c *Citation) indexes(key string) bool {
	for i := range c.Indexed {
		if names(c.Indexed[i].keys(), key) {
			return true
		}
	}
	return false
}

// names reports whether a list of keys holds the key of a figure, or one that
// leads to it.
func names(list []string, key string) bool {
	bare := withoutIndexes(key)
	for _, named := range list {
		if leadsTo(named, key) || leadsTo(named, bare) {
			return true
		}
	}
	return false
}

// leadsTo reports whether outer is key or holds it.
func leadsTo(outer, key string) bool {
	rest, ok := strings.CutPrefix(key, outer)
	return ok && (rest == "" || rest[0] == '.' || rest[0] == '[')
}

// withoutIndexes is a key without the places in lists: "tiers[0].rate" is
// "tiers.rate".
func withoutIndexes(key string) string {
	var b strings.Builder
	for key != "" {
		before, after, found := strings.Cut(key, "[")
		b.WriteString(before)
		if !found {
			break
		}
		_, key, _ = strings.Cut(after, "]")
	}
	return b.String()
}

// Basis is how well a figure, or a group of them, is known.
type Basis string

// The marks. The last is of a year without a table of its own.
const (
	Found   Basis = "found"   // seen in print
	Derived Basis = "derived" // worked out from found figures by a rule that the note states
	Mixed   Basis = "mixed"   // part found, part not: the lists or the note say which
	Memory  Basis = "memory"  // recalled, not seen in print

	Projecting Basis = "projected" // from the year before, for an assumed rise of prices
)

// UnmarshalText reads one of the four marks.
func (b *Basis) UnmarshalText(text []byte) error {
	switch Basis(text) {
	case Found, Derived, Mixed, Memory, Projecting:
		*b = Basis(text)
		return nil
	}
	return words.Fail("tables.not_a_basis", "text", string(text))
}
