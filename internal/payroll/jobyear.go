package payroll

import (
	"slices"
	"sort"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/tables"
)

// OnFile is the certificates that payroll holds in a year: Now, until New
// counts. A nil certificate is none on file.
type OnFile struct {
	Now, New *household.Certificate
	From     household.Date // New counts on paydays on or after it; zero: never
}

// At is the certificate that counts on a payday, and whether it is the new one.
func (f OnFile) At(d household.Date) (c *household.Certificate, isNew bool) {
	if !f.From.IsZero() && !d.Before(f.From) {
		return f.New, true
	}
	return f.Now, false
}

// Payday is a day on which pay comes. Pay is zero on a day that brings one-time
// pay alone.
type Payday struct {
	Date     household.Date
	Ordinary bool         // a payday of the job's calendar
	Pay      money.Amount // ordinary federal taxable wages
	OneTime  money.Amount // supplemental wages
}

// JobYear is the calendar and the pay of one job in one year: what is paid
// whatever the certificate says, so that certificates can be tried cheaply. It
// remembers what it has figured: one goroutine at a time may use it.
type JobYear struct {
	index    int
	job      household.Job
	year     int
	y        *tables.Year
	paycheck Paycheck
	paydays  []Payday // to come
	before   []int    // before[i] is the number of ordinary paydays among paydays[:i]
	paid     int      // ordinary paydays that the year-to-date figures cover
	bonuses  []bonus  // all of the year's, in order of payday
	wages    money.Amount
	makeup   household.PayMakeup
	social   money.Amount // social security and Medicare wages of the whole year, before the base
	regular  []regular    // what has been figured
}

// regular is what an ordinary paycheck withholds under a certificate.
type regular struct {
	certificate *household.Certificate // nil: none on file
	withheld    money.Amount
}

// bonus is one-time pay with what its tax depends on.
type bonus struct {
	Bonus
	day    int // index into paydays; -1: already paid
	period int // the ordinary payday, by index in the year, with whose pay it is taxed; -1: none
}

// NewJobYear lays out the year of the household's job with that index. Without
// year-to-date figures every payday of the year is still to come. The answers
// must have passed household.Check.
func NewJobYear(h household.Household, job int, y *tables.Year) *JobYear {
	j := &JobYear{index: job, job: h.Jobs[job], year: h.TaxYear, y: y}
	j.paycheck = Paycheck{Wages: j.job.OrdinaryPay(), Frequency: j.job.Frequency, Kind: j.job.Kind}
	days := j.job.YearPaydays(j.year)
	all := days.All
	j.paid = days.Covered
	j.paydays = make([]Payday, 0, len(all)-j.paid+len(j.job.OneTimePay))
	for _, d := range days.ToCome() {
		j.paydays = append(j.paydays, Payday{Date: d, Ordinary: true, Pay: j.paycheck.Wages})
	}
	j.addOneTimePay(all)
	j.before = make([]int, len(j.paydays)+1)
	for i, d := range j.paydays {
		j.before[i+1] = j.before[i]
		if d.Ordinary {
			j.before[i+1]++
		}
	}
	j.sumWages()
	return j
}

// Paying is the year with another ordinary paycheck on the paydays to come.
func (j *JobYear) Paying(pay money.Amount) *JobYear {
	k := *j
	k.job.TaxablePay, k.job.GrossPay = pay, money.Zero
	k.paycheck.Wages = k.job.OrdinaryPay()
	k.paydays = slices.Clone(j.paydays)
	for i := range k.paydays {
		if k.paydays[i].Ordinary {
			k.paydays[i].Pay = k.paycheck.Wages
		}
	}
	k.regular = nil
	k.sumWages()
	return &k
}

// addOneTimePay puts one-time pay on its payday, or on a day of its own. What
// was paid by the stub's payday is in the year-to-date figures already; it only
// counts toward the year's supplemental wages.
func (j *JobYear) addOneTimePay(all []household.Date) {
	list := slices.Clone(j.job.OneTimePay)
	slices.SortStableFunc(list, func(a, b household.OneTimePay) int { return a.Payday.Compare(b.Payday) })
	earlier := money.Zero
	for _, o := range list {
		o.Payday = j.job.PaydayOf(o.Payday)
		if o.Payday.Year != j.year || !o.Amount.IsPositive() {
			continue
		}
		if j.job.Kind == household.Pension {
			o.Withholding = household.WithPaycheck // the flat rate is for wages
		}
		b := bonus{
			Bonus:  Bonus{Amount: o.Amount, Treatment: o.Withholding, Earlier: earlier},
			day:    -1,
			period: periodOf(all, o.Payday),
		}
		if stub := j.job.StubPayday(); stub.IsZero() || o.Payday.After(stub) {
			b.day = j.dayOf(o.Payday)
			j.paydays[b.day].OneTime = j.paydays[b.day].OneTime.Add(o.Amount)
		}
		j.bonuses = append(j.bonuses, b)
		earlier = earlier.Add(o.Amount)
	}
}

// periodOf is the index of the ordinary payday with whose pay one-time pay is
// taxed: the last one on or before the day, else the first one after it; -1
// where the job has none in the year.
func periodOf(all []household.Date, day household.Date) int {
	after := sort.Search(len(all), func(i int) bool { return all[i].After(day) })
	if len(all) == 0 || after > 0 {
		return after - 1
	}
	return 0
}

// dayOf is the index of the payday on a date, which is made if there is none.
// Bonuses come in order of date, so indexes given out before stay true.
func (j *JobYear) dayOf(d household.Date) int {
	i := j.firstOn(d)
	if i == len(j.paydays) || j.paydays[i].Date != d {
		j.paydays = slices.Insert(j.paydays, i, Payday{Date: d})
	}
	return i
}

// sumWages figures the wages of the whole year. Pre-tax retirement savings are
// not taxable wages but are social security and Medicare wages.
func (j *JobYear) sumWages() {
	m := household.PayMakeup{Paydays: j.before[len(j.paydays)], Ordinary: j.paycheck.Wages}
	if s := j.job.YearToDate; s != nil {
		m.SoFar = s.TaxablePay
	}
	for _, d := range j.paydays {
		if d.OneTime.IsPositive() {
			m.OneTime = m.OneTime.Add(d.OneTime)
		}
	}
	j.makeup = m
	j.wages = money.Sum(m.SoFar, m.Ordinary.Times(m.Paydays), m.OneTime)
	if j.job.Kind == household.Wages {
		j.social = j.wages.Add(j.job.Pretax.Retirement.Times(m.Paydays + j.paid))
	}
}

// Paydays are the days still to come on which the job pays, in order.
func (j *JobYear) Paydays() []Payday { return slices.Clone(j.paydays) }

// Paycheck is an ordinary paycheck of the job.
func (j *JobYear) Paycheck() Paycheck { return j.paycheck }

// OrdinaryFrom is the number of ordinary paydays to come on or after a date.
func (j *JobYear) OrdinaryFrom(d household.Date) int {
	i := j.firstOn(d)
	return j.before[len(j.paydays)] - j.before[i]
}

// WellWithin reports whether an ordinary paycheck surely holds so much income
// tax after social security and Medicare tax: those take far less than half of
// it, unless most of the pay is put into retirement savings, which they are
// taken from too. Where it is not sure, Ledger tells.
func (j *JobYear) WellWithin(tax money.Amount) bool {
	return tax.Times(2).Less(j.paycheck.Wages) && j.job.Pretax.Retirement.Less(j.paycheck.Wages)
}

// SoFar is the federal income tax withheld through the last stub.
func (j *JobYear) SoFar() money.Amount {
	if j.job.YearToDate == nil {
		return money.Zero
	}
	return j.job.YearToDate.FederalTax
}

// phase is a run of paydays under one certificate.
type phase struct {
	certificate *household.Certificate
	from, to    int          // paydays[from:to]
	regular     money.Amount // withheld from an ordinary paycheck
}

// phases are the runs of paydays under the certificate that counts before the
// one on file does, under the one on file, and under the new one, any possibly
// empty. Where one of them is a claim to be exempt that ends within the year,
// its run is in two.
func (j *JobYear) phases(f OnFile) [4]phase {
	n := len(j.paydays)
	isNew := n
	if !f.From.IsZero() {
		isNew = j.firstOn(f.From)
	}
	earlier, counts := j.earlier(f.Now)
	counts = min(counts, isNew)
	ps := [4]phase{{certificate: earlier, to: counts}, {certificate: f.Now, from: counts, to: isNew}, {certificate: f.New, from: isNew, to: n}, {from: n, to: n}}
	j.endClaims(&ps)
	for k := range ps {
		if ps[k].to > ps[k].from {
			ps[k].regular = j.Regular(ps[k].certificate)
		}
	}
	return ps
}

// Regular is what an ordinary paycheck withholds under a certificate; nil is none
// on file. It is figured once for each.
func (j *JobYear) Regular(c *household.Certificate) money.Amount {
	for _, r := range j.regular {
		if r.certificate.Same(c) {
			return r.withheld
		}
	}
	r := regular{withheld: Withholding(j.paycheck, c, j.y, Options{}, nil)}
	if c != nil {
		kept := *c // the caller may go on changing its own
		r.certificate = &kept
	}
	j.regular = append(j.regular, r)
	return r.withheld
}

// firstOn is the index of the first payday to come on or after a date.
func (j *JobYear) firstOn(d household.Date) int {
	return sort.Search(len(j.paydays), func(i int) bool { return !j.paydays[i].Date.Before(d) })
}

// earlier is the certificate that payroll goes by until the one on file counts,
// and the index of the payday from which that one does: the first, unless it
// was handed in for a later one and the certificate before it is known.
func (j *JobYear) earlier(now *household.Certificate) (*household.Certificate, int) {
	if now == nil || now != j.job.Certificate || now.CountsFrom.IsZero() || len(j.paydays) == 0 {
		return nil, 0
	}
	from := j.firstOn(j.job.PaydayOf(now.CountsFrom))
	c, known := j.job.CertificateOn(j.paydays[0].Date)
	if from == 0 || !known {
		return nil, 0
	}
	return c, from
}

// phaseOf is the run that a payday falls into.
func phaseOf(ps [4]phase, day int) phase {
	for _, p := range ps {
		if day < p.to {
			return p
		}
	}
	return ps[len(ps)-1]
}

// Withheld is the federal income tax that payroll will withhold over all
// paydays to come. Ordinary paychecks under one certificate are figured once.
func (j *JobYear) Withheld(f OnFile) money.Amount {
	ps := j.phases(f)
	total := money.Zero
	for _, p := range ps {
		if n := j.before[p.to] - j.before[p.from]; n > 0 {
			total = total.Add(p.regular.Times(n))
		}
	}
	j.onBonuses(ps, func(_ bonus, tax money.Amount, _ bool) { total = total.Add(tax) })
	return total
}

// onBonuses figures the tax on each one-time pay to come, in order.
//
// The flat rate is open only where income tax was withheld from regular wages
// this year or last. Last year is not known, so the year's own paychecks up to
// that day decide: where they show that nothing is withheld, the bonus is taxed
// with the paycheck (refused is then true); where none is known yet, the
// answers are taken at their word. Publication 15, section 7.
func (j *JobYear) onBonuses(ps [4]phase, each func(b bonus, tax money.Amount, refused bool)) {
	period, with := -2, j.paycheck // the pay and bonuses that a bonus is taxed with
	for _, b := range j.bonuses {
		if b.period != period {
			period, with = b.period, j.paycheck
			if period < 0 {
				with.Wages = money.Zero
			}
		}
		refused := false
		if b.day >= 0 {
			p := phaseOf(ps, b.day)
			exempt := p.certificate != nil && p.certificate.Exempt
			refused = b.Treatment == household.FlatRate && !exempt && j.knownUntaxed(ps, b.day)
			if refused {
				b.Treatment = household.WithPaycheck
			}
			each(b, OnBonus(with, b.Bonus, p.certificate, j.y, Options{}, nil), refused)
		}
		if b.Treatment == household.WithPaycheck {
			within, _ := b.split(j.y)
			with.Wages = with.Wages.Add(within)
		}
	}
}

// knownUntaxed reports whether the year's ordinary paychecks through a payday
// are known and no tax was withheld from any.
func (j *JobYear) knownUntaxed(ps [4]phase, day int) bool {
	if j.SoFar().IsPositive() {
		return false
	}
	for _, p := range ps {
		last := min(p.to, day+1)
		if last > p.from && j.before[last] > j.before[p.from] && p.regular.IsPositive() {
			return false
		}
	}
	return j.job.YearToDate != nil || j.before[day+1] > 0
}
