package tax

import (
	"os"
	"path/filepath"
	"testing"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/published"
	"example.com/plumbline/internal/tables"
	"example.com/plumbline/internal/worksheet"
	"example.com/plumbline/internal/yamldoc"
)

// onReturn is a return whose income is worked out already.
func onReturn(h household.Household, y *tables.Year, adjustedGross, taxable string) *computation {
	c := &computation{h: h, y: y, s: new(worksheet.Sheet)}
	c.Year, c.Status = y.Year, h.Status
	c.dependents = Standings(h, y)
	c.AdjustedGrossIncome, c.TaxableIncome = usd(adjustedGross), usd(taxable)
	return c
}

// lawOf2023 is the part of 2023 against which its published Tax Table is held.
func lawOf2023(t *testing.T) *tables.Year {
	t.Helper()
	name := filepath.Join("..", "..", "testdata", "tables", "2023.yaml")
	data, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	doc, err := yamldoc.Parse(name, data)
	if err != nil {
		t.Fatal(err)
	}
	var part struct {
		Year      int              `yaml:"year,required"`
		Schedules tables.Schedules `yaml:"rate_schedules,required"`
		TaxTable  tables.TaxTable  `yaml:"tax_table,required"`
	}
	if problems := doc.Decode(&part); len(problems) > 0 {
		t.Fatal(problems)
	}
	return &tables.Year{Year: part.Year, Schedules: part.Schedules, TaxTable: part.TaxTable}
}

// tableStatuses are the columns of the published Tax Tables.
var tableStatuses = []household.Status{household.Single, household.MarriedFilingJointly, household.MarriedFilingSeparately, household.HeadOfHousehold}

// checkTaxTable looks up the first and the last cent of every row.
func checkTaxTable(t *testing.T, y *tables.Year, rows []published.Row) {
	cells := 0
	for _, row := range rows {
		first, last := usd(row["at_least"]), usd(row["less_than"]).Sub(money.Cents(1))
		for _, status := range tableStatuses {
			cells++
			for _, income := range []money.Amount{first, last} {
				if got := tableTax(income, y, status); !got.Equal(usd(row[status.String()])) {
					t.Errorf("%d, %v, taxable income %v: tax %v, want %s", y.Year, status, income, got, row[status.String()])
				}
			}
		}
	}
	if cells != len(tableStatuses)*len(rows) || cells == 0 {
		t.Errorf("checked %d cells of %d rows", cells, len(rows))
	}
}

// Publication 17 (2023), Tax Table, pp. 112-123: all 8,248 cells.
func TestTaxTable2023(t *testing.T) {
	checkTaxTable(t, lawOf2023(t), published.Rows(t, "published/tax_table_2023.csv"))
}

// Instructions for Form 1040 (2025), Tax Table, pp. 69-79: a sample of 118
// rows.
func TestTaxTable2025(t *testing.T) {
	checkTaxTable(t, lawOf(t, 2025), published.Rows(t, "published/tax_table_2025_sample.csv"))
}

// Instructions for Form 1040 (2025), Tax Computation Worksheet, p. 80, and
// Publication 505 (2025), Worksheet 1-4: a rate less a subtraction.
func TestTaxComputationWorksheet2025(t *testing.T) {
	y := lawOf(t, 2025)
	for _, row := range published.Rows(t, "published/tax_computation_worksheet_2025.csv") {
		var status household.Status
		var rate money.Rate
		if err := status.UnmarshalText([]byte(row["status"])); err != nil {
			t.Fatal(err)
		}
		if err := rate.UnmarshalText([]byte(row["rate"])); err != nil {
			t.Fatal(err)
		}
		incomes := []money.Amount{usd(row["over"]).Add(money.Dollars(1))}
		if row["not_over"] != "" {
			incomes = append(incomes, usd(row["not_over"]))
		}
		for _, income := range incomes {
			c := onReturn(household.Household{Status: status}, y, "0", income.Text())
			c.m = BySchedule
			c.incomeTax()
			want(t, row["status"]+" over "+row["over"]+" at "+income.Text(), c.IncomeTax, income.At(rate).Sub(usd(row["subtraction"])).ToCent().Text())
		}
	}
}

func TestTaxTableExamples(t *testing.T) {
	tests := []struct {
		source  string
		status  household.Status
		taxable string
		want    string
	}{
		{"Publication 17 (2023), p. 112, Sample Table", household.MarriedFilingJointly, "25300", "2599"},
		{"Publication 17 (2023), division of a prior joint tax, joint", household.MarriedFilingJointly, "48500", "5383"},
		{"Publication 17 (2023), division of a prior joint tax, A", household.Single, "40100", "4595"},
		{"Publication 17 (2023), division of a prior joint tax, B", household.Single, "8400", "843"},
	}
	y := lawOf2023(t)
	for _, tt := range tests {
		want(t, tt.source, tableTax(usd(tt.taxable), y, tt.status), tt.want)
	}
}

// Beside the published rows: where the table begins and ends.
func TestTaxTableEdges(t *testing.T) {
	tests := []struct {
		source  string
		method  Method
		taxable string
		want    string
	}{
		{"no income, no row", ByReturn, "0", "0"},
		{"row of 0 to 5: 2.50 × 10% = 0.25", ByReturn, "0.01", "0"},
		{"row of 5 to 15: 10 × 10% = 1", ByReturn, "5", "1"},
		// 5,800 + 22% × (99,975 - 50,400) = 5,800 + 10,906.50, rounded up from 16,706.50
		{"the last row, 99,950 to 100,000", ByReturn, "99999.99", "16707"},
		// 5,800 + 22% × 49,600
		{"from 100,000 on the schedule", ByReturn, "100000", "16712"},
		// 5,800 + 22% × 49,599.99 = 16,711.9978
		{"the schedule below 100,000, to the cent", BySchedule, "99999.99", "16712"},
		// 5,800 + 22% × 100.37 = 5,822.0814
		{"the schedule carries cents", BySchedule, "50500.37", "5822.08"},
	}
	for _, tt := range tests {
		c := onReturn(household.Household{}, lawOf(t, 2026), tt.taxable, tt.taxable)
		c.m = tt.method
		c.incomeTax()
		want(t, tt.source, c.IncomeTax, tt.want)
	}
}

func TestPreferentialTax(t *testing.T) {
	tests := []struct {
		source             string
		year               int
		method             Method
		status             household.Status
		taxable, gain, div string
		want               string
	}{
		// Ordinary 40,000; room to 48,350 is 8,350 at 0%; 1,650 at 15% = 247.50.
		// Tax on 40,000: 1,192.50 + 12% × 28,075 = 4,561.50.
		{"IRC 1(h)(1)(B), (C): across the zero rate's limit", 2025, BySchedule, household.Single, "50000", "8000", "2000", "4809"},
		// The same by the table: row 40,000 to 40,050, middle 40,025: 4,564.50, printed 4,565.
		{"the same, with the Tax Table for the ordinary part", 2025, ByReturn, household.Single, "50000", "8000", "2000", "4812.50"},
		{"all of it below the limit, no ordinary income", 2025, ByReturn, household.Single, "30000", "30000", "0", "0"},
		{"gains above taxable income count as far as it goes", 2025, ByReturn, household.Single, "30000", "45000", "0", "0"},
		// Ordinary 500,000, of 700,000: 545,500 - 500,000 = 45,500 at 15% = 6,825; 154,500 at 20% = 30,900.
		// Tax on 500,000: 58,448 + 35% × 243,775 = 85,321.25 → 143,769.25. Sum 181,494.25.
		// Schedule 2026, single, at 256,225: 1,240 + 4,560 + 12,166 + 23,058 + 17,424 = 58,448.
		{"IRC 1(h)(1)(D): across the middle rate's limit", 2026, ByReturn, household.Single, "700000", "200000", "0", "181494.25"},
		// Head of household: ordinary 60,000; to 66,200 6,200 at 0%; 3,800 at 15% = 570.
		// Tax on 60,000: 1,770 + 12% × 42,300 = 6,846.
		{"each status has its own limit", 2026, BySchedule, household.HeadOfHousehold, "70000", "10000", "0", "7416"},
	}
	for _, tt := range tests {
		t.Run(tt.source, func(t *testing.T) {
			c := onReturn(household.Household{Status: tt.status}, lawOf(t, tt.year), tt.taxable, tt.taxable)
			c.m = tt.method
			c.income.NetCapitalGain, c.income.QualifiedDividends = usd(tt.gain), usd(tt.div)
			c.incomeTax()
			want(t, "income tax", c.IncomeTax, tt.want)
		})
	}
}

// Instructions for Form 1040: the smaller of the two. In the table a few
// dollars of gain can make the tax by parts the larger one.
func TestPreferentialTaxIsNeverMore(t *testing.T) {
	y := lawOf(t, 2025)
	for _, status := range household.Statuses() {
		for income := int64(100); income < 120_000; income += 977 {
			c := onReturn(household.Household{Status: status}, y, "0", money.Dollars(income).Text())
			c.income.NetCapitalGain = money.Dollars(12)
			c.incomeTax()
			if whole := c.tax(c.TaxableIncome); c.IncomeTax.More(whole) {
				t.Errorf("%v, taxable income %d: %v with the rates for gains, %v without", status, income, c.IncomeTax, whole)
			}
		}
	}
}
