package words

import (
	"fmt"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"example.com/plumbline/internal/money"
)

// write puts a message together with the values of a text. number is the value
// of the plural that the message is a case of.
func (l *Language) write(b *strings.Builder, m message, t Text, number string) {
	for _, p := range m {
		switch {
		case p.name == "":
			b.WriteString(p.literal)
		case p.name == numberSign:
			b.WriteString(number)
		default:
			v, ok := t.value(p.name)
			switch {
			case !ok:
				b.WriteString("{" + p.name + "}")
			case p.choice == "":
				b.WriteString(l.format(v, p.formats))
			default:
				then, shown := l.choose(p, v)
				if p.choice == "select" {
					shown = number
				}
				l.write(b, then, t, shown)
			}
		}
	}
}

// choose is the case of a choice that a value falls under, and the value as a
// number.
func (l *Language) choose(p piece, v any) (message, string) {
	shown := fmt.Sprint(v)
	form := shown
	if n, ok := v.(int); ok && p.choice == "plural" {
		shown = money.Dollars(int64(n)).GroupedDollars()
		form = "other"
		if n == 1 {
			form = "one"
		}
		for _, c := range p.cases {
			if c.when == "="+strconv.Itoa(n) {
				return c.then, shown
			}
		}
	}
	for _, c := range p.cases {
		if c.when == form || c.when == "other" {
			return c.then, shown
		}
	}
	return nil, shown
}

// formatNames are the formats that a place may ask for; see the package comment.
var formatNames = []string{"dollars", "cents", "whole", "day", "numeric", "grouped", "short", "step", "or", "capital"}

// format is a value as people read it.
func (l *Language) format(v any, formats []string) string {
	format, capital := "", false
	for _, f := range formats {
		if f == "capital" {
			capital = true
			continue
		}
		format = f
	}
	s := l.plain(v, format)
	if capital {
		s = Capital(s)
	}
	return s
}

// longestQuote is how many characters of a text are quoted back in the format
// short.
const longestQuote = 40

func (l *Language) plain(v any, format string) string {
	switch v := v.(type) {
	case string:
		if r := []rune(v); format == "short" && len(r) > longestQuote {
			return string(r[:longestQuote]) + "…"
		}
		if format == "step" && len(v) > 1 {
			return v[:1] + "(" + v[1:] + ")"
		}
		return v
	case Text:
		return l.Say(v)
	case money.Amount:
		return amount(v, format)
	case int:
		if format == "grouped" {
			return money.Dollars(int64(v)).GroupedDollars()
		}
		return strconv.Itoa(v)
	case Day:
		return l.day(v, format)
	case []Text:
		said := make([]string, len(v))
		for i, t := range v {
			said[i] = l.Say(t)
		}
		return l.list(said, format)
	case []string:
		return l.list(v, format)
	case error:
		return l.Error(v)
	}
	return fmt.Sprint(v)
}

// amount is an amount of money in a format; a minus sign goes before the
// dollar sign.
func amount(a money.Amount, format string) string {
	sign := ""
	if a.IsNegative() {
		sign = "-"
	}
	switch format {
	case "dollars":
		if a.ToDollar().IsZero() {
			sign = ""
		}
		return sign + "$" + a.Abs().GroupedDollars()
	case "cents":
		return sign + "$" + a.Abs().Grouped()
	case "whole":
		return a.GroupedDollars()
	}
	return a.Grouped()
}

// day is a date in the language's own order of its parts.
func (l *Language) day(d Day, format string) string {
	year, month, day := d.Civil()
	if format == "numeric" {
		return fmt.Sprintf("%04d-%02d-%02d", year, int(month), day)
	}
	code := "language.date.full"
	if format == "day" {
		code = "language.date.day"
	}
	return l.Say(T(code, "day", day, "year", year, "month", monthName(int(month))))
}

func monthName(month int) Text { return T("language.month." + strconv.Itoa(month)) }

// list joins words as a sentence does: a, b and c. An entry may choose by the
// sound that the last one begins with.
func (l *Language) list(items []string, format string) string {
	last := "language.list.and"
	if format == "or" {
		last = "language.list.or"
	}
	switch n := len(items); n {
	case 0:
		return ""
	case 1:
		return items[0]
	default:
		return l.Say(T(last, "rest", strings.Join(items[:n-1], ", "), "last", items[n-1], "sound", sound(items[n-1])))
	}
}

// sound is the vowel that a word begins with to the ear, for the languages in
// which a word before it turns on that: the first letter, after an h that is not
// heard. It is empty where the i is the beginning of a diphthong.
func sound(word string) string {
	letters := []rune(strings.TrimPrefix(Fold(word), "h"))
	switch {
	case len(letters) == 0, len(letters) > 1 && letters[0] == 'i' && strings.ContainsRune("aeou", letters[1]):
		return ""
	}
	return string(letters[0])
}

// Capital is a phrase with a capital letter first, after a mark that opens a
// question or a quotation. A name that is spelled with its capital later, like
// iFix, stays as it is.
func Capital(s string) string {
	first := strings.IndexFunc(s, func(r rune) bool { return !strings.ContainsRune("¿¡«“\"", r) })
	if first < 0 {
		return s
	}
	letter, size := utf8.DecodeRuneInString(s[first:])
	if second, _ := utf8.DecodeRuneInString(s[first+size:]); unicode.IsUpper(second) {
		return s
	}
	return s[:first] + string(unicode.ToUpper(letter)) + s[first+size:]
}
