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
)

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
	top := f.Rest()
	for k, lines := range [][]results.Line{chart.Means, chart.Errors} {
		title := m.Head + " on " + wording.BodyText(p.r, model.Body) + ", predicted"
		if k == 1 {
			title = "Standard error of the prediction"
		}
		r := page.Rect{X: top.X + float64(k)*(in.W+chartGap)/2, Y: top.Y, W: (in.W - chartGap) / 2, H: high}
		f.Page.Text(page.Rect{X: r.X, Y: r.Y, W: r.W, H: 5}, strong, title)
		p.chart(f.Page, r, side, chart, lines, m, model)
	}
	f.Y += high + 2
}

// chart draws one triangle in a rectangle.
func (p *report) chart(at *page.Page, r page.Rect, side float64, chart results.Chart, lines []results.Line, m *results.Measure, model results.Model) {
	t := &triangle{p: at, d: p.doc, chart: chart, base: page.Rect{X: r.X + (r.W-side)/2, Y: r.Y + chartHead, W: side, H: side * math.Sqrt(3) / 2}}
	for i := range t.least {
		t.least[i] = chart.Corners[(i+1)%3][i]
	}
	t.free = chart.Corners[0][0] - t.least[0]
	p.corners(r, t)
	t.outline()
	for _, line := range lines {
		for _, piece := range line.Pieces {
			at.Lines(page.Thin, t.all(piece[:])...)
		}
	}
	read := p.dots(t, m, model)
	t.extremes(model)
	for _, line := range lines {
		t.label(line.Pieces, wording.LevelText(line))
	}
	for _, cup := range read {
		t.number(t.at(p.r.Point(cup)), fmt.Sprint(cup))
	}
}

// outline draws the triangle, and dots where it goes beyond the cups that were read.
func (t *triangle) outline() {
	for i, n := range t.chart.Nodes {
		if !n.Inside && i%2 == 0 {
			q := t.at(n.Shares)
			t.p.Line(q.X-0.1, q.Y, q.X+0.1, q.Y, page.Hair)
		}
	}
	at := t.all(t.chart.Corners[:])
	t.p.Lines(page.Medium, append(at, at[0])...)
}

// dots draws the cups in the triangle, those that were read filled, and gives
// their numbers.
func (p *report) dots(t *triangle, m *results.Measure, model results.Model) (read []int) {
	for i := range p.test.Cells {
		mixture := p.r.Point(i + 1)
		if !t.contains(mixture) {
			continue
		}
		q := t.at(mixture)
		t.keep(q, dot)
		if r := (page.Rect{X: q.X - dot, Y: q.Y - dot, W: 2 * dot, H: 2 * dot}); p.wasRead(m, model.Body, i) {
			t.p.Disc(r)
			read = append(read, i+1)
		} else {
			t.p.Circle(r, page.Hair)
		}
	}
	return read
}

// wasRead says whether the measure was read of a cup, by its index, on a body
// or on any.
func (p *report) wasRead(m *results.Measure, b, i int) bool {
	if b != results.AllBodies {
		return m.Means[b][i].N > 0
	}
	for _, means := range m.Means {
		if means[i].N > 0 {
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

// all is the places of some mixtures.
func (t *triangle) all(mixtures [][]float64) []page.Point {
	var at []page.Point
	for _, shares := range mixtures {
		at = append(at, t.at(shares))
	}
	return at
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

// keep keeps texts off a mark that reaches so far.
func (t *triangle) keep(at page.Point, reach float64) {
	t.taken = append(t.taken, page.Rect{X: at.X - reach, Y: at.Y - reach, W: 2 * reach, H: 2 * reach})
}

// isFree reports whether a rectangle meets nothing, and takes it if so.
func (t *triangle) isFree(r page.Rect) bool {
	for _, o := range t.taken {
		if r.X < o.Right() && o.X < r.Right() && r.Y < o.Bottom() && o.Y < r.Bottom() {
			return false
		}
	}
	t.taken = append(t.taken, r)
	return true
}

// label writes the level of a contour on it, as near to its middle as there is
// room.
func (t *triangle) label(line [][2][]float64, text string) {
	style := page.Regular(page.Least)
	w, h := t.d.Width(text, style)+0.6, style.CapMM()+0.8
	for i := range line {
		k := len(line)/2 + (i+1)/2*(1-2*(i%2)) // from the middle to the ends
		if k < 0 || k >= len(line) {
			continue
		}
		at := t.at(line[k][0])
		r := page.Rect{X: at.X - w/2, Y: at.Y - h/2, W: w, H: h}
		if r.X < t.base.X || r.Right() > t.base.Right() || r.Bottom() > t.base.Bottom() || !t.isFree(r) {
			continue
		}
		t.p.Shade(r, 1)
		t.p.Text(r, style.To(page.Centre), text)
		return
	}
}

// number writes a cup's number beside its dot where there is room.
func (t *triangle) number(at page.Point, text string) {
	style := page.Regular(page.Least)
	w, h := t.d.Width(text, style)+0.2, style.CapMM()+0.4
	for _, r := range []page.Rect{{X: at.X + dot + 0.3, Y: at.Y - h - 0.2}, {X: at.X - dot - 0.3 - w, Y: at.Y - h - 0.2}, {X: at.X + dot + 0.3, Y: at.Y + 0.2}, {X: at.X - dot - 0.3 - w, Y: at.Y + 0.2}} {
		r.W, r.H = w, h
		if t.isFree(r) {
			t.p.Text(r, style.To(page.Centre), text)
			return
		}
	}
}

// extremes marks the predicted highest and lowest.
func (t *triangle) extremes(model results.Model) {
	const reach = 2.2
	at := t.at(model.Highest.Point)
	t.p.Circle(page.Rect{X: at.X - reach, Y: at.Y - reach, W: 2 * reach, H: 2 * reach}, page.Thick)
	t.keep(at, reach)
	if model.Lowest != nil {
		at := t.at(model.Lowest.Point)
		t.p.Box(page.Rect{X: at.X - reach, Y: at.Y - reach, W: 2 * reach, H: 2 * reach}, page.Thick)
		t.keep(at, reach)
	}
}

// corners names the corners: beside the top, and below the base.
func (p *report) corners(r page.Rect, t *triangle) {
	const aside = 4.0
	style := page.Bold(page.Small)
	top := t.at(t.chart.Corners[0])
	var names [3]string
	for i, c := range t.chart.Corners {
		names[i] = wording.MixtureText(p.r, c)
	}
	first := page.Rect{X: top.X + aside, Y: top.Y - cornerH, W: r.Right() - top.X - aside, H: cornerH}
	t.p.Fitted(first, style, names[0])
	t.taken = append(t.taken, first)
	half := r.W/2 - 1
	t.p.Fitted(page.Rect{X: r.X, Y: t.base.Bottom() + 2.5, W: half, H: cornerH - 2}, style, names[1])
	t.p.Fitted(page.Rect{X: r.Right() - half, Y: t.base.Bottom() + 2.5, W: half, H: cornerH - 2}, style.To(page.Right), names[2])
}
