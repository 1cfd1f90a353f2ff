package page

import (
	"fmt"
	"math"
)

// Ruler draws a ruler along the middle of a rectangle, the longer way, from where
// it reads fromMM: millimetres on one side of its line, inches on the other.
func (p *Page) Ruler(r Rect, fromMM float64) {
	k := ruler{p: p, from: Point{r.X, r.Y + r.H/2}, fromMM: fromMM, length: r.W}
	if r.H > r.W {
		k = ruler{p: p, from: Point{r.X + r.W/2, r.Y}, fromMM: fromMM, length: r.H, down: true}
	}
	p.Lines(Thin, k.at(0, 0), k.at(k.length, 0))
	k.marks(1, 10, 10, func(n int) string { return fmt.Sprint(10 * n) })
	k.marks(-1, 25.4, 8, func(n int) string { return fmt.Sprintf("%d in", n) })
}

// A ruler goes along the x axis, or downwards.
type ruler struct {
	p              *Page
	from           Point
	fromMM, length float64
	down           bool
}

// at is the place so far along the ruler and across it.
func (k ruler) at(along, across float64) Point {
	if k.down {
		return Point{k.from.X - across, k.from.Y + along}
	}
	return Point{k.from.X + along, k.from.Y + across}
}

// marks draws the marks of one side, a long one every unit and shorter ones at its
// parts, and a number behind each long one, if the ruler is long enough.
func (k ruler) marks(side, unit float64, parts int, name func(n int) string) {
	step, style := unit/float64(parts), Regular(Least)
	for i := int(math.Ceil(k.fromMM/step - 1e-9)); float64(i)*step-k.fromMM <= k.length+1e-9; i++ {
		along, long := float64(i)*step-k.fromMM, 0.9
		switch i % parts {
		case 0:
			long = 3.2
		case parts / 2:
			long = 1.25
		}
		k.p.Lines(Thin, k.at(along, 0), k.at(along, side*long))
		text := name(i / parts)
		w := k.p.doc.Width(text, style)
		if i%parts > 0 || i == 0 || along+0.6+w > k.length {
			continue
		}
		if mid := k.at(along+0.6+w/2, side*2.3); k.down {
			k.p.Up(mid.X, mid.Y, style, text)
		} else {
			k.p.At(mid.X, mid.Y+style.CapMM()/2, style.To(Centre), text)
		}
	}
}
