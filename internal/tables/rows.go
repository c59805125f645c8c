package tables

import (
	"fmt"

	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/words"
	"example.com/plumbline/internal/yamldoc"
)

// TaxTable is how the return reads tax below a taxable income: from a table
// whose rows it describes, the tax being that on the middle of the row.
type TaxTable struct {
	Citation `yaml:",inline"`
	Below    money.Amount `yaml:"below,required"` // taxable income from which the schedule itself is used
	Rows     Rows         `yaml:"rows,required"`
}

// Rows are the rows of a printed table, from zero up, as runs of rows of one
// width: how the Tax Table and the wage bracket tables are laid out.
type Rows []RowRun

// RowRun is a run of rows of one width, up to Below.
type RowRun struct {
	Below money.Amount `yaml:"below,required"`
	Width money.Amount `yaml:"width,required"`
}

// Check asks that the runs rise and that each holds a whole number of rows.
func (r *Rows) Check(report yamldoc.Report) {
	start := money.Zero
	for i, run := range *r {
		key := fmt.Sprintf("[%d]", i)
		switch {
		case !run.Width.IsPositive():
			report(key+".width", notPositive())
		case !run.Below.More(start):
			report(key+".below", words.T("tables.run_below", "start", start.Text()))
		case !run.Below.Sub(start).DownToMultiple(run.Width).Equal(run.Below.Sub(start)):
			report(key+".width", words.T("tables.run_uneven", "start", start.Text(), "below", run.Below.Text()))
		}
		start = run.Below
	}
}

// Row is the row that an amount is in: at least from, but less than to. It
// reports false when the table has no row for the amount.
func (r Rows) Row(amount money.Amount) (from, to money.Amount, ok bool) {
	if amount.IsNegative() {
		return money.Zero, money.Zero, false
	}
	start := money.Zero
	for _, run := range r {
		if amount.Less(run.Below) {
			from = start.Add(amount.Sub(start).DownToMultiple(run.Width))
			return from, from.Add(run.Width), true
		}
		start = run.Below
	}
	return money.Zero, money.Zero, false
}

// Middle is the middle of the row that an amount is in, on which the
// printed tables figure the tax. It reports false as Row does.
func (r Rows) Middle(amount money.Amount) (middle money.Amount, ok bool) {
	from, to, ok := r.Row(amount)
	return from.Add(to).DividedBy(2), ok
}
