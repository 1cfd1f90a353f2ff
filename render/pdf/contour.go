package pdf

import (
	"math"

	"pourboard/layout/crate"
)

// A triangle is the drawing of one chart: a plot whose axes go from 0 to 1
// across the base and from the base to the top.
type triangle struct {
	*plot
	chart crate.Chart
	least [3]float64 // of each end's share in the triangle drawn
	free  float64    // the share that is left over those
}

var (
	contourFont = regular(8)
	contourPen  = pen{mm: 0.3, grey: 0.25}
)

// charts draws the prediction of a model and its standard error, one above the
// other on a page of their own.
func (p *report) charts(f *flow, m *crate.Measure, model crate.Model) {
	c, ok := p.r.Chart(&model)
	if !ok {
		return
	}
	if len(c.Means) == 0 {
		f.para("No contours are drawn: the cups that were read lie on one line.", regular(benchPt))
		return
	}
	f.need(f.bottom() - marginMM)
	on := m.Head + " on " + p.r.BodyText(model.Body)
	title := on + ": contours"
	f.doc.bookmark(1, title)
	key := "Crosses are the cups that were read"
	if p.unread(m, model.Body) != nil {
		key += ", small circles those that were not"
	}
	key += "; the ring is at the highest prediction"
	if model.Lowest != nil {
		key += ", the square at the lowest"
	}
	f.lines(title, bold(13), left, 0)
	f.space(1)
	f.para(key+". Nothing is drawn beyond the cups that were read.", regular(benchPt))
	each := f.room() / 2
	crowded := p.chart(f, each, "Predicted "+m.Head, c, c.Means, m, model)
	if len(c.Errors) == 0 {
		f.para("The standard error of the prediction is the same everywhere, or nil.", regular(benchPt))
	} else {
		crowded = p.chart(f, each, "Standard error of the prediction", c, c.Errors, m, model) || crowded
	}
	if crowded {
		f.para("Numbers of cups that had no room are left out.", regular(deskPt))
	}
}

// unread are the cups that the measure was not read of on a body.
func (p *report) unread(m *crate.Measure, body int) (cups []int) {
	for i := range p.test.Cells {
		if !p.wasRead(m, body, i) {
			cups = append(cups, i+1)
		}
	}
	return cups
}

// wasRead says of a cup, by its index, whether the measure was read of it on a
// body, or on any.
func (p *report) wasRead(m *crate.Measure, body, i int) bool {
	if body != crate.AllBodies {
		return m.Means[body][i].N > 0
	}
	for _, means := range m.Means {
		if means[i].N > 0 {
			return true
		}
	}
	return false
}

// chart draws one triangle in a height; it says whether numbers of cups had no
// room.
func (p *report) chart(f *flow, heightMM float64, title string, c crate.Chart, lines []crate.Line, m *crate.Measure, model crate.Model) (crowded bool) {
	const cornerMM = 10.0 // of the names at the corners
	f.lines(title, bold(benchPt), left, 0)
	top := f.y + cornerMM/2 + 1
	side := min((heightMM-2*cornerMM-12)/(math.Sqrt(3)/2), f.width()-24)
	height := side * math.Sqrt(3) / 2
	t := newTriangle(f.page, c, f.left()+(f.width()-side)/2, top, side, height)

	p.cornerNames(f, t)
	t.outside()
	f.page.polygon([]point{t.at(c.Surface.Corners[0]), t.at(c.Surface.Corners[1]), t.at(c.Surface.Corners[2])}, medium)
	for _, line := range lines {
		for _, part := range line.Lines {
			t.polyline(part)
		}
	}
	var read []plotted
	for i := range p.test.Cells {
		x, y := t.unit(p.r.Point(i + 1))
		if p.wasRead(m, model.Body, i) {
			read = append(read, plotted{x: x, y: y, cells: []int{i + 1}})
			t.keep(t.place(x, y), crossMM)
		} else if t.holds(p.r.Point(i + 1)) {
			at := t.place(x, y)
			f.page.circle(at.x, at.y, 0.6, thin)
			t.keep(at, 0.6)
		}
	}
	t.best(model)
	for _, line := range lines {
		for _, part := range line.Lines {
			t.label(part, line.Text)
		}
	}
	crowded = len(t.points(read)) > 0
	f.y = top + height + cornerMM + 4
	return crowded
}

func newTriangle(at *page, c crate.Chart, x, y, w, h float64) *triangle {
	t := &triangle{plot: &plot{page: at, x: x, y: y, w: w, h: h, hiX: 1, hiY: 1}, chart: c}
	for i := range t.least {
		t.least[i] = c.Surface.Corners[(i+1)%3][i]
	}
	t.free = c.Surface.Corners[0][0] - t.least[0]
	return t
}

// unit is a mixture's place in the triangle: the first corner is the top, the
// second the lower left.
func (t *triangle) unit(shares []float64) (x, y float64) {
	first, third := (shares[0]-t.least[0])/t.free, (shares[2]-t.least[2])/t.free
	return first/2 + third, first
}

func (t *triangle) at(shares []float64) point { return t.place(t.unit(shares)) }

// holds says whether a mixture lies in the triangle drawn.
func (t *triangle) holds(shares []float64) bool {
	for i, least := range t.least {
		if shares[i] < least-1e-9 {
			return false
		}
	}
	return true
}

// keep keeps texts off a mark that reaches so far.
func (t *triangle) keep(at point, reach float64) {
	t.taken = append(t.taken, occupied{at.x - reach, at.y - reach, at.x + reach, at.y + reach})
}

// outside dots what of the triangle lies beyond the cups that were read.
func (t *triangle) outside() {
	for i, n := range t.chart.Nodes {
		if !n.Inside && i%2 == 0 {
			at := t.at(n.Shares)
			t.page.line(at.x-0.1, at.y, at.x+0.1, at.y, pen{mm: 0.2, grey: 0.5})
		}
	}
}

func (t *triangle) polyline(line [][]float64) {
	for i := 1; i < len(line); i++ {
		a, b := t.at(line[i-1]), t.at(line[i])
		t.page.line(a.x, a.y, b.x, b.y, contourPen)
	}
}

// label writes the level of a contour on it, as near to its middle as there is
// room.
func (t *triangle) label(line [][]float64, text string) {
	w := t.page.doc.width(text, contourFont)
	drop := (contourFont.ascentMM() - contourFont.descentMM()) / 2
	for i := range line {
		k := len(line)/2 + (i+1)/2*(1-2*(i%2)) // from the middle to the ends
		if k < 0 || k >= len(line) {
			continue
		}
		at := t.at(line[k])
		b := t.textBox(at.x-w/2, at.y+drop, text, contourFont)
		if b.x0 < t.x || b.x1 > t.x+t.w || b.y0 < t.y || b.y1 > t.y+t.h || t.meets(b) {
			continue
		}
		t.page.fillRect(b.x0, b.y0+0.3, b.x1-b.x0, b.y1-b.y0-0.6, 1)
		t.page.text(b.x0, at.y+drop, text, contourFont, left)
		t.taken = append(t.taken, b)
		return
	}
}

// best marks the predicted extremes.
func (t *triangle) best(model crate.Model) {
	const reach = 2.2
	at := t.at(model.Highest.Point)
	t.page.circle(at.x, at.y, reach, thick)
	t.keep(at, reach)
	if model.Lowest != nil {
		at := t.at(model.Lowest.Point)
		t.page.rect(at.x-reach, at.y-reach, 2*reach, 2*reach, thick)
		t.keep(at, reach)
	}
}

// cornerNames says what the corners are: above the top, and below the base.
func (p *report) cornerNames(f *flow, t *triangle) {
	const hMM, gapMM = 10.0, 2.5 // clear of a ring at the corner
	ft := bold(deskPt)
	half := f.width()/2 - 2
	top := t.place(0.5, 1)
	f.page.textIn(top.x+4, t.y-hMM/2-1, f.right()-top.x-4, hMM/2, t.chart.Corners[0], ft, 5, left)
	f.page.textIn(f.left(), t.y+t.h+gapMM, half, hMM, t.chart.Corners[1], ft, 5, left)
	f.page.textIn(f.right()-half, t.y+t.h+gapMM, half, hMM, t.chart.Corners[2], ft, 5, right)
}
