package tax

import (
	"slices"
	"strings"
	"testing"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/tables"
)

// facts answers what Decide asks for, from a person of whom everything is known,
// and returns what was asked and the standing.
func facts(t *testing.T, h household.Household, guides map[string]string, y *tables.Year) ([]string, Standing) {
	t.Helper()
	var asked []string
	for {
		s, fact := Decide(h, 0, func(f string) bool { return slices.Contains(asked, f) }, y)
		if fact == "" {
			return asked, s
		}
		if slices.Contains(asked, fact) {
			t.Fatalf("%s is asked twice", fact)
		}
		asked = append(asked, fact)
		switch guides[fact] {
		case "child":
			h.Dependents[0].CountsAs = household.CountsAsChild
		case "none":
			h.Dependents[0].CountsAs = household.CountsAsNone
		}
	}
}

// Who is asked what: the facts that the law turns on for this person, and none
// that cannot change the outcome. Ages are at the end of 2026.
func TestDecideAsksWhatDecides(t *testing.T) {
	y, no := lawOf(t, 2026), false
	months := func(n int) *int { return &n }
	born := func(year int) household.Date { return household.On(year, 6, 15) }
	const relation = "relationship birth_date months_with_you"
	tests := []struct {
		source string
		d      household.Dependent
		guides map[string]string
		joint  bool
		asked  string
		counts Counting
	}{
		{
			"a child of seven of parents who file jointly",
			household.Dependent{BirthDate: born(2019)},
			nil, true,
			relation + " ssn_valid_for_work", QualifyingChild,
		},
		{
			"a child of seven of one parent: IRC 152(e) too",
			household.Dependent{BirthDate: born(2019)},
			nil, false,
			relation + " claimed ssn_valid_for_work", QualifyingChild,
		},
		{
			"no number: IRC 152(b)(3) decides the other credit",
			household.Dependent{BirthDate: born(2019), SSNValidForWork: &no},
			nil, true,
			relation + " ssn_valid_for_work citizen_or_resident", QualifyingChild,
		},
		{
			"born in the year to parents who file jointly",
			household.Dependent{BirthDate: born(2026)},
			nil, true,
			"relationship birth_date ssn_valid_for_work", QualifyingChild,
		},
		{
			"IRC 152(c)(1)(D): a student of 21 who provides more than half of their own support is decided at once",
			household.Dependent{BirthDate: born(2005), FullTimeStudent: true, SupportsSelf: true},
			nil, true,
			relation + " full_time_student supports_self", NotCounted,
		},
		{
			"a student of 21",
			household.Dependent{BirthDate: born(2005), FullTimeStudent: true},
			nil, true,
			relation + " full_time_student supports_self files_joint_return citizen_or_resident", QualifyingChild,
		},
		{
			"19 and no student: IRC 152(d) may still hold",
			household.Dependent{BirthDate: born(2007)},
			nil, true,
			relation + " full_time_student disabled gross_income you_support files_joint_return citizen_or_resident", QualifyingRelative,
		},
		{
			"IRC 152(d)(1)(B): too much income ends it",
			household.Dependent{BirthDate: born(2007), GrossIncome: money.Dollars(5300)},
			nil, true,
			relation + " full_time_student disabled gross_income", NotCounted,
		},
		{
			"IRC 152(e): the other parent lets go",
			household.Dependent{BirthDate: born(2019), MonthsWithYou: months(4)},
			map[string]string{Released: "child"},
			false,
			relation + " released ssn_valid_for_work", QualifyingChild,
		},
		{
			"IRC 152(e): the other parent claims",
			household.Dependent{BirthDate: born(2019)},
			map[string]string{Claimed: "none"},
			false,
			relation + " claimed", NotCounted,
		},
		{
			"away and nothing signed: the tests of a relative",
			household.Dependent{BirthDate: born(2019), MonthsWithYou: months(4), YouSupport: &no},
			nil, false,
			relation + " released gross_income you_support", NotCounted,
		},
		{
			"IRC 152(c)(3)(A): a brother of 20 must be the younger",
			household.Dependent{Relationship: household.Sibling, BirthDate: born(2006), FullTimeStudent: true},
			nil, true,
			relation + " full_time_student self.birth_date supports_self files_joint_return citizen_or_resident", QualifyingChild,
		},
		{
			"a brother of 20 who lives elsewhere: whether he studies is nothing to the point",
			household.Dependent{Relationship: household.Sibling, BirthDate: born(2006), MonthsWithYou: months(0)},
			nil, true,
			relation + " gross_income you_support files_joint_return citizen_or_resident", QualifyingRelative,
		},
		{
			"IRC 152(d)(2)(C): a parent, of any age and address",
			household.Dependent{Relationship: household.Parent},
			nil, false,
			"relationship gross_income you_support files_joint_return citizen_or_resident", QualifyingRelative,
		},
		{
			"IRC 152(d)(2)(H): a friend for eleven months",
			household.Dependent{Relationship: household.HouseholdMember, BirthDate: born(1990), MonthsWithYou: months(11)},
			nil, false,
			"relationship months_with_you", NotCounted,
		},
		{"said to be no dependent", household.Dependent{CountsAs: household.CountsAsNone}, nil, false, "", NotCounted},
		{
			"said to be another dependent: only IRC 152(b)(3) is open",
			household.Dependent{CountsAs: household.CountsAsOther},
			nil, true,
			"citizen_or_resident", QualifyingRelative,
		},
	}
	for _, tt := range tests {
		t.Run(tt.source, func(t *testing.T) {
			h := household.Household{Self: household.Person{BirthDate: born(1988)}, Dependents: []household.Dependent{tt.d}}
			if tt.joint {
				h.Status, h.Spouse = household.MarriedFilingJointly, &household.Person{}
			}
			asked, s := facts(t, h, tt.guides, y)
			if got := strings.Join(asked, " "); got != tt.asked || s.Counts != tt.counts {
				t.Errorf("counts %d after\n %s\nwant %d after\n %s", s.Counts, got, tt.counts, tt.asked)
			}
		})
	}
}

// IRC 152(b)(1): whom another can claim has no dependents; a child can still make
// them head of household, IRC 2(b)(1)(A)(i).
func TestDecideForOneWhoCanBeClaimed(t *testing.T) {
	y := lawOf(t, 2026)
	h := household.Household{
		Self:       household.Person{CanBeClaimed: true},
		Dependents: []household.Dependent{{BirthDate: household.On(2024, 5, 5)}},
	}
	asked, s := facts(t, h, nil, y)
	if got := strings.Join(asked, " "); got != "relationship birth_date months_with_you" || s.Counts != NotCounted || !s.HeadOfHousehold {
		t.Errorf("asked %s: counts %d, head of household %v", got, s.Counts, s.HeadOfHousehold)
	}
	h.Status, h.Spouse = household.MarriedFilingJointly, &household.Person{}
	if asked, _ := facts(t, h, nil, y); len(asked) > 0 {
		t.Errorf("on a joint return nothing is left to decide, but %v is asked", asked)
	}
}

// What is not asked for does not change the outcome: with every fact known, the
// standing is the one that was decided on, whatever the facts not asked for are.
func TestDecidedStaysDecided(t *testing.T) {
	y := lawOf(t, 2026)
	no, eight, zero := false, 8, 0
	for _, relationship := range []household.Relationship{household.Child, household.Sibling, household.Parent, household.OtherRelative, household.HouseholdMember} {
		for _, year := range []int{2020, 2008, 2006, 1990} {
			for bits := range 1 << 7 {
				is := func(bit int) bool { return bits>>bit&1 == 1 }
				d := household.Dependent{Relationship: relationship, BirthDate: household.On(year, 6, 15), FullTimeStudent: is(0), Disabled: is(1), SupportsSelf: is(2) && year < 2010, FilesJointReturn: is(3) && year < 2010, MonthsWithYou: &eight}
				if is(4) {
					d.GrossIncome = money.Dollars(9000)
				}
				if is(5) || d.SupportsSelf { // who provides more than half does not get it
					d.YouSupport = &no
				}
				if is(6) {
					d.MonthsWithYou = &zero
				}
				for _, status := range []household.Status{household.Single, household.MarriedFilingJointly} {
					h := household.Household{Status: status, Self: household.Person{BirthDate: household.On(1985, 1, 1)}, Dependents: []household.Dependent{d}}
					if status == household.MarriedFilingJointly {
						h.Spouse = &household.Person{}
					}
					asked, got := facts(t, h, nil, y)
					want := Standings(h, y)[0]
					head := got.HeadOfHousehold == want.HeadOfHousehold || h.Joint()
					if got.Counts != want.Counts || got.ChildCredit != want.ChildCredit || got.OtherCredit != want.OtherCredit || !head {
						t.Fatalf("%+v, %v: after %v it counts %d, %q; with every fact known %d, %q", d, status, asked, got.Counts, got.credits(), want.Counts, want.credits())
					}
				}
			}
		}
	}
}

// IRC 21(b)(1): care turns on age, and beyond it on disability, whatever the
// person's income.
func TestDecideCare(t *testing.T) {
	y := lawOf(t, 2026)
	tests := []struct {
		source string
		d      household.Dependent
		asked  string
		counts bool
	}{
		{"IRC 21(b)(1)(A): a child of seven", household.Dependent{BirthDate: household.On(2019, 3, 4)}, "birth_date months_with_you", true},
		{"IRC 21(b)(1)(B): 15", household.Dependent{BirthDate: household.On(2011, 3, 4)}, "birth_date months_with_you disabled", false},
		{"IRC 21(b)(1)(B): 15 and disabled", household.Dependent{BirthDate: household.On(2011, 3, 4), Disabled: true}, "birth_date months_with_you disabled", true},
		{"IRC 21(b)(1)(B): a disabled parent with income", household.Dependent{Relationship: household.Parent, Disabled: true, GrossIncome: money.Dollars(20_000)}, "months_with_you disabled you_support", true},
	}
	for _, tt := range tests {
		h := household.Household{Status: household.MarriedFilingJointly, Spouse: &household.Person{}, Dependents: []household.Dependent{tt.d}}
		asked := []string{"relationship"}
		for {
			counts, fact := DecideCare(h, 0, func(f string) bool { return slices.Contains(asked, f) }, y)
			if fact == "" {
				if got := strings.Join(asked[1:], " "); got != tt.asked || counts != tt.counts {
					t.Errorf("%s: %v after %s; want %v after %s", tt.source, counts, got, tt.counts, tt.asked)
				}
				break
			}
			asked = append(asked, fact)
		}
	}
}
