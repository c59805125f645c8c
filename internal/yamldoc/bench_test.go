package yamldoc

import (
	"fmt"
	"strings"
	"testing"
)

// table is a document of about 150 lines.
func table() []byte {
	var b strings.Builder
	b.WriteString("year: 2031\ntitle: figures # of an invented year\nrows:\n")
	for i := range 70 {
		fmt.Fprintf(&b, "  - over: \"%d\"   # row %d\n    rate: \"0.%d\"\n", i*1000, i, i+10)
	}
	b.WriteString("basic:\n  source: Notice 1\n  values: {red: \"12000\", blue: \"24000\"}\n")
	return []byte(b.String())
}

func BenchmarkParseDecode(b *testing.B) {
	data := table()
	b.ReportAllocs()
	for b.Loop() {
		d, err := Parse("table.yaml", data)
		if err != nil {
			b.Fatal(err)
		}
		var into book
		if problems := d.Decode(&into); len(problems) > 0 {
			b.Fatal(problems)
		}
	}
}

func BenchmarkDecode(b *testing.B) {
	d, err := Parse("table.yaml", table())
	if err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	for b.Loop() {
		var into book
		d.Decode(&into)
	}
}
