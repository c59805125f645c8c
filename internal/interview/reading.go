package interview

import (
	"errors"
	"slices"
	"strconv"
	"strings"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/words"
)

// read turns what a person typed or chose into the text that the file keeps, or
// says how to answer.
func (s *step) read(text string, today household.Date, year int) (string, error) {
	text = strings.TrimSpace(text)
	if s.saysUnknown(text) || text == "" && s.wording.Kind == Named && s.takesUnknown() { // an emptied place for a name leaves it out
		return Unknown, nil
	}
	if text == "" {
		return "", words.Fail("interview.error.empty")
	}
	switch s.wording.Kind {
	case Choice:
		return s.readChoice(text)
	case Named:
		return s.readNamed(text)
	case Several:
		return s.readSeveral(text)
	case YesNo:
		return s.readYesNo(text)
	case Amount:
		return s.readAmount(text)
	case Whole:
		return s.readWhole(text)
	case Day:
		d, err := household.DayTyped{Today: today, Year: year, Ahead: ahead[s.wording.Key], Birth: s.wording.Birth}.Read(text, s.lang)
		if err != nil {
			return "", err
		}
		return d.String(), nil
	}
	return s.readWords(text)
}

// saysUnknown reports an answer of someone who does not know, in the language or as
// the file has it.
func (s *step) saysUnknown(text string) bool {
	said := func(phrase string) bool {
		return words.Fold(text) == words.Fold(s.lang.Say(words.T("interview.phrase."+phrase)))
	}
	return s.takesUnknown() && (strings.EqualFold(text, Unknown) || said("unknown") || said("not_known"))
}

// ahead are the questions about a day to come.
var ahead = map[string]bool{
	"jobs[].last_payday": true, "jobs[].one_time_pay[].payday": true, "what_if.last_day": true, "what_if.first_day": true, "what_if.birth": true,
}

// accepts reports whether a text in the file is an answer to the question.
func (s *step) accepts(text string) bool {
	switch s.wording.Kind {
	case Choice, Named:
		return s.offers(text)
	case Several:
		for _, v := range answer(text).picks() {
			if !s.worded(v) {
				return false
			}
		}
		return text != ""
	case YesNo:
		return text == "true" || text == "false"
	case Amount:
		_, err := money.Parse(text)
		return err == nil
	case Whole:
		read, err := s.readWhole(text)
		return err == nil && read == text
	case Day:
		return !answer(text).day().IsZero()
	}
	return text != ""
}

func (s *step) worded(value string) bool { return slices.Contains(s.wording.Options, value) }

// label is what an option is called.
func (s *step) label(value string) string {
	if own := s.labels[value]; own != "" {
		return own
	}
	if s.wording.Kind == Named {
		return stateName(s.lang, value)
	}
	return s.lang.Say(words.T("question." + s.wording.Key + ".option." + value))
}

// match finds the offered option that a text names by its value or its label.
func (s *step) match(text string) (string, bool) {
	for _, v := range s.options() {
		if strings.EqualFold(text, v) || words.Fold(text) == words.Fold(s.label(v)) {
			return v, true
		}
	}
	return "", false
}

func (s *step) readChoice(text string) (string, error) {
	if v, ok := s.match(text); ok {
		return v, nil
	}
	return "", words.Fail("interview.error.no_choice", "text", clip(text))
}

// readNamed finds the option that a text names by its value, by its name in the
// language or in English, or by the beginning or the end of one name only: the
// District of Columbia.
func (s *step) readNamed(text string) (string, error) {
	typed := words.Fold(strings.ReplaceAll(text, ".", "")) // D.C.
	var near []string
	for _, v := range s.options() {
		for _, name := range []string{v, s.label(v), stateName(words.English(), v)} {
			name = words.Fold(name)
			if name == typed {
				return v, nil
			}
			if !slices.Contains(near, v) && (strings.HasPrefix(name, typed) || strings.HasSuffix(name, " "+typed)) {
				near = append(near, v)
			}
		}
	}
	if len(near) != 1 {
		return "", words.Fail("interview.error.no_state", "text", clip(text))
	}
	return near[0], nil
}

// stateName is what a language calls a state, by its postal code.
func stateName(l *words.Language, code string) string {
	return words.Capital(l.Say(words.T("state." + code)))
}

func (s *step) readSeveral(text string) (string, error) {
	if slices.Contains(s.lang.Typed("none"), words.Fold(text)) {
		return None, nil
	}
	var values []string
	for part := range strings.SplitSeq(text, ",") {
		v, ok := s.match(strings.TrimSpace(part))
		if !ok {
			return "", words.Fail("interview.error.not_listed", "text", clip(strings.TrimSpace(part)))
		}
		if !slices.Contains(values, v) {
			values = append(values, v)
		}
	}
	return strings.Join(values, ", "), nil
}

// withHidden adds to an answer of kind Several the values that were chosen
// earlier and are not offered at present, so that they come back when they are.
func (s *step) withHidden(text, earlier string) string {
	if s.wording.Kind != Several {
		return text
	}
	values := answer(text).picks()
	for _, v := range answer(earlier).picks() {
		if s.worded(v) && !s.offers(v) {
			values = append(values, v)
		}
	}
	if len(values) == 0 {
		return None
	}
	return strings.Join(values, ", ")
}

func (s *step) readYesNo(text string) (string, error) {
	folded := words.Fold(text)
	switch {
	case folded == "true", slices.Contains(s.lang.Typed("yes"), folded):
		return "true", nil
	case folded == "false", slices.Contains(s.lang.Typed("no"), folded):
		return "false", nil
	}
	return "", words.Fail("interview.error.no_yes_or_no", "text", clip(text))
}

// readAmount reads an amount for the time that the question asks about; one
// for another time is turned into it.
func (s *step) readAmount(text string) (string, error) {
	typed, err := s.lang.ReadAmount(text)
	if err != nil {
		return "", unreadable(err)
	}
	a := typed.Amount
	if a.IsNegative() && !s.wording.Negative {
		return "", words.Fail("interview.error.negative")
	}
	if typed.Per != words.Unsaid {
		times, by := s.wording.Per.from(typed.Per, s.periods)
		if by == 0 {
			return "", words.Fail("interview.error.per", "per", s.wording.Per.String())
		}
		a = a.Times(times).DividedBy(by).ToCent()
	}
	if s.most > 0 && s.wording.Per == perWeekHours && a.More(money.Dollars(int64(s.most))) {
		return "", words.Fail("interview.error.too_many_hours", "most", s.most)
	}
	return a.Text(), nil
}

// unreadable says what of an amount cannot be read.
func unreadable(err error) error {
	var f *money.Fault
	if !errors.As(err, &f) {
		return err
	}
	return words.Fail("interview.error.amount."+f.Code, "text", clip(f.Text))
}

func (s *step) readWhole(text string) (string, error) {
	if folded, last := words.Fold(text), household.LastDay.String(); s.wording.MonthDay && (folded == last || folded == words.Fold(s.asTyped(last))) {
		return last, nil
	}
	if s.wording.Month {
		if n, ok := s.lang.ReadMonth(text); ok {
			text = strconv.Itoa(n)
		}
	}
	n, ok := s.lang.ReadWhole(text)
	switch {
	case !ok && s.wording.Month:
		return "", words.Fail("interview.error.no_month", "text", clip(text))
	case !ok:
		return "", words.Fail("interview.error.no_whole", "text", clip(text))
	case n > 0 && n < s.least && s.tooLow != "":
		return "", words.Fail("interview.error."+s.tooLow, "number", n, "least", s.least)
	case n < s.least || n > s.most:
		return "", words.Fail("interview.error.out_of_range", "number", n, "least", s.least, "most", s.most)
	}
	return strconv.Itoa(n), nil
}

// asTyped is an answer as people type it in the language: the name of an option
// that no list shows, and of a day of the month, the word for the last one.
func (s *step) asTyped(text string) string {
	switch {
	case text == Unknown && s.takesUnknown() && s.wording.Kind != YesNo: // which has an option for it
		return s.lang.Say(words.T("interview.phrase.unknown"))
	case s.wording.Kind == Named && s.offers(text):
		return s.label(text)
	case s.wording.MonthDay && text == household.LastDay.String():
		return s.lang.Say(words.T("interview.phrase.last_day"))
	}
	return text
}

func (s *step) readWords(text string) (string, error) {
	const most = 60
	text = strings.Join(strings.Fields(text), " ")
	if _, err := s.readYesNo(text); err == nil || strings.EqualFold(text, None) {
		return "", words.Fail("interview.error.no_name", "text", text)
	}
	if len(text) > most {
		return "", words.Fail("interview.error.too_long", "most", most)
	}
	return text, nil
}

// shown is an answer as people read it; the options are those of the question
// as it is put, with their values filled in.
func (s *step) shown(text string, options []Option) string {
	phrase := func(name string, v ...any) string { return s.lang.Say(words.T("interview.phrase."+name, v...)) }
	if s.saysUnknown(text) {
		return phrase("not_known")
	}
	switch s.wording.Kind {
	case Choice:
		return s.labelOf(text, options)
	case Named:
		return s.asTyped(text)
	case Several:
		var labels []string
		for _, v := range answer(text).picks() {
			labels = append(labels, s.labelOf(v, options))
		}
		if len(labels) == 0 {
			return phrase("none")
		}
		return strings.Join(labels, "; ")
	case YesNo:
		if text == "true" {
			return phrase("yes")
		}
		return phrase("no")
	case Amount:
		a := answer(text).amount()
		switch {
		case s.wording.Per == perWeekHours:
			return text
		case a.Equal(a.DollarDown()):
			return phrase("amount", "amount", a)
		}
		return phrase("amount_in_cents", "amount", a)
	case Day:
		return phrase("day", "day", answer(text).day())
	}
	return s.asTyped(text)
}

func (s *step) labelOf(value string, options []Option) string {
	for _, o := range options {
		if o.Value == value {
			return o.Label
		}
	}
	return value
}

// clip keeps an offending text short enough to stand in a message.
func clip(text string) string {
	const most = 40
	if r := []rune(text); len(r) > most {
		return string(r[:most]) + "…"
	}
	return text
}

// Per is the time that a question asks an amount for.
type Per int8

const (
	perNone Per = iota
	perHour
	perPaycheck
	perMonth
	perYear
	perWeekHours // hours, of a week
)

var perNames = []string{"none", "hour", "paycheck", "month", "year", "hours"}

func (p Per) String() string { return perNames[p] }

// UnmarshalText reads the name of a time in the file of questions.
func (p *Per) UnmarshalText(text []byte) error {
	i := slices.Index(perNames, string(text))
	if i < 0 {
		return errors.New("not a time to ask an amount for: " + string(text))
	}
	*p = Per(i)
	return nil
}

// from is what turns an amount for a time that was typed into one for the time
// asked about, at so many paychecks a year: times and divided by; zero where
// nothing does.
func (p Per) from(typed words.Per, periods int) (times, by int) {
	const weeks, months = 52, 12
	in := map[words.Per]int{words.PerWeek: weeks, words.PerMonth: months, words.PerYear: 1}[typed]
	switch {
	case p == perHour && typed == words.PerHour, p == perWeekHours && typed == words.PerWeek:
		return 1, 1
	case in == 0:
		return 0, 0
	case p == perYear:
		return in, 1
	case p == perMonth:
		return in, months
	case p == perPaycheck:
		return in, periods
	}
	return 0, 0
}
