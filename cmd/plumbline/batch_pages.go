package main

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"sync"

	"example.com/plumbline/internal/certificate"
	"example.com/plumbline/internal/report"
	"example.com/plumbline/internal/words"
)

// batchPages writes the pages of each household of a batch into a folder: those
// for the person in one file, a page to copy from for each new certificate in a
// file of its own, since it may go to the employer, and where a blank is given
// the official form filled. A file that is there already stays, and its
// household becomes an error. Nil writes nothing.
type batchPages struct {
	p           *program
	dir, ending string // ".txt" or ".pdf"
	blank       []byte // the official form; nil where none is given

	mu       sync.Mutex
	visitors map[int]report.Visitor // by number
}

// newBatchPages makes the folder where it is not there yet; nil where no pages
// are asked for.
func (p *program) newBatchPages(f batchFlags) (*batchPages, error) {
	if f.pages == "" {
		if f.pdf || f.fill != "" {
			return nil, wrongUsage(words.Fail("batch.pages_wanted"))
		}
		return nil, nil
	}
	b := &batchPages{p: p, dir: f.pages, ending: ".txt", visitors: map[int]report.Visitor{}}
	if f.pdf {
		b.ending = ".pdf"
	}
	if err := os.MkdirAll(b.dir, 0o700); err != nil {
		return nil, systemFailed(err)
	}
	if _, err := os.Lstat(b.path(summaryName)); err == nil {
		return nil, wrongUsage(words.Fail("batch.summary_there", "file", b.path(summaryName)))
	}
	if f.fill == "" {
		return b, nil
	}
	var err error
	b.blank, err = readBlank(f.fill)
	return b, err
}

const summaryName = "summary"

func (b *batchPages) path(name string) string { return filepath.Join(b.dir, name+b.ending) }

// visitorName is how the files of a household begin: with its id, or with the
// number of its row.
func visitorName(number int, id string) string {
	if id == "" {
		return fmt.Sprintf("row-%d", number)
	}
	return fileWord(id)
}

// write writes the pages of a household.
func (b *batchPages) write(number int, id string, r certificate.Result) error {
	if b == nil {
		return nil
	}
	name := visitorName(number, id)
	var alone []report.Page
	var mistakes []error
	forms := 0
	for _, page := range b.p.pages().Handover(r) {
		if page.Kind != report.FormPage {
			alone = append(alone, page)
			continue
		}
		forms++
		mistakes = append(mistakes, b.file(fmt.Sprintf("%s-form-%d", name, forms), page))
	}
	mistakes = append(mistakes, b.file(name, alone...))
	if b.blank != nil && forms > 0 {
		_, err := fillForms(r, b.blank, filepath.Join(b.dir, name+"-official-form.pdf"), false)
		mistakes = append(mistakes, err)
	}
	if err := errors.Join(mistakes...); err != nil {
		return err
	}
	b.note(number, report.Visitor{Name: name, Verdict: r.Verdict, Doubts: r.Doubts, Duties: r.Duties})
	return nil
}

// failed notes a household that has no pages.
func (b *batchPages) failed(number int, id, mistake string) {
	if b != nil {
		b.note(number, report.Visitor{Name: visitorName(number, id), Mistake: mistake})
	}
}

func (b *batchPages) note(number int, v report.Visitor) {
	b.mu.Lock()
	defer b.mu.Unlock()
	b.visitors[number] = v
}

// file writes pages into a file that is not there yet.
func (b *batchPages) file(name string, pages ...report.Page) error {
	var text bytes.Buffer
	if b.ending == ".pdf" {
		if err := b.p.pages().PDF(&text, pages); err != nil {
			return err
		}
	} else {
		for i, page := range pages {
			if i > 0 {
				text.WriteString("\n\n")
			}
			if err := report.Text(&text, page, report.Style{Width: report.Width, Unicode: true}); err != nil {
				return err
			}
		}
	}
	f, err := os.OpenFile(b.path(name), os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o600)
	if errors.Is(err, fs.ErrExist) {
		return words.Fail("batch.page_there", "file", b.path(name))
	}
	if err != nil {
		return err
	}
	_, err = f.Write(text.Bytes())
	return errors.Join(err, f.Close())
}

// summary writes what the desk has to see to, in the order of the rows.
func (b *batchPages) summary() error {
	if b == nil {
		return nil
	}
	var all []report.Visitor
	for _, number := range slices.Sorted(maps.Keys(b.visitors)) {
		all = append(all, b.visitors[number])
	}
	if err := b.file(summaryName, b.p.pages().Desk(all)); err != nil {
		return systemFailed(err)
	}
	b.p.tell("batch.pages_written", "households", len(all), "file", b.path(summaryName))
	return nil
}
