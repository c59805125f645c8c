package interview

import (
	_ "embed"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"sync"

	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/yamldoc"
)

// questionsFile is every word that the interview says, so that one person can
// edit all of it in an hour. Its head says how it is written.
//
//go:embed questions.yaml
var questionsFile []byte

// wording is how one question is put.
type wording struct {
	Key      string        `yaml:"key,required"`
	Kind     Kind          `yaml:"kind,required"`
	Birth    bool          `yaml:"birth"`           // of a day: the year alone will do
	Negative bool          `yaml:"may_be_negative"` // of an amount: a loss can be entered
	Label    string        `yaml:"label,required"`
	Text     string        `yaml:"text,required"`
	Why      string        `yaml:"why,required"`
	Where    string        `yaml:"where"`
	Line     string        `yaml:"line"`
	Default  string        `yaml:"default"`
	Reason   string        `yaml:"default_reason"`
	Options  []optionWords `yaml:"options"`
}

type optionWords struct {
	Value string `yaml:"value,required"`
	Label string `yaml:"label,required"`
	Help  string `yaml:"help"`
}

// wordings is the whole file.
type wordings struct {
	Chapters  []string          `yaml:"chapters,required"`
	Phrases   map[string]string `yaml:"phrases,required"`
	Notices   map[string]string `yaml:"notices,required"`
	Cautions  []Caution         `yaml:"cautions,required"`
	Questions []wording         `yaml:"questions,required"`
	WhatIfs   []wording         `yaml:"what_ifs,required"`

	byKey map[string]*wording
}

// Caution is a thing to know before relying on a result, for the front ends to
// show: a limit of the program, or a case that it does not compute.
type Caution struct {
	Code    string `yaml:"code,required"`
	Message string `yaml:"message,required"`
}

// Cautions are what to know before relying on any result, in the order in
// which to show them.
func Cautions() []Caution { return slices.Clone(script().Cautions) }

var script = sync.OnceValue(func() *wordings {
	doc, err := yamldoc.Parse("questions.yaml", questionsFile)
	if err != nil {
		panic(err) // a test reads the file
	}
	w := new(wordings)
	if err := doc.Decode(w).Err(); err != nil {
		panic(err)
	}
	w.byKey = make(map[string]*wording, len(w.Questions))
	for i := range w.Questions {
		q := &w.Questions[i]
		if w.byKey[q.Key] != nil {
			panic("questions.yaml words " + q.Key + " twice")
		}
		w.byKey[q.Key] = q
	}
	return w
})

// question is the wording of a question; every question has one.
func (w *wordings) question(key string) *wording {
	q := w.byKey[key]
	if q == nil {
		panic("questions.yaml does not word " + key)
	}
	return q
}

// whatIf is the wording of a question about what may happen.
func (w *wordings) whatIf(name string) *wording {
	i := slices.IndexFunc(w.WhatIfs, func(q wording) bool { return q.Key == name })
	if i < 0 {
		panic("questions.yaml does not word what_if " + name)
	}
	return &w.WhatIfs[i]
}

var kindNames = []string{"choice", "several", "yes_no", "amount", "whole", "day", "words"}

// UnmarshalText reads the name of a kind in the wording file.
func (k *Kind) UnmarshalText(text []byte) error {
	i := slices.Index(kindNames, string(text))
	if i < 0 {
		return fmt.Errorf("%q is not a kind of question; write one of: %s", text, strings.Join(kindNames, ", "))
	}
	*k = Kind(i)
	return nil
}

// fill puts values in the place of the names in braces.
func fill(text string, value func(name string) (string, bool)) string {
	if !strings.Contains(text, "{") {
		return text
	}
	var b strings.Builder
	for {
		before, rest, found := strings.Cut(text, "{")
		b.WriteString(before)
		if !found {
			return b.String()
		}
		name, after, closed := strings.Cut(rest, "}")
		v, known := value(name)
		if !closed || !known {
			panic("questions.yaml: no value for {" + name + "}")
		}
		b.WriteString(v)
		text = after
	}
}

// notice is a notice of the wording file about the question asked last, with
// further values beside those that any wording may use.
func (w *walk) notice(name string, values ...string) notice {
	text, ok := script().Notices[name]
	if !ok {
		panic("questions.yaml has no notice " + name)
	}
	id := name
	if n := len(w.steps); n > 0 && w.steps[n-1].about.label != "" {
		id += "/" + w.steps[n-1].about.label
	}
	return notice{id, fill(text, func(name string) (string, bool) {
		for i := 0; i+1 < len(values); i += 2 {
			if values[i] == name {
				return values[i+1], true
			}
		}
		return w.value(name, group{})
	})}
}

// dollars is an amount as people read it: "$2,400" or "$2,400.50".
func dollars(a money.Amount) string {
	sign := ""
	if a.IsNegative() {
		sign, a = "-", a.Neg()
	}
	if a.Equal(a.DollarDown()) {
		return sign + "$" + a.GroupedDollars()
	}
	return sign + "$" + a.Grouped()
}

// cents is an amount as a pay stub shows it: "$2,400.00".
func cents(a money.Amount) string { return "$" + a.Grouped() }

// value is what a name in braces stands for. Amounts of the law come from the
// yearly table.
func (w *walk) value(name string, g group) (string, bool) {
	whole := strconv.Itoa
	y, status := w.y, w.household().Status
	switch name {
	case "year":
		return whole(y.Year), true
	case "last_year":
		return whole(y.Year - 1), true
	case "earlier_year":
		return whole(w.log().WasYear), true
	case "since":
		if d := w.returned(); !d.IsZero() {
			return " since " + d.Long(), true
		}
		return "", true
	case "here":
		return g.name, true
	case "stub", "paycheck", "payday", "payroll", "form", "current_form", "old_form":
		if g.pension {
			name = "pension_" + name
		}
		return script().Phrases["word_"+name], true
	case "but_spouse":
		if !w.joint() && !w.separate() {
			return "", true
		}
		return script().Phrases[name], true
	case "i_or_spouse":
		if w.joint() {
			name += "_joint"
		}
		return script().Phrases[name], true
	case "enough_months":
		return whole(y.DependentTests.Child.MonthsOver + 1), true
	case "here_is":
		return upper(g.name), true
	case "standard_deduction":
		return dollars(y.StandardDeduction.Basic.Of(status)), true
	case "aged_from":
		return whole(y.StandardDeduction.AgedFrom), true
	case "child_credit":
		return dollars(y.ChildCredit.PerChild), true
	case "other_credit":
		return dollars(y.ChildCredit.PerOther), true
	case "credit_under":
		return whole(y.ChildCredit.ChildUnder), true
	case "child_under":
		return whole(y.DependentTests.Child.Under), true
	case "student_under":
		return whole(y.DependentTests.Child.StudentUnder), true
	case "care_under":
		return whole(y.DependentCare.ChildUnder), true
	case "residence_months":
		return whole(y.DependentTests.Child.MonthsOver), true
	case "relative_income":
		return dollars(y.DependentTests.Relative.IncomeUnder), true
	case "tips_cap":
		return dollars(y.Tips.Cap.Of(status)), true
	case "overtime_cap":
		return dollars(y.Overtime.Cap.Of(status)), true
	case "car_loan_cap":
		return dollars(y.CarLoan.Cap.Of(status)), true
	case "student_loan_cap":
		return dollars(y.Adjustments.StudentLoan.Cap), true
	case "educator_cap":
		return dollars(y.Adjustments.Educator.Cap), true
	case "gift_cap":
		return dollars(y.PlainGifts.Cap.Of(status)), true
	case "medical_floor":
		return y.Itemized.Medical.Floor.String(), true
	case "state_local_cap":
		return dollars(y.Itemized.StateLocal.Cap.Of(status)), true
	case "benefits_share":
		return y.Benefits.UpperRate.String(), true
	case "early_rate":
		return y.EarlyWithdrawals.Rate.String(), true
	case "early_age":
		return whole(y.EarlyWithdrawals.AgeYears), true
	case "business_threshold":
		return dollars(y.BusinessIncome.Threshold.Of(status)), true
	case "saver_cap":
		return dollars(y.Savers.Cap), true
	case "flat_rate":
		return y.Payroll.Supplemental.Rate.String(), true
	case "exempt_until":
		return y.Payroll.Effective.Exemption.RenewedBy.Long(), true
	case "least_due":
		return dollars(y.Underpayment.LeastDue), true
	}
	return "", false
}

func upper(s string) string {
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}
