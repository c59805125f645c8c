package tables

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"example.com/plumbline/internal/yamldoc"
	"example.com/plumbline/taxtables"
)

func TestStart(t *testing.T) {
	started, err := Start(taxtables.Files, 2026, 2027)
	if err != nil {
		t.Fatal(err)
	}
	files := fstest.MapFS{"2027.yaml": {Data: started}}
	problems := Check(files)
	if _, err := Load(files, 2027); err == nil || err.Error() != problems.Error() {
		t.Errorf("Load gives %v, want what Check gives", err)
	}

	opened := map[string]bool{}
	for _, p := range problems {
		if p.Message() != fillIn || p.Line == 0 {
			t.Errorf("a problem beside what is open: %v", p)
		}
		opened[p.Key] = true
	}
	for _, f := range shipped(t, 2026).Figures() {
		if want := f.Indexed && f.Value != "0"; opened[f.Key] != want {
			t.Errorf("%s (%s): open is %v, want %v", f.Key, f.Value, opened[f.Key], want)
		}
		for _, key := range []string{"source", "basis"} {
			if f.Indexed && !opened[f.Group+"."+key] {
				t.Errorf("%s.%s is not open", f.Group, key)
			}
		}
	}
	for _, key := range []string{"tips_deduction.source", "rate_schedules.by_status.single[1].rate", "standard_deduction.aged_from", "year"} {
		if opened[key] {
			t.Errorf("%s is open, though the law fixes it", key)
		}
	}
	for _, line := range strings.Split(text(t, 2026), "\n") {
		if strings.HasPrefix(line, "#") && !strings.Contains(string(started), line+"\n") {
			t.Errorf("a comment is lost: %s", line)
		}
	}
}

// Filled in, a started file is a table like any other; what its groups said of
// the basis of the old figures is forgotten.
func TestStartedFilledIn(t *testing.T) {
	started, err := Start(taxtables.Files, 2026, 2027)
	if err != nil {
		t.Fatal(err)
	}
	last, err := yamldoc.Parse("2026.yaml", []byte(text(t, 2026)))
	if err != nil {
		t.Fatal(err)
	}
	next, err := yamldoc.Parse("2027.yaml", started)
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range Check(fstest.MapFS{"2027.yaml": {Data: started}}) {
		if strings.HasSuffix(p.Key, ".basis") {
			set(t, next, p.Key, string(Mixed))
			continue
		}
		if old, ok := last.Get(p.Key); ok {
			set(t, next, p.Key, old)
			continue
		}
		next.Delete(p.Key)
		for i := range last.Len(p.Key) {
			key := fmt.Sprintf("%s[%d]", p.Key, i)
			old, _ := last.Get(key)
			set(t, next, key, old)
		}
	}
	for _, key := range next.Keys() {
		if strings.HasSuffix(key, ".basis") && !next.Has(strings.TrimSuffix(key, "basis")+"note") {
			set(t, next, strings.TrimSuffix(key, "basis")+"note", "filled in")
		}
	}
	files := fstest.MapFS{"2027.yaml": {Data: next.Bytes()}}
	if err := Check(files).Err(); err != nil {
		t.Fatal(err)
	}
	filled, err := Load(files, 2027)
	if err != nil {
		t.Fatal(err)
	}
	if changes := Compare(shipped(t, 2026), filled); len(changes) > 0 {
		t.Errorf("filled in with the figures of 2026, it differs: %v", changes)
	}
	marks := map[string]Basis{"capital_gains.middle_rate": Memory, "capital_gains.zero_rate_up_to.married_filing_separately": Found, "standard_deduction.dependent_earned_income_plus": Mixed}
	for _, f := range filled.Figures() {
		if want, marked := marks[f.Key]; marked && f.Basis != want {
			t.Errorf("%s is marked %s, want %s", f.Key, f.Basis, want)
		}
	}
}

func set(t *testing.T, doc *yamldoc.Document, key, text string) {
	t.Helper()
	if err := doc.Set(key, text); err != nil {
		t.Fatal(err)
	}
}

// However a table is laid out, it is either opened in place or refused by name.
func TestStartLayouts(t *testing.T) {
	tests := []struct{ layout, old, new, want string }{
		{"comment behind", `amount: "184500"`, `amount: "184500"  # a year`, "amount: open  # a year"},
		{"no quotes", `amount: "184500"`, `amount: 184500`, "amount: open\n"},
		{"single quotes", `amount: "184500"`, `amount: '184500'`, "amount: open\n"},
		{"list on lines of its own", "[2026-04-15, 2026-06-15, 2026-09-15, 2027-01-15]", "\n    - 2026-04-15\n    - 2026-06-15\n    - 2026-09-15\n    - 2027-01-15", "    - open\n    - open\n    - open\n    - open\n"},
		{"group in braces", "    single:\n      - {over: \"0\", rate: \"0.10\"}", "    single:\n      - {over: 0, rate: 0.10 }", "- {over: 0, rate: 0.10 }\n      - {over: open, rate: \"0.12\"}"},
		{"note with quotes", `note: "Sixty-five`, `note: "\"Aged\", # not old: sixty-five`, "note: open\n"},
		{"text on further lines", `  note: "Sixty-five`, "  note: |\n    \"Sixty-five", "standard_deduction.note: cannot be replaced here; write the value behind its key, on the same line"},
	}
	for _, tt := range tests {
		t.Run(tt.layout, func(t *testing.T) {
			data := strings.Replace(text(t, 2026), tt.old, tt.new, 1)
			if data == text(t, 2026) {
				t.Fatalf("no %q in the table of 2026", tt.old)
			}
			started, err := Start(fstest.MapFS{"2026.yaml": {Data: []byte(data)}}, 2026, 2027)
			got := string(started)
			if err != nil {
				got = err.Error()
			}
			if !strings.Contains(got, tt.want) {
				t.Errorf("no %q in what is started, error %v", tt.want, err)
			}
		})
	}
	if _, err := Start(taxtables.Files, 2031, 2032); err == nil {
		t.Error("a year is made of none")
	}
}

func FuzzLoad(f *testing.F) {
	f.Add([]byte(text(f, 2025)))
	f.Add([]byte("year: 2025\nrate_schedules: {by_status: {single: []}, source: open}\n"))
	for _, tt := range broken {
		f.Add([]byte("year: 2025\n" + tt.group + ":\n  " + tt.new + "\n"))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		files := fstest.MapFS{"2025.yaml": {Data: data}}
		y, err := Load(files, 2025)
		checked := Check(files)
		if err != nil {
			problems, ok := err.(yamldoc.Problems)
			if !ok || len(problems) == 0 || slices.ContainsFunc(problems, func(p yamldoc.Problem) bool { return p.File != "2025.yaml" || p.Message() == "" }) {
				t.Fatalf("Load gives %v, want problems of the file", err)
			}
			if checked.Error() != err.Error() {
				t.Fatalf("Load gives\n%v\nCheck\n%v", err, checked)
			}
			return
		}
		y.Figures()
		if started, err := Start(files, 2025, 2026); err == nil {
			Check(fstest.MapFS{"2026.yaml": {Data: started}})
		}
	})
}
