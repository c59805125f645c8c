package certificate

import (
	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
)

// Step is one thing to do, in order.
type Step struct {
	Code   string         // "hand_in", "check_stub", "pay", "january", "again"
	Job    int            // index into Household.Jobs; -1 for none
	On     household.Date // the day that it is about; zero for none
	Law    household.Date // hand_in: the day by which payroll must go by it, where that is later
	Amount money.Amount   // to pay, or on the stub
}

// steps are what to do with a result, in order.
func steps(r Result) []Step {
	var all []Step
	for _, c := range r.Recommended.Certificates {
		if c.Keep {
			continue
		}
		s := Step{Code: "hand_in", Job: c.Job, On: c.FirstPayday}
		if c.EffectiveBy.After(c.FirstPayday) {
			s.Law = c.EffectiveBy
		}
		all = append(all, s, Step{Code: "check_stub", Job: c.Job, On: c.FirstPayday, Amount: c.Withholding})
	}
	for _, p := range r.Verdict.PayDirectly.Parts {
		all = append(all, Step{Code: "pay", Job: -1, On: p.Due, Amount: p.Amount})
	}
	if r.January != nil {
		for _, c := range r.January.Certificates {
			if !c.Keep {
				all = append(all, Step{Code: "january", Job: c.Job, On: c.FirstPayday, Law: r.January.HandIn})
			}
		}
	}
	return append(all, Step{Code: "again", Job: -1})
}
