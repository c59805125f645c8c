package interview

import (
	"maps"
	"slices"
	"strconv"
	"strings"

	"example.com/plumbline/internal/certificate"
	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/yamldoc"
)

// What may happen only once is not counted for January's certificate unless the
// person says that it comes again. The options have the names that the
// certificate's own list of what it left out has.
const (
	againKey        = "interview.again"
	againCodes      = "certificate.once."
	nextYearsJobs   = "next_year.jobs"
	nextYearsCare   = "next_year.dependents"
	nextYearsSchool = "next_year.credits.education"
)

// nextYearsLists are the lists that say what comes again, by the option.
var nextYearsLists = map[string]string{"bonus": nextYearsJobs, "care": nextYearsCare, "schooling": nextYearsSchool}

// askAgain asks what of this year comes again next year: only of what January
// left out, and only where January's certificates would change by it.
func (w *walk) askAgain() {
	if !w.complete() {
		w.leaveOpen(againKey)
		return
	}
	options := w.mattersAgain()
	if len(options) == 0 {
		return
	}
	for _, option := range w.ask(againKey, offering(options)).picks() {
		again := w.again(option)
		for _, key := range slices.Sorted(maps.Keys(again)) {
			w.derive(group{}, key, again[key])
		}
		if option == "bonus" {
			w.deriveNames()
		}
	}
}

// mattersAgain are the options by which January's certificates would change.
func (w *walk) mattersAgain() []string {
	text, _ := w.doc.Get(againKey)
	without, again := w.doc.Clone(), make(map[string]map[string]string)
	for _, option := range script().byKey[againKey].Options {
		facts := w.again(option)
		if len(facts) == 0 || !answer(text).has(option) && w.saysOtherwise(facts) {
			continue
		}
		again[option] = facts
		for key := range facts {
			without.Delete(key)
		}
	}
	for option, list := range nextYearsLists {
		if again[option] != nil {
			without.Delete(list) // its elements say something even when they are empty
		}
	}
	if len(again) == 0 {
		return nil
	}
	before, once := w.january(without)
	var options []string
	for _, option := range script().byKey[againKey].Options {
		if !slices.Contains(once, option) || again[option] == nil {
			continue
		}
		with := without.Clone()
		for _, key := range slices.Sorted(maps.Keys(again[option])) {
			_ = with.Set(key, again[option][key])
		}
		if after, _ := w.january(with); !maps.Equal(before, after) {
			options = append(options, option)
		}
	}
	return options
}

// saysOtherwise reports that the file already says something else of next year.
func (w *walk) saysOtherwise(facts map[string]string) bool {
	for key, text := range facts {
		if said, ok := w.doc.Get(key); ok && said != text {
			return true
		}
	}
	return false
}

// january are January's certificates on the answers in a document, by the place
// of the job, and what was not counted again. It is empty where no job runs into
// next year.
func (w *walk) january(doc *yamldoc.Document) (certificates map[int]household.Certificate, once []string) {
	h := tolerant(doc)
	for i := range h.Jobs {
		if h.Jobs[i].Name == "" {
			h.Jobs[i].Name = w.nameOf(i)
		}
	}
	if !h.Agrees() || len(h.CountedJobs()) == 0 {
		return nil, nil
	}
	r, err := certificate.Solve(h, w.y, w.next)
	if err != nil || r.January == nil {
		return nil, nil
	}
	certificates = make(map[int]household.Certificate)
	for _, c := range r.January.Certificates {
		certificates[c.Job] = c.Certificate
	}
	for _, what := range r.January.Once {
		once = append(once, strings.TrimPrefix(what.Code, againCodes))
	}
	return certificates, once
}

// again is what the file says of next year where an option comes again: the same
// as this year, with what was paid toward its tax. It is empty where there is
// nothing of the kind this year.
func (w *walk) again(option string) map[string]string {
	h, facts := w.household(), make(map[string]string)
	some := func(key string, a money.Amount) {
		if !a.IsZero() {
			facts["next_year."+key] = a.Text()
		}
	}
	loss := func(key string, a money.Amount) {
		if a.IsNegative() {
			some(key, a)
		}
	}
	in := h.Income
	switch option {
	case "gains":
		some("income.short_term_gain", in.ShortTermGain)
		some("income.long_term_gain", in.LongTermGain)
	case "unemployment":
		some("income.unemployment", in.Unemployment)
	case "retirement":
		some("income.retirement", in.Retirement)
		some("income.early_withdrawal", in.EarlyWithdrawal)
	case "losses":
		loss("income.self_employment.self", in.SelfEmployment.Self)
		loss("income.self_employment.spouse", in.SelfEmployment.Spouse)
		loss("income.other", in.Other)
	case "schooling":
		for i, s := range h.Credits.Education {
			at := nextYearsSchool + "[" + strconv.Itoa(i) + "]"
			facts[at+".kind"], facts[at+".expenses"] = s.Kind.String(), s.Expenses.Text()
		}
	case "bonus":
		w.bonusAgain(facts)
	case "care":
		careAgain(h, facts)
	}
	if i := slices.IndexFunc(gates, func(g gate) bool { return g.list == incomeList && g.option == option }); i >= 0 && len(facts) > 0 {
		if gates[i].withheld {
			some("payments.other_withholding", h.Payments.OtherWithholding)
		}
		if gates[i].estimated {
			some("payments.estimated_tax", h.Payments.EstimatedTax)
		}
	}
	return facts
}

// bonusAgain has the one-time pay still to come paid a year later once more, at
// the jobs that can be told apart by their names.
func (w *walk) bonusAgain(facts map[string]string) {
	n, jobs, named := 0, w.household().Jobs, make(map[string]int)
	for i := range jobs {
		named[w.nameOf(i)]++
	}
	for i, j := range jobs {
		if len(j.OneTimePay) == 0 || named[w.nameOf(i)] > 1 {
			continue
		}
		at := nextYearsJobs + "[" + strconv.Itoa(n) + "]"
		facts[at+".name"] = w.nameOf(i)
		for k, o := range j.OneTimePay {
			pay := at + ".one_time_pay[" + strconv.Itoa(k) + "]"
			facts[pay+".payday"] = household.On(o.Payday.Year+1, o.Payday.Month, o.Payday.Day).String()
			facts[pay+".amount"], facts[pay+".withholding"] = o.Amount.Text(), o.Withholding.String()
		}
		n++
	}
}

// careAgain has the year's care cost the same again. Care is asked for by the
// month; only a file that has the year's amount comes here, and only a person
// with a name of their own can be spoken of.
func careAgain(h household.Household, facts map[string]string) {
	n, named := 0, make(map[string]int)
	for _, d := range h.Dependents {
		named[d.Name]++
	}
	for _, d := range h.Dependents {
		if d.Name == "" || named[d.Name] > 1 || !d.CareExpenses.IsPositive() {
			continue
		}
		at := nextYearsCare + "[" + strconv.Itoa(n) + "]"
		facts[at+".name"], facts[at+".care_expenses"] = d.Name, d.CareExpenses.Text()
		n++
	}
}

// nameOf is the name of a job by its place in the file, and how people read of
// it where it has none.
func (w *walk) nameOf(i int) string {
	if name, ok := w.doc.Get("jobs[" + strconv.Itoa(i) + "].name"); ok {
		return name
	}
	return w.phrase(w.jobKind(i))
}

// deriveNames gives the only job, which is not asked for its name, the name by
// which the file speaks of it next year.
func (w *walk) deriveNames() {
	for i, j := range w.household().Jobs {
		prefix := "jobs[" + strconv.Itoa(i) + "]"
		label := w.groups[prefix]
		_, asked := w.place[label+".name"]
		if len(j.OneTimePay) > 0 && !asked && w.nameOf(i) == w.phrase(w.jobKind(i)) {
			w.derive(group{label: label, prefix: prefix}, "name", w.nameOf(i))
		}
	}
}
