package tables

import (
	"encoding/csv"
	"os"
	"path/filepath"
	"testing"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/taxtables"
)

// publishedRows reads a table of testdata/published, each row by its columns'
// names. Its README names the publications.
func publishedRows(t *testing.T, name string) []map[string]string {
	t.Helper()
	f, err := os.Open(filepath.Join("..", "..", "testdata", "published", name))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	records, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	rows := make([]map[string]string, 0, len(records)-1)
	for _, record := range records[1:] {
		row := make(map[string]string, len(record))
		for i, cell := range record {
			row[records[0][i]] = cell
		}
		rows = append(rows, row)
	}
	return rows
}

// shipped is the year as the program carries it.
func shipped(t *testing.T, year int) *Year {
	t.Helper()
	y, err := Load(taxtables.Files, year)
	if err != nil {
		t.Fatal(err)
	}
	return y
}

// columns are the filing statuses that share a column of a published table.
var columns = map[string][]household.Status{
	"single":                    {household.Single},
	"married_filing_jointly":    {household.MarriedFilingJointly, household.QualifyingSurvivingSpouse},
	"married_filing_separately": {household.MarriedFilingSeparately},
	"head_of_household":         {household.HeadOfHousehold},
}
