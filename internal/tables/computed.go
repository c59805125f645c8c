package tables

import (
	"fmt"
	"math/big"
	"time"

	"example.com/plumbline/internal/bankdays"
	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
)

// computed are the figures of a group that this package works out from others
// of the year, by full key; nil for a group without any. The rules "computed" of
// the file name them.
func (y *Year) computed(group string) map[string]string {
	switch group {
	case "earned_income_credit":
		return y.creditEnds()
	case "underpayment.installments":
		return y.installmentsDue()
	case "underpayment.interest":
		return y.interestCarriedOn()
	case "payroll.nonresident_addition":
		return y.nonresidentAdditions()
	case "payroll.certificate_effective":
		return map[string]string{group + ".next_year_certificate_by": household.On(y.Year, time.December, 1).String()}
	case "payroll.certificate_effective.exemption":
		return map[string]string{group + ".renewed_by": claimsRenewedBy(y.Year + 1).String()}
	case "form_w4.multiple_jobs":
		return y.multipleJobsCells()
	}
	return nil
}

// ClaimsRenewedBy is the last day of a claim to be exempt from withholding that
// was made the year before: the table's own for the year after it, and figured in
// the same way for any other. Form W-4, "Exempt from withholding"; Publication 15,
// section 9.
func (y *Year) ClaimsRenewedBy(year int) household.Date {
	if year == y.Year+1 {
		return y.Payroll.Effective.Exemption.RenewedBy
	}
	return claimsRenewedBy(year)
}

func claimsRenewedBy(year int) household.Date {
	return onBusinessDay(household.On(year, time.February, 15))
}

// creditEnds are the maximum credits and where they are phased out, to the
// dollar as the revenue procedure prints them: IRC 32(a), (b).
func (y *Year) creditEnds() map[string]string {
	all := map[string]string{}
	for i, c := range y.EarnedIncome.ByChildren {
		most := c.EarnedAmount.At(c.PhaseInRate).ToDollar()
		lost := new(big.Rat).Quo(ratOf(most), rateRat(c.PhaseOutRate))
		end := func(from money.Amount) string {
			return decimalText(nearest(new(big.Rat).Add(ratOf(from), lost), big.NewRat(1, 1)))
		}
		at := fmt.Sprintf("earned_income_credit.by_children[%d].", i)
		all[at+"maximum_credit"] = most.Text()
		all[at+"completed_phase_out"] = end(c.PhaseOutFrom)
		all[at+"completed_phase_out_joint"] = end(c.PhaseOutFromJoint)
	}
	return all
}

// installmentsDue are the due dates of estimated tax: IRC 6654(c)(2), 7503.
func (y *Year) installmentsDue() map[string]string {
	all := map[string]string{}
	for i, due := range []household.Date{
		household.On(y.Year, time.April, 15), household.On(y.Year, time.June, 15),
		household.On(y.Year, time.September, 15), household.On(y.Year+1, time.January, 15),
	} {
		all[fmt.Sprintf("underpayment.installments.due[%d]", i)] = onBusinessDay(due).String()
	}
	return all
}

// interestCarriedOn is the last known interest rate, for the same quarters as
// last year's.
func (y *Year) interestCarriedOn() map[string]string {
	all := map[string]string{}
	rates := y.Underpayment.Interest.Rates
	last := rates[len(rates)-1].Rate
	for i, r := range rates {
		at := fmt.Sprintf("underpayment.interest.rates[%d].", i)
		year := y.Year
		if r.From.Month < rates[0].From.Month {
			year++
		}
		all[at+"from"] = household.On(year, r.From.Month, r.From.Day).String()
		all[at+"rate"] = last.Text()
	}
	return all
}

// nonresidentAdditions are the standard deduction of a single person that is
// built into payroll's tables, and that less one allowance, a pay period, to 10
// cents: the construction that gives Publication 15-T (2025), Tables 1 and 2.
func (y *Year) nonresidentAdditions() map[string]string {
	all := map[string]string{}
	whole := y.Payroll.StandardDeduction.Single
	for _, f := range household.Frequencies() {
		part := func(a money.Amount) string {
			return a.DividedBy(y.Payroll.Periods.Of(f)).ToMultiple(money.Cents(10)).String()
		}
		all["payroll.nonresident_addition.current_certificate."+f.String()] = part(whole)
		all["payroll.nonresident_addition.before_2020."+f.String()] = part(whole.Sub(y.Payroll.Allowance))
	}
	return all
}

// multipleJobsCells are the cells of the form's tables for the Step 2(b)
// worksheet: the tax on both jobs together less the tax on each, to the nearest
// $10, with wages 85% into the printed ranges, or as the row says. That is read
// off the 1,080 cells of 2025 and 2026, all of which it gives; the form does not
// state it.
func (y *Year) multipleJobsCells() map[string]string {
	all := map[string]string{}
	for _, status := range []household.CertificateStatus{household.CertificateJoint, household.CertificateSingle, household.CertificateHeadOfHousehold} {
		table := y.Form.MultipleJobs.Table(status)
		schedule, deduction := y.Schedules.Rates.Of(onReturn(status)), y.Payroll.StandardDeduction.Of(status)
		tax := func(wages money.Amount) money.Amount { return schedule.Tax(wages.Sub(deduction)) }
		lower, taxed := make([]money.Amount, len(table.Lower)), make([]money.Amount, len(table.Lower))
		for j := range table.Lower {
			lower[j] = table.lower(j)
			taxed[j] = tax(lower[j])
		}
		for i := range table.Rows {
			higher := table.higher(i)
			alone := tax(higher)
			for j := range table.Rows[i].Cells {
				cell := tax(higher.Add(lower[j])).Sub(alone).Sub(taxed[j]).ToMultiple(money.Dollars(10))
				all[fmt.Sprintf("form_w4.multiple_jobs.%v.rows[%d].cells[%d]", status, i, j)] = cell.Text()
			}
		}
	}
	return all
}

// higher is the wages of the higher paying job on which a row is figured.
func (t *MultipleJobsTable) higher(row int) money.Amount {
	r := t.Rows[row]
	if r.At.IsPositive() || row+1 == len(t.Rows) {
		return r.At
	}
	return into(r.From, t.Rows[row+1].From.Sub(money.Dollars(1)))
}

// lower is the wages of the lower paying job on which a column is figured. The
// last is as wide as the one before it, and ends on a round amount.
func (t *MultipleJobsTable) lower(column int) money.Amount {
	from := t.Lower[column]
	if column+1 < len(t.Lower) {
		return into(from, t.Lower[column+1].Sub(money.Dollars(1)))
	}
	return into(from, from.Add(from).Sub(t.Lower[column-1]))
}

// into is the wage 85% into a range.
func into(from, to money.Amount) money.Amount {
	return from.Add(to.Sub(from).Times(85).DividedBy(100))
}

// onBusinessDay is a date, moved past weekends and legal holidays in the
// District of Columbia (IRC 7503): the federal ones, and Emancipation Day, April
// 16, or the weekday nearest to it.
func onBusinessDay(d household.Date) household.Date {
	for {
		emancipation := household.On(d.Year, time.April, 16)
		switch emancipation.Weekday() {
		case time.Saturday:
			emancipation = emancipation.AddDays(-1)
		case time.Sunday:
			emancipation = emancipation.AddDays(1)
		}
		if bankdays.Open(d.Year, d.Month, d.Day) && d != emancipation {
			return d
		}
		d = d.AddDays(1)
	}
}
