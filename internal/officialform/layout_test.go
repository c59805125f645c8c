package officialform

import (
	"cmp"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu/types"
)

// Every edition has a map and a blank form in testdata, and is identified.
func TestEditions(t *testing.T) {
	var want, mapped, blank []string
	for _, k := range known {
		want = append(want, fmt.Sprintf("w4_%d", k.year))
	}
	for _, l := range mustLayouts(t) {
		mapped = append(mapped, fmt.Sprintf("w4_%d", l.Year))
	}
	if !slices.Equal(mapped, want) {
		t.Errorf("editions with a map are %v, and known names %v", mapped, want)
	}
	files, err := filepath.Glob("../../testdata/forms/w4_*.pdf")
	if err != nil {
		t.Fatal(err)
	}
	for _, file := range slices.Backward(files) {
		blank = append(blank, strings.TrimSuffix(filepath.Base(file), ".pdf"))
	}
	if !slices.Equal(blank, want) {
		t.Fatalf("editions with a blank form are %v, and known names %v", blank, want)
	}
	for _, k := range known {
		if ed, err := Identify(blankForm(t, k.year)); err != nil || ed.Year != k.year {
			t.Errorf("the blank form of %d is identified as %d, error %v", k.year, ed.Year, err)
		}
	}
}

func mustLayouts(t testing.TB) []layout {
	t.Helper()
	all, err := layouts()
	if err != nil {
		t.Fatal(err)
	}
	return all
}

// spot is a field of a blank form and where its lower left corner is, in points.
type spot struct {
	field
	name     string
	page     int
	left, up float64
}

func (s spot) String() string {
	what := "text"
	if s.kind == "Btn" {
		what = fmt.Sprintf("box, checked as %q", slices.Sorted(maps.Keys(s.on)))
	}
	return fmt.Sprintf("%q, page %d, %.0f points from the left and %.0f up: %s", s.name, s.page, s.left, s.up, what)
}

// spots are the fields of an edition's blank form by name.
func spots(t *testing.T, year int) map[string]spot {
	t.Helper()
	pdf, err := readPDF(blankForm(t, year))
	if err != nil {
		t.Fatal(err)
	}
	fields, err := readFields(pdf)
	if err != nil {
		t.Fatal(err)
	}
	pages := map[int]int{} // by the page's object number
	for n := 1; n <= pdf.PageCount; n++ {
		_, ref, _, err := pdf.PageDict(n, false)
		if err != nil {
			t.Fatal(err)
		}
		pages[ref.ObjectNumber.Value()] = n
	}
	all := map[string]spot{}
	for name, f := range fields {
		s := spot{field: f, name: name}
		if ref, ok := f.dict["P"].(types.IndirectRef); ok {
			s.page = pages[ref.ObjectNumber.Value()]
		}
		rect, err := pdf.DereferenceArray(f.dict["Rect"])
		if err != nil || len(rect) != 4 || s.page == 0 {
			t.Fatalf("%d: %s has no place on the page", year, name)
		}
		s.left, _ = number(rect[0])
		s.up, _ = number(rect[1])
		all[name] = s
	}
	return all
}

// down orders spots as they are read: by page, from the top, from the left.
func down(a, b spot) int {
	return cmp.Or(cmp.Compare(a.page, b.page), cmp.Compare(b.up, a.up), cmp.Compare(a.left, b.left))
}

// A map has the fields of its blank form, no more and no fewer.
func TestMapHasTheFormsFields(t *testing.T) {
	for _, l := range mustLayouts(t) {
		there := spots(t, l.Year)
		want := l.fields()
		for _, name := range want {
			if _, ok := there[name]; !ok {
				t.Errorf("%d: the form has no field %q", l.Year, name)
			}
		}
		for _, s := range slices.SortedFunc(maps.Values(there), down) {
			if !slices.Contains(want, s.name) {
				t.Errorf("%d: the map lacks %v", l.Year, s)
			}
		}
	}
}

// The lines of a map follow each other down the form as they are numbered, so
// that two of them cannot have each other's field. The person's name and number
// are above them on the first page, the employer's part below. With -v or where
// it fails, it lists the form's fields in reading order.
func TestLinesFollowEachOther(t *testing.T) {
	for _, l := range mustLayouts(t) {
		t.Run(strconv.Itoa(l.Year), func(t *testing.T) {
			there := spots(t, l.Year)
			meaning := map[string]string{}
			var order []spot
			add := func(what, name string) {
				if s, ok := there[name]; ok { // else named by the test above
					meaning[name] = what
					order = append(order, s)
				}
			}
			for _, status := range statuses {
				add(status, l.Boxes[status].Field)
			}
			add(multipleJobsBox, l.Boxes[multipleJobsBox].Field)
			for _, line := range slices.SortedFunc(maps.Keys(l.Lines), asNumbered) {
				add(line, l.Lines[line])
				if line == "4c" {
					add(exemptBox, l.Boxes[exemptBox].Field)
				}
			}
			for i := 1; i < len(order); i++ {
				if a, b := order[i-1], order[i]; down(a, b) >= 0 || a.page == b.page && a.up == b.up {
					t.Errorf("%s, %v, is not above %s, %v", meaning[a.name], a, meaning[b.name], b)
				}
			}
			for what, name := range l.LeftAlone {
				s, ok := there[name]
				if !ok {
					continue
				}
				meaning[name] = what
				above := strings.HasPrefix(what, "1")
				wrong := func(o spot) bool { return o.page == 1 && (down(s, o) < 0) != above }
				if i := slices.IndexFunc(order, wrong); i >= 0 {
					t.Errorf("%s, %v, is on the wrong side of %s, %v", what, s, meaning[order[i].name], order[i])
				}
			}
			for _, s := range slices.SortedFunc(maps.Values(there), down) {
				t.Logf("%-20s %v", meaning[s.name], s)
			}
		})
	}
}

// asNumbered orders lines as the form does: the steps, then the Multiple Jobs
// Worksheet, then the Deductions Worksheet; 3a and 3b before their sum, 3.
func asNumbered(a, b string) int {
	key := func(line string) (sheet, number int, letter string) {
		if name, rest, ok := strings.Cut(line, "."); ok {
			sheet, line = map[string]int{"mj": 1, "dw": 2}[name], rest
		}
		letter = strings.TrimLeft(line, "0123456789")
		number, _ = strconv.Atoi(strings.TrimSuffix(line, letter))
		if letter == "" {
			letter = "~" // the sum of those with letters
		}
		return sheet, number, letter
	}
	sheetA, numberA, letterA := key(a)
	sheetB, numberB, letterB := key(b)
	return cmp.Or(cmp.Compare(sheetA, sheetB), cmp.Compare(numberA, numberB), cmp.Compare(letterA, letterB))
}

// The cases of TestFill, which are from the printed form, have each line of the
// steps and each box of every edition, and both ends of its worksheets.
func TestFillCasesAreWhole(t *testing.T) {
	for _, l := range mustLayouts(t) {
		tried := map[string]bool{}
		exempt := false
		for _, tt := range fillTests {
			if tt.year != l.Year {
				continue
			}
			for line := range tt.entries.Lines {
				tried[line] = true
			}
			tried[tt.entries.FilingStatus] = true
			tried[multipleJobsBox] = tried[multipleJobsBox] || tt.entries.MultipleJobs
			exempt = exempt || tt.entries.Exempt
		}
		lines := slices.SortedFunc(maps.Keys(l.Lines), asNumbered)
		for i, line := range lines {
			sheet := func(i int) string { name, _, _ := strings.Cut(lines[i], "."); return name }
			end := i == 0 || i == len(lines)-1 || sheet(i) != sheet(i-1) || sheet(i) != sheet(i+1)
			if (end || !onWorksheet(line)) && !tried[line] {
				t.Errorf("%d: no case of TestFill has line %s", l.Year, line)
			}
		}
		for _, box := range append(slices.Clone(statuses), multipleJobsBox) {
			if !tried[box] {
				t.Errorf("%d: no case of TestFill has the box %s", l.Year, box)
			}
		}
		if !exempt {
			t.Errorf("%d: no case of TestFill claims exemption", l.Year)
		}
	}
}

func TestMapsRefused(t *testing.T) {
	good, err := os.ReadFile("../../taxtables/forms/w4_2026.yaml")
	if err != nil {
		t.Fatal(err)
	}
	for name, tt := range map[string]struct{ old, new, want string }{
		"a field with two meanings": {"f1_11[0]", "f1_10[0]", "f1_10[0] is there twice"},
		"a box left out":            {"  head_of_household: ", "  household: ", "head_of_household is missing"},
		"no way to claim exemption": {"  exempt: ", "  exemption: ", "exempt is missing"},
		"two ways to claim it":      {"boxes:\n", "exempt_by_hand: true\nboxes:\n", "has a box to claim exemption"},
		"no year":                   {"year: 2026\n", "", "year"},
	} {
		bad := strings.Replace(string(good), tt.old, tt.new, 1)
		if _, err := parseLayout("forms/bad.yaml", []byte(bad)); err == nil || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("%s: error %v, want one with %q", name, err, tt.want)
		}
	}
}
