package sheets

import (
	"fmt"
	"slices"
	"strings"

	"pourboard/blend"
	"pourboard/blend/quantity"
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
	at := slices.IndexFunc(shapes, func(s logShape) bool {
		w, _ := d.paper(s.turned)
		g := d.logGrid(s)
		return g.Width() <= w-2*page.Margin
	})
	if at < 0 {
		at = len(shapes) - 1
	}
	shape := shapes[at]
	lead := wording.Sentence(d.contentsKey()) + " Rating: 1 poor to 5 very good."
	if !shape.coats && d.plan.Tiles.Coats > 1 {
		lead += " Coat: the one you write about."
	}
	if n := d.plan.Log.Numbers; len(n) > 0 && !shape.numbers {
		lead += " Also measured, under notes: " + strings.Join(n, ", ") + "."
	}
	f := d.begin("Log", lead, shape.turned)
	f.Page.Foot = "Then type it into the log workbook."
	f.Page.Blanks(f.Take(6), "fired on", "cone", "kiln", "atmosphere")
	f.Y += 1.5
	f.Grid(d.logGrid(shape))
}

// contentsInRows spreads what a cup holds over the rows of its tiles.
func (d *drawer) contentsInRows(c blend.Cell, rows int) []string {
	lines := make([]string, rows)
	list := d.cupContents(c)
	for i, h := range list {
		line := &lines[i*rows/max(rows, len(list))]
		if *line != "" {
			*line += ", "
		}
		*line += h.line()
	}
	return lines
}

// logGrid is the log in a shape.
func (d *drawer) logGrid(s logShape) page.Grid {
	tiles, all := d.plan.Tiles, d.Places.Tiles
	cup, holds := page.Column{Head: "cup", Style: strong.To(page.Right)}, page.Column{Head: "%", Style: fine}
	mark, names := page.Column{Head: "mark", Style: strong}, []string{}
	for i, t := range all {
		mark.Texts, names = append(mark.Texts, t.Mark), append(names, tiles.Bodies[t.Body])
		number := ""
		if i == 0 || all[i-1].Cell != t.Cell {
			number = fmt.Sprint(t.Cell)
			holds.Texts = append(holds.Texts, d.contentsInRows(d.Test.Cells[t.Cell-1], len(d.tilesOf(t.Cell)))...)
		}
		cup.Texts = append(cup.Texts, number)
	}
	body := page.Column{Head: "body", Style: fine, W: min(d.doc.Widest(names, fine)+2.5, 34), Draw: func(p *page.Page, r page.Rect, row int) {
		p.Fitted(page.Rect{X: r.X, Y: r.Y, W: r.W - 2, H: r.H}, fine, names[row]) // long names are set smaller
	}}
	columns := []page.Column{cup, holds, mark, body}
	blank := func(head string, w, grow float64) {
		columns = append(columns, page.Column{
			W: max(w, d.doc.Width(head, fine)+2), Grow: grow,
			Head: head, Style: fine, Draw: func(p *page.Page, r page.Rect, _ int) { p.Line(r.X-1, r.Y, r.X-1, r.Bottom(), page.Hair) },
		})
	}
	switch {
	case s.coats && tiles.Coats > 1:
		for k := range tiles.Coats {
			blank(quantity.Ordinal(k+1)+" coat", writeMM, 1)
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
	g := page.Grid{
		Columns: columns, Rows: len(all), HeadH: 5, RowH: logH, LeastH: leastLog,
		Group: func(row int) int { return all[row].Cell },
		Rule: func(row int) page.Pen {
			if all[row].Cell != all[row-1].Cell {
				return page.Medium
			}
			return page.Hair
		},
	}
	g.Measure(d.doc, d.w-2*page.Margin)
	return g
}
