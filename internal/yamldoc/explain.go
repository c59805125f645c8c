package yamldoc

import (
	"regexp"
	"strconv"
	"strings"
	"unicode/utf8"
)

var libraryError = regexp.MustCompile(`^yaml: (?:line (\d+): )?(.*)$`)

// unknownAlias is an error that the library gives without a line.
var unknownAlias = regexp.MustCompile(`unknown anchor '(.*)' referenced`)

// fromZero are the errors whose lines the library counts from 0.
var fromZero = regexp.MustCompile(`^did not find expected (key|'-'|node content|',' or|<document start>)`)

// wordings replaces the library's terms by what to do. The first that the
// library's text contains is taken.
var wordings = []struct{ theirs, ours string }{
	{"several documents", "a second document begins here; keep one document to a file"},
	{"mapping values are not allowed", "a colon where none fits; put the text in quotes, or check the indentation"},
	{"did not find expected key", "the lines from here on do not fit together; check the indentation and the quotes"},
	{"did not find expected '-' indicator", "expected another list element beginning with \"- \"; check the indentation"},
	{"block sequence entries are not allowed", "a list element (\"- \") where none fits; begin the list on a line of its own"},
	{"could not find expected ':'", "a key without its colon; write it like tax_year: 2026"},
	{"did not find expected ',' or", "a list or mapping in brackets is not closed, or lacks a comma"},
	{"found unexpected end of stream", "a quote is opened and never closed"},
	{"found unexpected document indicator", "a quote is opened and never closed"},
	{"found unknown escape character", "a backslash that means nothing in double quotes; use single quotes"},
	{"invalid Unicode character escape", "an escape that stands for no character; write the character itself"},
	{"found character that cannot start any token", "a value beginning with a character YAML reserves; put the text in quotes"},
	{"alphabetic or numeric character", "a value beginning with & or *; put the text in quotes"},
	{"did not find expected node content", "a value is missing, or begins with a character YAML reserves"},
	{"did not find expected <document start>", "the lines from here on do not fit together; check the indentation"},
	{"exceeded max depth", "lists and mappings are nested too deep"},
	{"tag", "a tag (!name); leave it out"},
}

// explain reports a text that the library cannot read.
func (p *parser) explain(data []byte, err error) {
	lines := strings.Split(string(data), "\n")
	if name := unknownAlias.FindStringSubmatch(err.Error()); name != nil {
		for i, line := range lines {
			if at := strings.Index(line, "*"+name[1]); at >= 0 {
				p.report(i+1, utf8.RuneCountInString(line[:at])+1, "", "an alias (*"+name[1]+"); write the value out")
				return
			}
		}
	}
	indent := func(line string) string { return line[:len(line)-len(strings.TrimLeft(line, " \t"))] }
	// A tab that indents a line is the usual cause, and the library names it
	// for a character it is not.
	for i, line := range lines {
		if in := indent(line); len(in) < len(line) && strings.Contains(in, "\t") {
			p.report(i+1, strings.Index(in, "\t")+1, "", "a tab indents this line; use spaces")
		}
		if len(p.problems) == 10 {
			return
		}
	}
	if len(p.problems) > 0 {
		return
	}
	line, message := 1, "this is not YAML"
	if m := libraryError.FindStringSubmatch(err.Error()); m != nil {
		if n, err := strconv.Atoi(m[1]); err == nil {
			line = n
			if fromZero.MatchString(m[2]) {
				line++
			}
			line = max(1, min(line, len(lines)))
		}
		message = "this is not YAML: " + m[2]
		for _, w := range wordings {
			if strings.Contains(m[2], w.theirs) {
				message = w.ours
				break
			}
		}
	}
	p.report(line, len(indent(lines[line-1]))+1, "", message)
}
