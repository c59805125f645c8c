package tables

import (
	"io/fs"
	"strings"
	"testing"

	"example.com/plumbline/internal/words"
	"example.com/plumbline/internal/yamldoc"
	"example.com/plumbline/taxtables"
)

// Every note of the yearly tables is in every language that the program has, and
// in no other.
func TestNotesAreInEveryLanguage(t *testing.T) {
	for _, year := range Years(taxtables.Files) {
		y, err := Load(taxtables.Files, year)
		if err != nil {
			t.Fatal(err)
		}
		noted := 0
		for _, g := range y.groups() {
			if g.cited.Note != "" {
				noted++
			}
			for _, l := range words.All() {
				own, there := g.cited.Notes[l.Tag()]
				wanted := l != words.English() && g.cited.Note != ""
				if there != wanted {
					t.Errorf("%d: %s.notes.%s is there: %v, want %v", year, g.key, l.Tag(), there, wanted)
				} else if wanted && (own == "" || own == g.cited.Note || g.cited.NoteIn(l) != own) {
					t.Errorf("%d: %s in %s says %q", year, g.key, l.Tag(), g.cited.NoteIn(l))
				}
			}
			for tag := range g.cited.Notes {
				if _, known := words.In(tag); !known {
					t.Errorf("%d: %s.notes.%s is in no language of the program", year, g.key, tag)
				}
			}
		}
		if noted == 0 {
			t.Errorf("%d has no notes", year)
		}
	}
}

// A note that is to be looked at again for a new year loses its translations; one
// that stays keeps them. In a language that a note is not in, it is in English.
func TestNotesOfAStartedYear(t *testing.T) {
	const year = 2026
	data, err := fs.ReadFile(taxtables.Files, fileName(year))
	if err != nil {
		t.Fatal(err)
	}
	started, err := Start(taxtables.Files, year, nil)
	if err != nil {
		t.Fatal(err)
	}
	before, _ := yamldoc.Parse("2026.yaml", data)
	after, err := yamldoc.Parse("2027.yaml", started)
	if err != nil {
		t.Fatal(err)
	}
	kept, marked := 0, 0
	for _, key := range before.Keys() {
		group, ok := strings.CutSuffix(key, ".notes.es")
		if !ok {
			continue
		}
		note, _ := after.Get(group + ".note")
		_, there := after.Get(key)
		if strings.HasSuffix(note, mark) == there {
			t.Errorf("%s: the note is %q, and its translation is there: %v", group, note, there)
		}
		if there {
			kept++
		} else {
			marked++
		}
	}
	if kept == 0 || marked == 0 {
		t.Errorf("%d translations kept, %d gone", kept, marked)
	}
	spanish, _ := words.In("es")
	if c := (&Citation{Note: "In English only."}); c.NoteIn(spanish) != c.Note {
		t.Errorf("the note is %q", c.NoteIn(spanish))
	}
}
