package sheets

import (
	"fmt"

	"pourboard/blend"
	"pourboard/render/page"
	"pourboard/render/wording"
)

// line is how a line of cups lies on the paper: in rows of so many cups, each
// with a row for every body below it. rows is 0 where the design is no line, or
// where one page does not take it.
type line struct {
	turned               bool
	rows, across         int
	labelMM, placeW      float64
	cupH, bodyH, repeats float64
}

const lineGap = 8.0 // mm, below each row of cups with its bodies

// lineShape finds out how a line lies: across the paper's longer side where it
// is longer than the other.
func (d *drawer) lineShape() line {
	if !d.inLine() {
		return line{}
	}
	tiles := d.plan.Tiles
	l := line{labelMM: min(30, d.doc.Widest(tiles.Bodies, strong)+3), repeats: float64(max(1, tiles.Repeats))}
	least, parts := 0.0, 1
	for _, c := range d.Test.Cells {
		least = max(least, d.doc.Width(d.Places.Tiles[d.tilesOf(c.Number)[0]].Mark, strong)+3)
		for _, h := range d.cupContents(c) {
			least = max(least, d.doc.Width(h.letter+" "+h.text, body)+3)
		}
		parts = max(parts, len(d.cupContents(c)))
	}
	w, h := d.w, d.h
	if fits := int((w - 2*page.Margin - l.labelMM) / least); fits < len(d.Test.Cells) {
		l.turned = true
		w, h = h, w
	}
	room := w - 2*page.Margin - l.labelMM
	l.rows = max(1, (len(d.Test.Cells)-1)/max(1, int(room/least))+1)
	l.across = (len(d.Test.Cells)-1)/l.rows + 1
	l.placeW = min(mostPlaceW, room/float64(l.across))
	l.cupH = cupNo.LineH() + float64(parts)*body.LineH() + 3
	l.bodyH = max(11, l.repeats*strong.LineH()+4)
	top := d.titles("Map", d.mapLead(false), false).Height(d.doc, w, h)
	if high := l.cupH + l.bodyH*float64(len(tiles.Bodies)) + lineGap; float64(l.rows)*high-lineGap > h-page.Margin-page.FootH-top {
		return line{}
	}
	return l
}

// lineMap is rows of cups, and below each a row for each body.
func (d *drawer) lineMap(l line) {
	w, h := d.w, d.h
	if l.turned {
		w, h = h, w
	}
	f := d.beginOn(w, h, "Map", wording.Sentence(d.contentsKey())+" "+d.letterKey(), false)
	f.Page.Foot = "Pour and dip by number. Keep this edge towards you."
	cells, repeats := d.Test.Cells, int(l.repeats)
	for from := 0; from < len(cells); from += l.across {
		row := cells[from:min(from+l.across, len(cells))]
		place := func(r page.Rect, i int) page.Rect {
			return page.Rect{X: r.X + l.labelMM + float64(i)*l.placeW, Y: r.Y, W: l.placeW, H: r.H}
		}
		top := f.Take(l.cupH)
		for i, c := range row {
			d.lineCup(f.Page, place(top, i), c)
		}
		for b, name := range d.plan.Tiles.Bodies {
			at := f.Take(l.bodyH)
			f.Page.Fitted(page.Rect{X: at.X, Y: at.Y, W: l.labelMM - 2, H: l.bodyH}, strong, name)
			for i, c := range row {
				r := place(at, i)
				f.Page.Box(r, page.Thin)
				high := (l.bodyH - 3) / l.repeats
				for k, tile := range d.tilesOf(c.Number)[b*repeats : (b+1)*repeats] {
					f.Page.Text(page.Rect{X: r.X + 0.8, Y: r.Y + 1.5 + float64(k)*high, W: r.W - 1.6, H: high}, strong.To(page.Centre), d.Places.Tiles[tile].Mark)
				}
			}
		}
		f.Y += lineGap
	}
}

// lineCup draws a cup of a line: number and percentages.
func (d *drawer) lineCup(p *page.Page, r page.Rect, c blend.Cell) {
	number := cupNo
	p.Text(page.Rect{X: r.X, Y: r.Y, W: r.W, H: number.LineH()}, number.To(page.Centre), fmt.Sprint(c.Number))
	y := r.Y + number.LineH()
	for _, h := range d.cupContents(c) {
		p.Text(page.Rect{X: r.X + 0.5, Y: y, W: r.W - 1, H: body.LineH()}, body.To(page.Centre), h.line())
		y += body.LineH()
	}
}
