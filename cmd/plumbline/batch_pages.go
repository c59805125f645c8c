package main

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"

	"example.com/plumbline/internal/certificate"
	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/officialform"
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
	edition     officialform.Edition
	summaryName string
	visitors    []report.Visitor // for the summary, in the order of the rows
	written     bool             // of some household
}

// drawnPages are the pages of a household before they are written. They are
// drawn on all cores and written in the order of the rows, so that of two rows
// with one id the first has its pages.
type drawnPages struct {
	result  certificate.Result
	visitor report.Visitor
	files   []drawnFile
	forms   int
}

// fills reports whether an official form is filled for the household: one for each
// job with a new certificate; a pension has a form of its own.
func (d *drawnPages) fills() bool {
	return slices.ContainsFunc(d.result.Recommended.Certificates, func(c certificate.JobCertificate) bool { return !c.Keep && c.Kind == household.Wages })
}

type drawnFile struct {
	name string
	text []byte
}

// newBatchPages makes the folder where it is not there yet; nil where no pages
// are asked for. A blank that cannot be filled fails before anything is written.
func (p *program) newBatchPages(f batchFlags) (*batchPages, error) {
	if f.pages == "" {
		if f.pdf || f.fill != "" {
			return nil, wrongUsage(words.Fail("batch.pages_wanted"))
		}
		return nil, nil
	}
	b := &batchPages{p: p, dir: f.pages, ending: ".txt", summaryName: "summary"}
	if f.from > 1 {
		b.summaryName = fmt.Sprintf("summary-from-%d", f.from)
	}
	if f.pdf {
		b.ending = ".pdf"
	}
	if f.fill != "" {
		var err error
		if b.blank, err = readBlank(f.fill); err != nil {
			return nil, err
		}
		if b.edition, err = officialform.Identify(b.blank); err != nil {
			return nil, wrongAnswers(words.Fail("batch.blank", "file", f.fill, "why", err))
		}
	}
	if err := os.MkdirAll(b.dir, 0o700); err != nil {
		return nil, systemFailed(err)
	}
	if _, err := os.Lstat(b.path(b.summaryName)); err == nil {
		return nil, wrongUsage(words.Fail("batch.summary_there", "file", b.path(b.summaryName)))
	}
	return b, nil
}

func (b *batchPages) path(name string) string { return filepath.Join(b.dir, name+b.ending) }

// visitorName is how the files of a household begin: with its id, or with the
// number of its row.
func visitorName(number int, id string) string {
	if id == "" {
		return fmt.Sprintf("row-%d", number)
	}
	return fileWord(id)
}

// draw draws the pages of a household.
func (b *batchPages) draw(number int, id string, r certificate.Result) (*drawnPages, error) {
	if b == nil {
		return nil, nil
	}
	name := visitorName(number, id)
	d := &drawnPages{result: r, visitor: b.p.pages().Visitor(nameOf(number, id), r)}
	var alone []report.Page
	var mistakes []error
	add := func(name string, pages ...report.Page) {
		text, err := b.text(pages)
		d.files, mistakes = append(d.files, drawnFile{name, text}), append(mistakes, err)
	}
	for _, page := range b.p.pages().Handover(r) {
		if page.Kind != report.FormPage {
			alone = append(alone, page)
			continue
		}
		d.forms++
		add(fmt.Sprintf("%s-form-%d", name, d.forms), page)
	}
	add(name, alone...)
	return d, errors.Join(mistakes...)
}

// text is pages as a file holds them.
func (b *batchPages) text(pages []report.Page) ([]byte, error) {
	var text bytes.Buffer
	if b.ending == ".pdf" {
		err := b.p.pages().PDF(&text, pages)
		return text.Bytes(), err
	}
	for i, page := range pages {
		if i > 0 {
			text.WriteString("\n\n")
		}
		if err := report.Text(&text, page, report.Style{Width: report.Width, Unicode: true}); err != nil {
			return nil, err
		}
	}
	return text.Bytes(), nil
}

// errOtherYear is a blank of another year than that of the answers.
type errOtherYear struct{ error }

// write writes the pages of a household, and fills its official forms. Where the
// blank is of another year it writes nothing; before any pages are written that is
// an errOtherYear, since the households to come are of the same year.
func (b *batchPages) write(r batchResult) error {
	if b == nil || r.pages == nil {
		return nil
	}
	if err := rightYear(b.edition, r.pages.result); b.blank != nil && err != nil {
		if !b.written {
			return errOtherYear{err}
		}
		return err
	}
	b.written = true
	for _, f := range r.pages.files {
		if err := b.file(f); err != nil {
			return err
		}
	}
	if b.blank == nil || !r.pages.fills() {
		return nil
	}
	_, err := fillForms(r.pages.result, b.blank, filepath.Join(b.dir, visitorName(r.number, r.id)+"-official-form.pdf"), false)
	return err
}

// file writes a file that is not there yet.
func (b *batchPages) file(drawn drawnFile) error {
	path := b.path(drawn.name)
	f, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o600)
	if errors.Is(err, fs.ErrExist) {
		return words.Fail("batch.page_there", "file", path)
	}
	if err != nil {
		return err
	}
	_, err = f.Write(drawn.text)
	return errors.Join(err, f.Close())
}

// note keeps what the summary says of a household.
func (b *batchPages) note(r batchResult) {
	if b == nil {
		return
	}
	if r.pages == nil {
		b.visitors = append(b.visitors, report.Visitor{Name: nameOf(r.number, r.id), Mistake: r.mistake})
		return
	}
	b.visitors = append(b.visitors, r.pages.visitor)
}

// nameOf is a household's name to whoever sent it: its id, or its row.
func nameOf(number int, id string) string {
	if id == "" {
		return visitorName(number, "")
	}
	return id
}

// summary writes what the desk has to see to, in the order of the rows.
func (b *batchPages) summary() error {
	if b == nil {
		return nil
	}
	text, err := b.text([]report.Page{b.p.pages().Desk(b.visitors)})
	if err == nil {
		err = b.file(drawnFile{b.summaryName, text})
	}
	if err != nil {
		return systemFailed(err)
	}
	var first, failed []string
	for _, v := range b.visitors {
		switch {
		case v.Mistake != "":
			failed = append(failed, v.Name)
		case v.LooksWrong():
			first = append(first, v.Name)
		}
	}
	b.p.tell("batch.pages_written", "households", len(b.visitors)-len(failed), "file", b.path(b.summaryName))
	if n := len(failed); n > 0 {
		b.p.tell("batch.pages_failed", "n", n, "rows", report.Some(failed, mostNamed))
	}
	if n := len(first); n > 0 {
		b.p.tell("batch.check_first", "n", n, "rows", report.Some(first, mostNamed))
	}
	return nil
}

// mostNamed is how many rows the last words name.
const mostNamed = 5
