package report

import "fmt"

func (d *pdf) block(b Block) {
	switch b := b.(type) {
	case Heading:
		d.y += 12
		d.room(130)
		d.rule(d.y, 0.8)
		d.y += 6
		d.text(string(b), sheetMargin, columnWidth, headingSize, true)
		d.y += 3
	case Lead:
		d.text(string(b), sheetMargin, columnWidth, leadSize, true)
		d.y += 5
	case Together:
		d.together(b)
	case Subheading:
		d.y += 6
		d.room(70)
		d.text(string(b), sheetMargin, columnWidth, bodySize, true)
		d.y += 2
	case Paragraph:
		if lines := len(d.lines(string(b), columnWidth, bodySize, false)); lines <= 3 { // not torn apart
			d.room(float64(lines) * d.line(bodySize))
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
	case Chain:
		d.chain(b)
	case Chart:
		d.chart(b)
	}
}

// together draws blocks on one sheet where one holds them.
func (d *pdf) together(blocks []Block) {
	draw := func() {
		for _, b := range blocks {
			d.block(b)
		}
	}
	if height := d.height(draw); height <= sheetBottom-sheetMargin {
		d.room(height)
	}
	draw()
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
		field := d.lines(e.Write, fieldColumn-2*fieldMargin, bodySize, !e.Empty)
		left := float64(len(d.lines(e.Label, labelColumn, bodySize, false))) * d.line(bodySize)
		if e.Reason != "" {
			left += float64(len(d.lines(e.Reason, labelColumn, smallSize, false)))*d.line(smallSize) + 2
		}
		height := float64(len(field))*d.line(bodySize) + 2*3
		d.room(max(left, height) + 8)

		top := d.y
		size := bodySize * d.scale
		d.font(bodySize, true)
		d.put(sheetMargin, top+3+size, e.Step)
		d.y = top + 3
		d.text(e.Label, sheetMargin+stepColumn, labelColumn, bodySize, false)
		below := d.y
		d.frame(fieldLeft, top, fieldColumn, height, 0.6, -1)
		d.font(bodySize, !e.Empty)
		for i, line := range field {
			d.right(line, fieldLeft+fieldColumn-fieldMargin, top+3+size+float64(i)*d.line(bodySize))
		}
		if e.Reason != "" {
			d.y = below
			d.text(e.Reason, sheetMargin+stepColumn, labelColumn, smallSize, false)
		}
		d.y = max(d.y, top+height) + 5
	}
	d.y += 3
}

// rows sets labels left and amounts right; where a line of a form belongs to an
// amount, it comes after it.
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
		d.room(float64(max(len(label), len(form))) * d.line(bodySize))
		if r.Total {
			d.stroke(right-amounts+gap, right, d.y+1, 0.6)
			d.y += 2
		}
		top := d.y
		if r.Form != "" {
			d.text(r.Form, right+gap, forms-gap, smallSize, false)
		}
		below := d.y
		d.y = top
		d.text(r.Label, sheetMargin, labels, bodySize, r.Total)
		d.right(r.Amount, right, top+float64(len(label)-1)*d.line(bodySize)+bodySize*d.scale)
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
				d.put(x, d.y+size*d.scale, cell)
			} else {
				d.right(cell, x+widths[c], d.y+size*d.scale)
			}
			x += widths[c] + gap
		}
		d.y += d.line(size) * 1.1
	}
	width := gap * float64(len(widths)-1)
	for _, w := range widths {
		width += w
	}
	head := func() {
		write(t.Head, true)
		d.stroke(sheetMargin, sheetMargin+width, d.y, 0.6)
		d.y += 2
	}
	const together = 12 // a table of so many rows is not torn apart
	d.room(d.line(size) * 1.1 * float64(min(len(t.Rows), together)+1))
	head()
	for _, row := range t.Rows {
		if d.room(d.line(size) * 1.1) {
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
		d.room(float64(min(len(lines), 3)) * d.line(bodySize))
		d.font(bodySize, l.Numbered)
		d.put(sheetMargin+2, d.y+bodySize*d.scale, mark)
		d.text(item, sheetMargin+indent, columnWidth-indent, bodySize, false)
		d.y += 3
	}
	d.y += 3
}

// chain sets each link in by its depth, its amount right.
func (d *pdf) chain(links Chain) {
	const step, amountColumn = 12.0, 110.0
	for _, l := range links {
		indent := step * float64(min(l.Depth, deepest))
		d.room(d.line(bodySize) * 2)
		top := d.y
		d.text(l.Label, sheetMargin+indent, columnWidth-indent-amountColumn, bodySize, l.Depth == 0)
		if d.y < top {
			top = d.y - d.line(bodySize) // the label went on on a new sheet
		}
		d.font(bodySize, l.Depth == 0)
		d.right(l.Amount, sheetMargin+columnWidth, top+bodySize*d.scale)
		for _, detail := range l.Detail {
			d.text(detail, sheetMargin+indent+step, columnWidth-indent-step-amountColumn, smallSize, false)
		}
		d.y += 2
	}
	d.y += 6
}
