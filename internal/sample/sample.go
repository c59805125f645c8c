package sample

import (
	"os"
	"sync"
	"testing"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/tables"
	"example.com/plumbline/internal/words"
	"example.com/plumbline/internal/yamldoc"
	"example.com/plumbline/taxtables"
)

// Year is a yearly table of the program.
func Year(t testing.TB, year int) *tables.Year {
	t.Helper()
	mu.Lock()
	defer mu.Unlock()
	if loaded[year] == nil {
		read, err := tables.Load(taxtables.Files, year)
		if err != nil {
			t.Fatal(err)
		}
		loaded[year] = read
	}
	return loaded[year]
}

var (
	mu     sync.Mutex
	loaded = map[int]*tables.Year{}
)

// Demo reads a demo household.
func Demo(t testing.TB, name string) household.Household {
	t.Helper()
	file := "../../testdata/" + name + "/household.yaml"
	data, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	return Answers(t, file, string(data))
}

// Answers reads an answers file and checks it.
func Answers(t testing.TB, name, text string) household.Household {
	t.Helper()
	doc, err := yamldoc.Parse(name, []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	var h household.Household
	if problems := doc.Decode(&h); len(problems) > 0 {
		t.Fatal(problems)
	}
	h.Check(func(key string, what words.Text) { t.Errorf("%s: %s: %s", name, key, words.English().Say(what)) })
	return h
}
