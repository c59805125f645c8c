package tables

import (
	"fmt"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/words"
	"example.com/plumbline/internal/yamldoc"
)

// MultipleJobs are the form's printed tables for the Step 2(b) worksheet.
type MultipleJobs struct {
	Citation `yaml:",inline"`
	// PayOver: with more than one job above it, the worksheet sends the person
	// to Publication 505.
	PayOver         money.Amount      `yaml:"more_than_one_job_over,required"`
	Joint           MultipleJobsTable `yaml:"married_filing_jointly,required"`
	Single          MultipleJobsTable `yaml:"single,required"`
	HeadOfHousehold MultipleJobsTable `yaml:"head_of_household,required"`
}

// Table is the printed table for a status box.
func (m *MultipleJobs) Table(s household.CertificateStatus) *MultipleJobsTable {
	switch s {
	case household.CertificateJoint:
		return &m.Joint
	case household.CertificateHeadOfHousehold:
		return &m.HeadOfHousehold
	}
	return &m.Single
}

// MultipleJobsTable is one printed table: the row by the annual taxable wages
// of the higher paying job, the column by those of the lower.
type MultipleJobsTable struct {
	Lower []money.Amount    `yaml:"lower_paying_from,required"` // where each column begins
	Rows  []MultipleJobsRow `yaml:"rows,required"`
}

// MultipleJobsRow is one row: where it begins, and its cells, dollars a year.
type MultipleJobsRow struct {
	From  money.Amount   `yaml:"from,required"`
	At    money.Amount   `yaml:"at"` // the wages that its cells are figured on; zero: 85% into the row
	Cells []money.Amount `yaml:"cells,required"`
}

// Check asks for rows as long as the heading, headings that rise from zero, and
// cells that do not fall along a row: more pay in the second job never lowers
// the tax on it.
func (t *MultipleJobsTable) Check(report yamldoc.Report) {
	rising(report, len(t.Lower), func(i int) (string, money.Amount) {
		return fmt.Sprintf("lower_paying_from[%d]", i), t.Lower[i]
	})
	rising(report, len(t.Rows), func(i int) (string, money.Amount) {
		return fmt.Sprintf("rows[%d].from", i), t.Rows[i].From
	})
	for i, row := range t.Rows {
		if len(row.Cells) != len(t.Lower) {
			report(fmt.Sprintf("rows[%d].cells", i), words.T("tables.cells", "n", len(row.Cells), "columns", len(t.Lower)))
		}
		for j := 1; j < len(row.Cells); j++ {
			if row.Cells[j].Less(row.Cells[j-1]) {
				report(fmt.Sprintf("rows[%d].cells[%d]", i, j), words.T("tables.cells_fall", "now", row.Cells[j].Text(), "before", row.Cells[j-1].Text()))
			}
		}
	}
}

// rising asks that the amounts of a heading begin at zero and rise.
func rising(report yamldoc.Report, n int, amount func(i int) (key string, a money.Amount)) {
	before := money.Zero
	for i := range n {
		key, a := amount(i)
		switch {
		case i == 0 && !a.IsZero():
			report(key, notFromZero("heading", a.Text()))
		case i > 0 && !a.More(before):
			report(key, notRising("heading", a.Text(), before.Text()))
		}
		before = a
	}
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
