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
	"pourboard/render/wording"
)

// mapSizes are the sizes of type in a place of the map: the cup's number, what
// is in it, and the marks. The first that goes on a page is taken.
var mapSizes = [][3]float64{{page.Amount, page.Body, page.Small}, {page.Head, page.Small, page.Least}, {page.Body, page.Least, page.Least}}

const (
	mapPad     = 0.8 // mm, between the frame and the text
	mapAir     = 1.0 // mm, between places
	mapLower   = 6.0 // mm, at most, that a map lies lower than the head
	mapLeading = 0.9 // of the usual distance of lines
	mostPlaceH = 34.0
	mostPlaceW = 44.0
)

// A chart is the map as it goes on the paper.
type chart struct {
	layout.Map
	turned bool
	w, h   float64 // of a place with the air around it, mm
	brief  bool    // what the cups hold does not go in
	pages  int
	size   placeSize
}

// placeSize is what one place needs.
type placeSize struct {
	number, holds, mark page.Style
	w, h                float64
	letterMM, figureMM  float64
	marks               int // lines
}

// maps is the design in its own shape, on one page wherever that can be read.
func (d *drawer) maps() {
	if l := d.lineShape(); l.rows > 0 {
		d.lineMap(l)
		return
	}
	c := d.chart()
	w, h := d.w, d.h
	if c.turned {
		w, h = h, w
	}
	f := d.beginOn(w, h, "Map", d.mapLead(c.brief), false)
	f.Page.Foot = "Pour and dip by number. Keep this edge towards you."
	d.drawChart(f, c)
}

// mapLead says what the letters stand for.
func (d *drawer) mapLead(brief bool) string {
	text := "Row by row from the top, left to right. " + d.letterKey()
	if brief {
		return text + " What each cup holds is on the log."
	}
	return wording.Sentence(d.contentsKey()) + " " + text
}

// inLine reports whether the design is a row of cups.
func (d *drawer) inLine() bool {
	k := d.plan.Blend.Kind
	return k == blend.Line || k == blend.List
}

// chart finds the largest type with which the map goes on one page, and the
// larger places of the two ways to turn the paper. Where it does not go, what the
// cups hold is left to the log, and then it takes several pages.
func (d *drawer) chart() chart {
	var best chart
	for _, brief := range []bool{false, true} {
		for _, pt := range mapSizes {
			size := d.placeSize(pt, brief)
			for _, turned := range []bool{false, true} {
				w, h := d.w, d.h
				if turned {
					w, h = h, w
				}
				top := d.titles("Map", d.mapLead(brief), false).Height(d.doc, w, h)
				c := d.place(size, w-2*page.Margin, h-page.Margin-page.FootH-top-1)
				c.turned, c.brief = turned, brief
				switch {
				case best.pages == 0 || c.pages < best.pages:
					best = c
				case c.pages == 1 && c.size == best.size && c.w*c.h > 1.1*best.w*best.h:
					best = c
				}
			}
			if best.pages == 1 {
				return best
			}
		}
	}
	return best
}

// place lays the map out on w × h mm: as wide as the paper, if that shape goes.
func (d *drawer) place(least placeSize, w, h float64) chart {
	var c chart
	worst := math.Inf(1)
	for wide := 1.0; wide <= w/(least.w+mapAir)+1; wide++ {
		m := layout.MapOf(d.Test, wide)
		size := d.widen(least, min(mostPlaceW, w/m.W)-mapAir)
		if s := max(m.W*(size.w+mapAir)/w, m.H*(size.h+mapAir)/h); s < worst-1e-9 {
			worst, c.Map, c.size = s, m, size
		}
	}
	c.w = max(c.size.w+mapAir, min(mostPlaceW, w/c.W))
	c.h = max(c.size.h+mapAir, min(mostPlaceH, h/c.H))
	across, down := math.Floor(w/c.w+1e-9), math.Floor(h/c.h+1e-9)
	c.pages = int(math.Ceil(c.W/across-1e-9)) * int(math.Ceil(c.H/down-1e-9))
	if worst <= 1+1e-9 {
		c.pages = 1
	}
	return c
}

// placeSize measures what a place needs at least.
func (d *drawer) placeSize(pt [3]float64, brief bool) placeSize {
	s := placeSize{number: page.Bold(pt[0]), holds: page.Regular(pt[1]), mark: page.Regular(pt[2])}
	most, last := 0, len(d.Test.Cells)
	for _, c := range d.Test.Cells {
		s.w = max(s.w, d.doc.Width(fmt.Sprint(c.Number), s.number))
		list := d.cupContents(c)
		most = max(most, len(list))
		for _, h := range list {
			s.letterMM = max(s.letterMM, d.doc.Width(h.letter, s.holds))
			s.figureMM = max(s.figureMM, d.doc.Width(h.text, s.holds))
		}
	}
	if brief {
		most = 0
	} else {
		s.w = max(s.w, s.letterMM+1.5+s.figureMM)
	}
	// Marks of many tiles go on several lines.
	least := d.doc.Width(d.cupMark(last)+" "+d.suffix(1, 0), s.mark)
	s.w = max(s.w, least) + 2*mapPad
	s.marks = len(d.doc.Lines(d.allMarks(last), s.mark, s.w-2*mapPad))
	s.h = mapLeading*(s.number.LineH()+float64(most)*s.holds.LineH()+float64(s.marks)*s.mark.LineH()) + 2*mapPad
	return s
}

// widen gives a place more width, which may take lines from its marks.
func (d *drawer) widen(s placeSize, w float64) placeSize {
	s.w = max(s.w, w)
	marks := len(d.doc.Lines(d.allMarks(len(d.Test.Cells)), s.mark, s.w-2*mapPad))
	s.h -= mapLeading * float64(s.marks-marks) * s.mark.LineH()
	s.marks = marks
	return s
}

// drawChart draws the map, in as many pages as it takes.
func (d *drawer) drawChart(f *page.Flow, c chart) {
	in := f.Rest()
	if c.pages == 1 {
		d.drawPlaces(f.Page, page.Point{X: in.X + (in.W-c.W*c.w)/2, Y: in.Y + min(mapLower, (in.H-c.H*c.h)/2)}, c, page.Rect{W: c.W, H: c.H})
		return
	}
	// Pages of one size, so that none is left with a place or two.
	even := func(all, most float64) float64 { return math.Ceil(all / math.Ceil(all/most-1e-9)) }
	across, down := even(c.W, math.Floor(in.W/c.w+1e-9)), even(c.H, math.Floor(in.H/c.h+1e-9))
	for y := 0.0; y < c.H-1e-9; y += down {
		for x := 0.0; x < c.W-1e-9; x += across {
			if x+y > 0 {
				f.Break()
			}
			d.drawPlaces(f.Page, page.Point{X: in.X, Y: f.Y}, c, page.Rect{X: x, Y: y, W: across, H: down})
		}
	}
}

// drawPlaces draws from a point on what of the map begins in a view, which is in
// places.
func (d *drawer) drawPlaces(p *page.Page, from page.Point, c chart, view page.Rect) {
	shown := func(x, y float64) (page.Rect, bool) {
		at := page.Rect{X: from.X + (x-view.X)*c.w, Y: from.Y + (y-view.Y)*c.h, W: c.w - mapAir, H: c.h - mapAir}
		return at, x > view.X-1e-9 && y > view.Y-1e-9 && x < view.Right()-1e-9 && y < view.Bottom()-1e-9
	}
	for _, at := range c.Places {
		if r, ok := shown(at.X, at.Y); ok {
			d.drawPlace(p, r, at.Cup, c)
		}
	}
	for _, l := range c.Layers {
		if r, ok := shown(l.X, l.Y); ok && len(c.Layers) > 1 {
			d.layerName(p, r, c.Places[l.First], (c.Places[l.First].X-l.X)*c.w)
		}
	}
}

// layerName names a layer beside its first row, where a triangle leaves room.
func (d *drawer) layerName(p *page.Page, r page.Rect, first layout.MapPlace, room float64) {
	share := d.Test.Cells[first.Cup-1].Shares
	if len(share) < 4 {
		return
	}
	text := fmt.Sprintf("%s %s %%", blend.GlazeLetter(3), quantity.ShareText(share[3]))
	if w := d.doc.Width(text, strong); room > w+1 && r.X+w < p.W-page.Margin {
		p.Text(page.Rect{X: r.X, Y: r.Y, W: room - 1, H: strong.LineH()}, strong, text)
	}
}

// drawPlace draws a cup: its number, what it holds, the marks of its tiles.
func (d *drawer) drawPlace(p *page.Page, r page.Rect, cup int, c chart) {
	s := c.size
	p.Box(r, page.Thin)
	in := page.Rect{X: r.X + mapPad, Y: r.Y + mapPad, W: r.W - 2*mapPad, H: r.H - 2*mapPad}
	numberH, holdsH := mapLeading*s.number.LineH(), mapLeading*s.holds.LineH()
	p.Text(page.Rect{X: in.X, Y: in.Y, W: in.W, H: numberH}, s.number.To(page.Centre), fmt.Sprint(cup))
	lines := d.doc.Lines(d.allMarks(cup), s.mark, in.W)
	marks := float64(s.marks) * mapLeading * s.mark.LineH()
	for i, line := range lines {
		y := in.Bottom() - float64(len(lines)-i)*mapLeading*s.mark.LineH()
		p.Text(page.Rect{X: in.X, Y: y, W: in.W, H: mapLeading * s.mark.LineH()}, s.mark.To(page.Centre), line)
	}
	if c.brief {
		return
	}
	list := alignDecimals(d.cupContents(d.Test.Cells[cup-1]))
	middle := page.Rect{X: in.X, Y: in.Y + numberH, W: in.W, H: in.H - numberH - marks}
	line := min(holdsH*1.25, middle.H/float64(len(list)))
	y := middle.Y + (middle.H-line*float64(len(list)))/2
	wide := min(in.W, s.letterMM+3.5+s.figureMM)
	x := in.X + (in.W-wide)/2
	for _, h := range list {
		row := page.Rect{X: x, Y: y, W: wide, H: line}
		if h.letter == "" {
			p.Text(row, s.holds.To(page.Centre), h.text)
		} else {
			p.Text(page.Rect{X: x, Y: y, W: s.letterMM, H: line}, s.holds, h.letter)
			p.Text(row, s.holds.To(page.Right), h.text)
		}
		y += line
	}
}

// alignDecimals gives whole numbers a decimal where another one has one, so that
// the points lie below each other.
func alignDecimals(list []held) []held {
	isWhole := func(h held) bool { return h.letter != "" && strings.Trim(h.text, "0123456789") == "" }
	oneDecimal := func(h held) bool {
		at := strings.IndexByte(h.text, '.')
		return h.letter != "" && at > 0 && at == len(h.text)-2
	}
	if !slices.ContainsFunc(list, oneDecimal) {
		return list
	}
	list = slices.Clone(list)
	for i, h := range list {
		if isWhole(h) {
			list[i].text += ".0"
		}
	}
	return list
}
