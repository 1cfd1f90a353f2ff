package sheets

import (
	"fmt"
	"math"
	"slices"

	"pourboard/blend"
	"pourboard/blend/quantity"
	"pourboard/render/page"
)

const (
	tileRowH  = 9.5 // of a cup, mm
	leastRowH = 8.4
	boxGap    = 0.8
	tileGap   = 2.0 // between a mark and its boxes, and behind them
)

// tiles is a row for each cup and a group of columns for each body: the marks
// to paint, and a box for each coat. Bodies that have no room are in a table below.
func (d *drawer) tiles() {
	f := d.begin("Tiles", d.tilesLead(), false)
	d.coats(f)
	f.Grid(page.Grid{
		Columns: append(d.cupColumns(), d.tileColumns()...), Keep: 2, Rows: len(d.Test.Cells),
		HeadH: 9.6, RowH: tileRowH, LeastH: leastRowH, Strips: 3, Rule: d.rowRule(),
	})
}

// tilesLead says what to paint and how to dip.
func (d *drawer) tilesLead() string {
	text := "Paint the bold mark above, where no glaze goes. Underneath, paint the mark and its check letter: " +
		"it shows when a character was misread or has burnt away. " +
		"Paint the underlines too: they show which way up to read. "
	if d.plan.Tiles.Coats > 1 {
		text += "Give every tile its first coat. Then start again for the second. "
	}
	return text + "Stir the cup before each dip. " + d.letterKey()
}

// tileColumns are the marks of each body and repeat with their boxes.
func (d *drawer) tileColumns() []page.Column {
	tiles, markMM := d.plan.Tiles, 0.0
	for _, t := range d.Places.Tiles {
		markMM = max(markMM, d.doc.Width(t.Mark, strong), d.doc.Width(t.Under, fine))
	}
	var columns []page.Column
	for k, first := range d.tilesOf(1) {
		name := tiles.Bodies[first.Body]
		if tiles.Repeats > 1 {
			name += fmt.Sprint(" ", first.Repeat+1)
		}
		marks := func(p *page.Page, r page.Rect, row int) {
			t, middle := d.tilesOf(row + 1)[k], r.Y+r.H/2
			d.mark(p, r.X, middle-0.5, strong, t.Mark)
			d.mark(p, r.X, middle+0.8+fine.CapMM(), fine, t.Under)
		}
		boxes := func(p *page.Page, r page.Rect, _ int) {
			for range tiles.Coats {
				p.Tick(r)
				r.X += page.Tick + boxGap
			}
		}
		columns = append(columns, page.Column{Head: name, Style: strong, Grow: 1, Parts: []page.Column{
			{Head: "mark", W: markMM + tileGap, Draw: marks},
			{Head: "coats", W: float64(tiles.Coats)*(page.Tick+boxGap) + tileGap, Draw: boxes},
		}})
	}
	return columns
}

// mark draws a mark with its baseline at y, and a line under each character
// that is underlined on the tile.
func (d *drawer) mark(p *page.Page, x, y float64, s page.Style, mark string) {
	p.At(x, y, s, mark)
	em := s.Pt * page.MMPerPt
	for i, line := range d.Places.Scheme.Underlined(mark) {
		if line {
			from, to := d.doc.Width(mark[:i], s), d.doc.Width(mark[:i+1], s)
			p.Line(x+from+0.06*em, y+0.14*em, x+to-0.06*em, y+0.14*em, page.Pen{MM: 0.08 * em})
		}
	}
}

// coats draws one tile at life size with the edges of its coats, and says
// beside it how each is dipped.
func (d *drawer) coats(f *page.Flow) {
	tiles, k, name := d.plan.Tiles, d.doc.Scale(), "A tile at life size"
	rest := f.Rest()
	most := max((rest.H-30)/2, 105)
	if tiles.HeightMM*k > most || tiles.WidthMM*k > rest.W-70 {
		k = min(most/tiles.HeightMM, (rest.W-70)/tiles.WidthMM)
		name = "A tile, drawn smaller"
	}
	w, h := tiles.WidthMM*k, tiles.HeightMM*k
	left, text := f.Split((w+6)/rest.W, 10)
	r := left.Take(h + 1)
	d.drawCoats(f.Page, page.Rect{X: r.X + 6, Y: r.Y + 1, W: w, H: h}, k)
	text.Para(partName, name)
	for i, c := range tiles.Dips() {
		text.Para(body, d.coatText(i+1, c))
	}
	if tiles.HoldS > 0 {
		text.Para(body, "Dip time: "+quantity.PlainText(tiles.HoldS)+" s, the same for every tile.")
	} else {
		text.Para(body, "Count the same dip time for every tile. Write it here: ______ s.")
	}
	if tiles.Coats > 1 {
		text.Para(body, "Figures on the tile: number of coats.")
	}
	if dish := tiles.DishMM(); tiles.Bands == blend.Corner && dish > d.plan.Cup.DiameterMM {
		text.Para(body, "The long side needs a dish at least "+quantity.LengthText(math.Ceil(dish))+
			" wide. Pour the glaze out of its cup for it.")
	}
	text.Para(body, "Put each tile back on the place with its mark.")
	f.Join(left, text)
	f.Y += 3
}

// coatText says how a coat is dipped.
func (d *drawer) coatText(n int, c blend.Coat) string {
	tiles := d.plan.Tiles
	edge := "the lower edge"
	if tiles.Bands == blend.Corner {
		edge = "a short side"
		if c.Across == (tiles.HeightMM >= tiles.WidthMM) {
			edge = "a long side"
		}
	}
	return fmt.Sprintf("%s coat: dip %s first, %s deep.", quantity.Ordinal(n), edge, quantity.LengthText(c.MM))
}

// drawCoats draws a tile, k mm on paper for a mm: the number of coats in each
// field, darker where there are more, and a line at the edge of each coat with how
// far that is from the tile's edge.
func (d *drawer) drawCoats(p *page.Page, r page.Rect, k float64) {
	coats := d.plan.Tiles.Dips()
	edges := func(across bool, whole float64) []float64 {
		list := []float64{0, whole}
		for _, c := range coats {
			if c.Across == across {
				list = append(list, c.MM)
			}
		}
		slices.Sort(list)
		return list
	}
	xs, ys := edges(true, r.W/k), edges(false, r.H/k) // from the left, and from below
	for i, x := range xs[1:] {
		for j, y := range ys[1:] {
			n := 0
			for _, c := range coats {
				if c.Across && x <= c.MM || !c.Across && y <= c.MM {
					n++
				}
			}
			field := page.Rect{X: r.X + xs[i]*k, Y: r.Bottom() - y*k, W: (x - xs[i]) * k, H: (y - ys[j]) * k}
			if n > 0 {
				p.Shade(field, 1-0.22*float64(n)/float64(len(coats)))
			}
			if field.H > 5 && field.W > 5 {
				p.Text(field, partName.To(page.Centre), fmt.Sprint(n))
			}
		}
	}
	for _, c := range coats {
		d.drawEdge(p, r, c, k)
	}
	p.Box(r, page.Medium)
}

// drawEdge draws the edge of a coat, with its depth where there is room.
func (d *drawer) drawEdge(p *page.Page, r page.Rect, c blend.Coat, k float64) {
	edge, at := page.Thin.Dashed(2, 1), c.MM*k
	if c.Across {
		p.Line(r.X+at, r.Y, r.X+at, r.Bottom(), edge)
		return
	}
	y := r.Bottom() - at
	p.Line(r.X, y, r.Right(), y, edge)
	if text := quantity.LengthText(c.MM); at > 5 {
		p.Up(r.X-3, y+d.doc.Width(text, fine)/2, fine, text)
	}
}
