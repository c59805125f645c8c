package interview

import (
	"slices"
	"time"

	"example.com/plumbline/internal/household"
)

// askWhatElse asks for what counts beside the jobs, by kind only; the amounts
// come later, and only for what was chosen. Where nothing was, one job's
// certificate needs no figures at all.
func (w *walk) askWhatElse() {
	w.chapter = whatElse
	income := w.ask("interview.income", offering(w.incomes()))
	less := w.ask("interview.reductions", offering(w.reductions()))
	// Being claimed by another bars one from the education credits and the
	// saver's credit, and cuts the standard deduction down for income that is
	// not earned (IRC 63(c)(5)). On wages alone it changes nothing.
	if !w.joint() && (len(income.picks()) > 0 || less.has("education", "saving")) {
		w.ask("self.can_be_claimed")
	}
	if !w.nothingElse(income, less) {
		return
	}
	// In January a blank certificate is right by itself. Later in the year it
	// withholds as for a whole year's pay, and the difference comes back as a
	// refund; whether that matters is for the person to say.
	wholeYear := w.today.Month == time.January && w.today.Year == w.y.Year
	if payGiven := w.doc.Has("jobs[0].pay_frequency"); wholeYear && !payGiven {
		w.blank = true
	} else if !wholeYear {
		w.blank = !w.ask("interview.fit").yes()
	}
}

// nothingElse reports the simple case: someone who starts the one job of the
// household, supports nobody and has nothing else that counts. Spouses on
// returns of their own are not simple: if one itemizes, the other must.
func (w *walk) nothingElse(income, less answer) bool {
	return w.wayIn().is(newJob) && !w.separate() &&
		w.get("interview.jobs").whole() == 1 && w.get("interview.spouse_jobs").whole() == 0 &&
		w.get("interview.people").is("0") && income.none() && less.none()
}

// incomes are the kinds of income outside the jobs that can be had.
func (w *walk) incomes() []string {
	kinds := []string{"interest", "dividends", "gains", "self_employment"}
	if w.joint() {
		kinds = append(kinds, "spouse_self_employment")
	}
	kinds = append(kinds, "unemployment", "pension")
	if w.joint() {
		kinds = append(kinds, "spouse_pension")
	}
	return append(kinds, "retirement", "social_security", "other")
}

// reductions are what can lower the tax under the filing status and in the
// year.
func (w *walk) reductions() []string {
	status, y := w.household().Status, w.y
	kinds := []string{
		"tips", "overtime", "house", "gifts", "student_loan", "senior", "blind", "car_loan",
		"ira", "hsa", "educator", "spouse_educator", "care", "education", "saving", "other_adjustment", "other_credit",
	}
	barred := map[string]bool{
		"tips":            y.Tips.Cap.Of(status).IsZero(),
		"overtime":        y.Overtime.Cap.Of(status).IsZero(),
		"student_loan":    y.Adjustments.StudentLoan.PhaseOut.Of(status).To.IsZero(),
		"education":       y.Education.PhaseOut.Of(status).To.IsZero(),
		"spouse_educator": status != household.MarriedFilingJointly,
		"care":            w.get("interview.people").is("", "0") || w.onSeparateReturn(),
		"saving":          len(y.Savers.Tiers) == 0,
	}
	return slices.DeleteFunc(kinds, func(k string) bool { return barred[k] })
}
