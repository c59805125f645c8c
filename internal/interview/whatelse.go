package interview

import "time"

// askWhatElse asks for what counts beside the jobs, by kind only; the amounts
// come later, and only for what was chosen. Where nothing was, one job's
// certificate needs no figures at all.
func (w *walk) askWhatElse() {
	w.chapter = whatElse
	income := w.ask(incomeList, offering(w.offered(incomeList)))
	less := w.ask(reductionsList, offering(w.offered(reductionsList)))
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
