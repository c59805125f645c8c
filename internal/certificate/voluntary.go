package certificate

import (
	"time"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/tax"
)

// VoluntaryWithholding is the percent of social security benefits to have
// withheld (Form W-4V) so that it covers what the benefits make the person owe.
// The zero value is none.
type VoluntaryWithholding struct {
	Percent int
	Monthly money.Amount // what it takes from a month's benefits, dollars
	Yearly  money.Amount // the same of the year's, dollars
	Owed    money.Amount // what the benefits make the person owe for the year, dollars
}

// voluntary is the percent for January's year, where the certificates on file stay
// in it and leave too little: in the place of January's.
func (j *januaryYear) voluntary() VoluntaryWithholding {
	return j.pr.voluntary(j.pr.outlook(j.pr.asFiledToCome()).Balance, false, j.f)
}

// voluntary is the lowest percent of the form that covers what the benefits make
// the person owe: the tax that there would not be without them, no more than what
// is missing as filed. It is offered where it does for the year what an entry in
// Step 4 or a payment would have to do otherwise, where it takes not much more than
// that, where none has been chosen yet, and where the year has months left for it. The year's benefits and tax decide, as if the percent had been withheld from all of
// them: it is given once and goes on until it is taken back.
//
// IRC 3402(p)(1); Form W-4V, line 5.
func (pr *projection) voluntary(asFiled money.Amount, keeps bool, f formEntries) VoluntaryWithholding {
	benefits := pr.h.Benefits()
	short := pr.aim(f).Sub(asFiled)
	if !benefits.IsPositive() || pr.h.Payments.SocialSecurity != nil || !short.More(pr.band().short) {
		return VoluntaryWithholding{}
	}
	if !pr.fullYear && household.EndOfYear(pr.y.Year).AddDays(-voluntaryDays).Before(pr.h.AsOf) {
		return VoluntaryWithholding{}
	}
	months := int(time.December)
	if m := pr.h.Income.SocialSecurityMonthly; m != nil && pr.h.Income.SocialSecurity.IsZero() {
		first, last := m.Months()
		if last < int(time.December) {
			return VoluntaryWithholding{}
		}
		months = last - first + 1
	}
	without := pr.h
	without.Income.SocialSecurity, without.Income.SocialSecurityMonthly = money.Zero, nil
	ret := tax.Compute(without, pr.pay, pr.y, pr.method, nil)
	net := func(r tax.Return) money.Amount { return r.TotalTax.Sub(r.RefundableCredits) }
	owed := money.Min(net(pr.ret).Sub(net(ret)), short)
	// Where something else is missing too, the entry that covers it covers all of it.
	if !owed.IsPositive() || short.Sub(owed).More(pr.band().short) && !keeps {
		return VoluntaryWithholding{}
	}
	for _, percent := range pr.y.Voluntary.SocialSecurity {
		at := benefits.At(money.Percent(int64(percent)))
		if at.Less(owed) {
			continue
		}
		if at.Sub(owed).More(overMost) {
			break
		}
		return VoluntaryWithholding{percent, at.DividedBy(months).ToCent(), at.ToCent(), owed}
	}
	return VoluntaryWithholding{}
}
