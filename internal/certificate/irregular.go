package certificate

import (
	"slices"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/tables"
)

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

// byAverage is the household with the average paycheck of the year so far in the
// place of the ordinary one, at each job where the two are far apart, and those
// jobs. A bonus that the answers name is no part of the average. A newest stub
// that shows the ordinary pay settles it: pay has changed for good.
func byAverage(h household.Household) (household.Household, []IrregularPay) {
	var found []IrregularPay
	jobs := slices.Clone(h.Jobs)
	for _, i := range h.CountedJobs() {
		j := h.Jobs[i]
		if j.YearToDate == nil || j.LastPaycheck != nil {
			continue
		}
		n, pay := j.YearPaydays(h.TaxYear).Covered, j.OrdinaryPay()
		if n < 2 || !pay.IsPositive() {
			continue
		}
		paid := j.YearToDate.TaxablePay
		for _, o := range j.OneTimePay {
			if !o.Payday.After(j.YearToDate.Payday) {
				paid = paid.Sub(o.Amount)
			}
		}
		average := paid.DividedBy(n).ToCent()
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
	o, _ := AsFiled(h, y, 0, nil)
	for i := range irregular {
		irregular[i].ByOrdinary = o.Balance
	}
}
