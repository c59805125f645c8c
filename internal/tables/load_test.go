package tables

import (
	"errors"
	"io/fs"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"example.com/plumbline/taxtables"
)

func TestShippedTables(t *testing.T) {
	years := Years(taxtables.Files)
	if len(years) < 2 || years[0] != 2025 {
		t.Errorf("Years = %v, want 2025 and the years after", years)
	}
	for i, year := range years {
		if year != years[0]+i {
			t.Errorf("Years = %v, want no year left out", years)
		}
	}
	if err := Check(taxtables.Files).Err(); err != nil {
		t.Error(err)
	}
	for _, year := range years {
		if y := shipped(t, year); y.Year != year {
			t.Errorf("Load(%d) is the year %d", year, y.Year)
		}
	}
}

func TestLoadNamesTheYearsThereAre(t *testing.T) {
	tests := []struct {
		files fs.FS
		want  string
	}{
		{fstest.MapFS{"2025.yaml": {}, "2026.yaml": {}}, "There is no tax table for 2031. There are tables for 2025 and 2026."},
		{fstest.MapFS{"2031.yml": {}, "12031.yaml": {}, "notes.yaml": {}, "2030.yaml": {}}, "There is no tax table for 2031. There is one for 2030."},
		{fstest.MapFS{}, "There is no tax table for 2031. There are none here."},
	}
	for _, tt := range tests {
		_, err := Load(tt.files, 2031)
		if !errors.Is(err, ErrNoTable) || err.Error() != tt.want {
			t.Errorf("error %q, want %q", err, tt.want)
		}
	}
}

// Only the file of the year asked for is read: a broken one beside it is no
// hindrance.
func TestLoadReadsOneFile(t *testing.T) {
	files := Overlay(fstest.MapFS{"2025.yaml": {Data: []byte("year: [")}}, taxtables.Files)
	if _, err := Load(files, 2026); err != nil {
		t.Error(err)
	}
	if _, err := Load(files, 2025); err == nil {
		t.Error("a broken table loads")
	}
}

func TestOverlay(t *testing.T) {
	replaced := strings.Replace(text(t, 2025), `amount: "176100"`, `amount: "176101"`, 1)
	added := strings.Replace(text(t, 2026), "year: 2026", "year: 2031", 1)
	base := fstest.MapFS{
		"2025.yaml": {Data: []byte(text(t, 2025))}, "2026.yaml": {Data: []byte(text(t, 2026))},
		"forms/w4_2025.yaml": {}, "forms/w4_2026.yaml": {},
	}
	files := Overlay(fstest.MapFS{"2025.yaml": {Data: []byte(replaced)}, "2031.yaml": {Data: []byte(added)}}, base)
	var listed []string
	err := fs.WalkDir(files, ".", func(path string, d fs.DirEntry, err error) error {
		if strings.HasSuffix(path, ".yaml") {
			listed = append(listed, path)
		}
		return err
	})
	if want := []string{"2025.yaml", "2026.yaml", "2031.yaml", "forms/w4_2025.yaml", "forms/w4_2026.yaml"}; err != nil || !slices.Equal(listed, want) {
		t.Errorf("files %v, error %v, want %v", listed, err, want)
	}
	if got, want := Years(files), []int{2025, 2026, 2031}; !slices.Equal(got, want) {
		t.Errorf("Years = %v, want %v", got, want)
	}
	for year, want := range map[int]string{2025: "176101", 2026: "184500", 2031: "184500"} {
		y, err := Load(files, year)
		if err != nil {
			t.Fatal(err)
		}
		if got := y.SocialSecurityTax.WageBase.Amount.Text(); got != want {
			t.Errorf("%d: wage base %s, want %s", year, got, want)
		}
	}
}

// text is the file of a year as the program carries it.
func text(t testing.TB, year int) string {
	t.Helper()
	data, err := fs.ReadFile(taxtables.Files, fileName(year))
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

func BenchmarkLoad(b *testing.B) {
	for b.Loop() {
		if _, err := Load(taxtables.Files, 2026); err != nil {
			b.Fatal(err)
		}
	}
}
