package certificate

import (
	"fmt"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/payroll"
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
	Condition string // who may ask for it
	Request   string // the words of the request
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

// otherWays are the ways that fit, for each job, when what the form asks for
// would withhold too much.
//
// Publication 505 (2025), ch. 1, p. 6; Reg. 31.3402(h)(3)-1 and
// 31.3402(h)(4)-1(c), from memory.
func (pr *projection) otherWays(f formEntries) []Way {
	d := pr.newCandidate(pr.withEntries(f)).fit()
	if len(pr.payers) == 0 || d.gap().Neg().Less(money.Dollars(int64(pr.payers[0].paydays))) {
		return nil
	}
	var ways []Way
	for i, s := range pr.payers {
		if s.pension() {
			continue
		}
		if idle, ok := pr.partYear(s); ok {
			w := d.averaged(i, idle.periods)
			w.Code = PartYear
			w.Condition = fmt.Sprintf("You expect to be employed on no more than %d days of this calendar year, counted over all your employers.", pr.y.Payroll.Effective.PartYear.MostDays)
			w.Request = partYearRequest(pr.h.TaxYear, pr.y.Payroll.Effective.PartYear.MostDays, idle.after)
			ways = w.addTo(ways)
		}
		if pr.sinceJanuary(s) {
			w := d.averaged(i, 0)
			w.Code = CumulativeWage
			w.Condition = "You have been paid by the same kind of payroll period since January. The employer may refuse."
			w.Request = fmt.Sprintf("I ask you to withhold income tax from my wages on the basis of my cumulative wages in %d, beginning with the next payday.", pr.h.TaxYear)
			ways = w.addTo(ways)
		}
	}
	return ways
}

// addTo adds a way to the others, unless it changes no paycheck.
func (w Way) addTo(ways []Way) []Way {
	for _, p := range w.Paychecks {
		if !p.Change.IsZero() {
			return append(ways, w)
		}
	}
	return ways
}

// partYearRequest is what the request for the part-year method must say. The
// last day of work of an earlier job is left to the person, who declares it: the
// answers know the last payday only.
//
// Reg. 31.3402(h)(4)-1(c)(4), from memory.
func partYearRequest(year, days int, after household.Date) string {
	earlier := fmt.Sprintf("I had no other employment in %d before this one", year)
	if !after.IsZero() {
		earlier = fmt.Sprintf("the last day of my employment in %d before this one was ____________ (the last payday was %s)", year, after.Long())
	}
	return fmt.Sprintf("I ask you to withhold income tax by the part-year method. Under penalties of perjury I declare: %s; I use the calendar year; I reasonably expect to be employed on no more than %d days in %d.", earlier, days, year)
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
// the year, and has paid already.
func (pr *projection) sinceJanuary(s payer) bool {
	newYear := household.EndOfYear(pr.h.TaxYear - 1)
	return s.job.YearToDate != nil && !s.began(pr.h.TaxYear).After(newYear)
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
