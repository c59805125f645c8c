package tables

import (
	"strconv"
	"testing"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/published"
)

// Publication 15-T, percentage method tables for automated payroll systems,
// annual: those of 2025 as published. Those of 2026 were worked out by the same
// construction and are not published figures: they guard against change alone.
func TestPercentage(t *testing.T) {
	statuses := map[string]household.CertificateStatus{
		"married_filing_jointly": household.CertificateJoint,
		"single_or_mfs":          household.CertificateSingle,
		"head_of_household":      household.CertificateHeadOfHousehold,
	}
	type table struct{ year, schedule, status string }
	printed := map[table][]PercentageRow{}
	rows := 0
	all := append(published.Rows(t, "published/pub15t_annual_tables.csv"), published.Rows(t, "derived/pub15t_annual_tables_2026.csv")...)
	for _, r := range all {
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
		rows++
	}
	if rows != 96 || len(printed) != 12 {
		t.Fatalf("read %d rows of %d tables, want 96 of 12", rows, len(printed))
	}
	for key, want := range printed {
		t.Run(key.year+"/"+key.schedule+"/"+key.status, func(t *testing.T) {
			year, _ := strconv.Atoi(key.year)
			y := shipped(t, year)
			status, known := statuses[key.status]
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
