package certificate

import (
	"encoding/json"
	"testing"
)

// A full certificate for two jobs and two children. Aim: 1 ms on one core.
func BenchmarkSolve(b *testing.B) {
	h, y := demo(b, "two-earners"), year(b, 2026)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Solve(h, y, nil); err != nil {
			b.Fatal(err)
		}
	}
}

// What one line of a batch costs beyond reading it.
func BenchmarkSolveToJSON(b *testing.B) {
	h, y := demo(b, "two-earners"), year(b, 2026)
	b.ReportAllocs()
	for b.Loop() {
		r, err := Solve(h, y, nil)
		if err != nil {
			b.Fatal(err)
		}
		if _, err := json.Marshal(r); err != nil {
			b.Fatal(err)
		}
	}
}
