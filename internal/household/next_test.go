package household

import (
	"reflect"
	"testing"

	"example.com/plumbline/internal/money"
)

// TestEveryAnswerAboutNextYearIsApplied gives one answer about next year at a
// time: each must change the household, so that no kind of income, deduction,
// credit or payment is asked for and then passed over.
func TestEveryAnswerAboutNextYearIsApplied(t *testing.T) {
	var n NextYear
	tried := 0
	for _, group := range []string{"Income", "Adjustments", "Deductions", "Credits", "Payments", "Marketplace"} {
		eachAnswer(reflect.ValueOf(&n).Elem().FieldByName(group), group, func(name string) {
			tried++
			var h Household
			n.Apply(&h)
			h.Jobs, h.Dependents = nil, nil
			if reflect.DeepEqual(h, Household{}) {
				t.Errorf("NextYear.%s is given, and Apply changes nothing", name)
			}
		})
	}
	if tried < 40 {
		t.Errorf("only %d answers tried", tried)
	}
}

// eachAnswer gives each answer below a value in turn, calls f, and takes it away.
func eachAnswer(v reflect.Value, name string, f func(name string)) {
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			eachAnswer(v.Field(i), name+"."+v.Type().Field(i).Name, f)
		}
		return
	case reflect.Slice:
		v.Set(reflect.MakeSlice(v.Type(), 1, 1))
	case reflect.Pointer:
		v.Set(reflect.New(v.Type().Elem()))
		switch given := v.Interface().(type) {
		case *money.Amount:
			*given = money.Dollars(7)
		case *bool:
			*given = true
		}
	}
	f(name)
	v.SetZero()
}
