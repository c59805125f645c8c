package yamldoc

import (
	"encoding"
	"fmt"
	"reflect"
	"strings"

	"example.com/plumbline/internal/layout"
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
// encoding.TextUnmarshaler: it gets the text as it stands, and its error is the
// message. Any other type is a mistake of the program and panics.
//
// A value whose pointer has the method
//
//	Check(report func(key, message string))
//
// is checked once it is decoded without a mistake, inner values before outer
// ones. Check reports problems with keys relative to the value.
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

const noValue = "has no value; write one or leave the key out"

type decoder struct {
	doc      *Document
	checks   bool // have values that have a Check check themselves
	problems Problems
}

// report tells a problem with a value, at the place of the value.
func (dec *decoder) report(n *node, key, message string) {
	dec.reportAt(n.line, n.column, key, message)
}

// reportAt tells a problem at a place or, when there is none because the key
// was set after reading, at that of the key that holds it.
func (dec *decoder) reportAt(line, column int, key, message string) {
	p := Problem{dec.doc.name, line, column, key, message}
	if line == 0 {
		p = dec.doc.Problem(key, message)
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
			dec.report(n, key, noValue)
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
		dec.report(n, key, "expected a list")
	case mapping:
		dec.report(n, key, "expected a mapping of keys")
	default:
		dec.report(n, key, "expected one value")
	}
	return false
}

func (dec *decoder) check(key string, v reflect.Value) {
	if !dec.checks {
		return
	}
	v.Addr().Interface().(checker).Check(func(relative, message string) {
		dec.problems = append(dec.problems, dec.doc.Problem(join(key, relative), message))
	})
}

func (dec *decoder) unmarshal(n *node, key string, v reflect.Value) bool {
	if n.text == "" {
		dec.report(n, key, noValue)
		return false
	}
	if err := unmarshalText(n.text, v); err != "" {
		dec.report(n, key, err)
		return false
	}
	return true
}

// unmarshalText returns the error's text, which names the offending text.
func unmarshalText(text string, v reflect.Value) string {
	err := v.Addr().Interface().(encoding.TextUnmarshaler).UnmarshalText([]byte(text))
	switch {
	case err == nil:
		return ""
	case strings.Contains(err.Error(), text), strings.HasPrefix(err.Error(), `"`):
		return err.Error()
	}
	return clip(text) + ": " + err.Error()
}

// clip quotes a text for a message, cut to a readable length.
func clip(text string) string {
	const most = 40
	return fmt.Sprintf("%q", layout.Clip(text, most))
}

func (dec *decoder) basic(n *node, key string, v reflect.Value) bool {
	switch {
	case v.Kind() == reflect.String:
		v.SetString(n.text)
		return true
	case n.text == "":
		dec.report(n, key, noValue)
		return false
	case v.Kind() == reflect.Bool:
		return dec.bool(n, key, v)
	}
	number, ok := wholeNumber(n.text)
	switch {
	case !ok && isDigits(n.text) && n.text[0] != '0':
		dec.report(n, key, clip(n.text)+" is too large")
	case !ok:
		dec.report(n, key, clip(n.text)+" is not a whole number; write it in digits alone, like 3")
	case n.quoted:
		dec.report(n, key, clip(n.text)+" stands in quotes; write the number without them")
	case v.CanInt() && !v.OverflowInt(number):
		v.SetInt(number)
		return true
	case v.CanUint() && number >= 0 && !v.OverflowUint(uint64(number)):
		v.SetUint(uint64(number))
		return true
	case number < 0:
		dec.report(n, key, clip(n.text)+" is less than zero")
	default:
		dec.report(n, key, clip(n.text)+" is too large")
	}
	return false
}

func (dec *decoder) bool(n *node, key string, v reflect.Value) bool {
	switch {
	case n.text != "true" && n.text != "false":
		dec.report(n, key, clip(n.text)+" is not an answer here; write true or false")
		return false
	case n.quoted:
		dec.report(n, key, clip(n.text)+" stands in quotes; write true or false without them")
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
		} else if err := unmarshalText(it.name, name); err != "" {
			dec.reportAt(it.line, it.column, under, err)
			ok = false
			continue
		}
		if v.MapIndex(name).IsValid() {
			dec.reportAt(it.line, it.column, under, "this key means the same as one before it; keep one")
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
			dec.reportAt(0, 0, child(key, f.name), requiredKey)
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
