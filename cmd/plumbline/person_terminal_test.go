package main

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/interview"
	"example.com/plumbline/internal/sample"
	"example.com/plumbline/internal/yamldoc"
)

// person is someone who goes through the whole interview, by keys and by
// lines. The people, firms and figures are invented.
type person struct {
	name, today string
	screens     int // at most, on the whole screen
	keys        int // pressed there, at most
	book        book
	before      *person // as whom they came to the results of an earlier day; nil for newcomers
}

// book is a person's answers by the key of the question. Which are asked for,
// and in what order, is for the interview to say.
type book map[string]answer

// step is one question, by its key, with its answer.
type step struct {
	key    string
	answer answer
	// begins reports the first question of a page, and page is the whole page as
	// the answers so far make it.
	begins bool
	page   []interview.Question
}

// walk calls do for each question that the person is asked, with its wording,
// and returns the lines that answer them.
func (p person) walk(t testing.TB, do func(n int, s step, words string)) (lines string) {
	t.Helper()
	w := startShadow(t, p.file(t), p.today)
	before := ""
	for n := 1; ; n++ {
		q, more := w.s.Question()
		if !more {
			return lines
		}
		a, known := p.book[q.Key]
		if !known && q.Again {
			a, known = same{}, true
		}
		if !known {
			t.Fatalf("%s is asked %s (%s), and has no answer in the book", p.name, q.Key, q.Text)
		}
		page := w.s.Page()
		begins := !slices.ContainsFunc(page, func(on interview.Question) bool { return on.Key == before })
		before = q.Key
		do(n, step{q.Key, a, begins, page}, strings.Join(strings.Fields(q.Text), " "))
		w.give(a)
		lines += a.line() + "\n"
	}
}

// file is the answers file that a person comes back to; nil for newcomers.
func (p person) file(t testing.TB) *yamldoc.Document {
	t.Helper()
	if p.before == nil {
		return nil
	}
	w := startShadow(t, p.before.file(t), p.before.today)
	for {
		q, more := w.s.Question()
		if !more {
			break
		}
		a, known := p.before.book[q.Key]
		if !known && q.Again {
			a, known = same{}, true
		}
		if !known {
			t.Fatalf("%s is asked %s, and has no answer in the book", p.before.name, q.Key)
		}
		w.give(a)
	}
	if err := w.s.Finish(); err != nil {
		t.Fatal(err)
	}
	return w.s.Document()
}

// home is a folder with the answers file that the person comes back to.
func (p person) home(t testing.TB) string {
	t.Helper()
	home := t.TempDir()
	if doc := p.file(t); doc != nil {
		if err := os.WriteFile(filepath.Join(home, "answers.yaml"), doc.Bytes(), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	return home
}

// answer is an answer, to be given either way.
type answer interface {
	line() string // typed at the line-by-line front end
	keys() string // pressed at the full-screen one
}

// shadow is an interview that is carried on beside the program's, to tell which
// question is due and how it is worded.
type shadow struct {
	t testing.TB
	s *interview.Session
}

// startShadow begins with the answers of a document.
func startShadow(t testing.TB, doc *yamldoc.Document, today string) *shadow {
	t.Helper()
	var day household.Date
	if err := day.UnmarshalText([]byte(today)); err != nil {
		t.Fatal(err)
	}
	s, err := interview.Start(doc, interview.Env{Today: day, Tables: sample.Tables})
	if err != nil {
		t.Fatal(err)
	}
	return &shadow{t, s}
}

// give gives the answer to the question that is due.
func (w *shadow) give(a answer) {
	w.t.Helper()
	q, _ := w.s.Question()
	value, err := a.line(), error(nil)
	switch a := a.(type) {
	case same:
		value = q.Prefill()
	case pick:
		if int(a) > len(q.Options) {
			err = errors.New("there is no such option")
			break
		}
		value = q.Options[a-1].Value
	case more:
		w.give(a.all)
		return
	case picks:
		var values []string
		for _, n := range a {
			values = append(values, q.Options[n-1].Value)
		}
		if len(values) > 0 {
			value = strings.Join(values, ", ")
		}
	}
	if err = errors.Join(err, w.s.Answer(value)); err != nil {
		w.t.Fatalf("%s: %v", q.Key, err)
	}
}

// pick is the number of an option, from 1.
type pick int

func (p pick) line() string { return fmt.Sprint(int(p)) }
func (p pick) keys() string { return "<home>" + strings.Repeat("<down>", int(p)-1) + "<enter>" }

// picks are the numbers of several options, in order; none of them is none.
type picks []int

func (p picks) line() string {
	if len(p) == 0 {
		return "none"
	}
	return strings.Trim(strings.ReplaceAll(fmt.Sprint([]int(p)), " ", ", "), "[]")
}

func (p picks) keys() string {
	keys, at := "<home>", 0 // where "None of these" is
	for _, n := range p {
		keys += strings.Repeat("<down>", n-at) + "<space>"
		at = n
	}
	return keys + "<enter>"
}

// yes is an answer of yes or no.
type yes bool

func (y yes) line() string {
	if y {
		return "yes"
	}
	return "no"
}

func (y yes) keys() string { return y.line()[:1] }

// more marks some options of a list on which others are marked already.
type more struct{ all, press picks }

func (m more) line() string { return m.all.line() }
func (m more) keys() string { return m.press.keys() }

// text is typed.
type text string

func (t text) line() string { return string(t) }
func (t text) keys() string { return string(t) + "<enter>" }

// same takes what is suggested.
type same struct{}

func (same) line() string { return "" }
func (same) keys() string { return "<enter>" }
