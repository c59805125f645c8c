package paystub

import (
	"strings"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/words"
)

// View is a stub as JSON shows it, in a language. The names of its keys are
// permanent.
type View struct {
	Job            string            `json:"job"`
	Payday         household.Date    `json:"payday"`
	Basis          Basis             `json:"basis"`
	Paychecks      int               `json:"paychecks"`
	Judged         bool              `json:"judged"`
	FederalTax     checkView         `json:"federal_tax"`
	SocialSecurity *checkView        `json:"social_security"`
	Medicare       *checkView        `json:"medicare"`
	Explanations   []explanationView `json:"explanations"`
	Ask            string            `json:"ask"`
	Questions      []noteView        `json:"questions"`
}

type checkView struct {
	Expected money.Amount `json:"expected"`
	Most     money.Amount `json:"most"`
	Actual   money.Amount `json:"actual"`
	Right    bool         `json:"right"`
	About    bool         `json:"about_right"`
	Why      string       `json:"why"`
}

type explanationView struct {
	Code    string       `json:"code"`
	What    string       `json:"what"`
	Figure  money.Amount `json:"figure"`
	Off     money.Amount `json:"off"`
	Exact   bool         `json:"exact"`
	Allowed bool         `json:"allowed"`
	Ask     string       `json:"ask"`
}

type noteView struct {
	Code    string `json:"code"`
	Message string `json:"message"`
}

// In is the stub in a language, for JSON.
func (s Stub) In(l *words.Language) View {
	v := View{
		Job: s.Name, Payday: s.Payday, Basis: s.Basis, Paychecks: s.Paychecks, Judged: s.Unread.IsZero(),
		FederalTax: *s.FederalTax.in(l), SocialSecurity: s.SocialSecurity.in(l), Medicare: s.Medicare.in(l),
		Explanations: []explanationView{}, Questions: []noteView{},
	}
	for _, e := range s.Explanations {
		v.Explanations = append(v.Explanations, explanationView{e.Code, l.Say(e.What), e.Figure, e.Off, e.Exact, e.Allowed, l.Say(e.Ask)})
	}
	var ask []string
	for _, a := range s.Ask {
		ask = append(ask, l.Say(a))
	}
	if v.Ask = strings.Join(ask, " "); !v.Judged && v.Ask == "" {
		v.Ask = l.Say(s.Unread)
	}
	for _, q := range s.Questions {
		v.Questions = append(v.Questions, noteView{strings.Replace(q.Code, ".question.", ".", 1), l.Say(q)})
	}
	return v
}

func (c *Check) in(l *words.Language) *checkView {
	if c == nil {
		return nil
	}
	return &checkView{c.Expected, c.Most, c.Actual, c.Right, c.About, l.Say(c.Why)}
}
