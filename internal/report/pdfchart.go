package report

import "example.com/plumbline/internal/money"

// Fills of a chart's parts, from black to white; all are outlined, and what only
// one case adds is hatched too, so that no shade has to be told from another.
const (
	grayDone = 60
	grayBoth = 170
	grayA    = 255
	grayB    = 225
)

// chart draws a chart: the legend, then a bar and its figures a row, and the mark
// down through all rows.
func (d *pdf) chart(c Chart) {
	const height, step, swatch = 9.0, 13.0, 18.0
	for _, l := range []struct {
		draw func(x, y float64)
		what string
	}{
		{func(x, y float64) { d.frame(x, y, swatch, height, 0.4, grayDone) }, c.Done},
		{func(x, y float64) { d.frame(x, y, swatch, height, 0.4, grayBoth) }, c.Both},
		{func(x, y float64) { d.hatched(x, y, swatch, height, grayA) }, c.OnlyA},
		{func(x, y float64) { d.hatched(x, y, swatch, height, grayB) }, c.OnlyB},
		{func(x, y float64) { d.upright(x+swatch/2, y-1, y+height+1) }, c.Goal},
	} {
		if l.what == "" {
			continue
		}
		d.room(step)
		l.draw(sheetMargin, d.y+2)
		d.text(l.what, sheetMargin+swatch+8, columnWidth-swatch-8, smallSize, false)
		d.y += 3
	}
	d.y += 4
	d.room(step * float64(len(c.Rows)+1))

	d.font(smallSize, false)
	widths := [3]float64{d.f.GetStringWidth(c.Head[0]), d.f.GetStringWidth(c.Head[1]), d.f.GetStringWidth(c.Head[2])}
	for _, r := range c.Rows {
		widths[0] = max(widths[0], d.f.GetStringWidth(r.Label))
		widths[1] = max(widths[1], d.f.GetStringWidth(r.FigureA))
		widths[2] = max(widths[2], d.f.GetStringWidth(r.FigureB))
	}
	const gap = 12.0
	left, right := sheetMargin+widths[0]+gap, sheetMargin+columnWidth
	rightA := right
	if c.Head[2] != "" {
		rightA -= widths[2] + gap
	}
	scale := rightA - widths[1] - gap - left
	most := c.most()
	const parts = 10000 // a bar's length is counted in these
	length := func(a money.Amount) float64 {
		if !most.IsPositive() {
			return 0
		}
		return scale * float64(a.Times(parts).Steps(most)) / parts
	}
	row := func(label, a, b string) {
		d.font(smallSize, false)
		base := d.y + smallSize*d.scale
		d.put(sheetMargin, base, label)
		d.right(a, rightA, base)
		if b != "" {
			d.right(b, right, base)
		}
	}
	row(c.Head[0], c.Head[1], c.Head[2])
	d.y += step
	top := d.y
	for _, r := range c.Rows {
		row(r.Label, r.FigureA, r.FigureB)
		less, more := money.Min(r.A, r.B), money.Max(r.A, r.B)
		done := length(money.Min(r.Done, less))
		d.frame(left, d.y, done, height, 0.4, grayDone)
		d.frame(left+done, d.y, length(less)-done, height, 0.4, grayBoth)
		gray := grayB
		if r.A.More(r.B) {
			gray = grayA
		}
		d.hatched(left+length(less), d.y, length(more)-length(less), height, gray)
		d.y += step
	}
	d.upright(left+length(c.Mark), top-2, d.y-step+height+2)
	d.y += 6
}

// hatched draws a box with slanted lines in it.
func (d *pdf) hatched(x, y, width, height float64, gray int) {
	d.frame(x, y, width, height, 0.4, gray)
	if d.dry {
		return
	}
	const apart = 4.0
	for at := apart; at < width+height; at += apart {
		x0, y0, x1, y1 := x+at, y, x+at-height, y+height
		if x0 > x+width {
			y0, x0 = y+x0-x-width, x+width
		}
		if x1 < x {
			y1, x1 = y1-(x-x1), x
		}
		if y0 < y1 {
			d.f.Line(x0, y0, x1, y1)
		}
	}
}

// upright draws the mark that bars are to reach.
func (d *pdf) upright(x, from, to float64) {
	if d.dry {
		return
	}
	d.f.SetLineWidth(1.2)
	d.f.Line(x, from, x, to)
}
