// Package published gives tests what is published: the tables that they compare
// with, which are the files of testdata (its README names the publication of
// each), and the yearly tables without those of later years. Only tests import it.
package published

import (
	"encoding/csv"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"testing/fstest"
)

// Through is a folder of yearly tables without those of years after last. Tests of
// a year that is not published yet run on it, and so still do once that year is. A
// folder that cannot be read ends the test with a panic.
func Through(tables fs.FS, last int) fs.FS {
	names, err := fs.Glob(tables, "*.yaml")
	kept := fstest.MapFS{}
	for _, name := range names {
		if year, err := strconv.Atoi(strings.TrimSuffix(name, ".yaml")); err == nil && year > last {
			continue
		}
		var data []byte
		if data, err = fs.ReadFile(tables, name); err != nil {
			break
		}
		kept[name] = &fstest.MapFile{Data: data}
	}
	if err != nil {
		panic(err)
	}
	return kept
}

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

// AnnualTables are the annual tables of Publication 15-T, percentage method for
// automated payroll systems, of every year: 2025 as printed; 2026 by the publication's
// construction, not seen in print, so that they guard against change alone.
func AnnualTables(t testing.TB) []Row {
	t.Helper()
	return append(Rows(t, "published/pub15t_annual_tables.csv"), Rows(t, "derived/pub15t_annual_tables_2026.csv")...)
}

// MultipleJobs are the cells of the Multiple Jobs tables of a year's Form W-4, on page
// 4 in 2025 and on page 5 in 2026.
func MultipleJobs(t testing.TB, year int) []Row {
	t.Helper()
	return Rows(t, fmt.Sprintf("published/multiple_jobs_%d.csv", year))
}
