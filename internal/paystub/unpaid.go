package paystub

import (
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/words"
)

// The calendar counts a paycheck on each payday. Unpaid leave, a strike or a
// season without work leaves some out: pay and tax for the year are then those of
// fewer ordinary paychecks. Pay alone would not tell that from lower pay, but the
// tax does: even pay that is lower brings less of it.

// onPaidPaychecks judges a year so far whose pay and tax both are those of a
// smaller whole number of ordinary paychecks than the calendar has paydays, and
// one whose pay is that of paychecks before pre-tax deductions. It reports whether
// it is one of the two.
func (r *stubReader) onPaidPaychecks(s *Stub) bool {
	so := r.so
	if !so.Ordinary.IsPositive() || so.Even() {
		return false
	}
	as, known := r.asBelieved()
	if !known || len(as.earlier) > 0 {
		return false
	}
	as.pay = so.Ordinary
	one := r.ofPaycheck(as, as.certificate)
	fits := func(pay money.Amount) (paychecks int, yes bool) {
		n := so.Nearest(pay)
		return n, n > 1 && n <= so.Paydays && one.IsPositive() && ofPaychecks(so.Paid, pay, n) && ofPaychecks(r.actual, one, n)
	}
	gross := so.Ordinary.Add(r.job.Pretax.Total())
	if n, yes := fits(so.Ordinary); yes && n < so.Paydays {
		s.Paid = n
		s.FederalTax.Expected, s.FederalTax.Most, s.FederalTax.Right = one.Times(n), one.Times(n), true
		s.Explanations = []Explanation{{
			Code: "fewer_paychecks", Figure: one.Times(n), Off: one.Times(n).Sub(r.actual).Abs(), Exact: r.actual.Equal(one.Times(n)), Allowed: true,
			What: words.T("stub.what.fewer_paychecks", "paychecks", n, "paydays", so.Paydays, "pay", so.Ordinary),
		}}
		return true
	}
	if n, yes := fits(gross); yes && gross.More(so.Ordinary) {
		s.PayIsGross, s.Paid = true, n
		s.FederalTax.Expected, s.FederalTax.Most = one.Times(n), one.Times(n)
		s.Questions = []words.Text{words.T("stub.question.pay_is_gross", "shown", so.Paid, "paychecks", n, "gross", gross, "expected", so.Ordinary.Times(n))}
		s.Unread = words.T("stub.unread.does_not_fit")
		return true
	}
	return false
}

// ofPaychecks reports a year's figure that is about so many times that of one
// paycheck: within a dollar for each, and nearer than a twentieth of one.
func ofPaychecks(figure, one money.Amount, n int) bool {
	const twentieths = 20
	return !figure.Sub(one.Times(n)).Abs().More(money.Min(nearEnough.Times(n), one.DividedBy(twentieths)))
}
