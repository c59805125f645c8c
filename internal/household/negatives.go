package household

import (
	"fmt"
	"reflect"
	"strings"
	"sync"

	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/words"
)

// negatives reports every amount below zero in a part of the answers, but for
// those whose tag says that they are signed: gains, profit and other income may
// be losses.
func negatives(part any, report Report) { reportNegatives(reflect.ValueOf(part), "", report) }

func reportNegatives(v reflect.Value, key string, report Report) {
	switch {
	case v.Kind() == reflect.Pointer:
		if !v.IsNil() {
			reportNegatives(v.Elem(), key, report)
		}
	case v.Type() == amountType:
		if a := v.Interface().(money.Amount); a.IsNegative() {
			report(key, words.T("answers.negative", "amount", a))
		}
	case v.Kind() == reflect.Slice:
		for i := range v.Len() {
			reportNegatives(v.Index(i), fmt.Sprintf("%s[%d]", key, i), report)
		}
	case v.Kind() == reflect.Struct:
		if key != "" {
			key += "."
		}
		for _, f := range amountsIn(v.Type()) {
			reportNegatives(v.Field(f.index), key+f.name, report)
		}
	}
}

var amountType = reflect.TypeFor[money.Amount]()

// amountField is a field that is an amount which is not signed, or may hold
// some.
type amountField struct {
	name  string
	index int
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
		if name != "" && !strings.Contains(options, "signed") && holdsAmounts(f.Type) {
			fields = append(fields, amountField{name, i})
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
