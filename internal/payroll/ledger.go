package payroll

import (
	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/words"
	"example.com/plumbline/internal/worksheet"
)

// Entry is one payday to come with what is taken from its pay. Amounts are
// dollars for that day.
type Entry struct {
	Payday
	New                bool // the new certificate counted
	FederalTax         money.Amount
	SocialSecurity     money.Amount
	Medicare           money.Amount // with additional Medicare tax
	AdditionalMedicare money.Amount // the part of Medicare above the amount where it starts
	// TakeHome is the pay less these taxes: before state tax and deductions
	// after tax, which are not known here.
	TakeHome money.Amount
}

// Ledger is each payday to come, in order. Its federal tax adds up to Withheld.
func (j *JobYear) Ledger(f OnFile) []Entry {
	ps := j.phases(f)
	entries := make([]Entry, len(j.paydays))
	for i, d := range j.paydays {
		_, isNew := f.At(d.Date)
		entries[i] = Entry{Payday: d, New: isNew}
		if d.Ordinary {
			entries[i].FederalTax = phaseOf(ps, i).regular
		}
	}
	j.onBonuses(ps, func(b bonus, tax money.Amount, _ bool) {
		entries[b.day].FederalTax = entries[b.day].FederalTax.Add(tax)
	})
	wages := j.socialSoFar()
	before := socialTaxesOn(wages, j.y)
	for i := range entries {
		e := &entries[i]
		wages = wages.Add(j.socialWages(e.Payday))
		after := socialTaxesOn(wages, j.y)
		e.SocialSecurity = after.socialSecurity.Sub(before.socialSecurity)
		e.AdditionalMedicare = after.additionalMedicare.Sub(before.additionalMedicare)
		e.Medicare = after.medicare.Sub(before.medicare).Add(e.AdditionalMedicare)
		e.TakeHome = e.Pay.Add(e.OneTime).Sub(money.Sum(e.FederalTax, e.SocialSecurity, e.Medicare))
		before = after
	}
	return entries
}

// socialWages are a payday's social security and Medicare wages.
func (j *JobYear) socialWages(d Payday) money.Amount {
	switch {
	case j.job.Kind != household.Wages:
		return money.Zero
	case d.Ordinary:
		return money.Sum(d.Pay, d.OneTime, j.job.Pretax.Retirement)
	}
	return d.OneTime
}

// socialSoFar are the year's social security and Medicare wages through the
// last stub: its taxable pay, and the pre-tax retirement savings of each payday
// that it covers.
func (j *JobYear) socialSoFar() money.Amount {
	if j.job.Kind != household.Wages || j.job.YearToDate == nil {
		return money.Zero
	}
	return j.job.YearToDate.TaxablePay.Add(j.job.Pretax.Retirement.Times(j.paid))
}

// YearPay is the whole year as Form W-2 or 1099-R will show it: the last stub's
// figures and all paydays to come.
func (j *JobYear) YearPay(f OnFile) household.YearPay {
	social := socialTaxesOn(j.social, j.y)
	return household.YearPay{
		Job:                   j.index,
		Earner:                j.job.Earner,
		Kind:                  j.job.Kind,
		TaxableWages:          j.wages,
		Makeup:                j.makeup,
		SocialSecurityWages:   social.wages,
		MedicareWages:         j.social,
		FederalTax:            j.SoFar().Add(j.Withheld(f)),
		SocialSecurityTax:     social.socialSecurity,
		MedicareTax:           social.medicare,
		AdditionalMedicareTax: social.additionalMedicare,
	}
}

// Notes are the assumptions made and the things to know about the job's year
// under these certificates.
func (j *JobYear) Notes(f OnFile) []worksheet.Note {
	var s worksheet.Sheet
	var name any = j.job.Name
	if name == "" {
		name = words.T("note.unnamed_job", "number", j.index+1)
	}
	if j.job.FirstPayday.IsZero() {
		s.Say(words.T("note.paydays.assumed", "job", name))
	}
	into, out := j.job.MovedOverNewYear(j.year)
	for _, m := range into {
		s.Say(words.T("note.paydays.moved_into_year", "job", name, "due", m.Due, "paid", m.Paid, "year", j.year))
	}
	for _, m := range out {
		s.Say(words.T("note.paydays.moved_out_of_year", "job", name, "due", m.Due, "paid", m.Paid, "year", j.year))
	}
	if n, of := j.paid+j.before[len(j.paydays)], j.y.Payroll.Periods.Of(j.job.Frequency); n > of {
		s.Say(words.T("note.paydays.more_than_periods", "job", name, "paydays", n, "year", j.year, "periods", of))
	}
	for _, b := range j.bonuses {
		if b.day < 0 {
			s.Say(words.T("note.one_time_pay.already_paid", "job", name, "amount", b.Amount))
		}
	}
	ps := j.phases(f)
	j.onBonuses(ps, func(b bonus, _ money.Amount, refused bool) {
		switch {
		case j.job.Kind == household.Pension:
			s.Say(words.T("note.one_time_pay.pension", "job", name))
		case refused:
			s.Say(words.T("note.one_time_pay.flat_rate_not_open", "job", name, "amount", b.Amount))
		}
	})
	most := money.Zero
	for _, p := range ps {
		most = money.Max(most, p.regular)
	}
	if j.WellWithin(most) {
		return s.Notes
	}
	for _, e := range j.Ledger(f) {
		if e.TakeHome.IsNegative() {
			s.Say(words.T("note.withholding.above_net_pay", "job", name, "payday", e.Date))
			break
		}
	}
	return s.Notes
}
