package tables

import (
	"errors"
	"fmt"
	"io/fs"
	"slices"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/words"
	"example.com/plumbline/internal/yamldoc"
)

// statesFile is the one file of tables that is no year.
const statesFile = "states.yaml"

// States is which certificate each state wants for its own income tax on wages,
// by name only.
type States struct {
	Source string      `yaml:"source,required"`
	All    []StateRule `yaml:"states,required"`
}

// StateRule is one state, or the District of Columbia.
type StateRule struct {
	Code        household.State `yaml:"code,required"`
	Wants       StateWants      `yaml:"wants,required"`
	Form        string          `yaml:"form"` // the state's own, by its number
	Basis       Basis           `yaml:"basis,required"`
	Note        string          `yaml:"note"`
	ResidentsOf *Reciprocity    `yaml:"residents_of"` // nil: no agreement is known
}

// TaxesWages reports whether the state has an income tax on wages.
func (s StateRule) TaxesWages() bool { return s.Wants != WantsNone }

// Reciprocity are the states whose residents pay tax at home on what they earn
// in this one.
type Reciprocity struct {
	States []household.State `yaml:"states,required"`
	Basis  Basis             `yaml:"basis,required"`
}

// StateWants is which certificate a state wants.
type StateWants string

// The four answers.
const (
	WantsOwn     StateWants = "own"     // a form of its own
	WantsFederal StateWants = "federal" // Form W-4
	WantsRarely  StateWants = "rarely"  // a form of its own in special cases only
	WantsNone    StateWants = "none"    // no income tax on wages
)

// UnmarshalText reads one of the four answers.
func (w *StateWants) UnmarshalText(text []byte) error {
	switch StateWants(text) {
	case WantsOwn, WantsFederal, WantsRarely, WantsNone:
		*w = StateWants(text)
		return nil
	}
	return words.Fail("tables.not_a_want", "text", string(text))
}

// LoadStates reads the states from fsys. The error is of type
// yamldoc.Problems, every mistake with its line, when the file is not in order.
func LoadStates(fsys fs.FS) (*States, error) {
	data, err := fs.ReadFile(fsys, statesFile)
	if err != nil {
		return nil, fmt.Errorf("table of the states: %w", err)
	}
	s, problems := readStates(data)
	if err := problems.Err(); err != nil {
		return nil, err
	}
	return s, nil
}

// States is which certificate each state wants, from the folder that the year was
// loaded from: read once, when it is first asked for. A folder without that table
// knows nothing of any state.
func (y *Year) States() (*States, error) {
	if y.states == nil {
		return &States{}, nil
	}
	s, err := y.states()
	if errors.Is(err, fs.ErrNotExist) {
		return &States{}, nil
	}
	return s, err
}

func readStates(data []byte) (*States, yamldoc.Problems) {
	doc, problems := parse(statesFile, data)
	if doc == nil {
		return nil, problems
	}
	var s States
	return &s, problems.Join(doc.Decode(&s))
}

// Of is what is known of a state.
func (s *States) Of(state household.State) (StateRule, bool) {
	for _, r := range s.All {
		if r.Code == state {
			return r, true
		}
	}
	return StateRule{}, false
}

// TaxedAtHome reports whether somebody who lives in one state and works in
// another pays tax at home, by an agreement that is known.
func (s *States) TaxedAtHome(home, work household.State) bool {
	r, ok := s.Of(work)
	if !ok || r.ResidentsOf == nil {
		return false
	}
	return slices.Contains(r.ResidentsOf.States, home)
}

// Check asks for every state once, and for a form where the state wants its
// own.
func (s *States) Check(report yamldoc.Report) {
	if s.Source == "" {
		report("source", words.T("tables.state.no_source"))
	}
	seen := map[household.State]bool{}
	for i, r := range s.All {
		at := fmt.Sprintf("states[%d].", i)
		if seen[r.Code] {
			report(at+"code", words.T("tables.state.twice", "state", r.Code.String()))
		}
		seen[r.Code] = true
		switch {
		case r.Wants == WantsOwn && r.Form == "":
			report(at+"wants", words.T("tables.state.no_form"))
		case r.Wants == WantsNone && (r.Form != "" || r.ResidentsOf != nil):
			report(at+"wants", words.T("tables.state.no_tax"))
		case r.Basis == Mixed && r.Note == "":
			report(at+"basis", words.T("tables.state.no_note"))
		}
		if r.ResidentsOf != nil {
			for _, other := range r.ResidentsOf.States {
				if other == r.Code {
					report(at+"residents_of", words.T("tables.state.itself", "state", other.String()))
				}
			}
		}
	}
	for _, state := range household.AllStates() {
		if !seen[state] {
			report("states", words.T("tables.state.missing", "state", state.String()))
		}
	}
}

// checkStates are the mistakes of the table of the states; none where a folder
// has no such table.
func checkStates(fsys fs.FS) yamldoc.Problems {
	data, err := fs.ReadFile(fsys, statesFile)
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	if err != nil {
		return yamldoc.Problems{{File: statesFile, What: yamldoc.Said(err.Error())}}
	}
	_, problems := readStates(data)
	return problems
}
