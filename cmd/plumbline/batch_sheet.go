package main

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"example.com/plumbline/internal/certificate"
	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/roster"
	"example.com/plumbline/internal/store"
	"example.com/plumbline/internal/words"
	"example.com/plumbline/internal/yamldoc"
)

// unknownColumns names every column whose key no answers file has, before a
// household is read: else each row would say it again.
func unknownColumns(sheet *roster.Sheet) error {
	_, _, err := store.Decode("", sheet.Probe(), household.Date{})
	var problems yamldoc.Problems
	errors.As(err, &problems)
	var unknown []error
	for _, p := range problems {
		if p.Unknown() {
			letters, name, _ := sheet.Column(p.Key)
			unknown = append(unknown, words.Fail("batch.unknown_column", "column", letters, "name", name, "what", p.What))
		}
	}
	return errors.Join(unknown...)
}

// mistakes are the mistakes of a household, a line each, with the place of
// each as its sender sees it.
func (p *program) mistakes(sheet *roster.Sheet, number int, err error) string {
	var problems yamldoc.Problems
	if sheet == nil || !errors.As(err, &problems) {
		return p.errorText(err)
	}
	var lines []string
	for _, m := range problems {
		place := words.T("batch.row", "row", number)
		if letters, name, ok := sheet.Column(m.Key); ok {
			place = words.T("batch.cell", "row", number, "column", letters, "name", name)
		} else if m.Key != "" {
			place = words.T("batch.no_column", "row", number, "name", roster.Dotted(m.Key))
		}
		lines = append(lines, p.say("batch.mistake", "place", place, "what", ofCell(m)))
	}
	return strings.Join(lines, "\n")
}

// ofCell is what is wrong with a cell of a spreadsheet, in which dates are written
// otherwise than in an answers file.
func ofCell(m yamldoc.Problem) words.Text {
	if m.Says("answers.date") {
		for _, a := range m.What.Args {
			if typed, ok := a.Value.(string); ok {
				return words.T("batch.date", "text", typed)
			}
		}
	}
	return m.What
}

// The columns of a sheet of results: those of the household, then those of each
// job's certificate.
var (
	resultColumns = []string{"row", "id", "error", "verdict", "sentence", "forms", "balance_now", "balance_then", "projected", "check_first"}
	jobColumns    = []string{"name", "hand_in", "form", "exempt", "filing_status", "2c", "3a", "3b", "3", "4a", "4b", "4c"}
)

// yesOrNo is how a sheet of results says whether a row comes from projected
// figures of the law.
var yesOrNo = map[bool]string{true: "yes", false: "no"}

// jobsOf is how many jobs a spreadsheet has columns for.
func jobsOf(sheet *roster.Sheet) int {
	most := 0
	for _, name := range sheet.Names() {
		if rest, ok := strings.CutPrefix(name, "jobs."); ok {
			index, _, _ := strings.Cut(rest, ".")
			if n, err := strconv.Atoi(index); err == nil && n >= most && n < len(sheet.Names()) {
				most = n + 1
			}
		}
	}
	return most
}

// sheetHead is the header of the results, with its line end.
func sheetHead(sheet *roster.Sheet) []byte {
	cells := slices.Clone(resultColumns)
	for i := range jobsOf(sheet) {
		for _, name := range jobColumns {
			cells = append(cells, fmt.Sprintf("jobs.%d.%s", i, name))
		}
	}
	return append(sheetRow(cells), '\n')
}

// sheetLine is a row of results.
func (p *program) sheetLine(sheet *roster.Sheet) func(number int, id string, r certificate.Result) ([]byte, error) {
	jobs := jobsOf(sheet)
	return func(number int, id string, r certificate.Result) ([]byte, error) {
		v := r.Verdict
		var check []string
		for _, n := range r.CheckFirst {
			check = append(check, n.Said(p.language))
		}
		sentences := make([]string, len(v.Sentences))
		for i, sentence := range v.Sentences {
			sentences[i] = p.language.Say(sentence)
		}
		cells := []string{
			strconv.Itoa(number), id, "", v.Code, strings.Join(sentences, " "), strconv.Itoa(v.Forms),
			r.AsFiled.Balance.String(), r.Recommended.Balance.String(), yesOrNo[r.Projected()], strings.Join(check, " "),
		}
		perJob := make([][]string, jobs)
		for _, c := range r.Recommended.Certificates {
			if c.Job < jobs {
				perJob[c.Job] = certificateCells(c)
			}
		}
		for _, job := range perJob {
			cells = append(cells, job...)
			cells = append(cells, make([]string, len(jobColumns)-len(job))...)
		}
		return sheetRow(cells), nil
	}
}

// certificateCells are a certificate in the order of jobColumns; a line that
// stays empty on the form is an empty cell.
func certificateCells(c certificate.JobCertificate) []string {
	l := c.Lines
	cells := []string{
		c.Name, strconv.FormatBool(!c.Keep), c.Kind.String(), strconv.FormatBool(c.Certificate.Exempt),
		c.Certificate.Status.String(), strconv.FormatBool(c.Certificate.MultipleJobs),
	}
	for _, a := range []money.Amount{l.L3a.Amount, l.L3b.Amount, l.L3.Amount, l.L4a.Amount, l.L4b.Amount, l.L4c.Amount} {
		cell := ""
		if !a.IsZero() {
			cell = a.Text()
		}
		cells = append(cells, cell)
	}
	return cells
}

// sheetFailure is a row of results with the mistakes of its household.
func (p *program) sheetFailure(sheet *roster.Sheet) func(number int, id string, err error) []byte {
	width := len(resultColumns) + jobsOf(sheet)*len(jobColumns)
	return func(number int, id string, err error) []byte {
		cells := make([]string, width)
		cells[0], cells[1], cells[2] = strconv.Itoa(number), id, p.mistakes(sheet, number, err)
		return sheetRow(cells)
	}
}

// sheetRow is a row as CSV, without its line end. A text that a spreadsheet
// would take for a formula gets an apostrophe before it: names and ids come from
// whoever filled in the sheet.
func sheetRow(cells []string) []byte {
	for i, c := range cells {
		if c != "" && strings.ContainsRune("=+-@\t\r", rune(c[0])) {
			if _, err := money.Parse(c); err != nil {
				cells[i] = "'" + c
			}
		}
	}
	var b bytes.Buffer
	w := csv.NewWriter(&b)
	_ = w.Write(cells) // into memory
	w.Flush()
	return bytes.TrimSuffix(b.Bytes(), []byte("\n"))
}
