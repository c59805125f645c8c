package report

import (
	"path/filepath"
	"strings"
	"testing"

	"example.com/plumbline/internal/certificate"
	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/words"
)

// households are all of the project's demonstration households and those that
// its documents are made from.
func households(t *testing.T) map[string]household.Household {
	t.Helper()
	all := map[string]household.Household{}
	for _, pattern := range []string{"../../testdata/*/household.yaml", "../../cmd/plumbline/testdata/figures/*.yaml"} {
		files, err := filepath.Glob(pattern)
		if err != nil || len(files) == 0 {
			t.Fatal("no households", err)
		}
		for _, file := range files {
			all[file] = read(t, file)
		}
	}
	return all
}

// The usual page has at most sixty lines for up to two forms, and a dozen more
// for each further job.
func TestPageIsShort(t *testing.T) {
	const most, more = 60, 12
	for file, h := range households(t) {
		r := solved(t, h)
		limit := most + more*max(len(r.Recommended.Certificates)-2, 0)
		if n := strings.Count(asText(t, 80, en.Certificate(r)), "\n"); n > limit {
			t.Errorf("%s: %d lines, want at most %d\n%s", file, n, limit, asText(t, 80, en.Certificate(r)))
		}
	}
}

// The first screen of 80 columns and 24 lines, of which the head and the keys
// take five, has every entry to write and how the year ends, for up to two
// forms; where nothing is handed in this year, January's entries. In English all
// of the page is on it. That of 60 columns and 20 lines has the verdict, which says
// how the year ends, and every entry of one form.
func TestFirstScreenHasTheAnswer(t *testing.T) {
	for _, size := range []struct{ width, body, forms int }{{80, 19, 2}, {60, 13, 1}} {
		for file, h := range households(t) {
			r := solved(t, h)
			if len(toHandIn(r.Recommended)) > size.forms {
				continue
			}
			for _, l := range words.All() {
				firstScreenHasTheAnswer(t, file, r, l, size.width, size.body)
			}
		}
	}
}

func firstScreenHasTheAnswer(t *testing.T, file string, r certificate.Result, l *words.Language, width, body int) {
	t.Helper()
	w := In(l)
	p := w.Answer(r)
	p.Title = ""
	lines := Lines(p, Style{Width: width})
	if len(lines) > body && width == 80 && l == words.English() {
		t.Errorf("%s: %d lines, want at most %d\n%s", file, len(lines), body, asText(t, width, p))
	}
	first := ""
	for _, l := range lines[:min(body, len(lines))] {
		first += l.Text + "\n"
	}
	due := toHandIn(r.Recommended)
	if len(due) == 0 && r.January != nil {
		due = toHandIn(r.January.Plan)
	}
	for _, c := range due {
		for _, e := range c.Lines.All() {
			if e.Amount.IsPositive() && !strings.Contains(first, e.Amount.GroupedDollars()) {
				t.Errorf("%s, %s, %d columns: %s of %s is not on the first screen:\n%s", file, l.Tag(), width, e.Amount, e.Line, first)
			}
		}
	}
	ends := w.balanceCell(r.Recommended.Balance)
	if width < 80 {
		ends = w.verdict(r)
	}
	if !strings.Contains(strings.Join(strings.Fields(first), " "), ends) {
		t.Errorf("%s, %s, %d columns: how the year ends is not on the first screen:\n%s", file, l.Tag(), width, first)
	}
}

// Nothing is said of a plan on the page of another: a certificate that stays has
// no page to copy from.
func TestPagesOfAResult(t *testing.T) {
	for file, h := range households(t) {
		r := solved(t, h)
		count := map[Kind]int{}
		for _, p := range en.Pages(r) {
			count[p.Kind]++
			if n := strings.Count(asText(t, 80, p), "\n"); n < 5 {
				t.Errorf("%s: %q has %d lines", file, p.Title, n)
			}
		}
		if count[AnswerPage] != 1 || count[FormPage] != len(toHandIn(r.Recommended)) {
			t.Errorf("%s: pages %v", file, count)
		}
		if (r.January == nil || r.January.NothingToHandIn()) != (count[JanuaryPage] == 0) {
			t.Errorf("%s: January %v, and %d pages of it", file, r.January != nil, count[JanuaryPage])
		}
	}
}
