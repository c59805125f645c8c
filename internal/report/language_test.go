package report

import (
	"regexp"
	"strings"
	"testing"

	"example.com/plumbline/internal/layout"
	"example.com/plumbline/internal/sample"
	"example.com/plumbline/internal/words"
)

var invented = In(sample.Invented('Ж', 'ж'))

// englishWord finds words of two letters and more.
var englishWord = regexp.MustCompile(`[a-z]{2,}`)

// The pages of a result say nothing that is not in the file of words, but for the
// names that people gave, nor does their PDF, and nothing is clipped at 80 columns or at 60.
func TestPagesInAnotherLanguage(t *testing.T) {
	for file, h := range households(t) {
		r := solved(t, h)
		var names []string
		for i, j := range h.Jobs {
			names = append(names, shortName(j.Name), "")
			names = append(names, h.JobName(i), "")
		}
		for i := range h.Dependents {
			names = append(names, h.DependentName(i), "")
		}
		nameless := strings.NewReplacer(names...)
		printed := In(sample.Invented('Ø', 'ø')) // which the font has
		text := nameless.Replace(pdfTextIn(t, printed, printed.Handover(r)...))
		if found := englishWord.FindAllString(text, -1); found != nil || strings.Count(text, "ø") < 100 {
			t.Errorf("%s: %q in the PDF: %s", file, found, text)
		}
		for _, p := range append(invented.Pages(r), invented.All(r)) {
			p.mapped(func(s string) string {
				if found := englishWord.FindString(nameless.Replace(s)); found != "" {
					t.Errorf("%s: %q on the page: %q", file, found, s)
				}
				return s
			})
			for _, width := range []int{80, 60} {
				for line := range strings.Lines(asText(t, width, p)) {
					if n := layout.Width(strings.TrimRight(line, "\n")); n > width {
						t.Errorf("%s: %d columns on a page of %d: %q", file, n, width, line)
					}
				}
			}
		}
	}
}

// The plans of two earners are a table at 80 columns in every language, the longer
// ones too, and not one below the other.
func TestPlansAreATable(t *testing.T) {
	r := solved(t, demo(t, "two-earners"))
	for _, l := range words.All() {
		w := In(l)
		head := regexp.MustCompile(`(?m)^` + w.say("page.plans.plan") + ` .* ` + w.say("page.plans.paycheck") + `$`)
		if text := asText(t, 80, w.Plans(r)); !head.MatchString(text) {
			t.Errorf("%s: the plans are no table:\n%s", l.Tag(), text)
		}
	}
}
