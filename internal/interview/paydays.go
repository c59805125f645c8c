package interview

import (
	"slices"
	"strings"
	"time"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
)

// nextPayday suggests a first payday to one who starts a job today.
func (w *walk) nextPayday(isNew bool) string {
	if !isNew {
		return ""
	}
	return w.today.AddDays(14).BusinessDayBefore().String()
}

// questionPayday has a payday on a weekend asked for again: most often the end of
// the pay period was read in its place. One on a holiday is due then and paid
// before.
func (w *walk) questionPayday(g group, field string, payday answer) {
	d := payday.day()
	if day := d.Weekday(); !d.IsZero() && (day == time.Saturday || day == time.Sunday) {
		w.doubt(g.label+"."+field, w.noticeOf(g, "payday_on_weekend", "on", d, "weekday", day.String(), "pension", answerOfBool(g.pension)))
	}
}

// cameWithStub reports the job for whose stub the person came.
func (w *walk) cameWithStub(g group) bool {
	return w.wayIn().is(stub) && g.label == "job_1" && w.returned().IsZero()
}

// askForStub asks whether there is a stub of this year, and reports it.
func (w *walk) askForStub(g group, ended bool) bool {
	if ended || w.cameWithStub(g) || w.hadStub(g) {
		return true // the figures are all there is to know, or are there already
	}
	return w.guide(g, "stub").yes()
}

func (w *walk) hadStub(g group) bool { return slices.Contains(w.log().HadStub, g.label) }

// askStub asks for the last stub's running totals. Where an earlier sitting had
// a stub it asks for a newer one; without one the old figures still count, since
// every later payday is worked out.
func (w *walk) askStub(g group, ended bool) {
	var newer []with
	if w.hadStub(g) && !ended && w.guide(g, "newer_stub").yes() {
		newer = append(newer, afresh)
	}
	for _, field := range stubFields {
		if shown := w.askOf(g, field, newer...); field == stubFields[0] {
			w.questionPayday(g, field, shown)
		}
	}
	w.questionStubDay(g)
}

// questionStubDay questions the day of a newer stub that is no payday by the one
// before.
func (w *walk) questionStubDay(g group) {
	last, newer := w.newerThan(g)
	id := g.label + ".year_to_date.payday"
	day := w.get(id).day()
	if !newer || day.IsZero() || last.Frequency != w.frequency(g) || last.IsPaydayStub(w.y.Year, day) {
		return
	}
	var before, after household.Date
	for _, d := range last.Paydays(w.y.Year) {
		if d.Before(day) {
			before = d
		} else if after.IsZero() {
			after = d
		}
	}
	if before.IsZero() || after.IsZero() {
		return
	}
	w.doubt(id, w.noticeOf(g, "stub_day", "job", g.name, "day", day, "one", before, "other", after))
}

// tellForecast says how the newest stub compares with the last forecast.
func (w *walk) tellForecast(g group) {
	if met, ok := w.met(g); ok {
		w.say(w.notice("forecast_met", "job", g.name, "payday", met.Payday,
			"forecast", met.Forecast, "actual", met.Actual))
	}
}

// askFirstPayday asks for the year's first payday at a job, from which its
// paydays are counted. With a stub of a job that has paid since January they are
// counted from the stub's own payday.
func (w *walk) askFirstPayday(g group, hasStub, isNew, began bool) {
	if hasStub && !began {
		return
	}
	options := []with{suggesting(w.nextPayday(isNew))}
	if isNew || began {
		options = append(options, needing)
	}
	first := w.askOf(g, "first_payday", options...)
	w.questionPayday(g, "first_payday", first)
	if hasStub && first.given() {
		w.questionFirstPayday(g)
	}
}

// questionFirstPayday has a first payday asked for again that does not lead to the
// stub's: most often the first day of work was read in its place. Days of the month
// that do not tell two paydays are asked for by themselves.
func (w *walk) questionFirstPayday(g group) {
	j, ok := w.job(g)
	stub := j.StubPayday()
	if !ok || stub.IsZero() || w.stubOpen(g) || !offCalendar(j, w.y.Year) {
		return
	}
	if early, _, _ := j.HalfMonthDays(); j.Frequency == household.Semimonthly && early != 0 {
		return
	}
	near := j.FirstPayday
	for _, d := range j.Paydays(w.y.Year) {
		if near.IsZero() || distance(d, stub) < distance(near, stub) {
			near = d
		}
	}
	w.doubt(g.label+".first_payday", w.noticeOf(g, "off_calendar", "job", g.name, "first", j.FirstPayday, "near", near, "payday", stub))
}

// distance is the number of days between two dates.
func distance(a, b household.Date) int { return max(a.DaysUntil(b), b.DaysUntil(a)) }

// daysOfMonth are the guides to the two days of the month.
var daysOfMonth = []string{"early_day", "late_day"}

// askDaysOfMonth asks for the two days of the month on which a job pays twice a
// month, where the days given do not tell them: the 15th goes with the last day of
// the month, and days in both halves tell both.
func (w *walk) askDaysOfMonth(g group) {
	j, ok := w.job(g)
	if !ok || j.Frequency != household.Semimonthly {
		return
	}
	early, late, known := j.HalfMonthDays()
	_, answered := w.doc.Get(guideID(g, "late_day"))
	if early == 0 || !answered && (known || len(j.PaydaysOfMonth) > 0) {
		return
	}
	var first, second answer
	w.together("days "+g.label, func() {
		first = w.guide(g, "early_day", between(1, int(household.LastDay)), suggesting(household.DayOfMonth(early).String()))
		second = w.guide(g, "late_day", between(1, int(household.LastDay)), suggesting(household.DayOfMonth(late).String()))
	})
	if first.given() && second.given() {
		w.derive(g, "paydays_of_month[0]", string(first))
		w.derive(g, "paydays_of_month[1]", string(second))
	}
}

// askMoved asks a job that pays by the month when it pays where banks are closed
// on its day, if that decides how many paydays are still to come: pay due early
// in January may come in December. The year's pay on the stub tells it where the
// two ways lead to different numbers of paydays so far. A job that will end in the
// year is not asked, nor one whose first payday cannot be of the day that its stub's is.
func (w *walk) askMoved(g group) {
	j, ok := w.job(g)
	day := earlierDay(j)
	if !ok || day == 0 || !j.OrdinaryPay().IsPositive() || w.get(guideID(g, "special")).has("ends") ||
		w.beyond[g.label+".moved_paydays"] || w.beyond[g.label+".paydays_of_month[0]"] {
		return
	}
	if _, asked := w.place[g.label+".last_payday"]; !asked {
		j.LastPayday = household.Date{} // what is asked later does not decide what is asked now
	}
	j.Moved, j.PaydaysOfMonth = household.MovedBefore, nil
	before := j.YearPaydays(w.y.Year)
	j.Moved, j.PaydaysOfMonth = household.MovedAfter, []household.DayOfMonth{day}
	after := j.YearPaydays(w.y.Year)
	if len(before.ToCome()) == len(after.ToCome()) {
		return
	}
	if j.FirstPayday.Year == w.y.Year && !j.MayPayOn(w.y.Year, j.FirstPayday) {
		return // its two dates are of no one day of the month
	}
	fitsBefore, fitsAfter := paysFor(j, before.Covered), paysFor(j, after.Covered)
	usual := household.MovedBefore
	if len(before.All) > w.y.Payroll.Periods.Of(j.Frequency) {
		usual = household.MovedAfter
	}
	switch {
	case fitsBefore && !fitsAfter: // as is taken where nothing is said
		return
	case fitsAfter && !fitsBefore:
		w.derive(g, "moved_paydays", household.MovedAfter.String())
		w.say(w.noticeOf(g, "moved_after", "job", g.name, "paydays", after.Covered))
	case !w.askOf(g, "moved_paydays", suggesting(usual.String())).is(household.MovedAfter.String()):
		return
	}
	w.derive(g, "paydays_of_month[0]", day.String())
}

// earlierDay is the day of the month on which a job that pays by the month has
// paid, the earlier one of two; zero where there is none.
func earlierDay(j household.Job) household.DayOfMonth {
	if j.Frequency != household.Monthly {
		return 0
	}
	var day household.DayOfMonth
	for _, d := range []household.Date{j.FirstPayday, j.StubPayday()} {
		if n := household.DayOfMonth(d.Day); n > 0 && (day == 0 || n < day) {
			day = n
		}
	}
	return day
}

// nearPaycheck is how far the year's pay may be from that of so many paychecks
// to be theirs, as a part of one: a fourth. Common practice.
const nearPaycheck = 4

// paysFor reports whether the pay for the year on the stub is that of a number of
// ordinary paychecks.
func paysFor(j household.Job, paydays int) bool {
	if j.YearToDate == nil {
		return false
	}
	off := j.YearToDate.TaxablePay.Sub(j.OrdinaryPay().Times(paydays))
	return money.Max(off, off.Neg()).Times(nearPaycheck).Less(j.OrdinaryPay())
}

// beganThisYear reports a first payday later than that of a job which has paid
// since January.
func beganThisYear(j household.Job, year int) bool {
	first := j.FirstPayday
	j.FirstPayday, j.LastPayday, j.YearToDate = household.Date{}, household.Date{}, nil
	days := j.Paydays(year)
	return len(days) > 1 && !first.Before(days[1])
}

// offCalendar reports whether a stub's payday is not among those that the first
// payday leads to, so that one of the two dates is wrong. Of pay by weeks it must be
// a whole number of pay periods later; else it may be a payday paid early.
func offCalendar(j household.Job, year int) bool {
	on := j.IsPaydayStub
	if j.Frequency == household.Weekly || j.Frequency == household.Biweekly {
		on = j.PaysOn
	}
	return !j.FirstPayday.IsZero() && j.YearToDate != nil && !on(year, j.StubPayday())
}

// askEnd asks when a job that has ended paid for the last time: most often on the
// day of its last stub, unless it ended on a later day.
func (w *walk) askEnd(g group) {
	j, ok := w.job(g)
	last := j.StubPayday()
	if !ok || last.IsZero() {
		return
	}
	changes := []string{"job_ends", "retired"}
	if strings.HasPrefix(g.label, "spouse_") {
		changes = []string{"spouse_stops"}
	}
	if on := w.changedOn(changes...); on.After(last) && on.Year == w.y.Year {
		j.LastPayday = household.Date{}
		if after := j.PaydaysAfter(w.y.Year, on.AddDays(-1)); len(after) > 0 {
			last = after[0]
		}
	}
	w.askOf(g, "last_payday", suggesting(last.String()))
}

// paidSinceStub reports that a job which has ended paid after its last stub, so
// that what it paid then must be worked out.
func (w *walk) paidSinceStub(g group) bool {
	j, ok := w.job(g)
	return ok && !j.LastPayday.IsZero() && len(j.PaydaysToCome(w.y.Year)) > 0
}
