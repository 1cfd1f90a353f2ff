package page

import "math"

// Pen is a black line.
type Pen struct {
	MM   float64   // width
	Dash []float64 // lengths of line and gap by turns, mm; none is a whole line
}

// The pens: a hair between rows, a line around boxes, a rule under heads.
var (
	Hair   = Pen{MM: 0.15}
	Thin   = Pen{MM: 0.25}
	Medium = Pen{MM: 0.4}
	Thick  = Pen{MM: 0.7}
)

// Dashed is the pen with a dash.
func (p Pen) Dashed(mm ...float64) Pen { p.Dash = mm; return p }

// Point is a place on a page, mm.
type Point struct{ X, Y float64 }

// Line draws a straight line.
func (p *Page) Line(x1, y1, x2, y2 float64, pen Pen) { p.Lines(pen, Point{x1, y1}, Point{x2, y2}) }

// Lines draws a line through some points.
func (p *Page) Lines(pen Pen, at ...Point) {
	p.stroke(pen)
	p.path(at)
	p.content.operator("S")
}

// Rule draws a line along the top of a rectangle.
func (p *Page) Rule(r Rect, pen Pen) { p.Line(r.X, r.Y, r.Right(), r.Y, pen) }

// Box draws the outline of a rectangle.
func (p *Page) Box(r Rect, pen Pen) {
	p.stroke(pen)
	x, y := p.x(r.X), p.y(r.Bottom())
	p.content.operator("re", x, y, p.x(r.Right())-x, p.y(r.Y)-y)
	p.content.operator("S")
}

// Tick is the side in mm of every box to tick.
const Tick = 5.0

// Tick draws an empty box to tick in the middle of a rectangle's height, at its left.
func (p *Page) Tick(r Rect) {
	p.Box(Rect{X: r.X, Y: r.Y + (r.H-Tick)/2, W: Tick, H: Tick}, Medium)
}

// Shade fills a rectangle with a grey, 0 black to 1 white.
func (p *Page) Shade(r Rect, grey float64) {
	p.fill(grey, Point{r.X, r.Y}, Point{r.Right(), r.Y}, Point{r.Right(), r.Bottom()}, Point{r.X, r.Bottom()})
}

// Corner fills the upper left half of a square black, cut from corner to corner.
func (p *Page) Corner(x, y, side float64) {
	p.fill(0, Point{x, y}, Point{x + side, y}, Point{x, y + side})
}

// fill fills a polygon.
func (p *Page) fill(grey float64, at ...Point) {
	p.content.fill(grey)
	p.path(at)
	p.content.operator("f")
}

// Circle draws the circle that fills a square.
func (p *Page) Circle(r Rect, pen Pen) {
	p.stroke(pen)
	p.round(r)
	p.content.operator("S")
}

// Disc fills the circle that fills a square.
func (p *Page) Disc(r Rect) {
	p.content.fill(0)
	p.round(r)
	p.content.operator("f")
}

// round goes around the circle that fills a square, in four curves that stray
// less than 0.03 % of its radius from it.
func (p *Page) round(r Rect) {
	const handle = 0.5523 // of the radius, 4/3·(√2 − 1)
	x, y, k := p.x(r.X+r.W/2), p.y(r.Y+r.H/2), p.x(r.Right())-p.x(r.X+r.W/2)
	p.content.operator("m", x+k, y)
	for _, q := range [][2]float64{{1, 0}, {0, 1}, {-1, 0}, {0, -1}} {
		a, b := q[0]*k, q[1]*k // the quarter goes from there to the left
		p.content.operator("c", x+a-handle*b, y+b+handle*a, x-b+handle*a, y+a+handle*b, x-b, y+a)
	}
}

// Arrow draws an arrow down the middle of a rectangle.
func (p *Page) Arrow(r Rect) {
	const wide, high = 3.6, 4.5 // of its head
	x, y := r.X+r.W/2, r.Bottom()
	p.Line(x, r.Y, x, y-high, Pen{MM: 0.9})
	p.fill(0, Point{x, y}, Point{x + wide/2, y - high}, Point{x - wide/2, y - high})
}

// Text sets one line of text in a rectangle, its figures in the middle of the
// height. A text that is too wide is set smaller, down to Least; one that is
// still too wide is shortened, and Cut lists it.
func (p *Page) Text(r Rect, s Style, text string) {
	s, text = p.doc.fit(r.W, s, p.doc.clean(text))
	p.line(r, r.Y+r.H/2+s.CapMM()/2, s, text)
}

// fit is Text without the drawing: the style and the text that go in w mm.
func (d *Doc) fit(w float64, s Style, text string) (Style, string) {
	if wide := d.width(text, s); wide > w+1e-6 {
		s.Pt = max(min(s.Pt, Least), math.Floor(s.Pt*w/wide*10)/10)
		if d.width(text, s) > w+1e-6 {
			d.cut.add(text)
			text = d.shortened(text, s, w)
		}
	}
	return s, text
}

// line sets a line that fits in a rectangle, with its baseline at y.
func (p *Page) line(r Rect, y float64, s Style, text string) {
	p.show(r.X+lead(s.Align, r.W, p.doc.width(text, s)), y, s, text, false)
}

// lead is the room before a text.
func lead(a Align, room, w float64) float64 {
	switch a {
	case Centre:
		return (room - w) / 2
	case Right:
		return room - w
	}
	return 0
}

// At sets a text with its baseline at y, and its left end, middle or right end
// at x as the style's alignment says, however wide it is.
func (p *Page) At(x, y float64, s Style, text string) {
	p.line(Rect{X: x}, y, s, p.doc.clean(text))
}

// Up sets a text that runs upwards, to be read from the right, centred on x, y.
func (p *Page) Up(x, y float64, s Style, text string) {
	text = p.doc.clean(text)
	p.show(x+s.CapMM()/2, y+p.doc.width(text, s)/2, s, text, true)
}

// Para sets a text in lines from the top of a rectangle, as many as it takes,
// and gives the y below the last.
func (p *Page) Para(r Rect, s Style, text string) float64 {
	for _, line := range p.doc.Lines(text, s, r.W) {
		p.line(r, r.Y+ascentEm*s.Pt*MMPerPt, s, line)
		r.Y += s.LineH()
	}
	return r.Y
}

// Fitted sets a text in lines within a rectangle, centred in its height, in
// the largest size up to the style's that it fits in; what does not fit at Least
// is shortened, and Cut lists it.
func (p *Page) Fitted(r Rect, s Style, text string) {
	s, lines := p.doc.fitLines(r, s, text)
	y := r.Y + (r.H-float64(len(lines))*s.LineH())/2 + (leadingEm+ascentEm-descentEm)/2*s.Pt*MMPerPt
	for _, line := range lines {
		p.line(r, y, s, line)
		y += s.LineH()
	}
}

// fitLines is Fitted without the drawing.
func (d *Doc) fitLines(r Rect, s Style, text string) (Style, []string) {
	lines := d.Lines(text, s, r.W)
	for s.Pt > Least && (float64(len(lines))*s.LineH() > r.H+1e-6 || d.broken(text, s, r.W)) {
		s.Pt = max(Least, s.Pt-0.5)
		lines = d.Lines(text, s, r.W)
	}
	most := max(1, int((r.H+1e-6)/s.LineH()))
	if len(lines) <= most {
		return s, lines
	}
	d.cut.add(text)
	return s, append(lines[:most-1:most-1], d.shortened(lines[most-1], s, r.W))
}
