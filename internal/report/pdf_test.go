package report

import (
	"bytes"
	"io"
	"regexp"
	"strings"
	"testing"
	"unicode/utf16"

	"github.com/pdfcpu/pdfcpu/pkg/api"
	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu"
	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu/model"

	"example.com/plumbline/internal/layout"
)

// pdfText is the text of pages drawn as a PDF, read back by another library: the
// strings that the sheets show, in order, without the footers.
func pdfText(t testing.TB, pages ...Page) string {
	t.Helper()
	return pdfTextIn(t, en, pages...)
}

func pdfTextIn(t testing.TB, w Writer, pages ...Page) string {
	t.Helper()
	var b bytes.Buffer
	if err := w.PDF(&b, pages); err != nil {
		t.Fatal(err)
	}
	api.DisableConfigDir()
	ctx, err := api.ReadAndValidate(bytes.NewReader(b.Bytes()), model.NewDefaultConfiguration())
	if err != nil {
		t.Fatal(err)
	}
	var words []string
	for n := 1; n <= ctx.PageCount; n++ {
		r, err := pdfcpu.ExtractPageContent(ctx, n)
		if err != nil {
			t.Fatal(err)
		}
		content, err := io.ReadAll(r)
		if err != nil {
			t.Fatal(err)
		}
		shown := shownStrings(content)
		if sheet := regexp.MustCompile(`^sheet \d+ of \d+$`); len(shown) > 1 && sheet.MatchString(shown[1]) {
			shown = shown[2:]
		}
		words = append(words, shown...)
	}
	return strings.Join(words, " ")
}

// shownString is a string that a content stream shows.
var shownString = regexp.MustCompile(`(?s)\(((?:\\.|[^\\)])*)\)\s*Tj`)

// shownStrings are the strings of a content stream, which hold two bytes a
// letter (PDF 32000-1:2008, 7.3.4.2 and 9.7.5.2, Identity-H).
func shownStrings(content []byte) []string {
	var all []string
	for _, m := range shownString.FindAllSubmatch(content, -1) {
		var raw []byte
		for i := 0; i < len(m[1]); i++ {
			c := m[1][i]
			if c == '\\' {
				i++
				c = m[1][i]
				if c == 'r' {
					c = '\r'
				}
			}
			raw = append(raw, c)
		}
		var letters []uint16
		for i := 0; i+1 < len(raw); i += 2 {
			letters = append(letters, uint16(raw[i])<<8|uint16(raw[i+1]))
		}
		all = append(all, string(utf16.Decode(letters)))
	}
	return all
}

// Whatever a page says can be read out of its PDF.
func TestPDFText(t *testing.T) {
	for _, name := range demos {
		t.Run(name, func(t *testing.T) {
			pages := pagesOf(t, solved(t, demo(t, name)))
			text := spaceless(pdfText(t, pages...))
			for _, p := range pages {
				p.mapped(func(s string) string {
					if !strings.Contains(text, spaceless(printable(s))) {
						t.Errorf("%s: %q is not in the PDF", p.Title, s)
					}
					return s
				})
			}
		})
	}
}

// spaceless leaves out the spaces, which are where lines break.
func spaceless(s string) string { return strings.Join(strings.Fields(s), "") }

func TestPDFIsTheSameEachTime(t *testing.T) {
	r := solved(t, demo(t, "two-earners"))
	var first bytes.Buffer
	if err := en.PDF(&first, pagesOf(t, r)); err != nil {
		t.Fatal(err)
	}
	for range 5 {
		var again bytes.Buffer
		if err := en.PDF(&again, pagesOf(t, r)); err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(first.Bytes(), again.Bytes()) {
			t.Fatal("two drawings of the same pages differ")
		}
	}
	if !bytes.Contains(first.Bytes(), []byte("(D:20260615120000")) {
		t.Error("the PDF is not dated by the day of the answers")
	}
}

func TestPDFLetters(t *testing.T) {
	tests := []struct{ in, want string }{
		{"Núñez, Łódź, Ćevapi, Müller, Şahin", "Núñez, Łódź, Ćevapi, Müller, Şahin"},
		{"Москва, Αθήνα", "Москва, Αθήνα"},
		{"Nu\u0301n\u0303ez", "Núñez"}, // accents apart
		{"Nguyễn Thị Ước, Kaʻanapali", "Nguyễn Thị Ước, Kaʻanapali"},
		{"Ọ̀yọ́", "Ọyọ"},           // no letter has both accents: one is left
		{"שלום Deli", "□□□□ Deli"}, // the fonts have it, but the order would be wrong
		{"q\u0301", "q"},           // no such letter
		{"北京 Deli", "□□ Deli"},     // no such script
		{"Zo\u00eb\u200d", "Zoë"},  // cleaned before
		{"\u0301", ""},             // an accent on nothing
		{"\U0001F468 ok", "□ ok"},  // beyond the basic plane
		{"Café №5 “Ünï” — €", "Café №5 “Ünï” — €"},
	}
	for _, tt := range tests {
		if got := printable(layout.Clean(tt.in)); got != tt.want {
			t.Errorf("printable(%q) = %q, want %q", tt.in, got, tt.want)
		}
	}
	p := Page{Title: "Núñez & Łódź", Blocks: []Block{Paragraph("Москва (Σ\\)")}}
	if got := pdfText(t, p); got != "Núñez & Łódź Москва (Σ\\)" {
		t.Errorf("read back %q", got)
	}
}

// A page that needs several sheets says on each which it is; a page of one
// sheet, such as an employer's, says nothing of other pages.
func TestPDFFooters(t *testing.T) {
	long := Page{Title: "Long", Blocks: []Block{List{Items: make([]string, 100)}}}
	short := Page{Title: "Short", Blocks: []Block{Paragraph("one")}}
	d, err := en.drawPDF([]Page{long, short, long}, nil)
	if err != nil {
		t.Fatal(err)
	}
	if d.sheets[0] < 2 || d.sheets[1] != 1 || d.sheets[0] != d.sheets[2] {
		t.Errorf("sheets %v", d.sheets)
	}
	if got := pdfText(t, short); got != "Short one" {
		t.Errorf("read back %q", got)
	}
}

// A page says when letters of it could not be drawn, and only then.
func TestPDFSaysWhichLettersItLacks(t *testing.T) {
	const said = "Some letters cannot be printed"
	for name, want := range map[string]bool{"Café Ørsted": false, "Phở Nguyễn": false, "喜来登": true, "مطعم": true, "שלום": true} {
		text := pdfText(t, Page{Title: "Form W-4", Blocks: []Block{Paragraph(name)}})
		if got := strings.Contains(spaceless(text), spaceless(said)); got != want {
			t.Errorf("%s: said %v, want %v", name, got, want)
		}
	}
}
