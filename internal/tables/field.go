package tables

import (
	"encoding"
	"fmt"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"sync"

	"example.com/plumbline/internal/words"
)

// The figures of a Year are reached here by the keys that they have in its file,
// which is how the rules name them.

// fieldAt is the part of v at a key relative to it: "basic.single" of the
// standard deduction. It reports false where the year has none.
func fieldAt(v reflect.Value, key string) (reflect.Value, bool) {
	for key != "" {
		if v.Kind() == reflect.Pointer {
			if v.IsNil() {
				return v, false
			}
			v = v.Elem()
		}
		if key[0] == '[' {
			index, rest, closed := strings.Cut(key[1:], "]")
			i, err := strconv.Atoi(index)
			if !closed || err != nil || v.Kind() != reflect.Slice || i < 0 || i >= v.Len() {
				return v, false
			}
			v, key = v.Index(i), strings.TrimPrefix(rest, ".")
			continue
		}
		end := strings.IndexAny(key, ".[")
		if end < 0 {
			end = len(key)
		}
		var ok bool
		if v, ok = named(v, key[:end]); !ok {
			return v, false
		}
		key = strings.TrimPrefix(key[end:], ".")
	}
	return v, true
}

// named is the field with a name in the file, of the struct or of one inlined
// in it.
func named(v reflect.Value, name string) (reflect.Value, bool) {
	if v.Kind() != reflect.Struct {
		return v, false
	}
	for _, f := range partsOf(v.Type()) {
		if f.name == name {
			return v.FieldByIndex(f.index), true
		}
	}
	return v, false
}

// part is a field that has a name in the file.
type part struct {
	name  string
	index []int // as reflect counts, through what is inlined
}

var parts sync.Map // of reflect.Type to []part

func partsOf(t reflect.Type) []part {
	if known, ok := parts.Load(t); ok {
		return known.([]part)
	}
	var all []part
	for i := range t.NumField() {
		f := t.Field(i)
		name, option, _ := strings.Cut(f.Tag.Get("yaml"), ",")
		switch {
		case option == "inline":
			for _, inner := range partsOf(f.Type) {
				all = append(all, part{inner.name, append([]int{i}, inner.index...)})
			}
		case name != "":
			all = append(all, part{name, []int{i}})
		}
	}
	parts.Store(t, all)
	return all
}

// eachFigure calls f with every figure at or under v, and its key: each value
// that a file holds as one scalar. Citations are no figures.
func eachFigure(key string, v reflect.Value, f func(key string, v reflect.Value)) {
	if v.Kind() == reflect.Pointer {
		if !v.IsNil() {
			eachFigure(key, v.Elem(), f)
		}
		return
	}
	if _, scalar := v.Addr().Interface().(encoding.TextUnmarshaler); scalar {
		f(key, v)
		return
	}
	switch v.Kind() {
	case reflect.Map:
		for _, name := range v.MapKeys() {
			value := reflect.New(v.Type().Elem()).Elem() // a copy, as what is in a map cannot be set
			value.Set(v.MapIndex(name))
			eachFigure(under(key, fmt.Sprint(name)), value, f)
		}
	case reflect.Slice:
		for i := range v.Len() {
			eachFigure(fmt.Sprintf("%s[%d]", key, i), v.Index(i), f)
		}
	case reflect.Struct:
		for _, p := range partsOf(v.Type()) {
			if len(p.index) == 1 || v.Type().FieldByIndex(p.index[:1]).Type != citationType {
				eachFigure(under(key, p.name), v.FieldByIndex(p.index), f)
			}
		}
	default:
		f(key, v)
	}
}

// under is the key of a part of what is at key.
func under(key, part string) string {
	if key == "" || part == "" || part[0] == '[' {
		return key + part
	}
	return key + "." + part
}

// textOf is a figure as a file has it.
func textOf(v reflect.Value) string {
	if m, ok := v.Interface().(encoding.TextMarshaler); ok {
		if text, err := m.MarshalText(); err == nil {
			return string(text)
		}
	}
	return fmt.Sprint(v.Interface())
}

// setText sets a figure as if it were read from a file. Figures are amounts, rates,
// days, whole numbers, and yes or no: the error of another kind is for who adds one.
func setText(v reflect.Value, text string) error {
	if u, ok := v.Addr().Interface().(encoding.TextUnmarshaler); ok {
		return u.UnmarshalText([]byte(text))
	}
	switch v.Kind() {
	case reflect.Int:
		n, err := strconv.Atoi(text)
		if err != nil {
			return words.Fail("tables.not_whole", "text", text)
		}
		v.SetInt(int64(n))
	case reflect.Bool:
		v.SetBool(text == "true")
	default:
		return fmt.Errorf("a value of the kind %v cannot be set", v.Kind())
	}
	return nil
}

var citationType = reflect.TypeFor[Citation]()

// citedGroup is a group of figures: what a citation in the file is of.
type citedGroup struct {
	key   string
	cited *Citation
	value reflect.Value
}

// ruleKey is the key of a rule of the group.
func (g citedGroup) ruleKey(i int) string { return under(g.key, fmt.Sprintf("indexed[%d]", i)) }

// isBroken reports whether the file is not in order at a key, in it or around it:
// then the figure there is not what anybody wrote.
func (y *Year) isBroken(key string) bool {
	return slices.ContainsFunc(y.broken, func(at string) bool { return leadsTo(at, key) || leadsTo(key, at) })
}

// groups are all groups of the year, an outer one before those in it.
func (y *Year) groups() []citedGroup {
	var all []citedGroup
	var walk func(key string, v reflect.Value)
	walk = func(key string, v reflect.Value) {
		if v.Kind() == reflect.Pointer && !v.IsNil() {
			v = v.Elem()
		}
		if v.Kind() != reflect.Struct {
			return
		}
		if cited, ok := v.Type().FieldByName("Citation"); ok && cited.Type == citationType && len(cited.Index) == 1 {
			all = append(all, citedGroup{key, v.Field(cited.Index[0]).Addr().Interface().(*Citation), v})
		}
		for _, p := range partsOf(v.Type()) {
			if len(p.index) == 1 {
				walk(under(key, p.name), v.FieldByIndex(p.index))
			}
		}
	}
	walk("", reflect.ValueOf(y).Elem())
	return all
}
