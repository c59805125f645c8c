package yamldoc

import (
	"encoding"
	"fmt"
	"reflect"
	"slices"
	"strings"
	"sync"

	"example.com/plumbline/internal/words"
)

// A checker looks at a value as a whole once it has been decoded.
type checker interface{ Check(Report) }

// Report takes a mistake that a Check finds: its key, relative to the value, and what is
// wrong there (Said, where the file is a part of the program and only who changes it
// reads that).
type Report = func(key string, what words.Text)

var (
	unmarshalerType = reflect.TypeFor[encoding.TextUnmarshaler]()
	checkerType     = reflect.TypeFor[checker]()
)

// A shape is what Decode needs to know about a Go type.
type shape struct {
	textual bool // decoded by its UnmarshalText
	checked bool
	fields  []field // of a struct
	byName  map[string]int
	inlined []inlined
	rest    []int // of a map that takes the keys no field knows; nil where they are mistakes
}

// A field is a struct field that stands for a key.
type field struct {
	name     string
	index    []int
	required bool // the key must be there
}

// An inlined is an embedded struct whose fields are among the others.
type inlined struct {
	index   []int
	checked bool
}

// checks reports whether a type has a Check.
func checks(t reflect.Type) bool {
	return reflect.PointerTo(t).Implements(checkerType)
}

var shapes sync.Map // of reflect.Type to *shape

func shapeOf(t reflect.Type) *shape {
	if s, ok := shapes.Load(t); ok {
		return s.(*shape)
	}
	s := &shape{
		textual: reflect.PointerTo(t).Implements(unmarshalerType),
		checked: checks(t),
	}
	if t.Kind() == reflect.Struct && !s.textual {
		s.addFields(t, nil)
		s.byName = make(map[string]int, len(s.fields))
		for i, f := range s.fields {
			if _, twice := s.byName[f.name]; twice {
				panic(fmt.Sprintf("yamldoc: %v has two fields for the key %q", t, f.name))
			}
			s.byName[f.name] = i
		}
	}
	known, _ := shapes.LoadOrStore(t, s)
	return known.(*shape)
}

func (s *shape) addFields(t reflect.Type, index []int) {
	for i := range t.NumField() {
		f := t.Field(i)
		tag, tagged := f.Tag.Lookup("yaml")
		name, rest, _ := strings.Cut(tag, ",")
		options := strings.Split(rest, ",")
		at := slices.Concat(index, []int{i})
		inline := slices.Contains(options, "inline") || f.Anonymous && !tagged
		switch {
		case inline && f.Type.Kind() == reflect.Struct:
			s.addFields(f.Type, at)
			s.inlined = append(s.inlined, inlined{at, f.IsExported() && checks(f.Type)})
		case inline && f.Type == reflect.TypeFor[map[string]string]():
			s.rest = at
		case inline && tagged:
			panic(fmt.Sprintf("yamldoc: %v.%s cannot be inlined: it is neither a struct nor a map of texts", t, f.Name))
		case name == "" || name == "-" || !f.IsExported():
			// Not a part of the document.
		default:
			if !decodable(f.Type) {
				panic(fmt.Sprintf("yamldoc: %v.%s is of a type that cannot be decoded", t, f.Name))
			}
			s.fields = append(s.fields, field{name: name, index: at, required: slices.Contains(options, "required")})
		}
	}
}

// decodable reports whether Decode knows a type, short of looking into structs.
func decodable(t reflect.Type) bool {
	if reflect.PointerTo(t).Implements(unmarshalerType) {
		return true
	}
	switch t.Kind() {
	case reflect.Pointer, reflect.Slice:
		return decodable(t.Elem())
	case reflect.Map:
		textual := reflect.PointerTo(t.Key()).Implements(unmarshalerType)
		return (textual || t.Key().Kind() == reflect.String) && decodable(t.Elem())
	case reflect.Struct, reflect.String, reflect.Bool,
		reflect.Int, reflect.Int8, reflect.Int16, reflect.Int32, reflect.Int64,
		reflect.Uint, reflect.Uint8, reflect.Uint16, reflect.Uint32, reflect.Uint64:
		return true
	}
	return false
}

// names are the keys that the struct knows.
func (s *shape) names() []string {
	names := make([]string, len(s.fields))
	for i, f := range s.fields {
		names[i] = f.name
	}
	return names
}
