package interview

import (
	"slices"
	"strconv"
	"strings"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/words"
)

// A gate is one item of the two lists that ask what counts beside the jobs. An
// item chosen leads to its questions; a file that was not written by the
// interview has the item chosen when one of its questions is answered there.
// Both directions read this one table.
type gate struct {
	list   string                                    // the question that offers it
	option string                                    // its value there
	keys   []string                                  // where the answers are that it leads to; [] in a list
	when   func(w *walk) bool                        // it is offered; nil: always
	shows  func(h household.Household, w *walk) bool // in a file: where an amount at one of the keys does not say so

	withheld  bool // income from which tax may be withheld
	estimated bool // income for which estimated tax is paid
}

const (
	incomeList     = "interview.income"
	reductionsList = "interview.reductions"
)

// gates are in the order in which they are offered.
var gates = []gate{
	{list: incomeList, option: "interest", keys: []string{"income.interest"}, withheld: true, estimated: true},
	{list: incomeList, option: "dividends", keys: []string{"income.ordinary_dividends", "income.qualified_dividends"}, withheld: true, estimated: true},
	{list: incomeList, option: "gains", keys: []string{"income.short_term_gain", "income.long_term_gain"}, estimated: true},
	{list: incomeList, option: "self_employment", keys: []string{"income.self_employment.self"}, estimated: true},
	{list: incomeList, option: "spouse_self_employment", keys: []string{"income.self_employment.spouse"}, when: (*walk).joint, estimated: true},
	{list: incomeList, option: "unemployment", keys: []string{"income.unemployment"}, withheld: true},
	{list: incomeList, option: "pension", shows: hasJobs("pension")},
	{list: incomeList, option: "spouse_pension", when: (*walk).joint, shows: hasJobs("spouse_pension")},
	{list: incomeList, option: "retirement", keys: []string{"income.retirement"}, withheld: true, estimated: true},
	{list: incomeList, option: "social_security", keys: []string{"income.social_security", "income.social_security_monthly.amount"}, withheld: true},
	{list: incomeList, option: "gambling", keys: []string{"income.gambling_winnings", "deductions.gambling_losses"}, withheld: true, estimated: true},
	{list: incomeList, option: "other", keys: []string{"income.other"}, withheld: true, estimated: true},

	{
		list: reductionsList, option: "tips", keys: []string{"jobs[].qualified_tips"},
		when: func(w *walk) bool { return w.haveJobs() && w.y.Tips.Cap.Of(w.status()).IsPositive() },
	},
	{
		list: reductionsList, option: "overtime", keys: []string{"jobs[].qualified_overtime"},
		when: func(w *walk) bool { return w.haveJobs() && w.y.Overtime.Cap.Of(w.status()).IsPositive() },
	},
	{list: reductionsList, option: "house", keys: []string{
		"deductions.mortgage_interest", "deductions.mortgage_balance", "deductions.mortgage_insurance", "deductions.state_local_taxes",
		"deductions.medical", "deductions.other_itemized",
	}},
	{list: reductionsList, option: "gifts", keys: []string{"deductions.charity_cash", "deductions.charity_other"}},
	{
		list: reductionsList, option: "student_loan", keys: []string{"adjustments.student_loan_interest"},
		when: func(w *walk) bool { return !w.y.Adjustments.StudentLoan.PhaseOut.Of(w.status()).To.IsZero() },
	},
	{list: reductionsList, option: "senior", keys: []string{"self.birth_date", "spouse.birth_date"}, shows: aged},
	{
		list: reductionsList, option: "blind", keys: []string{"self.blind", "spouse.blind"},
		shows: func(h household.Household, _ *walk) bool { return h.Self.Blind || h.Person(household.OfSpouse).Blind },
	},
	{list: reductionsList, option: "car_loan", keys: []string{"deductions.car_loan_interest"}},
	{list: reductionsList, option: "ira", keys: []string{"adjustments.ira_deduction"}},
	{list: reductionsList, option: "hsa", keys: []string{"adjustments.hsa_contribution"}},
	{list: reductionsList, option: "own_health", keys: []string{"adjustments.self_employed_health.self"}, when: owns("self_employment")},
	{list: reductionsList, option: "spouse_own_health", keys: []string{"adjustments.self_employed_health.spouse"}, when: owns("spouse_self_employment")},
	{list: reductionsList, option: "own_plan", keys: []string{"adjustments.self_employed_retirement.self"}, when: owns("self_employment")},
	{list: reductionsList, option: "spouse_own_plan", keys: []string{"adjustments.self_employed_retirement.spouse"}, when: owns("spouse_self_employment")},
	{list: reductionsList, option: "educator", keys: []string{"adjustments.educator_expenses.self"}},
	{list: reductionsList, option: "spouse_educator", keys: []string{"adjustments.educator_expenses.spouse"}, when: (*walk).joint},
	{
		list: reductionsList, option: "care", keys: []string{"dependents[].care_expenses", "dependents[].care_monthly.amount", "self.care_monthly.amount", "spouse.care_monthly.amount"},
		when: func(w *walk) bool {
			return (!w.get("interview.people").is("", "0") || w.joint()) && !w.onSeparateReturn()
		},
	},
	{
		list: reductionsList, option: "education", keys: []string{"credits.education[].expenses"},
		when: func(w *walk) bool { return !w.y.Education.PhaseOut.Of(w.status()).To.IsZero() },
	},
	{
		list: reductionsList, option: "saving", keys: []string{"credits.retirement_saving.self", "credits.retirement_saving.spouse"},
		when: func(w *walk) bool { return w.y.Savers.Cap.IsPositive() },
	},
	{list: reductionsList, option: "marketplace", keys: []string{"health_marketplace.premiums", "health_marketplace.benchmark", "health_marketplace.advance"}},
	{list: reductionsList, option: "other_adjustment", keys: []string{"adjustments.other"}},
	{list: reductionsList, option: "other_credit", shows: func(h household.Household, _ *walk) bool {
		c := h.Credits
		return len(c.Adoption) > 0 || !money.Sum(c.ForeignTax, c.OtherNonrefundable, c.OtherRefundable).IsZero()
	}},
}

// owns has an item offered to those who chose a business of their own.
func owns(business string) func(*walk) bool {
	return func(w *walk) bool { return w.get(incomeList).has(business) }
}

// haveJobs reports that somebody on the return has a job.
func (w *walk) haveJobs() bool {
	return w.get("interview.jobs").whole()+w.get("interview.spouse_jobs").whole() > 0
}

func (w *walk) status() household.Status { return w.household().Status }

// offered are the items of a list that can be had.
func (w *walk) offered(list string) []string {
	var options []string
	for _, g := range gates {
		if g.list == list && (g.when == nil || g.when(w)) {
			options = append(options, g.option)
		}
	}
	return options
}

// chosen are the items of a list that were chosen.
func (w *walk) chosen(list string) []gate {
	picks := w.get(list).picks()
	var chosen []gate
	for _, g := range gates {
		if g.list == list && slices.Contains(picks, g.option) {
			chosen = append(chosen, g)
		}
	}
	return chosen
}

// askChosen asks for the amounts of the items chosen that begin with a prefix.
func (w *walk) askChosen(list, prefix string) {
	for _, g := range w.chosen(list) {
		for _, key := range g.keys {
			switch {
			case key == "income.social_security" && strings.HasPrefix(key, prefix):
				w.askYearOrMonths(w.doc.Has(key), key, "income.social_security_monthly", between(1, monthsOfYear), w.ask)
			case strings.HasPrefix(key, prefix) && script().byKey[key] != nil && !strings.Contains(key, "_monthly."):
				w.ask(key)
			}
		}
	}
}

// askYearOrMonths asks for an amount that comes by the month: how much, from
// which month to which, of those that can be. A file that has the year's amount is
// asked for that.
func (w *walk) askYearOrMonths(ofYear bool, year, monthly string, within with, ask func(key string, options ...with) answer) {
	if ofYear {
		ask(year)
		return
	}
	ask(monthly + ".amount")
	askMonths(monthly, within, ask)
}

// careOfYear is what care costs in the year where that is typed although the cost
// of a month is asked for, like 2400/year, and its key. In which months it is paid
// does not matter then.
func (s *step) careOfYear(text string) (key string, cost money.Amount, typed bool) {
	whose, monthly := strings.CutSuffix(s.key, "care_monthly.amount")
	key = whose + "care_expenses"
	if !monthly || script().byKey[indexFree(key)] == nil {
		return "", money.Zero, false
	}
	read, err := s.lang.ReadAmount(text)
	return key, read.Amount, err == nil && read.Per == words.PerYear
}

// withYear is the session with an amount for the year in the place of one by the
// month, as a copy.
func (s *Session) withYear(at *step, key string, amount money.Amount) (*Session, error) {
	t := &Session{env: s.env, y: s.y, doc: s.doc.Clone(), walk: s.walk}
	t.doc.Delete(strings.TrimSuffix(at.key, ".amount"))
	t.doc.Delete(planKey)
	if err := t.doc.Set(key, amount.Text()); err != nil {
		return nil, err
	}
	t.reopen(false, at.id)
	t.settle()
	return t, nil
}

// askMonths asks from which month to which an amount comes, of those that can be.
// The first and the last of them are suggested.
func askMonths(monthly string, within with, ask func(key string, options ...with) answer) {
	ask(monthly+".first_month", within, func(s *step) { s.suggest = strconv.Itoa(s.least) })
	ask(monthly+".last_month", within, func(s *step) { s.suggest = strconv.Itoa(s.most) })
}

// fromBirth limits a month to those from a dependent's birth on.
func (w *walk) fromBirth(i int) with {
	return func(s *step) {
		s.least, s.most = w.household().Dependents[i].FirstMonthOf(w.y.Year), monthsOfYear
		s.tooLow = "before_birth"
	}
}

const monthsOfYear = 12

// shown are the items of a list that a file not written by the interview shows
// to apply.
func (s *Session) shown(list string, h household.Household) string {
	var options []string
	for _, g := range gates {
		if g.list == list && (g.shows != nil && g.shows(h, s.walk) || g.shows == nil && s.hasAmount(g.keys)) {
			options = append(options, g.option)
		}
	}
	if len(options) == 0 {
		return None
	}
	return strings.Join(options, ", ")
}

// hasAmount reports an amount other than zero at one of the keys.
func (s *Session) hasAmount(keys []string) bool {
	return slices.ContainsFunc(s.doc.Keys(), func(key string) bool {
		text, _ := s.doc.Get(key)
		a, err := money.Parse(text)
		return slices.Contains(keys, indexFree(key)) && err == nil && !a.IsZero()
	})
}

func hasJobs(kind string) func(household.Household, *walk) bool {
	return func(h household.Household, w *walk) bool {
		for i := range h.Jobs {
			if w.jobKind(i) == kind {
				return true
			}
		}
		return false
	}
}

// aged reports a taxpayer old enough for the larger standard deduction.
func aged(h household.Household, w *walk) bool {
	return slices.ContainsFunc(h.Earners(), func(e household.Earner) bool {
		born := h.Person(e).BirthDate
		return !born.IsZero() && born.BirthdayAge(h.TaxYear) >= w.y.StandardDeduction.AgedFrom
	})
}

// count is the number of jobs of a group.
func (s *Session) count(kind string) int {
	w, n := walk{doc: s.doc}, 0
	for i := range s.doc.Len("jobs") {
		if w.jobKind(i) == kind {
			n++
		}
	}
	return n
}

// plural is a number of things to be asked about, one where there are none yet.
func plural(n int) string { return strconv.Itoa(max(n, 1)) }
