package certificate

import (
	"slices"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/payroll"
	"example.com/plumbline/internal/words"
)

// The two other ways, by code.
const (
	PartYear       = "part_year_method"
	CumulativeWage = "cumulative_wage_method"
)

// Way is another way to put right a year in which too much has been withheld,
// that the employer carries out on a written request.
type Way struct {
	Code      string
	Job       int // index into Household.Jobs
	Name      string
	Condition words.Text // who may ask for it
	Request   words.Text // the words of the request
	Source    string
	Paychecks []WayPaycheck // to come
	Balance   money.Amount  // the year's balance then, all else as the form asks
}

// WayPaycheck is a payday under another way.
type WayPaycheck struct {
	Payday   household.Date `json:"payday"`
	Withheld money.Amount   `json:"withheld"`
	Change   money.Amount   `json:"change"` // take-home pay, more or less than without it
}

// otherWays are the ways that would end the year nearer to the goal than a plan
// does that is not near enough.
//
// Publication 505 (2025), ch. 1, p. 6; Reg. 31.3402(h)(3)-1 and
// 31.3402(h)(4)-1(c), from memory.
func (pr *projection) otherWays(f formEntries, p Plan) []Way {
	left := p.Balance.Sub(pr.goal)
	if pr.band().holds(left) || left.IsNegative() {
		return nil
	}
	return slices.DeleteFunc(pr.openWays(f), func(w Way) bool {
		return !left.Sub(w.Balance.Sub(pr.goal).Abs()).More(shortBy)
	})
}

// openWays are the ways that the employer of each job may be asked for, beside
// what the form asks for.
func (pr *projection) openWays(f formEntries) []Way {
	if len(pr.payers) == 0 {
		return nil
	}
	d := pr.newCandidate(pr.withEntries(f)).fit()
	var ways []Way
	add := func(w Way) {
		if slices.ContainsFunc(w.Paychecks, func(p WayPaycheck) bool { return !p.Change.IsZero() }) {
			ways = append(ways, w)
		}
	}
	for i, s := range pr.payers {
		if s.pension() {
			continue
		}
		if idle, ok := pr.partYear(s); ok {
			w, days := d.averaged(i, idle.periods), pr.y.Payroll.Effective.PartYear.MostDays
			w.Code = PartYear
			w.Condition = words.T("certificate.way.part_year_condition", "days", days)
			w.Request = partYearRequest(pr.h.TaxYear, days, idle.after)
			add(w)
		}
		if pr.sinceJanuary(s) {
			w := d.averaged(i, 0)
			w.Code = CumulativeWage
			w.Condition = words.T("certificate.way.cumulative_condition")
			w.Request = words.T("certificate.way.cumulative_request", "year", pr.h.TaxYear)
			add(w)
		}
	}
	return ways
}

// partYearRequest is what the request for the part-year method must say. The
// last day of work of an earlier job is left to the person, who declares it: the
// answers know the last payday only.
//
// Reg. 31.3402(h)(4)-1(c)(4), from memory.
func partYearRequest(year, days int, after household.Date) words.Text {
	earlier := words.T("certificate.way.no_earlier_job", "year", year)
	if !after.IsZero() {
		earlier = words.T("certificate.way.earlier_job", "year", year, "after", after)
	}
	return words.T("certificate.way.part_year_request", "earlier", earlier, "days", days, "year", year)
}

// periodDays is the length of a pay period, in whole days.
func (s payer) periodDays() int { return daysInYear / s.periods }

const daysInYear = 365

// began is the day on which work at a job began, taken to be one pay period
// before its first payday: common practice pays a period at its end.
func (s payer) began(year int) household.Date {
	paydays := s.job.Paydays(year)
	if len(paydays) == 0 {
		return household.EndOfYear(year)
	}
	return paydays[0].AddDays(-s.periodDays())
}

// sinceJanuary reports whether the job has paid since the first pay period of
// the year, and has paid already. Where its first payday is not known, or the
// same person had another job that has ended, it is not sure enough to be said.
func (pr *projection) sinceJanuary(s payer) bool {
	newYear := household.EndOfYear(pr.h.TaxYear - 1)
	for _, j := range pr.jobs {
		if j.index != s.index && j.job.Earner == s.job.Earner && !j.job.LastPayday.IsZero() {
			return false
		}
	}
	return s.job.YearToDate != nil && !s.job.FirstPayday.IsZero() && !s.began(pr.h.TaxYear).After(newYear)
}

// idleTime is the time before a job in which nobody employed its earner.
type idleTime struct {
	periods int            // whole pay periods of the job
	after   household.Date // the last payday of the job before, zero where there was none this year
}

// partYear reports whether the earner of a job is employed on few enough days
// of the year, and how long nobody employed them before this job.
func (pr *projection) partYear(s payer) (idle idleTime, ok bool) {
	newYear := household.EndOfYear(pr.h.TaxYear - 1)
	days, began := 0, s.began(pr.h.TaxYear)
	lastEnd := newYear
	for _, j := range pr.jobs {
		if j.job.Earner != s.job.Earner || j.pension() {
			continue
		}
		paydays := j.job.Paydays(pr.h.TaxYear)
		if len(paydays) == 0 {
			continue
		}
		from, to := paydays[0].AddDays(-daysInYear/pr.y.Payroll.Periods.Of(j.job.Frequency)), household.EndOfYear(pr.h.TaxYear)
		if !j.job.LastPayday.IsZero() && j.job.LastPayday.Before(to) {
			to = j.job.LastPayday
		}
		if from.Before(newYear) {
			from = newYear
		}
		days += from.DaysUntil(to)
		if j.index != s.index && to.Before(began) && to.After(lastEnd) {
			lastEnd = to
		}
	}
	if !began.After(lastEnd) {
		return idleTime{}, false
	}
	idle.periods = lastEnd.DaysUntil(began) / s.periodDays()
	if lastEnd.After(newYear) {
		idle.after = lastEnd
	}
	return idle, days <= pr.y.Payroll.Effective.PartYear.MostDays
}

// averaged replays a payer's paydays by a method that taxes the average: all
// wages so far, over the pay periods so far and the idle ones before, each
// taxed as the average paycheck, less what was withheld already. The
// certificate is the one of the candidate.
func (d *candidate) averaged(i, idle int) Way {
	pr, s := d.pr, d.pr.payers[i]
	w := Way{Job: s.index, Name: s.name, Source: "Publication 505 (2025), ch. 1, p. 6"}
	wages, withheld := money.Zero, s.year.SoFar()
	if y := s.job.YearToDate; y != nil {
		wages = y.TaxablePay
	}
	periods := idle + len(s.job.Paydays(pr.h.TaxYear)) - s.toCome
	toCome := money.Zero
	for _, e := range s.year.Ledger(payroll.OnFile{Now: s.job.Certificate, New: &d.certs[i], From: s.from}) {
		wages = money.Sum(wages, e.Pay, e.OneTime)
		if e.Ordinary {
			periods++
		}
		tax := e.FederalTax
		if e.New && e.Ordinary {
			average := s.year.Paycheck()
			average.Wages = wages.DividedBy(periods)
			due := payroll.Withholding(average, &d.certs[i], pr.y, payroll.Options{}, nil).Times(periods)
			tax = due.Sub(withheld).OrZero()
			w.Paychecks = append(w.Paychecks, WayPaycheck{Payday: e.Date, Withheld: tax, Change: e.FederalTax.Sub(tax)})
		}
		withheld, toCome = withheld.Add(tax), toCome.Add(tax)
	}
	others := money.Sum(d.withheld...).Sub(d.withheld[i]).Add(pr.fixed)
	w.Balance = pr.outlook(others.Add(toCome)).Balance
	return w
}
