package page

import "strings"

// Prose is a column of a table whose cells may take several lines.
type Prose struct {
	Head  string
	Grow  float64 // its part of the width that is left over by columns without
	Style Style
}

// Table sets rows of texts: columns that do not grow are as wide as their
// widest text, the others share what is left and wrap. A row stays whole.
func (f *Flow) Table(columns []Prose, rows [][]string) {
	const pad = 0.7
	d := f.Page.doc
	head := Regular(Small)
	widths, ruled := d.proseWidths(columns, rows, f.Rest().W)
	rule := func(pen Pen) { f.Page.Rule(Rect{X: f.Rest().X, Y: f.Y, W: ruled}, pen) }
	headH := 0.0 // long heads have two lines
	for k, c := range columns {
		headH = max(headH, head.LineH()*float64(len(d.Lines(c.Head, head, widths[k]))))
	}
	heads := func() {
		r := f.Take(headH + 0.5)
		for k, c := range columns {
			high := head.LineH() * float64(len(d.Lines(c.Head, head, widths[k])))
			f.Page.Para(Rect{X: r.X, Y: r.Y + headH - high, W: widths[k]}, head.To(c.Style.Align), c.Head)
			r.X += widths[k] + proseGap
		}
		rule(Medium)
	}
	for i, row := range rows {
		cells, high := make([][]string, len(columns)), 0.0
		for k, c := range columns {
			cells[k] = d.Lines(row[k], c.Style, widths[k])
			high = max(high, float64(len(cells[k]))*c.Style.LineH()+2*pad)
		}
		if i == 0 {
			f.Need(headH + high + 2)
			heads()
		} else if f.Rest().H < high && high < f.Page.Inside().H/2 {
			f.Break()
			heads()
		}
		f.prose(columns, cells, widths, pad, high)
		f.Lines++
		rule(Hair)
	}
	f.Y += 1.5
}

// proseGap is between columns, mm.
const proseGap = 3.0

// proseWidths is how wide the columns are in a room, mm, and all together.
func (d *Doc) proseWidths(columns []Prose, rows [][]string, room float64) (widths []float64, all float64) {
	widths = make([]float64, len(columns))
	all, grown := proseGap*float64(len(columns)-1), 0.0
	for k, c := range columns {
		if grown += c.Grow; c.Grow > 0 {
			continue
		}
		widths[k] = d.Widest(strings.Fields(c.Head), Regular(Small))
		for _, row := range rows {
			widths[k] = max(widths[k], d.Widest(strings.Split(row[k], "\n"), c.Style))
		}
		widths[k] = min(widths[k], room/3)
		all += widths[k]
	}
	if grown == 0 {
		return widths, min(all, room)
	}
	for k, c := range columns {
		if c.Grow > 0 {
			widths[k] = max(12, (room-all)*c.Grow/grown)
		}
	}
	return widths, room
}

// prose sets one row, over several pages if it is higher than one.
func (f *Flow) prose(columns []Prose, cells [][]string, widths []float64, pad, high float64) {
	for {
		r := f.Rest()
		high = min(high, r.H)
		x, left := r.X, 0.0
		for k, c := range columns {
			n := min(len(cells[k]), max(1, int((high-2*pad+1e-6)/c.Style.LineH())))
			y := r.Y + pad
			for _, line := range cells[k][:n] {
				f.Page.Para(Rect{X: x, Y: y, W: widths[k]}, c.Style, line)
				y += c.Style.LineH()
			}
			cells[k] = cells[k][n:]
			left = max(left, float64(len(cells[k]))*c.Style.LineH()+2*pad)
			x += widths[k] + proseGap
		}
		f.Y += high
		if left <= 2*pad {
			return
		}
		f.Break()
		high = left
	}
}
