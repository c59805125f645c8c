package main

import (
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"example.com/plumbline/internal/certificate"
	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/payroll"
	"example.com/plumbline/internal/sample"
	"example.com/plumbline/internal/store"
	"example.com/plumbline/internal/tables"
	"example.com/plumbline/internal/tax"
	"example.com/plumbline/internal/words"
	"example.com/plumbline/internal/worksheet"
	"example.com/plumbline/taxtables"
)

const figuresPage = "../../docs/figures.md"

// TestDocFigures writes the register of figures from the traces that the
// computations themselves leave for invented households, and from the yearly
// tables' own citations. Every line that the code can add must be in it.
func TestDocFigures(t *testing.T) {
	var lines register
	households, err := filepath.Glob("../../testdata/*/household.yaml")
	if err != nil {
		t.Fatal(err)
	}
	more, err := filepath.Glob("testdata/figures/*.yaml")
	if err != nil {
		t.Fatal(err)
	}
	// Those with the most lines first: they settle the order.
	for _, name := range append(more, households...) {
		lines.addHousehold(t, name)
	}
	lines.addPaychecks(t)
	for _, id := range lineIDs(t) {
		if lines.at(id) < 0 {
			t.Errorf("no household of the documents leads to the line %s; add one to testdata/figures", id)
		}
	}
	for _, l := range lines {
		if l.Source == "" {
			t.Errorf("the line %s names no source", l.ID)
		}
	}
	keep(t, figuresPage, lines.page(t))
}

// register is every line, each once, with the arithmetic of the first household
// that led to more than nothing.
type register []worksheet.Line

func (r register) at(id string) int {
	return slices.IndexFunc(r, func(l worksheet.Line) bool { return l.ID == id })
}

// add merges a trace: a line that is new comes after the one before it in its
// own trace.
func (r *register) add(trace []worksheet.Line) {
	after := -1
	for _, l := range trace {
		if strings.HasPrefix(l.ID, "plan.") {
			continue // what a plan is compared with, not a line of a form
		}
		i := r.at(l.ID)
		switch {
		case i < 0:
			after++
			*r = slices.Insert(*r, after, l)
			continue
		case (*r)[i].Amount.IsZero() && !l.Amount.IsZero():
			(*r)[i] = l
		}
		after = i
	}
}

func (r *register) addHousehold(t *testing.T, name string) {
	t.Helper()
	text, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	h, _, err := store.Decode(name, text, docsToday)
	if err != nil {
		t.Fatal(err)
	}
	y := sample.Year(t, h.TaxYear)
	sheet := new(worksheet.Sheet)
	certificate.AsFiled(h, y, tax.ByReturn, sheet)
	r.add(sheet.Lines)
	result, err := certificate.Solve(h, y, nil)
	if err != nil {
		t.Fatal(err)
	}
	r.add(result.Trace.Lines)
}

// addPaychecks adds what payroll works out of one paycheck: under today's form,
// under an older one, by the wage bracket tables, and of a bonus.
func (r *register) addPaychecks(t *testing.T) {
	t.Helper()
	y := sample.Year(t, 2026)
	amount := func(text string) money.Amount {
		a, err := money.Parse(text)
		if err != nil {
			t.Fatal(err)
		}
		return a
	}
	check := payroll.Paycheck{Wages: amount("2400"), Frequency: household.Biweekly}
	today := household.Certificate{Credits: amount("500"), OtherIncome: amount("1200"), Deductions: amount("900"), Extra: amount("15")}
	older := household.Certificate{Edition: household.Before2020, Allowances: 2}
	for _, c := range []household.Certificate{today, older} {
		for _, o := range []payroll.Options{{}, {WageBracket: true}} {
			sheet := new(worksheet.Sheet)
			payroll.Withholding(check, &c, y, o, sheet)
			r.add(sheet.Lines)
		}
	}
	for _, b := range []payroll.Bonus{
		{Amount: amount("3000")},
		{Amount: amount("3000"), Treatment: household.WithPaycheck},
		{Amount: amount("1500000")},
	} {
		sheet := new(worksheet.Sheet)
		payroll.OnBonus(check, b, &today, y, payroll.Options{}, sheet)
		r.add(sheet.Lines)
	}
}

// lineIDs are the IDs of lines in the source of the computations.
func lineIDs(t *testing.T) []string {
	t.Helper()
	// A note's code is not a line, and the beginning of an ID is not one either.
	id := regexp.MustCompile(`((?:Note|leaveOut)\()?"((?:tax|form|payroll)\.[a-z0-9_.]*[a-z0-9])"( \+)?`)
	var ids []string
	for _, place := range []string{"tax", "payroll", "certificate"} {
		files, err := filepath.Glob("../../internal/" + place + "/*.go")
		if err != nil {
			t.Fatal(err)
		}
		for _, name := range files {
			if strings.HasSuffix(name, "_test.go") {
				continue
			}
			text, err := os.ReadFile(name)
			if err != nil {
				t.Fatal(err)
			}
			for _, m := range id.FindAllStringSubmatch(string(text), -1) {
				if m[1] == "" && m[3] == "" {
					ids = append(ids, m[2])
				}
			}
		}
	}
	slices.Sort(ids)
	return slices.Compact(ids)
}

// page is the register as a document.
func (r register) page(t *testing.T) string {
	var b strings.Builder
	b.WriteString(`# How each figure is computed

<!-- Written by a test from the code's own citations: change those, not this
     page, and run make docs. -->

Every figure of a result is a line that the computation writes down while it
works: what it is, its arithmetic, and the law or the form that it follows. This
page lists every line that there can be. The arithmetic is an example, taken from
the invented households of this project.

For the figures of your own result, ask the program:

    plumbline tax FILE --why
    plumbline explain FILE 4c

The first list follows the tax return, the second the certificate, the third what
payroll takes from a paycheck. After them come the yearly tables with the source
of each group of figures.
`)
	for _, part := range []struct{ prefix, title string }{
		{"tax.", "The year's income tax"},
		{"form.", "The certificate, Form W-4"},
		{"payroll.", "What payroll withholds"},
	} {
		fmt.Fprintf(&b, "\n## %s\n\n| figure | for instance | source |\n| --- | --- | --- |\n", part.title)
		for _, l := range r {
			if !strings.HasPrefix(l.ID, part.prefix) {
				continue
			}
			figure := "**" + l.Said(words.English()) + "**"
			if l.Form != "" {
				figure += ", " + l.Form
			}
			fmt.Fprintf(&b, "| %s `%s` | %s | %s |\n", cell(figure), l.ID, cell(arithmetic(l)), cell(l.Source))
		}
	}
	for _, year := range tables.Years(taxtables.Files) {
		fmt.Fprintf(&b, "\n## The tables of %d\n\n`plumbline tables show %d` prints every figure. *Found* is seen in print or\nrestated in an article, *derived* follows from a rule, *memory* was recalled and\nnot seen in print.\n\n| group | source | how well known |\n| --- | --- | --- |\n", year, year)
		group, known := "", map[tables.Basis]int{}
		var citation *tables.Citation
		row := func() {
			if group == "" {
				return
			}
			var counts []string
			for _, basis := range []tables.Basis{tables.Found, tables.Derived, tables.Memory, tables.Mixed} {
				if n := known[basis]; n > 0 {
					counts = append(counts, fmt.Sprintf("%d %s", n, basis))
				}
			}
			source := citation.Source
			if citation.Note != "" {
				source += ". *" + strings.TrimSpace(citation.Note) + "*"
			}
			fmt.Fprintf(&b, "| `%s` | %s | %s |\n", group, cell(source), strings.Join(counts, ", "))
		}
		for _, f := range sample.Year(t, year).Figures() {
			if f.Group != group {
				row()
				group, citation = f.Group, f.Citation
				clear(known)
			}
			known[f.Basis]++
		}
		row()
	}
	return b.String()
}

// arithmetic is what a line's amount was made from, and the amount.
func arithmetic(l worksheet.Line) string {
	how, amount := l.How.String(), l.Amount.Grouped()
	switch how {
	case "", amount:
		return amount
	case "as given":
		return amount + ", as given"
	}
	return how + " = " + amount
}

// cell is a text as the cell of a table.
func cell(s string) string { return strings.NewReplacer("|", `\|`, "\n", " ").Replace(s) }
