package interview

import (
	"maps"
	"slices"
	"strconv"
	"strings"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/yamldoc"
)

// The answers file holds, beside the facts, what the interview needs for
// itself: household.InterviewLog. Answers to its own questions are there by
// name (way_in, job_1_stub), the rest under names of its own.
//
// An answer that stops applying is moved to what is kept at once, so that every
// other command reads only what counts; the facts themselves are never there
// twice.
const (
	logName      = "interview"
	toConfirmKey = "interview.to_confirm"
	beyondKey    = "interview.beyond"
	toTellKey    = "interview.to_tell"
	hadStubKey   = "interview.had_stub"
	atKey        = "interview.at"
	forwardKey   = "interview.forward"
	returnedKey  = "interview.returned"
	wasYearKey   = "interview.was_year"
	finishedKey  = "interview.finished"
	planKey      = "interview.plan"
	forecastKey  = "interview.forecast"
	lastKey      = "interview.last_forecast"
	toPayKey     = "interview.still_to_pay"
	earlierKey   = "interview.earlier"
	keptKeys     = "interview.kept"
	notKnownKey  = "interview.not_known"
)

// logKeys are the parts of the log that are no answers.
var logKeys = []string{
	toConfirmKey, beyondKey, toTellKey, hadStubKey, atKey, forwardKey, returnedKey, wasYearKey,
	finishedKey, planKey, forecastKey, lastKey, toPayKey, earlierKey, keptKeys, notKnownKey,
}

// keptKey is where an answer is kept while it does not apply.
func keptKey(id string) string { return keptKeys + "[" + strconv.Quote(id) + "]" }

// keptID is the id of the answer that is kept at a key.
func keptID(key string) (id string, ok bool) {
	rest, ok := strings.CutPrefix(key, keptKeys)
	if !ok {
		return "", false
	}
	if name, quoted := strings.CutPrefix(rest, `["`); quoted {
		return strings.TrimSuffix(name, `"]`), true
	}
	return strings.TrimPrefix(rest, "."), true
}

// ofLog reports a key of the interview's log.
func ofLog(key string) bool {
	rest, ok := strings.CutPrefix(key, logName)
	return ok && (strings.HasPrefix(rest, ".") || strings.HasPrefix(rest, "["))
}

// gateName is the name of an answer to one of the interview's own questions.
func gateName(key string) (string, bool) {
	if !ofLog(key) || slices.ContainsFunc(logKeys, func(own string) bool {
		rest, ok := strings.CutPrefix(key, own)
		return ok && (rest == "" || rest[0] == '.' || rest[0] == '[')
	}) {
		return "", false
	}
	if rest, quoted := strings.CutPrefix(key, logName+`["`); quoted {
		return strings.TrimSuffix(rest, `"]`), true
	}
	return strings.TrimPrefix(key, logName+"."), true
}

// idList reads a list of ids.
func idList(doc *yamldoc.Document, key string) map[string]bool {
	text, _ := doc.Get(key)
	ids := make(map[string]bool)
	for _, id := range strings.Fields(text) {
		ids[id] = true
	}
	return ids
}

func setIDList(doc *yamldoc.Document, key string, ids map[string]bool) {
	if len(ids) == 0 {
		doc.Delete(key)
		return
	}
	_ = doc.Set(key, strings.Join(slices.Sorted(maps.Keys(ids)), " "))
}

// log is the interview's log as it is in the file.
func (w *walk) log() household.InterviewLog { return w.household().Interview }

// facts are the keys of the document outside the log.
func facts(doc *yamldoc.Document) []string {
	return slices.DeleteFunc(doc.Keys(), ofLog)
}

// rememberEarlier notes the facts as they are, so that what has changed can be
// told. Facts that cannot be noted down are told apart by the changes named.
func (s *Session) rememberEarlier() {
	s.doc.Delete(earlierKey)
	for _, key := range facts(s.doc) {
		text, _ := s.doc.Get(key)
		if s.doc.Set(earlierKey+"."+key, text) != nil {
			s.doc.Delete(earlierKey)
			return
		}
	}
}

// upgradeLog brings a log of before the parts had names of their own into
// today's shape: "kept ID", "forecast JOB.FIGURE", "before" (the facts as one
// quoted text) and JOB_had_stub.
func (s *Session) upgradeLog() {
	had, forecast := idList(s.doc, hadStubKey), make(map[string]string)
	for _, key := range s.doc.Keys() {
		name, ok := gateName(key)
		if !ok {
			continue
		}
		text, _ := s.doc.Get(key)
		id, kept := strings.CutPrefix(name, "kept ")
		figure, foretold := strings.CutPrefix(name, "forecast ")
		label, stub := strings.CutSuffix(name, "_had_stub")
		switch {
		case kept:
			_ = s.doc.Set(keptKey(id), text)
		case foretold:
			forecast[figure] = text
		case stub:
			had[label] = true
		case name == "before":
			s.upgradeBefore(text)
		default:
			continue
		}
		s.doc.Delete(key)
	}
	setIDList(s.doc, hadStubKey, had)
	s.upgradeForecast(forecast)
	s.upgradeLastForecast()
}

// upgradeAnswers answers what was asked in another way before: one day for several
// changes, and the tips of the year without those of the stub.
func (s *Session) upgradeAnswers() {
	s.settleOnce()
	day, given := s.doc.Get(changeDate)
	if dated := s.walk.dated(); given && len(dated) > 1 {
		for _, c := range dated {
			if key := guideID(s.walk.changeGroup(c.option), "date"); !s.doc.Has(key) {
				s.set(key, day)
			}
		}
	}
	for prefix, label := range s.walk.groups {
		soFar := "interview." + label + "_tips_so_far"
		if s.doc.Has(prefix+".qualified_tips") && !s.doc.Has(soFar) {
			s.setNotKnown(soFar, true)
		}
	}
}

func (s *Session) upgradeBefore(quoted string) {
	text, err := strconv.Unquote(quoted)
	if err != nil {
		return
	}
	doc, err := yamldoc.Parse("answers before", []byte(text))
	if err != nil {
		return
	}
	for _, key := range facts(doc) {
		text, _ := doc.Get(key)
		_ = s.doc.Set(earlierKey+"."+key, text)
	}
}

// upgradeForecast writes a forecast that was kept figure by figure.
func (s *Session) upgradeForecast(figures map[string]string) {
	if len(figures) == 0 || s.doc.Has(forecastKey) {
		return
	}
	places, n := make(map[string]int), 0
	for _, name := range slices.Sorted(maps.Keys(figures)) {
		job, figure, ofJob := strings.Cut(name, ".")
		if !ofJob {
			_ = s.doc.Set(forecastKey+"."+name, figures[name])
			continue
		}
		if _, known := places[job]; !known {
			places[job] = n
			_ = s.doc.Set(forecastOf(n)+".job", job)
			n++
		}
		at := forecastOf(places[job])
		if !slices.Contains([]string{"through", "withheld", "before", "from", "after"}, figure) {
			at += ".certificate"
			_ = s.doc.Set(forecastOf(places[job])+".new", "true")
		}
		_ = s.doc.Set(at+"."+figure, figures[name])
	}
}

// upgradeLastForecast moves a forecast to where that of the sitting before is, in a
// file in which both had one place.
func (s *Session) upgradeLastForecast() {
	if s.doc.Has(forecastKey + ".day") {
		return
	}
	returned, _ := s.doc.Get(returnedKey)
	finished, _ := s.doc.Get(finishedKey)
	if returned != "" && !answer(finished).day().After(answer(returned).day()) {
		s.keepForecast()
	}
}

func forecastOf(n int) string { return forecastKey + ".jobs[" + strconv.Itoa(n) + "]" }
