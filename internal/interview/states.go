package interview

import (
	"slices"
	"strings"
)

// askFirstState asks in which state the work of the first of one person's jobs is
// done, on the page that counts the jobs: a new hire's blank form needs no other.
func (w *walk) askFirstState(jobs []group) {
	if len(jobs) > 0 {
		w.askOf(jobs[0], "state")
	}
}

// askState asks in which state the work of a job is done. That of the same
// person's first job is suggested for the others.
func (w *walk) askState(g group) {
	if g.pension {
		return // no work is done for it
	}
	jobs := w.own
	if strings.HasPrefix(g.label, "spouse_") {
		jobs = w.spouses
	}
	first, _ := w.doc.Get(jobs[0].prefix + ".state")
	w.askOf(g, "state", suggesting(first))
}

// lacksOnlyStates reports answers from before the state was asked for, complete but
// for that.
func (s *Session) lacksOnlyStates() bool {
	return !slices.ContainsFunc(s.walk.steps, func(at step) bool { return at.missing() && at.wording.Kind != Named })
}

// passOverStates leaves the states unknown that the answers do not name.
func (s *Session) passOverStates() {
	changed := false
	for i := range s.walk.steps {
		if at := &s.walk.steps[i]; at.missing() && at.wording.Kind == Named {
			s.setNotKnown(at.id, true)
			changed = true
		}
	}
	if changed {
		s.settleOnce()
	}
}
