package roster_test

import (
	"io"
	"strings"
	"testing"

	"example.com/plumbline/internal/roster"
)

// all are the rows of a source, each as its number and text or error.
func all(t *testing.T, s *roster.Source) []string {
	t.Helper()
	var got []string
	for {
		row, err := s.Next()
		if err == io.EOF {
			return got
		}
		if err != nil {
			t.Fatal(err)
		}
		text := string(row.Text)
		if row.Err != nil {
			text = "error: " + row.Err.Error()
		}
		got = append(got, strings.TrimSpace(string(rune('0'+row.Number))+" "+text))
	}
}

func expect(t *testing.T, got []string, want ...string) {
	t.Helper()
	if len(got) != len(want) {
		t.Fatalf("%d rows, want %d:\n%s", len(got), len(want), strings.Join(got, "\n"))
	}
	for i := range want {
		if !strings.HasPrefix(got[i], want[i]) {
			t.Errorf("row %d is\n%s\nwant\n%s", i, got[i], want[i])
		}
	}
}

func TestHouseholds(t *testing.T) {
	big := strings.Repeat("x", roster.MaxBytes+1)
	tests := []struct {
		name, in string
		want     []string
	}{
		{"JSON lines, blank ones passed over", "{\"a\":1}\n\n{\"b\":2}", []string{`1 {"a":1}`, `3 {"b":2}`}},
		{"a line that is too long", "{}\n" + big + "\n{}", []string{"1 {}", "2 error: This is longer", "3 {}"}},
		{"a JSON list", " [ {\"a\":1},\n {\"b\":[2]} ]", []string{`1 {"a":1}`, `2 {"b":[2]}`}},
		{"an empty JSON list", "[]", nil},
		{"a JSON list that breaks off", `[{"a":1}, {"b":`, []string{`1 {"a":1}`, "2 error: The list breaks off at household 2"}},
		{"YAML documents", "a: 1\n---\n---\nb: 2\n", []string{"1 a: 1", "2 b: 2"}},
		{"YAML documents with Windows line ends", "---\r\na: 1\r\n---\r\nb: 2\r\n", []string{"1 a: 1", "2 b: 2"}},
		{"nothing", "", nil},
		{"blank lines alone", "\n \n", nil},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) { expect(t, all(t, roster.Households(strings.NewReader(tt.in))), tt.want...) })
	}
}

func TestSpreadsheet(t *testing.T) {
	tests := []struct {
		name, in string
		want     []string
	}{
		{
			"keys become the shape of an answers file, empty cells are left out",
			"id,tax_year,jobs.0.taxable_pay,jobs.1.name,self.birth_date\nA,2026,\"2,400.00\",,5/7/1990\n",
			[]string{`2 {"format":1,"id":"A","jobs":[{"taxable_pay":"2,400.00"}],"self":{"birth_date":"1990-05-07"},"tax_year":2026}`},
		},
		{"semicolons", "a;b\n1;x,y\n", []string{`2 {"a":1,"b":"x,y","format":1}`}},
		{"tabs, a byte order mark, Windows line ends", "\ufeffa\tb\r\nTRUE\t2\r\n", []string{`2 {"a":true,"b":2,"format":1}`}},
		{"a key with brackets and capitals", "Jobs[0].Name\nx\n", []string{`2 {"format":1,"jobs":[{"name":"x"}]}`}},
		{"blank rows count, as a spreadsheet shows them", "a\n1\n\n,\n5\n", []string{`2 {"a":1`, `5 {"a":5`}},
		{"a line end inside quotes is no row", "a,b\n\"x\ny\",1\nz,2\n", []string{`2 {"a":"x\ny"`, `3 {"a":"z"`}},
		{"quotes inside quotes", "a\n\"x \"\"y\"\"\"\n", []string{`2 {"a":"x \"y\""`}},
		{"dates as spreadsheets write them", "a,b,c,d\n1/2/26,12/31/58,2026-07-10 00:00:00,13/13/2026\n", []string{`2 {"a":"2026-01-02","b":"1958-12-31","c":"2026-07-10","d":"13/13/2026"`}},
		{"numbers stay what they are, a leading zero too", "a,b,c\n007,-5,1.50\n", []string{`2 {"a":"007","b":-5,"c":"1.50"`}},
		{"a row with a broken quotation mark stops no other", "a,b\n\"x\"y,1\nz,2\n", []string{"2 error: This row cannot be read", `3 {"a":"z"`}},
		{"a cell without a key", "a,\n1,2\n", []string{"2 error: Column B has a value and no key"}},
		{"a longer row", "a\n1,2\n", []string{"2 error: Column B has a value and no key"}},
		{"a job left out between two others", "jobs.0.name,jobs.1.name\n,x\n", []string{"2 error: jobs.0 is empty"}},
		{"a place that two columns fill", "a,a.b\n1,2\n", []string{`2 error: Column B "a.b": another column`}},
		{"bytes that are no text", "a\n\xff\n", []string{`2 error: Column A "a" is not readable text`}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			s, err := roster.Spreadsheet(strings.NewReader(tt.in))
			if err != nil {
				t.Fatal(err)
			}
			expect(t, all(t, s), tt.want...)
		})
	}
}

func TestSpreadsheetWithoutAHeader(t *testing.T) {
	tests := []struct{ name, in, want string }{
		{"empty", "", "The first row has no keys"},
		{"blank", ",,\n", "The first row has no keys"},
		{"UTF-16", "\xff\xfea\x00", "not saved as UTF-8"},
		{"a key twice", "a,b,A\n", `Column C: "a" is the key of an earlier column`},
		{"a broken quotation mark", "\"a\"b\n", "The first row cannot be read"},
	}
	for _, tt := range tests {
		_, err := roster.Spreadsheet(strings.NewReader(tt.in))
		if err == nil || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("%s: error %v, want %q", tt.name, err, tt.want)
		}
	}
}

func TestColumn(t *testing.T) {
	s, err := roster.Spreadsheet(strings.NewReader("id,jobs.0.name,jobs.0.certificate.extra\n"))
	if err != nil {
		t.Fatal(err)
	}
	tests := []struct{ key, want string }{
		{"jobs[0].name", "B jobs.0.name"},
		{"jobs[0].certificate", "C jobs.0.certificate.extra"},
		{"jobs[0].taxable_pay", " "},
		{"id", "A id"},
	}
	for _, tt := range tests {
		letters, name, _ := s.Sheet.Column(tt.key)
		if got := letters + " " + name; got != tt.want {
			t.Errorf("%s is in column %q, want %q", tt.key, got, tt.want)
		}
	}
	for column, want := range map[int]string{0: "A", 25: "Z", 26: "AA", 51: "AZ", 52: "BA", 701: "ZZ", 702: "AAA"} {
		if got := roster.Letters(column); got != want {
			t.Errorf("column %d is %s, want %s", column, got, want)
		}
	}
}

// FuzzSpreadsheet: whatever the bytes, rows come with rising numbers, each with
// a text or an error, and the reading ends.
func FuzzSpreadsheet(f *testing.F) {
	f.Add("id,tax_year\nA,2026\n")
	f.Add("a;b\n\"x\ny\";1/2/26\n\"\n")
	f.Fuzz(func(t *testing.T, in string) {
		s, err := roster.Spreadsheet(strings.NewReader(in))
		if err != nil {
			return
		}
		checkRows(t, s)
	})
}

// FuzzHouseholds is the same for JSON and YAML.
func FuzzHouseholds(f *testing.F) {
	f.Add("{}\n{}")
	f.Add("[{},{}]")
	f.Add("a: 1\n---\nb: 2")
	f.Fuzz(func(t *testing.T, in string) { checkRows(t, roster.Households(strings.NewReader(in))) })
}

func checkRows(t *testing.T, s *roster.Source) {
	last := 0
	for {
		row, err := s.Next()
		if err != nil {
			return
		}
		if row.Number <= last {
			t.Fatalf("row %d after row %d", row.Number, last)
		}
		last = row.Number
		if row.Text == nil && row.Err == nil {
			t.Fatalf("row %d has neither a text nor an error", row.Number)
		}
	}
}
