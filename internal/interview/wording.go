package interview

import (
	_ "embed"
	"fmt"
	"slices"
	"strings"
	"sync"

	"example.com/plumbline/internal/paystub"
	"example.com/plumbline/internal/words"
	"example.com/plumbline/internal/yamldoc"
)

// questionsFile is what the interview asks, without its words. Its head says how
// it is written.
//
//go:embed questions.yaml
var questionsFile []byte

// wording is how one question is answered; its words are in internal/words,
// under its key.
type wording struct {
	Key      string   `yaml:"key,required"`
	Kind     Kind     `yaml:"kind,required"`
	Birth    bool     `yaml:"birth"`           // of a day: the year alone will do
	MonthDay bool     `yaml:"month_day"`       // of a whole number: a day of the month, which can be the last
	Month    bool     `yaml:"month"`           // of a whole number: a month, which can be named
	Negative bool     `yaml:"may_be_negative"` // of an amount: a loss can be entered
	Per      Per      `yaml:"per"`             // of an amount: what time it is for
	Line     string   `yaml:"line"`
	Default  string   `yaml:"default"`
	Options  []string `yaml:"options"`
	Unknown  bool     `yaml:"unknown"` // that one does not know is an answer: what is then assumed is said, here and with the results
}

// questionList is the whole file.
type questionList struct {
	Chapters  []string  `yaml:"chapters,required"`
	Questions []wording `yaml:"questions,required"`
	WhatIfs   []wording `yaml:"what_ifs,required"`

	byKey map[string]*wording
}

var script = sync.OnceValue(func() *questionList {
	doc, err := yamldoc.Parse("questions.yaml", questionsFile)
	if err != nil {
		panic(err) // a test reads the file
	}
	l := new(questionList)
	if err := doc.Decode(l).Err(); err != nil {
		panic(err)
	}
	l.byKey = make(map[string]*wording, len(l.Questions))
	for i := range l.Questions {
		q := &l.Questions[i]
		if l.byKey[q.Key] != nil {
			panic("questions.yaml has " + q.Key + " twice")
		}
		l.byKey[q.Key] = q
	}
	for i := range l.WhatIfs {
		l.WhatIfs[i].Key = whatIfKeys + l.WhatIfs[i].Key
	}
	return l
})

const whatIfKeys = "what_if."

// question is the wording of a question; every question has one.
func (l *questionList) question(key string) *wording {
	q := l.byKey[key]
	if q == nil {
		panic("questions.yaml does not have " + key)
	}
	return q
}

// whatIf is the wording of a question about what may happen.
func (l *questionList) whatIf(name string) *wording {
	i := slices.IndexFunc(l.WhatIfs, func(q wording) bool { return q.Key == whatIfKeys+name })
	if i < 0 {
		panic("questions.yaml does not have what_if " + name)
	}
	return &l.WhatIfs[i]
}

var kindNames = []string{"choice", "several", "yes_no", "amount", "whole", "day", "words", "named"}

// UnmarshalText reads the name of a kind in the file of questions.
func (k *Kind) UnmarshalText(text []byte) error {
	i := slices.Index(kindNames, string(text))
	if i < 0 {
		return fmt.Errorf("%q is not a kind of question; write one of: %s", text, strings.Join(kindNames, ", "))
	}
	*k = Kind(i)
	return nil
}

// word is an entry of the words about a group, with values beside those that any
// entry may use.
func (w *walk) word(code string, g group, namesAndValues ...any) string {
	t := words.T(code, namesAndValues...)
	for _, name := range w.lang.Places(code) {
		if slices.ContainsFunc(t.Args, func(a words.Arg) bool { return a.Name == name }) {
			continue
		}
		if v, known := w.value(name, g); known {
			t = t.With(name, v)
		}
	}
	return w.lang.Say(t)
}

// ofQuestion is a part of a question's words; empty where it has none.
func (w *walk) ofQuestion(at *step, part string) string {
	code := "question." + at.wording.Key + "." + part
	if !w.lang.Has(code) {
		return ""
	}
	return w.word(code, at.about)
}

// phrase is a short piece of wording.
func (w *walk) phrase(name string, namesAndValues ...any) string {
	return w.word("interview.phrase."+name, group{}, namesAndValues...)
}

// notice is a notice about the question asked last, with values beside those
// that any entry may use.
func (w *walk) notice(name string, namesAndValues ...any) notice {
	return w.noticeOf(group{}, name, namesAndValues...)
}

// noticeOf is a notice in the words of a group: the stub of a job, the statement
// of a pension.
func (w *walk) noticeOf(g group, name string, namesAndValues ...any) notice {
	id := name
	if n := len(w.steps); n > 0 && w.steps[n-1].about.label != "" {
		id += "/" + w.steps[n-1].about.label
	}
	return notice{id, w.word("interview.notice."+name, g, namesAndValues...)}
}

// answerOfBool is yes or no, as an entry chooses by it.
func answerOfBool(yes bool) string {
	if yes {
		return "yes"
	}
	return "no"
}

// value is what a name in braces means. Amounts of the law come from the yearly
// table.
func (w *walk) value(name string, g group) (any, bool) {
	y, status := w.y, w.household().Status
	switch name {
	case "year":
		return y.Year, true
	case "next_year":
		return y.Year + 1, true
	case "last_year":
		return y.Year - 1, true
	case "earlier_year":
		return w.log().WasYear, true
	case "since":
		return w.returned(), true
	case "shown":
		if last := w.lastTime(); last != nil && !last.Day.IsZero() {
			return last.Day, true
		}
		if back := w.returned(); !back.IsZero() { // the file did not note the day then
			return back, true
		}
		return w.today, true
	case "advised":
		last, _ := w.lastTime().Of(g.label)
		return paystub.EntriesText(last.Certificate), true
	case "advised_january":
		last, _ := w.forThisYear(g)
		return paystub.EntriesText(last.Certificate), true
	case "back":
		return answerOfBool(!w.returned().IsZero()), true
	case "parents_home":
		return answerOfBool(w.onlyParentsMakeHead()), true
	case "both":
		return answerOfBool(w.joint()), true
	case "here":
		return g.name, true
	case "newborn":
		born, _ := w.doc.Get(g.prefix + ".birth_date")
		return answerOfBool(answer(born).day().Year == y.Year), true
	case "whose_job":
		switch {
		case g.pension:
			return "pension", true
		case strings.HasPrefix(g.label, "spouse_"):
			return "spouse", true
		}
		return "own", true
	case "same_share":
		if share, changed := w.sameShare(g); changed {
			return words.T("interview.phrase.same_share", "amount", share), true
		}
		return "", true
	case "comes_back":
		_, why := w.comesBack()
		return why, true
	case "back_anyway":
		amount, _ := w.comesBack()
		return amount, true
	case "nor_spouse":
		if w.get("interview.married").is("no", "widowed") {
			return "", true
		}
		return words.T("interview.phrase." + name), true
	case "stub", "paycheck", "payday", "payroll", "form", "current_form", "old_form":
		if g.pension {
			name = "pension_" + name
		}
		return words.T("interview.phrase.word_" + name), true
	case "but_spouse":
		if !w.joint() && !w.separate() {
			return "", true
		}
		return words.T("interview.phrase." + name), true
	case "i_or_spouse":
		if w.joint() {
			name += "_joint"
		}
		return words.T("interview.phrase." + name), true
	case "enough_months":
		return y.DependentTests.Child.MonthsOver + 1, true
	case "standard_deduction":
		return y.StandardDeduction.Basic.Of(status), true
	case "aged_from":
		return y.StandardDeduction.AgedFrom, true
	case "child_credit":
		return y.ChildCredit.PerChild, true
	case "other_credit":
		return y.ChildCredit.PerOther, true
	case "credit_under":
		return y.ChildCredit.ChildUnder, true
	case "child_under":
		return y.DependentTests.Child.Under, true
	case "student_under":
		return y.DependentTests.Child.StudentUnder, true
	case "care_under":
		return y.DependentCare.ChildUnder, true
	case "residence_months":
		return y.DependentTests.Child.MonthsOver, true
	case "relative_income":
		return y.DependentTests.Relative.IncomeUnder, true
	case "tipped":
		return answerOfBool(w.get(reductionsList).has("tips")), true
	case "tax_rate":
		return w.taxRate(), true
	case "tips_cap":
		return y.Tips.Cap.Of(status), true
	case "overtime_cap":
		return y.Overtime.Cap.Of(status), true
	case "car_loan_cap":
		return y.CarLoan.Cap.Of(status), true
	case "student_loan_cap":
		return y.Adjustments.StudentLoan.Cap, true
	case "educator_cap":
		return y.Adjustments.Educator.Cap, true
	case "gift_cap":
		return y.PlainGifts.Cap.Of(status), true
	case "medical_floor":
		return y.Itemized.Medical.Floor, true
	case "state_local_cap":
		return y.Itemized.StateLocal.Cap.Of(status), true
	case "benefits_share":
		return y.Benefits.UpperRate, true
	case "early_rate":
		return y.EarlyWithdrawals.Rate, true
	case "early_age":
		return y.EarlyWithdrawals.AgeYears, true
	case "business_threshold":
		return y.BusinessIncome.Threshold.Of(status), true
	case "adoption_cap":
		return y.Adoption.Cap, true
	case "gambling_share":
		return y.GamblingLosses.Share, true
	case "saver_cap":
		return y.Savers.Cap, true
	case "flat_rate":
		return y.Payroll.Supplemental.Rate, true
	case "exempt_until":
		return y.Payroll.Effective.Exemption.RenewedBy, true
	case "least_due":
		return y.Underpayment.LeastDue, true
	case "high_income_share":
		return y.Underpayment.PriorShare.Add(y.Underpayment.PriorHighExtra), true
	}
	return "", false
}
