package household

import "example.com/plumbline/internal/words"

// State is where somebody works: a state or the District of Columbia; unknown
// when the answers do not say.
type State int8

// StateUnknown is the zero value.
const StateUnknown State = 0

// stateCodes are the postal codes, in the order of the states' names.
var stateCodes = []string{
	"",
	"AL", "AK", "AZ", "AR", "CA", "CO", "CT", "DE", "DC", "FL",
	"GA", "HI", "ID", "IL", "IN", "IA", "KS", "KY", "LA", "ME",
	"MD", "MA", "MI", "MN", "MS", "MO", "MT", "NE", "NV", "NH",
	"NJ", "NM", "NY", "NC", "ND", "OH", "OK", "OR", "PA", "RI",
	"SC", "SD", "TN", "TX", "UT", "VT", "VA", "WA", "WV", "WI",
	"WY",
}

// AllStates are the 50 states and the District of Columbia, by name.
func AllStates() []State {
	all := make([]State, 0, len(stateCodes)-1)
	for i := range stateCodes[1:] {
		all = append(all, State(i+1))
	}
	return all
}

// String is the postal code, as in the answers file.
func (x State) String() string { return stateCodes[x] }

// Name is the name of the state, inside a sentence.
func (x State) Name() words.Text { return words.T("state." + x.String()) }

// MarshalText writes the postal code.
func (x State) MarshalText() ([]byte, error) { return []byte(x.String()), nil }

// UnmarshalText reads a postal code.
func (x *State) UnmarshalText(text []byte) error {
	for i, code := range stateCodes {
		if code != "" && code == string(text) {
			*x = State(i)
			return nil
		}
	}
	return words.Fail("answers.state", "text", string(text))
}
