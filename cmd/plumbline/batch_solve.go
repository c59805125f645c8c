package main

import (
	"encoding/json"
	"errors"
	"fmt"
	"sync"

	"example.com/plumbline/internal/certificate"
	"example.com/plumbline/internal/roster"
	"example.com/plumbline/internal/store"
	"example.com/plumbline/internal/tables"
	"example.com/plumbline/internal/words"
	"example.com/plumbline/internal/yamldoc"
)

// batchSolver solves one household after another, from several goroutines,
// with each year's tables loaded once.
type batchSolver struct {
	p     *program
	sheet *roster.Sheet // nil where the households are no spreadsheet
	pages *batchPages   // nil where none are written
	// view and failure are what is written for a household, without the line end.
	view    func(number int, id string, r certificate.Result) ([]byte, error)
	failure func(number int, id string, err error) []byte

	mu    sync.Mutex
	years map[int]*yearTables
}

// yearTables are a year's tables and the next year's, as solving needs them.
type yearTables struct {
	this, next *tables.Year
	err        error
}

func (b *batchSolver) tables(year int) *yearTables {
	b.mu.Lock()
	defer b.mu.Unlock()
	t := b.years[year]
	if t == nil {
		t = new(yearTables)
		t.this, t.err = b.p.year(year)
		if t.err == nil {
			t.next, t.err = b.p.nextYear(year)
		}
		const most = 64 // of different years asked for; beyond it a stream is hostile
		if len(b.years) < most {
			b.years[year] = t
		}
	}
	return t
}

// solve is the result of a household. Whatever goes wrong, a mistake of the
// program's included, becomes the error of this household and of no other.
func (b *batchSolver) solve(row roster.Row) (r batchResult) {
	id := ""
	defer func() {
		if wrong := recover(); wrong != nil {
			r = b.failed(row.Number, id, words.Fail("batch.program_failed", "what", fmt.Sprint(wrong)))
		}
	}()
	r, err := b.result(row, &id)
	if err != nil {
		return b.failed(row.Number, id, err)
	}
	return r
}

func (b *batchSolver) failed(number int, id string, err error) batchResult {
	return batchResult{number: number, id: id, line: b.failure(number, id, err), mistake: b.p.mistakes(b.sheet, number, err)}
}

func (b *batchSolver) result(row roster.Row, id *string) (batchResult, error) {
	if row.Err != nil {
		return batchResult{}, row.Err
	}
	h, doc, err := store.Decode(b.place(row.Number), row.Text, b.p.today)
	if doc != nil {
		*id, _ = doc.Get("id")
	}
	if err != nil {
		return batchResult{}, err
	}
	t := b.tables(h.TaxYear)
	if t.err != nil {
		return batchResult{}, t.err
	}
	r, err := certificate.Solve(h.Named(b.p.language), t.this, t.next)
	if err != nil {
		return batchResult{}, err
	}
	line, err := b.view(row.Number, *id, r)
	if err != nil {
		return batchResult{}, err
	}
	pages, err := b.pages.draw(row.Number, *id, r)
	return batchResult{number: row.Number, id: *id, line: line, pages: pages}, err
}

// place is a household's place as messages name it.
func (b *batchSolver) place(number int) string {
	if b.sheet != nil {
		return b.p.say("batch.row", "row", number)
	}
	return b.p.say("batch.line", "line", number)
}

// jsonLine is a result's own object, with the number of its line and its id
// put first.
func (p *program) jsonLine(number int, id string, r certificate.Result) ([]byte, error) {
	return json.Marshal(struct {
		Line int    `json:"line"`
		ID   string `json:"id,omitempty"`
		certificate.View
	}{number, id, r.In(p.language)})
}

// jsonFailure is the object in place of a result.
func (p *program) jsonFailure(sheet *roster.Sheet) func(number int, id string, err error) []byte {
	type problem struct {
		Column  any    `json:"column,omitempty"` // a number; of a spreadsheet, letters
		Key     string `json:"key,omitempty"`
		Message string `json:"message"`
	}
	type failure struct {
		Line     int       `json:"line"`
		ID       string    `json:"id,omitempty"`
		Language string    `json:"language"`
		Message  string    `json:"message"`
		Problems []problem `json:"problems"`
	}
	return func(number int, id string, err error) []byte {
		f := failure{Line: number, ID: id, Language: p.language.Tag(), Message: p.mistakes(sheet, number, err), Problems: []problem{}}
		var problems yamldoc.Problems
		if errors.As(err, &problems) {
			for _, m := range problems {
				of := problem{Key: m.Key, Message: p.language.Say(m.What)}
				if sheet != nil {
					of.Message = p.language.Say(ofCell(m))
				}
				if sheet == nil {
					of.Column = m.Column
				} else if letters, _, ok := sheet.Column(m.Key); ok {
					of.Column = letters
				}
				f.Problems = append(f.Problems, of)
			}
		}
		line, err := json.Marshal(map[string]failure{"error": f})
		if err != nil {
			panic(err) // strings and numbers always encode
		}
		return line
	}
}
