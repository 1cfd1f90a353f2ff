package sheets

import (
	"fmt"

	"pourboard/blend"
	"pourboard/render/page"
	"pourboard/render/wording"
)

// Least widths of what is written by hand, and heights of its rows, mm.
const (
	writeMM  = 15.0
	notesMM  = 24.0
	logH     = 8.0
	leastLog = 6.7
)

// logShape is what of the log has columns of its own.
type logShape struct {
	turned  bool // the paper lies across
	coats   bool // each coat, not all in one
	numbers bool // each number of the plan, not under the notes
}

// log is a sheet to write the fired tiles down on by hand, a cup's tiles
// together: upright where all columns go on it, otherwise across.
func (d *drawer) log() {
	shapes := []logShape{{false, true, true}, {true, true, true}, {true, false, true}, {false, false, false}, {true, false, false}}
	shape := shapes[len(shapes)-1]
	for _, s := range shapes {
		width := d.w
		if s.turned {
			width = d.h
		}
		if g := d.logGrid(s); g.Width() <= width-2*page.Margin {
			shape = s
			break
		}
	}
	w, h := d.w, d.h
	if shape.turned {
		w, h = h, w
	}
	lead := wording.Sentence(d.contentsKey()) + " Rating: 1 poor to 5 very good."
	if !shape.coats && d.plan.Tiles.Coats > 1 {
		lead += " Coat: the one you write about."
	}
	if n := d.plan.Log.Numbers; len(n) > 0 && !shape.numbers {
		lead += " Also measured, under notes:"
		for i, name := range n {
			if i > 0 {
				lead += ","
			}
			lead += " " + name
		}
		lead += "."
	}
	f := d.beginOn(w, h, "Log", lead, true)
	f.Page.Foot = "Then type it into the log workbook."
	f.Page.Blanks(f.Take(6), "fired on", "cone", "kiln", "atmosphere")
	f.Y += 1.5
	f.Grid(d.logGrid(shape))
}

// contentsInRows spreads what a cup holds over the rows of its tiles.
func (d *drawer) contentsInRows(c blend.Cell, rows int) []string {
	lines := make([]string, rows)
	list := d.cupContents(c)
	per := (len(list) + rows - 1) / rows
	for i, h := range list {
		if at := i / per; lines[at] == "" {
			lines[at] = h.line()
		} else {
			lines[at] += ", " + h.line()
		}
	}
	return lines
}

// logGrid is the log in a shape.
func (d *drawer) logGrid(s logShape) page.Grid {
	tiles := d.plan.Tiles
	all := d.Places.Tiles
	var marks, bodies, cups, holds []string
	for i, t := range all {
		marks = append(marks, t.Mark)
		bodies = append(bodies, tiles.Bodies[t.Body])
		cup := ""
		if i == 0 || all[i-1].Cell != t.Cell {
			cup = fmt.Sprint(t.Cell)
			holds = append(holds, d.contentsInRows(d.Test.Cells[t.Cell-1], len(d.tilesOf(t.Cell)))...)
		}
		cups = append(cups, cup)
	}
	columns := []page.Column{
		d.doc.Texts("cup", cups, strong.To(page.Right), 2.5),
		d.doc.Texts("%", holds, fine, 2.5),
		d.doc.Texts("mark", marks, strong, 3),
		d.doc.Texts("body", bodies, fine, 2),
	}
	columns[3].W = min(columns[3].W, 34) // longer names are set smaller
	columns[3].Cell = func(p *page.Page, r page.Rect, row int) {
		p.Fitted(page.Rect{X: r.X, Y: r.Y, W: r.W - 2, H: r.H}, fine, bodies[row])
	}
	blank := func(head string, w, grow float64) {
		columns = append(columns, page.Column{
			W: max(w, d.doc.Width(head, fine)+2), Grow: grow,
			Head: func(p *page.Page, r page.Rect) {
				page.HeadText(head, fine, 1)(p, page.Rect{X: r.X + 1, Y: r.Y, W: r.W - 1, H: r.H})
				p.Line(r.X, r.Bottom()-3, r.X, r.Bottom(), page.Hair)
			},
			Cell: func(p *page.Page, r page.Rect, _ int) { p.Line(r.X, r.Y, r.X, r.Bottom(), page.Hair) },
		})
	}
	switch {
	case s.coats && tiles.Coats > 1:
		for k := range tiles.Coats {
			blank(ordinal(k+1)+" coat", writeMM, 1)
		}
	case tiles.Coats > 1:
		blank("coat", 12, 0)
	}
	blank("surface", 16, 1)
	blank("defects", 16, 1)
	blank("colour", 16, 1)
	blank("1–5", 9, 0)
	if s.numbers {
		for _, name := range d.plan.Log.Numbers {
			blank(name, writeMM, 0)
		}
	}
	blank("notes", notesMM, 2)
	group := func(row int) int { return all[row].Cell }
	return page.Grid{
		Columns: columns, Rows: len(all), HeadH: 5, RowH: logH, LeastH: leastLog, Group: group,
		Rule: func(row int) page.Pen {
			if group(row) != group(row-1) {
				return page.Medium
			}
			return page.Hair
		},
	}
}
