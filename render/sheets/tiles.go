package sheets

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"pourboard/blend"
	"pourboard/blend/quantity"
	"pourboard/layout"
	"pourboard/render/page"
)

const (
	tileRowH  = 9.5 // of a cup with all its bodies, mm
	leastRowH = 8.4
	boxGap    = 0.8
)

// tiles is a row for each cup and a group of columns for each body: the marks
// to paint, and a box for each coat.
func (d *drawer) tiles() {
	f := d.begin("Tiles", d.tilesLead(), false)
	d.coats(f)
	grid := func(across, lines int) page.Grid {
		g := page.Grid{
			Columns: append(d.cupColumns(), d.tileColumns(across, lines)...), Rows: len(d.Test.Cells), HeadH: 5 + 4.6*float64(lines),
			RowH: tileRowH * float64(lines), LeastH: leastRowH * float64(lines), Strips: 3, Rule: d.rowRule(),
		}
		g.Measure(d.doc, f.Rest().W)
		return g
	}
	bodies, repeats := len(d.plan.Tiles.Bodies), max(1, d.plan.Tiles.Repeats)
	across := bodies * repeats
	for g := grid(across, 1); across > 1 && g.Width() > f.Rest().W; g = grid(across, 1) {
		across--
	}
	if repeats > 1 && across > repeats {
		across -= across % repeats // a line has whole bodies
	}
	lines := (bodies*repeats-1)/across + 1
	if repeats == 1 {
		across = (bodies-1)/lines + 1
	}
	f.Grid(grid(across, lines))
}

// tilesLead says what to paint and how to dip.
func (d *drawer) tilesLead() string {
	text := "Paint the bold mark above, where no glaze goes. Underneath, paint the mark and its check letter: it shows when a character was misread or has burnt away. Paint the underlines too: they show which way up to read. "
	if d.plan.Tiles.Coats > 1 {
		text += "Give every tile its first coat. Then start again for the second. "
	}
	return text + "Stir the cup before each dip. " + d.letterKey()
}

// tileGap is between a mark and its boxes, and behind them, mm.
const tileGap = 2.0

// tileColumns are the marks of all bodies and repeats with their boxes: so many
// across, in several lines of a row.
func (d *drawer) tileColumns(across, lines int) []page.Column {
	tiles, repeats := d.plan.Tiles, max(1, d.plan.Tiles.Repeats)
	markMM := 0.0
	for _, t := range d.Places.Tiles {
		markMM = max(markMM, d.doc.Width(t.Mark, strong), d.doc.Width(t.Under, fine))
	}
	var columns []page.Column
	for k := range across {
		var names []string
		for i := k; i < len(tiles.Bodies)*repeats; i += across {
			name := tiles.Bodies[i/repeats]
			if repeats > 1 {
				name += fmt.Sprint(" ", i%repeats+1)
			}
			names = append(names, name)
		}
		each := func(draw func(p *page.Page, r page.Rect, t layout.Placed)) func(*page.Page, page.Rect, int) {
			return func(p *page.Page, r page.Rect, row int) {
				all := d.tilesOf(d.Test.Cells[row].Number)
				r.H /= float64(lines)
				for i := k; i < len(all); i += across {
					draw(p, r, all[i])
					r.Y += r.H
				}
			}
		}
		mark := each(func(p *page.Page, r page.Rect, t layout.Placed) {
			d.mark(p, r.X, r.Y+r.H/2-0.5, strong, t.Mark)
			d.mark(p, r.X, r.Y+r.H/2+0.8+fine.CapMM(), fine, t.Under)
		})
		boxes := each(func(p *page.Page, r page.Rect, _ layout.Placed) {
			for n := range tiles.Coats {
				p.Tick(page.Rect{X: r.X + float64(n)*(page.Tick+boxGap), Y: r.Y, H: r.H})
			}
		})
		columns = append(columns, page.Column{Head: strings.Join(names, "\n"), Style: strong, Grow: 1, Parts: []page.Column{
			{Head: "mark", W: markMM + tileGap, Draw: mark}, {Head: "coats", W: float64(tiles.Coats)*(page.Tick+boxGap) + tileGap, Draw: boxes},
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
	tiles, scale := d.plan.Tiles, d.doc.Scale()
	w, h := tiles.WidthMM*scale, tiles.HeightMM*scale
	rest := f.Rest()
	name := "A tile at life size"
	if most := max((rest.H-30)/2, 105); h > most || w > rest.W-70 {
		k := min(most/h, (rest.W-70)/w)
		w, h = w*k, h*k
		name = "A tile, drawn smaller"
	}
	left, text := f.Split((w+6)/rest.W, 10)
	r := left.Take(h + 1)
	d.drawCoats(f.Page, page.Rect{X: r.X + 6, Y: r.Y + 1, W: w, H: h})
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
		text.Para(body, "The long side needs a dish at least "+quantity.LengthText(math.Ceil(dish))+" wide. Pour the glaze out of its cup for it.")
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

// drawCoats draws a tile: the number of coats in each field, darker where there are
// more, and a line at the edge of each coat with how far that is from the tile's
// edge.
func (d *drawer) drawCoats(p *page.Page, r page.Rect) {
	tiles, coats := d.plan.Tiles, d.plan.Tiles.Dips()
	kx, ky := r.W/tiles.WidthMM, r.H/tiles.HeightMM
	xs, ys := []float64{0, tiles.WidthMM}, []float64{0, tiles.HeightMM} // from the left, and from below
	for _, c := range coats {
		if c.Across {
			xs = append(xs, c.MM)
		} else {
			ys = append(ys, c.MM)
		}
	}
	slices.Sort(xs)
	slices.Sort(ys)
	for i, x := range xs[1:] {
		for j, y := range ys[1:] {
			n := 0
			for _, c := range coats {
				if c.Across && x <= c.MM || !c.Across && y <= c.MM {
					n++
				}
			}
			field := page.Rect{X: r.X + xs[i]*kx, Y: r.Bottom() - y*ky, W: (x - xs[i]) * kx, H: (y - ys[j]) * ky}
			if n > 0 {
				p.Shade(field, 1-0.22*float64(n)/float64(len(coats)))
			}
			if field.H > 5 && field.W > 5 {
				p.Text(field, partName.To(page.Centre), fmt.Sprint(n))
			}
		}
	}
	edge := page.Thin.Dashed(2, 1)
	for _, c := range coats {
		if x := r.X + c.MM*kx; c.Across {
			p.Line(x, r.Y, x, r.Bottom(), edge)
			continue
		}
		y := r.Bottom() - c.MM*ky
		p.Line(r.X, y, r.Right(), y, edge)
		if text := quantity.LengthText(c.MM); c.MM*ky > 5 {
			p.Up(r.X-3, y+d.doc.Width(text, fine)/2, fine, text)
		}
	}
	p.Box(r, page.Medium)
}
