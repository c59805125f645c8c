package tax

import (
	"strings"
	"testing"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/sample"
	"example.com/plumbline/internal/words"
)

// credits is which credits a standing gives, in short: C child, O other
// dependent, E earned income, D dependent care, H head of household.
func (s Standing) credits() string {
	short := ""
	for _, g := range []struct {
		given bool
		mark  string
	}{{s.ChildCredit, "C"}, {s.OtherCredit, "O"}, {s.EarnedIncome, "E"}, {s.CareCredit, "D"}, {s.HeadOfHousehold, "H"}} {
		if g.given {
			short += g.mark
		}
	}
	return short
}

// Years are counted for 2026. Each case changes one or two facts of a child of
// seven at home all year.
func TestStandings(t *testing.T) {
	no, yes := false, true
	m := func(n int) *int { return &n }
	born := func(year int) func(*household.Dependent) {
		return func(d *household.Dependent) { d.BirthDate = household.On(year, 6, 15) }
	}
	of := func(changes ...func(*household.Dependent)) func(*household.Dependent) {
		return func(d *household.Dependent) {
			for _, change := range changes {
				change(d)
			}
		}
	}
	related := func(r household.Relationship) func(*household.Dependent) {
		return func(d *household.Dependent) { d.Relationship = r }
	}
	lives := func(n int) func(*household.Dependent) {
		return func(d *household.Dependent) { d.MonthsWithYou = m(n) }
	}
	earns := func(text string) func(*household.Dependent) {
		return func(d *household.Dependent) { d.GrossIncome = usd(text) }
	}
	as := func(x household.CountsAs) func(*household.Dependent) {
		return func(d *household.Dependent) { d.CountsAs = x }
	}
	student := func(d *household.Dependent) { d.FullTimeStudent = true }
	disabled := func(d *household.Dependent) { d.Disabled = true }
	tests := []struct {
		source  string
		change  func(*household.Dependent)
		counts  Counting
		credits string
		reason  string // part of it
	}{
		{"IRC 152(c), 24(c): a young child", of(), QualifyingChild, "CEDH", "under 17"},
		{"IRC 24(c)(1): 16 at the end of the year", born(2010), QualifyingChild, "CEH", "under 17"},
		{"IRC 24(c)(1): turns 17", born(2009), QualifyingChild, "OEH", "turns 17 in 2026"},
		{"IRC 152(c)(3)(A)(i): 18", born(2008), QualifyingChild, "OEH", "is 18"},
		{"IRC 152(c)(3)(A)(i): 19, income too high for a relative", of(born(2007), earns("5300")), NotCounted, "", "is 19 at the end of 2026"},
		{"IRC 152(d): 19, little income: a relative", of(born(2007), earns("5299.99")), QualifyingRelative, "OH", "less than $5,300"},
		{"IRC 152(c)(3)(A)(ii): a student of 23", of(born(2003), student, earns("9000")), QualifyingChild, "OEH", "is 23"},
		{"IRC 152(c)(3)(A)(ii): a student of 24", of(born(2002), student, earns("9000")), NotCounted, "", "is 24"},
		{"IRC 152(c)(3)(B): disabled at any age", of(born(1990), disabled, earns("9000")), QualifyingChild, "OEDH", "is 36"},
		{"IRC 152(c)(1)(B): seven months", lives(7), QualifyingChild, "CEDH", "under 17"},
		{"IRC 152(c)(1)(B): six months is not more than half", of(lives(6), func(d *household.Dependent) { d.YouSupport = &no }), NotCounted, "", "lives with you 6 months"},
		{"Publication 501: born in the year counts as all year", of(func(d *household.Dependent) { d.BirthDate = household.On(2026, 12, 30) }, lives(0)), QualifyingChild, "CEDH", "under 17"},
		{"Publication 501: born in the year, elsewhere for most of its life", of(func(d *household.Dependent) { d.BirthDate = household.On(2026, 3, 1) }, lives(2), func(d *household.Dependent) { d.YouSupport = &no }), NotCounted, "", "2 months"},
		{"IRC 152(c)(1)(D), 32(c)(3)(A): supports itself, which the earned income credit does not ask", of(born(2008), func(d *household.Dependent) { d.SupportsSelf = true }), NotCounted, "E", "support"},
		{"IRC 152(c)(1)(E): joint return", func(d *household.Dependent) { d.FilesJointReturn = true }, NotCounted, "", "joint return"},
		{"IRC 152(b)(3): abroad", func(d *household.Dependent) { d.CitizenOrResident = &no }, NotCounted, "EH", "citizen"},
		{"IRC 24(h)(7), 32(m): no number", func(d *household.Dependent) { d.SSNValidForWork = &no }, QualifyingChild, "ODH", "number"},
		{"IRC 152(c)(2)(B): a sister", related(household.Sibling), QualifyingChild, "CEDH", "under 17"},
		{"IRC 152(c)(3)(A): an older brother, no child", of(related(household.Sibling), born(1985), student), QualifyingRelative, "OH", "less than"},
		{"IRC 152(c)(2): a grandchild", related(household.Descendant), QualifyingChild, "CEDH", "under 17"},
		{"IRC 152(d)(2)(C), 2(b)(1)(B): a parent elsewhere", of(related(household.Parent), born(1950), lives(0)), QualifyingRelative, "OH", "support"},
		{"IRC 152(d)(1)(B): a parent with income", of(related(household.Parent), born(1950), earns("5300")), NotCounted, "", "5,300"},
		{"IRC 152(d)(1)(C): a parent supported by others", of(related(household.Parent), born(1950), func(d *household.Dependent) { d.YouSupport = &no }), NotCounted, "", "support"},
		{"IRC 152(d)(2), 2(b)(1)(A)(ii): an uncle elsewhere", of(related(household.OtherRelative), born(1960), lives(3)), QualifyingRelative, "O", "support"},
		{"IRC 152(d)(2), 2(b)(1)(A)(ii): an uncle at home", of(related(household.OtherRelative), born(1960)), QualifyingRelative, "OH", "support"},
		{"IRC 152(d)(2)(H), 2(b)(3)(B)(i): a friend at home all year", of(related(household.HouseholdMember), born(1990)), QualifyingRelative, "O", "support"},
		{"IRC 152(d)(2)(H): a friend for eleven months", of(related(household.HouseholdMember), born(1990), lives(11)), NotCounted, "", "11 months"},
		{"IRC 21(b)(1)(B): a disabled parent with income", of(related(household.Parent), born(1950), disabled, earns("20000")), NotCounted, "D", "20,000"},
		{"IRC 21(b)(1)(A): turns 13 in the year", born(2013), QualifyingChild, "CEDH", "under 17"},
		{"IRC 21(b)(1)(A): 13 since January 1", func(d *household.Dependent) { d.BirthDate = household.On(2013, 1, 1) }, QualifyingChild, "CEH", "under 17"},
		{"IRC 21(b)(1)(A): 14", born(2012), QualifyingChild, "CEH", "under 17"},
		{"said to count as a child, away: a released claim", of(lives(4), as(household.CountsAsChild)), QualifyingChild, "C", "under 17"},
		{"said to count as a child, but 17", of(born(2009), lives(4), as(household.CountsAsChild)), QualifyingChild, "O", "turns 17"},
		{"said to count as a child, age unknown", of(func(d *household.Dependent) { d.BirthDate = household.Date{} }, as(household.CountsAsChild)), QualifyingChild, "CEDH", "under 17"},
		{"said to count as another, of 18: still a child for earned income", of(born(2008), as(household.CountsAsOther)), QualifyingRelative, "OEH", "as the answers say"},
		{"said to count as another, young", as(household.CountsAsOther), QualifyingRelative, "OH", "as the answers say"},
		{"said to count as none, at home: IRC 2(b)(1)(A)(i)", as(household.CountsAsNone), NotCounted, "H", "answers say"},
		{"all facts unknown: a young child", func(d *household.Dependent) { *d = household.Dependent{YouSupport: &yes} }, QualifyingChild, "CEDH", "under 17"},
	}
	y := lawOf(t, 2026)
	for _, tt := range tests {
		t.Run(tt.source, func(t *testing.T) {
			d := household.Dependent{Name: "Ada", BirthDate: household.On(2019, 3, 4)}
			tt.change(&d)
			h := household.Household{Status: household.HeadOfHousehold, Self: household.Person{BirthDate: household.On(1988, 2, 2)}, Dependents: []household.Dependent{d}}
			s := Standings(h, y)[0]
			reason := words.English().Say(s.Reason)
			if s.Counts != tt.counts || s.credits() != tt.credits || !strings.Contains(reason, tt.reason) {
				t.Errorf("counts %d, credits %q, %q; want %d, %q and %q", s.Counts, s.credits(), reason, tt.counts, tt.credits, tt.reason)
			}
			if !strings.HasSuffix(reason, ".") || strings.Count(reason, ".") > 1 {
				t.Errorf("reason %q is not one sentence", reason)
			}
		})
	}
}

// What the taxpayers are decides for every dependent.
func TestStandingsByTaxpayer(t *testing.T) {
	no := false
	child := household.Dependent{BirthDate: household.On(2019, 3, 4)}
	tests := []struct {
		source  string
		h       household.Household
		credits string
	}{
		{"IRC 152(b)(1): one who can be claimed has no dependents", household.Household{Self: household.Person{CanBeClaimed: true}}, "EH"},
		{"Publication 501: nor do spouses of whom one can be claimed", household.Household{Status: household.MarriedFilingJointly, Spouse: &household.Person{CanBeClaimed: true}}, "EH"},
		{"a spouse with a return of their own does not matter", household.Household{Status: household.MarriedFilingSeparately, Spouse: &household.Person{CanBeClaimed: true}}, "CEDH"},
		{"IRC 24(h)(7)(A): a taxpayer without a number", household.Household{Self: household.Person{SSNValidForWork: &no}}, "OEDH"},
		{"IRC 24(h)(7)(A): one of two spouses has one", household.Household{Status: household.MarriedFilingJointly, Self: household.Person{SSNValidForWork: &no}}, "CEDH"},
		{"IRC 152(c)(3)(A): younger than one of the spouses", household.Household{
			Status: household.MarriedFilingJointly,
			Self:   household.Person{BirthDate: household.On(2020, 1, 1)}, Spouse: &household.Person{BirthDate: household.On(2000, 1, 1)},
		}, "CEDH"},
	}
	for _, tt := range tests {
		for _, year := range sample.Years() {
			h := tt.h
			h.Dependents = []household.Dependent{child}
			if got := Standings(h, lawOf(t, year))[0].credits(); got != tt.credits {
				t.Errorf("%d, %s: %q, want %q", year, tt.source, got, tt.credits)
			}
		}
	}
}

// Until 2024 the child's number was enough: the year's table says so.
func TestChildCreditWithoutTaxpayersNumber(t *testing.T) {
	no := false
	y := *lawOf(t, 2025)
	y.ChildCredit.TaxpayerSSN = false
	h := household.Household{Self: household.Person{SSNValidForWork: &no}, Dependents: children(1)}
	if s := Standings(h, &y)[0]; !s.ChildCredit {
		t.Errorf("no child tax credit: %v", s.Reason)
	}
}

// Publication 501 (2025), p. 17, rules that decide between two people turn on
// facts beyond the answers; a child who may be another's is named.
func TestSharedCustodyIsNamed(t *testing.T) {
	four := 4
	h := household.Household{Dependents: []household.Dependent{{Name: "Bo", BirthDate: household.On(2019, 3, 4), MonthsWithYou: &four}}}
	s := Standings(h, lawOf(t, 2026))[0]
	if len(s.Notes) != 1 || s.Notes[0].Code != "shared_custody" || !strings.Contains(s.Notes[0].Said(words.English()), "Bo") {
		t.Errorf("notes %v, want one about shared custody that names the child", s.Notes)
	}
	// IRC 152(d)(1)(D): a qualifying relative is nobody's qualifying child.
	if m := s.Notes[0].Said(words.English()); s.Counts != QualifyingRelative || !strings.Contains(m, "only if no one else can claim the child") || !strings.Contains(m, "500") {
		t.Errorf("counts as %v, and the note does not say what is counted on: %s", s.Counts, m)
	}
	h.Dependents[0].CountsAs = household.CountsAsNone
	h.Dependents[0].MonthsWithYou = nil
	if s := Standings(h, lawOf(t, 2026))[0]; len(s.Notes) != 1 || s.Notes[0].Code != "released_claim" {
		t.Errorf("notes %v, want one about the released claim", s.Notes)
	}
}

// Nobody among the dependents is put aside without a word: who does not count is
// named, with the test that decided, and so is a child of the child tax credit, by
// the answers, who is past its age. IRC 152(d)(1)(B) and 24(c)(1).
func TestWhoIsPutAsideIsNamed(t *testing.T) {
	for _, tt := range []struct {
		name string
		d    household.Dependent
		want string // code of the only note; none when empty
	}{
		{"a child", household.Dependent{BirthDate: household.On(2019, 3, 4)}, ""},
		{"one with too much income", household.Dependent{Relationship: household.HouseholdMember, BirthDate: household.On(2000, 3, 4), GrossIncome: money.Dollars(90_000)}, "dependent_not_counted"},
		{"one who is none by the answers", household.Dependent{BirthDate: household.On(2000, 3, 4), CountsAs: household.CountsAsNone}, ""},
		{"a child of 46, by the answers", household.Dependent{BirthDate: household.On(1980, 3, 4), CountsAs: household.CountsAsChild}, "dependent_other_credit"},
		{"another of 46, by the answers", household.Dependent{BirthDate: household.On(1980, 3, 4), CountsAs: household.CountsAsOther}, ""},
	} {
		tt.d.Name = "Bo"
		h := household.Household{TaxYear: 2026, Dependents: []household.Dependent{tt.d}}
		s := Standings(h, lawOf(t, 2026))[0]
		var codes []string
		for _, n := range s.Notes {
			codes = append(codes, n.Code)
			if said := n.Said(words.English()); !strings.HasPrefix(said, "Bo: ") || len(said) < len("Bo: ")+20 {
				t.Errorf("%s: the note says %q", tt.name, said)
			}
		}
		if got := strings.Join(codes, " "); got != tt.want {
			t.Errorf("%s: notes %q, want %q", tt.name, got, tt.want)
		}
	}
}

// A parent with whom a child lives most of the year, and who lets the other parent
// claim it, keeps head of household, and may count as unmarried: IRC 152(e)(1),
// 2(b)(1)(A)(i) ("without regard to section 152(e)"), 7703(b)(1) ("or would be so
// entitled but for section 152(e)"). Nobody else keeps it: 152(e) is about parents.
func TestReleasedClaimKeepsHeadOfHousehold(t *testing.T) {
	four := 4
	for _, tt := range []struct {
		name string
		d    household.Dependent
		want bool
	}{
		{"a child at home", household.Dependent{Relationship: household.Child, BirthDate: household.On(2015, 3, 4)}, true},
		{"a child at home for four months", household.Dependent{Relationship: household.Child, BirthDate: household.On(2015, 3, 4), MonthsWithYou: &four}, false},
		{"a child of 20, no student", household.Dependent{Relationship: household.Child, BirthDate: household.On(2006, 3, 4)}, false},
		{"a child that supports itself", household.Dependent{Relationship: household.Child, BirthDate: household.On(2008, 3, 4), SupportsSelf: true}, false},
		{"a brother at home", household.Dependent{Relationship: household.Sibling, BirthDate: household.On(2015, 3, 4)}, false},
	} {
		tt.d.CountsAs = household.CountsAsNone
		h := household.Household{TaxYear: 2026, Dependents: []household.Dependent{tt.d}}
		s := Standings(h, lawOf(t, 2026))[0]
		if s.HeadOfHousehold != tt.want || s.Unmarried != tt.want || s.Counts != NotCounted || s.ChildCredit || s.OtherCredit || s.EarnedIncome || s.CareCredit {
			t.Errorf("%s: %+v, want head of household %v and nothing else", tt.name, s, tt.want)
		}
	}
}

// Each age of the table, the year before it is reached and the year it is.
func TestAgesOfDependents(t *testing.T) {
	for _, year := range sample.Years() {
		y := lawOf(t, year)
		aged := func(age int, student bool) Standing {
			d := household.Dependent{BirthDate: household.On(year-age, 7, 1), FullTimeStudent: student, GrossIncome: money.Dollars(50_000)}
			return Standings(household.Household{Dependents: []household.Dependent{d}}, y)[0]
		}
		tests := []struct {
			what          string
			before, after bool
		}{
			{"child tax credit", aged(y.ChildCredit.ChildUnder-1, false).ChildCredit, aged(y.ChildCredit.ChildUnder, false).ChildCredit},
			{"qualifying child", aged(y.DependentTests.Child.Under-1, false).Counts != NotCounted, aged(y.DependentTests.Child.Under, false).Counts != NotCounted},
			{"student", aged(y.DependentTests.Child.StudentUnder-1, true).Counts != NotCounted, aged(y.DependentTests.Child.StudentUnder, true).Counts != NotCounted},
			{"earned income credit", aged(y.DependentTests.Child.StudentUnder-1, true).EarnedIncome, aged(y.DependentTests.Child.StudentUnder, true).EarnedIncome},
			{"care, which counts to the birthday", aged(y.DependentCare.ChildUnder, false).CareCredit, aged(y.DependentCare.ChildUnder+1, false).CareCredit},
		}
		for _, tt := range tests {
			if !tt.before || tt.after {
				t.Errorf("%d: %s at the last age: %v, a year older: %v", year, tt.what, tt.before, tt.after)
			}
		}
	}
}
