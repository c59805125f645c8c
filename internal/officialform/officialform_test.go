package officialform

import (
	"bytes"
	"fmt"
	"maps"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"example.com/plumbline/internal/sample"
	"example.com/plumbline/internal/words"
)

// TestMain gives the forms room.
func TestMain(m *testing.M) {
	sample.CollectLess()
	os.Exit(m.Run())
}

// blankForm is a published form. Its fields were listed with another program
// before the map was written; the tests below name them again, by hand, from
// the printed form and that list.
func blankForm(t testing.TB, year int) []byte {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("..", "..", "testdata", "forms", fmt.Sprintf("w4_%d.pdf", year)))
	if err != nil {
		t.Fatal(err)
	}
	return data
}

// known is each edition in testdata, the latest first, with its pages and fields as
// counted on the published form.
var known = []struct{ year, pages, fields int }{
	{2026, 5, 48},
	{2025, 4, 29},
}

const page1 = "topmostSubform[0].Page1[0]."

var fillTests = []struct {
	source  string
	year    int
	entries Entries
	texts   map[string]string // every text field that is not empty
	boxes   map[string]string // every box that is checked, with its state
	notes   int
}{
	{
		"Form W-4 (2026) Step 1(c), first box; nothing else", 2026,
		Entries{FilingStatus: "single"},
		nil,
		map[string]string{page1 + "c1_1[0]": "1"},
		0,
	},
	{
		"Form W-4 (2026) Steps 1(c) to 4(c)", 2026,
		Entries{FilingStatus: "married_filing_jointly", MultipleJobs: true, Lines: map[string]string{
			"3a": "4400", "3b": "500", "3": "4900", "4a": "1,250", "4b": "12,345", "4c": "67",
		}},
		map[string]string{
			page1 + "Step3_ReadOrder[0].f1_06[0]": "4400", page1 + "Step3_ReadOrder[0].f1_07[0]": "500",
			page1 + "f1_08[0]": "4900", page1 + "f1_09[0]": "1,250", page1 + "f1_10[0]": "12,345", page1 + "f1_11[0]": "67",
		},
		map[string]string{page1 + "c1_1[1]": "2", page1 + "c1_2[0]": "1"},
		0,
	},
	{
		"Form W-4 (2026) pp. 3 and 4, first and last lines of the worksheets; a line given as empty", 2026,
		Entries{FilingStatus: "head_of_household", Lines: map[string]string{
			"mj.1": "3830", "mj.3": "26", "mj.4": "147", "dw.1a": "1", "dw.3b": "6000", "dw.8b": "0", "dw.15": "9,999,999", "4a": "",
		}},
		map[string]string{
			"topmostSubform[0].Page3[0].f3_01[0]": "3830", "topmostSubform[0].Page3[0].f3_05[0]": "26", "topmostSubform[0].Page3[0].f3_06[0]": "147",
			"topmostSubform[0].Page4[0].f4_01[0]": "1", "topmostSubform[0].Page4[0].f4_06[0]": "6000",
			"topmostSubform[0].Page4[0].f4_16[0]": "0", "topmostSubform[0].Page4[0].f4_23[0]": "9,999,999",
		},
		map[string]string{page1 + "c1_1[2]": "3"},
		0,
	},
	{
		"Form W-4 (2026) p. 2, Exemption from withholding: no step but 1(a), 1(b) and 5", 2026,
		Entries{FilingStatus: "single", Exempt: true},
		nil,
		map[string]string{page1 + "c1_3[0]": "1"},
		1,
	},
	{
		"Form W-4 (2025) Steps 1(c) to 4(c); the amounts of Step 3 have no letters", 2025,
		Entries{FilingStatus: "single", MultipleJobs: true, Lines: map[string]string{
			"3a": "2200", "3b": "1000", "3": "3200", "4a": "10", "4b": "20", "4c": "30",
		}},
		map[string]string{
			page1 + "Step3_ReadOrder[0].f1_06[0]": "2200", page1 + "Step3_ReadOrder[0].f1_07[0]": "1000",
			page1 + "f1_09[0]": "3200", page1 + "f1_10[0]": "10", page1 + "f1_11[0]": "20", page1 + "f1_12[0]": "30",
		},
		map[string]string{page1 + "c1_1[0]": "1", page1 + "c1_2[0]": "1"},
		0,
	},
	{
		"Form W-4 (2025) p. 3", 2025,
		Entries{FilingStatus: "married_filing_jointly", Lines: map[string]string{
			"mj.2a": "1", "mj.2b": "2", "mj.2c": "3", "mj.3": "52", "dw.1": "31000", "dw.2": "30000", "dw.5": "1000",
		}},
		map[string]string{
			"topmostSubform[0].Page3[0].f3_02[0]": "1", "topmostSubform[0].Page3[0].f3_03[0]": "2", "topmostSubform[0].Page3[0].f3_04[0]": "3",
			"topmostSubform[0].Page3[0].f3_05[0]": "52", "topmostSubform[0].Page3[0].f3_07[0]": "31000",
			"topmostSubform[0].Page3[0].f3_08[0]": "30000", "topmostSubform[0].Page3[0].f3_11[0]": "1000",
		},
		map[string]string{page1 + "c1_1[1]": "2"},
		0,
	},
	{
		"Form W-4 (2025) p. 3, first and last lines of the Multiple Jobs Worksheet", 2025,
		Entries{FilingStatus: "head_of_household", Lines: map[string]string{"mj.1": "2100", "mj.3": "24", "mj.4": "88"}},
		map[string]string{
			"topmostSubform[0].Page3[0].f3_01[0]": "2100", "topmostSubform[0].Page3[0].f3_05[0]": "24", "topmostSubform[0].Page3[0].f3_06[0]": "88",
		},
		map[string]string{page1 + "c1_1[2]": "3"},
		0,
	},
	{
		"Form W-4 (2025) p. 2, Exemption from withholding: written by hand, there is no box", 2025,
		Entries{Exempt: true},
		nil, nil, 2,
	},
}

func TestFill(t *testing.T) {
	for _, tt := range fillTests {
		t.Run(tt.source, func(t *testing.T) {
			blank := blankForm(t, tt.year)
			before := bytes.Clone(blank)
			filled, ed, err := Fill(blank, tt.entries)
			if err != nil {
				t.Fatal(err)
			}
			if !bytes.Equal(blank, before) {
				t.Error("the blank itself was changed")
			}
			if want := fmt.Sprintf("Form W-4 (%d), Employee’s Withholding Certificate", tt.year); ed.Year != tt.year || ed.Title != want {
				t.Errorf("edition %d, %q; want %d, %q", ed.Year, ed.Title, tt.year, want)
			}
			if len(ed.Notes) != tt.notes {
				t.Errorf("notes %q, want %d", ed.Notes, tt.notes)
			}
			checkFields(t, filled, tt.texts, tt.boxes)
		})
	}
}

// checkFields reads a filled form with the second reader: exactly these texts
// and boxes, drawn too, every other field empty and none locked.
func checkFields(t *testing.T, filled []byte, texts, boxes map[string]string) {
	t.Helper()
	r := newPDFReader(t, filled)
	gotTexts, gotBoxes := map[string]string{}, map[string]string{}
	for name, d := range r.fields() {
		if flags, _ := d["Ff"].(float64); int(flags)&1 != 0 {
			t.Errorf("%s is read-only", name)
		}
		if flags, _ := d["F"].(float64); int(flags) != 4 {
			t.Errorf("%s has flags %v, want those of a field that is seen and printed", name, flags)
		}
		switch d["FT"] {
		case pdfName("Tx"):
			v, ok := d["V"].(string)
			if ok {
				gotTexts[name] = v
			}
			if look := r.look(d); ok != strings.Contains(look, "("+v+") Tj") || ok != (look != "") {
				t.Errorf("%s holds %q but draws %q", name, v, look)
			}
		case pdfName("Btn"):
			if d["V"] != d["AS"] {
				t.Errorf("%s has the value %v and shows %v", name, d["V"], d["AS"])
			}
			if d["AS"] != pdfName("Off") {
				gotBoxes[name] = string(d["AS"].(pdfName))
				if _, ok := r.dict(r.dict(d["AP"])["N"])[gotBoxes[name]]; !ok {
					t.Errorf("%s has nothing to draw for %s", name, gotBoxes[name])
				}
			}
		default:
			t.Errorf("%s is of kind %v", name, d["FT"])
		}
	}
	if !maps.Equal(gotTexts, texts) {
		t.Errorf("texts %v\nwant %v", gotTexts, texts)
	}
	if !maps.Equal(gotBoxes, boxes) {
		t.Errorf("boxes %v\nwant %v", gotBoxes, boxes)
	}
}

// Everything but the lines stays: the set of fields, the pages and the
// document's title. What could show older entries goes.
func TestFillKeepsTheForm(t *testing.T) {
	for _, want := range known {
		year := want.year
		filled, _, err := Fill(blankForm(t, year), Entries{FilingStatus: "single", Lines: map[string]string{"4c": "25"}})
		if err != nil {
			t.Fatal(err)
		}
		r := newPDFReader(t, filled)
		if got := len(r.fields()); got != want.fields {
			t.Errorf("%d: %d fields, want %d", year, got, want.fields)
		}
		root := r.dict(r.trailer["Root"])
		if got := r.dict(root["Pages"])["Count"]; got != float64(want.pages) {
			t.Errorf("%d: %v pages, want %d", year, got, want.pages)
		}
		acro := r.dict(root["AcroForm"])
		for _, key := range []string{"XFA", "SigFlags", "NeedAppearances"} {
			if v, ok := acro[key]; ok {
				t.Errorf("%d: AcroForm still has %s %v", year, key, v)
			}
		}
		if v, ok := root["Perms"]; ok {
			t.Errorf("%d: the usage rights are still there: %v", year, v)
		}
		if v, ok := r.dict(root["Names"])["JavaScript"]; ok {
			t.Errorf("%d: the scripts are still there: %v", year, v)
		}
	}
}

// The same file serves for every job: what one employer's copy held is gone
// from the next, and what the person typed beforehand stays.
func TestFillAgain(t *testing.T) {
	blank := blankForm(t, 2026)
	first, _, err := Fill(blank, Entries{FilingStatus: "head_of_household", MultipleJobs: true, Lines: map[string]string{"3a": "2,200", "3": "2,200", "4c": "98765", "dw.6c": "54321"}})
	if err != nil {
		t.Fatal(err)
	}
	second := Entries{FilingStatus: "single", Lines: map[string]string{"4c": "12"}}
	again, _, err := Fill(first, second)
	if err != nil {
		t.Fatal(err)
	}
	checkFields(t, again, map[string]string{page1 + "f1_11[0]": "12"}, map[string]string{page1 + "c1_1[0]": "1"})

	r := newPDFReader(t, again)
	for n := 1; n < len(r.entries); n++ {
		if s, ok := r.get(pdfRef(n)).(pdfStream); ok && s.dict["Filter"] != nil {
			if body := r.inflate(s); bytes.Contains(body, []byte("98765")) || bytes.Contains(body, []byte("54321")) {
				t.Errorf("object %d still holds the first certificate's entries", n)
			}
		}
	}

	named := lookalike(t, 2026, map[string]string{page1 + "Step1a[0].f1_02[0]": "/V(Okonjo)", page1 + "f1_11[0]": "/V(99)"})
	filled, ed, err := Fill(named, second)
	if err != nil {
		t.Fatal(err)
	}
	got := newPDFReader(t, filled).fields()
	if v := got[page1+"Step1a[0].f1_02[0]"]["V"]; v != nil || len(ed.Notes) != 1 || !strings.Contains(words.English().Say(ed.Notes[0]), "cleared") {
		t.Errorf("somebody's last name in the blank is now %v, and said is %q", v, ed.Notes)
	}
	if v := got[page1+"f1_11[0]"]["V"]; v != "12" {
		t.Errorf("Step 4(c) is %v, want 12", v)
	}
}

func TestFillIsRepeatable(t *testing.T) {
	for _, k := range known {
		e := Entries{FilingStatus: "single", Lines: map[string]string{"3a": "1", "3b": "2", "3": "3", "4a": "4", "4b": "5", "4c": "6"}}
		a, _, err := Fill(blankForm(t, k.year), e)
		if err != nil {
			t.Fatal(err)
		}
		for range 3 {
			if b, _, err := Fill(blankForm(t, k.year), e); err != nil || !bytes.Equal(a, b) {
				t.Fatalf("%d: the same entries gave another file (error %v)", k.year, err)
			}
		}
	}
}

func TestEntriesRefused(t *testing.T) {
	line := func(name, text string) Entries {
		return Entries{FilingStatus: "single", Lines: map[string]string{name: text}}
	}
	for _, tt := range []struct {
		name    string
		year    int
		entries Entries
		want    []string
	}{
		{"no status", 2026, Entries{}, []string{`no box for the filing status ""`}},
		{"a status that the form has no box for", 2026, Entries{FilingStatus: "married_filing_separately"}, []string{"single, married_filing_jointly or head_of_household"}},
		{"a line of another edition", 2025, line("dw.15", "1"), []string{`Form W-4 (2025) has no line "dw.15"`}},
		{"a line of no edition, though empty", 2026, line("5", ""), []string{`no line "5"`}},
		{"cents", 2026, line("4c", "12.50"), []string{`line 4c: "12.50" is not a whole number of dollars`}},
		{"negative", 2026, line("4c", "-12"), []string{"line 4c"}},
		{"PDF syntax", 2026, line("4c", "1) Tj (2"), []string{"line 4c"}},
		{"commas in the wrong place", 2026, line("4c", "1,25"), []string{"line 4c"}},
		{"other digits", 2026, line("4c", "١٢٣"), []string{"line 4c"}},
		{"too long", 2026, line("4c", "123456789012345"), []string{"line 4c: 123456789012345 is too long"}},
		{"far too long", 2026, line("4c", strings.Repeat("9", 10_000)), []string{"…"}},
		{"exempt with entries", 2026, Entries{Exempt: true, Lines: map[string]string{"4c": "1"}}, []string{"no entries in Steps 2 to 4"}},
		{"exempt with Step 2(c)", 2026, Entries{Exempt: true, MultipleJobs: true}, []string{"no entries in Steps 2 to 4"}},
		{"all at once", 2026, Entries{FilingStatus: "x", Lines: map[string]string{"9": "1", "4a": "y", "4b": "z"}}, []string{`status "x"`, `line "9"`, "line 4a", "line 4b"}},
	} {
		t.Run(tt.name, func(t *testing.T) {
			out, _, err := Fill(blankForm(t, tt.year), tt.entries)
			if err == nil || out != nil {
				t.Fatalf("filled; want an error with %q", tt.want)
			}
			for _, want := range tt.want {
				if !strings.Contains(err.Error(), want) {
					t.Errorf("error %q\nlacks %q", err, want)
				}
			}
			if len(err.Error()) > 500 {
				t.Errorf("the error has %d characters", len(err.Error()))
			}
		})
	}
}

// The widest amount that the narrowest field takes, by hand: the field of 3(a)
// is 64.05 points wide on the form of 2026, less 2 on each side; a digit of
// Helvetica Bold is 0.556 of 8 points: 60.05 / 4.448 = 13.5 digits.
func TestWidestAmount(t *testing.T) {
	for digits, fits := range map[int]bool{13: true, 14: false} {
		_, _, err := Fill(blankForm(t, 2026), Entries{FilingStatus: "single", Lines: map[string]string{"3a": strings.Repeat("8", digits)}})
		if (err == nil) != fits {
			t.Errorf("%d digits: error %v", digits, err)
		}
	}
}

// Other programs see the same, where they are installed.
func TestOtherReaders(t *testing.T) {
	for _, tt := range fillTests {
		filled, _, err := Fill(blankForm(t, tt.year), tt.entries)
		if err != nil {
			t.Fatal(err)
		}
		file := filepath.Join(t.TempDir(), "filled.pdf")
		if err := os.WriteFile(file, filled, 0o600); err != nil {
			t.Fatal(err)
		}
		for _, command := range [][]string{
			{"pdftotext", "-layout", file, "-"},
			{"mutool", "draw", "-q", "-F", "txt", file},
		} {
			got, ok := run(t, command)
			if !ok {
				continue
			}
			for field, want := range tt.texts {
				if !regexp.MustCompile(`(?m)(^|\s)` + want + `\s*$`).MatchString(got) {
					t.Errorf("%s: %s does not show %s of %s", tt.source, command[0], want, field)
				}
			}
			if checks := strings.Count(got, "✔"); command[0] == "pdftotext" && checks != len(tt.boxes) {
				t.Errorf("%s: %s shows %d check marks, want %d", tt.source, command[0], checks, len(tt.boxes))
			}
		}
		run(t, []string{"qpdf", "--check", file})
	}
}

// run gives what a program prints, or false where it is not installed.
func run(t *testing.T, command []string) (string, bool) {
	t.Helper()
	if _, err := exec.LookPath(command[0]); err != nil {
		return "", false
	}
	out, err := exec.Command(command[0], command[1:]...).Output()
	if err != nil {
		t.Errorf("%v: %v\n%s", command, err, out)
	}
	return string(out), true
}

// Nothing is written to the home folder.
func TestHomeFolderUntouched(t *testing.T) {
	home := t.TempDir()
	t.Setenv("HOME", home)
	t.Setenv("XDG_CONFIG_HOME", filepath.Join(home, "config"))
	if _, _, err := Fill(blankForm(t, 2026), Entries{FilingStatus: "single"}); err != nil {
		t.Fatal(err)
	}
	if left, err := os.ReadDir(home); err != nil || len(left) > 0 {
		t.Errorf("the home folder holds %v, error %v", left, err)
	}
}
