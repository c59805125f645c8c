package report

import (
	"bytes"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"example.com/plumbline/internal/certificate"
	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/paystub"
	"example.com/plumbline/internal/scenario"
	"example.com/plumbline/internal/tables"
	"example.com/plumbline/internal/words"
	"example.com/plumbline/internal/worksheet"
	"example.com/plumbline/internal/yamldoc"

	"example.com/plumbline/internal/layout"
	"example.com/plumbline/internal/sample"
)

var update = flag.Bool("update", false, "rewrite the golden files")

// TestMain gives the printed pages room.
func TestMain(m *testing.M) {
	sample.CollectLess()
	os.Exit(m.Run())
}

// en writes pages in English.
var en = In(words.English())

var demos = []string{"new-hire", "two-earners", "side-business", "retiree", "new-baby"}

// demo reads a demo household.
func demo(t testing.TB, name string) household.Household {
	t.Helper()
	return read(t, filepath.Join("..", "..", "testdata", name, "household.yaml"))
}

// read reads the household of a file.
func read(t testing.TB, file string) household.Household {
	t.Helper()
	data, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	doc, err := yamldoc.Parse(file, data)
	if err != nil {
		t.Fatal(err)
	}
	var h household.Household
	if problems := doc.Decode(&h); len(problems) > 0 {
		t.Fatal(problems)
	}
	return h
}

// solved is the result for a household, with this year's tables in January.
func solved(t testing.TB, h household.Household) certificate.Result {
	t.Helper()
	r, err := certificate.Solve(h, year(t, h.TaxYear), nil)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

func year(t testing.TB, n int) *tables.Year {
	t.Helper()
	return sample.Year(t, n)
}

// pagesOf are all pages that a result leads to.
func pagesOf(t testing.TB, r certificate.Result) []Page {
	t.Helper()
	pages := []Page{
		en.Certificate(r), en.Certificate(r), en.Plans(r), en.Paydays(r), en.Tax(r.Return, r.Trace, true),
		en.Stubs(paystub.Stubs(r.Household, r.Tables)), en.Comparison(scenario.Compare(r, r), "a.yaml", "b.yaml"),
	}
	pages = append(pages, en.FormPages(r)...)
	pages = append(pages, en.NextFormPages(r)...)
	if reason, ok := r.Trace.Explain("tax.total_tax"); ok {
		pages = append(pages, en.Explanation([]worksheet.Reason{reason}, nil, 0))
	}
	return append(pages, en.Pages(r)...)
}

// asText is pages drawn as text.
func asText(t testing.TB, width int, pages ...Page) string {
	t.Helper()
	var b strings.Builder
	for _, p := range pages {
		if err := Text(&b, p, Style{Width: width}); err != nil {
			t.Fatal(err)
		}
	}
	return b.String()
}

// asMarkdown is pages drawn as Markdown.
func asMarkdown(t testing.TB, pages ...Page) string {
	t.Helper()
	var b strings.Builder
	for _, p := range pages {
		if err := en.Markdown(&b, p); err != nil {
			t.Fatal(err)
		}
	}
	return b.String()
}

// golden holds output against a golden file, which -update rewrites.
func golden(t *testing.T, name, got string) {
	t.Helper()
	file := filepath.Join("testdata", filepath.FromSlash(name))
	if *update {
		if err := os.MkdirAll(filepath.Dir(file), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(file, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal([]byte(got), want) {
		t.Errorf("%s differs; look at it, then run the test with -update\n%s", file, got)
	}
}

func TestGolden(t *testing.T) {
	for _, name := range demos {
		t.Run(name, func(t *testing.T) {
			r := solved(t, demo(t, name))
			for _, width := range []int{80, 60} {
				golden(t, fmt.Sprintf("%s/certificate-%d.txt", name, width), asText(t, width, en.Certificate(r)))
			}
			golden(t, name+"/employers.txt", asText(t, 80, en.FormPages(r)...))
			golden(t, name+"/stubs.txt", asText(t, 80, en.Stubs(paystub.Stubs(r.Household, r.Tables))))
		})
	}
}

func TestGoldenOther(t *testing.T) {
	r := solved(t, demo(t, "two-earners"))
	golden(t, "two-earners/employers.md", asMarkdown(t, en.FormPages(r)...))
	golden(t, "two-earners/plans-60.txt", asText(t, 60, en.Plans(r)))
	golden(t, "two-earners/paydays.txt", asText(t, 80, en.Paydays(r)))

	reason, ok := r.Trace.Explain("tax.total_tax")
	if !ok {
		t.Fatal("no total tax in the trace")
	}
	golden(t, "two-earners/explain-60.txt", asText(t, 60, en.Explanation([]worksheet.Reason{reason}, map[string]string{"income.interest": "340"}, 3)))

	stops := solved(t, scenario.WithJobsEnded(r.Household, household.On(2026, 8, 31), 1))
	golden(t, "two-earners/compare.txt", asText(t, 80, en.Comparison(scenario.Compare(r, stops), "now.yaml", "stops.yaml")))
}

// Results that the demo households do not lead to.
func TestGoldenCases(t *testing.T) {
	tests := []struct {
		name, demo string
		change     func(*household.Household)
	}{
		{"owing", "side-business", func(h *household.Household) { // far more than the paychecks can hold
			h.Income.SelfEmployment.Self = money.Dollars(190_000)
		}},
		{"late", "side-business", func(h *household.Household) { // no paycheck is left
			h.AsOf = household.On(2026, time.December, 28)
			h.Jobs[0].YearToDate = &household.YearToDate{Payday: household.On(2026, time.December, 25), TaxablePay: money.Dollars(63_180), FederalTax: money.Dollars(3_830)}
		}},
		{"over-withheld", "two-earners", func(h *household.Household) { // so that other ways fit
			h.Jobs[0].YearToDate.FederalTax = money.Dollars(14_000)
		}},
		{"private", "two-earners", func(h *household.Household) {
			h.Wish.TellEmployer = household.ExtraOnly
		}},
		{"wrong-stub", "two-earners", func(h *household.Household) { // Step 3 was passed over
			h.Jobs[0].LastPaycheck.FederalTax = h.Jobs[0].LastPaycheck.FederalTax.Add(money.Cents(169_23))
		}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			h := demo(t, tt.demo)
			h.Jobs = slices.Clone(h.Jobs)
			tt.change(&h)
			r := solved(t, h)
			pages := []Page{en.Certificate(r)}
			if tt.name == "wrong-stub" {
				pages = []Page{en.Stubs(paystub.Stubs(h, r.Tables))}
			}
			golden(t, "cases/"+tt.name+".txt", asText(t, 80, pages...))
		})
	}
}

// No line is wider than the page, at any width from the narrowest.
func TestWidth(t *testing.T) {
	for _, name := range demos {
		r := solved(t, demo(t, name))
		for _, width := range []int{40, 41, 60, 80, 132} {
			for line := range strings.Lines(asText(t, width, pagesOf(t, r)...)) {
				if w := layout.Width(strings.TrimSuffix(line, "\n")); w > width {
					t.Errorf("%s: %d columns in a page of %d: %q", name, w, width, line)
				}
			}
		}
	}
}
