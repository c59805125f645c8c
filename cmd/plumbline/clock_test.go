package main

import (
	"bytes"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"example.com/plumbline/internal/bankdays"
	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/published"
	"example.com/plumbline/internal/tables"
	"example.com/plumbline/internal/words"
	"example.com/plumbline/taxtables"
)

// runOn runs a command line with the clock on a day, and expects status 0.
func runOn(t *testing.T, today household.Date, args ...string) string {
	t.Helper()
	return conversation(t, today, "", args...)
}

// through2026 are the yearly tables of which 2026 is the last: with them 2027 and
// 2028 are projected, also once the program has their tables.
func through2026(t *testing.T) fs.FS {
	t.Helper()
	return published.Through(taxtables.Files, 2026)
}

// clockYears are the tables of the years read so far, of through2026: projecting
// one takes a while.
var clockYears = map[int]*tables.Year{}

// conversation is runOn with what is typed, a line each.
func conversation(t *testing.T, today household.Date, typed string, args ...string) string {
	t.Helper()
	var out, errs bytes.Buffer
	p := &program{stdin: strings.NewReader(typed), stdout: &out, stderr: &errs, today: today, language: words.English(), inside: through2026(t), years: clockYears}
	if status := p.run(args); status != exitDone {
		t.Fatalf("%v on %v: status %d: %s", args, today, status, errs.String())
	}
	return out.String()
}

// clockDays are the days of the calendar on which the pages are read: before and
// after Thanksgiving, Christmas and New Year, the ends of exemption (February),
// of the return (April 15) and of two estimated payments.
func clockDays(year int) []household.Date {
	return []household.Date{
		household.On(year, time.November, 26), household.On(year, time.December, 20), household.On(year, time.December, 31),
		household.On(year+1, time.January, 2), household.On(year+1, time.January, 20), household.On(year+1, time.February, 14),
		household.On(year+1, time.April, 10), household.On(year+1, time.June, 15),
	}
}

// employee is a household on a day, with its newest stub.
type employee struct {
	name, status, frequency, first, certificate, more string
	pay, tax                                          int64 // a paycheck
}

var clockPeople = []employee{
	{"short all year", "single", "biweekly", "01-02", "filing_status: married_filing_jointly", "income: {interest: 9000}\n", 3100, 150},
	{"as it should be", "single", "weekly", "01-02", "filing_status: single", "", 1100, 87},
	{"paid at the end of the month", "head_of_household", "monthly", "01-31", "filing_status: single", "dependents: [{name: a, birth_date: 2015-05-05, relationship: child}]\n", 5200, 430},
	{"exempt", "single", "biweekly", "01-09", "exempt: true", "", 600, 0},
	{"exempt with tax to pay", "single", "biweekly", "01-09", "exempt: true", "", 2600, 0},
	{"exempt by a claim of March 2025", "single", "biweekly", "01-09", "exempt: true, counts_from: 2025-03-07", "", 1500, 0},
	{"paid every Friday from January 1 on", "single", "weekly", "01-01", "filing_status: single", "income: {interest: 4000}\n", 1500, 140},
	{"paid twice a month", "head_of_household", "semimonthly", "01-15", "filing_status: single, credits: 2200", "dependents: [{name: a, birth_date: 2010-01-10, relationship: child}]\n", 2600, 150},
}

// file is the answers of a person on a day, without as_of: the clock gives it.
func (p employee) file(t *testing.T, today household.Date) string {
	var f household.Frequency
	if err := f.UnmarshalText([]byte(p.frequency)); err != nil {
		t.Fatal(err)
	}
	var first household.Date
	if err := first.UnmarshalText([]byte(fmt.Sprintf("%d-%s", today.Year, p.first))); err != nil {
		t.Fatal(err)
	}
	j := household.Job{Frequency: f, FirstPayday: first}
	stub := ""
	if n := len(j.Paydays(today.Year)) - len(j.PaydaysAfter(today.Year, today)); n > 0 {
		stub = fmt.Sprintf("    year_to_date: {payday: %v, taxable_pay: %v, federal_tax: %v}\n", j.Paydays(today.Year)[n-1], money.Dollars(p.pay).Times(n), money.Dollars(p.tax).Times(n))
	}
	text := fmt.Sprintf("format: 1\ntax_year: %d\nfiling_status: %s\nself: {birth_date: 1990-06-01}\n%sjobs:\n  - name: Harbor\n    pay_frequency: %s\n    taxable_pay: %d\n    first_payday: %v\n    certificate: {%s}\n%s",
		today.Year, p.status, p.more, p.frequency, p.pay, first, p.certificate, stub)
	name := filepath.Join(t.TempDir(), "answers.yaml")
	if err := os.WriteFile(name, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	return name
}

// dated is a date as pages write it, after words that say what it is for.
var dated = regexp.MustCompile(`(?i)\b(by|paydays? of|payday on|in time for the payday of|before) ((?:January|February|March|April|May|June|July|August|September|October|November|December) \d{1,2}, \d{4})`)

// paidOn is a payday without its year, as the steps name it: the next such day.
var paidOn = regexp.MustCompile(`(?:in time for|first paycheck of (\d{4}) \(|From) ((?:January|February|March|April|May|June|July|August|September|October|November|December) \d{1,2})\b`)

// Whatever the day, the pages say sensible things: what is to be done by a day
// or counts from a payday is still to come, no payday is on a day on which banks
// are closed, and December's errand is named only before December.
func TestClock(t *testing.T) {
	for _, today := range slices.Concat(clockDays(2025), clockDays(2026)) {
		for _, p := range clockPeople {
			t.Run(fmt.Sprintf("%v %s", today, p.name), func(t *testing.T) {
				file := p.file(t, today)
				page := strings.Join(strings.Fields(runOn(t, today, "certificate", "--all", file)), " ")
				checkDates(t, today, page)
				checkPaydays(t, today, page)
				checkClaim(t, today, p, page)
				if strings.Contains(page, "THE OTHER PLANS GOOD TO KNOW") {
					t.Errorf("a heading with nothing under it:\n%s", page)
				}
				if strings.Contains(page, "In December") && today.Month == time.December {
					t.Errorf("In December says what to do in December:\n%s", page)
				}
				if strings.Contains(readFile(t, file), "year_to_date") {
					stub := strings.Join(strings.Fields(runOn(t, today, "stub", file)), " ")
					if strings.Contains(stub, "is not a payday") || strings.Contains(stub, "do not fit together") {
						t.Errorf("the stub of a payday is questioned:\n%s", stub)
					}
				}
			})
		}
	}
}

// checkDates looks at every date of a page that something is to be done by, or
// that is a payday.
func checkDates(t *testing.T, today household.Date, page string) {
	t.Helper()
	for _, m := range dated.FindAllStringSubmatch(page, -1) {
		d, err := time.Parse("January 2, 2006", m[2])
		if err != nil {
			t.Fatal(err)
		}
		day := household.DateOf(d)
		if day.Before(today) && !strings.EqualFold(m[1], "before") {
			t.Errorf("past: %q in\n%s", m[0], page)
		}
		if strings.Contains(strings.ToLower(m[1]), "payday") && !bankdays.Open(day.Civil()) {
			t.Errorf("banks are closed: %q in\n%s", m[0], page)
		}
	}
}

// checkPaydays looks at the paydays that steps name without a year.
func checkPaydays(t *testing.T, today household.Date, page string) {
	t.Helper()
	for _, m := range paidOn.FindAllStringSubmatch(page, -1) {
		year := m[1]
		if year == "" {
			year = strconv.Itoa(today.Year)
		}
		d, err := time.Parse("January 2 2006", m[2]+" "+year)
		if err != nil {
			t.Fatal(err)
		}
		day := household.DateOf(d)
		if day.Before(today) {
			t.Errorf("past: %q in\n%s", m[0], page)
		}
		if !bankdays.Open(day.Civil()) {
			t.Errorf("banks are closed: %q in\n%s", m[0], page)
		}
	}
}

// checkClaim looks at what a page says of a claim to be exempt that ends in
// February: to make it again until then, if it may be of the year before, and
// no longer that it is on file, once one of that year has ended.
func checkClaim(t *testing.T, today household.Date, p employee, page string) {
	t.Helper()
	february := today.Month < time.March
	again := fmt.Sprintf("If you made your claim to be exempt at Harbor before %d, it ends on February 1", today.Year)
	if got, want := strings.Contains(page, again), p.name == "exempt" && february; got != want {
		t.Errorf("told to claim again: %v, want %v\n%s", got, want, page)
	}
	ended := p.name == "exempt by a claim of March 2025" && today.Year > 2025 && !february
	if ended && strings.Contains(page, "has you as exempt") {
		t.Errorf("a claim that has ended is told as one on file:\n%s", page)
	}
}

func readFile(t *testing.T, name string) string {
	t.Helper()
	text, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

// In January of a year that has no tables, and of the year after it, the
// interview runs to its end and says that the figures are projected: for
// somebody who starts a job, and for somebody with a stub and all answers.
func TestInterviewInAYearWithoutTables(t *testing.T) {
	for _, today := range []household.Date{household.On(2027, time.January, 8), household.On(2028, time.January, 10)} {
		t.Run(today.String(), func(t *testing.T) {
			newHire := conversation(t, today, "1\n1\n1\n\n0\n0\n0\n2\nquit\n", "interview", filepath.Join(t.TempDir(), "mine.yaml"), "--plain")
			stub := conversation(t, today, "0\nquit\nquit\n", "interview", clockPeople[0].file(t, today), "--plain")
			for _, page := range []string{newHire, stub} {
				if !strings.Contains(page, "1(c)") {
					t.Errorf("no certificate at the end:\n%s", page)
				}
			}
			if !strings.Contains(strings.ToLower(stub), "projected") {
				t.Errorf("not said to be projected:\n%s", stub)
			}
			checkDates(t, today, strings.Join(strings.Fields(stub), " "))
		})
	}
}

// On January 2 the answers of the old year are carried into a file of the new
// one, before its first payday and without its tables: what has changed, the
// year's amounts with last year's beside them, and then the result. The old file
// stays as it was.
func TestAnswersCarriedOverOnJanuary2(t *testing.T) {
	old := clockPeople[0].file(t, household.On(2026, time.November, 26))
	before := readFile(t, old)
	today := household.On(2027, time.January, 2)
	// Nothing changed; other income and what lowers tax as before; no stub yet.
	out := conversation(t, today, "0\n\n\n2\n\nquit\nquit\n", "interview", old, "--plain")
	for _, want := range []string{"Enter for 9000", "Your Form W-4, 2027", "projected from 2026", "1(c)"} {
		if !strings.Contains(strings.Join(strings.Fields(out), " "), want) {
			t.Errorf("not said: %q in\n%s", want, out)
		}
	}
	if readFile(t, old) != before {
		t.Error("the old file has changed")
	}
	carried := readFile(t, nameInYear(old, 2027))
	for _, want := range []string{"tax_year: 2027", "first_payday: 2027-01-15", "forecast: true", "interest: 9000"} {
		if !strings.Contains(carried, want) {
			t.Errorf("the new file has no %q:\n%s", want, carried)
		}
	}
}

// What is advised in December for the new year is asked about in January, with the
// payment for the old year whose day has not passed; once the form is said to be
// handed in, there is nothing to do. Where the answers of the old year are opened
// again, the new year's next sitting asks about the form that they advise then, if
// that is not on file.
func TestJanuaryAsksAboutTheFormOfDecember(t *testing.T) {
	for _, tt := range []struct {
		answer, says string
		onFile       bool
	}{
		{"1", "Change nothing", true},
		{"2", "Hand in a new form at Harbor", false},
	} {
		file := clockPeople[0].file(t, household.On(2026, time.December, 28))
		on := func(day household.Date, typed string, more ...string) string {
			t.Helper()
			out := conversation(t, day, typed+"quit\nquit\n", append([]string{"interview", file, "--plain"}, more...)...)
			return strings.Join(strings.Fields(out), " ")
		}
		on(household.On(2026, time.December, 28), "0\n")
		// Nothing changed; other income and what lowers tax as before; no stub yet.
		january := on(household.On(2027, time.January, 4), "0\n\n\n2\n"+tt.answer+"\n\n")
		for _, want := range []string{"On December 28, 2026 you were shown a Form W-4 for 2027", "For 2026, you were advised to pay directly to the IRS: about $", "by January 15, 2027", tt.says} {
			if !strings.Contains(january, want) {
				t.Errorf("answer %s: not said: %q in\n%s", tt.answer, want, january)
			}
		}
		if got := strings.Contains(readFile(t, nameInYear(file, 2027)), "counts_from: 2027-01-15"); got != tt.onFile {
			t.Errorf("answer %s: on file from its first payday: %v", tt.answer, got)
		}
		if again := on(household.On(2027, time.January, 6), "0\n2\n", "--year", "2026"); !strings.Contains(again, "Hand in a new form for 2027") {
			t.Fatalf("nothing advised for 2027:\n%s", again)
		}
		next := on(household.On(2027, time.January, 11), "0\n2\n2\n")
		if asked := strings.Contains(next, "On January 6, 2027 you were shown a Form W-4 for 2027"); asked == tt.onFile {
			t.Errorf("answer %s: asked about the form of January 6: %v\n%s", tt.answer, asked, next)
		}
	}
}

func TestNameInYear(t *testing.T) {
	for _, tt := range []struct{ name, want string }{
		{"answers.yaml", "answers-2027.yaml"},
		{"answers-2026.yaml", "answers-2027.yaml"},
		{"my-file.yaml", "my-file-2027.yaml"},
		{"plain", "plain-2027"},
		{filepath.Join("a-2026", "mine.yml"), filepath.Join("a-2026", "mine-2027.yml")},
	} {
		if got := nameInYear(tt.name, 2027); got != tt.want {
			t.Errorf("nameInYear(%q) = %q, want %q", tt.name, got, tt.want)
		}
	}
}
