package main

import (
	"bytes"
	"encoding/json"
	"io"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"sync"
	"testing"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/layout"
	"example.com/plumbline/internal/sample"
	"example.com/plumbline/internal/words"
	"example.com/plumbline/taxtables"
)

// invented is an invented language in brackets.
var invented = sample.Invented('Ж', 'ж').Mapped("xx", func(s string) string {
	if strings.TrimSpace(s) != s || strings.ContainsAny(s, "`\n") {
		return s
	}
	return "⟦" + s + "⟧"
})

// englishWord is a word of two letters and more.
var englishWord = regexp.MustCompile(`[A-Za-z]{2,}`)

// notEnglish are what every language leaves as it is: names of files, keys,
// flags, commands and values of the command line.
var notEnglish = regexp.MustCompile(`--?[a-z][-a-z0-9]*|plumbline[a-z -]*|\S+\.(yaml|pdf|txt)\S*|[a-z0-9]+(_[a-z0-9\[\]]+)+\S*|[a-z_]+(\.[a-z_]+)+|"[^"]*"|[a-z]+\[\d+\]\S*`)

// kept are the words that stay as they are in every language: names of commands
// and shells, values of flags and keys, the official form's Step, and what cites the
// law and the forms.
var kept = wordSet(`plumbline batch certificate check compare completion explain forget help interview list
	paycheck show start stub tables tax template version bash fish powershell zsh yaml devel
	json markdown pages method theme allowances pay frequency rounding status id self spouse single false auto return
	cents dollar percentage daily weekly biweekly semimonthly monthly quarterly semiannual annual
	plain private simple tuned even extra box keep lasting form absent plan format jobs
	Form Step Steps Schedule Sch lines Publication Worksheet Proc Rev IRC sec
	Ostrich Fern Nursery Inkwell Books`) // the last five are names that a cell of a table breaks

func wordSet(words string) map[string]bool {
	set := map[string]bool{}
	for w := range strings.FieldsSeq(words) {
		set[w] = true
	}
	return set
}

// inTables are the words of the yearly tables themselves: keys, sources, how well
// a figure is known. They are the same in every language.
var inTables = sync.OnceValue(func() map[string]bool {
	set := map[string]bool{}
	_ = fs.WalkDir(taxtables.Files, ".", func(path string, d fs.DirEntry, err error) error {
		if err == nil && !d.IsDir() {
			text, _ := fs.ReadFile(taxtables.Files, path)
			for _, w := range englishWord.FindAllString(string(text), -1) {
				set[w], set[strings.ToUpper(w)] = true, true
			}
		}
		return err
	})
	return set
})

// A typing is a command line, what is typed at it, and the name of what it prints.
type typing struct{ name, typed, args string }

// everyPrinting are command lines that print every kind of page, error and help, in
// a folder with the files that they name.
func everyPrinting(t *testing.T) []typing {
	t.Helper()
	demo, err := filepath.Abs("../../testdata")
	if err != nil {
		t.Fatal(err)
	}
	earners := filepath.Join(demo, "two-earners", "household.yaml")
	retiree := filepath.Join(demo, "retiree", "household.yaml")
	const good = `{"format":1,"tax_year":2026,"as_of":"2026-06-15","filing_status":"single","jobs":[{"pay_frequency":"weekly","taxable_pay":900}],"dependents":[{"relationship":"parent"}]}` + "\n"
	t.Chdir(t.TempDir())
	for name, text := range map[string]string{
		"wrong.yaml":  "tax_year: 2026\nfiling_status: maried\njobs: 3\n",
		"broken.yaml": "a: [\n",
		"sheet.csv":   "id,tax_year,nonsense\n1,2026,x\n",
		"empty.pdf":   "%PDF-1.4\n",
	} {
		if err := os.WriteFile(name, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	all := []typing{
		{"page", "", "certificate " + earners},
		{"all", "", "certificate --all " + earners},
		{"all, retiree", "", "certificate --all " + retiree},
		{"plans", "", "certificate --plans " + earners},
		{"pages", "", "certificate --pages " + earners},
		{"explain", "", "explain --deep " + earners},
		{"explain a box", "", "explain " + earners + " 2c"},
		{"tax", "", "tax --why " + earners},
		{"paycheck", "", "paycheck --pay 2400 --frequency biweekly"},
		{"stub", "", "stub " + earners},
		{"certificate as JSON", "", "certificate --json " + earners},
		{"tax as JSON", "", "tax --json " + retiree},
		{"explain as JSON", "", "explain --json " + earners},
		{"stub as JSON", "", "stub --json " + earners},
		{"good rows", good, "batch"},
		{"compare", "", "compare " + earners + " " + retiree},
		{"tables list", "", "tables list"},
		{"tables show", "", "tables show 2026"},
		{"tables compare", "", "tables compare 2025 2026"},
		{"tables check", "", "tables check"},
		{"template", "", "batch template --jobs 2"},
		{"version", "", "version"},
		{"forget", "", "forget"},
		{"no file", "", "certificate absent.yaml"},
		{"no arguments", "", "certificate"},
		{"wrong answers", "", "certificate wrong.yaml"},
		{"broken answers", "", "certificate broken.yaml"},
		{"two formats", "", "certificate --json --pages x"},
		{"fill without out", "", "certificate --fill x " + earners},
		{"no official form", "", "certificate --fill empty.pdf -o out.pdf " + earners},
		{"no plan", "", "certificate --plan nonsense " + earners},
		{"no entry", "", "explain " + earners + " nonsense"},
		{"no command", "", "certficate"},
		{"no command of tables", "", "tables chekc"},
		{"no flag", "", "tax --fast x"},
		{"flag without value", "", "tax --method"},
		{"flag of a number", "", "paycheck --allowances x"},
		{"paycheck mistakes", "", "paycheck --pay x --rounding y --status z"},
		{"no method", "", "tax --method x " + earners},
		{"no theme", "", "interview --theme x"},
		{"no year", "", "tables show 19"},
		{"no table", "", "tables show 1999"},
		{"no tables", "", "tables check absent"},
		{"no topic", "", "help nonsense"},
		{"nothing to forget", "", "forget absent"},
		{"batch", "{}\nx\n", "batch"},
		{"batch, a wrong column", "id,tax_year,nonsense\n1,2026,x\n", "batch --csv"},
	}
	for _, command := range []string{"", "interview", "certificate", "tax", "paycheck", "stub", "explain", "compare", "batch", "batch template", "tables", "tables list", "tables show", "tables check", "tables compare", "tables start", "forget", "version", "completion", "help"} {
		all = append(all, typing{"help of " + command, "", strings.TrimSpace(command + " --help")})
	}
	return all
}

// TestEverythingInAnotherLanguage prints every page, help text and kind of error
// in an invented language and finds the words that are not in the file of words.
// Width is looked at too: no line of a page is longer than the page.
func TestEverythingInAnotherLanguage(t *testing.T) {
	for _, tt := range append(everyPrinting(t),
		typing{"interview", "1\n1\n1\n\n0\n0\n2\nquit\n", "interview --plain mine.yaml"},
		typing{"interview cut short", "1\n", "interview --plain short.yaml"},
	) {
		saidNoEnglish(t, tt.name, tt.typed, strings.Fields(tt.args))
	}
}

// TestWholeInterviewsInAnotherLanguage has every newcomer answer every question in
// an invented language, line by line, to the results.
func TestWholeInterviewsInAnotherLanguage(t *testing.T) {
	t.Chdir(t.TempDir())
	for _, who := range people {
		var typed []string
		for _, a := range who.book {
			if name, ok := a.(text); ok {
				typed = append(typed, strings.Fields(string(name))...)
			}
		}
		status := saidNoEnglish(t, who.name, who.lines(t), []string{"interview", "--plain", who.name + ".yaml"}, typed...)
		if status != exitDone {
			t.Errorf("%s: exit status %d, want %d", who.name, status, exitDone)
		}
	}
}

// saidNoEnglish runs a command line in an invented language and finds what it says
// that is English and none of the names given.
func saidNoEnglish(t *testing.T, place, typed string, args []string, names ...string) (status int) {
	t.Helper()
	var out, errs bytes.Buffer
	p := &program{stdin: strings.NewReader(typed), stdout: &out, stderr: &errs, today: household.On(2026, 6, 15), language: invented, inside: through2026(t), years: clockYears}
	status = p.run(args)
	found := map[string]bool{}
	said := out.String() + errs.String()
	for _, l := range words.All() { // which says itself how to change to it
		said = strings.Replace(said, l.Say(words.T("screen.plain.language", "name", l.Name())), "", 1)
	}
	sentences, isJSON := sentencesOf(out.Bytes())
	if isJSON {
		said = sentences
	}
	for line := range strings.Lines(said) {
		line = strings.TrimRight(line, "\n")
		if n := layout.Width(line); n > 80 && errs.Len() == 0 && args[0] != "batch" && !isJSON && place != "tables check" {
			t.Errorf("%s: a line of %d columns: %q", place, n, line)
		}
		if strings.HasPrefix(line, "plumbline: error: ") || strings.HasPrefix(line, "plumbline: hint: ") {
			t.Errorf("%s: %q", place, line)
		}
		for _, w := range englishWord.FindAllString(notEnglish.ReplaceAllString(named.Replace(line), " "), -1) {
			if !kept[w] && !slices.Contains(names, w) && !(strings.HasPrefix(place, "tables ") && inTables()[w]) {
				found[w] = true
			}
		}
	}
	if out.Len()+errs.Len() == 0 {
		t.Errorf("%s: nothing was printed", place)
	}
	if len(found) > 0 {
		t.Errorf("%s: still English: %v", place, slices.Sorted(maps.Keys(found)))
	}
	return status
}

// cites are the keys of JSON whose texts cite the law or name a form.
var cites = map[string]bool{"source": true, "form": true, "basis": true, "answers": true, "from": true}

// sentencesOf are the texts with several words in JSON, a line each; it is not ok
// where the text is no JSON.
func sentencesOf(text []byte) (lines string, ok bool) {
	dec := json.NewDecoder(bytes.NewReader(text))
	var add func(v any)
	add = func(v any) {
		switch v := v.(type) {
		case map[string]any:
			for key, below := range v {
				if !cites[key] || key == "from" {
					add(below)
				}
			}
		case []any:
			for _, below := range v {
				add(below)
			}
		case string:
			if strings.Contains(v, " ") {
				lines += v + "\n"
			}
		}
	}
	for {
		var v any
		switch err := dec.Decode(&v); {
		case err == io.EOF:
			return lines, ok
		case err != nil:
			return "", false
		}
		ok = true
		add(v)
	}
}

// named takes out the names that the households of testdata gave.
var named = strings.NewReplacer("Larkspur Clinic", "", "LARKSPUR CLINIC", "", "Ostrich Fern Nursery", "", "OSTRICH FERN NURSERY", "",
	"Teachers' pension", "", "Inkwell Books", "", "Heron Freight", "", "Tern Bakery", "", "Alder Press", "", "first child", "", "second child", "")
