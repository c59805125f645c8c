package yamldoc

import (
	"regexp"
	"strconv"
	"strings"
	"unicode/utf8"

	"example.com/plumbline/internal/words"
)

var libraryError = regexp.MustCompile(`^yaml: (?:line (\d+): )?(.*)$`)

// unknownAlias is an error that the library gives without a line.
var unknownAlias = regexp.MustCompile(`unknown anchor '(.*)' referenced`)

// fromZero are the errors whose lines the library counts from 0.
var fromZero = regexp.MustCompile(`^did not find expected (key|'-'|node content|',' or|<document start>)`)

// wordings replaces the library's terms by what to do. The first that the
// library's text contains is taken.
var wordings = []struct {
	theirs string
	ours   words.Text
}{
	{"several documents", words.T("yaml.form.several")},
	{"mapping values are not allowed", words.T("yaml.form.colon")},
	{"did not find expected key", words.T("yaml.form.key")},
	{"did not find expected '-' indicator", words.T("yaml.form.dash")},
	{"block sequence entries are not allowed", words.T("yaml.form.element")},
	{"could not find expected ':'", words.T("yaml.no_colon")},
	{"did not find expected ',' or", words.T("yaml.form.bracket")},
	{"found unexpected end of stream", words.T("yaml.form.quote")},
	{"found unexpected document indicator", words.T("yaml.form.quote")},
	{"found unknown escape character", words.T("yaml.form.escape")},
	{"invalid Unicode character escape", words.T("yaml.form.no_character")},
	{"found character that cannot start any token", words.T("yaml.form.reserved")},
	{"alphabetic or numeric character", words.T("yaml.form.star")},
	{"did not find expected node content", words.T("yaml.form.no_value")},
	{"did not find expected <document start>", words.T("yaml.form.start")},
	{"exceeded max depth", words.T("yaml.form.deep")},
	{"tag", words.T("yaml.tag", "name", "!name")},
}

// explain reports a text that the library cannot read.
func (p *parser) explain(data []byte, err error) {
	lines := strings.Split(string(data), "\n")
	if name := unknownAlias.FindStringSubmatch(err.Error()); name != nil {
		for i, line := range lines {
			if at := strings.Index(line, "*"+name[1]); at >= 0 {
				p.report(i+1, utf8.RuneCountInString(line[:at])+1, "", words.T("yaml.alias", "name", name[1]))
				return
			}
		}
	}
	indent := func(line string) string { return line[:len(line)-len(strings.TrimLeft(line, " \t"))] }
	// A tab that indents a line is the usual cause, and the library names it
	// for a character it is not.
	for i, line := range lines {
		if in := indent(line); len(in) < len(line) && strings.Contains(in, "\t") {
			p.report(i+1, strings.Index(in, "\t")+1, "", words.T("yaml.tab"))
		}
		if len(p.problems) == 10 {
			return
		}
	}
	if len(p.problems) > 0 {
		return
	}
	line, what := 1, words.T("yaml.not_yaml")
	if m := libraryError.FindStringSubmatch(err.Error()); m != nil {
		if n, err := strconv.Atoi(m[1]); err == nil {
			line = n
			if fromZero.MatchString(m[2]) {
				line++
			}
			line = max(1, min(line, len(lines)))
		}
		what = words.T("yaml.not_yaml_because", "why", m[2])
		for _, w := range wordings {
			if strings.Contains(m[2], w.theirs) {
				what = w.ours
				break
			}
		}
	}
	p.report(line, len(indent(lines[line-1]))+1, "", what)
}
