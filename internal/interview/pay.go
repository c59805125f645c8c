package interview

import (
	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/words"
)

// askPayGrew asks why pay since the last sitting's stub is not what was expected.
func (w *walk) askPayGrew(g group) {
	average, before, differs := w.payGrew(g)
	if !differs {
		return
	}
	w.say(w.notice("pay_grew", "job", g.name, "average", average, "before", before))
	switch w.guide(g, "pay_grew") {
	case "varies":
		w.derive(g, "pay_varies", "true")
		w.say(w.notice("pay_varies", "job", g.name, "average", average))
	case "raise":
		since := ""
		if on := w.changedOn("raise"); !on.IsZero() {
			since = on.String()
		}
		w.guide(g, "raise_day", suggesting(since))
	}
}

// payNow is the pay of a paycheck by the last sitting's stub and a newer one:
// since the day of a raise, if that is known, else on average; empty where the
// person has not said that pay has changed.
func (w *walk) payNow(g group) string {
	average, before, differs := w.payGrew(g)
	if !differs || !w.get(guideID(g, "pay_grew")).is("raise", "varies") {
		return ""
	}
	j, _ := w.job(g)
	last, _ := w.newerThan(g)
	since, now := w.get(guideID(g, "raise_day")).day(), j.YearPaydays(w.y.Year)
	old, raised := 0, 0
	for _, payday := range now.All[j.PaydaysThrough(w.y.Year, last.StubPayday()).Covered:now.Covered] {
		if payday.Before(since) {
			old++
		} else {
			raised++
		}
	}
	if raised == 0 {
		return average.Text()
	}
	pay := j.YearToDate.TaxablePay.Sub(last.YearToDate.TaxablePay).Sub(before.Times(old)).DividedBy(raised).ToCent()
	if !pay.IsPositive() {
		return average.Text()
	}
	return pay.Text()
}

// askOrdinaryPay asks for the federal taxable wages of an ordinary paycheck,
// in the way in which the person knows them.
func (w *walk) askOrdinaryPay(g group, hasStub bool) {
	if g.pension {
		w.askOf(g, "taxable_pay")
		return
	}
	known := w.guide(g, "pay_known", offering(waysToKnowPay(hasStub)))
	periods := w.y.Payroll.Periods.Of(w.frequency(g))
	switch known {
	case "taxable":
		w.questionPay(g, g.label+".taxable_pay", w.askOf(g, "taxable_pay", suggesting(w.payNow(g))), periods)
	case "year_to_date":
		w.derivePayFromStub(g)
	case "paycheck":
		w.questionPay(g, g.label+".gross_pay", w.askOf(g, "gross_pay"), periods)
		w.askPretax(g)
	case "salary":
		if year := w.guide(g, "salary"); year.given() {
			w.derive(g, "gross_pay", year.amount().DividedBy(periods).ToCent().Text())
			w.questionPay(g, guideID(g, "salary"), year, 1)
		}
		w.askPretax(g)
	case "hourly":
		var rate, hours answer
		w.together("hourly "+g.label, func() {
			rate, hours = w.guide(g, "hourly"), w.guide(g, "hours", between(1, hoursInAWeek))
		})
		w.questionHour(g, rate)
		if rate.given() && hours.given() {
			weeks := w.y.Payroll.Periods.Of(household.Weekly)
			worked := hours.amount()
			if hours.is(Unknown) {
				worked = money.Dollars(household.FullWeek)
			}
			week := rate.amount().At(worked.Over(money.Dollars(1)))
			w.derive(g, "gross_pay", week.Times(weeks).DividedBy(periods).ToCent().Text())
		}
		w.askPretax(g)
	}
}

// What pay is questioned: dollars for a year and for an hour that are more often
// a slip (a digit left out, the pay of an hour or thousands where a paycheck or a
// salary is meant) than somebody's pay. Common practice, no rule; what is
// questioned still counts.
var (
	littleForYear = money.Dollars(1_000)
	muchForYear   = money.Dollars(1_500_000)
	littleForHour = money.Dollars(2)
	muchForHour   = money.Dollars(300)
)

// questionPay says what pay comes to in a year where that is hard to believe; id
// is that of its question, and times how often it comes.
func (w *walk) questionPay(g group, id string, pay answer, times int) {
	year := pay.amount().Times(times)
	if pay.given() && year.IsPositive() && (year.Less(littleForYear) || year.More(muchForYear)) {
		w.doubt(id, w.notice("pay_hard_to_believe", "job", g.name, "pay", pay.amount(), "year", year))
	}
}

// questionHour says so where the pay of an hour is hard to believe.
func (w *walk) questionHour(g group, rate answer) {
	if a := rate.amount(); rate.given() && a.IsPositive() && (a.Less(littleForHour) || a.More(muchForHour)) {
		w.doubt(guideID(g, "hourly"), w.notice("hour_hard_to_believe", "job", g.name, "rate", a))
	}
}

const hoursInAWeek = 7 * 24

func waysToKnowPay(hasStub bool) []string {
	if hasStub {
		return []string{"paycheck", "taxable", "year_to_date"}
	}
	return []string{"paycheck", "salary", "hourly", "taxable"}
}

// askPretax asks for what comes off before tax, by kind first.
func (w *walk) askPretax(g group) {
	kinds := w.guide(g, "pretax")
	w.together("pretax "+g.label, func() {
		for _, kind := range []string{"retirement", "health", "fsa", "hsa", "dependent_care", "other"} {
			if kinds.has(kind) {
				w.askOf(g, "pretax."+kind)
			}
		}
	})
}

// sameShare is what goes into a retirement plan where it is the same part of gross
// pay as in the last sitting, and whether that pay has changed. Such a plan is most
// often told a part of pay, so that it moves with a raise.
func (w *walk) sameShare(g group) (money.Amount, bool) {
	earlier, _ := w.jobBefore(g)
	j, ok := w.job(g)
	was, saved := earlier.GrossPay, earlier.Pretax.Retirement
	if !ok || !was.IsPositive() || !saved.IsPositive() || !j.GrossPay.IsPositive() || j.GrossPay.Equal(was) {
		return money.Zero, false
	}
	return saved.At(j.GrossPay.Over(was)).ToCent(), true
}

// derivePayFromStub spreads the stub's year-to-date pay over its paydays.
func (w *walk) derivePayFromStub(g group) {
	j, _ := w.job(g)
	w.derive(g, "pay_varies", "true")
	if n := j.YearPaydays(w.y.Year).Covered; n > 0 {
		w.derive(g, "taxable_pay", j.YearToDate.TaxablePay.DividedBy(n).ToCent().Text())
	}
}

// questionStub questions year-to-date pay that is far from what the paydays so far
// have brought, or is that of more paychecks than there were paydays. The answer that puts it right is
// asked for again: how often the job pays, whether it began in the year, the day of
// the stub, or the pay itself.
func (w *walk) questionStub(g group) {
	j, ok := w.job(g)
	so := j.PaySoFar(w.y.Year)
	if !ok || !so.Ordinary.IsPositive() || so.Paydays == 0 || !so.Unlikely() && (!so.Miscounted() || j.PayVaries) {
		return
	}
	shown := []any{"job", g.name, "shown", so.Paid, "paydays", so.Paydays, "expected", so.Expected, "pay", so.Ordinary, "through", j.StubPayday()}
	shown = append(shown, "times", so.Nearest(so.Ordinary))
	switch other, others := w.otherFrequency(j); {
	case so.OfOnePaycheck():
		w.doubt(g.label+".year_to_date.taxable_pay", w.noticeOf(g, "stub_pay_of_one", shown...))
	case other != household.FrequencyUnknown:
		w.doubt(g.label+".pay_frequency", w.noticeOf(g, "stub_frequency", append(shown, "others", others,
			"chosen", frequencyText(j.Frequency), "other", frequencyText(other))...))
	case so.Paid.Less(so.Expected) && so.Unlikely() && !w.get(guideID(g, "special")).has("began"):
		w.doubt(guideID(g, "special"), w.noticeOf(g, "stub_began", shown...))
	case so.Unlikely():
		w.doubt(g.label+".year_to_date.taxable_pay", w.noticeOf(g, "stub_does_not_fit", shown...))
	case so.OfMore():
		w.doubt(g.label+".year_to_date.payday", w.noticeOf(g, "stub_count", shown...))
	}
}

// otherFrequency is another pay frequency by which there were about as many paydays as
// the stub has paychecks, and their number; where it has at least twice as many as
// paydays by the one given. Fewer are rather those of a job that began in the year.
func (w *walk) otherFrequency(j household.Job) (other household.Frequency, paydays int) {
	so := j.PaySoFar(w.y.Year)
	times := so.Nearest(so.Ordinary)
	if !so.Miscounted() || times < 2*so.Paydays {
		return household.FrequencyUnknown, 0
	}
	off := times
	for _, f := range household.Frequencies() {
		j.Frequency, j.PaydaysOfMonth = f, nil
		for _, j.Moved = range []household.MovedPaydays{household.MovedBefore, household.MovedAfter} {
			n := j.YearPaydays(w.y.Year).Covered
			if apart := max(n-times, times-n); apart <= 1 && apart < off {
				other, paydays, off = f, n, apart
			}
		}
	}
	return other, paydays
}

// frequencyText is a pay frequency as the interview offers it.
func frequencyText(f household.Frequency) words.Text {
	return words.T("question.jobs[].pay_frequency.option." + f.String())
}

// Of pay at a multiple of the regular rate only the half that the Fair Labor
// Standards Act adds is qualified: a third of time-and-a-half pay, a quarter of
// double-time pay. IRC 225(c)(1); Instructions for Form 1040 (2025), p. 107.
var premiumParts = map[answer]int{"time_and_a_half": 3, "double_time": 4}

// askTips asks for the year's tips. Where the job has a stub, those that it shows
// are asked for first, and the year's are suggested from them, the same on each
// payday. An earlier answer goes before that, unless it is to be given again.
func (w *walk) askTips(g group) {
	j, _ := w.job(g)
	var options []with
	if j.YearToDate != nil {
		tips, days := w.guide(g, "tips_so_far"), j.YearPaydays(w.y.Year)
		if !tips.given() {
			return
		}
		if !tips.is(Unknown) && days.Covered > 0 {
			if a := tips.amount(); a.More(j.YearToDate.TaxablePay) {
				w.doubt(g.label+".year_to_date.taxable_pay", w.noticeOf(g, "stub_without_tips", "job", g.name, "tips", a, "shown", j.YearToDate.TaxablePay))
			}
			all := tips.amount().Times(len(days.All)).DividedBy(days.Covered).ToDollar()
			options = append(options, func(s *step) { s.suggest, s.follows = all.Text(), s.again })
		}
	}
	w.askOf(g, "qualified_tips", options...)
}

// taxRate is about what part of a deduction is tax saved: the rate on the last
// dollar of the pay that is known so far, less the standard deduction.
func (w *walk) taxRate() money.Rate {
	h, pay := w.household(), money.Zero
	for _, i := range h.CountedJobs() {
		j := h.Jobs[i]
		days := j.YearPaydays(w.y.Year)
		pay = pay.Add(j.OrdinaryPay().Times(len(days.ToCome())))
		if j.YearToDate != nil {
			pay = pay.Add(j.YearToDate.TaxablePay)
		}
	}
	taxable := pay.Sub(w.y.StandardDeduction.Basic.Of(h.Status)).OrZero()
	return w.y.Schedules.Rates.Of(h.Status).RateAt(taxable)
}

// askTipsAndOvertime asks for the year's tips, and for its overtime in the way
// in which a stub shows it.
func (w *walk) askTipsAndOvertime(g group) {
	less := w.get("interview.reductions")
	if less.has("tips") {
		w.askTips(g)
	}
	if !less.has("overtime") {
		return
	}
	rate := w.guide(g, "overtime_rate")
	if rate.is("premium") {
		w.askOf(g, "qualified_overtime")
		return
	}
	part, known := premiumParts[rate]
	if !known {
		return
	}
	if pay := w.guide(g, "overtime_pay"); pay.given() && !pay.is(Unknown) {
		premium := pay.amount().DividedBy(part).ToCent()
		w.derive(g, "qualified_overtime", premium.Text())
		if premium.IsPositive() {
			w.say(w.notice("overtime_premium", "premium", premium))
		}
	}
}
