package officialform

import (
	"fmt"
	"io/fs"
	"maps"
	"regexp"
	"slices"
	"strings"

	"example.com/plumbline/internal/words"
	"example.com/plumbline/internal/yamldoc"
	"example.com/plumbline/taxtables"
)

// layout is one edition's map from lines to fields, as taxtables/forms holds it.
type layout struct {
	Form         string            `yaml:"form,required"`
	Title        string            `yaml:"title,required"`
	Year         int               `yaml:"year,required"`
	Pages        int               `yaml:"pages,required"`
	Source       string            `yaml:"source,required"`
	Boxes        map[string]box    `yaml:"boxes,required"`
	Lines        map[string]string `yaml:"lines,required"`
	LeftAlone    map[string]string `yaml:"left_alone,required"`
	ExemptByHand bool              `yaml:"exempt_by_hand"` // no box: the word is written below Step 4(c)
}

// box is a check box: its field, and the state that means checked.
type box struct {
	Field string `yaml:"field,required"`
	On    string `yaml:"on,required"`
}

// The boxes by name; those of Step 1(c) have the filing status's.
const (
	multipleJobsBox = "multiple_jobs"
	exemptBox       = "exempt"
)

var statuses = []string{"single", "married_filing_jointly", "head_of_household"}

// layouts reads every edition that the program knows, the latest first.
func layouts() ([]layout, error) {
	names, err := fs.Glob(taxtables.Files, "forms/*.yaml")
	if err != nil {
		return nil, err
	}
	var all []layout
	for _, name := range names {
		data, err := fs.ReadFile(taxtables.Files, name)
		if err != nil {
			return nil, err
		}
		l, err := parseLayout(name, data)
		if err != nil {
			return nil, err
		}
		all = append(all, l)
	}
	slices.SortFunc(all, func(a, b layout) int { return b.Year - a.Year })
	return all, nil
}

// parseLayout reads one edition.
func parseLayout(name string, data []byte) (layout, error) {
	var l layout
	doc, err := yamldoc.Parse(name, data)
	if err != nil {
		return layout{}, err
	}
	if problems := doc.Decode(&l); len(problems) > 0 {
		return layout{}, problems
	}
	return l, nil
}

// Check reports a box that every edition has and this file lacks, and a field
// with two meanings.
func (l *layout) Check(report yamldoc.Report) {
	for _, name := range append([]string{multipleJobsBox}, statuses...) {
		if _, ok := l.Boxes[name]; !ok {
			report("boxes", yamldoc.Said(name+" is missing"))
		}
	}
	switch _, ok := l.Boxes[exemptBox]; {
	case !ok && !l.ExemptByHand:
		report("boxes", yamldoc.Said("exempt is missing; for a form without that box write exempt_by_hand: true"))
	case ok && l.ExemptByHand:
		report("exempt_by_hand", yamldoc.Said("the form has a box to claim exemption; delete this line"))
	}
	fields := l.fields()
	for i := 1; i < len(fields); i++ {
		if fields[i] == fields[i-1] {
			report("", yamldoc.Said("the field "+fields[i]+" is there twice"))
		}
	}
}

// fields is the exact set of the edition's fields, sorted.
func (l layout) fields() []string {
	all := slices.Collect(maps.Values(l.Lines))
	all = slices.AppendSeq(all, maps.Values(l.LeftAlone))
	for _, b := range l.Boxes {
		all = append(all, b.Field)
	}
	slices.Sort(all)
	return all
}

// heading is how the form names its year at the head of its pages.
func (l layout) heading() string { return fmt.Sprintf("%s (%d)", l.Form, l.Year) }

func (l layout) edition() Edition {
	return Edition{Year: l.Year, Title: l.heading() + ", " + l.Title}
}

// setting is what one field is to show.
type setting struct {
	field string
	line  string // the form's line, for errors
	text  string // of a text field; "" empties it
	box   bool
	on    string // of a box: the state that means checked
	check bool
}

// wholeDollars is an amount as it may be on the form.
var wholeDollars = regexp.MustCompile(`^([0-9]+|[0-9]{1,3}(,[0-9]{3})+)$`)

// plan says what every field that belongs to the certificate is to show, in
// the order of the fields' names, with what is left to do by hand. It reports
// every entry that the edition has no place for.
func (l layout) plan(e Entries) ([]setting, []words.Text, error) {
	var wrong, notes []words.Text
	checked := map[string]bool{multipleJobsBox: e.MultipleJobs, exemptBox: e.Exempt}
	switch {
	case e.Exempt:
		// Form W-4 (2026) p. 2, Form W-4 (2025) p. 2, Exemption from withholding:
		// "complete Steps 1(a), 1(b), and 5. Do not complete any other steps."
		if e.MultipleJobs || anyText(e.Lines) {
			wrong = append(wrong, words.T("form.exempt_entries"))
		}
		notes = append(notes, words.T("form.exempt"))
		if l.ExemptByHand {
			notes = append(notes, words.T("form.exempt_by_hand"))
		}
	case slices.Contains(statuses, e.FilingStatus):
		checked[e.FilingStatus] = true
	default:
		wrong = append(wrong, words.T("form.no_status", "status", e.FilingStatus, "names", statuses))
	}

	var out []setting
	for name, b := range l.Boxes {
		out = append(out, setting{field: b.Field, line: name, box: true, on: b.On, check: checked[name]})
	}
	for line, field := range l.Lines {
		out = append(out, setting{field: field, line: line, text: e.Lines[line]})
	}
	slices.SortFunc(out, func(a, b setting) int { return strings.Compare(a.field, b.field) })

	for _, line := range slices.Sorted(maps.Keys(e.Lines)) {
		text := e.Lines[line]
		if _, ok := l.Lines[line]; !ok {
			wrong = append(wrong, words.T("form.no_line", "edition", l.heading(), "line", line))
		} else if text != "" && !wholeDollars.MatchString(text) {
			wrong = append(wrong, words.T("form.not_whole", "line", line, "text", clip(text)))
		}
	}
	if len(wrong) > 0 {
		return nil, nil, words.Fail("form.cannot", "why", wrong)
	}
	return out, notes, nil
}

func anyText(lines map[string]string) bool {
	for _, text := range lines {
		if text != "" {
			return true
		}
	}
	return false
}

// clip keeps a stranger's text short enough for a sentence, with nothing in it
// that steers a terminal.
func clip(s string) string {
	const most = 60
	if r := []rune(s); len(r) > most {
		s = string(r[:most]) + "…"
	}
	return yamldoc.Printable(s)
}
