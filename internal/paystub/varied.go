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
// Where the person has said so, ordinary pay is most often the average, and any
// total but an unlikely one can be right.
func variesUsually(so household.PaySoFar, said bool) bool {
	switch {
	case so.Paydays < 2 || !so.Ordinary.IsPositive() || so.Unlikely():
		return false
	case said:
		return true
	}
	return !so.Even() && !so.Miscounted()
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
	so := r.so
	if so.Even() {
		return words.T("stub.varies_on_average", "paydays", so.Paydays, "pay", r.pay, "shown", so.Paid)
	}
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
// from that on even pay to that on pay that goes up and down, or where pay that
// changed once makes just it. It is called wrong only where no way of paying the
// year's pay makes it. A cause is only named where it makes the stub's figure.
func (r *stubReader) onVariedPay(s *Stub, as supposition) {
	c := &s.FederalTax
	least := r.least(as)
	c.Expected, c.Most = least, money.Max(r.most(as), r.partOfOne(as))
	c.Right = r.between(least, c.Most)
	if c.Right && r.inShort {
		return
	}
	if e, ok := r.changedOnce(as); ok {
		s.Explanations, c.Right = []Explanation{e}, true
		c.Expected, c.Most = e.Figure, e.Figure
	}
	if c.Right {
		return
	}
	if len(as.earlier) > 0 { // which pay went by which form is not known
		s.Unread = words.T("stub.unread.varies_and_changed")
		return
	}
	s.Explanations = slices.DeleteFunc(r.explain(as), func(e Explanation) bool { return !e.Exact })
	s.Ask = r.toAsk(s.Explanations)
	if all := r.mostOfAll(as); r.between(least, all) {
		c.FarApart, c.Most = true, all
		if len(s.Explanations) == 0 {
			s.Ask = []words.Text{words.T("stub.ask.if_not_apart", "question", words.T("stub.ask.open", "basis", string(YearToDate)))}
		}
		return
	}
	r.aboutRight(s)
}

// likely reports the stub's tax between the least and the likely most of pay that
// varied.
func (r *stubReader) likely(as supposition) bool { return r.between(r.least(as), r.most(as)) }

// between reports the stub's tax between two figures, up to the rounding of each
// paycheck.
func (r *stubReader) between(least, most money.Amount) bool {
	slack := cents.Times(r.n)
	return !least.Sub(slack).More(r.actual) && !r.actual.More(most.Add(slack))
}

// least is the least that pay which varied can bring: that on even pay or, where
// the flat rate for one-time pay is below the rate of the paychecks, that on
// ordinary pay with the rest as one-time pay (Publication 15, section 7).
func (r *stubReader) least(as supposition) money.Amount {
	even := r.withheld(as)
	if flat, ok := r.withFlatRest(as); ok && flat.Less(even) {
		return flat
	}
	return even
}

// withFlatRest is the tax where each payday brought ordinary pay, and the rest was
// one-time pay at the flat rate; false where there is no rest.
func (r *stubReader) withFlatRest(as supposition) (money.Amount, bool) {
	so := r.so
	if r.paycheck != nil || !so.Paid.More(so.Expected) || r.job.Kind != household.Wages {
		return money.Zero, false
	}
	as.pay = so.Ordinary
	return r.withheld(as).Add(so.Paid.Sub(so.Expected).At(r.y.Payroll.Supplemental.Rate).ToCent()), true
}

// partOfOne is the tax where one paycheck was for a part of its period, such as
// the first of a job, so small that nothing was taken from it, and the others
// brought the year's pay. Where the form changed in the year it is that on even pay.
func (r *stubReader) partOfOne(as supposition) money.Amount {
	if len(as.earlier) > 0 {
		return r.withheld(as)
	}
	others := as
	others.pay = r.so.Paid.DividedBy(r.n - 1).ToCent()
	return r.ofPaycheck(others, as.certificate).Times(r.n - 1)
}

// mostOfAll is the most that the year's pay can bring, however it was paid. The tax
// on a paycheck rises faster the more is paid, so it is that on one paycheck with
// all of it, or all of it at the flat rate for one-time pay.
func (r *stubReader) mostOfAll(as supposition) money.Amount {
	paid := r.so.Paid
	one, none := as, as
	one.pay, none.pay = paid, money.Zero
	most := r.ofPaycheck(one, as.certificate).Add(r.ofPaycheck(none, as.certificate).Times(r.n - 1))
	if r.job.Kind == household.Wages {
		most = money.Max(most, paid.At(r.y.Payroll.Supplemental.Rate).ToCent())
	}
	return money.Max(most, r.withheld(as))
}

// most is the most that paychecks which vary are likely to bring: half of them a
// spread above the average and half below, or ordinary pay on each payday and the
// rest at the flat rate for one-time pay (Publication 15, section 7).
func (r *stubReader) most(as supposition) money.Amount {
	if r.mostTax == nil {
		most := r.mostOn(as)
		r.mostTax = &most
	}
	return *r.mostTax
}

func (r *stubReader) mostOn(as supposition) money.Amount {
	low, high := as, as
	low.pay, high.pay = as.pay.Sub(as.pay.DividedBy(spread)), as.pay.Add(as.pay.DividedBy(spread))
	most := r.withheld(low).Add(r.withheld(high)).DividedBy(2).ToCent()
	if flat, ok := r.withFlatRest(as); ok {
		most = money.Max(most, flat)
	}
	return money.Max(most, r.withheld(as))
}

// changedOnce is pay that changed once in the year, to the ordinary pay of now,
// where that makes just the stub's tax.
func (r *stubReader) changedOnce(as supposition) (Explanation, bool) {
	if len(as.earlier) > 0 {
		return Explanation{}, false
	}
	so, days := r.so, r.days
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
	exact := slices.ContainsFunc(s.Explanations, func(e Explanation) bool { return e.Exact })
	if r.paycheck != nil || exact || !r.likely(as) {
		return
	}
	s.FederalTax.Most, s.Explanations = r.most(as), nil
	s.Ask = []words.Text{words.T("stub.ask.if_even", "question", words.T("stub.ask.open", "basis", string(YearToDate)))}
}

// Exact reports a figure that is just the expected one.
func (c Check) Exact() bool { return c.Actual.Equal(c.Expected) }

// MayBeRight reports a figure that is right if pay varied.
func (c Check) MayBeRight() bool {
	return !c.Right && c.Expected.Less(c.Actual) && !c.Actual.More(c.Most)
}
