package interview

import (
	"strconv"
	"strings"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
)

// askPay asks about each job: what it pays, what the last stub shows and which
// certificate payroll goes by.
func (w *walk) askPay() {
	w.chapter = yourPay
	for k, g := range w.own {
		w.askJob(g, k == 0 && w.wayIn().is(newJob))
	}
	w.chapter = spousePay
	if w.joint() {
		for _, g := range w.spouses {
			w.askJob(g, false)
		}
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
	w.askNames()
}

// jobKind is the group to which an element of the list of jobs belongs.
func (w *walk) jobKind(i int) string {
	prefix := "jobs[" + strconv.Itoa(i) + "]"
	kind, _ := w.doc.Get(prefix + ".kind")
	earner, _ := w.doc.Get(prefix + ".earner")
	return kindOf(kind, earner)
}

// kindOf is the group of a job by its kind and its earner as the file names them.
func kindOf(kind, earner string) string {
	group := "job"
	if kind == household.Pension.String() {
		group = "pension"
	}
	if earner == household.OfSpouse.String() {
		group = "spouse_" + group
	}
	return group
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

// askStubFirst asks those who came to have a stub checked for that of their first
// job and for what it is compared with, and says what comes of it, before
// everything else. The filing status is asked about just before the certificate
// that payroll has.
func (w *walk) askStubFirst() {
	if !w.wayIn().is(stub) || !w.returned().IsZero() {
		return
	}
	w.chapter = yourStub
	w.together("jobs", func() {
		w.askJobs()
		w.ask("interview.married")
	})
	if len(w.own) > 0 {
		w.begun[w.own[0].label] = w.beginJob(w.own[0], false)
	}
}

// askJob asks about one job. A new one has no stub and no certificate yet.
func (w *walk) askJob(g group, isNew bool) {
	b, begun := w.begun[g.label]
	if begun {
		w.unnamed = append(w.unnamed, g)
	} else {
		b = w.beginJob(g, isNew)
	}
	if !b.known {
		return
	}
	if b.special.has("bonus") && !b.special.has("ended") {
		w.askBonuses(g)
	}
	if b.special.has("ends") && !b.special.has("ended") {
		w.askOf(g, "last_payday")
	}
	if !g.pension {
		w.together("tips and overtime "+g.label, func() { w.askTipsAndOvertime(g) })
	}
}

// begun is what is known of a job once its stub, pay and certificate are.
type begun struct {
	special answer
	known   bool // how often it pays, so that the rest can be asked
}

// beginJob asks for what a job pays, what its last stub shows and which
// certificate payroll goes by, and compares the two.
func (w *walk) beginJob(g group, isNew bool) begun {
	var b begun
	var often answer
	hasStub := false
	w.together("job "+g.label, func() {
		w.askNames()
		w.askName(g)
		b.special = w.guide(g, "special", offering(specials(isNew, g.pension)))
		w.askState(g)
		often = w.askOf(g, "pay_frequency", offering(frequencies(g.pension)))
		hasStub = !isNew && w.askForStub(g, b.special.has("ended"))
		if hasStub && w.cameWithStub(g) {
			w.askStub(g, b.special.has("ended"))
		}
	})
	if b.known = often.given(); !b.known {
		return b
	}
	if hasStub {
		w.together("stub "+g.label, func() { w.askStub(g, b.special.has("ended")) })
		w.tellForecast(g)
	}
	w.askFirstPayday(g, hasStub, isNew, b.special.has("began"))
	w.askDaysOfMonth(g)
	if b.special.has("ended") {
		w.askEnd(g)
	}
	if !b.special.has("ended") || w.paidSinceStub(g) {
		w.askPayGrew(g)
		w.askOrdinaryPay(g, hasStub)
		w.askMoved(g)
		if hasStub && !w.figuresToCome(g) {
			w.questionStub(g)
		}
		if !isNew {
			w.askMarriage()
			w.askOnFile(g)
			w.compareStub(g)
		}
	}
	return b
}

// askNames asks for the names of jobs that a spouse's job or a pension, counted
// since, has made some of several.
func (w *walk) askNames() {
	for _, g := range w.unnamed {
		w.askName(g)
	}
	w.unnamed = nil
}

func (w *walk) askName(g group) {
	if w.counted() > 1 {
		w.askOf(g, "name", suggesting(g.name))
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

func (w *walk) frequency(g group) household.Frequency {
	var f household.Frequency
	text, _ := w.doc.Get(g.prefix + ".pay_frequency")
	_ = f.UnmarshalText([]byte(text))
	return f
}

// job is the facts of a group that are known so far.
func (w *walk) job(g group) (household.Job, bool) {
	h := w.household()
	for i, j := range h.Jobs {
		if "jobs["+strconv.Itoa(i)+"]" == g.prefix {
			return j, true
		}
	}
	return household.Job{}, false
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
