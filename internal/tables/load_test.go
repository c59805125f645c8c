package tables

import (
	"testing"

	"example.com/plumbline/taxtables"
)

func TestLoad(t *testing.T) {
	for _, year := range Years(taxtables.Files) {
		if _, err := Load(taxtables.Files, year); err != nil {
			t.Errorf("Load(%d): %v", year, err)
		}
	}
}

func BenchmarkLoad(b *testing.B) {
	for b.Loop() {
		if _, err := Load(taxtables.Files, 2026); err != nil {
			b.Fatal(err)
		}
	}
}
