package words_test

import (
	"errors"
	"fmt"
	"strings"
	"testing"
	"time"

	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/words"
)

type day struct{ y, m, d int }

func (d day) Civil() (int, time.Month, int) { return d.y, time.Month(d.m), d.d }

const sample = `
language:
  list: {and: "{rest} and {last}", or: "{rest} or {last}"}
  date: {full: "{month} {day}, {year}", day: "{month} {day}"}
  month: {7: July}
test:
  plain: Nothing to hand in.
  amount: "{a} {a:dollars} {a:cents} {a:whole}"
  rate: "{r}"
  day: "{d} | {d:day} | {d:numeric}"
  plural: "On {n, plural, =0 {no paycheck} one {# paycheck} other {# paychecks}}."
  select: "your {kind, select, pension {payment of {n, plural, one {# dollar} other {# dollars}}} other {paycheck}}"
  list: "{l} / {l:or}"
  nested: "{job:capital} pays."
  job: your {which} job
  line: "Step {line:step}"
  brace: a {{brace}
  error: "no: {err}"
`

func TestSay(t *testing.T) {
	l := words.Read("xx", sample)
	if _, err := l.Codes(); err != nil {
		t.Fatal(err)
	}
	tests := []struct {
		text words.Text
		want string
	}{
		{words.Text{}, ""},
		{words.T("test.plain"), "Nothing to hand in."},
		{words.T("test.amount", "a", money.MustParse("1234.56")), "1,234.56 $1,235 $1,234.56 1,235"},
		{words.T("test.amount", "a", money.MustParse("-0.4")), "-0.40 $0 -$0.40 0"},
		{words.T("test.rate", "r", money.Percent(22)), "22%"},
		{words.T("test.day", "d", day{2026, 7, 10}), "July 10, 2026 | July 10 | 2026-07-10"},
		{words.T("test.plural", "n", 0), "On no paycheck."},
		{words.T("test.plural", "n", 1), "On 1 paycheck."},
		{words.T("test.plural", "n", 1200), "On 1,200 paychecks."},
		{words.T("test.select", "kind", "wages", "n", 2), "your paycheck"},
		{words.T("test.select", "kind", "pension", "n", 2), "your payment of 2 dollars"},
		{words.T("test.line", "line", "4c"), "Step 4(c)"}, // as Form W-4 prints it
		{words.T("test.line", "line", "3"), "Step 3"},
		{words.T("test.list", "l", []string{}), " / "},
		{words.T("test.list", "l", []string{"a"}), "a / a"},
		{words.T("test.list", "l", []string{"a", "b", "c"}), "a, b and c / a, b or c"},
		{words.T("test.nested", "job", words.T("test.job", "which", "second")), "Your second job pays."},
		{words.T("test.brace"), "a {brace}"},
		{words.T("test.error", "err", words.Fail("test.plain")), "no: Nothing to hand in."},
		{words.T("test.absent"), "[test.absent]"},
		{words.T("absent"), "[absent]"},
		{words.T("test.rate"), "{r}"},
		{words.T("test.job").With("which", "first"), "your first job"},
	}
	for _, tt := range tests {
		if got := l.Say(tt.text); got != tt.want {
			t.Errorf("%v\n got %q\nwant %q", tt.text, got, tt.want)
		}
	}
}

func TestMappedChangesLiteralsAlone(t *testing.T) {
	l := words.Read("xx", sample).Mapped("yy", strings.ToUpper)
	got := l.Say(words.T("test.plural", "n", 2))
	if want := "ON 2 PAYCHECKS."; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}

func TestErrorWordsAWrappedProblem(t *testing.T) {
	l := words.Read("xx", sample)
	err := fmt.Errorf("reading: %w", words.Fail("test.plain"))
	if got, want := l.Error(err), "Nothing to hand in."; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
	if got := l.Error(errors.New("disk full")); got != "disk full" {
		t.Errorf("got %q", got)
	}
}

func TestMistakesInAFile(t *testing.T) {
	tests := []struct{ entry, want string }{
		{"{a", "a place is not closed"},
		{"{}", "a place has no name"},
		{"{a, count, other {b}}", "want plural or select"},
		{"{a, plural, one {b}}", "the last case must be other"},
		{"{a, plural, other {b}", "is not closed"},
		{"{a, select, other {b", "a case is not closed"},
	}
	for _, tt := range tests {
		_, err := words.Read("xx", "test:\n  a: \""+tt.entry+"\"\n").Codes()
		if err == nil || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("%s: error %v, want %q", tt.entry, err, tt.want)
		}
	}
}

// A job may be "el empleo de su cónyuge": de and a before its name would have to
// join the article, so no Spanish sentence puts them there.
func TestSpanishJoinsNoArticle(t *testing.T) {
	spanish, ok := words.In("es")
	if !ok {
		t.Fatal("no Spanish")
	}
	codes, err := spanish.Codes()
	if err != nil {
		t.Fatal(err)
	}
	const name = "el empleo"
	named := 0
	for _, code := range codes {
		said := spanish.Say(words.T(code, "here", name, "job", name, "jobs", []string{name}))
		if strings.Contains(said, name) {
			named++
		}
		for _, wrong := range []string{"de " + name, " a " + name} {
			// The ones that are asked about are persons, whose names begin with su or la.
			if strings.Contains(said, wrong) && !strings.HasPrefix(code, "question.dependents[]") && !strings.HasPrefix(code, "question.interview.person.") {
				t.Errorf("%s: %s", code, said)
			}
		}
	}
	if named < 50 {
		t.Errorf("only %d sentences name a job", named)
	}
}
