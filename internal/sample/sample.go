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

// Tables is a yearly table of the program, or why there is none. It is read once for
// all tests: who changes it changes a copy.
func Tables(year int) (*tables.Year, error) {
	once, _ := loaded.LoadOrStore(year, sync.OnceValues(func() (*tables.Year, error) { return tables.Load(taxtables.Files, year) }))
	return once.(func() (*tables.Year, error))()
}

var loaded sync.Map // of years to what loads them, once

// Years are the years that have a table in the program, in order. A test of what is so
// in every year goes over these, one of figures of a year over the years that it names.
func Years() []int { return tables.Years(taxtables.Files) }

// Year is Tables of a year that there is.
func Year(t testing.TB, year int) *tables.Year {
	t.Helper()
	y, err := Tables(year)
	if err != nil {
		t.Fatal(err)
	}
	return y
}

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
