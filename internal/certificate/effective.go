package certificate

import (
	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/tables"
)

// effectiveBy is the payday by which payroll must go by a certificate handed in
// on a day: for a first certificate the next payday, for one that replaces
// another the first whose payroll period ends on or after the 30th day; never
// before the payday on which the plan first counts it. A payroll period is taken
// to end on its payday. Where no payday of the year is that late, next year's
// paydays go on from them; where the job has none, it is the 30th day itself.
//
// IRC 3402(f)(3)(A), (B)(i).
func effectiveBy(handedIn household.Date, s payer, y *tables.Year) household.Date {
	earliest := handedIn
	if s.job.Certificate != nil {
		earliest = handedIn.AddDays(y.Payroll.Effective.ReplacementDays)
	}
	if earliest.Before(s.from) {
		earliest = s.from
	}
	for _, p := range s.year.Paydays() {
		if p.Ordinary && !p.Date.Before(earliest) {
			return p.Date
		}
	}
	for _, d := range paydaysNext(s.job, y.Year) {
		if !d.Before(earliest) {
			return d
		}
	}
	return earliest
}

// late reports whether payroll need not go by a new certificate of a payer before
// the year ends: it may by law leave it aside on every payday of the year on which
// it would count.
func (pr *projection) late(i int) bool {
	s := pr.payers[i]
	return s.paydays > 0 && s.year.OrdinaryFrom(s.byLaw) == 0
}
