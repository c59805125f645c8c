package main

import (
	"bytes"
	"regexp"
	"strings"
	"testing"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/layout"
	"example.com/plumbline/internal/words"
)

// onlyEnglish finds words that every English sentence has some of, and that no
// Spanish one has.
var onlyEnglish = wordSet(`the of and your yours you is are with for from this that to not will by on it be was were have they
	their if or as at an we our which what when how than then more each most any all nothing paycheck payday withheld withholding income
	amount year job jobs answer answers married single child spouse`)

// officialEnglish are the form's own names, which are beside the Spanish ones
// since most employers hand out the form in English, keys and values of the
// files, and names of publications.
var officialEnglish = regexp.MustCompile(`(?i)extra withholding|multiple jobs worksheet|deductions worksheet|single or married filing separately|married filing jointly or qualifying surviving spouse|married filing (jointly|separately)|head of household|` +
	`social security|other income|LC_[A-Z]+|married_at_single_rate|employee.s withholding certificate|qualified dividends and capital gain tax worksheet|instructions for form|\$ plumbline[^\n]*|plumbline [a-z -]+`)

// namesKeys are the places that name keys and values of the answers file.
var namesKeys = regexp.MustCompile(`^(help|template|wrong answers|no entry|paycheck mistakes)`)

var spokenWord = regexp.MustCompile(`\pL+`)

// saysEnglish are the English words of a Spanish text.
func saysEnglish(place, text string) (found []string) {
	text = notEnglish.ReplaceAllString(named.Replace(text), " ")
	text = officialEnglish.ReplaceAllString(strings.Join(strings.Fields(text), " "), " ")
	for _, w := range spokenWord.FindAllString(text, -1) {
		commandOrValue := namesKeys.MatchString(place) && (kept[w] || w == "married" || w == "withholding")
		ofTables := strings.HasPrefix(place, "tables ") && inTables()[w]
		if onlyEnglish[strings.ToLower(w)] && !commandOrValue && !ofTables {
			found = append(found, w)
		}
	}
	return found
}

// officialTerms are the terms of the form's Spanish edition, Formulario W-4 (2026),
// that are said where its lines are named.
var officialTerms = map[string][]string{
	"page": {
		"Formulario W-4", "Casado que presenta una declaración conjunta o Cónyuge sobreviviente que reúne los requisitos", "cheque de pago",
		"Retención adicional (Extra withholding)", "empleador", "talón de cheque",
	},
	"pages": {
		"Paso 1(c)", "Paso 2(c)", "Paso 3(a)", "Paso 3(b)", "Paso 4(a)", "Otros ingresos", "Paso 4(b)", "Deducciones", "Paso 4(c)", "Retención adicional",
		"número de Seguro Social", "bajo pena de perjurio",
	},
	"interview": {"Soltero o Casado que presenta una declaración por separado", "Formulario W-4", "número de Seguro Social"},
}

// In Spanish every page, help text and error, and an interview to its end, has no
// English but the names of forms, and no line is longer than the page.
func TestEverythingInSpanish(t *testing.T) {
	es, ok := words.In("es")
	if !ok {
		t.Fatal("there is no Spanish")
	}
	for _, tt := range append(everyPrinting(t),
		typing{"interview", "1\n1\n\n\n\n0\nninguna\nno\n", "interview --plain mine.yaml"},
		typing{"interview, words", "ayuda\n1\natrás\nsalir\n", "interview --plain other.yaml"},
	) {
		var out, errs bytes.Buffer
		p := &program{stdin: strings.NewReader(tt.typed), stdout: &out, stderr: &errs, today: household.On(2026, 6, 15), language: es, inside: through2026(t), years: clockYears}
		p.run(strings.Fields(tt.args))
		said := out.String() + errs.String()
		said = strings.Replace(said, words.English().Say(words.T("screen.plain.language", "name", words.English().Name())), "", 1)
		sentences, isJSON := sentencesOf(out.Bytes())
		if isJSON {
			said = sentences
		}
		if out.Len()+errs.Len() == 0 {
			t.Errorf("%s: nothing was printed", tt.name)
		}
		for _, term := range officialTerms[tt.name] {
			if !strings.Contains(strings.Join(strings.Fields(said), " "), term) {
				t.Errorf("%s: the form's term %q is not said:\n%s", tt.name, term, said)
			}
		}
		for line := range strings.Lines(out.String()) {
			if n := layout.Width(strings.TrimRight(line, "\n")); n > 80 && !isJSON && !strings.HasPrefix(tt.args, "batch") && errs.Len() == 0 && tt.name != "tables check" {
				t.Errorf("%s: a line of %d columns: %q", tt.name, n, line)
			}
		}
		for line := range strings.SplitSeq(said, "\n\n") {
			if found := saysEnglish(tt.name, line); len(found) > 0 {
				t.Errorf("%s: %q in: %s", tt.name, found, line)
			}
		}
	}
}
