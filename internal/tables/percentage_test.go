package tables

import (
	"strconv"
	"testing"

	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/published"
	"example.com/plumbline/taxtables"
)

// The tables that follow from a year's brackets are the annual ones of Publication
// 15-T, row by row.
func TestPercentage(t *testing.T) {
	type table struct{ year, schedule, status string }
	printed := map[table][]PercentageRow{}
	for _, r := range published.AnnualTables(t) {
		key := table{r["year"], r["schedule"], r["status"]}
		rate, err := strconv.ParseInt(r["rate_percent"], 10, 64)
		if err != nil {
			t.Fatal(err)
		}
		printed[key] = append(printed[key], PercentageRow{
			AtLeast:   money.MustParse(r["at_least"]),
			Tentative: money.MustParse(r["tentative_amount"]),
			Rate:      money.Percent(rate),
		})
	}
	for _, year := range Years(taxtables.Files) {
		for _, schedule := range []string{"standard", "step2_checkbox"} {
			for status := range printedStatuses {
				if key := (table{strconv.Itoa(year), schedule, status}); len(printed[key]) != 8 {
					t.Errorf("%v: %d rows to compare with, want 8", key, len(printed[key]))
				}
			}
		}
	}
	for key, want := range printed {
		t.Run(key.year+"/"+key.schedule+"/"+key.status, func(t *testing.T) {
			year, _ := strconv.Atoi(key.year)
			y := shipped(t, year)
			status, known := printedStatuses[key.status]
			if !known {
				t.Fatalf("status %q", key.status)
			}
			got := y.Percentage(status, key.schedule == "step2_checkbox")
			if len(got) != len(want) {
				t.Fatalf("%d rows, want %d", len(got), len(want))
			}
			for i := range want {
				if !got[i].AtLeast.Equal(want[i].AtLeast) || !got[i].Tentative.Equal(want[i].Tentative) || got[i].Rate.Cmp(want[i].Rate) != 0 {
					t.Errorf("row %d: %v, want %v", i+1, got[i], want[i])
				}
			}
		})
	}
}
