package tables

import (
	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
)

// PercentageRow is a row of the annual tables of Publication 15-T, percentage
// method for automated payroll systems: on an adjusted annual wage amount of
// AtLeast and more, the tentative annual amount and the rate on what is over.
type PercentageRow struct {
	AtLeast   money.Amount // column A, and E of the row
	Tentative money.Amount // column C
	Rate      money.Rate   // column D
}

// Percentage is the annual percentage method table for a status box of the
// certificate: the standard schedule, or with box the one for certificates
// whose Step 2(c) box is checked. Rows rise; the first begins at zero.
//
// The publication makes its tables from the year's rate schedules. The standard
// schedule shifts the brackets up by what line 1g of Worksheet 1A does not
// already take off the standard deduction. The other halves the brackets and the
// whole standard deduction, half dollars rounded up, as for two jobs of
// equal pay; its tentative amounts are those of the brackets before rounding.
func (y *Year) Percentage(status household.CertificateStatus, box bool) []PercentageRow {
	tables := &y.standard
	if box {
		tables = &y.checkbox
	}
	if rows := tables[status]; rows != nil {
		return rows
	}
	return y.percentageTable(status, box) // a year that Load did not make
}

// percentageTables are the tables of one schedule, by status box.
type percentageTables [household.CertificateHeadOfHousehold + 1][]PercentageRow

// derive makes the tables that Percentage gives, once, when the year is loaded.
func (y *Year) derive() {
	for status := range y.standard {
		y.standard[status] = y.percentageTable(household.CertificateStatus(status), false)
		y.checkbox[status] = y.percentageTable(household.CertificateStatus(status), true)
	}
}

func (y *Year) percentageTable(status household.CertificateStatus, box bool) []PercentageRow {
	schedule := y.Schedules.Rates.Of(onReturn(status))
	deduction := y.Payroll.StandardDeduction.Of(status)
	rows := make([]PercentageRow, 1, len(schedule)+1) // nothing is withheld below the first bracket
	for _, b := range schedule {
		row := PercentageRow{
			AtLeast:   b.Over.Add(deduction).Sub(y.Payroll.Line1g.Of(status)),
			Tentative: schedule.Tax(b.Over),
			Rate:      b.Rate,
		}
		if box {
			row.AtLeast = b.Over.Add(deduction).DividedBy(2).ToDollar()
			row.Tentative = row.Tentative.DividedBy(2)
		}
		row.Tentative = row.Tentative.ToCent()
		rows = append(rows, row)
	}
	return rows
}

// onReturn is the filing status whose rate schedule a status box uses. A
// separate filer shares the box of a single person, though the schedules part
// at the top rate.
func onReturn(s household.CertificateStatus) household.Status {
	switch s {
	case household.CertificateJoint:
		return household.MarriedFilingJointly
	case household.CertificateHeadOfHousehold:
		return household.HeadOfHousehold
	}
	return household.Single
}
