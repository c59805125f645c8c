package report

import (
	"fmt"

	"example.com/plumbline/internal/money"
)

func (d *pdf) block(b Block) {
	switch b := b.(type) {
	case Heading:
		d.y += 12
		d.room(130)
		d.rule(d.y, 0.8)
		d.y += 6
		d.text(string(b), sheetMargin, columnWidth, headingSize, true)
		d.y += 3
	case Subheading:
		d.y += 6
		d.room(70)
		d.text(string(b), sheetMargin, columnWidth, bodySize, true)
		d.y += 2
	case Paragraph:
		if lines := len(d.lines(string(b), columnWidth, bodySize, false)); lines <= 3 { // not torn apart
			d.room(float64(lines) * bodySize * lineHeight)
		}
		d.text(string(b), sheetMargin, columnWidth, bodySize, false)
		d.y += 5
	case Entries:
		d.entries(b)
	case Rows:
		d.rows(b)
	case Table:
		d.table(b)
	case List:
		d.list(b)
	case Blanks:
		d.blanks(b)
	case Chain:
		d.chain(b)
	case Bars:
		d.bars(b)
	}
}

// Columns of an entry: the step, what it is for and why, and a framed field
// with what to write.
const (
	stepColumn  = 60.0
	fieldColumn = 190.0
	labelColumn = columnWidth - stepColumn - fieldColumn - 12
	fieldLeft   = sheetMargin + columnWidth - fieldColumn
	fieldMargin = 6.0
)

func (d *pdf) entries(entries Entries) {
	for _, e := range entries {
		empty := e.Write == leaveEmpty
		field := d.lines(e.Write, fieldColumn-2*fieldMargin, bodySize, !empty)
		left := float64(len(d.lines(e.Label, labelColumn, bodySize, false))) * bodySize * lineHeight
		if e.Reason != "" {
			left += float64(len(d.lines(e.Reason, labelColumn, smallSize, false)))*smallSize*lineHeight + 2
		}
		height := float64(len(field))*bodySize*lineHeight + 2*3
		d.room(max(left, height) + 8)

		top := d.y
		d.font(bodySize, true)
		d.f.Text(sheetMargin, top+3+bodySize, e.Step)
		d.f.SetLineWidth(0.6)
		d.f.Rect(fieldLeft, top, fieldColumn, height, "D")
		d.font(bodySize, !empty)
		for i, line := range field {
			d.right(line, fieldLeft+fieldColumn-fieldMargin, top+3+bodySize+float64(i)*bodySize*lineHeight)
		}
		d.y = top + 3
		d.text(e.Label, sheetMargin+stepColumn, labelColumn, bodySize, false)
		if e.Reason != "" {
			d.text(e.Reason, sheetMargin+stepColumn, labelColumn, smallSize, false)
		}
		d.y = max(d.y, top+height) + 5
	}
	d.y += 3
}

// rows sets labels left and amounts right; where a line of a form belongs to an
// amount, it stands after it.
func (d *pdf) rows(rows Rows) {
	const amounts, gap = 90.0, 10.0
	forms := 0.0
	d.font(smallSize, false)
	for _, r := range rows {
		if r.Form != "" {
			forms = max(forms, d.f.GetStringWidth(r.Form)+gap)
		}
	}
	forms = min(forms, columnWidth/3)
	right := sheetMargin + columnWidth - forms
	labels := columnWidth - forms - amounts
	for _, r := range rows {
		label, form := d.lines(r.Label, labels, bodySize, r.Total), d.lines(r.Form, forms-gap, smallSize, false)
		d.room(float64(max(len(label), len(form))) * bodySize * lineHeight)
		if r.Total {
			d.f.SetLineWidth(0.6)
			d.f.Line(right-amounts+gap, d.y+1, right, d.y+1)
			d.y += 2
		}
		top := d.y
		if r.Form != "" {
			d.text(r.Form, right+gap, forms-gap, smallSize, false)
		}
		below := d.y
		d.y = top
		d.text(r.Label, sheetMargin, labels, bodySize, r.Total)
		d.right(r.Amount, right, top+float64(len(label)-1)*bodySize*lineHeight+bodySize)
		for _, detail := range r.Detail {
			d.text(detail, sheetMargin+14, labels-14, smallSize, false)
		}
		d.y = max(d.y, below)
	}
	d.y += 6
}

// table sets figures side by side, in smaller type where they need it; a table
// that is too wide even so is written row by row.
func (d *pdf) table(t Table) {
	const gap = 16.0
	for _, size := range []float64{bodySize, smallSize} {
		widths := make([]float64, len(t.Head))
		total := gap * float64(len(t.Head)-1)
		for c := range t.Head {
			d.font(size, true)
			widths[c] = d.f.GetStringWidth(t.Head[c])
			d.font(size, false)
			for _, row := range t.Rows {
				widths[c] = max(widths[c], d.f.GetStringWidth(row[c]))
			}
			total += widths[c]
		}
		if total <= columnWidth {
			d.tableRows(t, widths, size, gap)
			return
		}
	}
	for _, row := range t.Rows {
		d.text(row[0], sheetMargin, columnWidth, bodySize, true)
		var rows Rows
		for c := 1; c < len(row); c++ {
			rows = append(rows, Row{Label: t.Head[c], Amount: row[c]})
		}
		d.rows(rows)
	}
}

func (d *pdf) tableRows(t Table, widths []float64, size, gap float64) {
	write := func(cells []string, bold bool) {
		d.font(size, bold)
		x := sheetMargin
		for c, cell := range cells {
			if c == 0 {
				d.f.Text(x, d.y+size, cell)
			} else {
				d.right(cell, x+widths[c], d.y+size)
			}
			x += widths[c] + gap
		}
		d.y += size * 1.5
	}
	width := gap * float64(len(widths)-1)
	for _, w := range widths {
		width += w
	}
	head := func() {
		write(t.Head, true)
		d.f.SetLineWidth(0.6)
		d.f.Line(sheetMargin, d.y, sheetMargin+width, d.y)
		d.y += 2
	}
	const together = 12 // a table of so many rows is not torn apart
	d.room(size * 1.5 * float64(min(len(t.Rows), together)+1))
	head()
	for _, row := range t.Rows {
		if d.room(size * 1.5) {
			head()
		}
		write(row, false)
	}
	d.y += 6
}

func (d *pdf) list(l List) {
	const indent = 16.0
	for i, item := range l.Items {
		mark := "•"
		if l.Numbered {
			mark = fmt.Sprintf("%d.", i+1)
		}
		lines := d.lines(item, columnWidth-indent, bodySize, false)
		d.room(float64(min(len(lines), 3)) * bodySize * lineHeight)
		d.font(bodySize, l.Numbered)
		d.f.Text(sheetMargin+2, d.y+bodySize, mark)
		d.text(item, sheetMargin+indent, columnWidth-indent, bodySize, false)
		d.y += 3
	}
	d.y += 3
}

// blanks are lines to write on by hand.
func (d *pdf) blanks(blanks Blanks) {
	const height, labels = 26.0, 170.0
	for _, label := range blanks {
		d.room(height)
		base := d.y + height - 6
		d.font(bodySize, false)
		d.f.Text(sheetMargin, base, label)
		d.f.SetLineWidth(0.5)
		d.f.Line(sheetMargin+labels, base+2, sheetMargin+columnWidth, base+2)
		d.y += height
	}
	d.y += 10
}

// chain sets each link in by its depth, its amount right.
func (d *pdf) chain(links Chain) {
	const step, amountColumn = 12.0, 110.0
	for _, l := range links {
		indent := step * float64(min(l.Depth, deepest))
		d.room(bodySize * lineHeight * 2)
		top := d.y
		d.text(l.Label, sheetMargin+indent, columnWidth-indent-amountColumn, bodySize, l.Depth == 0)
		if d.y < top {
			top = d.y - bodySize*lineHeight // the label went on on a new sheet
		}
		d.font(bodySize, l.Depth == 0)
		d.right(l.Amount, sheetMargin+columnWidth, top+bodySize)
		for _, detail := range l.Detail {
			d.text(detail, sheetMargin+indent+step, columnWidth-indent-step-amountColumn, smallSize, false)
		}
		d.y += 2
	}
	d.y += 6
}

// barGrays are the fills of a bar's parts, in order; all are outlined.
var barGrays = []int{0, 175, 255}

func (d *pdf) bars(b Bars) {
	const height, step = 8.0, 12.5
	for i, legend := range b.Legend {
		d.room(step)
		d.bar(sheetMargin, d.y+1, 18, height, i)
		d.text(legend, sheetMargin+24, columnWidth-24, smallSize, false)
		d.y += 2
	}
	d.y += 4
	d.font(smallSize, false)
	labels, figures, most := 0.0, 0.0, money.Zero
	for _, r := range b.Rows {
		labels = max(labels, d.f.GetStringWidth(r.Label))
		figures = max(figures, d.f.GetStringWidth(r.Figure))
		most = money.Max(most, money.Sum(r.Parts...))
	}
	left := sheetMargin + labels + 8
	scale := columnWidth - labels - figures - 16
	const parts = 10000 // a bar's length is counted in these
	length := func(a money.Amount) float64 {
		if !most.IsPositive() {
			return 0
		}
		return scale * float64(a.Times(parts).Steps(most)) / parts
	}
	for _, r := range b.Rows {
		d.room(step)
		d.font(smallSize, false)
		d.f.Text(sheetMargin, d.y+smallSize, r.Label)
		sum := money.Zero
		for i, p := range r.Parts {
			from := length(sum)
			sum = sum.Add(p)
			d.bar(left+from, d.y+1, length(sum)-from, height, i)
		}
		d.font(smallSize, false)
		d.right(r.Figure, sheetMargin+columnWidth, d.y+smallSize)
		d.y += step
	}
	d.y += 6
}

func (d *pdf) bar(x, y, width, height float64, part int) {
	if width <= 0 {
		return
	}
	gray := barGrays[part%len(barGrays)]
	d.f.SetFillColor(gray, gray, gray)
	d.f.SetLineWidth(0.4)
	d.f.Rect(x, y, width, height, "FD")
}
