package worksheet

import (
	"encoding/json"

	"example.com/plumbline/internal/words"
)

// Reason is a line with everything it came from, down to the answers.
type Reason struct {
	Line    Line
	From    []Reason // the lines it came from, each explained where it first appears
	Answers []string // the keys of answers that it came from directly
	// Told: the line is explained further up, and not again here.
	Told bool
	// Projected: at the top of a chain, the figures of the law are.
	Projected bool
}

// Explain is the chain behind a line of the sheet: the line, the lines it came
// from, and so on down to the answers. It is read off the trace and computes
// nothing. It is not ok when the sheet has no such line.
func (s *Sheet) Explain(id string) (Reason, bool) {
	if _, ok := s.Line(id); !ok {
		return Reason{}, false
	}
	e := explainer{s, map[string]bool{}}
	return e.reason(id), true
}

// ExplainFrom is the chain behind a figure that is no line itself, but came
// from the lines and answers given.
func (s *Sheet) ExplainFrom(l Line) Reason {
	e := explainer{s, map[string]bool{}}
	return e.of(l)
}

// explainer walks a trace; told holds the lines explained so far, which keeps
// every walk finite.
type explainer struct {
	s    *Sheet
	told map[string]bool
}

func (e explainer) reason(id string) Reason {
	l, _ := e.s.Line(id)
	if e.told[id] {
		return Reason{Line: l, Told: true}
	}
	e.told[id] = true
	return e.of(l)
}

func (e explainer) of(l Line) Reason {
	r := Reason{Line: l}
	for _, from := range l.From {
		switch _, isLine := e.s.Line(from); {
		case !isLine:
			r.Answers = append(r.Answers, from)
		case from != l.ID:
			r.From = append(r.From, e.reason(from))
		}
	}
	return r
}

// MarshalJSON writes the chain as nested objects.
func (r Reason) MarshalJSON() ([]byte, error) {
	return json.Marshal(struct {
		ID        string   `json:"id"`
		Form      string   `json:"form,omitempty"`
		Label     string   `json:"label"`
		Amount    any      `json:"amount"`
		How       string   `json:"how,omitempty"`
		Source    string   `json:"source,omitempty"`
		Answers   []string `json:"answers,omitempty"`
		From      []Reason `json:"from,omitempty"`
		Told      bool     `json:"explained_above,omitempty"`
		Projected bool     `json:"projected,omitempty"`
	}{r.Line.ID, r.Line.Form, r.Line.Said(words.English()), r.Line.Amount, r.Line.How.String(), r.Line.Source, r.Answers, r.From, r.Told, r.Projected})
}
