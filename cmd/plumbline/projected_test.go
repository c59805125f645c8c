package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/tables"
	"example.com/plumbline/internal/words"
	"example.com/plumbline/taxtables"
)

// With the clock in a year that has no table yet, and in the one after, the
// interview runs to its end and gives a certificate, marked projected. The
// answers are those of a single new hire.
func TestInterviewInProjectedYears(t *testing.T) {
	t.Chdir(t.TempDir())
	for _, year := range []int{2027, 2028} {
		var out, errs bytes.Buffer
		p := &program{
			stdin: strings.NewReader("1\n1\n1\n0\n0\n0\n2\nquit\n"), stdout: &out, stderr: &errs,
			today: household.On(year, time.January, 5), language: words.English(),
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
	y, err := tables.ForYear(taxtables.Files, year, nil)
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
	next, this := file(2027, 8), file(2026, 9)
	january := household.On(2027, time.January, 5)
	said := projectedNote(t, 2027)
	for _, args := range [][]string{
		{"certificate", next}, {"certificate", next, "--all"}, {"tax", next},
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
