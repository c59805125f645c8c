package words_test

import (
	"errors"
	"testing"

	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/words"
)

// latin is a language whose readers type numbers and days the Latin way.
var latin = words.Read("xx", `
language:
  list: {and: "{rest} {sound, select, i {e} other {y}} {last}", or: "{rest} {sound, select, o {u} other {o}} {last}"}
  date: {full: "{day} de {month} de {year}", day: "{day} de {month}", numbers: unclear}
  month: {1: enero, 2: febrero, 3: marzo, 4: abril, 5: mayo, 6: junio, 7: julio, 8: agosto, 9: septiembre, 10: octubre, 11: noviembre, 12: diciembre}
  typed:
    "yes": "sí, s"
    about: "como, unos, aproximadamente"
    currency: "dólares, dólar"
    thousand: "mil"
    times: "por"
    per: "por, al, a la, cada"
    month: "mes"
    year: "año"
    monthly: "mensuales"
    the: "el, el día"
    of: "de, del"
    ordinal: "º, o, ro"
    first: "primero"
test:
  list: "{l} / {l:or}"
  day: "{d} | {d:day}"
`)

func TestReadAmount(t *testing.T) {
	type want struct {
		amount string
		per    words.Per
	}
	english := map[string]want{
		"$48k": {"48000", words.Unsaid}, "48.5k": {"48500", words.Unsaid}, "48,000/yr": {"48000", words.PerYear}, "48000 a year": {"48000", words.PerYear},
		"650/month": {"650", words.PerMonth}, "650 per month": {"650", words.PerMonth}, "650 x 3": {"1950", words.Unsaid}, "650x3": {"1950", words.Unsaid},
		"650 monthly": {"650", words.PerMonth}, "9000.": {"9000", words.Unsaid}, "37.5": {"37.5", words.Unsaid}, "$19.50/h": {"19.50", words.PerHour},
		"19.50 an hour": {"19.50", words.PerHour}, "about 9000": {"9000", words.Unsaid}, "1 200": {"1200", words.Unsaid}, "1 200.50": {"1200.50", words.Unsaid},
		"1'200": {"1200", words.Unsaid}, "-20": {"-20", words.Unsaid}, "$1,234.50": {"1234.50", words.Unsaid}, "1200 dollars": {"1200", words.Unsaid},
		"1\u00a0200": {"1200", words.Unsaid}, "1\u202f200.50": {"1200.50", words.Unsaid},
	}
	spanish := map[string]want{
		"48 mil": {"48000", words.Unsaid}, "48mil": {"48000", words.Unsaid}, "1,234.50": {"1234.50", words.Unsaid}, "1 200": {"1200", words.Unsaid},
		"650 al mes": {"650", words.PerMonth}, "650 por mes": {"650", words.PerMonth}, "650 MENSUALES": {"650", words.PerMonth}, "48,000 al año": {"48000", words.PerYear},
		"48000 al ano": {"48000", words.PerYear}, "650 por 3": {"1950", words.Unsaid}, "unos 9000 dólares": {"9000", words.Unsaid}, "650/month": {"650", words.PerMonth},
	}
	for text, want := range spanish {
		got, err := latin.ReadAmount(text)
		if err != nil || !got.Amount.Equal(money.MustParse(want.amount)) || got.Per != want.per {
			t.Errorf("in Spanish %q is %v per %d (%v), want %s per %d", text, got.Amount, got.Per, err, want.amount, want.per)
		}
	}
	for _, l := range []*words.Language{words.English(), latin} {
		for text, want := range english {
			got, err := l.ReadAmount(text)
			if err != nil || !got.Amount.Equal(money.MustParse(want.amount)) || got.Per != want.per {
				t.Errorf("%s: %q is %v per %d (%v), want %s per %d", l.Tag(), text, got.Amount, got.Per, err, want.amount, want.per)
			}
		}
		for text, code := range map[string]string{
			"1.200,50": "comma", "1200,50": "comma", "1.200": "comma", "1.200.000": "comma", "12,5": "comma", "1 200,50": "comma", "1\u00a0200,50": "comma",
			"650/fortnight": "part", "650 euros": "part",
			"a lot": "none", "": "none", "1e5": "part", "12,34,567": "none", "-": "none", "1 20": "none",
		} {
			got, err := l.ReadAmount(text)
			var f *money.Fault
			if !errors.As(err, &f) || f.Code != code {
				t.Errorf("%s: %q is %v (%v), want the fault %s", l.Tag(), text, got.Amount, err, code)
			}
		}
	}
}

func TestReadWhole(t *testing.T) {
	for text, want := range map[string]int{
		"2": 2, "two": 2, "Twelve": 12, "zero": 0, "nobody": 0, "none": 0, "10 months": 10, "one child": 1, "25%": 25, "-1": -1,
	} {
		if got, ok := words.English().ReadWhole(text); got != want || !ok {
			t.Errorf("%q is %d (%v), want %d", text, got, ok, want)
		}
	}
	for _, text := range []string{"", "some", "2 or 3", "2.5", "7/3", "2 1", "months 2"} {
		if got, ok := words.English().ReadWhole(text); ok {
			t.Errorf("%q is %d, want no number", text, got)
		}
	}
	for text, want := range map[string]int{"August": 8, "sept.": 9, " dec ": 12, "ma": 0, "8": 8, "Thermidor": 0} {
		if got, ok := words.English().ReadMonth(text); ok != (want > 0) || ok && got != want {
			t.Errorf("month %q is %d (%v), want %d", text, got, ok, want)
		}
	}
	es, _ := words.In("es")
	for text, want := range map[string]int{"ago": 8, "enero": 1, "January": 1} {
		if got, ok := es.ReadMonth(text); got != want || !ok {
			t.Errorf("month %q in Spanish is %d (%v), want %d", text, got, ok, want)
		}
	}
	for text, want := range map[string]int{"dos": 2, "una": 1, "nadie": 0, "two": 2, "ninguno": 0, "12 meses": 12} {
		if got, ok := es.ReadWhole(text); got != want || !ok {
			t.Errorf("%q in Spanish is %d (%v), want %d", text, got, ok, want)
		}
	}
}

func TestReadDay(t *testing.T) {
	for _, tt := range []struct {
		in   *words.Language
		text string
		want words.TypedDay
	}{
		{words.English(), "10/07/2026", words.TypedDay{Year: "2026", Month: "10", Day: "07"}},
		{words.English(), "Sept 4", words.TypedDay{Month: "9", Day: "4"}},
		{words.English(), "the first of March, 2026", words.TypedDay{Year: "2026", Month: "3", Day: "1"}},
		{words.English(), "soon", words.TypedDay{}},
		{latin, "10/07/2026", words.TypedDay{Year: "2026", Month: "10", Day: "07", Exchanged: true}},
		{latin, "10-7", words.TypedDay{Month: "10", Day: "7", Exchanged: true}},
		{latin, "25/07/2026", words.TypedDay{Year: "2026", Month: "07", Day: "25"}},
		{latin, "07/25/2026", words.TypedDay{Year: "2026", Month: "07", Day: "25"}},
		{latin, "10/10/26", words.TypedDay{Year: "26", Month: "10", Day: "10"}},
		{latin, "2026-07-10", words.TypedDay{Year: "2026", Month: "07", Day: "10"}},
		{latin, "10 de julio de 2026", words.TypedDay{Year: "2026", Month: "7", Day: "10"}},
		{latin, "El 10 de Julio del 2026", words.TypedDay{Year: "2026", Month: "7", Day: "10"}},
		{latin, "10 jul", words.TypedDay{Month: "7", Day: "10"}},
		{latin, "10 AGO. 2026", words.TypedDay{Year: "2026", Month: "8", Day: "10"}},
		{latin, "julio 10, 2026", words.TypedDay{Year: "2026", Month: "7", Day: "10"}},
		{latin, "primero de enero", words.TypedDay{Month: "1", Day: "1"}},
		{latin, "1º de enero", words.TypedDay{Month: "1", Day: "1"}},
		{latin, "el 15", words.TypedDay{Day: "15"}},
		{latin, "July 10, 2026", words.TypedDay{Year: "2026", Month: "7", Day: "10"}},
		{latin, "10 de brumario", words.TypedDay{Month: "brumario", Day: "10"}},
	} {
		if got, ok := tt.in.ReadDay(tt.text); got != tt.want || ok == (tt.want == words.TypedDay{}) {
			t.Errorf("%s: %q is %+v (%v), want %+v", tt.in.Tag(), tt.text, got, ok, tt.want)
		}
	}
}

// A list may turn on the sound that its last word begins with, and a question
// gets its capital after the mark that opens it.
func TestSounds(t *testing.T) {
	for _, tt := range []struct{ last, want string }{
		{"Inés", "Ana e Inés / Ana o Inés"},
		{"Hilda", "Ana e Hilda / Ana o Hilda"},
		{"Olga", "Ana y Olga / Ana u Olga"},
		{"hielo", "Ana y hielo / Ana o hielo"},
		{"Luz", "Ana y Luz / Ana o Luz"},
		{"", "Ana y  / Ana o "},
	} {
		if got := latin.Say(words.T("test.list", "l", []string{"Ana", tt.last})); got != tt.want {
			t.Errorf("got %q, want %q", got, tt.want)
		}
	}
	for text, want := range map[string]string{"¿cuánto": "¿Cuánto", "élite": "Élite", "«sí": "«Sí", "": "", "¿": "¿", "iFix": "iFix", "ABC": "ABC"} {
		if got := words.Capital(text); got != want {
			t.Errorf("got %q, want %q", got, want)
		}
	}
	if got, want := latin.Say(words.T("test.day", "d", day{2026, 7, 10})), "10 de julio de 2026 | 10 de julio"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}

// Whatever money.Parse reads, ReadAmount reads alike, but for what means
// something else elsewhere; and it never panics.
func FuzzReadAmount(f *testing.F) {
	for _, s := range []string{"$48k", "48,000/yr", "650 x 3", "1.200,50", "1 200", "9000.", "-20", "~5k a month", "48 mil"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		want, strict := money.Parse(s)
		for _, l := range []*words.Language{words.English(), latin} {
			got, err := l.ReadAmount(s)
			var fault *money.Fault
			if strict != nil || errors.As(err, &fault) && fault.Code == "comma" {
				continue
			}
			if err != nil || !got.Amount.Equal(want) || got.Per != words.Unsaid {
				t.Errorf("%q is %v per %d (%v), money.Parse reads %v", s, got.Amount, got.Per, err, want)
			}
		}
	})
}

// In Spanish "mar" is Tuesday and March.
func TestWeekdayOrMonth(t *testing.T) {
	es, _ := words.In("es")
	for text, want := range map[string]words.TypedDay{
		"mar 3":             {Month: "3", Day: "3"},
		"mar 3 de junio":    {Month: "6", Day: "3"},
		"viernes 12 de jun": {Month: "6", Day: "12"},
		"Fri June 12":       {Month: "6", Day: "12"},
	} {
		if got, ok := es.ReadDay(text); got != want || !ok {
			t.Errorf("%q is %+v (%v), want %+v", text, got, ok, want)
		}
	}
}
