package tables

import (
	"os"
	"testing"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/published"
	"example.com/plumbline/internal/yamldoc"
)

// Publication 17 (2023), Tax Table, pp. 112-123, all 8,248 cells, and a sample
// of Instructions for Form 1040 (2025), Tax Table, pp. 69-79: each row as the
// table describes its rows, each cell the tax on the middle of the row, to the
// dollar.
func TestRowsGiveTaxTable(t *testing.T) {
	y := shipped(t, 2025)
	tests := []struct {
		file      string
		rows      int
		table     TaxTable
		schedules ByStatus[Schedule]
	}{
		{"tax_table_2023.csv", 2062, TaxTable{}, ByStatus[Schedule]{}},
		{"tax_table_2025_sample.csv", 118, y.TaxTable, y.Schedules.Rates},
	}
	tests[0].table, tests[0].schedules = olderTaxTable(t)
	for _, tt := range tests {
		t.Run(tt.file, func(t *testing.T) {
			rows := published.Rows(t, "published/"+tt.file)
			if len(rows) != tt.rows {
				t.Fatalf("read %d rows, want %d", len(rows), tt.rows)
			}
			for _, r := range rows {
				atLeast, lessThan := money.MustParse(r["at_least"]), money.MustParse(r["less_than"])
				for _, amount := range []money.Amount{atLeast, lessThan.Sub(money.Cents(1))} {
					if from, to, ok := tt.table.Rows.Row(amount); !ok || !from.Equal(atLeast) || !to.Equal(lessThan) {
						t.Errorf("%v is in the row from %v to %v, printed is %v to %v", amount, from, to, atLeast, lessThan)
					}
				}
				middle, _ := tt.table.Rows.Middle(atLeast)
				for column, statuses := range columns {
					for _, status := range statuses {
						got := tt.schedules.Of(status).Tax(middle).ToDollar()
						if !got.Equal(money.MustParse(r[column])) {
							t.Errorf("%v, %v: %v, printed is %s", status, atLeast, got, r[column])
						}
					}
				}
			}
		})
	}
}

// olderTaxTable reads the part of 2023's figures that its Tax Table is made of.
func olderTaxTable(t *testing.T) (TaxTable, ByStatus[Schedule]) {
	t.Helper()
	const name = "../../testdata/tables/2023.yaml"
	data, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	doc, err := yamldoc.Parse(name, data)
	if err != nil {
		t.Fatal(err)
	}
	var older struct {
		Year      int       `yaml:"year,required"`
		Schedules Schedules `yaml:"rate_schedules,required"`
		TaxTable  TaxTable  `yaml:"tax_table,required"`
	}
	if err := doc.Decode(&older).Err(); err != nil {
		t.Fatal(err)
	}
	return older.TaxTable, older.Schedules.Rates
}

func TestRowsEnd(t *testing.T) {
	table := shipped(t, 2025).TaxTable
	for _, amount := range []money.Amount{money.Cents(-1), table.Below, table.Below.Add(money.Cents(1))} {
		if from, to, ok := table.Rows.Row(amount); ok {
			t.Errorf("%v is in the row from %v to %v, want none", amount, from, to)
		}
	}
	if _, _, ok := table.Rows.Row(table.Below.Sub(money.Cents(1))); !ok {
		t.Errorf("no row for a cent less than %v", table.Below)
	}
}

// Publication 15 (2025), section 7, examples 2 and 4: wage bracket method,
// single, monthly, nothing else on the certificate. The tax is that on the
// middle of the row of wages.
func TestWageBracketRows(t *testing.T) {
	y := shipped(t, 2025)
	rows := y.Payroll.WageBracket.Rows.Of(household.Monthly)
	schedule := y.Schedules.Rates.Single
	deduction := y.Payroll.StandardDeduction.Of(household.CertificateSingle)
	months := y.Payroll.Periods.Of(household.Monthly)
	for wages, want := range map[int64]int64{2000: 77, 3000: 190, 5000: 427} {
		middle, ok := rows.Middle(money.Dollars(wages))
		got := schedule.Tax(middle.Times(months).Sub(deduction)).DividedBy(months).ToDollar()
		if !ok || !got.Equal(money.Dollars(want)) {
			t.Errorf("%d a month withholds %v, published is %d", wages, got, want)
		}
	}
	// One who earns what the tables go up to finds a row in each of them.
	for _, f := range []household.Frequency{household.Daily, household.Weekly, household.Biweekly, household.Semimonthly, household.Monthly} {
		pay := y.Payroll.WageBracket.UpTo.DividedBy(y.Payroll.Periods.Of(f))
		if _, ok := y.Payroll.WageBracket.Rows.Of(f).Middle(pay); !ok {
			t.Errorf("%v: no row for %v", f, pay)
		}
	}
}
