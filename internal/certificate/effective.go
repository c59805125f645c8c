package certificate

import (
	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/tables"
	"example.com/plumbline/internal/tax"
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

// brief reports whether a new certificate of a payer would serve too few paydays:
// one alone; or, where no penalty follows on the certificates on file, those of
// the last days of the year. One that is right in January goes on serving, and one
// that must replace what is on file is handed in anyway. Where the person says how
// near is near enough, each payday counts.
func (pr *projection) brief(i int, j *januaryYear, lasts bool) bool {
	s := pr.payers[i]
	onFile := s.job.Certificate
	switch {
	case pr.fullYear || pr.h.Wish.Within != nil || j != nil && lasts:
		return false
	case !pr.mayStay(s.openJob, onFile) && !pr.claimsTooMuch(onFile) || pr.h.Wish.TellEmployer == household.ExtraOnly && !tellsNothing(*onFile):
		return false
	case s.paydays <= fewPaydays:
		return true
	}
	return j != nil && household.EndOfYear(pr.y.Year).AddDays(-briefDays).Before(s.from) && pr.safeAsFiled()
}

// safeAsFiled reports whether no penalty follows on the certificates on file.
func (pr *projection) safeAsFiled() bool {
	if pr.safe == nil {
		safe := tax.SafeHarbor(pr.ret, pr.h, pr.paid(pr.outlook(pr.asFiledToCome())), pr.y).Safe
		pr.safe = &safe
	}
	return *pr.safe
}

// late reports whether payroll need not go by a new certificate of a payer before
// the year ends: it may by law leave it aside on every payday of the year on which
// it would count.
func (pr *projection) late(i int) bool {
	s := pr.payers[i]
	return s.paydays > 0 && s.year.OrdinaryFrom(s.byLaw) == 0
}
