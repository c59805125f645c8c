package report

import (
	"io"
	"time"

	"codeberg.org/go-pdf/fpdf"
	"github.com/go-fonts/liberation/liberationsansbold"
	"github.com/go-fonts/liberation/liberationsansregular"
	"golang.org/x/text/unicode/norm"

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
	leadSize    = 11.5
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
// that they do not have, as boxes; the page then says so.
func (w Writer) PDF(out io.Writer, pages []Page) error {
	counted, err := w.drawPDF(pages, nil)
	if err != nil {
		return err
	}
	drawn, err := w.drawPDF(pages, counted.sheets)
	if err != nil {
		return err
	}
	return drawn.f.Output(out)
}

// pdf is a document in the making.
type pdf struct {
	w     Writer
	f     *fpdf.Fpdf
	y     float64 // the top of what comes next
	scale float64 // of type and distances, less than one where a page would else end in a few words

	// While something is measured, nothing is drawn.
	dry     bool
	counted int  // sheets so far
	endless bool // the sheet has no end

	sheets []int  // of each page, as drawn so far
	totals []int  // of each page, nil when not known yet
	title  string // of the page
}

// drawPDF draws pages; the number of sheets of each is printed where it is
// known.
func (w Writer) drawPDF(pages []Page, totals []int) (*pdf, error) {
	f := fpdf.New("P", "pt", "Letter", "")
	f.SetCatalogSort(true)
	f.SetAutoPageBreak(false, 0)
	f.SetMargins(0, 0, 0)
	f.SetCellMargin(0)
	f.SetLang(w.language.Tag())
	f.SetProducer("plumbline", true)
	f.AddUTF8FontFromBytes("sans", "", liberationsansregular.TTF)
	f.AddUTF8FontFromBytes("sans", "B", liberationsansbold.TTF)
	d := &pdf{w: w, f: f, totals: totals}
	for i, p := range pages {
		replaced := false
		p = p.cleaned().mapped(func(text string) string {
			drawn := printable(text)
			replaced = replaced || drawn != norm.NFC.String(text)
			return drawn
		})
		if replaced {
			p.add(Paragraph(w.say("page.letters")))
		}
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

// fullEnough is the least part of the last sheet that a page fills, where closer
// lines on the sheets before can help it.
const fullEnough = 0.25

// page draws one page on as many sheets as it needs, its lines a little closer
// where the last sheet would hold a few words.
func (d *pdf) page(p Page) {
	d.title = p.Title
	d.scale = 1
	for scale := 1.0; scale > 0.76; scale -= 0.04 {
		d.scale = scale
		sheets, filled := d.measure(func() { d.contents(p) })
		if sheets == 1 || filled >= fullEnough {
			break
		}
		d.scale = 1
	}
	d.sheets = append(d.sheets, 0)
	d.sheet()
	d.f.Bookmark(p.Title, 0, 0)
	d.contents(p)
}

// contents draws what is on a page.
func (d *pdf) contents(p Page) {
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

// measure is how many sheets something would take up, and how much of the last.
func (d *pdf) measure(draw func()) (sheets int, filled float64) {
	y, dry, counted := d.y, d.dry, d.counted
	d.y, d.dry, d.counted = sheetMargin, true, 1
	draw()
	sheets, filled = d.counted, (d.y-sheetMargin)/(sheetBottom-sheetMargin)
	d.y, d.dry, d.counted = y, dry, counted
	return sheets, filled
}

// height is how tall something is, on one sheet.
func (d *pdf) height(draw func()) float64 {
	y, dry, endless := d.y, d.dry, d.endless
	d.y, d.dry, d.endless = 0, true, true
	draw()
	height := d.y
	d.y, d.dry, d.endless = y, dry, endless
	return height
}

// sheet begins a sheet of the page, with its footer: the page's title, and
// which of how many sheets it is.
func (d *pdf) sheet() {
	if d.dry {
		d.counted++
		d.y = sheetMargin
		return
	}
	page := len(d.sheets) - 1
	d.sheets[page]++
	d.f.AddPage()
	d.y = sheetMargin
	if d.totals == nil || d.totals[page] == 1 {
		return
	}
	d.font(smallSize, false)
	d.put(sheetMargin, footerHeight, d.title)
	d.right(d.w.say("page.sheet", "n", d.sheets[page], "of", d.totals[page]), sheetMargin+columnWidth, footerHeight)
}

// room begins a new sheet unless the height is left on this one; it reports
// whether it did.
func (d *pdf) room(height float64) bool {
	if d.endless || d.y+height <= sheetBottom || d.y <= sheetMargin {
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
	d.f.SetFont("sans", style, size*d.scale)
}

// line is the distance of two lines of a size of type.
func (d *pdf) line(size float64) float64 { return size * d.scale * lineHeight }

// put writes text in the font that is set.
func (d *pdf) put(x, baseline float64, s string) {
	if !d.dry {
		d.f.Text(x, baseline, s)
	}
}

// text writes running text in a column, line by line.
func (d *pdf) text(s string, x, width, size float64, bold bool) {
	for _, line := range d.lines(s, width, size, bold) {
		d.room(d.line(size))
		d.font(size, bold)
		d.put(x, d.y+size*d.scale, line)
		d.y += d.line(size)
	}
}

// lines breaks text for a column.
func (d *pdf) lines(s string, width, size float64, bold bool) []string {
	d.font(size, bold)
	return layout.WrapBy(s, width, d.f.GetStringWidth)
}

// right writes text that ends at x, in the font that is set.
func (d *pdf) right(s string, x, baseline float64) {
	d.put(x-d.f.GetStringWidth(s), baseline, s)
}

// rule draws a line across the column.
func (d *pdf) rule(y, weight float64) {
	d.stroke(sheetMargin, sheetMargin+columnWidth, y, weight)
}

// stroke draws a line from one place across to another.
func (d *pdf) stroke(from, to, y, weight float64) {
	if d.dry {
		return
	}
	d.f.SetLineWidth(weight)
	d.f.Line(from, y, to, y)
}

// frame draws a box, filled with a gray from 0 (black) to 255, or -1 for none.
func (d *pdf) frame(x, y, width, height, weight float64, gray int) {
	if d.dry || width <= 0 {
		return
	}
	d.f.SetLineWidth(weight)
	style := "D"
	if gray >= 0 {
		d.f.SetFillColor(gray, gray, gray)
		style = "FD"
	}
	d.f.Rect(x, y, width, height, style)
}
