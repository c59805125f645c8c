package interview

import (
	"slices"
	"strconv"
	"strings"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
)

// askPay asks about each job: what it pays, what the last stub shows and which
// certificate payroll goes by.
func (w *walk) askPay() {
	w.chapter = yourPay
	own := w.jobsOf("job", w.get("interview.jobs").whole())
	for k, g := range own {
		w.askJob(g, k == 0 && w.wayIn().is(newJob))
	}
	w.askStates(own)
	w.chapter = spousePay
	if w.joint() {
		theirs := w.jobsOf("spouse_job", w.get("interview.spouse_jobs").whole())
		for _, g := range theirs {
			w.askJob(g, false)
		}
		w.askStates(theirs)
	}
	w.chapter = pensions
	income := w.get("interview.income")
	if income.has("pension") {
		for _, g := range w.jobsOf("pension", w.ask("interview.pensions", between(1, mostJobs), suggesting("1")).whole()) {
			w.askJob(g, false)
		}
	}
	if income.has("spouse_pension") {
		for _, g := range w.jobsOf("spouse_pension", w.ask("interview.spouse_pensions", between(1, mostJobs), suggesting("1")).whole()) {
			w.askJob(g, false)
		}
	}
}

// askStates asks in which state one person's work is done, of the first job; the
// others are taken to be there too. A job whose state the file names keeps it.
func (w *walk) askStates(jobs []group) {
	for k, g := range jobs {
		if k == 0 || w.doc.Has(g.prefix+".state") {
			w.askOf(g, "state")
		}
	}
}

// jobKind is the group to which an element of the list of jobs belongs.
func (w *walk) jobKind(i int) string {
	prefix := "jobs[" + strconv.Itoa(i) + "]"
	kind := "job"
	if k, _ := w.doc.Get(prefix + ".kind"); k == household.Pension.String() {
		kind = "pension"
	}
	if e, _ := w.doc.Get(prefix + ".earner"); e == household.OfSpouse.String() {
		kind = "spouse_" + kind
	}
	return kind
}

// jobsOf are n jobs of a group: those that the answers hold, in their order,
// and as many new ones at the end of the list as it takes.
func (w *walk) jobsOf(kind string, n int) []group {
	var at []int
	for i := range w.doc.Len("jobs") {
		if w.jobKind(i) == kind && len(at) < n {
			at = append(at, i)
		}
	}
	for len(at) < n {
		at = append(at, w.jobs)
		w.jobs++
	}
	groups := make([]group, n)
	for k, i := range at {
		g := group{
			label:   kind + "_" + strconv.Itoa(k+1),
			prefix:  "jobs[" + strconv.Itoa(i) + "]",
			list:    "jobs[]",
			kind:    "job",
			name:    w.jobName(kind, k, n, i),
			pension: strings.HasSuffix(kind, "pension"),
		}
		w.groups[g.prefix] = g.label
		groups[k] = g
		earner := household.OfSelf
		if strings.HasPrefix(kind, "spouse_") {
			earner = household.OfSpouse
		}
		w.derive(g, "earner", earner.String())
		if g.pension {
			w.derive(g, "kind", household.Pension.String())
		}
	}
	return groups
}

// jobName is how the wording speaks of a job.
func (w *walk) jobName(kind string, k, n, index int) string {
	if name, ok := w.doc.Get("jobs[" + strconv.Itoa(index) + "].name"); ok {
		return name
	}
	switch started := kind == "job" && w.wayIn().is(newJob); {
	case n == 1:
		return w.phrase(kind)
	case started && k == 0:
		return w.phrase("new_job")
	case started && n == 2:
		return w.phrase("other_job")
	}
	if nth := kind + "_" + strconv.Itoa(k+1); w.lang.Has("interview.phrase." + nth) {
		return w.phrase(nth)
	}
	return w.phrase(kind+"_n", "number", k+1)
}

// counted is the number of jobs and pensions in the household.
func (w *walk) counted() int {
	n := w.get("interview.jobs").whole() + w.get("interview.spouse_jobs").whole()
	for kind, pick := range map[string]string{"interview.pensions": "pension", "interview.spouse_pensions": "spouse_pension"} {
		if w.get("interview.income").has(pick) {
			n += max(w.get(kind).whole(), 1)
		}
	}
	return n
}

// askJob asks about one job. A new one has no stub and no certificate yet.
func (w *walk) askJob(g group, isNew bool) {
	var special, often answer
	hasStub := false
	w.together("job "+g.label, func() {
		if w.counted() > 1 {
			w.askOf(g, "name", suggesting(g.name))
		}
		special = w.guide(g, "special", offering(specials(isNew, g.pension)))
		often = w.askOf(g, "pay_frequency", offering(frequencies(g.pension)))
		hasStub = !isNew && w.askForStub(g, special.has("ended"))
		if hasStub && w.cameWithStub(g) {
			w.askStub(g, special.has("ended"))
		}
	})
	if !often.given() {
		return
	}
	if hasStub {
		w.together("stub "+g.label, func() { w.askStub(g, special.has("ended")) })
		w.tellForecast(g)
	}
	w.askFirstPayday(g, hasStub, isNew, special.has("began"))
	if special.has("ended") {
		w.deriveEnd(g)
		return
	}
	w.askPayGrew(g)
	w.askOrdinaryPay(g, hasStub)
	if !isNew {
		w.askOnFile(g)
		w.compareStub(g)
	}
	if special.has("bonus") {
		w.askBonuses(g)
	}
	if special.has("ends") {
		w.askOf(g, "last_payday")
	}
	if !g.pension {
		w.together("tips and overtime "+g.label, func() { w.askTipsAndOvertime(g) })
	}
}

func specials(isNew, pension bool) []string {
	switch {
	case pension:
		return []string{"began", "ended", "ends"}
	case isNew:
		return []string{"ends", "bonus"}
	}
	return []string{"began", "ended", "ends", "bonus"}
}

// frequencies are the pay frequencies, the common ones first.
func frequencies(pension bool) []string {
	if pension {
		return []string{"monthly", "quarterly", "semiannual", "annual", "semimonthly", "biweekly", "weekly", "daily"}
	}
	return []string{"weekly", "biweekly", "semimonthly", "monthly", "daily", "quarterly", "semiannual", "annual"}
}

// nextPayday suggests a first payday to one who starts a job today.
func (w *walk) nextPayday(isNew bool) string {
	if !isNew {
		return ""
	}
	return w.today.AddDays(14).String()
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
	if w.hadStub(g) && !ended {
		w.guide(g, "newer_stub")
	}
	w.askOf(g, "year_to_date.payday")
	w.askOf(g, "year_to_date.taxable_pay")
	w.askOf(g, "year_to_date.federal_tax")
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
	first := w.askOf(g, "first_payday", suggesting(w.nextPayday(isNew)))
	if j, ok := w.job(g); ok && hasStub && first.given() && w.offCalendar(j) {
		w.say(w.notice("off_calendar", "job", g.name, "first", first.day(), "payday", j.StubPayday()))
	}
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
// payday leads to, and is not one of them paid early, so that one of the two
// dates is wrong.
func (w *walk) offCalendar(j household.Job) bool {
	return !j.FirstPayday.IsZero() && j.YearToDate != nil && !j.IsPaydayStub(w.y.Year, j.StubPayday())
}

// deriveEnd writes that a job which has ended pays nothing after its last
// stub.
func (w *walk) deriveEnd(g group) {
	if last, ok := w.doc.Get(g.prefix + ".year_to_date.payday"); ok {
		w.derive(g, "last_payday", last)
	}
}

// askPayGrew asks why pay since the last sitting's stub is not what was expected.
func (w *walk) askPayGrew(g group) {
	average, before, differs := w.payGrew(g)
	if !differs {
		return
	}
	w.say(w.notice("pay_grew", "job", g.name, "average", average, "before", before))
	if w.guide(g, "pay_grew").is("varies") {
		w.say(w.notice("pay_varies", "job", g.name, "average", average))
	}
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
		w.questionPay(g, w.askOf(g, "taxable_pay"), periods)
	case "year_to_date":
		w.derivePayFromStub(g)
	case "paycheck":
		w.questionPay(g, w.askOf(g, "gross_pay"), periods)
		w.askPretax(g)
	case "salary":
		if year := w.guide(g, "salary"); year.given() {
			w.derive(g, "gross_pay", year.amount().DividedBy(periods).ToCent().Text())
			w.questionPay(g, year, 1)
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
			week := rate.amount().Times(hours.whole())
			w.derive(g, "gross_pay", week.Times(weeks).DividedBy(periods).ToCent().Text())
		}
		w.askPretax(g)
	}
	if known.given() && hasStub {
		w.questionStub(g)
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

// questionPay says what pay comes to in a year where that is hard to believe;
// times is how often it comes.
func (w *walk) questionPay(g group, pay answer, times int) {
	year := pay.amount().Times(times)
	if pay.given() && year.IsPositive() && (year.Less(littleForYear) || year.More(muchForYear)) {
		w.say(w.notice("pay_hard_to_believe", "job", g.name, "pay", pay.amount(), "year", year))
	}
}

// questionHour says so where the pay of an hour is hard to believe.
func (w *walk) questionHour(g group, rate answer) {
	if a := rate.amount(); rate.given() && a.IsPositive() && (a.Less(littleForHour) || a.More(muchForHour)) {
		w.say(w.notice("hour_hard_to_believe", "job", g.name, "rate", a))
	}
}

const hoursInAWeek = 7 * 24

func waysToKnowPay(hasStub bool) []string {
	if hasStub {
		return []string{"paycheck", "taxable", "year_to_date"}
	}
	return []string{"paycheck", "salary", "hourly", "taxable"}
}

func (w *walk) frequency(g group) household.Frequency {
	var f household.Frequency
	text, _ := w.doc.Get(g.prefix + ".pay_frequency")
	_ = f.UnmarshalText([]byte(text))
	return f
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

// job is the facts of a group as far as they are known.
func (w *walk) job(g group) (household.Job, bool) {
	h := w.household()
	for i, j := range h.Jobs {
		if "jobs["+strconv.Itoa(i)+"]" == g.prefix {
			return j, true
		}
	}
	return household.Job{}, false
}

// derivePayFromStub spreads the stub's year-to-date pay over its paydays.
func (w *walk) derivePayFromStub(g group) {
	j, _ := w.job(g)
	if n := j.YearPaydays(w.y.Year).Covered; n > 0 {
		w.derive(g, "taxable_pay", j.YearToDate.TaxablePay.DividedBy(n).ToCent().Text())
	}
}

// questionStub says so where the year-to-date pay is far from what the paydays
// so far have brought: by more than half, either way.
func (w *walk) questionStub(g group) {
	j, ok := w.job(g)
	n := j.YearPaydays(w.y.Year).Covered
	if !ok || n == 0 || !j.OrdinaryPay().IsPositive() {
		return
	}
	expected := j.OrdinaryPay().Times(n)
	if j.YearToDate.TaxablePay.Times(2).Less(expected) || j.YearToDate.TaxablePay.More(expected.Times(2)) {
		w.say(w.notice("stub_does_not_fit",
			"job", g.name,
			"shown", j.YearToDate.TaxablePay,
			"paydays", n,
			"expected", expected))
	}
}

// The lines of a certificate that can be filled in, as the guide names them.
var certificateLines = map[string]string{"3": "credits", "4a": "other_income", "4b": "deductions", "4c": "extra"}

// askOnFile asks which certificate payroll goes by.
func (w *walk) askOnFile(g group) {
	status := w.household().Status.OnCertificate().String()
	suggested := status
	if w.statusChanged() {
		suggested = "" // payroll may still have the one from before
	}
	if w.offersLastTime(g) {
		w.guide(g, "handed_in") // yes puts it on file: see follow.go
	}
	var onFile, lines answer
	w.together("certificate "+g.label, func() {
		onFile = w.guide(g, "on_file")
		if !onFile.given() || onFile.is("current") {
			w.askOf(g, "certificate.filing_status", suggesting(suggested))
			lines = w.guide(g, "lines", offering(offeredLines(g.pension)))
		}
	})
	switch onFile {
	case "not_sure":
		fits := w.fits(g)
		if len(fits) == 0 {
			w.derive(g, "certificate.filing_status", status)
			w.say(w.notice("certificate_assumed", "job", g.name))
			return
		}
		for field, text := range certificateFields(fits[0].Certificate) {
			w.derive(g, "certificate."+field, text)
		}
		w.say(w.notice("certificate_from_stub", "job", g.name, "what", fits[0].What))
	case "current":
		if lines.has("exempt") {
			w.derive(g, "certificate.exempt", "true")
			return
		}
		if lines.has("2c") {
			w.derive(g, "certificate.multiple_jobs", "true")
		}
		w.together("entries "+g.label, func() {
			for _, line := range []string{"3", "4a", "4b", "4c"} {
				if lines.has(line) {
					w.askOf(g, "certificate."+certificateLines[line])
				}
			}
		})
	case "before_2020":
		w.derive(g, "certificate.edition", household.Before2020.String())
		w.together("old certificate "+g.label, func() {
			w.askOf(g, "certificate.marital")
			w.askOf(g, "certificate.allowances")
			w.askOf(g, "certificate.extra", suggesting("0"))
		})
	}
}

// offeredLines are the lines that a certificate can have: that of a pension,
// Form W-4P, has no box for two jobs.
func offeredLines(pension bool) []string {
	lines := []string{"3", "4a", "4b", "4c", "exempt"}
	if !pension {
		lines = append([]string{"2c"}, lines...)
	}
	return lines
}

// askBonuses asks for the one-time pay still to come: one at the least.
func (w *walk) askBonuses(g group) {
	for i := range max(1, w.doc.Len(g.prefix+".one_time_pay")) {
		at := "one_time_pay[" + strconv.Itoa(i) + "]"
		w.together(at+" "+g.label, func() {
			w.askOf(g, at+".payday")
			w.askOf(g, at+".amount")
			w.askOf(g, at+".withholding", suggesting(household.FlatRate.String()))
		})
	}
}

// Of pay at a multiple of the regular rate only the half that the Fair Labor
// Standards Act adds is qualified: a third of time-and-a-half pay, a quarter of
// double-time pay. IRC 225(c)(1); Instructions for Form 1040 (2025), p. 107.
var premiumParts = map[answer]int{"time_and_a_half": 3, "double_time": 4}

// askTipsAndOvertime asks for the year's tips, and for its overtime in the way
// in which a stub shows it.
func (w *walk) askTipsAndOvertime(g group) {
	less := w.get("interview.reductions")
	if less.has("tips") {
		w.askOf(g, "qualified_tips")
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
	if pay := w.guide(g, "overtime_pay"); pay.given() {
		premium := pay.amount().DividedBy(part).ToCent()
		w.derive(g, "qualified_overtime", premium.Text())
		if premium.IsPositive() {
			w.say(w.notice("overtime_premium", "premium", premium))
		}
	}
}

// yearlyPay is what the jobs on the return pay this year, roughly.
func (w *walk) yearlyPay() money.Amount {
	h, total := w.household(), money.Zero
	for _, i := range h.CountedJobs() {
		j := h.Jobs[i]
		if j.YearToDate != nil {
			total = total.Add(j.YearToDate.TaxablePay)
		}
		total = total.Add(j.OrdinaryPay().Times(len(j.PaydaysToCome(w.y.Year))))
	}
	return total
}

// offers reports whether a value is one of those offered by a step.
func (s *step) offers(value string) bool { return slices.Contains(s.options(), value) }
