package report

import (
	"strings"

	"example.com/plumbline/internal/layout"
	"example.com/plumbline/internal/money"
)

// marks are the signs of a chart's parts. They differ in shape, so that no color
// is needed.
type marks struct{ done, both, onlyA, onlyB, goal string }

var (
	blocks = marks{"█", "▓", "▒", "░", "│"}
	signs  = marks{"#", "=", "-", "+", "|"}
)

// shortestBar is the least room for a bar, in columns.
const shortestBar = 10

// chart draws a chart: the legend, then a bar and its figures a row.
func (t *textPage) chart(c Chart) {
	m := signs
	if t.unicode {
		m = blocks
	}
	for _, l := range []struct{ mark, what string }{{m.done, c.Done}, {m.both, c.Both}, {m.onlyA, c.OnlyA}, {m.onlyB, c.OnlyB}, {m.goal, c.Goal}} {
		if l.what != "" {
			t.wrapped(l.mark+" ", l.what)
		}
	}
	t.line("")
	widths := [3]int{layout.Width(c.Head[0]), layout.Width(c.Head[1]), layout.Width(c.Head[2])}
	for _, r := range c.Rows {
		widths[0] = max(widths[0], layout.Width(r.Label))
		widths[1] = max(widths[1], layout.Width(r.FigureA))
		widths[2] = max(widths[2], layout.Width(r.FigureB))
	}
	figures := func(a, b string) string {
		s := layout.PadLeft(a, widths[1])
		if c.Head[2] != "" {
			s += "  " + layout.PadLeft(b, widths[2])
		}
		return s
	}
	room := max(t.width-widths[0]-layout.Width(figures("", ""))-4, shortestBar)
	row := func(label, bar, a, b string) {
		t.line(layout.Clip(layout.Pad(label, widths[0])+"  "+layout.Pad(bar, room)+"  "+figures(a, b), t.width))
	}
	row(c.Head[0], "", c.Head[1], c.Head[2])
	for _, r := range c.Rows {
		row(r.Label, c.bar(r, room, m), r.FigureA, r.FigureB)
	}
}

// bar is one bar in a number of columns. What one case adds shows as soon as it
// is a dollar, however little of the bar that is.
func (c Chart) bar(r Bar, room int, m marks) string {
	most := c.most()
	if !most.IsPositive() {
		return ""
	}
	columns := func(a money.Amount) int { return a.Times(room - 1).Steps(most) }
	less, more := money.Min(r.A, r.B), money.Max(r.A, r.B)
	done := columns(money.Min(r.Done, less))
	both := columns(less)
	end := columns(more)
	if !more.Sub(less).Less(money.Dollars(1)) && end == both {
		end++
	}
	beyond := m.onlyB
	if r.A.More(r.B) {
		beyond = m.onlyA
	}
	bar := strings.Repeat(m.done, done) + strings.Repeat(m.both, max(both-done, 0)) + strings.Repeat(beyond, max(end-max(both, done), 0))
	goal := columns(c.Mark)
	if drawn := layout.Width(bar); drawn <= goal {
		return bar + layout.Spaces(goal-drawn) + m.goal
	}
	parts := strings.Split(bar, "")
	if goal < len(parts) {
		parts[goal] = m.goal
	}
	return strings.Join(parts, "")
}
