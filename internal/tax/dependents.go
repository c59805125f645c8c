package tax

import (
	"fmt"
	"strings"
	"time"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/tables"
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
	ChildCredit     bool   // child tax credit, IRC 24(a)
	OtherCredit     bool   // credit for other dependents, IRC 24(h)(4)
	EarnedIncome    bool   // qualifying child for the earned income credit, IRC 32(c)(3)
	CareCredit      bool   // qualifying person for the dependent care credit, IRC 21(b)(1)
	HeadOfHousehold bool   // qualifying person for head of household, IRC 2(b)
	Reason          string // one plain sentence with the test that decided
	Notes           []worksheet.Note
}

// Standings are the standings of the household's dependents, in their order.
// A fact that the answers leave out takes its ordinary answer: the person lives
// with the taxpayer all year, is supported by the taxpayer, is a citizen or
// resident, has a social security number, has no income, and is a young child
// when no birth date is given. What the answers say a person counts as
// (household.CountsAs) stands in for the tests of IRC 152, but not for the age
// and number that the child tax credit asks for.
func Standings(h household.Household, y *tables.Year) []Standing {
	if len(h.Dependents) == 0 {
		return nil
	}
	standings := make([]Standing, len(h.Dependents))
	for i, d := range h.Dependents {
		standings[i] = (&candidate{h: &h, y: y, d: d, index: i}).standing()
	}
	return standings
}

// candidate is one person being held against the tests.
type candidate struct {
	h     *household.Household
	y     *tables.Year
	d     household.Dependent
	index int
}

// standing holds the person against every test.
//
// IRC 152(a), (b); 24(c), 24(h)(4), 24(h)(7); 32(c)(3); 21(b)(1); 2(b).
func (c *candidate) standing() Standing {
	if c.d.CountsAs == household.CountsAsNone {
		return c.standingOfNone()
	}
	notChild, notRelative := c.failsAsChild(), c.failsAsRelative()
	var s Standing
	s.Counts, s.Reason = c.counts(notChild, notRelative)
	s.Notes = c.notes(s.Counts, notChild)
	c.giveCredits(&s)
	s.EarnedIncome = c.earnedIncomeChild()
	s.CareCredit = c.carePerson(s.Counts)
	s.HeadOfHousehold = c.headOfHousehold(s.Counts, notChild)
	return s
}

// counts tells the kind of dependent, and where the person is none, why.
//
// IRC 152(a); 152(b)(1): one who is a dependent has none; 152(b)(3): citizen,
// national or resident.
func (c *candidate) counts(notChild, notRelative string) (Counting, string) {
	switch {
	case claimable(c.h):
		return NotCounted, "Not a dependent here: one who can be claimed on another return can claim nobody."
	case c.d.CountsAs == household.CountsAsChild:
		return QualifyingChild, ""
	case c.d.CountsAs == household.CountsAsOther:
		return QualifyingRelative, ""
	case !c.d.Resident():
		return NotCounted, "Not a dependent here: is not a citizen, national or resident of the United States."
	case notChild == "":
		return QualifyingChild, ""
	case notRelative == "":
		return QualifyingRelative, ""
	case !c.childlike() || notChild == notRelative:
		return NotCounted, "Not a dependent: " + notRelative + "."
	}
	return NotCounted, "Not a dependent: " + notChild + "; and " + notRelative + "."
}

// standingOfNone is the standing of one whom the answers say is no dependent.
func (c *candidate) standingOfNone() Standing {
	s := Standing{Reason: "Not counted: the answers say that this person is no dependent on this return."}
	if c.earnedIncomeChild() {
		s.Notes = append(s.Notes, worksheet.Note{Code: "released_claim", Message: fmt.Sprintf(
			"%s lives with you but is not counted. A parent who has let the other parent claim a child (Form 8332) may still have head of household, the earned income credit and the dependent care credit for that child: those are left out here. Read Publication 501, children of divorced or separated parents.", c.label())})
	}
	return s
}

// age is the age at the end of the year; not known without a birth date.
func (c *candidate) age() (years int, known bool) {
	if c.d.BirthDate.IsZero() {
		return 0, false
	}
	return c.d.BirthDate.AgeAtEndOf(c.y.Year), true
}

// under reports whether the person is younger than an age at the end of the
// year. A person of unknown age is taken as a young child.
func (c *candidate) under(age int) bool {
	years, known := c.age()
	return !known || years < age
}

// childlike reports whether the person is related as a qualifying child must
// be: a child, stepchild, foster child, brother or sister, or a descendant of
// one.
//
// IRC 152(c)(2).
func (c *candidate) childlike() bool {
	switch c.d.Relationship {
	case household.Child, household.Stepchild, household.FosterChild, household.Sibling, household.Descendant:
		return true
	}
	return false
}

// ofChildAge reports whether the person is younger than the taxpayer, or than
// the spouse on a joint return, and under 19 at the end of the year, or under 24
// as a full-time student; one who is permanently and totally disabled may be of
// any age.
//
// IRC 152(c)(3).
func (c *candidate) ofChildAge() bool {
	t := &c.y.DependentTests.Child
	if c.d.Disabled {
		return true
	}
	return c.younger() && (c.under(t.Under) || c.d.FullTimeStudent && c.under(t.StudentUnder))
}

// younger reports whether the person is younger than a taxpayer on the return,
// as far as the birth dates are known.
func (c *candidate) younger() bool {
	if c.d.BirthDate.IsZero() {
		return true
	}
	for _, e := range c.h.Earners() {
		born := c.h.Person(e).BirthDate
		if born.IsZero() || c.d.BirthDate.After(born) {
			return true
		}
	}
	return false
}

// livesWithYou reports whether the person has the taxpayer's home for more than
// half the year. A child born in the year counts as living there all year when
// the home was the child's for more than half of its life so far.
//
// IRC 152(c)(1)(B); Publication 501, death or birth of child.
func (c *candidate) livesWithYou() bool {
	if c.bornThisYear() {
		monthsOfLife := int(time.December - c.d.BirthDate.Month)
		return 2*c.d.Months() >= monthsOfLife
	}
	return c.d.Months() > c.y.DependentTests.Child.MonthsOver
}

func (c *candidate) bornThisYear() bool {
	return c.d.BirthDate.Year == c.y.Year
}

// livesWithYouAllYear reports whether the person is a member of the household
// for the whole year.
//
// IRC 152(d)(2)(H).
func (c *candidate) livesWithYouAllYear() bool {
	if c.bornThisYear() {
		return c.livesWithYou()
	}
	return c.d.Months() >= c.y.DependentTests.Relative.MemberMonths
}

// failsAsChild is the first test of a qualifying child that the person does not
// meet, in words that follow the person's name; empty when all are met.
//
// IRC 152(c)(1): relationship, age, residence, support, no joint return.
func (c *candidate) failsAsChild() string {
	t := &c.y.DependentTests.Child
	switch age, _ := c.age(); {
	case !c.childlike():
		return "is not a child, brother or sister, or a descendant of one"
	case !c.ofChildAge() && !c.younger():
		return "is not younger than you"
	case !c.ofChildAge():
		return fmt.Sprintf("is %d at the end of %d, and a child counts under %d, or under %d as a full-time student", age, c.y.Year, t.Under, t.StudentUnder)
	case !c.livesWithYou():
		return fmt.Sprintf("lives with you %s, and a child must for more than half the year", months(c.d.Months()))
	case c.d.SupportsSelf:
		return "pays more than half of the own support"
	case c.d.FilesJointReturn:
		return "files a joint return"
	}
	return ""
}

// failsAsRelative is the first test of a qualifying relative that the person
// does not meet, in words that follow the person's name; empty when all are
// met. That the person is nobody else's qualifying child is taken from the
// answers, which list only those whom the household may claim.
//
// IRC 152(d)(1): relationship or member of the household all year, gross
// income, support; 152(b)(2): no joint return.
func (c *candidate) failsAsRelative() string {
	limit := c.y.DependentTests.Relative.IncomeUnder
	switch {
	case c.d.Relationship == household.HouseholdMember && !c.livesWithYouAllYear():
		return fmt.Sprintf("is no relative and lives with you %s, not the whole year", months(c.d.Months()))
	case c.d.FilesJointReturn:
		return "files a joint return"
	case c.d.SupportsSelf:
		return "pays more than half of the own support"
	case !c.d.Supported():
		return "gets no more than half of the support from you"
	case !c.d.GrossIncome.Less(limit):
		return fmt.Sprintf("has gross income of %s, and a relative's must be less than %s", c.d.GrossIncome.GroupedDollars(), limit.GroupedDollars())
	}
	return ""
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
	other := fmt.Sprintf("counts for the credit for other dependents (%s)", credit.PerOther.GroupedDollars())
	age, _ := c.age()
	switch {
	case !c.d.Resident():
		s.Reason = "Counts as the answers say, but not for a credit: is not a citizen, national or resident of the United States."
		return
	case s.Counts == QualifyingRelative && c.d.CountsAs == household.CountsAsOther:
		s.Reason = sentence("%s, as the answers say", other)
	case s.Counts == QualifyingRelative:
		s.Reason = sentence("%s: has gross income of less than %s and more than half of the support from you", other, c.y.DependentTests.Relative.IncomeUnder.GroupedDollars())
	case !c.under(credit.ChildUnder) && age == credit.ChildUnder:
		s.Reason = sentence("%s: turns %d in %d, and the child tax credit is for children under %d", other, age, c.y.Year, credit.ChildUnder)
	case !c.under(credit.ChildUnder):
		s.Reason = sentence("%s: is %d at the end of %d, and the child tax credit is for children under %d", other, age, c.y.Year, credit.ChildUnder)
	case !c.d.HasSSN():
		s.Reason = sentence("%s: has no social security number valid for work, which the child tax credit asks for", other)
	case credit.TaxpayerSSN && !anyNumber(c.h):
		s.Reason = sentence("%s: the child tax credit also asks for a taxpayer with a social security number valid for work", other)
	default:
		s.ChildCredit = true
		s.Reason = fmt.Sprintf("Counts for the child tax credit (%s): is under %d at the end of %d.", credit.PerChild.GroupedDollars(), credit.ChildUnder, c.y.Year)
	}
	s.OtherCredit = !s.ChildCredit
}

// earnedIncomeChild reports whether the person is a qualifying child for the
// earned income credit: the relationship, age, residence and joint-return tests
// of a qualifying child, without the support test, and a social security number
// valid for work. One of child-credit age whom the answers call no child is
// none here either.
//
// IRC 32(c)(3), 32(m).
func (c *candidate) earnedIncomeChild() bool {
	if c.d.CountsAs == household.CountsAsOther && c.under(c.y.ChildCredit.ChildUnder) {
		return false
	}
	return c.childlike() && c.ofChildAge() && c.livesWithYou() && !c.d.FilesJointReturn && c.d.HasSSN()
}

// carePerson reports whether the person's care can count for the dependent care
// credit: a dependent child in the part of the year before the 13th birthday,
// or one who is disabled and lives with the taxpayer more than half the year,
// whatever that person's own income or joint return.
//
// IRC 21(b)(1); Reg. 1.21-1(b)(5): by the day.
func (c *candidate) carePerson(counts Counting) bool {
	if !c.livesWithYou() || claimable(c.h) {
		return false
	}
	if counts == QualifyingChild && c.underCareAgeInYear() {
		return true
	}
	if !c.d.Disabled || c.d.CountsAs == household.ByTheTests && !c.d.Resident() {
		return false
	}
	if counts != NotCounted {
		return true
	}
	d := *c
	d.d.FilesJointReturn, d.d.GrossIncome = false, money.Zero
	return d.failsAsChild() == "" || d.failsAsRelative() == ""
}

// underCareAgeInYear reports whether the person is under the care credit's age
// on some day of the year.
func (c *candidate) underCareAgeInYear() bool {
	age, known := c.age()
	limit := c.y.DependentCare.ChildUnder
	born := c.d.BirthDate
	return !known || age < limit || age == limit && !(born.Month == time.January && born.Day == 1)
}

// headOfHousehold reports whether the person can make the taxpayer head of
// household: a qualifying child, even of one who can be claimed; or a dependent
// relative, not merely a member of the household, who lives there more than half
// the year. A dependent parent may live elsewhere.
//
// IRC 2(b)(1), 2(b)(3).
func (c *candidate) headOfHousehold(counts Counting, notChild string) bool {
	if notChild == "" && c.d.CountsAs != household.CountsAsOther {
		return true
	}
	if counts == NotCounted || c.d.Relationship == household.HouseholdMember {
		return false
	}
	return c.d.Relationship == household.Parent || c.livesWithYou()
}

// notes names what the tests could not know about the person.
func (c *candidate) notes(counts Counting, notChild string) []worksheet.Note {
	var notes []worksheet.Note
	note := func(code, message string) {
		notes = append(notes, worksheet.Note{Code: code, Message: c.label() + ": " + message})
	}
	if c.childlike() && c.d.BirthDate.IsZero() {
		note("dependent_birth_date", fmt.Sprintf("no birth date is given, so the child is taken as under %d.", c.y.DependentCare.ChildUnder))
	}
	if c.childlike() && c.ofChildAge() && notChild != "" && !c.livesWithYou() && c.d.Months() > 0 {
		counted := ""
		if counts == QualifyingRelative {
			counted = fmt.Sprintf(" The %s counted here is right only if no one else can claim the child as a qualifying child (IRC 152(d)(1)(D)); otherwise leave this entry out.", c.y.ChildCredit.PerOther.GroupedDollars())
		}
		note("shared_custody", "a child who lives longer with the other parent is that parent's to claim, unless that parent lets you (Form 8332)."+counted+" Read Publication 501, children of divorced or separated parents.")
	}
	if age, known := c.age(); known && age == c.y.DependentCare.ChildUnder && c.underCareAgeInYear() && c.d.Care().IsPositive() {
		note("care_birthday", fmt.Sprintf("only care before the birthday on which the child turns %d counts for the dependent care credit; the expenses given are taken as that.", age))
	}
	return notes
}

// label is what messages call the person.
func (c *candidate) label() string {
	if c.d.Name != "" {
		return c.d.Name
	}
	return fmt.Sprintf("Dependent %d", c.index+1)
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

// sentence formats words that begin with a lower-case letter as a sentence.
func sentence(format string, args ...any) string {
	s := fmt.Sprintf(format, args...)
	return strings.ToUpper(s[:1]) + s[1:] + "."
}

func months(n int) string {
	if n == 1 {
		return "1 month"
	}
	return fmt.Sprintf("%d months", n)
}
