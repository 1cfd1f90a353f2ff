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

type kind int

const (
	lineItem   kind = iota // at[0] to at[1]
	fillItem               // polygon, filled with grey
	polyItem               // polygon, outline
	boxItem                // outline of the rectangle from at[0] to at[1]
	circleItem             // about at[0]
	textItem               // its baseline begins at at[0]
)

// An item is one thing drawn. Nothing depends on the items before it.
type item struct {
	kind   kind
	at     []Point
	pen    Pen
	grey   float64
	radius float64
	text   string
	style  Style
	turn   float64 // degrees counter-clockwise, of text
	width  float64 // mm, of text
}

func (p *Page) add(i item) { p.items = append(p.items, i) }

// Line draws a straight line.
func (p *Page) Line(x1, y1, x2, y2 float64, pen Pen) {
	p.add(item{kind: lineItem, at: []Point{{x1, y1}, {x2, y2}}, pen: pen})
}

// Rule draws a line along the top of a rectangle.
func (p *Page) Rule(r Rect, pen Pen) { p.Line(r.X, r.Y, r.Right(), r.Y, pen) }

// Box draws the outline of a rectangle.
func (p *Page) Box(r Rect, pen Pen) {
	p.add(item{kind: boxItem, pen: pen, at: []Point{{r.X, r.Y}, {r.Right(), r.Bottom()}}})
}

func corners(r Rect) []Point {
	return []Point{{r.X, r.Y}, {r.Right(), r.Y}, {r.Right(), r.Bottom()}, {r.X, r.Bottom()}}
}

// Tick is the side in mm of every box to tick.
const Tick = 5.0

// Tick draws an empty box to tick in the middle of a rectangle's height, at its left.
func (p *Page) Tick(r Rect) {
	p.Box(Rect{X: r.X, Y: r.Y + (r.H-Tick)/2, W: Tick, H: Tick}, Medium)
}

// Shade fills a rectangle with a grey, 0 black to 1 white.
func (p *Page) Shade(r Rect, grey float64) { p.Fill(corners(r), grey) }

// Fill fills a polygon with a grey, 0 black to 1 white.
func (p *Page) Fill(at []Point, grey float64) { p.add(item{kind: fillItem, at: at, grey: grey}) }

// Outline draws the outline of a polygon.
func (p *Page) Outline(at []Point, pen Pen) { p.add(item{kind: polyItem, at: at, pen: pen}) }

// Circle draws the circle that fills a square.
func (p *Page) Circle(r Rect, pen Pen) {
	p.add(item{kind: circleItem, at: []Point{{r.X + r.W/2, r.Y + r.H/2}}, radius: r.W / 2, pen: pen})
}

// Disc fills a circle with a grey: a polygon that strays less than 0.01 mm from it.
func (p *Page) Disc(x, y, radius, grey float64) {
	n := 8
	if radius > 0.02 {
		n = max(n, 4*int(math.Ceil(math.Pi/math.Acos(1-0.01/radius)/4)))
	}
	at := make([]Point, n)
	for i := range at {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(n))
		at[i] = Point{x + radius*cos, y + radius*sin}
	}
	p.Fill(at, grey)
}

// Arrow draws a line with a filled head at its second end.
func (p *Page) Arrow(x1, y1, x2, y2 float64, pen Pen) {
	length := math.Hypot(x2-x1, y2-y1)
	if length == 0 {
		return
	}
	ux, uy := (x2-x1)/length, (y2-y1)/length
	head := min(length, max(2.5, 5*pen.MM))
	bx, by := x2-ux*head, y2-uy*head
	p.Line(x1, y1, bx, by, pen)
	p.Fill([]Point{{x2, y2}, {bx - uy*head*0.4, by + ux*head*0.4}, {bx + uy*head*0.4, by - ux*head*0.4}}, 0)
}

// Text sets one line of text in a rectangle, its figures in the middle of the
// height. A text that is too wide is set smaller, down to Least; one that is
// still too wide is shortened, and Cut lists it.
func (p *Page) Text(r Rect, s Style, text string) {
	d := p.doc
	text = d.clean(text)
	w := d.width(text, s)
	if w > r.W+1e-6 {
		s.Pt = max(min(s.Pt, Least), math.Floor(s.Pt*r.W/w*10)/10)
		if w = d.width(text, s); w > r.W+1e-6 {
			text = d.shorten(text, s, r.W)
			w = d.width(text, s)
		}
	}
	p.set(r.X+lead(s.Align, r.W, w), r.Y+r.H/2+capEm/2*s.Pt*MMPerPt, s, text, w, 0)
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
	text = p.doc.clean(text)
	w := p.doc.width(text, s)
	p.set(x+lead(s.Align, 0, w), y, s, text, w, 0)
}

// Up sets a text that runs upwards, to be read from the right, centred on x, y.
func (p *Page) Up(x, y float64, s Style, text string) {
	text = p.doc.clean(text)
	w := p.doc.width(text, s)
	p.set(x+capEm/2*s.Pt*MMPerPt, y+w/2, s, text, w, 90)
}

func (p *Page) set(x, y float64, s Style, text string, w, turn float64) {
	if text != "" {
		p.add(item{kind: textItem, at: []Point{{x, y}}, text: text, style: s, turn: turn, width: w})
	}
}

// Para sets a text in lines from the top of a rectangle, as many as it takes,
// and gives the y below the last.
func (p *Page) Para(r Rect, s Style, text string) float64 {
	y := r.Y
	for _, line := range p.doc.Lines(text, s, r.W) {
		w := p.doc.width(line, s)
		p.set(r.X+lead(s.Align, r.W, w), y+ascentEm*s.Pt*MMPerPt, s, line, w, 0)
		y += s.LineH()
	}
	return y
}

// Fitted sets a text in lines within a rectangle, centred in its height, in
// the largest size up to the style's that it fits in; what does not fit at Least
// is shortened, and Cut lists it.
func (p *Page) Fitted(r Rect, s Style, text string) {
	d := p.doc
	lines := d.Lines(text, s, r.W)
	for s.Pt > Least && (float64(len(lines))*s.LineH() > r.H+1e-6 || d.broken(text, s, r.W)) {
		s.Pt = max(Least, s.Pt-0.5)
		lines = d.Lines(text, s, r.W)
	}
	if most := max(1, int((r.H+1e-6)/s.LineH())); len(lines) > most {
		rest := lines[most-1] + "…"
		for d.width(rest, s) > r.W && len([]rune(rest)) > 2 {
			runes := []rune(rest)
			rest = string(runes[:len(runes)-2]) + "…"
		}
		lines = append(lines[:most-1:most-1], rest)
		d.cut.add(text)
	}
	y := r.Y + (r.H-float64(len(lines))*s.LineH())/2
	for _, line := range lines {
		w := d.width(line, s)
		p.set(r.X+lead(s.Align, r.W, w), y+(ascentEm+(leadingEm-ascentEm-descentEm)/2)*s.Pt*MMPerPt, s, line, w, 0)
		y += s.LineH()
	}
}

// CapMM is the height of capitals and figures in a style, mm.
func (s Style) CapMM() float64 { return capEm * s.Pt * MMPerPt }
