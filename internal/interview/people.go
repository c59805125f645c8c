package interview

import (
	"slices"
	"strconv"
	"strings"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/tax"
	"example.com/plumbline/internal/words"
)

// askPeople asks about each person whom the household may claim, by the tests
// of IRC 152 and 24, one at a time and only those needed; then by the same
// facts what is left to know for the filing status.
func (w *walk) askPeople() {
	w.chapter = people
	n := w.ask("interview.people", between(0, mostPeople)).whole()
	if n > 0 && !w.joint() {
		// Who is a dependent has none, IRC 152(b)(1); who files a joint return is
		// none, IRC 152(b)(2).
		w.ask("self.can_be_claimed")
	}
	for i := range n {
		w.askPerson(i)
	}
	w.askStatus(n)
}

// askPerson asks about one dependent: the facts that the tests of the law still
// need, until they decide; then the reason is told.
func (w *walk) askPerson(i int) {
	p := w.person(i)
	var related answer
	w.together(p.label, func() {
		related = w.askOf(p, "relationship")
		if !related.given() {
			for _, fact := range opening { // most will need them; the tests below say
				w.askFact(p, fact)
			}
		}
	})
	if !related.given() || i >= len(w.household().Dependents) {
		return
	}
	for {
		standing, fact := tax.Decide(w.judged(p, i), i, w.answeredOf(p), w.y)
		if fact == "" {
			if w.complete() {
				w.tellStanding(i, standing)
			}
			return
		}
		page, given := "", false
		if slices.Contains(opening, fact) {
			page = p.label
		}
		w.together(page, func() { given = w.askFact(p, fact).given() })
		if !given {
			return
		}
	}
}

// person is the group of a dependent.
func (w *walk) person(i int) group { return w.nth("person", "dependents", i, w.personName(i)) }

// opening are the facts about a dependent that go on one page with who it is.
var opening = []string{"birth_date", "months_with_you"}

// judged is the household as the tests of one dependent see it. What is known of
// the other parent's claim comes from the guides, unless the person has said
// what the dependent counts as.
func (w *walk) judged(p group, i int) household.Household {
	h := w.household()
	switch joint := w.joint(); {
	case joint:
		h.Status = household.MarriedFilingJointly
	case h.Joint():
		h.Status = household.Single // the status is not worked out yet
	}
	h.Dependents = slices.Clone(h.Dependents)
	d := &h.Dependents[i]
	d.Name = words.Capital(w.personName(i)) // for the reasons given
	if w.beyond[p.label+".counts_as"] {
		return h
	}
	switch {
	case w.get(guideID(p, tax.Released)).is("yes"):
		d.CountsAs = household.CountsAsChild
	case w.get(guideID(p, tax.Claimed)).is("yes"), w.get(p.label + ".gross_income").is(Unknown):
		d.CountsAs = household.CountsAsNone
	default:
		d.CountsAs = household.ByTheTests
	}
	return h
}

// answeredOf reports which facts about a dependent have been asked for and
// answered, or are in the file without being asked for.
func (w *walk) answeredOf(p group) func(fact string) bool {
	return func(fact string) bool {
		switch {
		case fact == tax.Released, fact == tax.Claimed:
			return w.get(guideID(p, fact)).given()
		case strings.Contains(fact, "."):
			return w.get(fact).given()
		}
		id := p.label + "." + fact
		return w.get(id).given() || w.beyond[id]
	}
}

// guideID is the id of a question of the interview's own about a group.
func guideID(g group, name string) string { return "interview." + g.label + "_" + name }

// askFact asks for a fact that the tests of a dependent need.
func (w *walk) askFact(p group, fact string) answer {
	switch {
	case fact == tax.Released:
		return w.askParent(p, fact, "child")
	case fact == tax.Claimed:
		return w.askParent(p, fact, "none")
	case strings.Contains(fact, "."):
		return w.ask(fact)
	case fact == "gross_income":
		// Who may have too much to count is not counted: missing is never zero.
		income := w.askOf(p, fact)
		if income.is(Unknown) {
			w.derive(p, "counts_as", household.CountsAsNone.String())
		}
		return income
	case fact == "months_with_you":
		return w.askOf(p, fact, between(0, 12))
	}
	return w.askOf(p, fact)
}

// askParent asks what parents who live apart have agreed on, which decides what
// the child counts as.
func (w *walk) askParent(p group, fact, countsAs string) answer {
	a := w.guide(p, fact)
	switch {
	case a.is("yes"):
		w.derive(p, "counts_as", countsAs)
		if fact == tax.Claimed {
			w.say(w.notice("claimed_by_other"))
		}
	case a.is("not_sure"):
		w.say(w.notice("parents_apart"))
	}
	return a
}

// tellStanding says what a person counts for, and why.
func (w *walk) tellStanding(i int, standing tax.Standing) {
	verdict := "counts_not"
	switch {
	case w.get(w.person(i).label + ".gross_income").is(Unknown):
		verdict = "income_unknown"
	case standing.ChildCredit:
		verdict = "counts_child"
	case standing.OtherCredit:
		verdict = "counts_other"
	}
	w.say(w.notice(verdict, "person", words.Capital(w.personName(i)), "reason", standing.Reason))
	for _, n := range standing.Notes {
		if n.Code != "shared_custody" { // the guide about separated parents has said it
			w.say(notice{n.Code, n.Said(w.lang)})
		}
	}
}

// personName is how the wording speaks of a dependent, by the little that is
// known.
func (w *walk) personName(i int) string {
	prefix := "dependents[" + strconv.Itoa(i) + "]"
	if name, ok := w.doc.Get(prefix + ".name"); ok {
		return name
	}
	related, _ := w.doc.Get(prefix + ".relationship")
	born, _ := w.doc.Get(prefix + ".birth_date")
	if !w.lang.Has("interview.phrase.relationship_" + related) {
		return w.phrase("person", "number", i+1)
	}
	phrase := w.phrase("relationship_" + related)
	same := 0
	for j := range w.get("interview.people").whole() {
		if other, _ := w.doc.Get("dependents[" + strconv.Itoa(j) + "].relationship"); other == related {
			same++
		}
	}
	switch d := answer(born).day(); {
	case same < 2:
		return phrase
	case d.IsZero():
		return w.phrase("person", "number", i+1)
	default:
		return w.phrase("born_in", "person", phrase, "year", d.Year)
	}
}

// statusSoFar is the filing status as it is known before the people at home are:
// by marriage alone.
func (w *walk) statusSoFar() household.Status {
	if _, asked := w.place["interview.people"]; asked {
		return w.household().Status
	}
	switch {
	case w.joint():
		return household.MarriedFilingJointly
	case w.separate():
		return household.MarriedFilingSeparately
	}
	return household.Single
}

// askStatus asks what is left to know for the filing status, IRC 2 and 7703,
// and derives it.
func (w *walk) askStatus(n int) {
	married := w.get("interview.married")
	if !married.given() || married.is("widowed") && w.diedAgo() < 0 {
		return
	}
	if w.joint() {
		w.settle(household.MarriedFilingJointly)
		return
	}
	alone := household.Single
	if w.separate() {
		alone = household.MarriedFilingSeparately
	}
	if n == 0 || !w.keepsHomeFor(w.separate()) {
		w.settle(alone)
		return
	}
	// Living apart from a spouse for the last six months counts as unmarried:
	// IRC 7703(b).
	if w.separate() && !w.ask("interview.apart").yes() {
		w.settle(alone)
		return
	}
	if !w.ask("interview.home").yes() {
		w.settle(alone)
		return
	}
	if ago := w.diedAgo(); (ago == 1 || ago == 2) && w.childAllYear() {
		w.settle(household.QualifyingSurvivingSpouse)
		w.sayOnce("status_surviving", household.QualifyingSurvivingSpouse)
		return
	}
	w.settle(household.HeadOfHousehold)
	w.sayOnce("status_head", household.HeadOfHousehold)
}

func (w *walk) settle(s household.Status) { w.derive(group{}, "filing_status", s.String()) }

// sayOnce tells the status once the file has it, so that amounts in the notice
// are those of the status.
func (w *walk) sayOnce(name string, s household.Status) {
	if w.household().Status == s {
		w.say(w.notice(name))
	}
}

// keepsHomeFor reports whether someone in the answers can make the person head
// of household: for someone married, only a child (IRC 7703(b)(1)).
func (w *walk) keepsHomeFor(childOnly bool) bool {
	return slices.ContainsFunc(w.standings(), func(s tax.Standing) bool { return s.HeadOfHousehold && (!childOnly || s.Unmarried) })
}

// onlyParentsMakeHead reports that nobody but a parent can make the person head of
// household: for a parent the home counts that is the parent's all year, IRC
// 2(b)(1)(B).
func (w *walk) onlyParentsMakeHead() bool {
	dependents := w.household().Dependents
	parents := 0
	for i, s := range w.standings() {
		switch {
		case !s.HeadOfHousehold:
		case dependents[i].Relationship != household.Parent:
			return false
		default:
			parents++
		}
	}
	return parents > 0
}

// childAllYear reports a child of one's own at home all year who counts as a
// dependent: IRC 2(a)(1)(B).
func (w *walk) childAllYear() bool {
	return slices.ContainsFunc(w.standings(), func(s tax.Standing) bool { return s.SurvivingSpouse })
}
