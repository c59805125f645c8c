// Package words is every sentence that people read: one YAML file a language,
// each entry by a permanent code. It hides where the sentences are kept, how
// values are put into them, what a language does with lists, plurals and dates,
// and how amounts and days are typed in it.
//
// A package that computes says what it means with T: a code and arguments by
// name, nothing formatted. The edge (pages, screens, JSON, errors) chooses a
// Language and asks it to Say the text. So a figure has one meaning and as many
// wordings as there are files, and nobody mends a finished sentence.
//
// An entry is a message in the manner of ICU MessageFormat, of which this much
// is known:
//
//	{pay}                                    the value, by its type
//	{pay:dollars}                            the value in a format, see below
//	{n, plural, =0 {none} one {# paycheck} other {# paychecks}}
//	{kind, select, pension {payment} other {paycheck}}
//	{{                                       a brace
//
// Values and their formats:
//
//	money.Amount   1,234.50; dollars $1,234; cents $1,234.50; whole 1,234
//	Day            July 10, 2026; day July 10; numeric 2026-07-10
//	money.Rate     22%
//	int            5; grouped 1,234
//	string         as it is: a name that a person typed, or the form's own term;
//	               short at most 40 characters; step 4(c) of "4c"
//	Text           said in the same language
//	[]Text, []string  a, b and c; or a, b or c
//	error          as Language.Error says it
//
// Any of them may be followed by capital, which gives the first letter a
// capital: {job:capital}.
//
// The package refuses to compute: an amount is shown as it comes, rounded to
// what the format shows and no more.
package words

import (
	"fmt"
	"slices"
	"time"
)

// Text is something to be said: a code and the values that go into it. The zero
// Text says nothing.
type Text struct {
	Code string
	Args []Arg
}

// Arg is a value by the name that its entry gives it.
type Arg struct {
	Name  string
	Value any
}

// Day is a day of the calendar, as package household has it.
type Day interface {
	Civil() (year int, month time.Month, day int)
}

// T is the text of a code, with its values by name: T("page.due", "amount", a).
// A name without a value, or one that is no string, is a mistake of the
// program's, which a test of this package finds; T says so in the text.
func T(code string, namesAndValues ...any) Text {
	t := Text{Code: code}
	if len(namesAndValues) == 0 {
		return t
	}
	t.Args = make([]Arg, 0, len(namesAndValues)/2)
	for i := 0; i+1 < len(namesAndValues); i += 2 {
		name, ok := namesAndValues[i].(string)
		if !ok {
			name = fmt.Sprintf("not a name: %v", namesAndValues[i])
		}
		t.Args = append(t.Args, Arg{name, namesAndValues[i+1]})
	}
	return t
}

// IsZero reports whether there is nothing to say.
func (t Text) IsZero() bool { return t.Code == "" }

// With is the text with one more value.
func (t Text) With(name string, value any) Text {
	return Text{t.Code, append(slices.Clip(t.Args), Arg{name, value})}
}

// Equal reports whether two texts say the same.
func (t Text) Equal(u Text) bool {
	if t.Code != u.Code || len(t.Args) != len(u.Args) {
		return false
	}
	for i, a := range t.Args {
		if a.Name != u.Args[i].Name || fmt.Sprint(a.Value) != fmt.Sprint(u.Args[i].Value) {
			return false
		}
	}
	return true
}

// value is the value of a name.
func (t Text) value(name string) (any, bool) {
	for _, a := range t.Args {
		if a.Name == name {
			return a.Value, true
		}
	}
	return nil, false
}

// Problem is an error that is worded late. Where nobody chooses a language it
// speaks the first one, English.
type Problem struct{ Text }

// Fail is a Problem of a code with its values, as T takes them.
func Fail(code string, namesAndValues ...any) error { return Problem{T(code, namesAndValues...)} }

func (p Problem) Error() string { return English().Say(p.Text) }
