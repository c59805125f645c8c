package interview

import (
	"strconv"
	"time"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/tax"
)

// askPeople asks about each person whom the household may claim, by the tests
// of IRC 152 and 24, one at a time and only as far as needed; then by the same
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

// ofAChild are the relationships that can make a qualifying child, IRC
// 152(c)(2).
var ofAChild = []string{"child", "stepchild", "foster_child", "sibling", "descendant"}

// askPerson asks about one dependent. The questions stop as soon as the answer
// is known; then the reason is told.
func (w *walk) askPerson(i int) {
	p := w.nth("person", "dependents", i, w.personName(i))
	related := w.askOf(p, "relationship")
	if !related.given() {
		return
	}
	born := w.askOf(p, "birth_date").day()
	if born.IsZero() {
		return
	}
	age := born.AgeAtEndOf(w.y.Year)
	if w.beyond[p.label+".counts_as"] && w.doc.Has(p.prefix+".counts_as") {
		w.askNumber(p, age) // the person already knows
		return
	}
	if related.is(ofAChild...) {
		w.askChild(p, related, age)
	} else {
		w.askRelative(p, related, age)
	}
	if w.complete() && i < len(w.household().Dependents) {
		w.tellStanding(i)
	}
}

// askChild asks the tests of a qualifying child, IRC 152(c), and goes on to
// those of a relative where one of them fails.
func (w *walk) askChild(p group, related answer, age int) {
	t := &w.y.DependentTests
	livesHere := true
	if age > 0 || !w.joint() {
		months := w.askOf(p, "months_with_you", between(0, 12))
		if !months.given() {
			return
		}
		livesHere = w.livesHere(p, months.whole())
	}
	young := age < t.Child.Under
	if !young && age < t.Child.StudentUnder {
		young = w.askOf(p, "full_time_student").yes()
	}
	if !young {
		young = w.askOf(p, "disabled").yes()
	}
	ownChild := related.is("child", "stepchild", "foster_child")
	if young && !livesHere && ownChild {
		// A separated parent: IRC 152(e).
		if released := w.guide(p, "released"); !released.given() {
			return
		} else if released.is("yes") {
			w.derive(p, "counts_as", "child")
			w.askNumber(p, age)
			return
		} else if released.is("not_sure") {
			w.say(w.notice("parents_apart"))
		}
	}
	if young && livesHere && ownChild && !w.joint() {
		if claimed := w.guide(p, "claimed"); !claimed.given() {
			return
		} else if claimed.is("yes") {
			w.derive(p, "counts_as", "none")
			w.say(w.notice("claimed_by_other"))
			return
		} else if claimed.is("not_sure") {
			w.say(w.notice("parents_apart"))
		}
	}
	grown := age >= w.y.ChildCredit.ChildUnder
	if young && livesHere && grown && !ownChild {
		w.ask("self.birth_date") // a brother or sister must be the younger one, IRC 152(c)(3)(A)
	}
	ownWay := young && livesHere && grown && w.askOf(p, "supports_self").yes()
	if !young || !livesHere || ownWay {
		w.askRelative(p, related, age)
		return
	}
	if grown {
		w.askGrown(p)
		return
	}
	w.askNumber(p, age)
}

// livesHere reports whether a child lives with the taxpayer for as long as the
// law asks; a child born this year, for more than half of its life so far.
//
// IRC 152(c)(1)(B); Publication 501, death or birth of child.
func (w *walk) livesHere(p group, months int) bool {
	text, _ := w.doc.Get(p.prefix + ".birth_date")
	if born := answer(text).day(); born.Year == w.y.Year {
		return 2*months >= int(time.December-born.Month)
	}
	return months > w.y.DependentTests.Child.MonthsOver
}

// askRelative asks the tests of a qualifying relative, IRC 152(d).
func (w *walk) askRelative(p group, related answer, age int) {
	t := &w.y.DependentTests
	needsHome := related.is("household_member") || related.is("other_relative") && !w.joint()
	if needsHome {
		months := w.askOf(p, "months_with_you", between(0, 12))
		if !months.given() || related.is("household_member") && months.whole() < t.Relative.MemberMonths {
			return
		}
	}
	income := w.askOf(p, "gross_income")
	if !income.given() || !income.amount().Less(t.Relative.IncomeUnder) {
		return
	}
	if !w.askOf(p, "you_support").yes() {
		return
	}
	if age >= w.y.ChildCredit.ChildUnder {
		w.askGrown(p)
		return
	}
	w.askNumber(p, age)
}

// askGrown asks what ends the claim for someone who may be married, and where
// they live, IRC 152(b)(2)-(3).
func (w *walk) askGrown(p group) {
	if joint := w.askOf(p, "files_joint_return"); joint.no() {
		w.askOf(p, "citizen_or_resident")
	}
}

// askNumber asks about the number that the child tax credit needs, IRC 24(h)(7);
// who has it need not be asked about citizenship.
func (w *walk) askNumber(p group, age int) {
	if age >= w.y.ChildCredit.ChildUnder {
		w.askOf(p, "citizen_or_resident")
		return
	}
	if w.askOf(p, "ssn_valid_for_work").no() {
		w.askOf(p, "citizen_or_resident")
	}
}

// tellStanding says what a person counts for, and why.
func (w *walk) tellStanding(i int) {
	standing := w.standings()[i]
	verdict := "counts_not"
	switch {
	case standing.ChildCredit:
		verdict = "counts_child"
	case standing.OtherCredit:
		verdict = "counts_other"
	}
	w.say(w.notice(verdict, "person", upper(w.personName(i)), "reason", standing.Reason))
	for _, n := range standing.Notes {
		if n.Code != "shared_custody" { // the guide about separated parents has said it
			w.say(n.Message)
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
	phrase, known := words().Phrases["relationship_"+related]
	if !known {
		return w.phrase("person", strconv.Itoa(i+1))
	}
	same := 0
	for j := range w.get("interview.people").whole() {
		if other, _ := w.doc.Get("dependents[" + strconv.Itoa(j) + "].relationship"); other == related {
			same++
		}
	}
	if d := answer(born).day(); !d.IsZero() && same > 1 {
		phrase += " " + w.phrase("born_in", strconv.Itoa(d.Year))
	}
	return phrase
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
	if w.separate() && !w.get("interview.file_jointly").given() {
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
	h := w.household()
	for i, s := range w.standings() {
		d := h.Dependents[i]
		released := d.CountsAs == household.CountsAsNone && w.get("interview.person_"+strconv.Itoa(i+1)+"_claimed").is("yes")
		if s.HeadOfHousehold && (!childOnly || s.Counts == tax.QualifyingChild) || released {
			return true
		}
	}
	return false
}

// childAllYear reports a child or stepchild of one's own at home all year who
// counts as a dependent: IRC 2(a)(1)(B).
func (w *walk) childAllYear() bool {
	h := w.household()
	for i, standing := range w.standings() {
		d := h.Dependents[i]
		own := d.Relationship == household.Child || d.Relationship == household.Stepchild
		if own && d.Months() >= w.y.DependentTests.Relative.MemberMonths && standing.Counts != tax.NotCounted {
			return true
		}
	}
	return false
}
