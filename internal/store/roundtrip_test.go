package store

import (
	"encoding"
	"encoding/json"
	"fmt"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/yamldoc"
)

// someHousehold draws a household that agrees with itself, with every field
// filled at random through its tags' types.
func someHousehold(t *rapid.T) household.Household {
	h := household.Household{Format: 1, TaxYear: rapid.IntRange(2025, 2030).Draw(t, "year")}
	fill(t, h.TaxYear, reflect.ValueOf(&h).Elem(), "h")
	h.AsOf = household.EndOfYear(h.TaxYear)
	// Nothing is left empty: asJSON knows values only.
	cent := money.Cents(1)
	if h.Spouse != nil {
		h.Spouse.Blind = true
	}
	if h.LastYear != nil {
		h.LastYear.TotalTax = &cent
	}
	h.Income.Retirement = h.Income.Retirement.Add(h.Income.EarlyWithdrawal)
	for _, b := range []*household.Business{h.Income.Business.Self, h.Income.Business.Spouse, h.NextYear.Income.Business.Self, h.NextYear.Income.Business.Spouse} {
		if b != nil {
			b.Wages = b.Wages.Add(cent)
		}
	}
	for _, v := range []*household.Voluntary{h.Payments.SocialSecurity, h.Payments.Unemployment, h.NextYear.Payments.SocialSecurity, h.NextYear.Payments.Unemployment} {
		if v != nil {
			v.Percent = max(v.Percent, 1)
			if v.Months != nil {
				*v.Months = max(*v.Months, 1)
			}
		}
	}
	for _, children := range [][]household.Adoption{h.Credits.Adoption, h.NextYear.Credits.Adoption} {
		for i := range children {
			children[i].Expenses = cent
		}
	}
	for _, m := range []*household.Marketplace{h.Marketplace, h.NextYear.Marketplace} {
		if m == nil {
			continue
		}
		m.Premiums = money.Sum(m.Premiums, m.Advance, cent)
		for _, n := range []*int{m.Months, m.Household} {
			if n != nil {
				*n = max(*n, 1)
			}
		}
	}
	for i := range h.Dependents {
		h.Dependents[i].CareExpenses, h.Dependents[i].CareMonthly = cent, nil
	}
	for i := range h.Credits.Education {
		h.Credits.Education[i].Expenses = cent
	}
	for _, e := range []household.Earner{household.OfSelf, household.OfSpouse} {
		if m := h.Person(e).CareMonthly; m != nil {
			m.FirstMonth, m.LastMonth = min(m.FirstMonth, m.LastMonth), max(m.FirstMonth, m.LastMonth)
		}
	}
	h.Income.SocialSecurityMonthly = nil
	h.NextYear.Jobs, h.NextYear.Dependents = nil, nil
	for i := range h.NextYear.Credits.Education {
		h.NextYear.Credits.Education[i].Expenses = cent
	}
	h.NextYear.Income.SocialSecurityMonthly = nil
	h.Income.OrdinaryDividends = h.Income.OrdinaryDividends.Add(h.Income.QualifiedDividends)
	for i := range h.Jobs {
		j := &h.Jobs[i]
		j.TaxablePay, j.PaydaysOfMonth = money.Zero, nil
		j.GrossPay = j.GrossPay.Add(j.Pretax.Total())
		j.LastPayday = household.Date{}
		if j.FirstPayday.IsZero() {
			j.FirstPayday = household.On(h.TaxYear, 1, 1)
		}
		j.PaydaysOfMonth, j.EarlierCertificates = nil, nil
		if j.Frequency == household.Semimonthly {
			j.FirstPayday = household.On(h.TaxYear, 1, 15)
			j.PaydaysOfMonth = []household.DayOfMonth{15, household.LastDay}
		}
		if y := j.YearToDate; y != nil {
			y.Payday, y.TaxablePay = household.EndOfYear(h.TaxYear), y.TaxablePay.Add(y.FederalTax)
		}
		if p := j.LastPaycheck; p != nil {
			p.TaxablePay = money.Sum(p.TaxablePay, p.FederalTax, p.OneTimePay)
		}
		if c := j.Certificate; c != nil {
			c.Exempt = true
		}
		if c := j.Certificate; c != nil && c.Edition == household.Current {
			c.Allowances, c.Marital = 0, household.MaritalSingle
		} else if c != nil {
			*c = household.Certificate{Edition: c.Edition, Extra: c.Extra, Exempt: c.Exempt, Marital: c.Marital, Allowances: c.Allowances}
		}
	}
	return h
}

// fill draws a value for everything in v that has none yet.
func fill(t *rapid.T, year int, v reflect.Value, name string) {
	switch x := v.Addr().Interface().(type) {
	case *money.Amount:
		*x = money.Cents(rapid.Int64Range(0, 1e9).Draw(t, name))
		return
	case *household.Date:
		if rapid.Bool().Draw(t, name+" known") || strings.HasSuffix(name, "Payday") {
			*x = household.On(year, 1, 1).AddDays(rapid.IntRange(0, 364).Draw(t, name))
		}
		return
	case *household.InterviewLog:
		return // the interview's own tests write it
	case *household.Frequency:
		*x = rapid.SampledFrom(household.Frequencies()).Draw(t, name)
		return
	case *string:
		*x = rapid.StringMatching(`[A-Za-zé'"#:.&@ -]{0,20}`).Draw(t, name)
		return
	}
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			fill(t, year, v.Field(i), name+"."+v.Type().Field(i).Name)
		}
	case reflect.Pointer:
		if rapid.Bool().Draw(t, name+" known") {
			v.Set(reflect.New(v.Type().Elem()))
			fill(t, year, v.Elem(), name)
		}
	case reflect.Slice:
		if n := rapid.IntRange(0, 3).Draw(t, name+" length"); n > 0 {
			v.Set(reflect.MakeSlice(v.Type(), n, n))
		}
		for i := range v.Len() {
			fill(t, year, v.Index(i), fmt.Sprintf("%s[%d]", name, i))
		}
	case reflect.Bool:
		v.SetBool(rapid.Bool().Draw(t, name))
	case reflect.Int8: // the choices; all have at least two
		v.SetInt(rapid.Int64Range(0, 1).Draw(t, name))
	case reflect.Int:
		if v.Int() == 0 {
			v.SetInt(rapid.Int64Range(0, 12).Draw(t, name))
		}
	}
}

// Writing a household and reading it gives the same, and writing that gives
// the same bytes; as YAML and as JSON.
func TestRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h := someHousehold(t)
		doc := written(t, h)
		text := doc.Bytes()
		for range 2 {
			got, again, err := Decode("a.yaml", text, today)
			if err != nil {
				t.Fatalf("%v\n%s", err, text)
			}
			if same := written(t, got).Bytes(); string(same) != string(doc.Bytes()) {
				t.Fatalf("written as\n%s\nread and written as\n%s", doc.Bytes(), same)
			}
			if text[0] != '{' {
				if string(again.Bytes()) != string(text) {
					t.Fatalf("saved as\n%s\nread and saved as\n%s", text, again.Bytes())
				}
				text = asJSON(t, again)
			}
		}
	})
}

// written is a document of every answer of a household.
func written(t *rapid.T, h household.Household) *yamldoc.Document {
	doc := yamldoc.New("a.yaml")
	writeAnswer(t, doc, "", reflect.ValueOf(&h).Elem(), true)
	return doc
}

// writeAnswer sets the keys of a value, if it says anything.
func writeAnswer(t *rapid.T, doc *yamldoc.Document, key string, v reflect.Value, keep bool) {
	set := func(text string) {
		if err := doc.Set(key, text); err != nil {
			t.Fatal(err)
		}
	}
	if v.Kind() == reflect.Pointer {
		if !v.IsNil() {
			writeAnswer(t, doc, key, v.Elem(), true)
		}
		return
	}
	if m, ok := v.Interface().(encoding.TextMarshaler); ok {
		text, err := m.MarshalText()
		if z, ok := v.Interface().(interface{ IsZero() bool }); err != nil || !keep && (v.IsZero() || ok && z.IsZero()) {
			return
		}
		set(string(text))
		return
	}
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			f := v.Type().Field(i)
			name, options, _ := strings.Cut(f.Tag.Get("yaml"), ",")
			if name != "" && name != "-" {
				writeAnswer(t, doc, strings.TrimPrefix(key+"."+name, "."), v.Field(i), strings.Contains(options, "required"))
			}
		}
	case reflect.Slice:
		for i := range v.Len() {
			writeAnswer(t, doc, fmt.Sprintf("%s[%d]", key, i), v.Index(i), true)
		}
	case reflect.Map:
		for _, k := range slices.SortedFunc(slices.Values(v.MapKeys()), func(a, b reflect.Value) int { return strings.Compare(a.String(), b.String()) }) {
			writeAnswer(t, doc, fmt.Sprintf("%s[%q]", key, k.String()), v.MapIndex(k), true)
		}
	default:
		if keep || !v.IsZero() {
			set(fmt.Sprint(v.Interface()))
		}
	}
}

// asJSON is a document as a program would send it: every value a JSON string
// or, where it may not be one, bare.
func asJSON(t *rapid.T, doc *yamldoc.Document) []byte {
	root := map[string]any{}
	for _, key := range doc.Keys() {
		text, _ := doc.Get(key)
		var value any = text
		if number := json.Number(text); text == "true" || text == "false" {
			value = text == "true"
		} else if n, err := number.Int64(); err == nil && strconv.FormatInt(n, 10) == text { // JSON knows no "00"
			value = number
		}
		put(root, strings.Split(strings.ReplaceAll(key, "[", ".["), "."), value)
	}
	data, err := json.Marshal(root)
	if err != nil {
		t.Fatal(err)
	}
	return data
}

// put sets a value in nested maps and lists.
func put(in map[string]any, steps []string, value any) {
	if len(steps) == 1 {
		in[steps[0]] = value
		return
	}
	if strings.HasPrefix(steps[1], "[") {
		list, _ := in[steps[0]].([]any)
		index := 0
		fmt.Sscanf(steps[1], "[%d]", &index)
		for len(list) <= index {
			list = append(list, map[string]any{})
		}
		in[steps[0]] = list
		if len(steps) == 2 {
			list[index] = value
			return
		}
		put(list[index].(map[string]any), steps[2:], value)
		return
	}
	inner, ok := in[steps[0]].(map[string]any)
	if !ok {
		inner = map[string]any{}
		in[steps[0]] = inner
	}
	put(inner, steps[1:], value)
}
