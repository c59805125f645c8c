package household

import (
	"fmt"
	"slices"
	"strings"

	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/words"
)

// Doubt is a fact that is left out of account, or that is unlikely: nothing is
// wrong with it for certain, and nobody should find out later. Its code is the
// last part of its text's code.
type Doubt struct {
	Key     string // in the answers file
	What    words.Text
	Assumed bool // what is taken where the person did not know: nothing to check
}

// Code is the permanent code of the doubt: "spouse_job".
func (d Doubt) Code() string { return d.What.Code[strings.LastIndexByte(d.What.Code, '.')+1:] }

// Doubts are the facts of a household that are left out of account because of
// others, and those that are unlikely beside others. They refuse nothing: the
// interview keeps an answer that no longer applies, and a household may be
// unusual.
func (h Household) Doubts() []Doubt {
	var found []Doubt
	doubt := func(key, code string, namesAndValues ...any) {
		found = append(found, Doubt{Key: key, What: words.T("answers.doubt."+code, namesAndValues...)})
	}
	h.doubtSpouse(doubt)
	for i := range h.Jobs {
		h.doubtJob(i, doubt)
	}
	students, people := len(h.Credits.Education), len(h.Earners())+len(h.Dependents)
	if students > people {
		doubt("credits.education", "students", "students", students, "people", people)
	}
	if refund := h.Wish.Refund; refund.IsPositive() && h.Wish.Goal().IsZero() {
		doubt("wish.refund", "refund_not_aimed", "refund", refund, "aim", h.Wish.Aim.String())
	}
	given := len(found)
	h.doubtNotKnown(doubt)
	for i := range found[given:] {
		found[given+i].Assumed = true
	}
	if h.LivedApart && h.Status != MarriedFilingSeparately {
		doubt("lived_apart", "only_separate", "key", "lived_apart")
	}
	if h.Deductions.SpouseItemizes && h.Status != MarriedFilingSeparately {
		doubt("deductions.spouse_itemizes", "only_separate", "key", "spouse_itemizes")
	}
	for _, e := range []Earner{OfSelf, OfSpouse} {
		if h.Person(e).CareMonthly != nil && !slices.Contains(h.DisabledSpouses(), e) {
			doubt(e.String()+".care_monthly", "care_not_counted", "cost", h.Person(e).Care(), "key", e.String()+".disabled")
		}
	}
	return found
}

// FullWeek is the hours of work that a week is taken to have where the person
// does not know. Common practice.
const FullWeek = 40

// doubtNotKnown says what is assumed where the person did not know.
func (h Household) doubtNotKnown(doubt func(key, code string, namesAndValues ...any)) {
	for _, q := range []struct{ ends, key, code string }{
		{"interview.rough_itemized", "deductions", "itemized_unknown"},
		{"_hours", "jobs", "hours_unknown"},
		{".qualified_tips", "jobs", "tips_unknown"},
		{"_overtime_pay", "jobs", "overtime_unknown"},
		{".qualified_overtime", "jobs", "overtime_unknown"},
		{".gross_income", "dependents", "income_unknown"},
		{"interview.no_tax_last_year", "last_year", "no_tax_unknown"},
	} {
		if slices.ContainsFunc(h.Interview.NotKnown, func(id string) bool { return strings.HasSuffix(id, q.ends) }) {
			doubt(q.key, q.code, "hours", FullWeek, "last", h.TaxYear-1)
		}
	}
}

// doubtSpouse names what is a spouse's, where the return has no spouse on it.
func (h Household) doubtSpouse(doubt func(key, code string, namesAndValues ...any)) {
	if h.Joint() {
		return
	}
	for i, j := range h.Jobs {
		if j.Earner == OfSpouse {
			doubt(fmt.Sprintf("jobs[%d].earner", i), "spouse_job", "job", h.JobName(i))
		}
	}
	for _, f := range []struct {
		key    string
		amount money.Amount
	}{
		{"income.self_employment.spouse", h.Income.SelfEmployment.Spouse},
		{"adjustments.educator_expenses.spouse", h.Adjustments.EducatorExpenses.Spouse},
		{"credits.retirement_saving.spouse", h.Credits.RetirementSaving.Spouse},
	} {
		if !f.amount.IsZero() {
			doubt(f.key, "spouse_amount", "amount", f.amount, "key", f.key)
		}
	}
}

// doubtJob questions a job's stub, its end and its parts of pay.
func (h Household) doubtJob(i int, doubt func(key, code string, namesAndValues ...any)) {
	j, name, key := h.Jobs[i], h.JobName(i), fmt.Sprintf("jobs[%d].", i)
	if last := j.LastPayday; !last.IsZero() && last.Year < h.TaxYear {
		doubt(key+"last_payday", "job_over", "job", name, "last", last, "year", h.TaxYear)
		return
	}
	if j.Kind == Pension && (j.QualifiedTips.IsPositive() || j.QualifiedOvertime.IsPositive()) {
		doubt(key+"kind", "pension_tips", "job", name)
		return
	}
	days, pay := j.YearPaydays(h.TaxYear), j.OrdinaryPay()
	y := j.YearToDate
	off := y != nil && !j.FirstPayday.IsZero() && len(days.All) > 0 && !j.IsPaydayStub(h.TaxYear, y.Payday)
	if off {
		doubt(key+"year_to_date.payday", "stub_day", "job", name, "day", y.Payday)
	}
	if !pay.IsPositive() {
		return
	}
	year := pay.Times(len(days.ToCome()))
	for _, o := range j.OneTimePay {
		year = year.Add(o.Amount)
	}
	if y != nil {
		year = year.Add(y.TaxablePay)
		if so := j.PaySoFar(h.TaxYear); so.Unlikely() || so.OfMore() && !off && !j.PayVaries {
			doubt(key+"year_to_date.taxable_pay", "stub_pay", "job", name, "paid", so.Paid, "day", y.Payday, "pay", pay, "paydays", so.Paydays, "fits", so.Expected)
		}
	}
	if extra := j.QualifiedTips.Add(j.QualifiedOvertime); extra.More(year) {
		doubt(key+"qualified_tips", "tips_above_pay", "job", name, "extra", extra, "year", year)
	}
}

// unlikely is how many times more or less than the ordinary pay the year so far
// may show before it is questioned: raises and bonuses seldom double it.
const unlikely = 2
