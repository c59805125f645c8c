package tables

import (
	"time"

	"example.com/plumbline/internal/bankdays"
	"example.com/plumbline/internal/household"
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
