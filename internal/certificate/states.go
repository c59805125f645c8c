package certificate

import (
	"slices"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/tables"
	"example.com/plumbline/internal/words"
)

// StateCertificate is what the state of a job wants for its own income tax on
// wages, by name only: no state tax is worked out.
type StateCertificate struct {
	State household.State
	Wants tables.StateWants
	Form  string // the state's own, by its number; empty for none
	Jobs  []int  // indexes into Household.Jobs
	// ResidentsOf are the states whose residents pay tax at home on this work, by
	// an agreement that is known.
	ResidentsOf []household.State
	Text        words.Text // what to do
	Basis       tables.Basis
}

// StateCertificates are what the states want in which the jobs on the return are
// done, each state once. A job without a state is done where the same person's
// first job with one is; where none is known there is nothing to say.
func StateCertificates(h household.Household, y *tables.Year) ([]StateCertificate, error) {
	var all []StateCertificate
	for _, i := range h.CountedJobs() {
		state := stateOf(h, i)
		if state == household.StateUnknown {
			continue
		}
		if k := slices.IndexFunc(all, func(c StateCertificate) bool { return c.State == state }); k >= 0 {
			all[k].Jobs = append(all[k].Jobs, i)
			continue
		}
		states, err := y.States()
		if err != nil {
			return nil, err
		}
		if rule, known := states.Of(state); known {
			all = append(all, stateCertificate(rule, i))
		}
	}
	return all, nil
}

func stateCertificate(rule tables.StateRule, job int) StateCertificate {
	c := StateCertificate{State: rule.Code, Wants: rule.Wants, Form: rule.Form, Jobs: []int{job}, Basis: rule.Basis}
	var homes []words.Text
	if r := rule.ResidentsOf; r != nil {
		c.ResidentsOf = r.States
		for _, state := range r.States {
			homes = append(homes, state.Name())
		}
	}
	own := "no"
	if rule.Form != "" {
		own = "yes"
	}
	c.Text = words.T("certificate.state."+string(rule.Wants), "state", rule.Code.Name(), "form", rule.Form, "own", own, "n", len(homes), "homes", homes)
	return c
}

// stateOf is the state in which a job is done. A pension is no work in a state.
func stateOf(h household.Household, job int) household.State {
	j := h.Jobs[job]
	if j.State != household.StateUnknown || j.Kind == household.Pension {
		return j.State
	}
	for _, i := range h.CountedJobs() {
		if other := h.Jobs[i]; other.Earner == j.Earner && other.State != household.StateUnknown {
			return other.State
		}
	}
	return household.StateUnknown
}
