package report

import (
	"fmt"
	"io"
	"time"

	"codeberg.org/go-pdf/fpdf"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"

	"example.com/plumbline/internal/layout"
)

// Sizes of the sheet in points: letter paper, portrait.
const (
	sheetWidth   = 612.0
	sheetHeight  = 792.0
	sheetMargin  = 54.0
	sheetBottom  = sheetHeight - 60
	columnWidth  = sheetWidth - 2*sheetMargin
	footerHeight = sheetHeight - 36
)

// Sizes of type in points.
const (
	titleSize   = 18.0
	headingSize = 12.0
	bodySize    = 10.0
	smallSize   = 8.5
)

// lineHeight is the distance of two lines by the size of their type.
const lineHeight = 1.35

// PDF draws pages on letter paper, each beginning on a sheet of its own, in black
// on white with the fonts embedded. The same pages give the same bytes: a PDF
// carries the day of the answers, not of the drawing. It fails only as the
// writer does, or when a font cannot be read.
//
// A letter that the fonts do not have is drawn without its accents; a script
// that they do not have, as boxes.
func PDF(w io.Writer, pages []Page) error {
	counted, err := drawPDF(pages, nil)
	if err != nil {
		return err
	}
	drawn, err := drawPDF(pages, counted.sheets)
	if err != nil {
		return err
	}
	return drawn.f.Output(w)
}

// pdf is a document in the making.
type pdf struct {
	f      *fpdf.Fpdf
	y      float64 // the top of what comes next
	sheets []int   // of each page, as drawn so far
	totals []int   // of each page, nil when not known yet
	title  string  // of the page
}

// drawPDF draws pages; the number of sheets of each is printed where it is
// known.
func drawPDF(pages []Page, totals []int) (*pdf, error) {
	f := fpdf.New("P", "pt", "Letter", "")
	f.SetCatalogSort(true)
	f.SetAutoPageBreak(false, 0)
	f.SetMargins(0, 0, 0)
	f.SetCellMargin(0)
	f.SetLang("en-US")
	f.SetProducer("plumbline", true)
	f.AddUTF8FontFromBytes("go", "", goregular.TTF)
	f.AddUTF8FontFromBytes("go", "B", gobold.TTF)
	d := &pdf{f: f, totals: totals}
	for i, p := range pages {
		p = p.cleaned().mapped(printable)
		if i == 0 {
			f.SetTitle(p.Title, true)
			made := time.Unix(0, 0).UTC() // a page without a day has a fixed one all the same
			if !p.AsOf.IsZero() {
				made = time.Date(p.AsOf.Year, p.AsOf.Month, p.AsOf.Day, 12, 0, 0, 0, time.UTC)
			}
			f.SetCreationDate(made)
			f.SetModificationDate(made)
		}
		d.page(p)
	}
	return d, f.Error()
}

// page draws one page on as many sheets as it needs.
func (d *pdf) page(p Page) {
	d.title = p.Title
	d.sheets = append(d.sheets, 0)
	d.sheet()
	d.text(p.Title, sheetMargin, columnWidth, titleSize, true)
	if p.Subtitle != "" {
		d.y += 2
		d.text(p.Subtitle, sheetMargin, columnWidth, bodySize, false)
	}
	d.y += 6
	for _, b := range p.Blocks {
		d.block(b)
	}
}

// sheet begins a sheet of the page, with its footer: the page's title, and
// which of how many sheets it is.
func (d *pdf) sheet() {
	page := len(d.sheets) - 1
	d.sheets[page]++
	d.f.AddPage()
	d.y = sheetMargin
	if d.totals == nil || d.totals[page] == 1 {
		return
	}
	d.font(smallSize, false)
	d.f.Text(sheetMargin, footerHeight, d.title)
	d.right(fmt.Sprintf("sheet %d of %d", d.sheets[page], d.totals[page]), sheetMargin+columnWidth, footerHeight)
}

// room begins a new sheet unless the height is left on this one; it reports
// whether it did.
func (d *pdf) room(height float64) bool {
	if d.y+height <= sheetBottom {
		return false
	}
	d.sheet()
	return true
}

func (d *pdf) font(size float64, bold bool) {
	style := ""
	if bold {
		style = "B"
	}
	d.f.SetFont("go", style, size)
}

// text writes running text in a column, line by line.
func (d *pdf) text(s string, x, width, size float64, bold bool) {
	for _, line := range d.lines(s, width, size, bold) {
		d.room(size * lineHeight)
		d.font(size, bold)
		d.f.Text(x, d.y+size, line)
		d.y += size * lineHeight
	}
}

// lines breaks text for a column.
func (d *pdf) lines(s string, width, size float64, bold bool) []string {
	d.font(size, bold)
	return layout.WrapBy(s, width, d.f.GetStringWidth)
}

// right writes text that ends at x, in the font that is set.
func (d *pdf) right(s string, x, baseline float64) {
	d.f.Text(x-d.f.GetStringWidth(s), baseline, s)
}

// rule draws a line across the column.
func (d *pdf) rule(y, weight float64) {
	d.f.SetLineWidth(weight)
	d.f.Line(sheetMargin, y, sheetMargin+columnWidth, y)
}
