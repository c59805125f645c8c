package yamldoc

import (
	"cmp"
	"encoding"
	"fmt"
	"reflect"
	"slices"
	"strconv"
)

// Encode makes a document of a struct with the tags that Decode reads, its keys
// in the order of the fields, those of a map sorted. Zero values, nil pointers
// and empty structs, lists and maps are left out, save in fields tagged
// `,keep`; a value with a method IsZero decides for itself whether it is zero.
// What a pointer points to and the elements of a list are always written. The
// error is that of a MarshalText, or of a text that no document may hold.
func Encode(name string, v any) (*Document, error) {
	n, err := encode("", reflect.ValueOf(v))
	if err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	if n.kind != mapping {
		panic(fmt.Sprintf("yamldoc: cannot make a document of %T", v))
	}
	return &Document{name: name, root: n}, nil
}

func encode(key string, v reflect.Value) (*node, error) {
	for v.Kind() == reflect.Pointer {
		if v.IsNil() {
			return nil, fmt.Errorf("%s: nothing to write", key)
		}
		v = v.Elem()
	}
	if text, ok, err := marshalText(v); err != nil {
		return nil, fmt.Errorf("%s: %w", key, err)
	} else if ok {
		return encodeText(key, text)
	}
	switch {
	case v.Kind() == reflect.Struct:
		return encodeFields(key, v)
	case v.Kind() == reflect.Map:
		return encodeEntries(key, v)
	case v.Kind() == reflect.Slice:
		n := &node{kind: list}
		for i := range v.Len() {
			value, err := encode(element(key, i), v.Index(i))
			if err != nil {
				return nil, err
			}
			n.items = append(n.items, &item{value: value})
		}
		return n, nil
	case v.Kind() == reflect.String:
		return encodeText(key, v.String())
	case v.Kind() == reflect.Bool:
		return encodeText(key, strconv.FormatBool(v.Bool()))
	case v.CanInt():
		return encodeText(key, strconv.FormatInt(v.Int(), 10))
	case v.CanUint():
		return encodeText(key, strconv.FormatUint(v.Uint(), 10))
	}
	panic(fmt.Sprintf("yamldoc: cannot write a %v", v.Type()))
}

// marshalText reports false when the type has no MarshalText.
func marshalText(v reflect.Value) (string, bool, error) {
	if !reflect.PointerTo(v.Type()).Implements(marshalerType) {
		return "", false, nil
	}
	p := reflect.New(v.Type())
	p.Elem().Set(v)
	text, err := p.Interface().(encoding.TextMarshaler).MarshalText()
	return string(text), true, err
}

func encodeText(key, text string) (*node, error) {
	if fault := textFault(text); fault != "" {
		return nil, fmt.Errorf("%s: %s", key, fault)
	}
	return &node{style: styleFor(text), text: text}, nil
}

func encodeFields(key string, v reflect.Value) (*node, error) {
	n := &node{kind: mapping}
	for _, f := range shapeOf(v.Type()).fields {
		fv := v.FieldByIndex(f.index)
		nothing := fv.Kind() == reflect.Pointer && fv.IsNil()
		if nothing || !f.keep && isZero(fv) {
			continue
		}
		value, err := encode(child(key, f.name), fv)
		if err != nil {
			return nil, err
		}
		if fv.Kind() == reflect.Struct && value.kind == mapping && len(value.items) == 0 && !f.keep {
			continue
		}
		n.items = append(n.items, &item{name: f.name, value: value})
	}
	return n, nil
}

func isZero(v reflect.Value) bool {
	if v.Kind() == reflect.Pointer {
		return v.IsNil()
	}
	if z, ok := v.Interface().(interface{ IsZero() bool }); ok {
		return z.IsZero()
	}
	if v.Kind() == reflect.Slice || v.Kind() == reflect.Map {
		return v.Len() == 0
	}
	return v.IsZero()
}

func encodeEntries(key string, v reflect.Value) (*node, error) {
	n := &node{kind: mapping}
	for entry := v.MapRange(); entry.Next(); {
		name, textual, err := marshalText(entry.Key())
		if !textual {
			name = entry.Key().String()
		}
		if err != nil {
			return nil, fmt.Errorf("%s: %w", key, err)
		}
		if fault := nameFault(name); fault != "" {
			return nil, fmt.Errorf("%s: %s", key, fault)
		}
		value, err := encode(child(key, name), entry.Value())
		if err != nil {
			return nil, err
		}
		n.items = append(n.items, &item{name: name, value: value})
	}
	slices.SortFunc(n.items, func(a, b *item) int { return cmp.Compare(a.name, b.name) })
	return n, nil
}
