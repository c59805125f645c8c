package scenario

import (
	"slices"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
)

// WithRaise is the household with a job's ordinary pay up by a share on every
// payday to come: after the last stub, or in the whole year where there is none.
func WithRaise(h household.Household, job int, share money.Rate) household.Household {
	return withPay(h, job, h.Jobs[job].OrdinaryPay().At(money.Percent(100).Add(share)).ToCent())
}

// withPay is the household with another ordinary pay at a job for good, pre-tax
// deductions unchanged. A newest stub with that pay keeps the average of the year
// so far from being taken in its place.
func withPay(h household.Household, job int, pay money.Amount) household.Household {
	h.Jobs = slices.Clone(h.Jobs)
	j := &h.Jobs[job]
	j.TaxablePay, j.GrossPay = pay, money.Zero
	if j.LastPaycheck == nil && j.YearToDate != nil {
		j.LastPaycheck = &household.Paycheck{Payday: j.YearToDate.Payday, TaxablePay: pay}
	}
	return h
}

// WithHours is the household with a job's ordinary pay moved from what so many
// hours bring to what others do, on every payday to come.
func WithHours(h household.Household, job int, now, then money.Amount) household.Household {
	return withPay(h, job, h.Jobs[job].OrdinaryPay().At(then.Over(now)).ToCent())
}

// WithNewJob is the household with one more job, whose payroll has no
// certificate yet where the job brings none.
func WithNewJob(h household.Household, j household.Job) household.Household {
	h.Jobs = append(slices.Clone(h.Jobs), j)
	return h
}

// WithJobsEnded is the household with the wages of some jobs ending on a day,
// and the one-time pay after it gone. A job that ends earlier anyhow stays so.
func WithJobsEnded(h household.Household, last household.Date, jobs ...int) household.Household {
	h.Jobs = slices.Clone(h.Jobs)
	for _, i := range jobs {
		j := &h.Jobs[i]
		if !j.LastPayday.IsZero() && j.LastPayday.Before(last) {
			continue
		}
		j.LastPayday = last
		j.OneTimePay = slices.DeleteFunc(slices.Clone(j.OneTimePay), func(o household.OneTimePay) bool { return o.Payday.After(last) })
	}
	return h
}

// WithBaby is the household with a child born on a day. A child born by 31
// December counts for the whole year; one born in the next counts only in the
// next, which January's certificate is for.
func WithBaby(h household.Household, born household.Date) household.Household {
	if born.Year > h.TaxYear {
		h.NextYear.Dependents = append(slices.Clone(h.NextYear.Dependents), household.NextDependent{Name: "baby", BirthDate: born})
		return h
	}
	h.Dependents = append(slices.Clone(h.Dependents), household.Dependent{Name: "baby", BirthDate: born})
	return h
}

// WithMarriage is the household married by 31 December and filing jointly with
// a spouse who brings these jobs, if any: the status on the last day of the
// year is that of the whole year (IRC 7703(a)).
func WithMarriage(h household.Household, spouse household.Person, jobs ...household.Job) household.Household {
	h.Status, h.Spouse = household.MarriedFilingJointly, &spouse
	h.Jobs = slices.DeleteFunc(slices.Clone(h.Jobs), func(j household.Job) bool { return j.Earner == household.OfSpouse })
	for _, j := range jobs {
		j.Earner = household.OfSpouse
		h.Jobs = append(h.Jobs, j)
	}
	return h
}

// WithMoreRetirement is the household with a further share of a job's gross pay
// put into a pre-tax retirement plan, on every paycheck to come.
func WithMoreRetirement(h household.Household, job int, share money.Rate) household.Household {
	j := h.Jobs[job]
	gross := j.GrossPay
	if gross.IsZero() {
		gross = j.OrdinaryPay().Add(j.Pretax.Total())
	}
	more := money.Min(gross.At(share).ToCent(), j.OrdinaryPay())
	h = withPay(h, job, j.OrdinaryPay().Sub(more))
	h.Jobs[job].Pretax.Retirement = j.Pretax.Retirement.Add(more)
	return h
}
