package certificate

import (
	"fmt"
	"slices"
	"strings"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/paystub"
	"example.com/plumbline/internal/tables"
	"example.com/plumbline/internal/tax"
	"example.com/plumbline/internal/words"
	"example.com/plumbline/internal/worksheet"
)

// foundIn is what is odd about the answers.
type foundIn struct {
	irregular []IrregularPay  // jobs whose average paycheck is in the place of the ordinary one
	stubs     []paystub.Doubt // doubts about the last pay stubs, by the pay given
	facts     []household.Doubt
	pastWish  household.Date // a wished first payday that had passed and was put aside
}

// DoubtedStub is the code of the note that a pay stub cannot be right.
const DoubtedStub = "stub"

// toCheck is what to check before anybody goes by the result: pay that was
// replaced, stubs that cannot be right, and facts that are unlikely or left out of
// account.
func (pr *projection) toCheck() []worksheet.Note {
	var s worksheet.Sheet
	for _, p := range pr.found.irregular {
		s.Say(p.said())
	}
	for _, d := range pr.found.stubs {
		s.Record(worksheet.Note{Code: DoubtedStub, Text: d.What})
	}
	for _, d := range pr.found.facts {
		// The stub's own doubts say of it what these do.
		said := slices.ContainsFunc(pr.found.stubs, func(s paystub.Doubt) bool {
			return strings.HasPrefix(d.Key, fmt.Sprintf("jobs[%d].year_to_date.", s.Job))
		})
		if !d.Assumed && !said {
			s.Record(worksheet.Note{Code: d.Code(), Text: d.What})
		}
	}
	return s.Notes
}

// IrregularPay is a job whose paychecks of the year so far are not the ordinary
// one: the advice goes by their average. Amounts are dollars a paycheck.
type IrregularPay struct {
	Job               int // index into Household.Jobs
	Name              string
	Average, Ordinary money.Amount
	// ByOrdinary is what the year would end on, on the certificates on file, if
	// every paycheck to come were the ordinary one.
	ByOrdinary money.Amount
}

// said is what was put in the place of the pay given.
func (p IrregularPay) said() words.Text {
	return words.T("certificate.warning.pay.irregular", "job", p.Name, "average", p.Average, "ordinary", p.Ordinary)
}

// byAverage is the household with the average paycheck of the year so far in the
// place of the ordinary one, at each job where the two are far apart, and those
// jobs. A bonus that the answers name is no part of the average. A newest stub
// that shows the ordinary pay settles it: pay has changed for good. So do paydays
// that were miscounted.
func byAverage(h household.Household) (household.Household, []IrregularPay) {
	var found []IrregularPay
	jobs := slices.Clone(h.Jobs)
	for _, i := range h.CountedJobs() {
		j := h.Jobs[i]
		if j.YearToDate == nil || j.LastPaycheck != nil {
			continue
		}
		so := j.PaySoFar(h.TaxYear)
		for _, o := range j.OneTimePay {
			if !o.Payday.After(j.YearToDate.Payday) {
				so.Paid = so.Paid.Sub(o.Amount)
			}
		}
		pay := so.Ordinary
		if so.Paydays < 2 || !pay.IsPositive() || miscounted(j, so, h.TaxYear) {
			continue
		}
		average := so.Paid.DividedBy(so.Paydays).ToCent()
		if !average.Sub(pay).Abs().More(pay.At(irregularShare)) || !average.IsPositive() {
			continue
		}
		jobs[i].TaxablePay, jobs[i].GrossPay = average, money.Zero
		found = append(found, IrregularPay{Job: i, Name: h.JobName(i), Average: average, Ordinary: pay})
	}
	if len(found) > 0 {
		h.Jobs = jobs
	}
	return h, found
}

// miscounted reports pay for the year that is just that of another number of
// ordinary paychecks than the calendar has paydays, where it is the calendar that is
// off: there are fewer of them, as in a job begun later or after a leave; or the stub
// is of a day that is no payday, so that a date is wrong. More of them on a payday are
// pay that varies.
func miscounted(j household.Job, so household.PaySoFar, year int) bool {
	wrongDay := !j.FirstPayday.IsZero() && !j.IsPaydayStub(year, j.YearToDate.Payday)
	return so.Miscounted() && (so.Paid.Less(so.Expected) || wrongDay)
}

// withoutPastWish is the household without a first payday for new certificates
// that is before the day of the answers, and that day: it was right when it was
// written, and every payday since would be counted twice.
func withoutPastWish(h household.Household) (household.Household, household.Date) {
	past := h.Wish.FirstPayday
	if past.IsZero() || h.AsOf.IsZero() || !past.Before(h.AsOf) {
		return h, household.Date{}
	}
	h.Wish.FirstPayday = household.Date{}
	return h, past
}

// byOrdinary puts into each irregular job what the year would end on by the
// ordinary pay of the answers.
func byOrdinary(h household.Household, y *tables.Year, irregular []IrregularPay) {
	if len(irregular) == 0 {
		return
	}
	o, _ := AsFiled(h, y, tax.ByReturn, nil)
	for i := range irregular {
		irregular[i].ByOrdinary = o.Balance
	}
}
