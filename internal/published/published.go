// Package published reads the published tables that tests compare with: the
// files of testdata. Its README names the publication of each. Only tests import
// it.
package published

import (
	"encoding/csv"
	"os"
	"path/filepath"
	"testing"
)

// Row is a row of a table, by the names of its columns.
type Row map[string]string

// Rows reads a table of testdata ("published/tax_table_2023.csv") from the folder
// of a package, in its order. A file that cannot be read, or a row without all
// its columns, ends the test.
func Rows(t testing.TB, name string) []Row {
	t.Helper()
	f, err := os.Open(filepath.Join("..", "..", "testdata", filepath.FromSlash(name)))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	records, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatalf("%s: %v", name, err)
	}
	if len(records) < 2 {
		t.Fatalf("%s has no rows", name)
	}
	rows := make([]Row, len(records)-1)
	for i, record := range records[1:] {
		rows[i] = make(Row, len(record))
		for j, cell := range record {
			rows[i][records[0][j]] = cell
		}
	}
	return rows
}
