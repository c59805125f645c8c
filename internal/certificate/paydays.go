package certificate

import (
	"slices"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/payroll"
)

// Payday is a payday to come, all jobs together.
type Payday struct {
	Date            household.Date
	OnFile, Planned money.Amount // federal income tax withheld: on the certificates on file, and on the recommended ones
}

// Paydays are the paydays to come this year, in order, a day once.
func (r Result) Paydays() []Payday {
	var days []Payday
	for _, i := range r.Household.CountedJobs() {
		now := payroll.OnFile{Now: r.Household.Jobs[i].Certificate}
		then := now
		for _, c := range r.Recommended.Certificates {
			if c.Job == i {
				then.New, then.From = &c.Certificate, c.FirstPayday
			}
		}
		year := payroll.NewJobYear(r.Household, i, r.Tables)
		planned := year.Ledger(then)
		for n, e := range year.Ledger(now) {
			days = append(days, Payday{e.Date, e.FederalTax, planned[n].FederalTax})
		}
	}
	slices.SortStableFunc(days, func(a, b Payday) int { return a.Date.Compare(b.Date) })
	var merged []Payday
	for _, d := range days {
		if n := len(merged); n > 0 && merged[n-1].Date == d.Date {
			merged[n-1].OnFile = merged[n-1].OnFile.Add(d.OnFile)
			merged[n-1].Planned = merged[n-1].Planned.Add(d.Planned)
			continue
		}
		merged = append(merged, d)
	}
	return merged
}
