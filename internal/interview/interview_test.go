package interview

import (
	"testing"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/tables"
	"example.com/plumbline/internal/yamldoc"
	"example.com/plumbline/taxtables"
)

func on(text string) household.Date { return answer(text).day() }

func env(today string) Env {
	return Env{Today: on(today), Tables: yearly}
}

var loaded = map[int]*tables.Year{}

func yearly(year int) (*tables.Year, error) {
	if y := loaded[year]; y != nil {
		return y, nil
	}
	y, err := tables.Load(taxtables.Files, year)
	if err == nil {
		loaded[year] = y
	}
	return y, err
}

func begin(t testing.TB, today, file string) *Session {
	t.Helper()
	var doc *yamldoc.Document
	if file != "" {
		var err error
		if doc, err = yamldoc.Parse("answers.yaml", []byte(file)); err != nil {
			t.Fatal(err)
		}
	}
	s, err := Start(doc, env(today))
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func TestScratch(t *testing.T) {
	s := begin(t, "2026-06-15", "")
	for _, a := range []string{"new_job", "no", "1", "0", "none", "none", "false"} {
		q, ok := s.Question()
		t.Log(q.Key, q.Text, a)
		if !ok {
			t.Fatal("ended")
		}
		if err := s.Answer(a); err != nil {
			t.Fatal(err)
		}
	}
	q, ok := s.Question()
	t.Log(q.Key, ok, s.Blank())
	b := s.Document().Bytes()
	t.Log(string(b))
	t.Log(s.Draft())
}
