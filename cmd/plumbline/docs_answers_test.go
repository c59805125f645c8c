package main

import (
	"bytes"
	"encoding"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"reflect"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/santhosh-tekuri/jsonschema/v6"
	"gopkg.in/yaml.v3"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/yamldoc"
)

const (
	answersPage   = "../../docs/answers.md"
	answersSchema = "../../docs/answers.schema.json"
)

// answersKey is one key of the answers file.
type answersKey struct {
	path     string // jobs[].pretax.health
	kind     string // as people read it
	required bool
	schema   map[string]any // without the description
	inside   []answersKey
}

// answersKeys are all keys of the answers file, read off the structs that the
// program reads it into.
func answersKeys() []answersKey { return keysOf(reflect.TypeFor[household.Household](), "") }

func keysOf(t reflect.Type, prefix string) []answersKey {
	var keys []answersKey
	for f := range fieldsOf(t) {
		tag := strings.Split(f.Tag.Get("yaml"), ",")
		k := keyOf(f.Type, prefix+tag[0])
		k.required = slices.Contains(tag[1:], "required")
		keys = append(keys, k)
	}
	return keys
}

func fieldsOf(t reflect.Type) func(func(reflect.StructField) bool) {
	return func(yield func(reflect.StructField) bool) {
		for i := range t.NumField() {
			if !yield(t.Field(i)) {
				return
			}
		}
	}
}

func keyOf(t reflect.Type, path string) answersKey {
	k := answersKey{path: path}
	if t.Kind() == reflect.Pointer {
		t = t.Elem()
	}
	switch {
	case t == reflect.TypeFor[money.Amount]():
		k.kind = "amount"
		k.schema = map[string]any{"$ref": "#/$defs/amount"}
	case t == reflect.TypeFor[household.Date]():
		k.kind = "date"
		k.schema = map[string]any{"$ref": "#/$defs/date"}
	case t == reflect.TypeFor[household.InterviewLog]():
		k.kind = "notes by name"
		k.schema = map[string]any{"type": "object"}
	case reflect.PointerTo(t).Implements(reflect.TypeFor[encoding.TextUnmarshaler]()):
		names := namesOf(t)
		k.kind = "one of `" + strings.Join(names, "`, `") + "`"
		k.schema = map[string]any{"enum": names}
	case t.Kind() == reflect.Bool:
		k.kind = "`true` or `false`"
		k.schema = map[string]any{"type": "boolean"}
	case t.Kind() == reflect.Int:
		k.kind = "whole number"
		k.schema = map[string]any{"type": "integer", "minimum": 0}
	case t.Kind() == reflect.String:
		k.kind = "text"
		k.schema = map[string]any{"type": "string"}
	case t.Kind() == reflect.Map:
		k.kind = "texts by name"
		k.schema = map[string]any{"type": "object", "additionalProperties": map[string]any{"type": "string"}}
	case t == reflect.TypeFor[[]household.DayOfMonth]():
		k.kind = "list of days 1 to 31, or `last`"
		k.schema = map[string]any{"type": "array", "items": map[string]any{"anyOf": []any{
			map[string]any{"type": "integer", "minimum": 1, "maximum": 31},
			map[string]any{"const": household.LastDay.String()},
		}}}
	case t.Kind() == reflect.Slice:
		k.kind = "list"
		k.inside = keysOf(t.Elem(), path+"[].")
	case t.Kind() == reflect.Struct:
		k.kind = "group"
		k.inside = keysOf(t, path+".")
	default:
		panic(fmt.Sprintf("%s: a kind of key that the reference has no word for: %v", path, t))
	}
	return k
}

// namesOf are the names that a choice can have in the file: its values count
// up from zero, and printing one beyond the last panics.
func namesOf(t reflect.Type) (names []string) {
	defer func() { _ = recover() }()
	for i := int64(0); ; i++ {
		v := reflect.New(t).Elem()
		v.SetInt(i)
		if name := v.Interface().(fmt.Stringer).String(); name != "" {
			names = append(names, name)
		}
	}
}

// answersRow is a row of the reference: | `key` | kind | meaning |.
var answersRow = regexp.MustCompile("(?m)^\\| `([a-z_.\\[\\]0-9]+)` \\| (.*?) \\| (.*?) \\|$")

// TestDocAnswers holds the reference and the schema against the program: every
// key is described, once, and no other; kinds are the program's own.
func TestDocAnswers(t *testing.T) {
	page, err := os.ReadFile(answersPage)
	if err != nil {
		t.Fatal(err)
	}
	meaning := map[string]string{}
	for _, m := range answersRow.FindAllStringSubmatch(string(page), -1) {
		if _, twice := meaning[m[1]]; twice {
			t.Errorf("%s is described twice", m[1])
		}
		meaning[m[1]] = m[3]
	}
	kinds := map[string]string{}
	var walk func(keys []answersKey)
	walk = func(keys []answersKey) {
		for _, k := range keys {
			kinds[k.path] = k.kind
			if k.required {
				kinds[k.path] += "; required"
			}
			if as := thisYears(k.path); meaning[k.path] == "" && as != "" {
				meaning[k.path] = "Next year's. " + meaning[as]
			}
			if strings.TrimSpace(meaning[k.path]) == "" {
				t.Errorf("docs/answers.md does not describe %s (%s)", k.path, k.kind)
			}
			walk(k.inside)
		}
	}
	walk(answersKeys())
	for path := range meaning {
		if _, ok := kinds[path]; !ok {
			t.Errorf("docs/answers.md describes %s, which the program does not read", path)
		}
	}
	if t.Failed() {
		return
	}
	written := answersRow.ReplaceAllStringFunc(string(page), func(row string) string {
		m := answersRow.FindStringSubmatch(row)
		return fmt.Sprintf("| `%s` | %s | %s |", m[1], kinds[m[1]], m[3])
	})
	keep(t, answersPage, written)
	keep(t, answersSchema, schemaText(t, meaning))
}

// thisYears is the key of this year that a key within next_year has its meaning
// from; empty where it has one of its own.
func thisYears(path string) string {
	for _, group := range []string{"income.", "adjustments.", "deductions.", "credits.", "payments.", "health_marketplace.", "jobs[].one_time_pay[]."} {
		if key, ok := strings.CutPrefix(path, "next_year."); ok && strings.HasPrefix(key, group) {
			return key
		}
	}
	return ""
}

// schemaText is the JSON Schema of the answers file.
func schemaText(t *testing.T, meaning map[string]string) string {
	schema := objectSchema(answersKeys(), meaning)
	schema["$schema"] = "https://json-schema.org/draft/2020-12/schema"
	schema["title"] = "Answers file of plumbline"
	schema["$defs"] = map[string]any{
		"amount": map[string]any{
			"description": "Dollars, like 1200.50, \"1,200.50\" or \"$1,200.50\".",
			"anyOf": []any{
				map[string]any{"type": "number"},
				map[string]any{"type": "string", "pattern": `^-?\$?[0-9][0-9,]*(\.[0-9]+)?$`},
			},
		},
		"date": map[string]any{
			"description": "A day, written year-month-day like 2026-06-15.",
			"type":        "string",
			"pattern":     `^[0-9]{4}-[0-9]{2}-[0-9]{2}$`,
		},
	}
	var b bytes.Buffer
	enc := json.NewEncoder(&b)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", "  ")
	if err := enc.Encode(schema); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

func objectSchema(keys []answersKey, meaning map[string]string) map[string]any {
	properties := map[string]any{}
	required := []string{}
	for _, k := range keys {
		name := k.path[strings.LastIndexByte(k.path, '.')+1:]
		s := k.schema
		switch k.kind {
		case "list":
			s = map[string]any{"type": "array", "items": objectSchema(k.inside, meaning)}
		case "group":
			s = objectSchema(k.inside, meaning)
		}
		s["description"] = plainText(meaning[k.path])
		properties[name] = s
		if k.required {
			required = append(required, name)
		}
	}
	object := map[string]any{"type": "object", "additionalProperties": false, "properties": properties}
	if len(required) > 0 {
		object["required"] = required
	}
	return object
}

// plainText is a table cell without its Markdown.
func plainText(s string) string { return strings.NewReplacer("`", "", "*", "").Replace(s) }

// keep holds a generated file against what it should be, or writes it.
func keep(t *testing.T, path, want string) {
	t.Helper()
	if *update {
		if err := os.WriteFile(path, []byte(want), 0o666); err != nil {
			t.Fatal(err)
		}
		return
	}
	got, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if string(got) != want {
		t.Errorf("%s is out of date (rewrite it with make docs):\n%s", path, firstDifference(string(got), want))
	}
}

// TestDocSchemaAgrees holds the schema against the reader by a validator that
// is not ours: both take the demo households, and both refuse the same slips.
func TestDocSchemaAgrees(t *testing.T) {
	compiler := jsonschema.NewCompiler()
	schema, err := compiler.Compile(answersSchema)
	if err != nil {
		t.Fatal(err)
	}
	households, err := filepath.Glob("../../testdata/*/household.yaml")
	if err != nil || len(households) < 5 {
		t.Fatalf("%d demo households, %v", len(households), err)
	}
	for _, name := range households {
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		if err := schema.Validate(anyYAML(t, text)); err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
	const good = "format: 1\ntax_year: 2026\nfiling_status: single\n" +
		"self: {birth_date: 1991-03-02}\n" +
		"jobs: [{pay_frequency: weekly, taxable_pay: 900, first_payday: 2026-01-02}]\n" +
		"income: {interest: 1}\n"
	for _, slip := range []struct{ from, to string }{
		{"", ""},
		{"filing_status: single\n", ""},
		{"status: single", "status: solo"},
		{"1991-03-02", "3/2/1991"},
		{"birth_date", "colour"},
		{"weekly", "fortnightly"},
		{"pay_frequency: weekly, ", ""},
		{"900", "lots"},
		{"interest: 1", "interest: [1]"},
	} {
		text := []byte(strings.Replace(good, slip.from, slip.to, 1))
		valid := schema.Validate(anyYAML(t, text)) == nil
		doc, err := yamldoc.Parse("answers.yaml", text)
		if err != nil {
			t.Fatal(err)
		}
		read := len(doc.Decode(new(household.Household))) == 0
		if want := slip.from == ""; valid != want || read != want {
			t.Errorf("%q for %q: the schema takes it: %v; the reader does: %v; want %v", slip.to, slip.from, valid, read, want)
		}
	}
}

// anyYAML reads YAML with a reader that is not ours, into what a validator
// takes.
func anyYAML(t *testing.T, text []byte) any {
	t.Helper()
	var v any
	if err := yaml.Unmarshal(text, &v); err != nil {
		t.Fatal(err)
	}
	return withoutTimes(v)
}

// withoutTimes is a value in which dates are texts again.
func withoutTimes(v any) any {
	switch v := v.(type) {
	case time.Time:
		return v.Format(time.DateOnly)
	case []any:
		for i := range v {
			v[i] = withoutTimes(v[i])
		}
	case map[string]any:
		for name := range v {
			v[name] = withoutTimes(v[name])
		}
	}
	return v
}
