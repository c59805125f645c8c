package interview

import (
	"slices"
	"strconv"
	"strings"

	"example.com/plumbline/internal/household"
)

// A change is something that can have happened at home or at work. It leads to
// the questions that it touches, whose answers must be given again, and to
// suggestions for those that follow from it.
type change struct {
	option  string
	touches []string          // patterns of ids, as path.Match reads them
	follows map[string]string // by id: an answer, one of those below, or plus and an item of a list
	onFile  bool              // the status on file may be the one from before it
	undated bool              // the law does not look at its day
}

// Answers that follow from a change by the day on which it was, or from the
// answer before. The person that a change brought is newPerson.
const (
	oneMore    = "+1"
	plus       = "+"
	itsDay     = "day"
	itsMonth   = "month"
	monthsLeft = "months left" // of the year, with the one of the change
	newPerson  = "person_new"
)

var (
	ofIncome     = []string{incomeList}
	ofReductions = []string{reductionsList, "interview.rough_itemized"}
)

// changes are in the order in which they are offered.
var changes = []change{
	{
		option: "married", touches: []string{"interview.married", "interview.file_jointly", "interview.spouse_jobs"},
		follows: map[string]string{"interview.married": "yes"}, onFile: true,
	},
	{
		option: "divorced", touches: []string{"interview.married", "interview.file_jointly", "interview.people"},
		follows: map[string]string{"interview.married": "no"}, onFile: true,
	},
	{option: "moved_in", touches: []string{"interview.people", "interview.home"}, undated: true},
	{option: "birth", touches: []string{"interview.people"}, follows: map[string]string{
		"interview.people": oneMore, newPerson + ".birth_date": itsDay, newPerson + ".months_with_you": "12", // a child born in the year
	}, onFile: true},
	{option: "child_17", undated: true},
	{option: "parent", touches: []string{"interview.people"}, follows: map[string]string{"interview.people": oneMore, newPerson + ".months_with_you": monthsLeft}},
	{option: "spouse_starts", touches: []string{"interview.spouse_jobs"}, follows: map[string]string{"interview.spouse_jobs": oneMore}},
	{option: "spouse_stops", touches: []string{"interview.spouse_job_?_special"}, follows: map[string]string{"interview.spouse_job_1_special": plus + "ended"}},
	{option: "job_begins", touches: []string{"interview.jobs"}, follows: map[string]string{"interview.jobs": oneMore}},
	{option: "job_ends", touches: []string{"interview.job_?_special"}, follows: map[string]string{"interview.job_1_special": plus + "ended"}},
	{option: "raise", touches: []string{"*job_?_pay_known", "*job_?_salary", "*job_?_hourly", "*job_?_hours", "*job_?.gross_pay", "*job_?.taxable_pay", "*job_?.pretax.retirement"}},
	{option: "side_work", touches: ofIncome, follows: map[string]string{incomeList: plus + "self_employment"}},
	{option: "retired", touches: []string{incomeList, "interview.job_?_special"}, follows: map[string]string{incomeList: plus + "pension"}},
	{option: "benefits", touches: ofIncome, follows: map[string]string{
		incomeList: plus + "social_security", "income.social_security_monthly.first_month": itsMonth,
	}},
	{option: "income", touches: ofIncome},
	{option: "house", touches: ofReductions, follows: map[string]string{reductionsList: plus + "house"}},
	{option: "school", touches: ofReductions, follows: map[string]string{reductionsList: plus + "education"}},
	{option: "other", touches: []string{incomeList, reductionsList}},
}

// offeredChanges are the changes to choose from: only somebody who comes back
// can have had one that no question names.
func offeredChanges(back bool) []string {
	var options []string
	for _, c := range changes {
		if back || c.option != "other" {
			options = append(options, c.option)
		}
	}
	return options
}

// happened are the changes that were named.
func (w *walk) happened() []change {
	picks := w.get("interview.changes").picks()
	var happened []change
	for _, c := range changes {
		if slices.Contains(picks, c.option) {
			happened = append(happened, c)
		}
	}
	return happened
}

// statusChanged reports a change after which the form on file may still have
// the status from before.
func (w *walk) statusChanged() bool {
	return slices.ContainsFunc(w.happened(), func(c change) bool { return c.onFile })
}

// dated are the changes named whose day matters.
func (w *walk) dated() []change {
	return slices.DeleteFunc(w.happened(), func(c change) bool { return c.undated })
}

// askChangeDays asks for the day of the change; of several, for the day of each.
// The file has the latest of them besides.
func (w *walk) askChangeDays() {
	dated := w.dated()
	if len(dated) == 1 {
		w.ask(changeDate, suggesting(w.today.String()))
	}
	if len(dated) < 2 {
		return
	}
	var latest household.Date
	all := true
	w.together("change days", func() {
		for _, c := range dated {
			day := w.guide(w.changeGroup(c.option), "date").day()
			all = all && !day.IsZero()
			if day.After(latest) {
				latest = day
			}
		}
	})
	if all {
		w.derive(group{}, changeDate, latest.String())
	}
}

const changeDate = "interview.change_date"

// changeGroup is a change as something that is asked about.
func (w *walk) changeGroup(option string) group {
	return group{label: "change_" + option, kind: "change", name: w.word("question.interview.changes.option."+option, group{})}
}

// changedOn is the day of the first of some changes that was named; zero where
// none was.
func (w *walk) changedOn(options ...string) household.Date {
	dated := w.dated()
	for _, c := range dated {
		switch {
		case !slices.Contains(options, c.option):
		case len(dated) == 1:
			return w.get(changeDate).day()
		default:
			return w.get(guideID(w.changeGroup(c.option), "date")).day()
		}
	}
	return household.Date{}
}

// ofChange is the id of a step as the changes know it: the person that a change
// has brought is the last of them, the only one in a first sitting.
func (w *walk) ofChange(s *step) string {
	n := w.get("interview.people").whole()
	last := s.about.kind == "person" && s.about.label == "person_"+strconv.Itoa(n)
	if last && (n == 1 || !w.returned().IsZero()) {
		return strings.Replace(s.id, s.about.label, newPerson, 1)
	}
	return s.id
}

// following is the answer to a question that follows from the changes named,
// and the one in the file; empty when none does.
func (w *walk) following(s *step) string {
	if w.get("interview.changes").none() || !w.get("interview.changes").given() {
		return ""
	}
	text, _ := w.doc.Get(s.key)
	for _, c := range w.happened() {
		follows, ok := c.follows[w.ofChange(s)]
		item, toList := strings.CutPrefix(follows, plus)
		switch {
		case !ok || strings.HasSuffix(s.id, "job_1_special") && w.get(strings.TrimSuffix(s.id, "_1_special")+"s").whole() > 1:
			// Which of several jobs it was is for the person to say.
		case follows == itsDay, follows == itsMonth, follows == monthsLeft:
			if strings.HasPrefix(w.ofChange(s), newPerson) && w.get("interview.changes").has("birth") && w.get("interview.changes").has("parent") {
				return "" // it may be either of the two
			}
			return w.byDay(follows, w.changedOn(c.option))
		case follows == oneMore:
			n := answer(text).whole()
			if text == "" && s.id == "interview.jobs" {
				n = 1
			}
			return strconv.Itoa(n + 1)
		case toList && (s.offers(item) || s.offer == nil):
			return strings.Join(append(slices.DeleteFunc(answer(text).picks(), func(v string) bool { return v == item }), item), ", ")
		case !toList:
			return follows
		}
	}
	return ""
}

// byDay is an answer that follows from the day of a change; empty where that day
// is not known. What began in an earlier year lasts all of this one.
func (w *walk) byDay(what string, on household.Date) string {
	month := int(on.Month)
	if on.Year < w.y.Year {
		month = 1
	}
	switch {
	case on.IsZero():
		return ""
	case what == itsMonth:
		return strconv.Itoa(month)
	case what == monthsLeft:
		return strconv.Itoa(monthsOfYear + 1 - month)
	}
	return on.String()
}
