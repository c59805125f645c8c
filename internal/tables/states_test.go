package tables

import (
	"strings"
	"testing"
	"testing/fstest"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/yamldoc"
	"example.com/plumbline/taxtables"
)

func shippedStates(t *testing.T) *States {
	t.Helper()
	s, err := LoadStates(taxtables.Files)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func stateOf(t *testing.T, code string) household.State {
	t.Helper()
	var s household.State
	if err := s.UnmarshalText([]byte(code)); err != nil {
		t.Fatal(err)
	}
	return s
}

// What employers' public lists say of some states, 2026-11-27.
func TestStates(t *testing.T) {
	s := shippedStates(t)
	if len(s.All) != 51 {
		t.Errorf("%d states, want 50 and the District of Columbia", len(s.All))
	}
	for code, want := range map[string]struct {
		wants StateWants
		form  string
	}{
		"GA": {WantsOwn, "G-4"}, "CA": {WantsOwn, "DE 4"}, "DC": {WantsOwn, "D-4"}, "TX": {WantsNone, ""},
		"UT": {WantsFederal, ""}, "CO": {WantsFederal, "DR 0004"}, "PA": {WantsRarely, "REV-419"},
	} {
		r, ok := s.Of(stateOf(t, code))
		if !ok || r.Wants != want.wants || r.Form != want.form || r.TaxesWages() != (want.wants != WantsNone) {
			t.Errorf("%s: %+v", code, r)
		}
	}
	// Nine states have no income tax on wages: Alaska, Florida, Nevada, New
	// Hampshire, South Dakota, Tennessee, Texas, Washington and Wyoming.
	without := 0
	for _, r := range s.All {
		if !r.TaxesWages() {
			without++
		}
	}
	if without != 9 {
		t.Errorf("%d states have no income tax on wages, want 9", without)
	}
	if _, ok := s.Of(household.StateUnknown); ok {
		t.Error("something is known of an unknown state")
	}
}

// Agreements between states hold both ways, but for those that one side gives
// alone: Arizona, for residents of four states (from memory).
func TestReciprocity(t *testing.T) {
	s := shippedStates(t)
	for _, r := range s.All {
		if r.ResidentsOf == nil || r.Code == stateOf(t, "AZ") {
			continue
		}
		for _, home := range r.ResidentsOf.States {
			if !s.TaxedAtHome(r.Code, home) {
				t.Errorf("residents of %v pay at home on work in %v, but not the other way", home, r.Code)
			}
		}
	}
	if !s.TaxedAtHome(stateOf(t, "NJ"), stateOf(t, "PA")) || s.TaxedAtHome(stateOf(t, "NY"), stateOf(t, "NJ")) {
		t.Error("New Jersey has an agreement with Pennsylvania, and none with New York")
	}
}

func TestBrokenStates(t *testing.T) {
	data, err := taxtables.Files.ReadFile("states.yaml")
	if err != nil {
		t.Fatal(err)
	}
	for _, tt := range []struct{ mistake, old, new, key, message string }{
		{"no such state", "code: GA", "code: GX", "states[10].code", `"GX" is not the postal code of a state`},
		{"a state twice", "code: GA", "code: FL", "states[10].code", "FL is there already"},
		{"a state missing", "code: GA", "code: FL", "states", "GA is missing; add it"},
		{"no such certificate", "GA, wants: own", "GA, wants: yes", "states[10].wants", `"yes" is not what a state wants`},
		{"its own, without a form", `GA, wants: own, form: "G-4"`, "GA, wants: own", "states[10].wants", "is own, but no form is named"},
		{"no tax, but a form", "GA, wants: own", "GA, wants: none", "states[10].wants", "is none, so there is no form"},
		{"mixed without a note", `form: "G-4", basis: found`, `form: "G-4", basis: mixed`, "states[10].basis", "is mixed, but no note says what differs"},
		{"an agreement with itself", "states: [CA, IN, OR, VA]", "states: [AZ]", "states[2].residents_of", "AZ has no agreement with itself"},
		{"no source", `source: "three`, `sauce: "three`, "source", "this key is required"},
	} {
		t.Run(tt.mistake, func(t *testing.T) {
			text := strings.Replace(string(data), tt.old, tt.new, 1)
			files := fstest.MapFS{"states.yaml": {Data: []byte(text)}}
			_, err := LoadStates(files)
			problems, ok := err.(yamldoc.Problems)
			if !ok {
				t.Fatalf("LoadStates gives %v, want a problem", err)
			}
			if checked := Check(files); checked.Error() != problems.Error() {
				t.Errorf("Check gives\n%v\nLoadStates\n%v", checked, problems)
			}
			for _, p := range problems {
				if p.What.Code == yamldoc.Said("").Code {
					t.Errorf("%v is said in English alone", p)
				}
				if p.Line > 0 && p.Key == tt.key && strings.HasPrefix(p.Message(), tt.message) {
					return
				}
			}
			t.Errorf("got\n%v\nwant %s: %s", problems, tt.key, tt.message)
		})
	}
}
