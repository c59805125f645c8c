package certificate

import (
	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/tables"
)

// effectiveBy is the payday by which payroll must go by a certificate handed in
// on a day: for a first certificate the next payday, for one that replaces
// another the first whose payroll period ends on or after the 30th day; never
// before the payday on which the plan first counts it. A payroll period is taken
// to end on its payday. The zero date when no payday of the year is that late.
//
// IRC 3402(f)(3)(A), (B)(i).
func effectiveBy(handedIn household.Date, s seat, y *tables.Year) household.Date {
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
	return household.Date{}
}
