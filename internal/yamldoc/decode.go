package yamldoc

import (
	"encoding"
	"fmt"
	"reflect"
	"strings"

	"example.com/plumbline/internal/words"
)

// Decode fills the struct or map that into points to, and returns every
// mistake it finds; what is in order is filled all the same.
//
// Fields are matched by their tags: `yaml:"name"`, `yaml:"name,required"`. A
// field without a tag is passed over. Embedded structs, and those tagged
// `yaml:",inline"`, have their fields among the others; a map of texts tagged so
// takes the keys that no field knows. A field may be a
// struct, a pointer (nil when the key is absent), a slice, a map whose keys are
// strings or encoding.TextUnmarshalers, a string, a bool, an integer, or any
// encoding.TextUnmarshaler: it gets the text as it is, and its error is the
// message. Any other type is a mistake of the program and panics.
//
// A value whose pointer has the method
//
//	Check(Report)
//
// is checked once it is decoded without a mistake, inner values before outer
// ones.
func (d *Document) Decode(into any) Problems {
	return d.decode(into, decoder{doc: d, checks: true})
}

// Fill is Decode without the checks: it returns only the mistakes in what
// each value is, not how the values go together.
func (d *Document) Fill(into any) Problems {
	return d.decode(into, decoder{doc: d})
}

func (d *Document) decode(into any, dec decoder) Problems {
	v := reflect.ValueOf(into)
	if v.Kind() != reflect.Pointer || v.IsNil() || !decodable(v.Type().Elem()) {
		panic(fmt.Sprintf("yamldoc: cannot decode into %T", into))
	}
	dec.value(d.root, "", v.Elem())
	return dec.problems.sorted()
}

type decoder struct {
	doc      *Document
	checks   bool // have values that have a Check check themselves
	problems Problems
}

// report tells a problem with a value, at the place of the value.
func (dec *decoder) report(n *node, key string, what words.Text) {
	dec.reportAt(n.line, n.column, key, what)
}

// reportAt tells a problem at a place or, when there is none because the key
// was set after reading, at that of the key that holds it.
func (dec *decoder) reportAt(line, column int, key string, what words.Text) {
	p := Problem{dec.doc.name, line, column, key, what}
	if line == 0 {
		p = dec.doc.Problem(key, what)
	}
	dec.problems = append(dec.problems, p)
}

// value decodes n and reports whether that went without a mistake.
func (dec *decoder) value(n *node, key string, v reflect.Value) bool {
	t := v.Type()
	if t.Kind() == reflect.Pointer {
		target := reflect.New(t.Elem())
		ok := dec.value(n, key, target.Elem())
		v.Set(target)
		return ok
	}
	if n.null || n.refused {
		if !n.refused {
			dec.report(n, key, words.T("yaml.no_value"))
		}
		return false
	}
	s := shapeOf(t)
	ok := false
	switch {
	case s.textual:
		ok = dec.expect(n, scalar, key) && dec.unmarshal(n, key, v)
	case t.Kind() == reflect.Struct:
		ok = dec.expect(n, mapping, key) && dec.fields(n, key, v, s)
	case t.Kind() == reflect.Map:
		ok = dec.expect(n, mapping, key) && dec.entries(n, key, v)
	case t.Kind() == reflect.Slice:
		ok = dec.expect(n, list, key) && dec.elements(n, key, v)
	default:
		ok = dec.expect(n, scalar, key) && dec.basic(n, key, v)
	}
	if ok && s.checked {
		dec.check(key, v)
	}
	return ok
}

func (dec *decoder) expect(n *node, want kind, key string) bool {
	if n.kind == want {
		return true
	}
	switch want {
	case list:
		dec.report(n, key, words.T("yaml.want_list"))
	case mapping:
		dec.report(n, key, words.T("yaml.want_mapping"))
	default:
		dec.report(n, key, words.T("yaml.want_value"))
	}
	return false
}

func (dec *decoder) check(key string, v reflect.Value) {
	if !dec.checks {
		return
	}
	if c, ok := v.Addr().Interface().(checker); ok {
		c.Check(func(relative string, what words.Text) {
			dec.problems = append(dec.problems, dec.doc.Problem(join(key, relative), what))
		})
	}
}

func (dec *decoder) unmarshal(n *node, key string, v reflect.Value) bool {
	if n.text == "" {
		dec.report(n, key, words.T("yaml.no_value"))
		return false
	}
	if what := unmarshalText(n.text, v); !what.IsZero() {
		dec.report(n, key, what)
		return false
	}
	return true
}

// unmarshalText has a value read its text, and says what is wrong with it.
func unmarshalText(text string, v reflect.Value) words.Text {
	err := v.Addr().Interface().(encoding.TextUnmarshaler).UnmarshalText([]byte(text))
	if err == nil {
		return words.Text{}
	}
	if what := words.Of(err); !what.IsZero() {
		return what
	}
	message := err.Error()
	if !strings.Contains(message, text) && !strings.HasPrefix(message, `"`) {
		return words.T("yaml.said_of", "text", text, "what", message)
	}
	return Said(message)
}

func (dec *decoder) basic(n *node, key string, v reflect.Value) bool {
	switch {
	case v.Kind() == reflect.String:
		v.SetString(n.text)
		return true
	case n.text == "":
		dec.report(n, key, words.T("yaml.no_value"))
		return false
	case v.Kind() == reflect.Bool:
		return dec.bool(n, key, v)
	}
	number, ok := wholeNumber(n.text)
	switch {
	case !ok && isDigits(n.text) && n.text[0] != '0':
		dec.report(n, key, words.T("yaml.number_too_large", "text", n.text))
	case !ok:
		dec.report(n, key, words.T("yaml.no_whole_number", "text", n.text))
	case n.quoted:
		dec.report(n, key, words.T("yaml.number_in_quotes", "text", n.text))
	case v.CanInt() && !v.OverflowInt(number):
		v.SetInt(number)
		return true
	case v.CanUint() && number >= 0 && !v.OverflowUint(uint64(number)):
		v.SetUint(uint64(number))
		return true
	case number < 0:
		dec.report(n, key, words.T("yaml.number_negative", "text", n.text))
	default:
		dec.report(n, key, words.T("yaml.number_too_large", "text", n.text))
	}
	return false
}

func (dec *decoder) bool(n *node, key string, v reflect.Value) bool {
	switch {
	case n.text != "true" && n.text != "false":
		dec.report(n, key, words.T("yaml.no_yes_or_no", "text", n.text))
		return false
	case n.quoted:
		dec.report(n, key, words.T("yaml.yes_or_no_in_quotes", "text", n.text))
		return false
	}
	v.SetBool(n.text == "true")
	return true
}

func (dec *decoder) elements(n *node, key string, v reflect.Value) bool {
	v.Set(reflect.MakeSlice(v.Type(), len(n.items), len(n.items)))
	ok := true
	for i, it := range n.items {
		ok = dec.value(it.value, element(key, i), v.Index(i)) && ok
	}
	return ok
}

func (dec *decoder) entries(n *node, key string, v reflect.Value) bool {
	t := v.Type()
	textual := shapeOf(t.Key()).textual
	v.Set(reflect.MakeMapWithSize(t, len(n.items)))
	ok := true
	for _, it := range n.items {
		under := child(key, it.name)
		name, value := reflect.New(t.Key()).Elem(), reflect.New(t.Elem()).Elem()
		if !textual {
			name.SetString(it.name)
		} else if what := unmarshalText(it.name, name); !what.IsZero() {
			dec.reportAt(it.line, it.column, under, what)
			ok = false
			continue
		}
		if v.MapIndex(name).IsValid() {
			dec.reportAt(it.line, it.column, under, words.T("yaml.same_key"))
			ok = false
			continue
		}
		ok = dec.value(it.value, under, value) && ok
		v.SetMapIndex(name, value)
	}
	return ok
}

// rest puts the value of a key that no field knows into the map for those.
func (dec *decoder) rest(it *item, key string, into reflect.Value) bool {
	if into.IsNil() {
		into.Set(reflect.MakeMap(into.Type()))
	}
	value := reflect.New(into.Type().Elem()).Elem()
	ok := dec.value(it.value, key, value)
	into.SetMapIndex(reflect.ValueOf(it.name), value)
	return ok
}

func (dec *decoder) fields(n *node, key string, v reflect.Value, s *shape) bool {
	ok := true
	seen := make([]bool, len(s.fields))
	for _, it := range n.items {
		under := child(key, it.name)
		i, known := s.byName[it.name]
		if !known && s.rest != nil {
			ok = dec.rest(it, under, v.FieldByIndex(s.rest)) && ok
			continue
		}
		if !known {
			dec.reportAt(it.line, it.column, under, unknownKey(it.name, s.names()))
			ok = false
			continue
		}
		seen[i] = true
		ok = dec.value(it.value, under, v.FieldByIndex(s.fields[i].index)) && ok
	}
	for i, f := range s.fields {
		if f.required && !seen[i] {
			dec.reportAt(0, 0, child(key, f.name), words.T(requiredKey))
			ok = false
		}
	}
	if ok {
		for _, in := range s.inlined {
			if in.checked {
				dec.check(key, v.FieldByIndex(in.index))
			}
		}
	}
	return ok
}
