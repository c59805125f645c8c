package interview

import (
	"slices"
	"strconv"
	"strings"
)

// A change is something that can have happened at home or at work. It leads to
// the questions that it touches, whose answers must be given again, and to
// suggestions for those that follow from it.
type change struct {
	option  string
	touches []string          // patterns of ids, as path.Match reads them
	follows map[string]string // by id: an answer, oneMore, or plus and an item of a list
	onFile  bool              // the status on file may be the one from before it
	undated bool              // the law does not look at its day
}

const (
	oneMore = "+1"
	plus    = "+"
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
	{option: "birth", touches: []string{"interview.people"}, follows: map[string]string{"interview.people": oneMore}, onFile: true},
	{option: "child_17", undated: true},
	{option: "parent", touches: []string{"interview.people"}, follows: map[string]string{"interview.people": oneMore}},
	{option: "spouse_starts", touches: []string{"interview.spouse_jobs"}, follows: map[string]string{"interview.spouse_jobs": oneMore}},
	{option: "spouse_stops", touches: []string{"interview.spouse_job_?_special"}, follows: map[string]string{"interview.spouse_job_1_special": plus + "ended"}},
	{option: "job_begins", touches: []string{"interview.jobs"}, follows: map[string]string{"interview.jobs": oneMore}},
	{option: "job_ends", touches: []string{"interview.job_?_special"}, follows: map[string]string{"interview.job_1_special": plus + "ended"}},
	{option: "raise", touches: []string{"*job_?_pay_known", "*job_?_salary", "*job_?_hourly", "*job_?_hours", "*job_?.gross_pay", "*job_?.taxable_pay"}},
	{option: "side_work", touches: ofIncome, follows: map[string]string{incomeList: plus + "self_employment"}},
	{option: "retired", touches: []string{incomeList, "interview.job_?_special"}, follows: map[string]string{incomeList: plus + "pension"}},
	{option: "benefits", touches: ofIncome, follows: map[string]string{incomeList: plus + "social_security"}},
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
	picks := w.get("interview.changes")
	return slices.DeleteFunc(slices.Clone(changes), func(c change) bool { return !picks.has(c.option) })
}

// statusChanged reports a change after which the form on file may still have
// the status from before.
func (w *walk) statusChanged() bool {
	return slices.ContainsFunc(w.happened(), func(c change) bool { return c.onFile })
}

// following is the answer to a question that follows from the changes named,
// and the one in the file; empty when none does.
func (w *walk) following(s *step) string {
	if w.get("interview.changes").none() || !w.get("interview.changes").given() {
		return ""
	}
	text, _ := w.doc.Get(s.key)
	for _, c := range w.happened() {
		follows, ok := c.follows[s.id]
		item, toList := strings.CutPrefix(follows, plus)
		switch {
		case !ok || strings.HasSuffix(s.id, "job_1_special") && w.get(strings.TrimSuffix(s.id, "_1_special")+"s").whole() > 1:
			// Which of several jobs it was is for the person to say.
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
