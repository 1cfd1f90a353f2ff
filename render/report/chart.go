package report

import (
	"fmt"
	"math"

	"pourboard/blend/results"
	"pourboard/render/page"
	"pourboard/render/wording"
)

// Of a chart, mm.
const (
	chartGap  = 8.0
	cornerH   = 8.0 // of the names at the corners
	chartHead = 14.0
	dot       = 0.7 // radius of a cup
	reach     = 2.2 // of the ring around the highest
)

// small is that of figures in a chart or a map.
var small = page.Regular(page.Least)

// A triangle is the drawing of one chart: the triangle of three ends.
type triangle struct {
	p     *page.Page
	d     *page.Doc
	chart results.Chart
	least [3]float64 // of each end's share in the triangle drawn
	free  float64    // the share that is left over those
	base  page.Rect  // around the triangle
	taken []page.Rect
}

// charts draws the prediction of a model and its standard error, side by side.
func (p *report) charts(f *page.Flow, m *results.Measure, model results.Model) {
	chart, ok := p.r.Chart(&model)
	if !ok || len(chart.Means) == 0 {
		return // on one line there are no contours
	}
	in := f.Page.Inside()
	side := min(86, (in.W-chartGap)/2-8)
	high := side*math.Sqrt(3)/2 + chartHead + cornerH
	key := "Dots: cups read. Ring: highest prediction."
	if model.Lowest != nil {
		key += " Square: lowest."
	}
	f.Need(high + 6)
	f.Para(fine, key+" Nothing is drawn beyond the cups that were read.")
	left, right := f.Split(0.5-chartGap/2/in.W, chartGap)
	p.chart(left, high, side, chart, chart.Means, m.Head+" on "+wording.BodyText(p.r, model.Body)+", predicted", m, model)
	p.chart(right, high, side, chart, chart.Errors, "Standard error of the prediction", m, model)
	f.Join(left, right)
	f.Y += 2
}

// chart draws one triangle with its contours.
func (p *report) chart(f *page.Flow, high, side float64, chart results.Chart, lines []results.Line, title string, m *results.Measure, model results.Model) {
	r := f.Take(high)
	f.Page.Text(page.Rect{X: r.X, Y: r.Y, W: r.W, H: 5}, strong, title)
	t := &triangle{p: f.Page, d: p.doc, chart: chart, base: page.Rect{X: r.X + (r.W-side)/2, Y: r.Y + chartHead, W: side, H: side * math.Sqrt(3) / 2}}
	for i := range t.least {
		t.least[i] = chart.Corners[(i+1)%3][i]
	}
	t.free = chart.Corners[0][0] - t.least[0]
	p.corners(r, t)
	for i, n := range chart.Nodes { // dots where the triangle goes beyond the cups that were read
		if !n.Inside && i%2 == 0 {
			q := t.at(n.Shares)
			t.p.Line(q.X-0.1, q.Y, q.X+0.1, q.Y, page.Hair)
		}
	}
	t.line(append(chart.Corners[:], chart.Corners[0]), page.Medium)
	for _, line := range lines {
		for _, piece := range line.Pieces {
			t.line(piece[:], page.Thin)
		}
	}
	var read []int
	for i := range p.test.Cells {
		mixture := p.r.Point(i + 1)
		if !t.contains(mixture) {
			continue
		}
		if r := t.keep(mixture, dot); p.wasRead(m, model.Body, i) {
			t.p.Disc(r)
			read = append(read, i+1)
		} else {
			t.p.Circle(r, page.Hair)
		}
	}
	t.p.Circle(t.keep(model.Highest.Point, reach), page.Thick)
	if model.Lowest != nil {
		t.p.Box(t.keep(model.Lowest.Point, reach), page.Thick)
	}
	for _, line := range lines {
		t.label(line.Pieces, wording.LevelText(line))
	}
	for _, cup := range read {
		at := t.at(p.r.Point(cup))
		w, h := p.doc.Width(fmt.Sprint(cup), small)+0.2, small.CapMM()+0.4
		for _, q := range []page.Point{{X: dot + 0.3, Y: -h - 0.2}, {X: -dot - 0.3 - w, Y: -h - 0.2}, {X: dot + 0.3, Y: 0.2}, {X: -dot - 0.3 - w, Y: 0.2}} {
			if t.write(page.Rect{X: at.X + q.X, Y: at.Y + q.Y, W: w, H: h}, fmt.Sprint(cup), false) {
				break
			}
		}
	}
}

// wasRead says whether the measure was read of a cup, by its index, on a body
// or on any.
func (p *report) wasRead(m *results.Measure, b, i int) bool {
	for body, means := range m.Means {
		if (b == results.AllBodies || b == body) && means[i].N > 0 {
			return true
		}
	}
	return false
}

// at is a mixture's place: the first corner is the top, the second the lower left.
func (t *triangle) at(shares []float64) page.Point {
	first, third := (shares[0]-t.least[0])/t.free, (shares[2]-t.least[2])/t.free
	return page.Point{X: t.base.X + (first/2+third)*t.base.W, Y: t.base.Bottom() - first*t.base.H}
}

// line draws a line through mixtures.
func (t *triangle) line(mixtures [][]float64, pen page.Pen) {
	var at []page.Point
	for _, shares := range mixtures {
		at = append(at, t.at(shares))
	}
	t.p.Lines(pen, at...)
}

// contains reports whether a mixture lies in the triangle drawn.
func (t *triangle) contains(shares []float64) bool {
	for i, least := range t.least {
		if shares[i] < least-1e-9 {
			return false
		}
	}
	return true
}

// keep is the square so far around a mixture, which texts then keep off.
func (t *triangle) keep(shares []float64, reach float64) page.Rect {
	at := t.at(shares)
	r := page.Rect{X: at.X - reach, Y: at.Y - reach, W: 2 * reach, H: 2 * reach}
	t.taken = append(t.taken, r)
	return r
}

// write writes a text where that meets nothing, clear of lines if need be, and
// reports whether it did.
func (t *triangle) write(r page.Rect, text string, clear bool) bool {
	for _, o := range t.taken {
		if r.X < o.Right() && o.X < r.Right() && r.Y < o.Bottom() && o.Y < r.Bottom() {
			return false
		}
	}
	t.taken = append(t.taken, r)
	if clear {
		t.p.Shade(r, 1)
	}
	t.p.Text(r, small.To(page.Centre), text)
	return true
}

// label writes the level of a contour on it, as near to its middle as there is
// room within the triangle.
func (t *triangle) label(line [][2][]float64, text string) {
	w, h := t.d.Width(text, small)+0.6, small.CapMM()+0.8
	for i := range line {
		k := len(line)/2 + (i+1)/2*(1-2*(i%2)) // from the middle to the ends
		if k < 0 || k >= len(line) {
			continue
		}
		at := t.at(line[k][0])
		r := page.Rect{X: at.X - w/2, Y: at.Y - h/2, W: w, H: h}
		if r.X > t.base.X && r.Right() < t.base.Right() && r.Bottom() < t.base.Bottom() && t.write(r, text, true) {
			return
		}
	}
}

// corners names the corners: beside the top, and below the base.
func (p *report) corners(r page.Rect, t *triangle) {
	const aside = 4.0
	style := page.Bold(page.Small)
	name := func(r page.Rect, s page.Style, corner int) {
		t.p.Fitted(r, s, wording.MixtureText(p.r, t.chart.Corners[corner]))
	}
	top := t.at(t.chart.Corners[0])
	first := page.Rect{X: top.X + aside, Y: top.Y - cornerH, W: r.Right() - top.X - aside, H: cornerH}
	name(first, style, 0)
	t.taken = append(t.taken, first)
	half := r.W/2 - 1
	name(page.Rect{X: r.X, Y: t.base.Bottom() + 2.5, W: half, H: cornerH - 2}, style, 1)
	name(page.Rect{X: r.Right() - half, Y: t.base.Bottom() + 2.5, W: half, H: cornerH - 2}, style.To(page.Right), 2)
}
