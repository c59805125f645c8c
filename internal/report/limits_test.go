package report

import (
	"path/filepath"
	"strings"
	"testing"

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
// of the page is on it. Other languages are longer: what is to be done this year is
// there, and January's entries may be below.
func TestFirstScreenHasTheAnswer(t *testing.T) {
	const body = 19
	for file, h := range households(t) {
		r := solved(t, h)
		if len(toHandIn(r.Recommended)) > 2 {
			continue
		}
		for _, l := range words.All() {
			w := In(l)
			p := w.Answer(r)
			p.Title = ""
			lines := Lines(p, Style{Width: 80})
			if len(lines) > body && l == words.English() {
				t.Errorf("%s: %d lines, want at most %d\n%s", file, len(lines), body, asText(t, 80, p))
			}
			first := ""
			for _, l := range lines[:min(body, len(lines))] {
				first += l.Text + "\n"
			}
			due := toHandIn(r.Recommended)
			if len(due) == 0 && r.January != nil && l == words.English() {
				due = toHandIn(r.January.Plan)
			}
			for _, c := range due {
				for _, e := range c.Lines.All() {
					if e.Amount.IsPositive() && !strings.Contains(first, e.Amount.GroupedDollars()) {
						t.Errorf("%s, %s: %s of %s is not on the first screen:\n%s", file, l.Tag(), e.Amount, e.Line, first)
					}
				}
			}
			if !strings.Contains(first, w.balanceCell(r.Recommended.Balance)) {
				t.Errorf("%s, %s: how the year ends is not on the first screen:\n%s", file, l.Tag(), first)
			}
		}
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
