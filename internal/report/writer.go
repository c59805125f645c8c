package report

import (
	"strings"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/layout"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/words"
)

// Writer writes pages in one language.
type Writer struct{ language *words.Language }

// In is the writer of a language.
func In(l *words.Language) Writer { return Writer{l} }

// say words a text by its code, with its values by name.
func (w Writer) say(code string, namesAndValues ...any) string {
	return w.language.Say(words.T(code, namesAndValues...))
}

// said is what another package says: a text of its own, or one to be worded.
func (w Writer) said(v any) string {
	switch v := v.(type) {
	case words.Text:
		return w.language.Say(v)
	case string:
		return sentence(v)
	}
	return ""
}

// sentence is a phrase as a sentence of its own.
func sentence(s string) string {
	if s == "" {
		return ""
	}
	s = words.Capital(s)
	if !strings.ContainsAny(s[len(s)-1:], ".!?") {
		s += "."
	}
	return s
}

// longestName is the most columns that a name takes up on a page.
const longestName = 32

// shortName is a name cut to the length that pages have room for.
func shortName(name string) string {
	return strings.TrimRight(layout.Clip(strings.Join(strings.Fields(layout.Clean(name)), " "), longestName), " ")
}

// form is the certificate that a job takes, by its name.
func (w Writer) form(k household.JobKind) string { return w.say("page.form", "kind", k.String()) }

// status is a filing status in words.
func (w Writer) status(s household.Status) string { return w.say("page.status." + s.String()) }

// balance is how a year ends, in a few words: whole dollars, no sign.
func (w Writer) balance(a money.Amount) string {
	switch whole := a.ToDollar(); {
	case whole.IsPositive():
		return w.say("page.balance.back", "amount", a)
	case whole.IsNegative():
		return w.say("page.balance.owe", "amount", a.Abs())
	}
	return w.say("page.balance.even")
}

// balanceCell is a balance in a table's cell, where every other balance is owed or
// comes back.
func (w Writer) balanceCell(a money.Amount) string {
	if a.ToDollar().IsZero() {
		return w.say("page.balance.even_cell")
	}
	return w.balance(a)
}

// more is how much more or less something is, in whole dollars.
func (w Writer) more(a money.Amount) string {
	switch whole := a.ToDollar(); {
	case whole.IsPositive():
		return w.say("page.change.more", "amount", a)
	case whole.IsNegative():
		return w.say("page.change.less", "amount", a.Abs())
	}
	return w.say("page.change.none")
}

// dollars is an amount in whole dollars.
func (w Writer) dollars(a money.Amount) string { return w.say("page.amount.dollars", "amount", a) }
