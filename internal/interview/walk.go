package interview

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"example.com/plumbline/internal/certificate"
	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/paystub"
	"example.com/plumbline/internal/tables"
	"example.com/plumbline/internal/tax"
	"example.com/plumbline/internal/words"
	"example.com/plumbline/internal/yamldoc"
)

// A walk goes through the interview once, from its beginning, on the answers
// as they are: it asks every question that applies, and so finds which those
// are. The chapters are plain Go, in the order of the interview; ask returns
// the answer, which is empty while there is none. A walk changes nothing.
type walk struct {
	doc      *yamldoc.Document
	lang     *words.Language
	today    household.Date
	y        *tables.Year
	next     *tables.Year    // nil where they are not known
	confirm  map[string]bool // ids of the answers to be confirmed
	notKnown map[string]bool // ids of questions answered by Unknown
	beyond   map[string]bool // ids of facts that count though nothing asks for them

	chapter int
	page    string // of the questions being put; empty for each its own
	steps   []step
	place   map[string]int    // of the steps, by id
	derived []fact            // what follows from the answers and must be in the file
	groups  map[string]string // live elements of lists: prefix to label
	jobs    int               // elements of the list of jobs, with those to be made
	own     []group           // one's own jobs, once they have been counted
	spouses []group           // those of a spouse on a joint return, likewise
	unnamed []group           // jobs whose names are still to be asked for
	begun   map[string]begun  // by label: jobs whose stub and certificate have been asked for
	notices []notice          // to be shown before the next question
	doubted map[string]bool   // ids of questions whose answers are hard to believe
	pending map[string]bool   // keys of answers to questions that turn on figures not complete yet
	blank   bool              // the certificate needs the status and nothing else

	found     map[string][]paystub.Fit
	known     *household.Household // decoded once, when first needed
	outlook   *certificate.Outlook // worked out once, when first needed
	outlookOK bool
	ret       tax.Return // of the outlook
}

// A step is a question in its place.
type step struct {
	id      string // stays the same when elements of a list move
	key     string // in the answers file
	wording *wording
	chapter int
	page    string // its questions can be shown together
	about   group
	offer   []string // the options that apply; all when nil
	suggest string   // a default that depends on the answers
	follows bool     // the default follows from a change, so it goes before an earlier answer
	periods int      // of the job in a year
	least   int      // of a whole number
	tooLow  string   // the error that says why a lower one is refused, where it is not the usual one
	most    int      // the same
	notices []notice
	labels  map[string]string // of options that are the person's own
	lang    *words.Language
	needed  bool // nothing can be assumed in its place
	unknown bool // the answer is that the person does not know
	set     bool // an answer is in the file
	again   bool // and must be confirmed
	stale   bool // and means something else now: another is wanted, and this one is not offered
}

func (s *step) open() bool { return s.missing() || s.again }

// missing reports a question that must be answered and has no answer.
func (s *step) missing() bool { return !s.set }

// takesUnknown reports whether Unknown is an answer.
func (s *step) takesUnknown() bool { return s.wording.Unknown && !s.needed }

// options are the values that apply, in the order in which they are offered.
func (s *step) options() []string {
	if s.offer == nil {
		return s.wording.Options
	}
	return slices.DeleteFunc(slices.Clone(s.offer), func(v string) bool { return !slices.Contains(s.wording.Options, v) })
}

// listed are the options that a list shows.
func (s *step) listed() []string {
	if s.wording.Kind == Named {
		return nil
	}
	return s.options()
}

// offers reports whether a value is one of those offered by a step.
func (s *step) offers(value string) bool { return slices.Contains(s.options(), value) }

// A fact follows from the answers. Its id and key are those of a step.
type fact struct{ id, key, text string }

// answer is an answer as it is in the file; empty while there is none.
type answer string

func (a answer) given() bool              { return a != "" }
func (a answer) yes() bool                { return a == "true" }
func (a answer) no() bool                 { return a == "false" }
func (a answer) is(values ...string) bool { return slices.Contains(values, string(a)) }

// has reports whether a value is among several.
func (a answer) has(values ...string) bool {
	for _, picked := range a.picks() {
		if slices.Contains(values, picked) {
			return true
		}
	}
	return false
}

// picks are the values of an answer of kind Several.
func (a answer) picks() []string {
	var values []string
	for v := range strings.SplitSeq(string(a), ",") {
		if v = strings.TrimSpace(v); v != "" && v != None {
			values = append(values, v)
		}
	}
	return values
}

// none reports the answer that nothing of a list applies.
func (a answer) none() bool { return a.given() && len(a.picks()) == 0 }

func (a answer) whole() int {
	n, _ := strconv.Atoi(string(a))
	return n
}

func (a answer) amount() money.Amount {
	m, _ := money.Parse(string(a))
	return m
}

func (a answer) day() household.Date {
	var d household.Date
	_ = d.UnmarshalText([]byte(a))
	return d
}

// A group is one element of a list in the answers: a job, a dependent. The
// zero group stands for the household itself.
type group struct {
	label   string // "job_1": names the element for good
	prefix  string // "jobs[0]": where it is now
	list    string // "jobs[]": as in the wording's keys
	kind    string // "job": as in the wording's keys of the interview's own questions
	name    string // as people read it
	pension bool   // of a job
}

// with is something a question is put with.
type with func(*step)

// offering limits the options to those that apply.
func offering(values []string) with { return func(s *step) { s.offer = values } }

// suggesting gives a default that depends on the answers.
func suggesting(text string) with { return func(s *step) { s.suggest = text } }

// between limits a whole number. The upper limits are far above any honest
// answer; they keep a slip of the finger from asking about a hundred jobs.
func between(least, most int) with { return func(s *step) { s.least, s.most = least, most } }

// needing asks for an answer in whose place nothing can be assumed.
func needing(s *step) { s.needed = true }

// afresh asks for an answer that is not the one of before.
func afresh(s *step) { s.stale = s.again }

const (
	mostJobs   = 9
	mostPeople = 15
	mostOther  = 99
)

// ask puts a question about the household and returns its answer.
func (w *walk) ask(key string, options ...with) answer {
	return w.put(key, step{id: key, key: key}, options)
}

// ask puts a question about the group: one whose answer is a fact of it.
func (w *walk) askOf(g group, field string, options ...with) answer {
	return w.put(g.list+"."+indexFree(field), step{
		id:    g.label + "." + field,
		key:   g.prefix + "." + field,
		about: g,
	}, options)
}

// guide puts a question of the interview's own about the group.
func (w *walk) guide(g group, name string, options ...with) answer {
	key := "interview." + g.label + "_" + name
	return w.put("interview."+g.kind+"."+name, step{id: key, key: key, about: g}, options)
}

func (w *walk) put(pattern string, s step, options []with) answer {
	if i, twice := w.place[s.id]; twice {
		return w.answered(&w.steps[i])
	}
	s.wording, s.lang = script().question(pattern), w.lang
	s.chapter, s.page = w.chapter, w.page
	s.most = mostOther
	if s.wording.Per == perPaycheck {
		s.periods = w.y.Payroll.Periods.Of(w.frequency(s.about))
	}
	s.notices, w.notices = w.notices, nil
	s.again = w.confirm[s.id]
	for _, o := range options {
		o(&s)
	}
	text, set := w.doc.Get(s.key)
	s.set = set && s.accepts(text)
	s.unknown = !set && s.takesUnknown() && w.notKnown[s.id]
	s.set = s.set || s.unknown
	s.again = s.set && s.again
	if s.open() && !w.doc.Has(w.keptAt(s.id)) {
		if follows := w.following(&s); follows != "" {
			s.suggest, s.follows = follows, true
		}
	}
	w.place[s.id] = len(w.steps)
	w.steps = append(w.steps, s)
	return w.answered(&s)
}

// answered is the answer to a step; values that are not offered are passed
// over.
func (w *walk) answered(s *step) answer {
	switch {
	case !s.set:
		return ""
	case s.unknown:
		return Unknown
	}
	text, _ := w.doc.Get(s.key)
	return s.offered(text)
}

// offered is an answer without the values of a list that are not offered now.
func (s *step) offered(text string) answer {
	if s.wording.Kind != Several || s.offer == nil {
		return answer(text)
	}
	var left []string
	for _, v := range answer(text).picks() {
		if slices.Contains(s.offer, v) {
			left = append(left, v)
		}
	}
	if len(left) == 0 {
		return None
	}
	return answer(strings.Join(left, ", "))
}

// A notice is something that the answers have led to. Its id stays the same
// while the figures in it change.
type notice struct{ id, text string }

// say has a notice shown before the next question: a reason or a verdict.
func (w *walk) say(n notice) {
	if n.text != "" {
		w.notices = append(w.notices, n)
	}
}

// doubt has an answer that is hard to believe asked for again at once, with the
// reason. The same answer given twice counts.
func (w *walk) doubt(id string, n notice) {
	w.doubted[id] = true
	if at := &w.steps[w.place[id]]; at.again && !slices.Contains(at.notices, n) {
		at.notices = append(at.notices, n)
	}
}

// said are all notices.
func (w *walk) said() []notice {
	all := slices.Clone(w.notices)
	for i := range w.steps {
		all = append(all, w.steps[i].notices...)
	}
	return all
}

// derive notes what follows from the answers and must be in the file.
func (w *walk) derive(g group, field, text string) {
	f := fact{id: field, key: field, text: text}
	if g.prefix != "" {
		f.id, f.key = g.label+"."+field, g.prefix+"."+field
	}
	w.derived = append(w.derived, f)
}

// complete reports whether every question so far has an answer, be it one to
// confirm, so that figures worked out from the answers are worth something.
func (w *walk) complete() bool {
	return !slices.ContainsFunc(w.steps, func(s step) bool { return s.missing() })
}

// household is the facts as they are, however incomplete. Where the filing
// status is not known yet it is single.
func (w *walk) household() household.Household {
	if w.known == nil {
		h := tolerant(w.doc)
		w.known = &h
	}
	return *w.known
}

// tolerant decodes a document that may lack what a household must have.
func tolerant(doc *yamldoc.Document) household.Household {
	var h household.Household
	doc.Decode(&h)
	return h
}

// standings are those of the dependents, by what has been asked so far: what is
// asked later must not decide what is asked now.
func (w *walk) standings() []tax.Standing {
	h := w.household()
	h.Self.SSNValidForWork = w.soFar("self.ssn_valid_for_work", h.Self.SSNValidForWork)
	if h.Spouse != nil {
		spouse := *h.Spouse
		spouse.SSNValidForWork = w.soFar("spouse.ssn_valid_for_work", spouse.SSNValidForWork)
		h.Spouse = &spouse
	}
	people := make([]group, min(len(h.Dependents), w.get("interview.people").whole()))
	h.Dependents = slices.Clone(h.Dependents[:len(people)])
	for i := range people {
		people[i] = w.person(i)
		h.Dependents[i].Name = words.Capital(people[i].name) // for the reasons given
	}
	return tax.StandingsSoFar(h, func(i int, fact string) bool { return w.answeredOf(people[i])(fact) }, w.y)
}

// soFar is a fact that counts once it has been asked for.
func (w *walk) soFar(id string, fact *bool) *bool {
	if _, asked := w.place[id]; !asked {
		return nil
	}
	return fact
}

// nth is the group at an index of a list.
func (w *walk) nth(kind, list string, i int, name string) group {
	g := group{
		label:  fmt.Sprintf("%s_%d", kind, i+1),
		prefix: fmt.Sprintf("%s[%d]", list, i),
		list:   list + "[]",
		kind:   kind,
		name:   name,
	}
	w.groups[g.prefix] = g.label
	return g
}

// indexFree is a key with its indexes taken out: "jobs[].name".
func indexFree(key string) string {
	var b strings.Builder
	inside := false
	for _, r := range key {
		switch {
		case r == '[':
			inside = true
			b.WriteString("[")
		case r == ']':
			inside = false
			b.WriteString("]")
		case !inside:
			b.WriteRune(r)
		}
	}
	return b.String()
}
