package paystub

import (
	"slices"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/words"
)

// The totals of a year do not tell the tax on pay that varies: each paycheck is
// figured by itself. But the tax on a paycheck rises faster the more is paid
// (its rates only rise), so that even pay brings the least, and pay the further
// apart the more.

// variesUsually reports pay for the year so far that is not ordinary pay on each
// payday and yet can be right: after a raise, with overtime or changing hours.
func variesUsually(so household.PaySoFar) bool {
	return so.Paydays > 1 && so.Ordinary.IsPositive() && !so.Even() && !so.Unlikely() && !so.Miscounted()
}

// spread is how far paychecks that vary are taken to be from their average, as a
// part of it: a fourth, half of them above and half below. Common practice, no
// rule.
const spread = 4

// aboutPay says that pay varied; empty where it did not.
func (r *stubReader) aboutPay() words.Text {
	if !r.varies {
		return words.Text{}
	}
	so := r.job.PaySoFar(r.h.TaxYear)
	return words.T("stub.varies", "paydays", so.Paydays, "pay", so.Ordinary, "expected", so.Expected, "shown", so.Paid)
}

// ofOne reports tax for the year that is about that of one ordinary paycheck and
// far from that of all: the paycheck's own figure, read in place of the year's
// total.
func (r *stubReader) ofOne(as supposition) (all money.Amount, yes bool) {
	const some, far, twentieths = 3, 2, 20
	if r.paycheck != nil || r.n < some || !r.actual.IsPositive() {
		return money.Zero, false
	}
	as.pay = r.job.OrdinaryPay()
	one, all := r.ofPaycheck(as, as.certificate), r.withheld(as)
	near := !one.Sub(r.actual).Abs().More(money.Max(nearEnough, one.DividedBy(twentieths)))
	return all, near && r.actual.Times(far).Less(all)
}

// onVariedPay judges the tax for the year on pay that varied: right where it lies
// from that on even pay to that on pay that is far apart, or where pay that
// changed once makes just it. Where it is neither, only a cause that makes the
// stub's figure is named.
func (r *stubReader) onVariedPay(s *Stub, as supposition) {
	c := &s.FederalTax
	c.Most = r.most(as)
	if e, ok := r.changedOnce(as); ok {
		s.Explanations, c.Right = []Explanation{e}, true
		c.Expected, c.Most = e.Figure, e.Figure
		return
	}
	if c.Right = r.within(as, c.Most); c.Right {
		return
	}
	if len(as.earlier) > 0 { // which pay went by which form is not known
		s.Unread = words.T("stub.unread.varies_and_changed")
		return
	}
	s.Explanations = slices.DeleteFunc(r.explain(as), func(e Explanation) bool { return !e.Exact })
	s.Ask = r.toAsk(s.Explanations)
}

// within reports the stub's tax between that on even pay and a figure.
func (r *stubReader) within(as supposition, most money.Amount) bool {
	slack := cents.Times(r.n)
	return !r.withheld(as).Sub(slack).More(r.actual) && !r.actual.More(most.Add(slack))
}

// most is the most that paychecks which vary are likely to bring: half of them a
// spread above the average and half below, or ordinary pay on each payday and the
// rest at the flat rate for one-time pay (Publication 15, section 7).
func (r *stubReader) most(as supposition) money.Amount {
	low, high := as, as
	low.pay, high.pay = as.pay.Sub(as.pay.DividedBy(spread)), as.pay.Add(as.pay.DividedBy(spread))
	most := r.withheld(low).Add(r.withheld(high)).DividedBy(2).ToCent()
	if so := r.job.PaySoFar(r.h.TaxYear); so.Paid.More(so.Expected) {
		ordinary := as
		ordinary.pay = so.Ordinary
		most = money.Max(most, r.withheld(ordinary).Add(so.Paid.Sub(so.Expected).At(r.y.Payroll.Supplemental.Rate).ToCent()))
	}
	return money.Max(most, r.withheld(as))
}

// changedOnce is pay that changed once in the year, to the ordinary pay of now,
// where that makes just the stub's tax.
func (r *stubReader) changedOnce(as supposition) (Explanation, bool) {
	if len(as.earlier) > 0 {
		return Explanation{}, false
	}
	so, days := r.job.PaySoFar(r.h.TaxYear), r.paydays()
	for before := 1; before < so.Paydays; before++ {
		now := so.Paydays - before
		was := so.Paid.Sub(so.Ordinary.Times(now)).DividedBy(before).ToCent()
		if was.Times(2).Less(so.Ordinary) || was.More(so.Ordinary.Times(2)) {
			continue
		}
		then, since := as, as
		then.pay, since.pay = was, so.Ordinary
		figure := r.ofPaycheck(then, as.certificate).Times(before).Add(r.ofPaycheck(since, as.certificate).Times(now))
		if figure.Sub(r.actual).Abs().More(cents) {
			continue
		}
		return Explanation{
			Code: "pay_changed", Figure: figure, Off: figure.Sub(r.actual).Abs(), Exact: true, Allowed: true,
			What: words.T("stub.what.pay_changed", "from", days[before], "pay", so.Ordinary, "paychecks", before, "was", was),
		}, true
	}
	return Explanation{}, false
}

// mayVary judges tax that no usual cause makes and that pay which was not the
// same on each payday can bring, although ordinary pay on each makes the year's
// pay, as an average does.
func (r *stubReader) mayVary(s *Stub, as supposition) {
	most := r.most(as)
	exact := slices.ContainsFunc(s.Explanations, func(e Explanation) bool { return e.Exact })
	if r.paycheck != nil || exact || !r.within(as, most) {
		return
	}
	s.FederalTax.Most, s.Explanations = most, nil
	s.Ask = []words.Text{words.T("stub.ask.if_even", "question", words.T("stub.ask.open", "basis", string(YearToDate)))}
}

// MayBeRight reports a figure that is right if pay varied.
func (c Check) MayBeRight() bool {
	return !c.Right && c.Expected.Less(c.Actual) && !c.Actual.More(c.Most)
}
