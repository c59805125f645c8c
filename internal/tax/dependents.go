package tax

import (
	"time"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/tables"
	"example.com/plumbline/internal/words"
	"example.com/plumbline/internal/worksheet"
)

// Counting is as what a dependent counts (IRC 152).
type Counting int8

// The two kinds of dependent, and neither.
const (
	NotCounted         Counting = iota
	QualifyingChild             // IRC 152(c)
	QualifyingRelative          // IRC 152(d)
)

// Standing is what one person in the answers counts for on this return.
type Standing struct {
	Counts          Counting
	ChildCredit     bool       // child tax credit, IRC 24(a)
	OtherCredit     bool       // credit for other dependents, IRC 24(h)(4)
	EarnedIncome    bool       // qualifying child for the earned income credit, IRC 32(c)(3)
	CareCredit      bool       // qualifying person for the dependent care credit, IRC 21(b)(1)
	HeadOfHousehold bool       // qualifying person for head of household, IRC 2(b)
	Unmarried       bool       // child at home for which a married taxpayer may count as unmarried, IRC 7703(b)(1)
	SurvivingSpouse bool       // child at home for a qualifying surviving spouse, IRC 2(a)(1)(B)
	Reason          words.Text // one plain sentence with the test that decided
	Notes           []worksheet.Note
}

// Standings are the standings of the household's dependents, in their order.
// A fact that the answers leave out takes its ordinary answer: the person lives
// with the taxpayer all year, is supported by the taxpayer, is a citizen or
// resident, has a social security number, has no income, and is a young child
// when no birth date is given. What the answers say a person counts as
// (household.CountsAs) replaces the tests of IRC 152, but not the age and number
// that the child tax credit asks for.
func Standings(h household.Household, y *tables.Year) []Standing {
	return standings(h, y, true)
}

// StandingsSoFar are Standings by the facts that are answered so far, as for
// Decide; answered reports them by the dependent's place.
func StandingsSoFar(h household.Household, answered func(i int, fact string) bool, y *tables.Year) []Standing {
	s := make([]Standing, len(h.Dependents))
	for i := range h.Dependents {
		c := undecided(h, i, func(fact string) bool { return answered(i, fact) }, y)
		c.known = nil
		s[i] = c.standing()
	}
	return s
}

// standings are Standings, with reasons and notes where they are told.
func standings(h household.Household, y *tables.Year, told bool) []Standing {
	if len(h.Dependents) == 0 {
		return nil
	}
	s := make([]Standing, len(h.Dependents))
	for i, d := range h.Dependents {
		c := candidate{h: &h, y: y, d: d, index: i, told: told}
		s[i] = c.standing()
	}
	return s
}

// Facts that decide and are no answers about the dependent: what is said of
// them becomes household.Dependent.CountsAs.
const (
	Released = "released" // the other parent lets the taxpayer claim the child, IRC 152(e)
	Claimed  = "claimed"  // the other parent claims the child, IRC 152(c)(4), 152(e)
)

// Decide puts one dependent to the tests with the facts that are answered so
// far. It returns the fact to ask for next; or none, with the standing, once no
// open answer can change what the person counts as, which credit the certificate
// has for them, and whether they can make the taxpayer head of household. In the
// rest of the standing an open fact takes its ordinary answer, as in Standings.
//
// A fact is the key of an answer about the dependent ("gross_income"), the whole
// key of one about a taxpayer ("self.birth_date"), or Released or Claimed.
// answered reports whether the household holds it.
//
// What hardly ever decides is not asked for: a child under the age of the child
// tax credit is younger than the taxpayer, lives on others' money, files no
// joint return, and with a number valid for work is a citizen or resident; one
// born in the year lives with parents who file jointly.
func Decide(h household.Household, i int, answered func(fact string) bool, y *tables.Year) (s Standing, next string) {
	c := undecided(h, i, answered, y)
	if next := c.next(); next != "" {
		return Standing{}, next
	}
	c.known = nil
	return c.standing(), ""
}

// DecideCare is Decide for whether the care of one dependent can count for the
// dependent care credit.
func DecideCare(h household.Household, i int, answered func(fact string) bool, y *tables.Year) (counts bool, next string) {
	c := undecided(h, i, answered, y)
	care := c.carePerson()
	return care.ok(), care.needs
}

// candidate is one person put to the tests.
type candidate struct {
	h     *household.Household
	y     *tables.Year
	d     household.Dependent
	index int
	told  bool              // reasons and notes are wanted
	known func(string) bool // which facts are answered; all of them when nil
}

// undecided is a candidate of whom only the answered facts count.
func undecided(h household.Household, i int, answered func(fact string) bool, y *tables.Year) *candidate {
	d, kept := h.Dependents[i], h.Dependents[i]
	d = household.Dependent{Name: kept.Name, Relationship: kept.Relationship, CountsAs: kept.CountsAs, CareExpenses: kept.CareExpenses, CareMonthly: kept.CareMonthly}
	keep(answered("birth_date"), &d.BirthDate, kept.BirthDate)
	keep(answered("months_with_you"), &d.MonthsWithYou, kept.MonthsWithYou)
	keep(answered("full_time_student"), &d.FullTimeStudent, kept.FullTimeStudent)
	keep(answered("disabled"), &d.Disabled, kept.Disabled)
	keep(answered("supports_self"), &d.SupportsSelf, kept.SupportsSelf)
	keep(answered("you_support"), &d.YouSupport, kept.YouSupport)
	keep(answered("gross_income"), &d.GrossIncome, kept.GrossIncome)
	keep(answered("ssn_valid_for_work"), &d.SSNValidForWork, kept.SSNValidForWork)
	keep(answered("files_joint_return"), &d.FilesJointReturn, kept.FilesJointReturn)
	keep(answered("citizen_or_resident"), &d.CitizenOrResident, kept.CitizenOrResident)
	if !answered("self.birth_date") {
		h.Self.BirthDate = household.Date{}
	}
	if h.Spouse != nil && !answered("spouse.birth_date") {
		spouse := *h.Spouse
		spouse.BirthDate = household.Date{}
		h.Spouse = &spouse
	}
	return &candidate{h: &h, y: y, d: d, index: i, told: true, known: answered}
}

// keep sets a fact to what is known of it, where it is answered.
func keep[T any](answered bool, fact *T, known T) {
	if answered {
		*fact = known
	}
}

// knows reports whether a fact is answered.
func (c *candidate) knows(fact string) bool { return c.known == nil || c.known(fact) }

// standing is the result of every test.
//
// IRC 152(a), (b); 24(c), 24(h)(4), 24(h)(7); 32(c)(3); 21(b)(1); 2(a), (b).
func (c *candidate) standing() Standing {
	if c.d.CountsAs == household.CountsAsNone {
		return c.standingOfNone()
	}
	child, relative := c.child(), c.relative()
	var s Standing
	s.Counts, s.Reason = c.counts(child, relative)
	c.giveCredits(&s)
	s.Notes = c.notes(s)
	s.EarnedIncome = c.earnedIncomeChild().ok()
	s.CareCredit = c.carePerson().ok()
	s.HeadOfHousehold = c.headOfHousehold(child, when(s.Counts != NotCounted)).ok()
	s.Unmarried = s.Counts != NotCounted && c.ownChild() && c.livesHere().ok()
	s.SurvivingSpouse = s.Counts != NotCounted && c.survivingSpouse()
	return s
}

// next is the fact that decides next; none when everything is decided.
func (c *candidate) next() string {
	if c.d.CountsAs == household.CountsAsNone {
		return ""
	}
	child := c.child()
	dependent := c.dependent(child, c.relative())
	if c.h.Joint() {
		return dependent.needs
	}
	return earliest(dependent, c.headOfHousehold(child, dependent)).needs
}

// dependent is whether the person is a dependent, and of a known kind, with the
// facts that the credit turns on.
//
// IRC 152(a), (b)(1), (b)(3).
func (c *candidate) dependent(child, relative outcome) outcome {
	if claimable(c.h) {
		return failed("")
	}
	var kind outcome
	switch {
	case c.d.CountsAs == household.CountsAsChild:
		child, kind = met, c.born()
	case c.d.CountsAs == household.CountsAsOther:
		child, kind = failed(""), met
	case child.result == isFailed:
		kind = relative
	default:
		kind = child
	}
	return all(kind, c.number(child), c.citizen(child))
}

// counts tells the kind of dependent, and where the person is none, why.
//
// IRC 152(a); 152(b)(1): one who is a dependent has none; 152(b)(3): citizen,
// national or resident.
func (c *candidate) counts(child, relative outcome) (Counting, words.Text) {
	switch {
	case claimable(c.h):
		return NotCounted, c.text("dependent.claimable")
	case c.d.CountsAs == household.CountsAsChild:
		return QualifyingChild, words.Text{}
	case c.d.CountsAs == household.CountsAsOther:
		return QualifyingRelative, words.Text{}
	case !c.d.Resident():
		return NotCounted, c.text("dependent.not_resident")
	case child.ok():
		return QualifyingChild, words.Text{}
	case relative.ok():
		return QualifyingRelative, words.Text{}
	case !c.childlike() || child.why == relative.why:
		return NotCounted, c.because("dependent.not", relative)
	}
	return NotCounted, c.because("dependent.neither", relative).With("child", c.text(child.why))
}

// text is a reason, with every value that one may show.
func (c *candidate) text(code string) words.Text {
	if !c.told {
		return words.Text{}
	}
	t, credit := &c.y.DependentTests, c.y.ChildCredit
	age, _ := c.ageAtEnd()
	return words.T(code,
		"age", age, "year", c.y.Year, "months", c.d.Months(), "income", c.d.GrossIncome,
		"child_under", t.Child.Under, "student_under", t.Child.StudentUnder, "limit", t.Relative.IncomeUnder,
		"credit_under", credit.ChildUnder, "per_child", credit.PerChild, "per_other", credit.PerOther)
}

// because is a reason that goes on with the test that failed.
func (c *candidate) because(code string, test outcome) words.Text {
	if !c.told {
		return words.Text{}
	}
	return words.T(code, "why", c.text(test.why))
}

// standingOfNone is the standing of one whom the answers say is no dependent. A
// parent who lets the other parent claim a child that lives with the first keeps
// what does not turn on the claim: the tests are those of a qualifying child
// without regard to section 152(e).
//
// IRC 152(e)(1); 2(b)(1)(A)(i); 7703(b)(1).
func (c *candidate) standingOfNone() Standing {
	s := Standing{Reason: c.text("dependent.said_none")}
	kept := c.ownChild() && all(c.age(), c.livesHere(), c.ownSupport(), c.noJointReturn()).ok()
	s.HeadOfHousehold, s.Unmarried = kept, kept
	if c.told && c.earnedIncomeChild().ok() {
		s.Notes = append(s.Notes, worksheet.NoteOf(words.T("note.released_claim", "person", c.label())))
	}
	return s
}

// giveCredits decides between the child tax credit and the credit for other
// dependents, and gives the reason. The child tax credit is for a qualifying
// child under the age with a number valid for work, on the return of someone who
// has one too; every other dependent, and a child that only a number keeps out,
// has the other credit, if a citizen, national or resident.
//
// IRC 24(c)(1), 24(c)(2), 24(h)(4), 24(h)(7).
func (c *candidate) giveCredits(s *Standing) {
	if s.Counts == NotCounted {
		return
	}
	credit := c.y.ChildCredit
	why := ""
	switch age, _ := c.ageAtEnd(); {
	case !c.d.Resident():
		s.Reason = c.text("dependent.said_not_resident")
		return
	case s.Counts == QualifyingRelative && c.d.CountsAs == household.CountsAsOther:
		why = "dependent.other.as_said"
	case s.Counts == QualifyingRelative:
		why = "dependent.other.relative"
	case !c.under(credit.ChildUnder) && age == credit.ChildUnder:
		why = "dependent.other.turns"
	case !c.under(credit.ChildUnder):
		why = "dependent.other.age"
	case !c.d.HasSSN():
		why = "dependent.other.number"
	case credit.TaxpayerSSN && !anyNumber(c.h):
		why = "dependent.other.your_number"
	default:
		s.ChildCredit, s.Reason = true, c.text("dependent.child_credit")
		return
	}
	s.OtherCredit, s.Reason = true, c.text(why)
}

// earnedIncomeChild is whether the person is a qualifying child for the earned
// income credit: the relationship, age, residence and joint-return tests of a
// qualifying child, without the support test, and a social security number valid
// for work. One of child-credit age whom the answers call no child is none here
// either.
//
// IRC 32(c)(3), 32(m).
func (c *candidate) earnedIncomeChild() outcome {
	if c.d.CountsAs == household.CountsAsOther && c.under(c.y.ChildCredit.ChildUnder) {
		return failed("")
	}
	return all(c.relationship(), c.age(), c.livesHere(), c.noJointReturn(), when(c.d.HasSSN()))
}

// carePerson is whether the person's care can count for the dependent care
// credit: a dependent child in the part of the year before the birthday at which
// the law ends it, or one who is disabled and lives with the taxpayer more than
// half the year, whatever that person's own income or joint return.
//
// IRC 21(b)(1); Reg. 1.21-1(b)(5): by the day.
func (c *candidate) carePerson() outcome {
	if claimable(c.h) || c.d.CountsAs == household.CountsAsNone {
		return failed("")
	}
	child := all(c.child(), when(c.d.Resident()))
	anyKind := c.whoeverHasIncome()
	switch c.d.CountsAs {
	case household.CountsAsChild:
		child, anyKind = met, met
	case household.CountsAsOther:
		child, anyKind = failed(""), met
	}
	return all(c.livesHere(), either(
		all(when(c.underCareAgeInYear()), child),
		all(c.disabled(), anyKind),
	))
}

// whoeverHasIncome is whether the person would be a dependent with no income of
// their own and no joint return.
//
// IRC 21(b)(1)(B): determined without regard to 152(b)(1), (b)(2) and (d)(1)(B).
func (c *candidate) whoeverHasIncome() outcome {
	w := *c
	w.d.FilesJointReturn, w.d.GrossIncome = false, money.Zero
	w.known = func(fact string) bool {
		return fact == "files_joint_return" || fact == "gross_income" || c.knows(fact)
	}
	return all(when(c.d.Resident()), either(w.child(), w.relative()))
}

// underCareAgeInYear reports whether the person is under the care credit's age
// on some day of the year.
func (c *candidate) underCareAgeInYear() bool {
	age, known := c.ageAtEnd()
	limit := c.y.DependentCare.ChildUnder
	born := c.d.BirthDate
	return !known || age < limit || age == limit && !(born.Month == time.January && born.Day == 1)
}

// headOfHousehold is whether the person can make the taxpayer head of household:
// a qualifying child, even of one who can be claimed; or a dependent relative,
// not merely a member of the household, who lives there more than half the year.
// A dependent parent may live elsewhere.
//
// IRC 2(b)(1), 2(b)(3).
func (c *candidate) headOfHousehold(child, dependent outcome) outcome {
	if c.d.CountsAs == household.CountsAsOther {
		child = failed("")
	}
	if c.d.Relationship == household.HouseholdMember {
		return child
	}
	return either(child, all(dependent, either(when(c.d.Relationship == household.Parent), c.livesHere())))
}

// survivingSpouse reports whether the person is the taxpayer's child or
// stepchild, at home all year: as a dependent, one who can make a qualifying
// surviving spouse.
//
// IRC 2(a)(1)(B).
func (c *candidate) survivingSpouse() bool {
	own := c.d.Relationship == household.Child || c.d.Relationship == household.Stepchild
	return own && c.livesHereAllYear()
}

// notes names what the tests could not know about the person, and what somebody
// who put the person among the dependents may not expect.
func (c *candidate) notes(s Standing) []worksheet.Note {
	if !c.told {
		return nil
	}
	var notes []worksheet.Note
	note := func(t words.Text) { notes = append(notes, worksheet.NoteOf(t)) }
	if c.childlike() && c.d.BirthDate.IsZero() {
		note(words.T("note.dependent_birth_date", "person", c.label(), "age", c.y.DependentCare.ChildUnder))
	}
	switch shared := c.childlike() && c.age().ok() && !c.livesHere().ok() && c.d.Months() > 0; {
	case shared:
		counted := "no"
		if s.Counts == QualifyingRelative {
			counted = "yes"
		}
		note(words.T("note.shared_custody", "person", c.label(), "counted", counted, "credit", c.y.ChildCredit.PerOther))
	case s.Counts == NotCounted:
		note(words.T("note.dependent_not_counted", "person", c.label(), "why", s.Reason))
	case c.d.CountsAs == household.CountsAsChild && s.OtherCredit:
		note(words.T("note.dependent_other_credit", "person", c.label(), "why", s.Reason))
	}
	if age, known := c.ageAtEnd(); known && age == c.y.DependentCare.ChildUnder && c.underCareAgeInYear() && c.d.Care(c.y.Year).IsPositive() {
		note(words.T("note.care_birthday", "person", c.label(), "age", age, "cost", c.d.Care(c.y.Year)))
	}
	return notes
}

// label is what notes call the person: the name that the answers give, or a
// number.
func (c *candidate) label() any {
	if c.d.Name != "" {
		return c.d.Name
	}
	return words.T("dependent.unnamed", "number", c.index+1)
}

// claimable reports whether someone on the return can be claimed as a dependent
// by another.
func claimable(h *household.Household) bool {
	for _, e := range h.Earners() {
		if h.Person(e).CanBeClaimed {
			return true
		}
	}
	return false
}

// anyNumber reports whether someone on the return has a social security number
// valid for work.
func anyNumber(h *household.Household) bool {
	for _, e := range h.Earners() {
		if h.Person(e).HasSSN() {
			return true
		}
	}
	return false
}
