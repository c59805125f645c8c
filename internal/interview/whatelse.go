package interview

import (
	"slices"
	"strings"
	"time"

	"example.com/plumbline/internal/money"
)

// askWhatElse asks for what counts beside the jobs, by kind only; the amounts
// come later, and only for what was chosen. Where nothing was, one job's
// certificate needs no figures at all.
func (w *walk) askWhatElse() {
	w.chapter = whatElse
	income := w.askList(incomeList)
	less := w.askList(reductionsList)
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

// askList asks one of the two lists. That nothing of it applies is doubted once
// where an amount was given before for something in it.
func (w *walk) askList(list string) answer {
	picked := w.ask(list, offering(w.offered(list)))
	if !picked.none() {
		return picked
	}
	var likely []string
	for _, g := range gates {
		if g.list == list && (g.when == nil || g.when(w)) && w.keptAmount(g.keys) {
			likely = append(likely, `"`+w.ofQuestion(&w.steps[w.place[list]], "option."+g.option)+`"`)
		}
	}
	if len(likely) > 0 {
		w.doubt(list, w.notice("none_of_these", "named", likely))
	}
	return picked
}

// keptAmount reports an amount other than zero that was given at one of the keys
// and does not apply now.
func (w *walk) keptAmount(keys []string) bool {
	return slices.ContainsFunc(w.doc.Keys(), func(key string) bool {
		id, kept := keptID(key)
		if !kept {
			return false
		}
		if year, rest, ok := strings.Cut(id, " "); ok && year != "" {
			id = rest
		}
		text, _ := w.doc.Get(key)
		a, err := money.Parse(text)
		return err == nil && !a.IsZero() && slices.ContainsFunc(keys, func(k string) bool {
			_, field, inList := strings.Cut(k, "[].")
			return k == id || inList && strings.HasSuffix(id, "."+field)
		})
	})
}

// nothingElse reports the simple case: someone who starts the one job of the
// household, supports nobody and has nothing else that counts. Spouses on
// returns of their own are not simple: if one itemizes, the other must.
func (w *walk) nothingElse(income, less answer) bool {
	return w.wayIn().is(newJob) && !w.separate() &&
		w.get("interview.jobs").whole() == 1 && w.get("interview.spouse_jobs").whole() == 0 &&
		w.get("interview.people").is("0") && income.none() && less.none()
}
