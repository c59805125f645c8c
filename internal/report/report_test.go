package report

import (
	"bytes"
	"flag"
	"os"
	"path/filepath"
	"testing"

	"example.com/plumbline/internal/certificate"
	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/tables"
	"example.com/plumbline/internal/yamldoc"
	"example.com/plumbline/taxtables"
)

var update = flag.Bool("update", false, "rewrite the golden files")

var demos = []string{"new-hire", "two-earners", "side-business", "retiree", "new-baby"}

// demo reads a demo household.
func demo(t testing.TB, name string) household.Household {
	t.Helper()
	file := filepath.Join("..", "..", "testdata", name, "household.yaml")
	data, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	doc, err := yamldoc.Parse(file, data)
	if err != nil {
		t.Fatal(err)
	}
	var h household.Household
	if problems := doc.Decode(&h); len(problems) > 0 {
		t.Fatal(problems)
	}
	return h
}

// solved is the result for a household.
func solved(t testing.TB, h household.Household) certificate.Result {
	t.Helper()
	y, err := tables.Load(taxtables.Files, h.TaxYear)
	if err != nil {
		t.Fatal(err)
	}
	r, err := certificate.Solve(h, y, nil)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// golden holds output against a golden file, which -update rewrites.
func golden(t *testing.T, name string, got []byte) {
	t.Helper()
	file := filepath.Join("testdata", name)
	if *update {
		if err := os.MkdirAll(filepath.Dir(file), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(file, got, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(got, want) {
		t.Errorf("%s differs; look at it, then run the test with -update\n%s", file, got)
	}
}
