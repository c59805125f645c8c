package certificate

import (
	"slices"

	"example.com/plumbline/internal/words"
)

// Choose puts the plan of a name in the place of the recommended one, which
// becomes an alternative: the certificates to hand over, what is left to pay
// directly and the warnings are then those of the plan chosen, and January's
// certificates follow on them. It fails, naming the plans that there are, when
// none has the name; nothing is changed then.
func (r *Result) Choose(name string) error {
	if r.Recommended.Name == name {
		return nil
	}
	i := slices.IndexFunc(r.Alternatives, func(p Plan) bool { return p.Name == name })
	if i < 0 {
		known := []string{r.Recommended.Name}
		for _, p := range r.Alternatives {
			known = append(known, p.Name)
		}
		return words.Fail("certificate.no_such_plan", "name", name, "known", known)
	}
	chosen := r.Alternatives[i]
	r.Alternatives = slices.Clone(r.Alternatives) // a copy of the result keeps its own
	r.Recommended, r.Alternatives[i] = chosen, r.Recommended
	pr := newProjection(r.Household, r.Tables, nil)
	pr.found = r.found
	f := pr.fillForm(nil)
	r.ground = becauseNear
	pr.conclude(r, f, pr.openJanuary(r.next))
	return nil
}
