package page

import (
	"fmt"
	"math"
)

// Ruler draws a ruler along the middle of a rectangle, the longer way, from where
// it reads fromMM: millimetres on one side of its line, inches on the other.
func (p *Page) Ruler(r Rect, fromMM float64) {
	k := ruler{p: p, x: r.X, y: r.Y + r.H/2, fromMM: fromMM, length: r.W}
	if r.H > r.W {
		k = ruler{p: p, x: r.X + r.W/2, y: r.Y, fromMM: fromMM, length: r.H, down: true}
	}
	k.line(0, 0, k.length, 0)
	k.marks(1, 10, 10, func(n int) string { return fmt.Sprint(10 * n) })
	k.marks(-1, 25.4, 8, func(n int) string { return fmt.Sprintf("%d in", n) })
}

// A ruler goes along the x axis, or downwards, from x, y.
type ruler struct {
	p              *Page
	x, y           float64
	fromMM, length float64
	down           bool
}

// at is the place so far along the ruler and across it.
func (k ruler) at(along, across float64) Point {
	if k.down {
		return Point{k.x - across, k.y + along}
	}
	return Point{k.x + along, k.y + across}
}

func (k ruler) line(along1, across1, along2, across2 float64) {
	a, b := k.at(along1, across1), k.at(along2, across2)
	k.p.Line(a.X, a.Y, b.X, b.Y, Thin)
}

// marks draws the marks and numbers of one side: a long mark every unit, and
// shorter ones at its parts.
func (k ruler) marks(side, unit float64, parts int, name func(n int) string) {
	step := unit / float64(parts)
	for i := int(math.Ceil(k.fromMM/step - 1e-9)); ; i++ {
		along := float64(i)*step - k.fromMM
		if along > k.length+1e-9 {
			return
		}
		long := 0.9
		switch {
		case i%parts == 0:
			long = 3.2
			k.number(along, side, name(i/parts))
		case i%parts == parts/2:
			long = 1.25
		}
		k.line(along, 0, along, side*long)
	}
}

// number sets a number behind its mark, if the ruler is long enough.
func (k ruler) number(along, side float64, text string) {
	style := Regular(Least)
	w := k.p.doc.Width(text, style)
	if along+0.6+w > k.length || k.fromMM+along < 1e-9 {
		return
	}
	mid := k.at(along+0.6+w/2, side*2.3)
	if k.down {
		k.p.Up(mid.X, mid.Y, style, text)
	} else {
		k.p.At(mid.X, mid.Y+style.CapMM()/2, style.To(Centre), text)
	}
}
