package main

import (
	"bytes"
	"compress/zlib"
	"encoding/hex"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"
	"testing"

	"example.com/plumbline/internal/certificate"
	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/officialform"
	"example.com/plumbline/internal/report"
	"example.com/plumbline/internal/sample"
	"example.com/plumbline/internal/store"
	"example.com/plumbline/internal/words"
)

// coupleWithIncome have a job each, a child and other income. Their figures are
// such that none is also printed on the form.
const coupleWithIncome = `{"format": 1, "id": "v1", "tax_year": 2026, "as_of": "2026-01-02", "filing_status": "married_filing_jointly",
"jobs": [
 {"name": "Larkspur Clinic", "earner": "self", "pay_frequency": "biweekly", "taxable_pay": "4321.98", "first_payday": "2026-01-09"},
 {"name": "Quillan Print", "earner": "spouse", "pay_frequency": "biweekly", "taxable_pay": "2987.65", "first_payday": "2026-01-09"}],
"dependents": [{"name": "Philippa", "birth_date": "2017-03-04"}], "income": {"interest": "7654", "ordinary_dividends": "3219"}}`

const official2026 = "../../testdata/forms/w4_2026.pdf"

// Every file that goes to an employer, from one household or a batch, as text,
// Markdown, PDF or the official form, tells no name and no figure of another job,
// of other income or of the household. Worksheets are in files of their own.
func TestEmployerFilesTellNothingElse(t *testing.T) {
	r := coupleSolved(t)
	dir := t.TempDir()
	file := filepath.Join(dir, "h.yaml")
	if err := os.WriteFile(file, []byte(strings.Replace(coupleWithIncome, `"id": "v1", `, "", 1)), 0o600); err != nil {
		t.Fatal(err)
	}
	in := func(name string) string { return filepath.Join(dir, name) }
	for _, args := range [][]string{
		{"batch", "--pages", in("text"), "--fill", official2026},
		{"batch", "--pages", in("pdf"), "--pdf", "--fill", official2026},
		{"batch", "--lang", "es", "--pages", in("es")},
		{"certificate", "--fill", official2026, "-o", in("filled.pdf"), file},
	} {
		var said bytes.Buffer
		if status := run(args, strings.NewReader(strings.ReplaceAll(coupleWithIncome, "\n", "")+"\n"), &said, &said); status != exitDone {
			t.Fatalf("%q: status %d: %s", args, status, said.String())
		}
	}
	// What certificate prints holds the pages for the person too. Each page of the
	// Markdown begins with a heading of the first level.
	for n, page := range strings.Split(runOn(t, household.On(2026, 1, 2), "certificate", "--pages", "--markdown", file), "\n# ") {
		if !strings.HasPrefix(page, "Form W-4 (2026), to copy from") {
			continue
		}
		if err := os.WriteFile(in(fmt.Sprintf("form-%d.md", n+1)), []byte(page), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	var files []string
	for _, pattern := range []string{"text/*form*", "pdf/*form*", "es/*form*", "filled*", "form-*.md"} {
		paths, err := filepath.Glob(in(pattern))
		if err != nil {
			t.Fatal(err)
		}
		for _, path := range paths {
			if !strings.Contains(path, "worksheets-for-you") {
				files = append(files, path)
			}
		}
	}
	// Of each of two jobs: from the batches a page and a form each, a page in
	// Spanish, and from the certificate a form and a page.
	if want := 2 * (2 + 2 + 1 + 1 + 1); len(files) != want {
		t.Fatalf("%d files for employers, want %d: %q", len(files), want, files)
	}
	for _, path := range files {
		data, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		own := jobOf(t, r, path, data)
		if extra := own.Lines.L4c.Amount; extra.IsPositive() && !slices.Contains(figuresIn(everyString(data)), extra.GroupedDollars()) {
			t.Errorf("%s: the extra %s is not read, so a leak would not be either", path, extra)
		}
		if found := leaks(t, r, own, data); len(found) > 0 {
			t.Errorf("%s tells %q", path, found)
		}
	}
	person, err := os.ReadFile(in("text/v1.txt"))
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range r.Recommended.Certificates {
		if len(leaks(t, r, c, person)) == 0 {
			t.Errorf("the person's own page tells nothing that %s may not see, so this test could not fail", c.Name)
		}
	}
}

// A leak of one figure or name is found in a file of each kind, and named.
func TestEmployerFileLeakIsNamed(t *testing.T) {
	r := coupleSolved(t)
	own := r.Recommended.Certificates[0]
	page := report.In(words.English()).FormPages(r)[0]
	drawn := func(title string, pdf bool) []byte {
		var b bytes.Buffer
		leaking := page
		leaking.Title = title
		var err error
		if pdf {
			err = report.In(words.English()).PDF(&b, []report.Page{leaking})
		} else {
			err = report.Text(&b, leaking, report.Style{Width: report.Width, Unicode: true})
		}
		if err != nil {
			t.Fatal(err)
		}
		return b.Bytes()
	}
	markdown := func(title string) []byte {
		var b bytes.Buffer
		leaking := page
		leaking.Title = title
		if err := report.In(words.English()).Markdown(&b, leaking); err != nil {
			t.Fatal(err)
		}
		return b.Bytes()
	}
	filled := func(line, amount string) []byte {
		blank, err := os.ReadFile(official2026)
		if err != nil {
			t.Fatal(err)
		}
		e := entriesOf(own, certificate.Result{})
		e.Lines[line] = amount
		form, _, err := officialform.Fill(blank, e)
		if err != nil {
			t.Fatal(err)
		}
		handIn, _, err := officialform.Split(form)
		if err != nil {
			t.Fatal(err)
		}
		return handIn
	}
	for _, tt := range []struct {
		name string
		file []byte
		want []string
	}{
		{"text, nothing", drawn("Form W-4", false), nil},
		{"text, the spouse's pay", drawn("Form W-4, 2,987.65", false), []string{"2,987.65"}},
		{"text, the spouse's employer", drawn("Form W-4, Quillan", false), []string{"Quillan"}},
		{"Markdown, the dividends", markdown("Form W-4, 3219"), []string{"3219"}},
		{"PDF, nothing", drawn("Form W-4", true), nil},
		{"PDF, the interest", drawn("Form W-4, $7,654.", true), []string{"7,654"}},
		{"PDF, the child", drawn("Form W-4, Philippa", true), []string{"Philippa"}},
		{"form, nothing", filled("4c", own.Lines.L4c.Amount.GroupedDollars()), nil},
		{"form, interest and dividends", filled("4a", "10,873"), []string{"10,873"}},
		{"form, the spouse's pay of a year", filled("4b", "77,679"), []string{"77,679"}},
	} {
		if got := leaks(t, r, own, tt.file); !slices.Equal(got, tt.want) {
			t.Errorf("%s: found %q, want %q", tt.name, got, tt.want)
		}
	}
}

// coupleSolved is the result for coupleWithIncome.
func coupleSolved(t *testing.T) certificate.Result {
	t.Helper()
	h, _, err := store.Decode("h.yaml", []byte(coupleWithIncome), household.On(2026, 1, 2))
	if err != nil {
		t.Fatal(err)
	}
	y := sample.Year(t, 2026)
	next, err := sample.Tables(2027)
	if err != nil {
		next = nil
	}
	r, err := certificate.Solve(h, y, next)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// jobOf is the certificate that a file for an employer is about: the one named
// in it or, as the official form names none, in the name of the file.
func jobOf(t *testing.T, r certificate.Result, path string, data []byte) certificate.JobCertificate {
	t.Helper()
	for _, in := range []string{filepath.Base(path), everyString(data)} {
		for _, c := range r.Recommended.Certificates {
			if first, _, _ := strings.Cut(c.Name, " "); strings.Contains(strings.ToLower(in), strings.ToLower(first)) {
				return c
			}
		}
	}
	t.Fatalf("%s is about none of the jobs", path)
	return certificate.JobCertificate{}
}

// leaks are the names and figures in a file that are none of the business of
// the employer whose certificate it is.
func leaks(t *testing.T, r certificate.Result, own certificate.JobCertificate, data []byte) []string {
	t.Helper()
	text := everyString(data)
	allowed := slices.Clone(printedOnTheForm())
	for _, e := range own.Lines.All() {
		allowed = append(allowed, e.Amount.GroupedDollars())
	}
	secret := secretFigures(r, own)
	var found []string
	for _, figure := range figuresIn(text) {
		if slices.Contains(secret, figure) && !slices.Contains(allowed, figure) && !slices.Contains(found, figure) {
			found = append(found, figure)
		}
	}
	for _, name := range secretNames(r.Household, own) {
		if strings.Contains(text, name) {
			found = append(found, name)
		}
	}
	return found
}

// printedOnTheForm are the figures of the blank official form.
var printedOnTheForm = sync.OnceValue(func() []string {
	blank, err := os.ReadFile(official2026)
	if err != nil {
		panic(err)
	}
	return figuresIn(everyString(blank))
})

// secretNames are the words of the other employers' names and of the family's.
func secretNames(h household.Household, own certificate.JobCertificate) []string {
	var names []string
	for i, j := range h.Jobs {
		if i != own.Job {
			names = append(names, strings.Fields(j.Name)...)
		}
	}
	for _, d := range h.Dependents {
		names = append(names, strings.Fields(d.Name)...)
	}
	return names
}

// secretFigures are the figures of the other jobs, of other income and of the
// household's return, in every way that a page might write them.
func secretFigures(r certificate.Result, own certificate.JobCertificate) []string {
	h := r.Household
	amounts := []money.Amount{
		h.Income.Interest, h.Income.OrdinaryDividends, h.Income.Interest.Add(h.Income.OrdinaryDividends),
		r.Return.Wages, r.Return.TotalIncome, r.Return.AdjustedGrossIncome, r.Return.TaxableIncome, r.Return.IncomeTax, r.Return.StandardOrItemized,
		r.AsFiled.TotalTax, r.AsFiled.WithholdingToCome, r.AsFiled.Balance.Abs(), r.Recommended.WithholdingToCome, r.Recommended.Balance.Abs(),
	}
	const paydays = 26
	for i, j := range h.Jobs {
		if i != own.Job {
			amounts = append(amounts, j.OrdinaryPay(), j.OrdinaryPay().Times(paydays))
		}
	}
	for _, c := range r.Recommended.Certificates {
		if c.Job != own.Job {
			amounts = append(amounts, c.Withholding)
			for _, e := range c.Lines.All() {
				amounts = append(amounts, e.Amount)
			}
		}
	}
	var figures []string
	for _, a := range amounts {
		if a.WholeDollars() >= 100 { // smaller ones are found by chance
			figures = append(figures, a.String(), a.Grouped(), a.Text(), a.GroupedDollars(), strconv.FormatInt(a.ToDollar().WholeDollars(), 10))
		}
	}
	return figures
}

var figure = regexp.MustCompile(`\d+(,\d{3})*(\.\d\d)?`)

// figuresIn are the figures that a text shows.
func figuresIn(text string) []string { return figure.FindAllString(text, -1) }

var (
	pdfStream = regexp.MustCompile(`(?s)stream\r?\n(.*?)endstream`)
	pdfString = regexp.MustCompile(`(?s)\(((?:\\.|[^\\()])*)\)|<((?:[0-9A-Fa-f]{2})+)>`)
	pdfEscape = regexp.MustCompile(`(?s)\\([0-7]{3}|.)`)
)

// everyString is a text as it is and, of a PDF, its strings, a line each: those
// of its objects and of its streams, which may be packed (PDF 32000-1:2008, 7.3.4
// and 7.4.4). Strings of two bytes a letter lose their zeros.
func everyString(data []byte) string {
	if !bytes.HasPrefix(data, []byte("%PDF-")) {
		return string(data)
	}
	parts := [][]byte{data}
	for _, m := range pdfStream.FindAllSubmatch(data, -1) {
		if r, err := zlib.NewReader(bytes.NewReader(m[1])); err == nil {
			var unpacked bytes.Buffer
			_, _ = io.Copy(&unpacked, r) // what can be unpacked of it
			parts = append(parts, unpacked.Bytes())
		}
	}
	var text strings.Builder
	for _, part := range parts {
		for _, m := range pdfString.FindAllSubmatch(part, -1) {
			s := pdfEscape.ReplaceAllFunc(m[1], func(e []byte) []byte {
				if n, err := strconv.ParseUint(string(e[1:]), 8, 8); err == nil && len(e) == 4 {
					return []byte{byte(n)}
				}
				return e[1:]
			})
			if len(m[2]) > 0 {
				s, _ = hex.DecodeString(string(m[2])) // the pattern takes digits alone
			}
			text.Write(bytes.ReplaceAll(s, []byte{0}, nil))
			text.WriteByte('\n')
		}
	}
	return text.String()
}
