package main

import (
	"bytes"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"unicode"

	"example.com/plumbline/internal/certificate"
	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/officialform"
	"example.com/plumbline/internal/store"
	"example.com/plumbline/internal/words"
)

// writePages writes the pages to hand over, and the one for the person alone,
// as one PDF. Each begins on a sheet of its own.
func (p *program) writePages(r certificate.Result, path string, replace bool) error {
	var b bytes.Buffer
	if err := p.pages().PDF(&b, p.pages().Handover(r)); err != nil {
		return systemFailed(err)
	}
	if err := writeFile(path, b.Bytes(), replace); err != nil {
		return err
	}
	p.tell("files.pages", "file", path)
	return nil
}

// filledForm is the official form filled for one job.
type filledForm struct {
	job, path  string // the page to hand in
	worksheets string // for the person alone; empty when there are none
	notes      []words.Text
}

// fillForms fills a blank official form for each job with a certificate to
// hand in, and writes each copy: to path when there is one, else to path with
// the job's name before its ending.
func (p *program) fillForms(r certificate.Result, blankPath, path string, replace bool) error {
	blank, err := readBlank(blankPath)
	if err != nil {
		return err
	}
	filled, err := fillForms(r, blank, path, replace)
	if err != nil {
		return err
	}
	for _, f := range filled {
		p.tell("files.filled", "file", f.path, "job", f.job)
		if f.worksheets != "" {
			p.tell("files.worksheets", "file", f.worksheets)
		}
		for _, note := range f.notes {
			p.tellText(note)
		}
	}
	return nil
}

func fillForms(r certificate.Result, blank []byte, path string, replace bool) ([]filledForm, error) {
	edition, err := officialform.Identify(blank)
	if err != nil {
		return nil, wrongAnswers(err)
	}
	if err := rightYear(edition, r); err != nil {
		return nil, err
	}
	var due []certificate.JobCertificate
	for _, jc := range r.Recommended.Certificates {
		if !jc.Keep && jc.Kind == household.Wages {
			due = append(due, jc)
		}
	}
	if len(due) == 0 {
		return nil, wrongAnswers(words.Fail("form.none_due"))
	}
	var written []filledForm
	for i, jc := range due {
		pdf, ed, err := officialform.Fill(blank, entriesOf(jc, r))
		if err != nil {
			return written, wrongAnswers(fmt.Errorf("%s: %w", jc.Name, err))
		}
		to := path
		if len(due) > 1 {
			ext := filepath.Ext(path)
			to = fmt.Sprintf("%s-%d-%s%s", strings.TrimSuffix(path, ext), i+1, fileWord(jc.Name), ext)
		}
		done := filledForm{job: jc.Name, path: to, notes: ed.Notes}
		handIn, worksheets, err := officialform.Split(pdf)
		if err != nil {
			return written, wrongAnswers(fmt.Errorf("%s: %w", jc.Name, err))
		}
		if err := writeFile(to, handIn, replace); err != nil {
			return written, err
		}
		if worksheets != nil {
			ext := filepath.Ext(to)
			done.worksheets = strings.TrimSuffix(to, ext) + "-worksheets-for-you" + ext
			if err := writeFile(done.worksheets, worksheets, replace); err != nil {
				return written, err
			}
		}
		written = append(written, done)
	}
	return written, nil
}

// rightYear refuses a blank of another year than that of the answers.
func rightYear(edition officialform.Edition, r certificate.Result) error {
	if edition.Year == r.TaxYear {
		return nil
	}
	return wrongAnswers(words.Fail("form.other_year", "form", strconv.Itoa(edition.Year), "year", strconv.Itoa(r.TaxYear)))
}

// entriesOf is a certificate as the official form's lines; lines without an
// amount stay empty. A worksheet is filled where an entry came from it.
func entriesOf(jc certificate.JobCertificate, r certificate.Result) officialform.Entries {
	c := jc.Certificate
	e := officialform.Entries{FilingStatus: c.Status.String(), MultipleJobs: c.MultipleJobs, Exempt: c.Exempt, Lines: map[string]string{}}
	if c.Exempt {
		return e
	}
	for _, entry := range jc.Lines.All() {
		if entry.Amount.IsPositive() {
			e.Lines[entry.Line] = entry.Amount.GroupedDollars()
		}
	}
	for _, l := range r.Worksheets(jc) {
		e.Lines[strings.TrimPrefix(l.ID, "form.")] = l.Amount.GroupedDollars()
	}
	return e
}

// fileWord is a name made fit for a file's name.
func fileWord(name string) string {
	const most = 30
	word := strings.FieldsFunc(strings.ToLower(name), func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) })
	s := strings.Join(word, "-")
	if r := []rune(s); len(r) > most {
		s = string(r[:most])
	}
	if s == "" {
		return "job"
	}
	return s
}

// readBlank reads the blank form, up to a byte more than a form can have.
func readBlank(path string) ([]byte, error) {
	info, err := os.Stat(path)
	if err != nil {
		return nil, systemFailed(err)
	}
	if !info.Mode().IsRegular() {
		return nil, wrongUsage(words.Fail("form.no_file", "file", path))
	}
	f, err := os.Open(path)
	if err != nil {
		return nil, systemFailed(err)
	}
	defer f.Close()
	blank, err := io.ReadAll(io.LimitReader(f, officialform.MaxSize+1))
	if err != nil {
		return nil, systemFailed(err)
	}
	return blank, nil
}

// writeFile writes a result for its owner's eyes only, whole or not at all. A
// file that is there already stays, unless it is to be replaced.
func writeFile(path string, data []byte, replace bool) error {
	switch info, err := os.Lstat(path); {
	case err != nil:
	case !replace:
		return withHint(wrongUsage(words.Fail("files.there_already", "file", path)), "files.name_or_force")
	case !info.Mode().IsRegular():
		return withHint(wrongUsage(words.Fail("files.no_plain_file", "file", path)), "files.other_name")
	case store.HoldsAnswers(path):
		return withHint(wrongUsage(words.Fail("files.holds_answers", "file", path)), "files.other_name")
	}
	if err := store.WriteFile(path, data); err != nil {
		return systemFailed(err)
	}
	return nil
}
