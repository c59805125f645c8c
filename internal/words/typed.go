package words

import (
	"regexp"
	"slices"
	"strconv"
	"strings"

	"example.com/plumbline/internal/money"
)

// Per is the time that an amount is for.
type Per int8

// The times that people name.
const (
	Unsaid Per = iota
	PerHour
	PerWeek
	PerMonth
	PerYear
)

// TypedAmount is an amount as a person typed it.
type TypedAmount struct {
	Amount money.Amount
	Per    Per
}

// TypedDay is a day as a person typed it, each part in digits: a month by its
// number where its name is known, else as it was typed. What was left out is
// empty.
type TypedDay struct {
	Year, Month, Day string
	// Exchanged: the numbers may also be the other way around, the day for the
	// month.
	Exchanged bool
}

// typing is what a language knows of numbers and days that people type. English
// words are understood in every language, since the paper in hand is English.
type typing struct {
	about, currency, thousand []string // of an amount: before it, after it
	per, times                *regexp.Regexp
	pers, adverbs             map[string]Per // what follows "per", and what says it alone: hour, hourly
	first                     []string       // for the first day of a month
	weekdays                  []string
	numbers, named, dayNamed  *regexp.Regexp
	dayAlone                  *regexp.Regexp
	months                    []string // in the language, then in English
	monthFirst                bool     // in a date of numbers; else nobody can tell
}

var (
	isoDay      = regexp.MustCompile(`^([0-9]{4})[/.-]([0-9]{1,2})[/.-]([0-9]{1,2})$`)
	spaced      = regexp.MustCompile(`^[0-9]{1,3}([ '\x{a0}\x{2019}\x{202f}][0-9]{3})+(\.[0-9]+)?$`)
	onlyLetters = regexp.MustCompile(`^\pL+$`)
	// A comma before the cents, or points between the thousands: in American
	// English both mean something else, so they are questioned and never read.
	elsewhere = regexp.MustCompile(`^[0-9]{1,3}(\.[0-9]{3})+(,[0-9]{1,2})?$|^[0-9]{1,3}([ '\x{a0}\x{2019}\x{202f}][0-9]{3})+,[0-9]{1,2}$|^[0-9]+,[0-9]{1,2}$`)
)

// Typed are the words of an entry below language.typed, by which people say
// something when they type, in the language and in English.
func (l *Language) Typed(name string) []string {
	var all []string
	for _, in := range []*Language{l, English()} {
		for w := range strings.SplitSeq(in.Say(T("language.typed."+name)), ",") {
			if w = Fold(strings.TrimSpace(w)); w != "" && !slices.Contains(all, w) {
				all = append(all, w)
			}
		}
	}
	return all
}

// understood makes what the language knows of typed text, once.
func (l *Language) understood() *typing {
	l.typingOnce.Do(func() {
		t := &typing{
			about: l.Typed("about"), currency: l.Typed("currency"), thousand: l.Typed("thousand"),
			pers: map[string]Per{}, adverbs: map[string]Per{}, first: l.Typed("first"), weekdays: l.Typed("weekday"),
			monthFirst: l.Say(T("language.date.numbers")) != "unclear",
		}
		for name, per := range map[string]Per{"hour": PerHour, "week": PerWeek, "month": PerMonth, "year": PerYear} {
			for _, w := range l.Typed(name) {
				t.pers[w] = per
			}
			for _, w := range l.Typed(name + "ly") {
				t.adverbs[w] = per
			}
		}
		t.per = regexp.MustCompile(`^(.*[0-9.].*?)\s*(?:/|\b` + oneOf(l.Typed("per")) + `\b)\s*(\pL+)\.?$`)
		t.times = regexp.MustCompile(`^(.*?)\s*` + oneOf(l.Typed("times")) + `\s*([0-9]{1,3})$`)
		the, of, ordinal := oneOf(l.Typed("the")), oneOf(l.Typed("of")), oneOf(l.Typed("ordinal"))
		year := `(?:,?\s+(?:` + of + `\s+)?([0-9]{4}|[0-9]{2}))?$`
		t.numbers = regexp.MustCompile(`^([0-9]{1,2})[/.-]([0-9]{1,2})(?:[/.-]([0-9]{4}|[0-9]{2}))?$`)
		t.named = regexp.MustCompile(`^(\pL+)\.?\s*(?:` + the + `\s+)?([0-9]{1,2})` + ordinal + `?` + year)
		t.dayNamed = regexp.MustCompile(`^(?:` + the + `\s+)?([0-9]{1,2})` + ordinal + `?(?:\s+` + of + `)?\s+(\pL+)\.?` + year)
		t.dayAlone = regexp.MustCompile(`^(?:` + the + `\s+([0-9]{1,2})` + ordinal + `?|([0-9]{1,2})` + ordinal + `)$`)
		for _, in := range []*Language{l, English()} {
			for m := 1; m <= 12; m++ {
				t.months = append(t.months, Fold(in.Say(monthName(m))))
			}
		}
		l.typing = t
	})
	return l.typing
}

// oneOf matches one of some words.
func oneOf(words []string) string {
	quoted := make([]string, len(words))
	for i, w := range words {
		quoted[i] = regexp.QuoteMeta(w)
	}
	return `(?:` + strings.Join(quoted, "|") + `)`
}

// ReadAmount reads an amount as people type it: all that money.Parse reads, and
// $48k, 48,000/yr, 650 a month, 650 x 3, 9000., 1 200, about 9000, in the words
// of the language or in English. What it cannot read it names in a
// *money.Fault: "comma" for a number that means one thing here and another
// elsewhere (1.200,50), "part" for a part that is no number or time, else the
// faults of money.Parse.
func (l *Language) ReadAmount(text string) (TypedAmount, error) {
	var typed TypedAmount
	t := l.understood()
	s := Fold(strings.TrimSpace(text))
	for _, before := range t.about {
		s = strings.TrimSpace(strings.TrimPrefix(s, before))
	}
	for adverb, per := range t.adverbs {
		if rest, ok := strings.CutSuffix(s, " "+adverb); ok {
			s, typed.Per = strings.TrimSpace(rest), per
		}
	}
	if m := t.per.FindStringSubmatch(s); m != nil && typed.Per == Unsaid {
		per, known := t.pers[m[2]]
		if !known {
			return typed, &money.Fault{Code: "part", Text: m[2]}
		}
		s, typed.Per = m[1], per
	}
	times := int64(1)
	if m := t.times.FindStringSubmatch(s); m != nil {
		s = m[1]
		times, _ = strconv.ParseInt(m[2], 10, 64)
	}
	for _, after := range t.currency {
		s = strings.TrimSpace(strings.TrimSuffix(s, " "+after))
	}
	a, err := t.number(s)
	if err != nil {
		return typed, err
	}
	typed.Amount = a.Times(int(times))
	return typed, nil
}

// number is one number as people type it.
func (t *typing) number(s string) (money.Amount, error) {
	negative := strings.HasPrefix(s, "-")
	s = strings.TrimSpace(strings.TrimPrefix(strings.TrimPrefix(s, "-"), "$"))
	thousands := false
	for _, after := range t.thousand {
		if rest, ok := strings.CutSuffix(s, after); ok && !thousands {
			s, thousands = strings.TrimSpace(rest), true
		}
	}
	switch {
	case elsewhere.MatchString(s):
		return money.Zero, &money.Fault{Code: "comma", Text: s}
	case spaced.MatchString(s):
		s = strings.NewReplacer(" ", "", "'", "", "\u00a0", "", "’", "", "\u202f", "").Replace(s)
	}
	if len(s) > 1 {
		s = strings.TrimSuffix(s, ".")
	}
	a, err := money.Parse(s)
	if err != nil {
		if part := strings.TrimLeft(s, "0123456789,. "); part != "" && part != s {
			return money.Zero, &money.Fault{Code: "part", Text: part}
		}
		return money.Zero, err
	}
	if thousands {
		a = a.Times(1000)
	}
	if negative {
		a = a.Neg()
	}
	return a, nil
}

// ReadDay takes a day apart as people type it: 2026-06-15, 6/15/2026, 11/13/26,
// Aug 14, 14 August 2026, Fri June 12, the 15th, in the words of the language or in English.
// Numbers are month, day and year, as in the United States; in a language whose
// readers may write the day first, that is certain only where one of the two
// is no month. It is not ok where the text is no day.
func (l *Language) ReadDay(text string) (d TypedDay, ok bool) {
	t := l.understood()
	fields := strings.Fields(Fold(text))
	if len(fields) > 1 && slices.Contains(t.weekdays, strings.TrimRight(fields[0], ".,")) {
		if d, ok = t.day(fields[1:]); ok { // else "mar 3" is March 3 in Spanish, no Tuesday
			return d, true
		}
	}
	return t.day(fields)
}

// day is the day of a text in small letters, split at its spaces.
func (t *typing) day(fields []string) (d TypedDay, ok bool) {
	fields = slices.Clone(fields)
	for i, f := range fields {
		if slices.Contains(t.first, f) {
			fields[i] = "1"
		}
	}
	s := strings.Join(fields, " ")
	if m := isoDay.FindStringSubmatch(s); m != nil {
		return TypedDay{Year: m[1], Month: m[2], Day: m[3]}, true
	}
	if m := t.numbers.FindStringSubmatch(s); m != nil {
		d = TypedDay{Month: m[1], Day: m[2], Year: m[3]}
		first, _ := strconv.Atoi(m[1])
		second, _ := strconv.Atoi(m[2])
		switch {
		case t.monthFirst || first == second || second > 12:
		case first > 12:
			d.Month, d.Day = d.Day, d.Month
		default:
			d.Exchanged = true
		}
		return d, true
	}
	if m := t.dayAlone.FindStringSubmatch(s); m != nil {
		return TypedDay{Day: m[1] + m[2]}, true
	}
	if m := t.named.FindStringSubmatch(s); m != nil {
		return TypedDay{Month: t.month(m[1]), Day: m[2], Year: m[3]}, true
	}
	if m := t.dayNamed.FindStringSubmatch(s); m != nil {
		return TypedDay{Day: m[1], Month: t.month(m[2]), Year: m[3]}, true
	}
	return TypedDay{}, false
}

// ReadWhole reads a small whole number as people type it: 2, two, 2 jobs, none.
// It is not ok where the text is none.
func (l *Language) ReadWhole(text string) (n int, ok bool) {
	fields := strings.Fields(Fold(text))
	if len(fields) == 0 || len(fields) > 2 || len(fields) == 2 && !onlyLetters.MatchString(fields[1]) {
		return 0, false
	}
	number := strings.TrimSuffix(fields[0], "%")
	if n, err := strconv.Atoi(number); err == nil {
		return n, true
	}
	if len(fields) == 1 && slices.Contains(l.Typed("none"), number) {
		return 0, true
	}
	for _, in := range []*Language{l, English()} {
		n := 0
		for same := range strings.SplitSeq(in.Say(T("language.typed.numbers")), ",") {
			for w := range strings.SplitSeq(same, "/") {
				if Fold(strings.TrimSpace(w)) == number {
					return n, true
				}
			}
			n++
		}
	}
	return 0, false
}

// ReadMonth reads a month by its name or the first three letters of it, in the words
// of the language or in English. It is not ok where the text is none.
func (l *Language) ReadMonth(text string) (n int, ok bool) {
	n, err := strconv.Atoi(l.understood().month(strings.TrimRight(Fold(strings.TrimSpace(text)), ".")))
	return n, err == nil
}

// month is the number of a month by its name or the first three letters of it;
// a name that is none as it is.
func (t *typing) month(name string) string {
	if len(name) >= 3 {
		for i, m := range t.months {
			if strings.HasPrefix(m, name) {
				return strconv.Itoa(i%12 + 1)
			}
		}
	}
	return name
}

// Fold is a text in small letters without accents, for comparing what people
// type with what we say.
func Fold(s string) string { return unaccented.Replace(strings.ToLower(s)) }

var unaccented = strings.NewReplacer("á", "a", "à", "a", "â", "a", "ã", "a", "ä", "a", "ç", "c", "é", "e", "è", "e", "ê", "e", "ë", "e",
	"í", "i", "ì", "i", "î", "i", "ï", "i", "ñ", "n", "ó", "o", "ò", "o", "ô", "o", "õ", "o", "ö", "o", "ú", "u", "ù", "u", "û", "u", "ü", "u")
