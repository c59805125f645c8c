package interview

import (
	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/yamldoc"
)

// The chapters, in the order of the interview and of their titles in the
// wording file.
const (
	whereYouStand = iota
	yourStub      // of those who came to have it checked
	you
	people
	whatElse
	yourPay
	spousePay
	pensions
	otherIncome
	deductions
	credits
	payments
	yourWish
)

// newWalk goes through the whole interview.
func newWalk(doc *yamldoc.Document, env Env, y *forYear) *walk {
	w := &walk{
		doc: doc, lang: env.language(), today: env.Today, y: y.now, next: y.next, found: y.fits,
		confirm: idList(doc, toConfirmKey), beyond: idList(doc, beyondKey),
		notKnown: idList(doc, notKnownKey),
		steps:    make([]step, 0, 64), // most interviews have no more
		place:    make(map[string]int),
		groups:   make(map[string]string),
		pending:  make(map[string]bool),
		doubted:  make(map[string]bool),
		begun:    make(map[string]begun),
		jobs:     doc.Len("jobs"),
	}
	w.askWhereYouStand()
	w.askStubFirst()
	w.askYou()
	w.askPeople()
	w.askWhatElse()
	if w.blank {
		return w
	}
	w.askPay()
	w.askOtherIncome()
	w.askDeductions()
	w.askCredits()
	w.askPayments()
	w.askWish()
	w.askAgain()
	return w
}

// The ways in.
const (
	newJob  = "new_job"
	changed = "changed"
	stub    = "stub"
)

// wayIn is how the person came to the interview this time.
func (w *walk) wayIn() answer {
	text, _ := w.doc.Get("interview.way_in")
	return answer(text)
}

// returned is the day of the sitting before this one, when that one came to
// its end; zero in a first sitting.
func (w *walk) returned() household.Date {
	text, _ := w.doc.Get(returnedKey)
	return answer(text).day()
}

func (w *walk) askWhereYouStand() {
	w.chapter = whereYouStand
	way := w.ask("interview.way_in")
	back := !w.returned().IsZero()
	if !back && !way.is(changed) {
		return
	}
	if w.log().WasYear != 0 {
		w.say(w.notice("new_year"))
	}
	if back {
		for _, line := range w.lookBack() {
			w.say(line)
		}
		w.tellToPay()
	}
	w.ask("interview.changes", offering(offeredChanges(back)))
	w.askChangeDays()
}

// askYou asks about marriage and how many jobs there are.
func (w *walk) askYou() {
	w.chapter = you
	w.askMarriage()
	w.together("jobs", func() {
		w.askJobs()
		if w.joint() {
			w.spouses = w.jobsOf("spouse_job", w.ask("interview.spouse_jobs", between(0, mostJobs)).whole())
			w.askFirstState(w.spouses)
		}
	})
}

// askJobs asks how many jobs one has, and notes which they are.
func (w *walk) askJobs() {
	least, number := 0, ""
	if w.wayIn().is(newJob) {
		least, number = 1, "1"
	}
	n := w.ask("interview.jobs", between(least, mostJobs), suggesting(number)).whole()
	if w.own == nil {
		w.own = w.jobsOf("job", max(n, least)) // one is sure before it is said
	}
	w.askFirstState(w.own)
}

func (w *walk) askMarriage() {
	married := w.ask("interview.married")
	if married.is("widowed") {
		w.ask("interview.spouse_died", between(w.y.Year-120, w.y.Year))
	}
	if married.is("yes") {
		w.ask("interview.file_jointly")
	}
}

// get is an answer to a question asked before, empty when it was not asked or
// not answered.
func (w *walk) get(id string) answer {
	if i, asked := w.place[id]; asked {
		return w.answered(&w.steps[i])
	}
	return ""
}

// joint reports a joint return: of spouses who want one, and for the year in
// which one of them died (IRC 6013(a)).
func (w *walk) joint() bool {
	return w.get("interview.married").is("yes") && w.get("interview.file_jointly").is("jointly") ||
		w.diedAgo() == 0
}

// separate reports a spouse on a return of their own.
func (w *walk) separate() bool {
	return w.get("interview.married").is("yes") && w.get("interview.file_jointly").is("separately")
}

// onSeparateReturn reports a married person's separate return: who counts as
// unmarried by living apart has none.
func (w *walk) onSeparateReturn() bool {
	return w.household().Status == household.MarriedFilingSeparately
}

// diedAgo is how many years before the tax year the spouse died; negative when
// that is not so or not known.
func (w *walk) diedAgo() int {
	year := w.get("interview.spouse_died")
	if !year.given() {
		return -1
	}
	return w.y.Year - year.whole()
}
