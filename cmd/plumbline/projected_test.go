package main

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/tables"
	"example.com/plumbline/internal/words"
)

// With the clock in a year that has no table yet, and in the one after, the
// interview runs to its end and gives a certificate, marked projected. The
// answers are those of a single new hire.
func TestInterviewInProjectedYears(t *testing.T) {
	t.Chdir(t.TempDir())
	for _, year := range []int{2027, 2028} {
		var out, errs bytes.Buffer
		p := &program{
			stdin: strings.NewReader("1\n1\n1\n\n0\n0\n0\n2\nquit\n"), stdout: &out, stderr: &errs,
			today: household.On(year, time.January, 5), language: words.English(), inside: through2026(t),
		}
		file := fmt.Sprintf("answers-%d.yaml", year)
		status := p.run([]string{"interview", file, "--plain"})
		if said := strings.Join(strings.Fields(out.String()), " "); status != exitDone || !strings.Contains(said, projectedNote(t, year)) {
			t.Errorf("%d: status %d, %s\n%s", year, status, errs.String(), out.String())
		}
	}
}

// projectedNote is what a page of a projected year says at its top.
func projectedNote(t *testing.T, year int) string {
	t.Helper()
	y, err := tables.ForYear(through2026(t), year, nil)
	if err != nil {
		t.Fatal(err)
	}
	return words.English().Say(words.T("page.projected", "year", year, "from", 2026, "rise", y.Projected.Rise))
}

// Every page of a projected year says so once, at the top; JSON says it in
// "projected". A published year with a projected January says it there alone.
func TestProjectedPages(t *testing.T) {
	const answers = "format: 1\ntax_year: %d\nfiling_status: single\njobs:\n  - {name: Mill, pay_frequency: biweekly, taxable_pay: 2000, first_payday: %d-01-0%d, certificate: {filing_status: single}}\n"
	file := func(year, day int) string {
		name := filepath.Join(t.TempDir(), "answers.yaml")
		if err := os.WriteFile(name, fmt.Appendf(nil, answers, year, year, day), 0o600); err != nil {
			t.Fatal(err)
		}
		return name
	}
	withStub := func(year, day int) string {
		name := file(year, day)
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		last := fmt.Appendf(nil, ", last_paycheck: {payday: %d-01-0%d, taxable_pay: 2000, federal_tax: 150}, certificate", year, day)
		if err := os.WriteFile(name, bytes.Replace(text, []byte(", certificate"), last, 1), 0o600); err != nil {
			t.Fatal(err)
		}
		return name
	}
	next, this := file(2027, 8), file(2026, 9)
	january := household.On(2027, time.January, 5)
	said := projectedNote(t, 2027)
	for _, args := range [][]string{
		{"certificate", next},
		{"certificate", next, "--all"},
		{"tax", next},
		{"explain", next, "total_tax"},
		{"explain", next, "1c"},
		{"compare", next, next},
		{"compare", this, next},
		{"compare", next, this},
		{"stub", withStub(2027, 8)},
		{"paycheck", "--year", "2027", "--pay", "2000", "--frequency", "biweekly"},
		{"tables", "show", "2027"},
	} {
		text := strings.Join(strings.Fields(runOn(t, january, args...)), " ")
		if n := strings.Count(text, said); n != 1 {
			t.Errorf("%v: said %d times", args, n)
		}
	}
	if text := runOn(t, household.On(2026, time.July, 1), "tax", this); strings.Contains(text, "projected") {
		t.Error("a published year is said to be projected")
	}
	paycheck := []string{"paycheck", "--pay", "2000", "--frequency", "biweekly", "--json", "--year"}
	for _, tt := range []struct {
		args      []string
		projected bool
	}{
		{[]string{"tax", next, "--json"}, true},
		{[]string{"tax", this, "--json"}, false},
		{append(slices.Clone(paycheck), "2027"), true},
		{append(slices.Clone(paycheck), "2026"), false},
		{[]string{"explain", next, "total_tax", "--json"}, true},
		{[]string{"explain", this, "total_tax", "--json"}, false},
		{[]string{"compare", this, next, "--json"}, true},
		{[]string{"compare", this, this, "--json"}, false},
		{[]string{"stub", withStub(2027, 8), "--json"}, true},
		{[]string{"stub", withStub(2026, 9), "--json"}, false},
	} {
		var v struct{ Projected bool }
		text := strings.TrimSpace(runOn(t, january, tt.args...))
		text = strings.TrimSuffix(strings.TrimPrefix(text, "["), "]") // explain's list has one chain
		if err := json.Unmarshal([]byte(text), &v); err != nil || v.Projected != tt.projected {
			t.Errorf("%v: projected %v, %v", tt.args, v.Projected, err)
		}
	}
	type result struct {
		Projected bool
		January   struct {
			Projected  bool
			TablesYear int `json:"tables_year"`
		}
	}
	for _, tt := range []struct {
		file      string
		today     household.Date
		projected bool
	}{{this, household.On(2026, time.July, 1), false}, {next, january, true}} {
		var r result
		if err := json.Unmarshal([]byte(runOn(t, tt.today, "certificate", tt.file, "--json")), &r); err != nil {
			t.Fatal(err)
		}
		if r.Projected != tt.projected || !r.January.Projected || r.January.TablesYear != 2026 {
			t.Errorf("on %v: %+v", tt.today, r)
		}
	}
}

// A sheet of results says in each row whether it comes from projected figures;
// a row with a mistake says nothing.
func TestProjectedRows(t *testing.T) {
	const sheet = "id,tax_year,filing_status,jobs.0.pay_frequency,jobs.0.taxable_pay\n" +
		"a,2026,single,biweekly,2400\nb,2027,single,biweekly,2400\nc,2027,single,biweekly,much\n"
	var out, errs bytes.Buffer
	p := &program{
		stdin: strings.NewReader(sheet), stdout: &out, stderr: &errs,
		today: household.On(2026, time.December, 1), language: words.English(), inside: through2026(t),
	}
	if status := p.run([]string{"batch", "--csv"}); status != exitAnswers {
		t.Fatalf("status %d: %s", status, &errs)
	}
	rows, err := csv.NewReader(&out).ReadAll()
	if err != nil || len(rows) != 4 {
		t.Fatalf("%d rows, %v", len(rows), err)
	}
	column := slices.Index(rows[0], "projected")
	if column < 0 {
		t.Fatalf("no column for it: %q", rows[0])
	}
	for i, want := range []string{"no", "yes", ""} {
		if got := rows[i+1][column]; got != want {
			t.Errorf("row %s: %q, want %q", rows[i+1][1], got, want)
		}
	}
}
