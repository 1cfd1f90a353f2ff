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
	*report
	p     *page.Page
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
	for _, x := range []struct {
		f     *page.Flow
		title string
		lines []results.Line
	}{
		{left, m.Head + " on " + wording.BodyText(p.r, model.Body) + ", predicted", chart.Means},
		{right, "Standard error of the prediction", chart.Errors},
	} {
		r := x.f.Take(high)
		f.Page.Text(r.Upper(5), strong, x.title)
		t := &triangle{report: p, p: f.Page, chart: chart, base: r.Below(chartHead).Upper(side * math.Sqrt(3) / 2)}
		t.base.X, t.base.W = r.X+(r.W-side)/2, side
		for i := range t.least {
			t.least[i] = chart.Corners[(i+1)%3][i]
		}
		t.free = chart.Corners[0][0] - t.least[0]
		t.frame(r)
		t.draw(x.lines, m, model)
	}
	f.Join(left, right)
	f.Y += 2
}

// frame draws the triangle, and dots where it goes beyond the cups that were read. It
// names the corners: beside the top, and below the base.
func (t *triangle) frame(r page.Rect) {
	const aside = 4.0
	top, half, name := t.at(t.chart.Corners[0]), r.W/2-1, page.Bold(page.Small)
	first := page.Rect{X: top.X + aside, Y: top.Y - cornerH, W: r.Right() - top.X - aside, H: cornerH}
	second := page.Rect{X: r.X, Y: t.base.Bottom() + 2.5, W: half, H: cornerH - 2}
	third := page.Rect{X: r.Right() - half, Y: second.Y, W: half, H: second.H}
	t.p.Fitted(first, name, wording.MixtureText(t.r, t.chart.Corners[0]))
	t.p.Fitted(second, name, wording.MixtureText(t.r, t.chart.Corners[1]))
	t.p.Fitted(third, name.To(page.Right), wording.MixtureText(t.r, t.chart.Corners[2]))
	t.taken = append(t.taken, first)
	for i, n := range t.chart.Nodes {
		if !n.Inside && i%2 == 0 {
			q := t.at(n.Shares)
			t.p.Line(q.X-0.1, q.Y, q.X+0.1, q.Y, page.Hair)
		}
	}
	t.line(page.Medium, append(t.chart.Corners[:], t.chart.Corners[0])...)
}

// draw draws contours, cups and the highest and lowest prediction, and then what is
// written at each where there is room.
func (t *triangle) draw(lines []results.Line, m *results.Measure, model results.Model) {
	for _, line := range lines {
		for _, piece := range line.Pieces {
			t.line(page.Thin, piece[:]...)
		}
	}
	var read []int
	for i := range t.test.Cells {
		if t.wasRead(m, model.Body, i) {
			t.p.Disc(t.keep(t.r.Point(i+1), dot))
			read = append(read, i+1)
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
		at, text := t.at(t.r.Point(cup)), fmt.Sprint(cup)
		w, h := t.doc.Width(text, small)+0.2, small.CapMM()+0.4
		left, right, up, down := at.X-dot-0.3-w, at.X+dot+0.3, at.Y-h-0.2, at.Y+0.2
		for _, q := range []page.Point{{X: right, Y: up}, {X: left, Y: up}, {X: right, Y: down}, {X: left, Y: down}} {
			if t.write(page.Rect{X: q.X, Y: q.Y, W: w, H: h}, text, false) {
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
func (t *triangle) line(pen page.Pen, mixtures ...[]float64) {
	var at []page.Point
	for _, shares := range mixtures {
		at = append(at, t.at(shares))
	}
	t.p.Lines(pen, at...)
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
	w, h := t.doc.Width(text, small)+0.6, small.CapMM()+0.8
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
