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
	tileRowH  = 9.5 // of a cup with all its bodies, mm
	leastRowH = 8.4
	boxGap    = 0.8
)

// tiles is a row for each cup and a group of columns for each body: the marks
// to paint, and a box for each coat.
func (d *drawer) tiles() {
	f := d.begin("Tiles", d.tilesLead(), true)
	d.coats(f)
	cup := page.Grid{Columns: []page.Column{d.cupColumn()}}
	cup.Measure(d.doc)
	bodies, repeats := len(d.plan.Tiles.Bodies), max(1, d.plan.Tiles.Repeats)
	most := max(1, int((f.Rest().W-cup.Columns[0].W)/d.tileColumns(1, 1)[0].W))
	across := min(bodies*repeats, most)
	if repeats > 1 && across > repeats {
		across -= across % repeats // a line has whole bodies
	}
	lines := (bodies*repeats-1)/across + 1
	if repeats == 1 {
		across = (bodies-1)/lines + 1
	}
	columns := append(cup.Columns, d.tileColumns(across, lines)...)
	f.Grid(page.Grid{
		Columns: columns, Rows: len(d.Test.Cells), HeadH: 5 + 4.6*float64(lines), RowH: tileRowH * float64(lines), LeastH: leastRowH * float64(lines),
		Strips: 3, Rule: d.rowRule(),
	})
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
	markMM := 0.0
	for _, t := range d.Places.Tiles {
		markMM = max(markMM, d.doc.Width(t.Mark, strong), d.doc.Width(t.Under, fine))
	}
	coats := d.plan.Tiles.Coats
	c := page.Column{W: markMM + float64(coats)*(page.Tick+boxGap) + 2*tileGap, Grow: 1}
	var columns []page.Column
	for k := range across {
		c.DrawHead = func(p *page.Page, r page.Rect) { d.tileHead(p, r, k, across, lines) }
		c.Draw = func(p *page.Page, r page.Rect, row int) {
			tiles := d.tilesOf(d.Test.Cells[row].Number)
			half := r.H / float64(lines) / 2
			for i := k; i < len(tiles); i += across {
				t := d.Places.Tiles[tiles[i]]
				d.mark(p, r.X, r.Y+half-0.5, strong, t.Mark)
				d.mark(p, r.X, r.Y+half+0.8+fine.CapMM(), fine, t.Under)
				for n := range coats {
					p.Tick(page.Rect{X: r.X + markMM + tileGap + float64(n)*(page.Tick+boxGap), Y: r.Y, H: 2 * half})
				}
				r.Y += 2 * half
			}
		}
		columns = append(columns, c)
	}
	return columns
}

// tileHead names the bodies of a column, a line each, and says what is below.
func (d *drawer) tileHead(p *page.Page, r page.Rect, k, across, lines int) {
	tiles := d.plan.Tiles
	repeats := max(1, tiles.Repeats)
	y := r.Bottom() - 5 - 4.6*float64(lines)
	for i := k; i < len(tiles.Bodies)*repeats; i += across {
		name := tiles.Bodies[i/repeats]
		if repeats > 1 {
			name += fmt.Sprint(" ", i%repeats+1)
		}
		p.Text(page.Rect{X: r.X, Y: y, W: r.W - tileGap, H: 4.6}, strong, name)
		y += 4.6
	}
	boxes := "mark, then a box for each coat"
	if d.doc.Width(boxes, fine) > r.W-tileGap {
		boxes = "mark, coats"
	}
	p.Text(page.Rect{X: r.X, Y: r.Bottom() - 5, W: r.W - tileGap, H: 4.5}, fine, boxes)
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
	if most := (rest.H - 30) / 2; h > max(most, 105) || w > rest.W-70 {
		k := min(max(most, 105)/h, (rest.W-70)/w)
		w, h = w*k, h*k
		name = "A tile, drawn smaller"
	}
	const air = 4.0
	r := page.Rect{X: rest.X + 6, Y: rest.Y + 1, W: w, H: h}
	d.drawCoats(f.Page, r)
	text := page.Rect{X: r.Right() + air + 6, Y: rest.Y, W: rest.W - w - 6 - air - 6}
	y := f.Page.Para(text, page.Bold(page.Head), name) + 1
	var lines []string
	for i, c := range tiles.Dips() {
		lines = append(lines, d.coatText(i+1, c))
	}
	lines = append(lines, d.dipNotes()...)
	beside := func(line string) bool {
		return y+float64(len(d.doc.Lines(line, body, text.W)))*body.LineH() <= rest.Bottom()
	}
	for len(lines) > 0 && beside(lines[0]) {
		y = f.Page.Para(page.Rect{X: text.X, Y: y, W: text.W}, body, lines[0]) + 1
		lines = lines[1:]
	}
	f.Y = max(r.Bottom(), y) + 3
	for _, line := range lines { // of many coats on small paper
		f.Para(body, line)
	}
}

// dipNotes are further things to know about dipping.
func (d *drawer) dipNotes() []string {
	tiles := d.plan.Tiles
	var notes []string
	if tiles.HoldS > 0 {
		notes = append(notes, "Dip time: "+quantity.PercentText(tiles.HoldS)+" s, the same for every tile.")
	} else {
		notes = append(notes, "Count the same dip time for every tile. Write it here: ______ s.")
	}
	if tiles.Coats > 1 {
		notes = append(notes, "Figures on the tile: number of coats.")
	}
	if dish := tiles.DishMM(); tiles.Bands == blend.Corner && dish > d.plan.Cup.DiameterMM {
		notes = append(notes, "The long side needs a dish at least "+quantity.LengthText(math.Ceil(dish))+" wide. Pour the glaze out of its cup for it.")
	}
	return append(notes, "Put each tile back on the place with its mark.")
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
	return fmt.Sprintf("%s coat: dip %s first, %s deep.", ordinal(n), edge, quantity.LengthText(c.MM))
}

// drawCoats draws a tile: the number of coats in each field, and a line at the
// edge of each coat with how far that is from the tile's edge.
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
	for i := range len(xs) - 1 {
		for j := range len(ys) - 1 {
			field := page.Rect{X: r.X + xs[i]*kx, Y: r.Bottom() - ys[j+1]*ky, W: (xs[i+1] - xs[i]) * kx, H: (ys[j+1] - ys[j]) * ky}
			coatField(p, field, coatsAt(coats, (xs[i]+xs[i+1])/2, (ys[j]+ys[j+1])/2), len(coats))
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

// coatsAt counts the coats at a place of a tile, mm from its left and from below.
func coatsAt(coats []blend.Coat, x, y float64) int {
	n := 0
	for _, c := range coats {
		if c.Across && x < c.MM || !c.Across && y < c.MM {
			n++
		}
	}
	return n
}

// coatField draws a field with n of all coats.
func coatField(p *page.Page, r page.Rect, n, of int) {
	if n > 0 {
		p.Shade(r, 1-0.22*float64(n)/float64(of))
	}
	if r.H > 5 && r.W > 5 {
		p.Text(r, partName.To(page.Centre), fmt.Sprint(n))
	}
}
