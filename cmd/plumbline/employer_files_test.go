package main

import (
	"bytes"
	"compress/zlib"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// Every file that goes to an employer, written for one household or by a batch,
// as text or on the official form, names nothing of the other job, of other
// income or of the household. Worksheets are in files of their own, which do.
func TestEmployerFilesTellNothingElse(t *testing.T) {
	const household = `{"format": 1, "id": "v1", "tax_year": 2026, "as_of": "2026-01-02", "filing_status": "married_filing_jointly",
"jobs": [
 {"name": "Larkspur Clinic", "earner": "self", "pay_frequency": "biweekly", "taxable_pay": "4321.98", "first_payday": "2026-01-09"},
 {"name": "Quillan Print", "earner": "spouse", "pay_frequency": "biweekly", "taxable_pay": "2987.65", "first_payday": "2026-01-09"}],
"dependents": [{"name": "Philippa", "birth_date": "2017-03-04"}], "income": {"interest": "7654", "ordinary_dividends": "3219"}}`
	own := [2]string{"Larkspur", "Quillan"}
	never := []string{"Philippa", "2017", "7,654", "7654", "3,219", "10,873", "4,321", "2,987", "112,371", "77,678", "190,050", "200,923"}
	blank, err := filepath.Abs("../../testdata/forms/w4_2026.pdf")
	if err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	file := filepath.Join(dir, "h.yaml")
	if err := os.WriteFile(file, []byte(strings.Replace(household, `"id": "v1", `, "", 1)), 0o600); err != nil {
		t.Fatal(err)
	}
	pages, filled := filepath.Join(dir, "pages"), filepath.Join(dir, "filled-official-form.pdf")
	for _, args := range [][]string{
		{"batch", "--pages", pages, "--fill", blank},
		{"certificate", "--fill", blank, "-o", filled, file},
	} {
		var said bytes.Buffer
		if status := run(args, strings.NewReader(strings.ReplaceAll(household, "\n", "")+"\n"), &said, &said); status != exitDone {
			t.Fatalf("%q: status %d: %s", args, status, said.String())
		}
	}
	forms := 0
	for _, pattern := range []string{"pages/*form*", "filled*"} {
		paths, err := filepath.Glob(filepath.Join(dir, pattern))
		if err != nil {
			t.Fatal(err)
		}
		for _, path := range paths {
			data, err := os.ReadFile(path)
			if err != nil {
				t.Fatal(err)
			}
			text := everyString(data)
			if strings.Contains(path, "for-you") {
				continue
			}
			forms++
			for _, fact := range never {
				if strings.Contains(text, fact) {
					t.Errorf("%s tells %q", filepath.Base(path), fact)
				}
			}
			if name := strings.ToLower(path + text); strings.Contains(name, strings.ToLower(own[0])) && strings.Contains(text, own[1]) ||
				strings.Contains(name, strings.ToLower(own[1])) && strings.Contains(text, own[0]) {
				t.Errorf("%s names both employers", filepath.Base(path))
			}
		}
	}
	if forms != 6 { // of each job a page and a form from the batch, and a form by itself
		t.Errorf("%d files for employers, want 6", forms)
	}
	person, err := os.ReadFile(filepath.Join(pages, "v1.txt"))
	if err != nil {
		t.Fatal(err)
	}
	if text := string(person); !strings.Contains(text, own[0]) || !strings.Contains(text, own[1]) {
		t.Error("the person's own page does not name both employers, so this test could not fail")
	}
}

var pdfStream = regexp.MustCompile(`(?s)stream\r?\n(.*?)endstream`)

// everyString is a file as it is and, of a PDF, what its streams unpack to.
func everyString(data []byte) string {
	text := bytes.NewBuffer(bytes.Clone(data))
	for _, m := range pdfStream.FindAllSubmatch(data, -1) {
		if r, err := zlib.NewReader(bytes.NewReader(m[1])); err == nil {
			_, _ = io.Copy(text, r)
		}
	}
	return text.String()
}
