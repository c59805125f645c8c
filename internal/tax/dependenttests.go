package tax

import (
	"time"

	"example.com/plumbline/internal/household"
)

// ageAtEnd is the age at the end of the year; not known without a birth date.
func (c *candidate) ageAtEnd() (years int, known bool) {
	if c.d.BirthDate.IsZero() {
		return 0, false
	}
	return c.d.BirthDate.AgeAtEndOf(c.y.Year), true
}

// under reports whether the person is younger than an age at the end of the
// year. A person of unknown age is taken as a young child.
func (c *candidate) under(age int) bool {
	years, known := c.ageAtEnd()
	return !known || years < age
}

// small reports whether the person is known to be of the age of the child tax
// credit, of whom some tests are taken as met without asking (Decide).
func (c *candidate) small() bool {
	return c.knows("birth_date") && c.under(c.y.ChildCredit.ChildUnder)
}

// born is met once the birth date is known.
func (c *candidate) born() outcome {
	if !c.knows("birth_date") {
		return open("birth_date")
	}
	return met
}

// child is the tests of a qualifying child: relationship, age, residence,
// support, no joint return; and that the other parent does not claim it.
//
// IRC 152(c)(1), 152(c)(4), 152(e).
func (c *candidate) child() outcome {
	return all(c.relationship(), c.age(), c.residence(), c.ownSupport(), c.noJointReturn(), c.unclaimed())
}

// relationship is met by a child, stepchild, foster child, brother or sister, or
// a descendant of one.
//
// IRC 152(c)(2).
func (c *candidate) relationship() outcome {
	switch {
	case !c.knows("relationship"):
		return open("relationship")
	case c.childlike():
		return met
	}
	return failed("dependent.fails.relationship")
}

func (c *candidate) childlike() bool {
	switch c.d.Relationship {
	case household.Sibling, household.Descendant:
		return true
	}
	return c.ownChild()
}

// ownChild reports a child of the taxpayer's own, to whom the rules for parents
// who live apart apply.
func (c *candidate) ownChild() bool {
	switch c.d.Relationship {
	case household.Child, household.Stepchild, household.FosterChild:
		return true
	}
	return false
}

// age is met by one who is younger than the taxpayer, or than the spouse on a
// joint return, and under 19 at the end of the year, or under 24 as a full-time
// student; one who is permanently and totally disabled may be of any age.
//
// IRC 152(c)(3).
func (c *candidate) age() outcome {
	return either(all(c.younger(), c.ofAge()), c.disabled())
}

func (c *candidate) ofAge() outcome {
	t := &c.y.DependentTests.Child
	switch {
	case !c.knows("birth_date"):
		return open("birth_date")
	case c.under(t.Under):
		return met
	case c.under(t.StudentUnder) && !c.knows("full_time_student"):
		return open("full_time_student")
	case c.under(t.StudentUnder) && c.d.FullTimeStudent:
		return met
	}
	return failed("dependent.fails.age")
}

// younger is met by one who is younger than a taxpayer on the return. A taxpayer
// whose age nobody knows is taken as older; that of a brother, sister or one of
// their descendants who is grown is asked for.
//
// IRC 152(c)(3)(A).
func (c *candidate) younger() outcome {
	if !c.childlike() || c.d.BirthDate.IsZero() {
		return met
	}
	unasked := !c.ownChild() && !c.small()
	youngest := failed("dependent.fails.younger")
	for _, e := range c.h.Earners() {
		born := c.h.Person(e).BirthDate
		switch fact := birthDateOf[e]; {
		case born.IsZero() && unasked && !c.knows(fact):
			youngest = earliest(youngest, open(fact))
		case born.IsZero() || c.d.BirthDate.After(born):
			return met
		}
	}
	return youngest
}

// birthDateOf are the keys of the taxpayers' birth dates, by household.Earner.
var birthDateOf = [2]string{"self.birth_date", "spouse.birth_date"}

func (c *candidate) disabled() outcome {
	if !c.knows("disabled") {
		return open("disabled")
	}
	return when(c.d.Disabled)
}

// residence is met by one who lives with the taxpayer. A child who lives longer
// with the other parent is that parent's, unless that parent gives up the claim:
// then it counts as the answers say, and not by these tests.
//
// IRC 152(c)(1)(B), 152(e)(2).
func (c *candidate) residence() outcome {
	here := c.livesHere()
	if here.result != isFailed {
		return here
	}
	if c.askParents() && !c.knows(Released) {
		switch age := c.age(); age.result {
		case isOpen:
			return age
		case isMet:
			return open(Released)
		}
	}
	return here
}

// unclaimed is met by a child at home whom no other parent claims.
//
// IRC 152(c)(4), 152(e)(2).
func (c *candidate) unclaimed() outcome {
	if c.askParents() && !c.h.Joint() && !c.knows(Claimed) {
		return open(Claimed)
	}
	return met
}

// askParents reports whether which parent claims the child can matter.
func (c *candidate) askParents() bool {
	return c.ownChild() && c.d.CountsAs == household.ByTheTests && !claimable(c.h)
}

// livesHere is met by one who has the taxpayer's home for more than half the
// year. A child born in the year counts as living there all year when the home
// was the child's for more than half of its life so far.
//
// IRC 152(c)(1)(B); Publication 501, death or birth of child.
func (c *candidate) livesHere() outcome {
	switch newborn := c.bornThisYear(); {
	case newborn && c.h.Joint() && !c.knows("months_with_you"):
		return met
	case !c.knows("months_with_you"):
		return open("months_with_you")
	case newborn && 2*c.d.Months() >= int(time.December-c.d.BirthDate.Month),
		!newborn && c.d.Months() > c.y.DependentTests.Child.MonthsOver:
		return met
	}
	return failed("dependent.fails.residence")
}

func (c *candidate) bornThisYear() bool {
	return c.d.BirthDate.Year == c.y.Year
}

// livesHereAllYear reports whether the taxpayer's home is the person's for the
// whole year, or since birth in it.
//
// IRC 152(d)(2)(H), 2(a)(1)(B).
func (c *candidate) livesHereAllYear() bool {
	if c.bornThisYear() {
		return c.livesHere().ok()
	}
	return c.d.Months() >= c.y.DependentTests.Relative.MemberMonths
}

// ownSupport is failed by one who provides more than half of their own support.
//
// IRC 152(c)(1)(D).
func (c *candidate) ownSupport() outcome {
	switch {
	case c.d.SupportsSelf:
		return failed("dependent.fails.support")
	case c.knows("supports_self") || c.small():
		return met
	}
	return open("supports_self")
}

// noJointReturn is failed by one who files a joint return.
//
// IRC 152(b)(2), 152(c)(1)(E).
func (c *candidate) noJointReturn() outcome {
	switch {
	case c.d.FilesJointReturn:
		return failed("dependent.fails.joint_return")
	case c.knows("files_joint_return") || c.small():
		return met
	}
	return open("files_joint_return")
}

// relative is the tests of a qualifying relative: relationship or member of the
// household all year, no joint return, support, gross income. That the person is
// nobody else's qualifying child is taken from the answers, which list only
// those whom the household may claim.
//
// IRC 152(d)(1), 152(b)(2).
func (c *candidate) relative() outcome {
	self := met
	if c.d.SupportsSelf {
		self = failed("dependent.fails.support")
	}
	return all(c.member(), c.noJointReturn(), self, c.yourSupport(), c.grossIncome())
}

// member is failed by one who is no relative and does not live with the taxpayer
// all year.
//
// IRC 152(d)(2)(H).
func (c *candidate) member() outcome {
	switch {
	case c.d.Relationship != household.HouseholdMember:
		return met
	case !c.knows("months_with_you"):
		return open("months_with_you")
	case c.livesHereAllYear():
		return met
	}
	return failed("dependent.fails.member")
}

// yourSupport is met by one who gets more than half of their support from the
// taxpayer.
//
// IRC 152(d)(1)(C).
func (c *candidate) yourSupport() outcome {
	switch {
	case !c.d.Supported():
		return failed("dependent.fails.your_support")
	case !c.knows("you_support"):
		return open("you_support")
	}
	return met
}

// grossIncome is met by one with less income than the year's limit.
//
// IRC 152(d)(1)(B).
func (c *candidate) grossIncome() outcome {
	switch {
	case !c.knows("gross_income"):
		return open("gross_income")
	case c.d.GrossIncome.Less(c.y.DependentTests.Relative.IncomeUnder):
		return met
	}
	return failed("dependent.fails.income")
}

// number is open while a child's credit turns on its social security number.
//
// IRC 24(h)(7).
func (c *candidate) number(child outcome) outcome {
	if child.ok() && c.small() && !c.knows("ssn_valid_for_work") {
		return open("ssn_valid_for_work")
	}
	return met
}

// citizen is met by a citizen, national or resident.
//
// IRC 152(b)(3), 24(h)(4)(B).
func (c *candidate) citizen(child outcome) outcome {
	switch {
	case !c.d.Resident():
		return failed("")
	case c.knows("citizen_or_resident"), child.ok() && c.small() && c.d.HasSSN():
		return met
	}
	return open("citizen_or_resident")
}
