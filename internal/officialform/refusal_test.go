package officialform

import (
	"bytes"
	"fmt"
	"maps"
	"math/rand"
	"slices"
	"strings"
	"testing"

	"github.com/pdfcpu/pdfcpu/pkg/api"
	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu/model"

	"example.com/plumbline/internal/words"
)

// otherForm is a made-up document with a text on its first page and these fields.
func otherForm(title, pageText string, pages int, fields ...string) []byte {
	content := "BT /F 12 Tf 72 700 Td (" + pageText + ") Tj ET"
	objects := []string{
		"<</Type/Catalog/Pages 2 0 R/AcroForm 5 0 R>>",
		"",
		"",
		fmt.Sprintf("<</Length %d>>\nstream\n%s\nendstream", len(content), content),
		"",
		"<</Type/Font/Subtype/Type1/BaseFont/Helvetica-Bold/FirstChar 48/LastChar 57/Widths[" + strings.Repeat("556 ", 10) + "]>>",
		"<</Type/XObject/Subtype/Form/BBox[0 0 8 8]/Length 0>>\nstream\n\nendstream",
	}
	kids := "3 0 R "
	for range pages - 1 {
		objects = append(objects, "<</Type/Page/Parent 2 0 R>>")
		kids += fmt.Sprintf("%d 0 R ", len(objects))
	}
	objects[1] = fmt.Sprintf("<</Type/Pages/Kids[%s]/Count %d/MediaBox[0 0 612 792]>>", kids, pages)
	var refs string
	for _, f := range fields {
		objects = append(objects, f)
		refs += fmt.Sprintf("%d 0 R ", len(objects))
	}
	objects[2] = "<</Type/Page/Parent 2 0 R/Contents 4 0 R/Resources<</Font<</F 6 0 R>>>>/Annots[" + refs + "]>>"
	objects[4] = "<</Fields[" + refs + "]/DA(/F 8 Tf 0 g)/DR<</Font<</F 6 0 R>>>>>>"
	if title != "" {
		objects = append(objects, "<</Title("+title+")>>")
	}
	file := madeUpPDF(objects...)
	if title != "" {
		file = bytes.Replace(file, []byte("/Root 1 0 R"), fmt.Appendf(nil, "/Root 1 0 R/Info %d 0 R", len(objects)), 1)
	}
	return file
}

const widget = "<</Type/Annot/Subtype/Widget/F 4/Rect[72 600 172 614]/DA(/F 8 Tf 0 g)"

func textField(name, more string) string {
	return widget + "/FT/Tx/T(" + name + ")" + more + ">>"
}

// lookalike is a small made-up file with an edition's title, heading and
// fields, in which the fields are not nested, so that a full name is one name.
// more is added to the dictionaries of the fields that it names.
func lookalike(t testing.TB, year int, more map[string]string) []byte {
	t.Helper()
	all := mustLayouts(t)
	l := all[slices.IndexFunc(all, func(l layout) bool { return l.Year == year })]
	var fields []string
	for _, b := range l.Boxes {
		fields = append(fields, widget+"/FT/Btn/T("+b.Field+")/V/Off/AS/Off/AP<</N<</"+b.On+" 7 0 R>>>>"+more[b.Field]+">>")
	}
	for _, names := range []map[string]string{l.Lines, l.LeftAlone} {
		for name := range maps.Values(names) {
			fields = append(fields, textField(name, more[name]))
		}
	}
	slices.Sort(fields)
	return otherForm("", fmt.Sprintf(`Employee\222s Withholding Certificate Form W-4 \(%d\)`, year), l.Pages, fields...)
}

func encrypted(t *testing.T, file []byte, userPassword string) []byte {
	t.Helper()
	conf := model.NewAESConfiguration(userPassword, "owner", 256)
	var out bytes.Buffer
	if err := api.Encrypt(bytes.NewReader(file), &out, conf); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

func TestRefusals(t *testing.T) {
	form2026 := blankForm(t, 2026)
	heading := `Employee\222s Withholding Certificate Form W-4 \(2026\)`
	noise := make([]byte, 5000)
	rand.New(rand.NewSource(1)).Read(noise)
	const again = "get a fresh copy of the blank fillable Form W-4"
	var editions []string
	for _, k := range known {
		editions = append(editions, fmt.Sprintf("Form W-4 (%d)", k.year))
	}
	use := words.English().Say(words.T("form.use", "editions", editions))
	for _, tt := range []struct {
		name     string
		file     []byte
		found    string
		whatToDo string
	}{
		{"nothing", nil, "the file is empty", again},
		{"text", []byte("Step 4(c) 25\n"), "not a PDF but a text file", again},
		{"a web page", []byte("<!DOCTYPE html><html></html>"), "not a PDF but a web page", again},
		{"a picture", []byte("\x89PNG\r\n\x1a\n rest"), "not a PDF but a picture", again},
		{"noise", noise, "not a PDF", again},
		{"noise after a PDF's first line", append([]byte("%PDF-1.7\n"), noise...), "damaged", again},
		{"huge", append([]byte("%PDF-1.7\n"), make([]byte, 21<<20)...), "22 million bytes", again},
		{"the first half", form2026[:len(form2026)/2], "", again},
		{"encrypted for everybody", encrypted(t, form2026, "secret"), "encrypted", again},
		{"encrypted against changes only", encrypted(t, form2026, ""), "encrypted", again},
		{"no fields", madeUpPDF("<</Type/Catalog/Pages 2 0 R>>", "<</Type/Pages/Kids[3 0 R]/Count 1/MediaBox[0 0 612 792]>>", "<</Type/Page/Parent 2 0 R>>"), "no fields to fill", again},
		{"another form", otherForm("Parking Permit", "Parking Permit", 5, textField("plate", "")), `its title is "Parking Permit"`, use},
		{"another form, hostile title", otherForm(`\376\377\000\033\000[\0003\0001\000m`, "Parking Permit", 5, textField("plate", "")), `\x1b[31m`, use},
		{"the form for pensions", otherForm("", `Withholding Certificate for Periodic Pension Form W-4P \(2026\)`, 5, textField("a", "")), "not Form W-4", use},
		{"an edition not known", otherForm("", strings.Replace(heading, "2026", "2031", 1), 5, textField("a", "")), "Form W-4 (2031), an edition whose fields this program does not know", use},
		{"no year", otherForm("", `Employee\222s Withholding Certificate Form W-4`, 5, textField("a", "")), "its pages name no year", use},
		{"two years", otherForm("", heading+` Form W-4 \(2025\)`, 5, textField("a", "")), "several years: 2025 and 2026", use},
		{"a page missing", otherForm("", heading, 4, textField("a", "")), "it has 4 of its 5 pages", again},
		{"other fields under the form's heading", otherForm("", heading, 5, textField("a", "")), `48 missing, 1 not known, 0 of another kind; one is "a"`, again},
		{"a box without its state", lookalike(t, 2026, map[string]string{page1 + "c1_3[0]": "/AP<</N<</Yes 7 0 R>>>>"}), "1 of another kind", again},
		{"signed", otherForm("", heading, 5, widget+"/FT/Sig/T(s)/V<</Type/Sig/Filter/Adobe.PPKLite/SubFilter/adbe.pkcs7.detached/Contents<00>/ByteRange[0 1 2 3]>>>>"), "signed", again},
		{"a tree of fields that returns into itself", otherForm("", heading, 5, "<</T(a)/FT/Tx/Kids[12 0 R]>>"), "damaged", again},
	} {
		t.Run(tt.name, func(t *testing.T) {
			filled, _, err := Fill(tt.file, Entries{FilingStatus: "single"})
			if err == nil || filled != nil {
				t.Fatal("was filled")
			}
			for _, want := range []string{tt.found, tt.whatToDo} {
				if !strings.Contains(err.Error(), want) {
					t.Errorf("error %q\nlacks %q", err, want)
				}
			}
			if _, err := Identify(tt.file); err == nil {
				t.Error("was identified")
			}
			t.Log(err)
		})
	}
}

// The small lookalike is a form to the program, so that the cases above fail
// for the reason they name and not for the way they are made.
func TestLookalikeIsFilled(t *testing.T) {
	for _, k := range known {
		filled, _, err := Fill(lookalike(t, k.year, nil), Entries{FilingStatus: "single", Lines: map[string]string{"4a": "7"}})
		if err != nil {
			t.Fatal(k.year, err)
		}
		newPDFReader(t, filled).fields()
	}
}

// A file cut short is refused wherever the cut falls.
func TestCutShort(t *testing.T) {
	for _, k := range known {
		year := k.year
		whole := blankForm(t, year)
		for tenth := 1; tenth < 10; tenth++ {
			if _, err := Identify(whole[:len(whole)*tenth/10]); err == nil {
				t.Errorf("%d: accepted with %d tenths of its bytes", year, tenth)
			}
		}
	}
}

// A file that lost a piece out of its middle is refused, unless the piece was of
// what is dropped anyway (the XFA packet): then the copy is the same.
func TestPieceMissing(t *testing.T) {
	e := Entries{FilingStatus: "single"}
	for _, k := range known {
		year := k.year
		blank := blankForm(t, year)
		want, _, err := Fill(blank, e)
		if err != nil {
			t.Fatal(err)
		}
		refused := 0
		const pieces = 16
		for i := range pieces {
			from, to := len(blank)*i/pieces, len(blank)*(i+1)/pieces
			got, _, err := Fill(slices.Concat(blank[:from], blank[to:]), e)
			if err != nil {
				refused++
			} else if !bytes.Equal(got, want) {
				t.Errorf("%d: without bytes %d to %d the copy is another one", year, from, to)
			}
		}
		if refused < pieces/2 {
			t.Errorf("%d: only %d of %d damaged files were refused", year, refused, pieces)
		}
	}
}

func FuzzFill(f *testing.F) {
	for _, k := range known {
		f.Add(lookalike(f, k.year, nil))
	}
	f.Add(otherForm("Parking Permit", "Parking Permit", 5, textField("plate", "")))
	f.Add([]byte("%PDF-1.7\n"))
	f.Add([]byte("not a PDF"))
	e := Entries{FilingStatus: "single", Lines: map[string]string{"3": "2,200", "4c": "25"}}
	f.Fuzz(func(t *testing.T, file []byte) {
		filled, ed, err := Fill(file, e)
		if err != nil {
			if filled != nil || !strings.Contains(err.Error(), " ") {
				t.Errorf("%d bytes with the error %q", len(filled), err)
			}
			return
		}
		again, err := Identify(filled)
		if err != nil || again.Year != ed.Year {
			t.Errorf("a filled form of %d is afterwards %+v, error %v", ed.Year, again, err)
		}
	})
}
