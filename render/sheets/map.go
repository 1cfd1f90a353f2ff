package sheets

import (
	"fmt"
	"math"
	"strings"

	"pourboard/blend"
	"pourboard/blend/quantity"
	"pourboard/layout"
	"pourboard/render/page"
	"pourboard/render/wording"
)

// Measures of a map, mm.
const (
	mapPad     = 0.8  // between the frame and the text
	mapAir     = 1.0  // between places
	mapLower   = 6.0  // at most, that a map lies lower than the head
	mapLeading = 0.9  // of the usual distance of lines
	mostPlaceW = 44.0 // of a place
	mostPlaceH = 34.0
	lineGap    = 8.0 // below each row of cups with its bodies
)

// A mapStyle is a way to set the places of a map.
type mapStyle struct {
	number, holds, mark page.Style
	byBody              bool // the marks of each body in a row of their own
	brief               bool // what the cups hold is left to the log
}

// mapStyles are in the order in which they are tried: a row for each body where
// the design is a line, then smaller type.
func (d *drawer) mapStyles() []mapStyle {
	var list []mapStyle
	if d.inLine() {
		list = append(list, mapStyle{number: cupNo, holds: body, mark: strong, byBody: true})
	}
	small := page.Regular(page.Least)
	for _, brief := range []bool{false, true} {
		list = append(list,
			mapStyle{cupNo, body, fine, false, brief},
			mapStyle{partName, fine, small, false, brief},
			mapStyle{strong, small, small, false, brief})
	}
	return list
}

// A chart is the map as it goes on the paper.
type chart struct {
	layout.Map
	mapStyle
	paperW, paperH     float64
	w, h               float64 // of a place with the air around it, mm
	labelMM            float64 // of the names of the bodies, left of the places
	letterMM, figureMM float64 // of what the cups hold
	holdsLines         int
}

// maps is the design in its own shape, on one page: of larger paper where it could
// not be read on the plan's own.
func (d *drawer) maps() {
	c := d.chart()
	lead := d.mapLead(c.mapStyle)
	if max(c.paperW, c.paperH) > d.h {
		lead += " Print this page on larger paper."
	}
	f := page.NewFlow(d.doc.Add(d.part.title, c.paperW, c.paperH), d.titles("Map", lead).Draw)
	f.Page.Foot = "Pour and dip by number. " + edgeFoot
	in := f.Rest().After(c.labelMM)
	at := page.Point{X: in.X + (in.W-c.W*c.w)/2, Y: in.Y + min(mapLower, (in.H-c.H*c.h)/2)}
	if c.byBody {
		at = page.Point{X: in.X, Y: in.Y}
	}
	d.drawPlaces(f.Page, at, c)
}

// mapLead says what the letters stand for.
func (d *drawer) mapLead(s mapStyle) string {
	switch {
	case s.byBody:
		return d.keys()
	case s.brief:
		return "Row by row from the top, left to right. " + d.letterKey() + " What each cup holds is on the log."
	}
	return wording.Sentence(d.contentsKey()) + " Row by row from the top, left to right. " + d.letterKey()
}

// inLine reports whether the design is a row of cups.
func (d *drawer) inLine() bool {
	k := d.plan.Blend.Kind
	return k == blend.Line || k == blend.List
}

// chart finds the first style with which the map goes on one page, and of the two
// ways to turn the paper the one with larger places, or fewer rows of a line. Where
// none does, the paper is larger.
func (d *drawer) chart() chart {
	contents := d.allContents()
	for k := 1.0; ; k *= math.Sqrt2 {
		for _, s := range d.mapStyles() {
			var best chart
			least := d.measure(s, contents)
			for _, turned := range []bool{false, true} {
				w, h := d.paper(turned)
				least.paperW, least.paperH = k*w, k*h
				top := d.titles("Map", d.mapLead(s)).Draw(d.doc.Scrap(k*w, k*h), false)
				c, fits := d.place(least, k*w-2*page.Margin, k*h-page.Margin-page.FootH-top-1)
				better := c.w*c.h > 1.1*best.w*best.h
				if s.byBody {
					better = best.H == 0 || c.H < best.H
				}
				if fits && better {
					best = c
				}
			}
			if best.H > 0 {
				return best
			}
		}
	}
}

// place lays the map out on w × h mm: in the shape that leaves the largest places,
// a line as far across as it goes. It reports whether the map fits.
func (d *drawer) place(c chart, w, h float64) (chart, bool) {
	w -= c.labelMM
	least, worst := c.w, math.Inf(1)
	widest := w/least + 1
	if !d.inLine() && d.Test.Layers == 1 {
		widest = 1 // there is one shape
	}
	for wide := 1.0; wide <= widest; wide++ {
		m := layout.MapOf(d.Test, wide)
		placeW := max(least, min(mostPlaceW, w/m.W))
		placeH := d.placeH(c, placeW)
		over := max(m.W*placeW/w, m.H*placeH/h)
		better := over < worst-1e-9
		if c.byBody && over <= 1 {
			better = worst > 1 || m.H < c.H
		}
		if better {
			worst, c.Map, c.w, c.h = over, m, placeW, placeH
		}
	}
	if !c.byBody {
		c.h = max(c.h, min(mostPlaceH, h/c.H))
	}
	return c, worst <= 1+1e-9
}

// allContents is what each cup holds.
func (d *drawer) allContents() (all [][]held) {
	for _, cell := range d.Test.Cells {
		all = append(all, d.cupContents(cell))
	}
	return all
}

// measure is a chart with what its places need at least, for what each cup holds.
func (d *drawer) measure(s mapStyle, contents [][]held) chart {
	c := chart{mapStyle: s}
	for i, list := range contents {
		c.w = max(c.w, d.doc.Width(fmt.Sprint(i+1), s.number))
		c.holdsLines = max(c.holdsLines, len(list))
		for _, h := range list {
			c.letterMM = max(c.letterMM, d.doc.Width(h.letter, s.holds))
			c.figureMM = max(c.figureMM, d.doc.Width(h.text, s.holds))
		}
	}
	if s.brief {
		c.holdsLines = 0
	} else {
		c.w = max(c.w, c.letterMM+1.5+c.figureMM)
	}
	if s.byBody {
		c.labelMM = min(30, d.doc.Widest(d.plan.Tiles.Bodies, strong)+3)
	}
	last := len(d.Test.Cells)
	c.w = max(c.w, d.doc.Width(d.cupMark(last)+" "+d.letters(d.tilesOf(1)[0]), s.mark)) + 2*mapPad + mapAir
	return c
}

// markRows are the marks of a cup in the rows that a place w mm wide, air
// included, has for them.
func (d *drawer) markRows(c chart, cup int, w float64) []string {
	if !c.byBody {
		return d.doc.Lines(d.allMarks(cup), c.mark, w-mapAir-2*mapPad)
	}
	var marks []string
	for _, t := range d.tilesOf(cup) {
		marks = append(marks, t.Mark)
	}
	return marks
}

// bodyH is the height of the row of a body, mm.
func (d *drawer) bodyH() float64 {
	return max(11, float64(max(1, d.plan.Tiles.Repeats))*strong.LineH()+4)
}

// marksH is the height that so many rows of marks take, mm.
func (d *drawer) marksH(c chart, rows int) float64 {
	if c.byBody {
		return d.bodyH() * float64(len(d.plan.Tiles.Bodies))
	}
	return mapLeading * c.mark.LineH() * float64(rows)
}

// placeH is the height that a place of a width needs, mm, air included.
func (d *drawer) placeH(c chart, w float64) float64 {
	h := mapLeading * (c.number.LineH() + float64(c.holdsLines)*c.holds.LineH())
	h += d.marksH(c, len(d.markRows(c, len(d.Test.Cells), w)))
	if c.byBody {
		return h + 3 + lineGap
	}
	return h + 2*mapPad + mapAir
}

// drawPlaces draws the map from a point on.
func (d *drawer) drawPlaces(p *page.Page, from page.Point, c chart) {
	for _, at := range c.Places {
		cell := d.Test.Cells[at.Cup-1]
		r := page.Rect{X: from.X + at.X*c.w, Y: from.Y + at.Y*c.h, W: c.w - mapAir, H: c.h - mapAir}
		if d.Test.Layers > 1 && (at.Cup == 1 || cell.Layer != d.Test.Cells[at.Cup-2].Layer) {
			name := fmt.Sprintf("%s %s %%", blend.GlazeLetter(3), quantity.ShareText(cell.Shares[3]))
			gap := layout.LayerGap * c.h
			p.Text(page.Rect{X: r.X, Y: r.Y - gap, W: r.W, H: gap}, strong.To(page.Centre), name)
		}
		if c.byBody {
			r.W, r.H = c.w, c.h-lineGap
		}
		if name := r.Below(r.H - d.marksH(c, 0)).Upper(d.bodyH()); c.byBody && at.X == 0 {
			name.X, name.W = r.X-c.labelMM, c.labelMM-2
			for _, body := range d.plan.Tiles.Bodies {
				p.Fitted(name, strong, body)
				name.Y += name.H
			}
		}
		d.drawPlace(p, r, cell, c)
	}
}

// drawPlace draws a cup: its number, what it holds, the marks of its tiles.
func (d *drawer) drawPlace(p *page.Page, r page.Rect, cell blend.Cell, c chart) {
	rows := d.markRows(c, cell.Number, r.W+mapAir)
	in, pitch := r.Inset(mapPad), mapLeading*c.mark.LineH()
	if c.byBody {
		in, pitch = r, d.marksH(c, 0)/float64(len(rows))
		body := r.Below(r.H - d.marksH(c, 0)).Upper(d.bodyH())
		for range d.plan.Tiles.Bodies {
			p.Box(body, page.Thin)
			body.Y += body.H
		}
	} else {
		p.Box(r, page.Thin)
	}
	number := in.Upper(mapLeading * c.number.LineH())
	p.Text(number, c.number.To(page.Centre), fmt.Sprint(cell.Number))
	marks := in.Below(in.H - pitch*float64(len(rows)))
	if room := in.Below(number.H); !c.brief {
		d.drawContents(p, room.Upper(room.H-marks.H), d.cupContents(cell), c)
	}
	for _, mark := range rows {
		p.Text(marks.Upper(pitch), c.mark.To(page.Centre), mark)
		marks = marks.Below(pitch)
	}
}

// drawContents draws what a cup holds in the middle of a rectangle, letters and
// points of figures below each other.
func (d *drawer) drawContents(p *page.Page, r page.Rect, list []held, c chart) {
	after := 0.0
	for _, h := range list {
		if _, fraction, ok := strings.Cut(h.text, "."); ok && h.letter != "" {
			after = max(after, d.doc.Width("."+fraction, c.holds))
		}
	}
	wide := min(r.W, c.letterMM+3.5+c.figureMM)
	line := min(mapLeading*c.holds.LineH()*1.25, r.H/float64(len(list)))
	row := page.Rect{X: r.X + (r.W-wide)/2, Y: r.Y + (r.H-line*float64(len(list)))/2, W: wide, H: line}
	for _, h := range list {
		if h.letter == "" {
			p.Text(row, c.holds.To(page.Centre), h.text)
		} else {
			p.Text(row.Before(c.letterMM), c.holds, h.letter)
			p.Figure(row, c.holds.To(page.Decimal), h.text, after)
		}
		row.Y += line
	}
}
