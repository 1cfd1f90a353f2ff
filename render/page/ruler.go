package page

import (
	"fmt"
	"math"
)

// RulerHalf is what a ruler takes on either side of its line, mm.
const RulerHalf = 3.5

// A ruler is drawn along the x axis, or downwards, from x, y, where it reads
// fromMM: millimetres on one side of its line, inches on the other.
type ruler struct {
	p              *Page
	x, y           float64
	fromMM, length float64
	down           bool
}

// Ruler draws a ruler along the middle of a rectangle, the longer way, from
// where it reads fromMM.
func (p *Page) Ruler(r Rect, fromMM float64) {
	k := ruler{p: p, x: r.X, y: r.Y + r.H/2, fromMM: fromMM, length: r.W}
	if r.H > r.W {
		k = ruler{p: p, x: r.X + r.W/2, y: r.Y, fromMM: fromMM, length: r.H, down: true}
	}
	a, b := k.at(0, 0), k.at(k.length, 0)
	p.Line(a.X, a.Y, b.X, b.Y, Thin)
	k.marks(1, 10, 10, func(n int) string { return fmt.Sprint(10 * n) })
	k.marks(-1, 25.4, 8, func(n int) string { return fmt.Sprintf("%d in", n) })
}

// at is the place so far along the ruler and across it.
func (k ruler) at(along, across float64) Point {
	if k.down {
		return Point{k.x - across, k.y + along}
	}
	return Point{k.x + along, k.y + across}
}

// marks draws the marks and numbers of one side: a long mark every unit, and
// shorter ones at its parts.
func (k ruler) marks(side, unit, parts float64, name func(n int) string) {
	const short, middle, long = 0.9, 1.25, 3.2
	k.comb(side, 0, unit/parts, short)
	k.comb(side, unit/2, unit, middle)
	k.comb(side, 0, unit, long)
	for n := max(1, int(math.Ceil((k.fromMM-1e-9)/unit))); float64(n)*unit <= k.fromMM+k.length+1e-9; n++ {
		k.number(float64(n)*unit-k.fromMM, side, name(n))
	}
}

// number sets a number behind its mark, if the ruler is long enough.
func (k ruler) number(along, side float64, text string) {
	style := Regular(Least)
	w := k.p.doc.Width(text, style)
	if along+0.6+w > k.length {
		return
	}
	mid := k.at(along+0.6+w/2, side*2.3)
	if k.down {
		k.p.Up(mid.X, mid.Y, style, text)
	} else {
		k.p.At(mid.X, mid.Y+style.CapMM()/2, style.To(Centre), text)
	}
}

// comb draws marks as one dashed line, as wide as the marks are long: a stroke
// for each would be most of a sheet.
func (k ruler) comb(side, start, step, tick float64) {
	first := start + step*math.Ceil((k.fromMM-start-1e-9)/step) - k.fromMM
	count := int(math.Floor((k.length-first+1e-9)/step)) + 1
	stroke := func(from, to float64) {
		a, b := k.at(from, side*tick/2), k.at(to, side*tick/2)
		k.p.Line(a.X, a.Y, b.X, b.Y, Pen{MM: tick}.Dashed(Thin.MM, step-Thin.MM))
	}
	if count > 0 && first < Thin.MM/2 { // the ruler begins in the midst of a mark
		stroke(0, first+Thin.MM/2)
		first, count = first+step, count-1
	}
	if count > 0 {
		stroke(first-Thin.MM/2, min(k.length, first+float64(count-1)*step+Thin.MM/2))
	}
}
