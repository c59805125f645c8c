package worksheet

import (
	"example.com/plumbline/internal/money"
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

// View is a chain as JSON shows it, in a language. The names of its keys are
// permanent.
type View struct {
	Language  string       `json:"language,omitempty"` // of the whole chain
	ID        string       `json:"id"`
	Form      string       `json:"form,omitempty"`
	Label     string       `json:"label"`
	Amount    money.Amount `json:"amount"`
	How       string       `json:"how,omitempty"`
	Source    string       `json:"source,omitempty"`
	Answers   []string     `json:"answers,omitempty"`
	From      []View       `json:"from,omitempty"`
	Told      bool         `json:"explained_above,omitempty"`
	Projected bool         `json:"projected,omitempty"`
}

// In is the chain in a language, for JSON.
func (r Reason) In(l *words.Language) View {
	v := r.in(l)
	v.Language = l.Tag()
	return v
}

func (r Reason) in(l *words.Language) View {
	v := View{ID: r.Line.ID, Form: r.Line.Form, Label: r.Line.Said(l), Amount: r.Line.Amount, How: r.Line.How.In(l), Source: r.Line.Source, Answers: r.Answers, Told: r.Told, Projected: r.Projected}
	for _, from := range r.From {
		v.From = append(v.From, from.in(l))
	}
	return v
}
