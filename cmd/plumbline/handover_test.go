package main

import (
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"example.com/plumbline/internal/certificate"
	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/officialform"
	"example.com/plumbline/internal/store"
	"example.com/plumbline/internal/tables"
	"example.com/plumbline/internal/words"
	"example.com/plumbline/internal/yamldoc"
	"example.com/plumbline/taxtables"
)

// Each edition of the form in testdata has a field for every line that its year's
// worksheets give and no other, and claims exemption as its year's table says.
func TestEditionsTakeTheirYears(t *testing.T) {
	files, err := filepath.Glob("../../testdata/forms/w4_*.pdf")
	if err != nil || len(files) == 0 {
		t.Fatal("no blank forms", err)
	}
	for _, file := range files {
		blank, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		edition, err := officialform.Identify(blank)
		if err != nil {
			t.Fatal(file, err)
		}
		y, err := tables.ForYear(taxtables.Files, edition.Year, nil)
		if err != nil {
			t.Fatal(err)
		}
		given := map[string]bool{}
		for _, jobs := range []int{2, 3} {
			e := officialform.Entries{FilingStatus: "single", Lines: worksheetLines(t, y, jobs)}
			if _, _, err := officialform.Fill(blank, e); err != nil {
				t.Errorf("%d, %d jobs: %v", y.Year, jobs, err)
			}
			for line := range e.Lines {
				given[line] = true
			}
		}
		for _, line := range linesOnForm(t, y.Year) {
			if line != "4c" && !given[line] { // 4(c) is what a plan makes it
				t.Errorf("%d: the form has line %s, and no worksheet gives it", y.Year, line)
			}
		}
		_, exempt, err := officialform.Fill(blank, officialform.Entries{Exempt: true})
		if err != nil {
			t.Fatal(err)
		}
		byHand := slices.ContainsFunc(exempt.Notes, func(n words.Text) bool { return strings.Contains(words.English().Say(n), "by hand") })
		if byHand == y.Form.ExemptBox {
			t.Errorf("%d: exemption is written by hand: %t; exempt_box of the table: %t", y.Year, byHand, y.Form.ExemptBox)
		}
	}
}

// linesOnForm are the lines that the map of an edition has.
func linesOnForm(t *testing.T, year int) []string {
	t.Helper()
	name := fmt.Sprintf("forms/w4_%d.yaml", year)
	data, err := fs.ReadFile(taxtables.Files, name)
	if err != nil {
		t.Fatal(err)
	}
	doc, err := yamldoc.Parse(name, data)
	if err != nil {
		t.Fatal(err)
	}
	var lines []string
	for _, key := range doc.Keys() {
		if line, ok := strings.CutPrefix(key, "lines"); ok { // lines.4c, lines["mj.1"]
			lines = append(lines, strings.Trim(strings.TrimPrefix(line, "."), `["]`))
		}
	}
	if !slices.Contains(lines, "4c") || !slices.Contains(lines, "mj.1") {
		t.Fatalf("%s: lines %q", name, lines)
	}
	return lines
}

// worksheetLines are the steps and worksheets of the year's form for somebody with
// so many jobs, a child, interest and more deductions than the standard one.
func worksheetLines(t *testing.T, y *tables.Year, jobs int) map[string]string {
	t.Helper()
	text := fmt.Sprintf(`{"format": 1, "tax_year": %[1]d, "as_of": "%[1]d-01-02", "filing_status": "head_of_household",
		"dependents": [{"name": "Philippa", "birth_date": "%[2]d-03-04"}], "income": {"interest": "7654"}, "deductions": {"mortgage_interest": "31000"}, "jobs": [`,
		y.Year, y.Year-9)
	for i := range jobs {
		text += fmt.Sprintf(`{"name": "job %d", "earner": "self", "pay_frequency": "biweekly", "taxable_pay": "2100", "first_payday": "%d-01-09"},`, i+1, y.Year)
	}
	text = strings.TrimSuffix(text, ",") + "]}"
	h, _, err := store.Decode("h.yaml", []byte(text), household.On(y.Year, 1, 2))
	if err != nil {
		t.Fatal(err)
	}
	r, err := certificate.Solve(h, y, nil)
	if err != nil {
		t.Fatal(err)
	}
	lines := map[string]string{}
	for _, l := range r.Trace.Lines {
		if name, ok := strings.CutPrefix(l.ID, "form."); ok {
			lines[name] = l.Amount.GroupedDollars()
		}
	}
	for _, must := range []string{"3a", "3", "4a", "4b", "mj.4"} {
		if lines[must] == "" {
			t.Fatalf("%d, %d jobs: the form has no line %s in %v", y.Year, jobs, must, lines)
		}
	}
	return lines
}
