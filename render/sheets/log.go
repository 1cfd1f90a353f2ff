package sheets

import (
	"fmt"
	"strings"

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

// log is a sheet to write the fired tiles down on by hand, a cup's tiles together:
// upright where all columns go on it, otherwise across, and then, if need be, without
// columns for each coat and for the plan's own numbers.
func (d *drawer) log() {
	columns := append(d.logTiles(), d.logBlanks(true)...)
	whole := d.logWidth(columns)
	lead := wording.Sentence(d.contentsKey()) + " Rating: 1 poor to 5 very good."
	if whole > d.h-2*page.Margin {
		columns = append(d.logTiles(), d.logBlanks(false)...)
		if d.plan.Tiles.Coats > 1 {
			lead += " Coat: the one you write about."
		}
		if n := d.plan.Log.Numbers; len(n) > 0 {
			lead += " Also measured, under notes: " + strings.Join(n, ", ") + "."
		}
	}
	all := d.Places.Tiles
	f := d.begin("Log", lead, d.logWidth(columns) > d.w-2*page.Margin)
	f.Page.Foot = "Then type it into the log workbook."
	f.Page.Blanks(f.Take(6), "fired on", "cone", "kiln", "atmosphere")
	f.Y += 1.5
	f.Grid(page.Grid{
		Columns: columns, Rows: len(all), HeadH: 5, RowH: logH, LeastH: leastLog,
		Group: func(row int) int { return all[row].Cell },
		Rule: func(row int) page.Pen {
			if all[row].Cell != all[row-1].Cell {
				return page.Medium
			}
			return page.Hair
		},
	})
}

// logWidth is the least width of the log with some columns, mm.
func (d *drawer) logWidth(columns []page.Column) float64 {
	g := page.Grid{Columns: columns, Rows: len(d.Places.Tiles), RowH: logH}
	g.Measure(d.doc, d.w-2*page.Margin)
	return g.Width()
}

// logTiles are the columns of the log that are printed: which tile it is, and what
// its cup holds, spread over the rows of the cup's tiles.
func (d *drawer) logTiles() []page.Column {
	cup, holds := page.Column{Head: "cup", Style: strong.To(page.Right)}, page.Column{Head: "%", Style: fine}
	mark, names := page.Column{Head: "mark", Style: strong}, []string{}
	for _, c := range d.Test.Cells {
		tiles, contents := d.tilesOf(c.Number), d.cupContents(c)
		lines := make([]string, len(tiles))
		for i, h := range contents {
			at := i * len(lines) / max(len(lines), len(contents))
			lines[at] = strings.TrimPrefix(lines[at]+", "+h.line(), ", ")
		}
		holds.Texts = append(holds.Texts, lines...)
		cup.Texts = append(append(cup.Texts, fmt.Sprint(c.Number)), make([]string, len(tiles)-1)...)
		for _, t := range tiles {
			mark.Texts, names = append(mark.Texts, t.Mark), append(names, d.plan.Tiles.Bodies[t.Body])
		}
	}
	bodyMM := min(d.doc.Widest(names, fine)+2.5, 34)
	body := func(p *page.Page, r page.Rect, row int) { p.Fitted(r.Before(r.W-2), fine, names[row]) }
	return []page.Column{cup, holds, mark, {Head: "body", Style: fine, W: bodyMM, Draw: body}}
}

// logBlanks are the columns of the log that are written in: all of them, or without
// those for each coat and each number of the plan.
func (d *drawer) logBlanks(all bool) []page.Column {
	var columns []page.Column
	add := func(head string, w, grow float64) {
		columns = append(columns, page.Column{
			Head: head, Style: fine, W: max(w, d.doc.Width(head, fine)+2), Grow: grow,
			Draw: func(p *page.Page, r page.Rect, _ int) { p.Line(r.X-1, r.Y, r.X-1, r.Bottom(), page.Hair) },
		})
	}
	if coats := d.plan.Tiles.Coats; all && coats > 1 {
		for k := range coats {
			add(quantity.Ordinal(k+1)+" coat", writeMM, 1)
		}
	} else if coats > 1 {
		add("coat", 12, 0)
	}
	for _, head := range []string{"surface", "defects", "colour"} {
		add(head, 16, 1)
	}
	add("1–5", 9, 0)
	if all {
		for _, name := range d.plan.Log.Numbers {
			add(name, writeMM, 0)
		}
	}
	add("notes", notesMM, 2)
	return columns
}
