package tables

import (
	"testing"

	"pgregory.net/rapid"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/published"
	"example.com/plumbline/taxtables"
)

// The Multiple Jobs tables of Form W-4 (2025), page 4, and (2026), page 5, are
// made from the rate schedules: a cell is the tax on both jobs together less
// the tax on each, to the nearest $10, with the wages 85% into the printed
// ranges. So the printed cells, 564 of 2025 and 516 of 2026, test brackets and
// standard deduction at once. The rule is worked out from the cells, and not
// stated on the form.
func TestScheduleGivesMultipleJobsTables(t *testing.T) {
	for _, year := range Years(taxtables.Files) {
		y := shipped(t, year)
		for _, r := range published.MultipleJobs(t, year) {
			status := printedStatuses[r["status"]]
			schedule := y.Schedules.Rates.Of(onReturn(status))
			deduction := y.Payroll.StandardDeduction.Of(status)
			tax := func(wages money.Amount) money.Amount { return schedule.Tax(wages.Sub(deduction)) }

			higher := within(r["higher_job_from"], r["higher_job_to"])
			switch {
			case r["higher_job_to"] == "": // the last row: any pay taxed at the top rate
				higher = money.Dollars(1_000_000)
			case r["higher_job_from"] == "365000": // both years make this row of the end of its range
				higher = money.Dollars(525_000)
			}
			lower := within(r["lower_job_from"], r["lower_job_to"])
			want := tax(higher.Add(lower)).Sub(tax(higher)).Sub(tax(lower)).ToMultiple(money.Dollars(10))
			if printed := money.MustParse(r["annual_amount"]); !printed.Equal(want) {
				t.Errorf("%d, %s, %s and %s: printed %v, made %v", year, r["status"], r["higher_job_from"], r["lower_job_from"], printed, want)
			}
		}
	}
}

// within is the wage 85% into a printed range.
func within(from, to string) money.Amount {
	low := money.MustParse(from)
	if to == "" {
		return low
	}
	return low.Add(money.MustParse(to).Sub(low).Times(85).DividedBy(100))
}

// The tables in the year files are the printed ones, cell by cell.
func TestMultipleJobsTables(t *testing.T) {
	for _, year := range Years(taxtables.Files) {
		y := shipped(t, year)
		type place struct {
			status      household.CertificateStatus
			higher, low string
		}
		got := map[place]money.Amount{}
		for _, status := range printedStatuses {
			table := y.Form.MultipleJobs.Table(status)
			for _, row := range table.Rows {
				for i, cell := range row.Cells {
					got[place{status, row.From.Text(), table.Lower[i].Text()}] = cell
				}
			}
		}
		rows := published.MultipleJobs(t, year)
		if len(rows) != len(got) {
			t.Errorf("%d: %d cells, printed are %d", year, len(got), len(rows))
		}
		for _, r := range rows {
			at := place{printedStatuses[r["status"]], r["higher_job_from"], r["lower_job_from"]}
			if cell, ok := got[at]; !ok || cell.Text() != r["annual_amount"] {
				t.Errorf("%d: %v: %v, printed is %s", year, at, cell, r["annual_amount"])
			}
		}
	}
}

// Instructions for Form 1040 (2025), p. 80, Tax Computation Worksheet, and
// Publication 505 (2025), Worksheet 1-4: within a row, the tax is the taxable
// income times the rate less the subtraction amount.
func TestTaxComputationWorksheet(t *testing.T) {
	y := shipped(t, 2025)
	rows := published.Rows(t, "published/tax_computation_worksheet_2025.csv")
	if len(rows) != 28 {
		t.Fatalf("read %d rows, want 28", len(rows))
	}
	for _, r := range rows {
		for _, status := range columns[r["status"]] {
			schedule := y.Schedules.Rates.Of(status)
			over := money.MustParse(r["over"])
			high := over.Add(money.Dollars(1_000_000))
			if r["not_over"] != "" {
				high = money.MustParse(r["not_over"])
			}
			var rate money.Rate
			if err := rate.UnmarshalText([]byte(r["rate"])); err != nil {
				t.Fatal(err)
			}
			for _, taxable := range []money.Amount{over.Add(money.Cents(1)), over.Add(high).DividedBy(2), high} {
				want := taxable.At(rate).Sub(money.MustParse(r["subtraction"]))
				if got := schedule.Tax(taxable); !got.Equal(want) {
					t.Errorf("%v, %v: %v, worksheet gives %v", status, taxable, got, want)
				}
			}
			if got := schedule.RateAt(over); got.Cmp(rate) != 0 {
				t.Errorf("%v: the rate from %v on is %v, worksheet has %v", status, over, got, rate)
			}
		}
	}
}

// A cent more is taxed at one of the schedule's rates, on bracket edges too:
// the tax never jumps and never falls.
func TestScheduleIsContinuous(t *testing.T) {
	for _, year := range Years(taxtables.Files) {
		y := shipped(t, year)
		rapid.Check(t, func(t *rapid.T) {
			status := rapid.SampledFrom(household.Statuses()).Draw(t, "status")
			schedule := y.Schedules.Rates.Of(status)
			bracket := rapid.SampledFrom(schedule).Draw(t, "bracket")
			cents := rapid.Int64Range(-3, 100_000_00).Draw(t, "cents")
			low := bracket.Over.Add(money.Cents(cents))
			cent := money.Cents(1)
			more := schedule.Tax(low.Add(cent)).Sub(schedule.Tax(low))
			want := cent.At(schedule.RateAt(low))
			if low.IsNegative() {
				want = money.Zero
			}
			if !more.Equal(want) {
				t.Fatalf("%v: a cent over %v is taxed %v, want %v", status, low, more.Text(), want.Text())
			}
		})
	}
}
