package household

import (
	"fmt"
	"reflect"
	"strings"
	"sync"

	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/words"
)

// wrongAmounts reports every amount in a part of the answers that has parts of a
// cent, or is below zero, but for those whose tag says that they are signed: gains,
// profit and other income may be losses. Pay, benefits and taxes come in whole cents,
// and parts of one make sums that differ from those of the cents shown.
func wrongAmounts(part any, report Report) {
	reportWrongAmounts(reflect.ValueOf(part), nil, report)
}

// place is where a value is in the answers: the fields and elements that lead to
// it, from the top. Its key is put together only for what is reported.
type place []inside

// inside is one step down: into a field, or into an element of a list.
type inside struct {
	name   string // of the field; empty for an element
	index  int    // of the element
	signed bool   // it, or what it is part of, may be below zero
}

func (p place) key() string {
	var key strings.Builder
	for i, in := range p {
		switch {
		case in.name == "":
			fmt.Fprintf(&key, "[%d]", in.index)
		case i > 0:
			key.WriteString("." + in.name)
		default:
			key.WriteString(in.name)
		}
	}
	return key.String()
}

func (p place) signed() bool { return len(p) > 0 && p[len(p)-1].signed }

func reportWrongAmounts(v reflect.Value, at place, report Report) {
	switch {
	case v.Kind() == reflect.Pointer:
		if !v.IsNil() {
			reportWrongAmounts(v.Elem(), at, report)
		}
	case v.Type() == amountType:
		if v.IsZero() {
			return
		}
		switch a := v.Interface().(money.Amount); {
		case a.IsNegative() && !at.signed():
			report(at.key(), words.T("answers.negative", "amount", a))
		case !a.Equal(a.ToCent()):
			report(at.key(), words.T("answers.part_of_a_cent", "amount", a.Text()))
		}
	case v.Kind() == reflect.Slice:
		for i := range v.Len() {
			reportWrongAmounts(v.Index(i), append(at, inside{index: i, signed: at.signed()}), report)
		}
	case v.Kind() == reflect.Struct:
		for _, f := range amountsIn(v.Type()) {
			reportWrongAmounts(v.Field(f.index), append(at, inside{name: f.name, signed: at.signed() || f.signed}), report)
		}
	}
}

var amountType = reflect.TypeFor[money.Amount]()

// amountField is a field that is an amount or may hold some, and whether it may be
// below zero.
type amountField struct {
	name   string
	index  int
	signed bool
}

var amountFields sync.Map // of reflect.Type to []amountField

func amountsIn(t reflect.Type) []amountField {
	if known, ok := amountFields.Load(t); ok {
		return known.([]amountField)
	}
	var fields []amountField
	for i := range t.NumField() {
		f := t.Field(i)
		name, options, _ := strings.Cut(f.Tag.Get("yaml"), ",")
		if name != "" && holdsAmounts(f.Type) {
			fields = append(fields, amountField{name, i, strings.Contains(options, "signed")})
		}
	}
	amountFields.Store(t, fields)
	return fields
}

func holdsAmounts(t reflect.Type) bool {
	switch {
	case t == amountType:
		return true
	case t == reflect.TypeFor[InterviewLog]():
		return false // an earlier file's answers, checked when they were those of today
	case t.Kind() == reflect.Pointer || t.Kind() == reflect.Slice:
		return holdsAmounts(t.Elem())
	}
	return t.Kind() == reflect.Struct && len(amountsIn(t)) > 0
}
