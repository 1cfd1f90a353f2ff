package page

import (
	"fmt"
	"math"

	"pourboard/layout"
)

// A Value is what a place of a map shows. Its class is shown three ways, since
// paper, printers and eyes differ: by grey, by squares, and by the text itself.
type Value struct {
	Text  string
	Class int // from 0, the lightest; -1 for none
}

// Measures of a map of values, mm, and its darkest grey: figures on that are still
// black on light.
const (
	darkest = 0.62
	pip     = 1.3 // side of a square
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
func (f *Flow) Values(title string, of func(wide float64) layout.Map, values []Value, classes int, rest float64) {
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
			f.Page.Value(r, fmt.Sprint(at.Cup), values[at.Cup-1], classes)
		}
		return
	}
	f.Heading(title, 10)
	f.Para(Regular(Body), "Too many cups for a map on this paper. The command's tables have them.")
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

// Value draws a place: its name small, its class of so many, and its text.
func (p *Page) Value(r Rect, name string, v Value, classes int) {
	if v.Class >= 0 {
		p.Shade(r, 1-(1-darkest)*float64(v.Class)/float64(max(1, classes-1)))
	}
	p.Box(r, Thin)
	small := Regular(Least)
	p.Text(Rect{X: r.X + 0.6, Y: r.Y + 0.3, W: r.W - 1, H: small.LineH()}, small, name)
	if 1.5*pip*float64(classes)+p.doc.Width(name, small)+1.5 < r.W {
		for i := range v.Class + 1 {
			p.Shade(Rect{X: r.Right() - 0.7 - pip - 1.5*pip*float64(i), Y: r.Y + 0.3 + (small.LineH()-pip)/2, W: pip, H: pip}, 0)
		}
	}
	rest := Rect{X: r.X + 0.5, Y: r.Y + small.LineH(), W: r.W - 1, H: r.H - small.LineH()}
	p.Text(rest, Bold(max(Least, min(13, math.Floor(rest.H/MMPerPt)))).To(Centre), v.Text)
}
