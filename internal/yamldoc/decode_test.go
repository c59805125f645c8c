package yamldoc

import (
	"errors"
	"reflect"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// dollars stands for the types that read their own text.
type dollars string

func (d *dollars) UnmarshalText(text []byte) error {
	if strings.Trim(string(text), "0123456789.") != "" {
		return errors.New("not an amount; write it like 1200.50")
	}
	*d = dollars(text)
	return nil
}

func (d dollars) MarshalText() ([]byte, error) { return []byte(d), nil }

// color is a map key that knows its words.
type color int

func (c *color) UnmarshalText(text []byte) error {
	for i, name := range []string{"red", "blue"} {
		if strings.EqualFold(name, string(text)) {
			*c = color(i)
			return nil
		}
	}
	return errors.New("not a color; write red or blue")
}

func (c color) MarshalText() ([]byte, error) { return []byte([]string{"red", "blue"}[c]), nil }

type row struct {
	Over dollars `yaml:"over,required"`
	Rate dollars `yaml:"rate"`
}

type sourced struct {
	Source string `yaml:"source,required"`
}

type group[T any] struct {
	sourced
	Values map[color]T `yaml:"values"`
}

type book struct {
	Year   int            `yaml:"year,required"`
	Title  string         `yaml:"title"`
	Final  bool           `yaml:"final"`
	Signed *bool          `yaml:"signed"`
	Rows   []row          `yaml:"rows"`
	Basic  group[dollars] `yaml:"basic"`
	Names  map[string]int `yaml:"names"`
	Parts  *parts         `yaml:"parts"`
	Small  uint8          `yaml:"small"`
	Unread chan int
}

type parts struct {
	First  span `yaml:"first"`
	Second span `yaml:"second"`
}

type span struct {
	From int `yaml:"from"`
	To   int `yaml:"to"`
}

func (s *span) Check(report Report) {
	if s.To < s.From {
		report("to", Said("comes before from"))
	}
}

func (p *parts) Check(report Report) {
	if p.First.To > p.Second.From {
		report("second.from", Said("overlaps the first"))
		report("", Said("parts overlap"))
	}
}

func TestDecode(t *testing.T) {
	d := parse(t, `
year: 2031
title: 2031
final: true
signed: false
rows:
  - {over: 0.10, rate: "0.10"}
  - over: '20_000'
names: {a.b: 1, c: -2}
basic: {source: Notice 1, values: {red: 12, BLUE: "13"}}
parts: {first: {from: 1, to: 2}, second: {from: 2, to: 3}}
small: 255
`)
	if err := d.Set("rows[1].over", "20000"); err != nil {
		t.Fatal(err)
	}
	no := false
	want := book{
		Year: 2031, Title: "2031", Final: true, Signed: &no,
		Rows:  []row{{"0.10", "0.10"}, {"20000", ""}},
		Names: map[string]int{"a.b": 1, "c": -2},
		Basic: group[dollars]{sourced{"Notice 1"}, map[color]dollars{0: "12", 1: "13"}},
		Parts: &parts{span{1, 2}, span{2, 3}}, Small: 255,
	}
	var got book
	if problems := d.Decode(&got); problems.Err() != nil {
		t.Fatal(problems)
	}
	if diff := cmp.Diff(want, got, cmp.AllowUnexported(group[dollars]{})); diff != "" {
		t.Errorf("Decode (-want +got):\n%s", diff)
	}
}

func TestDecodeProblems(t *testing.T) {
	tests := []struct{ name, text, want string }{
		{"unknown key", "year: 1\ntitel: x", `2:1: titel: unknown key; did you mean "title"?`},
		{"unknown key, few known", "year: 1\nparts: {third: {}}", `2:9: parts.third: unknown key; the keys here are first and second`},
		{"unknown key, one close of few", "year: 1\nparts: {frist: {}}", `2:9: parts.frist: unknown key; did you mean "first"? The keys here are first and second`},
		{"unknown key, many known", "year: 1\nxyzzy: x", `2:1: xyzzy: unknown key; remove it, or check its spelling`},
		{"missing, root", "title: x", `1:1: year: this key is required; add it`},
		{"missing, mapping", "year: 1\nbasic:\n  values: {red: 1}", `2:1: basic.source: this key is required; add it`},
		{"missing, list element", "year: 1\nrows:\n  - rate: 1", `3:5: rows[0].over: this key is required; add it`},
		{"no value", "year: 1\ntitle:\nfinal: ~\nrows: null\nparts:", `2:7: title: has no value; write one or leave the key out
3:8: final: has no value; write one or leave the key out
4:7: rows: has no value; write one or leave the key out
5:7: parts: has no value; write one or leave the key out`},
		{"empty text", "year: 1\nfinal: \"\"\nrows: [{over: ''}]", `2:8: final: has no value; write one or leave the key out
3:15: rows[0].over: has no value; write one or leave the key out`},
		{"kinds", "year: [1]\ntitle: {a: 1}\nrows: {a: 1}\nparts: [1]\nnames: 3\nbasic: {source: x, values: {red: []}}", `1:7: year: expected one value
2:8: title: expected one value
3:7: rows: expected a list
4:8: parts: expected keys with values
5:8: names: expected keys with values
6:34: basic.values.red: expected one value`},
		{"yes", "year: 1\nfinal: yes", `2:8: final: "yes" is not an answer here; write true or false`},
		{"True", "year: 1\nfinal: True", `2:8: final: "True" is not an answer here; write true or false`},
		{"quoted true", "year: 1\nfinal: 'true'", `2:8: final: "true" is in quotes; write true or false without them`},
		{"numbers", "year: 0x1F\nnames: {a: 1_000, b: 1e3, c: '3', d: 010, e: +1, f: 1.0, g: 99999999999999999999}\nsmall: 256", `1:7: year: "0x1F" is not a whole number; write it like 3
2:12: names.a: "1_000" is not a whole number; write it like 3
2:22: names.b: "1e3" is not a whole number; write it like 3
2:30: names.c: "3" is in quotes; write the number without them
2:38: names.d: "010" is not a whole number; write it like 3
2:46: names.e: "+1" is not a whole number; write it like 3
2:53: names.f: "1.0" is not a whole number; write it like 3
2:61: names.g: "99999999999999999999" is too large
3:8: small: "256" is too large`},
		{"negative", "year: 1\nsmall: -1", `2:8: small: "-1" is less than zero`},
		{"own text", "year: 1\nrows:\n  - over: 12,x\n    rate: a b", `3:11: rows[0].over: "12,x": not an amount; write it like 1200.50
4:11: rows[0].rate: "a b": not an amount; write it like 1200.50`},
		{"map key", "year: 1\nbasic: {source: x, values: {green: 1, red: 1, Red: 2}}", `2:29: basic.values.green: "green": not a color; write red or blue
2:47: basic.values.Red: this key means the same as one before it; keep one`},
		{"inner check", "year: 1\nparts: {first: {from: 3, to: 2}, second: {from: 2, to: 1}}", `2:26: parts.first.to: comes before from
2:52: parts.second.to: comes before from`},
		{"outer check", "year: 1\nparts:\n  first: {to: 5}\n  second:\n    from: 3\n    to: 4", `2:1: parts: parts overlap
5:5: parts.second.from: overlaps the first`},
		{"no check of a broken value", "year: 1\nparts: {first: {to: 5}, second: {from: 3, to: x}}", `2:47: parts.second.to: "x" is not a whole number; write it like 3`},
		{"absent key of a check", "year: 1\nparts:\n  first: {from: 5}", `3:3: parts.first.to: comes before from`},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			var b book
			checkProblems(t, parse(t, tt.text).Decode(&b), tt.want)
		})
	}
}

// checkProblems compares the problems, without the file's name.
func checkProblems(t *testing.T, got Problems, want string) {
	t.Helper()
	text := ""
	if err := got.Err(); err != nil {
		text = err.Error()
	}
	text = strings.ReplaceAll("\n"+text, "\ntest.yaml:", "\n")[1:]
	if text != want {
		t.Errorf("problems:\n%s\nwant:\n%s", text, want)
	}
}

func TestDecodeAfterParseProblems(t *testing.T) {
	d, err := Parse("test.yaml", []byte("year: 1\nyear: 2\ntitel: x\n"))
	var problems Problems
	if !errors.As(err, &problems) || d == nil {
		t.Fatalf("Parse = %v, %v; want a document and Problems", d, err)
	}
	checkProblems(t, problems, `2:1: year: this key is already on line 1; keep one`)
	var b book
	checkProblems(t, d.Decode(&b), `3:1: titel: unknown key; did you mean "title"?`)
}

func TestDecodePanicsOnTypesOfTheProgram(t *testing.T) {
	for _, into := range []any{
		book{},
		new(float64), (*book)(nil),
		new(struct {
			F float64 `yaml:"f"`
		}),
		new(struct {
			A int `yaml:"x"`
			B int `yaml:"x"`
		}),
	} {
		func() {
			defer func() {
				if recover() == nil {
					t.Errorf("Decode into %v did not panic", reflect.TypeOf(into))
				}
			}()
			parse(t, "year: 1").Decode(into)
		}()
	}
}
