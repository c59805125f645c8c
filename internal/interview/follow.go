package interview

import (
	"path"
	"slices"
	"strconv"
	"strings"

	"example.com/plumbline/internal/household"
)

// follow does what an answer brings beyond itself: other answers that must be
// given again.
func (s *Session) follow(at *step, was, is string) {
	if was == is && !at.again {
		return
	}
	switch at.wording.Key {
	case "interview.changes":
		for _, c := range changes {
			if answer(is).has(c.option) && (!answer(was).has(c.option) || at.again) {
				s.reopenMatching(c.touches)
			}
		}
	case "interview.job.newer_stub":
		if is == "true" {
			s.reopenStub(at.about)
		}
	case "interview.job.special":
		if answer(is).has("ended") && !answer(was).has("ended") {
			s.reopenStub(at.about) // the last stub of all is wanted
		}
	case "interview.job.handed_in":
		if last, ok := s.walk.lastTime().Of(at.about.label); ok {
			s.noteHandedIn(at.about, answer(is), last.Certificate, last.From)
		}
	case "interview.job.handed_in_january":
		if last, ok := s.walk.forThisYear(at.about); ok {
			s.noteHandedIn(at.about, answer(is), last.Certificate, last.FirstPayday)
		}
	case "interview.job.pay_grew":
		if answer(is).is("raise", "varies") {
			s.askPayAgain(at.about)
		}
	case "interview.job.raise_day":
		s.askPayAgain(at.about)
	case "interview.job.fits":
		if is == "true" {
			s.takeFit(at.about)
		}
	case "jobs[].year_to_date.payday":
		s.followStub(at.about, answer(is).day())
		s.forgetDays(at.about)
	case "jobs[].first_payday", "jobs[].pay_frequency":
		s.forgetDays(at.about)
	}
}

// askPayAgain has the pay of a paycheck asked for again, with that of the newest
// paychecks suggested.
func (s *Session) askPayAgain(g group) {
	if _, _, differs := s.walk.payGrew(g); !differs {
		return
	}
	if _, asked := s.walk.place["interview."+g.label+"_pay_known"]; asked {
		s.set("interview."+g.label+"_pay_known", "taxable")
	}
	for _, field := range []string{".taxable_pay", ".gross_pay"} {
		s.doc.Delete(g.prefix + field)
		s.doc.Delete(s.walk.keptAt(g.label + field))
	}
}

func (s *Session) reopenStub(g group) {
	for _, field := range stubFields {
		s.reopen(true, g.label+"."+field)
	}
	if soFar := guideID(g, "tips_so_far"); s.doc.Has(soFar) {
		s.reopen(true, soFar, g.label+".qualified_tips")
	}
}

// followStub looks at the dates that a newer stub can belie: a first payday
// after it, a last payday before it, and one-time pay that it holds already.
func (s *Session) followStub(g group, payday household.Date) {
	j, ok := s.walk.job(g)
	if !ok {
		return
	}
	if j.FirstPayday.After(payday) {
		s.reopen(true, g.label+".first_payday")
	}
	special := "interview." + g.label + "_special"
	if ends := s.walk.get(special); ends.has("ends", "ended") && !j.LastPayday.IsZero() && j.LastPayday.Before(payday) {
		s.reopen(true, special, g.label+".last_payday")
	}
	for i, o := range j.OneTimePay {
		if !o.Payday.After(payday) {
			s.reopen(true, special, g.label+".one_time_pay["+strconv.Itoa(i)+"].payday")
		}
	}
}

// forgetDays drops the days of the month that were given for another payday; they
// are asked for again where the new one does not tell them.
func (s *Session) forgetDays(g group) {
	for _, name := range daysOfMonth {
		s.doc.Delete(guideID(g, name))
		s.doc.Delete(s.walk.keptAt(guideID(g, name)))
	}
}

// reopen marks answers as to be confirmed, or no longer.
func (s *Session) reopen(yes bool, ids ...string) {
	confirm := idList(s.doc, toConfirmKey)
	for _, id := range ids {
		if yes {
			confirm[id] = true
		} else {
			delete(confirm, id)
		}
	}
	setIDList(s.doc, toConfirmKey, confirm)
}

// reopenMatching marks the answers whose ids match one of the patterns, in
// which * stands for anything.
func (s *Session) reopenMatching(patterns []string) {
	for i := range s.walk.steps {
		at := &s.walk.steps[i]
		if at.set && slices.ContainsFunc(patterns, func(p string) bool {
			ok, _ := path.Match(p, at.id)
			return ok
		}) {
			s.reopen(true, at.id)
		}
	}
}

// yearBound are the answers that belong to one year, by the beginning of their
// keys' patterns.
var yearBound = []string{
	"jobs[].first_payday", "jobs[].last_payday", "jobs[].year_to_date", "jobs[].one_time_pay", "jobs[].last_paycheck",
	"wish.first_payday", "last_year.",
}

// keptAt is where an answer is kept while it does not apply. What belongs to
// one year is kept under that year.
func (w *walk) keptAt(id string) string {
	if belongsToYear(id) {
		id = strconv.Itoa(w.y.Year) + " " + id
	}
	return keptKey(id)
}

// belongsToYear reports the id or key of an answer that means nothing in
// another year.
func belongsToYear(id string) bool {
	label, field, _ := strings.Cut(id, ".")
	if strings.HasSuffix(label, "]") || strings.Contains(label, "job_") || strings.Contains(label, "pension_") {
		label = "jobs[]"
	}
	pattern := label + "." + indexFree(field)
	return slices.ContainsFunc(yearBound, func(b string) bool { return strings.HasPrefix(pattern, b) })
}

// returnIfLater begins another sitting where the last one came to its end on an
// earlier day: it asks what has changed and for the newest stubs, with all
// other answers kept.
func (s *Session) returnIfLater() {
	text, _ := s.doc.Get("as_of")
	then, today := answer(text).day(), s.env.Today
	complete := s.position() == len(s.walk.steps)
	back := complete && !then.IsZero() && then.Before(today)
	if back {
		s.rememberEarlier()
		if s.y.now.Year < s.env.Year {
			s.advisedAhead()
		}
		s.doc.Delete(wasYearKey)
	}
	_ = s.doc.Set("as_of", today.String())
	if was := s.y.now.Year; was < s.env.Year {
		s.beginYear(s.env.Year)
		if complete && !back && s.y.now.Year > was { // a file without a day: a year later all the same
			back, then = true, household.EndOfYear(was)
		}
	}
	if back {
		s.beginReturn(then)
	}
	s.changed()
}

// beginReturn asks again for all that passes with time.
func (s *Session) beginReturn(then household.Date) {
	_ = s.doc.Set(returnedKey, then.String())
	s.keepForecast()
	_ = s.doc.Set("interview.way_in", stub)
	s.doc.Delete(planKey)
	for _, key := range s.doc.Keys() {
		name, ok := gateName(key)
		if ok && (name == "changes" || strings.HasPrefix(name, "change_") ||
			strings.HasSuffix(name, "_newer_stub") || ofLastTime(name) || strings.HasSuffix(name, "_pay_grew") || strings.HasSuffix(name, "_raise_day")) {
			s.doc.Delete(key)
		}
	}
	had := make(map[string]bool)
	for i := range s.doc.Len("jobs") {
		prefix := "jobs[" + strconv.Itoa(i) + "]"
		label, live := s.walk.groups[prefix]
		if !live {
			continue
		}
		if s.doc.Has(prefix + ".year_to_date") {
			had[label] = true
			continue
		}
		j, _ := s.walk.job(group{prefix: prefix})
		special := "interview." + label + "_special"
		if picks := s.walk.get(special); picks.given() && !picks.has("began") && beganThisYear(j, s.y.now.Year) {
			_ = s.doc.Set(special, strings.Join(append([]string{"began"}, picks.picks()...), ", "))
		}
	}
	setIDList(s.doc, hadStubKey, had)
}

// beginYear carries the answers over into a new year, where its tables are
// known: what belongs to the old one is kept aside, and what is likely to be
// different is asked again.
func (s *Session) beginYear(year int) {
	was, carried := s.y.now.Year, s.carriedOver()
	_ = s.doc.Set("tax_year", strconv.Itoa(year))
	if s.openYear() != nil {
		_ = s.doc.Set("tax_year", strconv.Itoa(was))
		_ = s.openYear()
		return
	}
	_ = s.doc.Set(wasYearKey, strconv.Itoa(was))
	for _, key := range s.doc.Keys() {
		name, gate := gateName(key)
		switch {
		case gate && (strings.HasSuffix(name, "_stub") || strings.HasSuffix(name, "_tips_so_far")):
			s.doc.Delete(key) // whether there is a stub is asked again, and what it shows
		case ofLog(key):
		case belongsToYear(key):
			text, _ := s.doc.Get(key)
			_ = s.doc.Set(keptKey(strconv.Itoa(was)+" "+s.id(key)), text)
			s.doc.Delete(key)
		}
	}
	s.doc.Delete(hadStubKey)
	s.doc.Delete(againKey)
	writePayments(s.doc, was, tolerant(s.doc).Interview.Forecast)
	s.reopen(true, "interview.income", "interview.reductions")
	if carried.Year == year {
		s.carry(carried)
	}
}
