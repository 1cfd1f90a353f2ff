package page

import (
	"fmt"
	"math"

	"pourboard/layout"
)

// A Value is what a place of a map shows, on white (0) to the darkest grey (1).
type Value struct {
	Text  string
	Shade float64
}

// Measures of a map of values, mm, and its darkest grey: figures on that are still
// black on light.
const (
	darkest = 0.62
	mostW   = 24.0
	mostH   = 15.0
	easyW   = 14.0
	easyH   = 8.0
	leastW  = 8.6
	leastH  = 7.2
	mapHead = 13.0 // title, and room below the map
)

// Values sets a map of values, by cup, on one page: in rest mm of height if its
// places can be so small, otherwise two maps to a page or one. of is the map in so
// many places across. Where its places are too small for a page it is left out.
func (f *Flow) Values(title string, of func(wide float64) layout.Map, values []Value, rest float64) {
	in := f.Page.Inside()
	for _, most := range []float64{rest - mapHead, (in.H-16)/2 - mapHead, in.H - 35} {
		shape, w, h := fitMap(of, in.W, most)
		if w < leastW || h < leastH {
			continue
		}
		f.Heading(title, shape.H*h+3)
		top := f.Take(shape.H*h + 3)
		for _, at := range shape.Places {
			r := Rect{X: top.X + at.X*w, Y: top.Y + at.Y*h, W: w, H: h}
			f.Page.Value(r, fmt.Sprint(at.Cup), values[at.Cup-1])
		}
		return
	}
	f.Heading(title, 10)
	f.Para(Regular(Body), "Too many cups for a map on this paper. Use larger paper.")
}

// fitMap finds the places with which a map goes on w × h mm: a line, or layers, as
// far across as leaves places that are read with ease, otherwise the largest.
func fitMap(of func(wide float64) layout.Map, w, h float64) (best layout.Map, placeW, placeH float64) {
	for wide := math.Floor(w / leastW); wide >= 1; wide-- {
		try := of(wide)
		x, y := min(mostW, w/try.W), min(mostH, h/try.H)
		if y = min(y, max(0.62*x, leastH)); x*y > 1.1*placeW*placeH {
			best, placeW, placeH = try, x, y
			if x >= easyW && y >= easyH {
				break
			}
		}
	}
	return best, placeW, placeH
}

// Value draws a place: its name small, and its text.
func (p *Page) Value(r Rect, name string, v Value) {
	p.Shade(r, 1-(1-darkest)*v.Shade)
	p.Box(r, Thin)
	small := Regular(Least)
	p.Text(Rect{X: r.X + 0.6, Y: r.Y + 0.3, W: r.W - 1, H: small.LineH()}, small, name)
	rest := r.Inset(0.5).Below(small.LineH() - 0.5)
	p.Text(rest, Bold(max(Least, min(13, math.Floor(rest.H/MMPerPt)))).To(Centre), v.Text)
}
